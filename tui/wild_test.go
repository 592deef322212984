package tui

import (
	"context"
	"reflect"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
	"footplank/tui/edit"
)

var wildKeys = []string{
	"tab", "shift+tab", "up", "down", "left", "right", "shift+left", "shift+up", "ctrl+right", "ctrl+down", "enter", "esc", "space",
	"backspace", "pgup", "pgdown", "home", "end", "f1", "ctrl+c", "ctrl+s", "ctrl+r", "/", "1", "2", "3", "4", "t", "T", "o", "m", "p",
	"u", "r", "a", "l", "L", "f", "F", "w", "c", "v", "s", "S", "?", "q", "i", "d", "n", "e", "x", "k", "K", "kkc", "/ec", "n", "b", "+", "-", "0", "z", "M", "D", "y", "b", "g", "B", "W", "y", "b", "弓", "\u0301",
}

// Whatever is pressed, clicked or resized, nothing panics, no frame leaves the
// screen, and all edits together can be taken back.
func TestWildPlay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SampledFrom([][2]int{{80, 24}, {80, 24}, {100, 30}, {120, 40}, {230, 50}, {79, 23}, {20, 5}})
		opt := rapid.SampledFrom([]Options{{}, {NoColor: true}, {ASCII: true, NoColor: true}}).Draw(t, "theme")
		size := sizes.Draw(t, "size")
		p := wildPlayer(opt, size[0], size[1])
		for range rapid.IntRange(1, 60).Draw(t, "steps") {
			switch rapid.IntRange(0, 19).Draw(t, "kind") {
			case 0:
				size = sizes.Draw(t, "size")
				p.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
			case 1, 2, 5, 6:
				p.send(tea.MouseMsg{X: rapid.IntRange(-2, size[0]+2).Draw(t, "x"), Y: rapid.IntRange(-2, size[1]+2).Draw(t, "y"),
					Action: tea.MouseAction(rapid.IntRange(0, 2).Draw(t, "action")), Button: rapid.SampledFrom([]tea.MouseButton{tea.MouseButtonLeft,
						tea.MouseButtonLeft, tea.MouseButtonRight, tea.MouseButtonWheelUp, tea.MouseButtonWheelDown}).Draw(t, "button")})
			case 3:
				p.release()
			case 4:
				p.held = true
			default:
				p.keys(rapid.SampledFrom(wildKeys).Draw(t, "key"))
			}
			if rapid.IntRange(0, 3).Draw(t, "look") == 0 {
				requireInsideWild(t, p.m.View(), size[0], size[1])
			}
		}
		p.release()
		requireInsideWild(t, p.m.View(), size[0], size[1])
		for _, ok := p.m.history.Undo(); ok; _, ok = p.m.history.Undo() {
		}
		if !reflect.DeepEqual(p.m.history.Plan(), edit.New(trialPlan()).Plan()) {
			t.Fatal("undoing all does not give the first plan")
		}
	})
}

func wildPlayer(opt Options, w, h int) *player {
	opt.arrange, opt.sum, opt.fasten = lineUp, straightSum, stick
	opt.prepare, opt.compare, opt.print = dealt, threeBoards, noSheet
	d := &disk{}
	p := &player{m: newModel(context.Background(), d, "", trialPlan(), opt), disk: d}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	return p
}

// straightSum stands in for sumUp, which takes long: cables as they were laid by
// no one.
func straightSum(ctx context.Context, p *layout.Plan) (*sums, error) {
	s := &sums{plan: p, wiring: &wiring.Result{Reel: wiring.DefaultReel}}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		s.wiring.Wirings = append(s.wiring.Wirings, wiring.Wiring{Lineup: l.Name, Cables: wiring.Estimate(p, l)})
	}
	var err error
	s.power, err = power.Map(ctx, p)
	return s, err
}

func requireInsideWild(t *rapid.T, frame string, w, h int) {
	if why := outside(frame, w, h); why != "" {
		t.Fatal(why)
	}
}

// Plans that no one would write: no units, one odd line-up name after another,
// labels without end.
func TestOddPlansAreDrawn(t *testing.T) {
	for name, odd := range map[string]func(p *layout.Plan){
		"no units": func(p *layout.Plan) {
			p.Units, p.Slots, p.Chain = nil, nil, layout.Chain{}
			p.Lineups = []layout.Lineup{{Name: "all"}}
		},
		"long names": func(p *layout.Plan) {
			long := "a very long name that goes on and on 長い名前が続く and on without an end in sight whatever one does"
			p.Title = long + long + long
			for i := range p.Units {
				p.Units[i].Label = long
			}
			for i := range p.Lineups {
				p.Lineups[i].Name += long
			}
			p.Board.Risers[0].Name = long
			for i := range p.Units {
				if pl := p.Units[i].Place; pl != nil && pl.On == "shelf" {
					pl.On = long
				}
			}
		},
		"control characters": func(p *layout.Plan) {
			p.Title = "a\x1b[31mb\nc\u202ed"
			p.Units[0].Label = "\x1b]0;x\x07y"
			p.Lineups[0].Name = "b\tn"
		},
		"many line-ups": func(p *layout.Plan) {
			for i := range 60 {
				l := p.Lineups[i%2]
				l.Name = "line-up " + digits(i)
				p.Lineups = append(p.Lineups, l)
			}
		},
		"unknown surface": func(p *layout.Plan) { p.Unit("bow").Place.On = "moon" },
		"tiny board":      func(p *layout.Plan) { p.Board.W, p.Board.D = 1, 1 },
		"vast board":      func(p *layout.Plan) { p.Board.W, p.Board.D = layout.MaxLength, layout.MaxLength },
	} {
		t.Run(name, func(t *testing.T) {
			q := trialPlan()
			odd(q)
			for i, size := range [][2]int{{80, 24}, {220, 44}} {
				opt := Options{NoColor: true, ASCII: i == 1, arrange: lineUpAny, prepare: dealt, compare: threeBoards, print: noSheet}
				if len(q.Lineups) > 9 {
					opt.sum, opt.fasten = straightSum, stick // to wire sixty shows nothing more
				}
				d := &disk{}
				p := &player{t: t, m: newModel(context.Background(), d, "", q, opt), disk: d}
				p.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
				for _, k := range wildKeys {
					if k == "ctrl+c" || k == "q" {
						continue
					}
					p.keys(k)
					frame := p.m.View()
					requireInside(t, frame, size[0], size[1])
					if opt.ASCII {
						requireASCII(t, frame)
					}
				}
			}
		})
	}
}

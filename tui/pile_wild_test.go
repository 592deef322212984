package tui

import (
	"context"
	"reflect"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/plan"
	"footplank/tui/edit"
)

// wildPile is keys and words that lead through lists and forms.
var wildPile = []string{
	"P", "A", "E", "C", "N", "delete", "enter", "enter", "enter", "enter", "down", "down", "down", "up", "tab", "shift+tab", "left", "right", "shift+left",
	"shift+right", "shift+up", "shift+down", "esc", "esc", "home", "end", "pgup", "pgdown", "backspace", "ctrl+u", "ctrl+s", "space", "a", "a", "c", "x", "n",
	"u", "u", "r", "<", ">", "q", "?", "f1", "s", "t", "d", "l", "p", "1", "2", "73", "0", "-5", "1/2", "7 1/2in", "350g", "9", "€4", "shelf", "colour",
	"12 V, 18 V 100 mA", "b", "out1", "230", "y", "l", "barn", "compact", "supply", "deck", "90, 180", "IE", "弓", "\u0301", "in", "out", "a/b", "tuner", "100000", "all", "no",
}

// wildDoc is a plan that wild play begins with: a new one, every key of the format,
// or the example.
func wildDoc(t *rapid.T) *plan.Doc {
	switch rapid.IntRange(0, 2).Draw(t, "plan") {
	case 0:
		d, err := plan.New(plan.Answers{BoardW: 400 * mm, BoardD: 250 * mm, Surface: layout.Rails})
		if err != nil {
			t.Fatal(err)
		}
		return d
	case 1:
		e := plan.Examples()[1]
		d, err := plan.Parse(e.Name, e.Source, nil)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	return exampleDoc(quiet{})
}

// quiet is a test that goes on in a property.
type quiet struct{ testing.TB }

func (quiet) Fatal(args ...any) { panic(args) }

// Whatever is pressed, typed or clicked in lists and forms, nothing panics, every
// frame has exactly the size of the terminal, the plan can be written at any
// moment, and all edits together can be taken back.
func TestWildPile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := wildDoc(t)
		first := edit.New(doc.Plan).Plan()
		size := rapid.SampledFrom([][2]int{{80, 24}, {100, 30}, {200, 60}}).Draw(t, "size")
		opt := rapid.SampledFrom([]Options{{}, {NoColor: true}, {ASCII: true, NoColor: true}}).Draw(t, "theme")
		opt.arrange, opt.sum, opt.fasten = lineUpAny, straightSum, stick
		opt.prepare, opt.compare, opt.print = dealt, threeBoards, noSheet
		p := &player{m: newModel(context.Background(), &disk{}, "board.toml", doc.Plan, opt), disk: &disk{}}
		p.m.ed.base = doc
		p.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		begun := p.m.history
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			switch rapid.IntRange(0, 9).Draw(t, "kind") {
			case 0, 1:
				x, y := rapid.IntRange(0, size[0]).Draw(t, "x"), rapid.IntRange(0, size[1]).Draw(t, "y")
				p.dragFrom(tea.MouseButtonLeft, x, y, rapid.IntRange(-9, 9).Draw(t, "right"), 2)
			case 2:
				p.mouse(tea.MouseActionPress, tea.MouseButtonWheelDown, size[0]-5, 5)
			case 3:
				p.wildCard(t)
			default:
				p.keys(rapid.SampledFrom(wildPile).Draw(t, "key"))
			}
			if p.m.history != begun {
				return // another plan was opened
			}
			if rapid.IntRange(0, 2).Draw(t, "look") > 0 {
				continue
			}
			if f := p.m.View(); p.m.mode != reading {
				requireWhole(t, f, size[0], size[1])
			}
			if err := checked(doc, p.m.plan()); err != nil {
				t.Fatalf("the plan on screen cannot be written: %v", err)
			}
		}
		for _, ok := p.m.history.Undo(); ok; _, ok = p.m.history.Undo() {
		}
		if !reflect.DeepEqual(p.m.history.Plan(), first) {
			t.Fatal("undoing all does not give the first plan")
		}
	})
}

// wildCard opens the card of any unit on the board and goes somewhere in it: often
// to what it leads to.
func (p *player) wildCard(t *rapid.T) {
	units := p.m.history.Plan().Units
	if p.m.mode != onBoard || len(units) == 0 || p.m.offer != nil {
		return
	}
	p.m.selectUnit(units[rapid.IntRange(0, len(units)-1).Draw(t, "unit")].ID)
	p.keys("E")
	f := p.m.chosenForm()
	if f == nil {
		return
	}
	for range rapid.IntRange(0, len(f.Fields)).Draw(t, "down") {
		p.keys("down")
	}
	for i := 0; i < len(f.Fields) && f.Now().Leads == "" && rapid.IntRange(0, 9).Draw(t, "on") > 0; i++ {
		p.keys("down")
	}
	p.keys("enter")
}

// requireWhole wants a frame exactly as large as its terminal.
func requireWhole(t *rapid.T, frame string, w, h int) {
	lines := screenLines(frame)
	if len(lines) != h {
		t.Fatalf("%d lines on a screen of %d", len(lines), h)
	}
	for i, l := range lines {
		if n := cells(l); n != w {
			t.Fatalf("line %d is %d cells wide on a screen of %d: %q", i, n, w, l)
		}
	}
}

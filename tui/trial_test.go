package tui

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"sync"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/mount"
	"footplank/layout/plan"
	"footplank/pack"
)

const mm = layout.Millimetre

// trialPlan is a board that stays as it is whatever the examples and the
// arranger do: a shelf, a slot, two line-ups, a unit beneath the shelf, one
// that waits for a place, labels of wide and combining characters, and one
// collision, of Rasp and Echo in the line-up "barn".
func trialPlan() *layout.Plan {
	plug := layout.PlugForm{Name: "flat", Kind: layout.Phone, Out: 15 * mm, Width: 14 * mm}
	power := layout.PlugForm{Name: "barrel", Kind: layout.DC, Out: 20 * mm, Width: 10 * mm}
	unit := func(id, label string, w, d, h layout.Length, mount layout.Mount) layout.Unit {
		return layout.Unit{ID: id, Label: label, Mount: mount, Mass: 350 * layout.Gram,
			Body:     layout.Size{W: w * mm, D: d * mm, H: h * mm},
			Switches: []layout.Switch{{Name: "on", At: layout.Point{X: w * mm / 2, Y: 20 * mm}, Height: h * mm}},
			Draw:     &layout.Draw{Millivolts: 9000, Milliamps: 20},
			Turns:    []layout.Turn{0, 1, 2, 3},
			Jacks: []layout.Jack{
				{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: d * mm * 3 / 4, Height: 20 * mm, Plug: plug},
				{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: d * mm * 3 / 4, Height: 20 * mm, Plug: plug},
				{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: w * mm / 2, Height: 15 * mm, Plug: power},
			}}
	}
	at := func(u layout.Unit, on string, x, y layout.Length, t layout.Turn) layout.Unit {
		u.Place = &layout.Placement{On: on, At: layout.Point{X: x * mm, Y: y * mm}, Turn: t}
		return u
	}
	supply := unit("shed", "Engine Shed", 150, 70, 35, layout.Fixed)
	supply.Draw, supply.Switches, supply.Pinned = nil, nil, true
	supply.Jacks = nil
	for i, id := range []string{"out1", "out2", "out3", "out4"} {
		supply.Jacks = append(supply.Jacks, layout.Jack{ID: id, Kind: layout.DC, Signal: layout.Power, Dir: layout.Out,
			Wall: layout.Front, Along: layout.Length(20+35*i) * mm, Height: 15 * mm, Plug: power})
		supply.Outputs = append(supply.Outputs, layout.Output{Jack: id, Millivolts: 9000, Milliamps: 250, Isolated: true})
	}
	hall := at(unit("hall", "Grand Hall", 66, 110, 55, layout.Fixed), "shelf", 150, 190, 0)
	hall.Pinned = true
	p := &layout.Plan{
		Title: "Trial board", LengthUnit: layout.Millimetres,
		Board: layout.Board{W: 500 * mm, D: 320 * mm, Kind: layout.Solid, Thickness: 15 * mm, Density: 680, Feet: 10 * mm,
			Overhang: layout.Edges{Left: 15 * mm}, PlugRoom: layout.Edges{Left: 30 * mm, Right: 30 * mm, Back: 30 * mm},
			Risers: []layout.Riser{{Name: "shelf", At: layout.RectAt(layout.Point{X: 120 * mm, Y: 180 * mm}, 300*mm, 140*mm),
				Height: 60 * mm, Thickness: 9 * mm, Density: 680}}},
		Slots: []layout.Slot{{Name: "colour", On: layout.DeckName, At: layout.RectAt(layout.Point{X: 250 * mm, Y: 0}, 250*mm, 140*mm)}},
		Units: []layout.Unit{
			at(unit("tuner", "Peg Watch", 45, 90, 45, layout.Fixed), layout.DeckName, 440, 200, 0),
			hall,
			at(unit("bow", "弓 Löwe\u0301n", 66, 122, 61, layout.Fixed), layout.DeckName, 150, 10, 0),
			at(supply, layout.DeckName, 200, 230, 0),
			at(unit("lift", "Step Up", 45, 90, 45, layout.Fixed), layout.DeckName, 20, 120, 1),
			unit("late", "Late Comer", 60, 60, 40, layout.Fixed),
			at(unit("rasp", "Rasp", 66, 122, 60, layout.Swap), layout.DeckName, 420, 0, 0),
			at(unit("echo", "Echo", 70, 120, 55, layout.Swap), layout.DeckName, 340, 5, 0),
		},
		Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Unit: "tuner"}, {Slot: "colour"}, {Unit: "bow"},
			{Unit: "hall"}, {Unit: "lift"}, {Unit: layout.Desk}}},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"rasp", "echo"}}, Place: map[string]layout.Placement{}},
			{Name: "pit", Fill: map[string][]string{"colour": {"echo"}}, Place: map[string]layout.Placement{}},
		},
		Limits: layout.Limits{Mass: 23 * layout.Kilogram, Reach: 72 * mm, StepOver: 40 * mm, FootForce: 300},
		Power:  layout.PowerRules{Sharing: true}, // seven units, four outputs
	}
	r := &p.Board.Risers[0]
	r.Legs = r.EndPanels()
	return p
}

// disk is a keeper that keeps nothing and can be told to fail.
type disk struct {
	saves []string // "save" or a path, with "!" when overwriting
	last  *layout.Plan
	fail  error
}

func (d *disk) Save(p *layout.Plan) error { return d.note("save", p) }

func (d *disk) SaveAs(p *layout.Plan, path string, overwrite bool) error {
	if overwrite {
		path += "!"
	}
	return d.note(path, p)
}

func (d *disk) note(what string, p *layout.Plan) error {
	d.saves = append(d.saves, what)
	if d.fail != nil {
		return d.fail
	}
	d.last = p
	return nil
}

// player drives an editor by its messages and does its commands at once.
type player struct {
	t    testing.TB
	m    *Model
	disk *disk
	left bool      // the editor was left
	hold []tea.Cmd // commands kept back, when held is set
	held bool      // keep commands back
}

func newPlayer(t testing.TB, opt Options, w, h int) *player {
	d := &disk{}
	if opt.arrange == nil {
		opt.arrange = lineUp
	}
	p := &player{t: t, m: newModel(context.Background(), d, "board.toml", trialPlan(), opt), disk: d}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	return p
}

func (p *player) send(msg tea.Msg) {
	_, cmd := p.m.Update(msg)
	p.run(cmd)
}

func (p *player) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	if p.held {
		p.hold = append(p.hold, cmd)
		return
	}
	p.deliver(cmd())
}

// deliver hands a command's message to the editor.
func (p *player) deliver(msg tea.Msg) {
	switch msg := msg.(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			p.run(c)
		}
	case tea.QuitMsg:
		p.left = true
	default:
		p.send(msg)
	}
}

// release does the commands that were kept back.
func (p *player) release() {
	cmds := p.hold
	p.held, p.hold = false, nil
	for _, c := range cmds {
		p.run(c)
	}
}

var specialKeys = map[string]tea.KeyType{
	"tab": tea.KeyTab, "shift+tab": tea.KeyShiftTab, "enter": tea.KeyEnter, "esc": tea.KeyEsc, "backspace": tea.KeyBackspace,
	"up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight,
	"shift+up": tea.KeyShiftUp, "shift+down": tea.KeyShiftDown, "shift+left": tea.KeyShiftLeft, "shift+right": tea.KeyShiftRight,
	"ctrl+up": tea.KeyCtrlUp, "ctrl+down": tea.KeyCtrlDown, "ctrl+left": tea.KeyCtrlLeft, "ctrl+right": tea.KeyCtrlRight,
	"alt+left": tea.KeyLeft, "alt+up": tea.KeyUp,
	"ctrl+c": tea.KeyCtrlC, "ctrl+u": tea.KeyCtrlU, "delete": tea.KeyDelete, "ctrl+s": tea.KeyCtrlS, "ctrl+r": tea.KeyCtrlR, "space": tea.KeySpace,
	"pgup": tea.KeyPgUp, "pgdown": tea.KeyPgDown, "home": tea.KeyHome, "end": tea.KeyEnd, "f1": tea.KeyF1,
}

func keyOf(name string) tea.KeyMsg {
	if name == "space" {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if t, ok := specialKeys[name]; ok {
		return tea.KeyMsg{Type: t, Alt: strings.HasPrefix(name, "alt+")}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// keys presses keys, by name or by letter.
func (p *player) keys(names ...string) *player {
	for _, n := range names {
		p.send(keyOf(n))
	}
	return p
}

// click presses and lets go of the left button in a cell of the screen.
func (p *player) click(x, y int) *player {
	p.mouse(tea.MouseActionPress, tea.MouseButtonLeft, x, y)
	p.mouse(tea.MouseActionRelease, tea.MouseButtonLeft, x, y)
	return p
}

func (p *player) mouse(a tea.MouseAction, b tea.MouseButton, x, y int) {
	p.send(tea.MouseMsg{X: x, Y: y, Action: a, Button: b})
}

// dragFrom presses a button, goes to a place in two steps, and lets go.
func (p *player) dragFrom(b tea.MouseButton, x, y, right, down int) *player {
	p.mouse(tea.MouseActionPress, b, x, y)
	p.mouse(tea.MouseActionMotion, b, x+right/2, y+down/2)
	p.mouse(tea.MouseActionMotion, b, x+right, y+down)
	p.mouse(tea.MouseActionRelease, b, x+right, y+down)
	return p
}

// cellAt is where on the screen a place of the board is drawn.
func (p *player) cellAt(x, y float64) (col, row int) {
	at := layout.Point{X: layout.Length(x * float64(mm)), Y: layout.Length(y * float64(mm))}
	col, row, _ = p.m.drawing().Cell(at)
	return col + p.m.areas.board.x, row + p.m.areas.board.y
}

// text types letter by letter.
func (p *player) text(s string) *player {
	for _, r := range s {
		p.keys(string(r))
	}
	return p
}

// at is the place of a unit in the line-up on screen, in mm.
func (p *player) at(id string) [2]float64 {
	pl, ok := p.m.history.Plan().PlaceOf(p.m.edited(), p.m.history.Plan().Unit(id))
	if !ok {
		return [2]float64{-999, -999}
	}
	return [2]float64{pl.At.X.MM(), pl.At.Y.MM()}
}

// lineUp stands in for the arranger: it sets Late Comer down at 10, 10 and
// tells of its progress once.
func lineUp(ctx context.Context, p *layout.Plan, opt arrange.Options) (arrange.Result, error) {
	q := p.Clone()
	q.SetPlace(&q.Lineups[0], q.Unit("late"), layout.Placement{On: layout.DeckName, At: layout.Point{X: 10 * mm, Y: 10 * mm}})
	opt.Progress(arrange.Progress{Verdict: pack.Fits, Plan: q, Cable: arrange.Cable(q)})
	if err := ctx.Err(); errors.Is(err, context.Canceled) {
		return arrange.Result{Verdict: pack.Undecided}, nil
	}
	return arrange.Result{Verdict: pack.Fits, Plan: q}, nil
}

var _ keeper = (*document)(nil)

func exampleDoc(t testing.TB) *plan.Doc {
	e := plan.Examples()[0]
	doc, err := plan.Parse(e.Name, e.Source, nil)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// answered is what work answered for plans of the same content: frames are of few
// plans, over and over in other sizes and themes.
type answered[V any] struct {
	mu sync.Mutex
	of map[string]V
}

func (k *answered[V]) get(p *layout.Plan, work func() (V, error)) (V, error) {
	content, err := json.Marshal(p)
	if err != nil {
		return work()
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if v, ok := k.of[string(content)]; ok {
		return v, nil
	}
	v, err := work()
	if err == nil {
		if k.of == nil {
			k.of = map[string]V{}
		}
		k.of[string(content)] = v
	}
	return v, err
}

// sumOnce sums up plans of the same content once.
func sumOnce(work summer) summer {
	var all answered[*sums]
	return func(ctx context.Context, p *layout.Plan) (*sums, error) {
		s, err := all.get(p, func() (*sums, error) { return work(ctx, p) })
		if err != nil {
			return nil, err
		}
		mine := *s
		mine.plan = p
		return &mine, nil
	}
}

// stick stands in for mount.Lay: a strip of 20 mm along the front of every unit.
func stick(p *layout.Plan) *mount.Result {
	r := &mount.Result{}
	for i := range p.Lineups {
		placed, _ := p.Standings(&p.Lineups[i])
		for _, s := range placed {
			on := s.Unit.Base(s.Place)
			on.Y1 = on.Y0 + 20*mm
			r.Pieces = append(r.Pieces, mount.Piece{Unit: s.Unit.ID, Lineup: p.Lineups[i].Name, Kind: mount.KindOf(s.Unit.Mount), Surface: s.Place.On, OnBoard: on})
		}
	}
	return r
}

// lineUpAny stands in for the arranger where nothing is known of the plan.
func lineUpAny(_ context.Context, p *layout.Plan, _ arrange.Options) (arrange.Result, error) {
	return arrange.Result{Verdict: pack.Fits, Plan: p.Clone()}, nil
}

// arrangedPlan is the plan with the first places found for it.
func arrangedPlan(p *layout.Plan) (*layout.Plan, error) {
	res, err := arrange.Arrange(context.Background(), p, arrange.Options{Seed: 1, FirstFit: true})
	if err == nil && res.Plan == nil {
		err = errors.New("no arrangement found")
	}
	return res.Plan, err
}

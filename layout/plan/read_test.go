package plan

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
)

// small is a plan with a little of everything, for tests to build on.
const small = `title = "Small"

[board]
size     = [560, 330]
material = "birch-plywood"

[[board.riser]]
name      = "shelf"
at        = [80, 210]
size      = [400, 115]
height    = 55
thickness = 9

[[slot]]
name = "colour"
at   = [300, 0]
size = [260, 200]

[[unit]]
id   = "octave"
form = "compact"

[[unit]]
id   = "squash"
form = "compact"

[chain]
order = ["instrument", "octave", "slot:colour", "desk"]

[[lineup]]
name = "barn"
fill = { colour = ["squash"] }
`

func readSmall(t *testing.T) *layout.Plan {
	t.Helper()
	d, err := Parse("small.toml", []byte(small), nil)
	require.NoError(t, err)
	return d.Plan
}

// What a plan does not say.
func TestDefaults(t *testing.T) {
	p := readSmall(t)
	form, ok := catalog.Builtin().Unit("compact")
	require.True(t, ok)
	plywood, _ := catalog.Builtin().Material("birch-plywood")

	require.Equal(t, layout.Millimetres, p.LengthUnit)
	b := p.Board
	require.Equal(t, layout.Solid, b.Kind)
	require.Equal(t, 15*mm, b.Thickness)
	require.Equal(t, plywood.Density, b.Density)
	require.Equal(t, plywood.Density, b.Risers[0].Density, "the board's material")
	require.Equal(t, []layout.Leg{{At: layout.Rect{X0: 80 * mm, Y0: 210 * mm, X1: 89 * mm, Y1: 325 * mm}},
		{At: layout.Rect{X0: 471 * mm, Y0: 210 * mm, X1: 480 * mm, Y1: 325 * mm}}}, b.Risers[0].Legs, "two end panels")
	require.Equal(t, layout.DeckName, p.Slots[0].On)

	octave := p.Unit("octave")
	want := form.Template()
	want.ID, want.Label, want.Mount = "octave", "octave", layout.Fixed
	require.Equal(t, want, *octave)
	require.Equal(t, layout.Swap, p.Unit("squash").Mount, "it is in a slot")
	// NIOSH load constant 23 kg; half a P95 street shoe + 6 + 5 mm, from
	// ANSUR II; the other two are common practice, no source.
	require.Equal(t, layout.Limits{Mass: 23 * layout.Kilogram, Reach: 72 * mm, StepOver: 40 * mm, FootForce: 300}, p.Limits)
	require.Equal(t, layout.PowerRules{Headroom: 20}, p.Power)

	d, err := Parse("p", []byte("board = { size = [300, 200], mass = 900 }"), nil)
	require.NoError(t, err)
	require.Equal(t, "all", d.Plan.Lineups[0].Name)
	require.NotEmpty(t, d.Plan.Title)
}

// A form's lists are the catalog's: a plan gets its own.
func TestFormsAreNotShared(t *testing.T) {
	p, q := readSmall(t), readSmall(t)
	p.Units[0].Jacks[0].Along++
	require.Equal(t, q.Units[0].Jacks, p.Units[1].Jacks)
	require.NotEqual(t, q.Units[0].Jacks, p.Units[0].Jacks)
}

func everything(t *testing.T) *layout.Plan {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("testdata", "everything.toml"))
	require.NoError(t, err)
	d, err := Parse("everything.toml", src, nil)
	require.NoError(t, err)
	return d.Plan
}

func TestEveryKeyOfTheBoard(t *testing.T) {
	p := everything(t)
	metal, _ := catalog.Builtin().Material("aluminium")
	plywood, _ := catalog.Builtin().Material("birch-plywood")
	in := layout.Inch
	require.Equal(t, "Everything", p.Title)
	require.Equal(t, layout.Inches, p.LengthUnit)
	require.Equal(t, layout.Board{
		W: 24 * in, D: 14*in + in/2, Kind: layout.Rails,
		Rails:    []layout.Rail{{At: layout.Rect{X1: 24 * in, Y1: 5 * in}}, {At: layout.Rect{Y0: 6 * in, X1: 24 * in, Y1: 11 * in}}},
		Material: "aluminium", Thickness: 20 * mm, Density: metal.Density, Mass: 2600 * layout.Gram,
		Overhang: layout.Edges{Front: 5 * mm, Back: 6 * mm, Left: 7 * mm, Right: 8 * mm},
		PlugRoom: layout.Edges{Front: 1 * in, Back: 2 * in, Left: 3 * in, Right: 4 * in},
		Feet:     10 * mm,
		Risers: []layout.Riser{
			{Name: "shelf", At: layout.Rect{X0: 100 * mm, Y0: 250 * mm, X1: 400 * mm, Y1: 350 * mm}, Height: 60 * mm, Thickness: 9 * mm,
				Density: plywood.Density, Overhang: layout.Edges{Front: 4 * mm},
				Legs: []layout.Leg{{At: layout.Rect{X0: 100 * mm, Y0: 260 * mm, X1: 120 * mm, Y1: 290 * mm}}}},
			{Name: "step", At: layout.Rect{X0: 450 * mm, Y0: 250 * mm, X1: 550 * mm, Y1: 350 * mm}, Height: 40 * mm, Thickness: 6 * mm,
				Density: metal.Density,
				Legs: []layout.Leg{{At: layout.Rect{X0: 450 * mm, Y0: 250 * mm, X1: 456 * mm, Y1: 350 * mm}},
					{At: layout.Rect{X0: 544 * mm, Y0: 250 * mm, X1: 550 * mm, Y1: 350 * mm}}}},
		},
		Fixtures: []layout.Fixture{{Name: "handle", Box: layout.Box{X0: -20 * mm, Y0: 100 * mm, Z0: -15 * mm, X1: 0, Y1: 220 * mm, Z1: 12 * mm}}},
		Case: &layout.Case{Name: "the grey one", Inside: layout.Size{W: 650 * mm, D: 400 * mm, H: 150 * mm}, Below: 35 * mm,
			Mass: 3_175_147 * layout.Milligram}, // 7 x 0.45359237 kg
	}, p.Board)
	require.Equal(t, []layout.Slot{{Name: "colour", On: "shelf", At: p.Board.Risers[0].At}}, p.Slots)
}

func TestEveryKeyOfAUnit(t *testing.T) {
	p := everything(t)
	plug := func(name string) layout.PlugForm {
		f, ok := catalog.Builtin().Plug(name)
		require.True(t, ok)
		return f.PlugForm
	}
	usual := func(kind layout.JackKind) layout.PlugForm {
		f, ok := catalog.Builtin().DefaultPlug(kind)
		require.True(t, ok)
		return f
	}
	require.Equal(t, layout.Unit{
		ID: "wah", Label: "Wah!", Mount: layout.Fixed, Pinned: true, Often: 3, Treadle: true, Buffer: true,
		Place: &layout.Placement{On: "deck", At: layout.Point{X: 10 * mm, Y: -5 * mm}, Turn: 3},
		On:    []string{"deck", "step"}, Turns: []layout.Turn{0, 3}, Uses: []string{"pedal"},
		Body: layout.Size{W: 100 * mm, D: 250 * mm, H: 60 * mm}, Overall: layout.Size{W: 104 * mm, D: 251 * mm, H: 75 * mm},
		Mass:   1_020_583 * layout.Milligram, // 2.25 x 0.45359237 kg
		OnBase: []layout.BaseSpot{{Kind: layout.BatteryDoor, At: layout.Rect{X0: 60 * mm, Y0: 180 * mm, X1: 90 * mm, Y1: 235 * mm}}},
		Sweep:  &layout.Sweep{Front: 1 * mm, Back: 2 * mm, Left: 3 * mm, Right: 4 * mm, From: 30 * mm, Top: 90 * mm},
		Draw:   &layout.Draw{Millivolts: 9600, Milliamps: 12, CentrePositive: true, AC: true, Isolated: true},
		Jacks: []layout.Jack{
			{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: 200 * mm, Height: 25 * mm, Plug: plug("phone-right-angle"), Leg: layout.LegBack, PlugGiven: true, LegGiven: true},
			{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: 200 * mm, Height: 30 * mm, Plug: usual(layout.Phone)},
			{ID: "pedal", Kind: layout.MiniTRS, Signal: layout.Control, Dir: layout.In, Wall: layout.Back, Along: 50 * mm, Height: 30 * mm, Plug: usual(layout.MiniTRS)},
			{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: 20 * mm, Height: 30 * mm, Plug: usual(layout.DC)},
		},
		Switches: []layout.Switch{{Name: "toe", At: layout.Point{X: 50 * mm, Y: 240 * mm}, Height: 70 * mm}, {At: layout.Point{X: 50 * mm, Y: 10 * mm}, Height: 60 * mm}},
	}, *p.Unit("wah"))

	// A measured body keeps what the form's knobs and nuts add to it, and a
	// jack of the form what the plan does not say.
	form, _ := catalog.Builtin().Unit("compact")
	u, f := p.Unit("squash"), form.Unit
	require.Equal(t, layout.Size{W: 60 * mm, D: 110 * mm, H: 40 * mm}, u.Body)
	require.Equal(t, layout.Size{W: 60*mm + f.Overall.W - f.Body.W, D: 110*mm + f.Overall.D - f.Body.D, H: 40*mm + f.Overall.H - f.Body.H}, u.Overall)
	require.True(t, u.ToBuy)
	require.Equal(t, 333*layout.Gram, u.Mass)
	require.Equal(t, &layout.Placement{On: "deck", At: layout.Point{X: 1 * mm, Y: 2 * mm}}, u.Place)
	require.Equal(t, f.Draw, u.Draw)
	require.Equal(t, f.Switches, u.Switches)
	require.Len(t, u.Jacks, len(f.Jacks))
	want := *f.Jack("out")
	want.Kind, want.Signal, want.Plug = layout.XLR, layout.Audio, usual(layout.XLR)
	require.Equal(t, want, *u.Jack("out"))
	want = *f.Jack("dc")
	want.Signal = layout.Control
	require.Equal(t, want, *u.Jack("dc"))
	require.Nil(t, p.Unit("spare").Draw)

	s := p.Unit("supply")
	require.Equal(t, []layout.Output{
		{Jack: "2", Millivolts: 12_000, Milliamps: 500, Isolated: true, CentrePositive: true},
		{Jack: "1", Millivolts: 9000, Milliamps: 100, AC: true}}, s.Outputs)
	require.Equal(t, layout.Jack{ID: "mains", Kind: layout.Mains, Signal: layout.Line, Dir: layout.In, Wall: layout.Left, Along: 30 * mm, Height: 15 * mm,
		Plug: usual(layout.Mains)}, *s.Jack("mains"))
}

func TestEveryOtherKey(t *testing.T) {
	p := everything(t)
	require.Equal(t, layout.Chain{
		Stops: []layout.Stop{{Unit: "instrument"}, {Unit: "wah"}, {Slot: "colour"}, {Unit: "desk"}},
		Links: []layout.Link{{From: layout.JackRef{Unit: "instrument"}, To: layout.JackRef{Unit: "spare", Jack: "in"}},
			{From: layout.JackRef{Unit: "spare", Jack: "out"}, To: layout.JackRef{Unit: "amp"}}},
		LeftToRight: true,
	}, p.Chain)
	require.Equal(t, []layout.Lineup{
		{Name: "barn dance", Fill: map[string][]string{"colour": {"squash"}},
			Place: map[string]layout.Placement{"squash": {On: "shelf", At: layout.Point{X: 110 * mm, Y: 255 * mm}, Turn: 1}}},
		{Name: "solo", Fill: map[string][]string{}, Place: map[string]layout.Placement{}},
	}, p.Lineups)
	require.Equal(t, layout.Cabling{Reel: 3000 * mm, Instrument: 4500 * mm, Amp: 7000 * mm, Diameter: 5 * mm, Capacitance: 65.5}, p.Cabling)
	require.Equal(t, layout.Limits{Mass: 18 * layout.Kilogram, MassGiven: true, Reach: 82 * mm, StepOver: 41 * mm, FootForce: 250.5}, p.Limits)
	require.Equal(t, layout.PowerRules{Sharing: true, Headroom: 25, Tour: []string{"IE", "JP"}}, p.Power)
}

func TestNamedJacksInTheChain(t *testing.T) {
	src := `board = { size = [400, 200], mass = "1kg" }
[[unit]]
id = "pre"
body = [60, 60, 30]
jack = [
  { id = "in", kind = "phone", dir = "in", wall = "right", along = 20 },
  { id = "send", kind = "phone", dir = "out", wall = "back", along = 20 },
  { id = "return", kind = "phone", dir = "in", wall = "back", along = 40 },
  { id = "di", kind = "xlr", dir = "out", wall = "left", along = 20 },
]
[[unit]]
id = "echo"
form = "compact"
[chain]
order = ["instrument", "pre/>send", "echo", "pre/return>di", "desk"]
`
	d, err := Parse("p", []byte(src), nil)
	require.NoError(t, err)
	require.Equal(t, []layout.Stop{{Unit: "instrument"}, {Unit: "pre", Out: "send"}, {Unit: "echo"}, {Unit: "pre", In: "return", Out: "di"}, {Unit: "desk"}}, d.Plan.Chain.Stops)
}

func TestExamplesRead(t *testing.T) {
	list := Examples()
	require.Equal(t, BuiltinExample, list[0].Name)
	for _, e := range list {
		d, err := Parse(e.Name, e.Source, nil)
		require.NoError(t, err)
		require.Equal(t, e.Title, d.Plan.Title)
		same, err := d.Render()
		require.NoError(t, err)
		require.Equal(t, string(e.Source), string(same))
	}
}

// Load the built-in example, move one unit, and diff: only its place differs.
func TestExampleMoved(t *testing.T) {
	src := Examples()[0].Source
	d, err := Parse("ceilidh", src, nil)
	require.NoError(t, err)
	for i := range d.Plan.Units {
		u := &d.Plan.Units[i]
		old := u.Place
		pl := layout.Placement{On: layout.DeckName, At: layout.Point{X: 123_400, Y: 56 * mm}, Turn: 1}
		if d.Plan.InSlots(u.ID) {
			continue
		}
		u.Place = &pl
		got, err := d.Render()
		require.NoError(t, err)
		changed := diff(string(src), string(got))
		require.Contains(t, changed, "[123.4, 56]")
		if old == nil {
			require.Regexp(t, `^\+"place *= [^\n]*"\n$`, changed)
		} else {
			require.Regexp(t, `^-"place *= [^\n]*"\n\+"place *= [^\n]*"\n$`, changed)
		}
		u.Place = old
	}
}

package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

const mm = layout.Millimetre

// tiny is a plan of one or two small units on a plain board, nothing wrong with
// it: each case of the table below spoils one thing by one micrometre.
func tiny() *layout.Plan {
	return &layout.Plan{
		Title: "tiny",
		Board: layout.Board{W: 400 * mm, D: 300 * mm, Kind: layout.Solid, Thickness: 15 * mm, Density: 690},
		Units: []layout.Unit{
			box("a", 20*mm, 20*mm),
			box("b", 200*mm, 20*mm),
		},
		Lineups: []layout.Lineup{{Name: "all"}},
		// Strong enough that none of the rules' own boards is about fastener.
		Fastening: layout.Fastening{Interlock: layout.FastenerRoll{StrengthKPa: 380}},
		Limits:    layout.Limits{Mass: 23 * layout.Kilogram, Reach: 72 * mm, StepOver: 40 * mm, FootForce: 300},
	}
}

// box is a unit 70 x 120 x 50 mm, half a kilogram, at a place on the deck.
func box(id string, x, y layout.Length) layout.Unit {
	return layout.Unit{ID: id, Label: "Unit " + id, Body: layout.Size{W: 70 * mm, D: 120 * mm, H: 50 * mm},
		Mass: 500 * layout.Gram, Often: 1, Mount: layout.Fixed,
		Place: &layout.Placement{On: layout.DeckName, At: layout.Point{X: x, Y: y}}}
}

func move(u *layout.Unit, x, y layout.Length) { u.Place.At = layout.Point{X: x, Y: y} }

// plug gives the unit a used jack with a straight plug 40 mm out, 14 mm wide.
func plug(u *layout.Unit, id string, wall layout.Wall, along, height layout.Length) *layout.Jack {
	u.Jacks = append(u.Jacks, layout.Jack{ID: id, Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out,
		Wall: wall, Along: along, Height: height,
		Plug: layout.PlugForm{Kind: layout.Phone, Out: 40 * mm, Width: 14 * mm}})
	u.Uses = append(u.Uses, id)
	return &u.Jacks[len(u.Jacks)-1]
}

func foot(u *layout.Unit, x, y, height layout.Length) {
	u.Switches = append(u.Switches, layout.Switch{Name: "s", At: layout.Point{X: x, Y: y}, Height: height})
}

// shelf gives the plan a riser 400 x 100 mm along the back, 46 mm clear.
func shelf(p *layout.Plan) *layout.Riser {
	r := layout.Riser{Name: "shelf", At: layout.Rect{X0: 0, Y0: 200 * mm, X1: 400 * mm, Y1: 300 * mm},
		Height: 55 * mm, Thickness: 9 * mm, Density: 690}
	r.Legs = r.EndPanels()
	p.Board.Risers = append(p.Board.Risers, r)
	return &p.Board.Risers[len(p.Board.Risers)-1]
}

func codes(fs []Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.Code)
	}
	return out
}

func find(fs []Finding, code string) []Finding {
	var out []Finding
	for _, f := range fs {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

func TestTinyPlanHasNoFindings(t *testing.T) {
	p := tiny()
	require.Empty(t, Lineup(p, &p.Lineups[0]))
}

// Each rule allows its limit and finds one micrometre beyond it: spoil is
// called with 0 and then with 1.
func TestLimits(t *testing.T) {
	for _, tt := range limitCases {
		t.Run(tt.name, func(t *testing.T) {
			at := tiny()
			tt.spoil(at, 0)
			assert.Empty(t, find(Lineup(at, &at.Lineups[0]), tt.code), "at the limit")

			p := tiny()
			tt.spoil(p, 1)
			got := find(Lineup(p, &p.Lineups[0]), tt.code)
			require.Len(t, got, 1, "one micrometre beyond")
			f := got[0]
			assert.Equal(t, tt.level, f.Level)
			assert.Equal(t, tt.units, f.Units)
			assert.InDelta(t, tt.measured, f.Measured, 1e-9)
			assert.InDelta(t, tt.limit, f.Limit, 1e-9)
			assert.Equal(t, "mm", f.Unit)
			assert.Equal(t, "all", f.Lineup)
			assert.NotEmpty(t, f.Text)
		})
	}
}

type limitCase struct {
	name            string
	code            string
	spoil           func(p *layout.Plan, by layout.Length)
	level           Level
	units           []string
	measured, limit float64
}

var limitCases = []limitCase{
	{"bodies side by side", Collision, func(p *layout.Plan, by layout.Length) {
		move(&p.Units[1], 90*mm-by, 20*mm)
	}, Fault, []string{"a", "b"}, 0.001, 0},
	{"body behind body", Collision, func(p *layout.Plan, by layout.Length) {
		move(&p.Units[1], 20*mm, 140*mm-by)
	}, Fault, []string{"a", "b"}, 0.001, 0},
	{"plug against body", Collision, func(p *layout.Plan, by layout.Length) {
		plug(&p.Units[0], "out", layout.Right, 60*mm, 20*mm)
		move(&p.Units[1], 130*mm-by, 20*mm)
	}, Fault, []string{"a", "b"}, 0.001, 0},
	{"plug against plug", Collision, func(p *layout.Plan, by layout.Length) {
		plug(&p.Units[0], "out", layout.Right, 60*mm, 20*mm)
		plug(&p.Units[1], "in", layout.Left, 60*mm, 20*mm)
		move(&p.Units[1], 130*mm, 34*mm-by)
	}, Fault, []string{"a", "b"}, 0.001, 0},
	{"sweep against body", Collision, func(p *layout.Plan, by layout.Length) {
		p.Units[0].Sweep = &layout.Sweep{Right: 10 * mm, From: 30 * mm, Top: 80 * mm}
		move(&p.Units[1], 100*mm-by, 20*mm)
	}, Fault, []string{"a", "b"}, 0.001, 0},
	{"body into a riser's leg", Obstacle, func(p *layout.Plan, by layout.Length) {
		shelf(p)
		p.Units[0].Body.H = 40 * mm
		move(&p.Units[0], 9*mm-by, 150*mm)
	}, Fault, []string{"a"}, 0.001, 0},
	{"body into a fixture", Obstacle, func(p *layout.Plan, by layout.Length) {
		p.Board.Fixtures = []layout.Fixture{{Name: "handle", Box: layout.Box{X0: 0, Y0: 100 * mm, X1: 20*mm + by, Y1: 200 * mm, Z1: 30 * mm}}}
	}, Fault, []string{"a"}, 0.001, 0},
	{"body under the riser", Headroom, func(p *layout.Plan, by layout.Length) {
		shelf(p)
		p.Units[0].Body.H = 46*mm + by
		move(&p.Units[0], 20*mm, 150*mm)
	}, Fault, []string{"a"}, 46.001, 46},
	{"knobs under the riser", Headroom, func(p *layout.Plan, by layout.Length) {
		shelf(p)
		p.Units[0].Body.H = 30 * mm
		p.Units[0].Overall.H = 46*mm + by
		move(&p.Units[0], 20*mm, 150*mm)
	}, Fault, []string{"a"}, 46.001, 46},
	{"plug under the riser", Headroom, func(p *layout.Plan, by layout.Length) {
		shelf(p)
		plug(&p.Units[0], "out", layout.Back, 35*mm, 39*mm+by)
		move(&p.Units[0], 20*mm, 80*mm)
	}, Fault, []string{"a"}, 46.001, 46},
	{"plugs of one unit", OwnPlugs, func(p *layout.Plan, by layout.Length) {
		plug(&p.Units[0], "x", layout.Back, 20*mm, 20*mm)
		plug(&p.Units[0], "y", layout.Back, 34*mm-by, 20*mm)
	}, Fault, []string{"a"}, 0.001, 0},
	{"plug too low", PlugBelow, func(p *layout.Plan, by layout.Length) {
		plug(&p.Units[0], "x", layout.Right, 60*mm, 7*mm-by)
	}, Fault, []string{"a"}, 0.001, 0},
	{"leg too low", PlugBelow, func(p *layout.Plan, by layout.Length) {
		j := plug(&p.Units[0], "x", layout.Right, 60*mm, 28*mm)
		j.Plug.Leg, j.Leg = 28*mm+by, layout.LegDown
	}, Fault, []string{"a"}, 0.001, 0},
	{"past the left edge", OffBoard, func(p *layout.Plan, by layout.Length) {
		p.Board.Overhang.Left = 15 * mm
		move(&p.Units[0], -15*mm-by, 20*mm)
	}, Fault, []string{"a"}, 15.001, 15},
	{"past the back edge", OffBoard, func(p *layout.Plan, by layout.Length) {
		p.Board.Overhang.Back = 10 * mm
		move(&p.Units[0], 20*mm, 190*mm+by)
	}, Fault, []string{"a"}, 10.001, 10},
	{"past the front edge", OffBoard, func(p *layout.Plan, by layout.Length) {
		move(&p.Units[0], 20*mm, -by)
	}, Fault, []string{"a"}, 0.001, 0},
	{"past the right edge", OffBoard, func(p *layout.Plan, by layout.Length) {
		move(&p.Units[1], 330*mm+by, 20*mm)
	}, Fault, []string{"b"}, 0.001, 0},
	{"past the riser's front", OffBoard, func(p *layout.Plan, by layout.Length) {
		shelf(p).Overhang.Front = 20 * mm
		*p.Units[0].Place = layout.Placement{On: "shelf", At: layout.Point{X: 20 * mm, Y: 180*mm - by}}
	}, Fault, []string{"a"}, 20.001, 20},
	{"past the board's back on the riser", OffBoard, func(p *layout.Plan, by layout.Length) {
		shelf(p).Overhang = layout.Edges{Front: 50 * mm, Back: 50 * mm}
		p.Board.Overhang.Back = 5 * mm
		*p.Units[0].Place = layout.Placement{On: "shelf", At: layout.Point{X: 20 * mm, Y: 185*mm + by}}
	}, Fault, []string{"a"}, 5.001, 5},
	{"plug past the edge", PlugOffBoard, func(p *layout.Plan, by layout.Length) {
		p.Board.PlugRoom.Left = 25 * mm
		plug(&p.Units[0], "x", layout.Left, 60*mm, 20*mm)
		move(&p.Units[0], 15*mm-by, 20*mm)
	}, Fault, []string{"a"}, 25.001, 25},
	{"half of the width bears", LittleBase, func(p *layout.Plan, by layout.Length) {
		p.Board.Overhang.Left = 60 * mm
		move(&p.Units[0], -35*mm-by, 20*mm)
	}, Fault, []string{"a"}, 34.999, 35},
	{"half of the depth bears", LittleBase, func(p *layout.Plan, by layout.Length) {
		p.Board.Overhang.Front = 100 * mm
		move(&p.Units[0], 20*mm, -60*mm-by)
	}, Fault, []string{"a"}, 59.999, 60},
	{"a corner bears", LittleBase, func(p *layout.Plan, by layout.Length) {
		// 71 % of both: 0.7072 x 70 mm = 49.504 mm of the width.
		p.Board.Overhang.Left, p.Board.Overhang.Front = 60*mm, 60*mm
		move(&p.Units[0], -20_496-by, -10*mm)
	}, Fault, []string{"a"}, 49.503, 49.504},
	{"second rail", BetweenRails, func(p *layout.Plan, by layout.Length) {
		rails(p)
		move(&p.Units[0], 20*mm, 40*mm-by)
		p.Units[0].Body.D = 70 * mm // 40 to 110: 10 mm on the second rail
	}, Fault, []string{"a"}, 9.999, 10},
	{"lid", CaseLid, func(p *layout.Plan, by layout.Length) {
		p.Board.Case = &layout.Case{Inside: layout.Size{W: 400 * mm, D: 300 * mm, H: 85 * mm}, Below: 25 * mm}
		p.Units[1].Overall.H = 60*mm + by
	}, Fault, []string{"b"}, 60.001, 60},
	{"case wall", CaseWall, func(p *layout.Plan, by layout.Length) {
		p.Board.Case = &layout.Case{Inside: layout.Size{W: 410 * mm, D: 300 * mm, H: 100 * mm}, Below: 25 * mm}
		p.Board.Overhang.Left = 20 * mm
		move(&p.Units[0], -10*mm-by, 20*mm)
	}, Fault, []string{"a"}, 410.001, 410},
	{"case wall behind", CaseWall, func(p *layout.Plan, by layout.Length) {
		p.Board.Case = &layout.Case{Inside: layout.Size{W: 400 * mm, D: 320 * mm, H: 100 * mm}, Below: 25 * mm}
		p.Board.PlugRoom.Back = 40 * mm
		plug(&p.Units[1], "x", layout.Back, 35*mm, 20*mm)
		move(&p.Units[1], 200*mm, 160*mm+by)
	}, Fault, []string{"b"}, 320.001, 320},
	{"bare board in the case", CaseBoard, func(p *layout.Plan, by layout.Length) {
		p.Board.Case = &layout.Case{Inside: layout.Size{W: 400*mm - by, D: 300 * mm, H: 100 * mm}, Below: 25 * mm}
	}, Fault, nil, 400, 399.999},
	{"out of the slot", OutsideSlot, func(p *layout.Plan, by layout.Length) {
		p.Slots = []layout.Slot{{Name: "colour", On: layout.DeckName, At: layout.Rect{X0: 20*mm + by, Y0: 0, X1: 200 * mm, Y1: 200 * mm}}}
		p.Lineups[0].Fill = map[string][]string{"colour": {"a"}}
	}, Fault, []string{"a"}, 0.001, 0},
	{"switches side by side", SwitchesClose, func(p *layout.Plan, by layout.Length) {
		foot(&p.Units[0], 35*mm, 20*mm, 55*mm)
		foot(&p.Units[1], 35*mm, 20*mm, 55*mm)
		move(&p.Units[1], 92*mm-by, 20*mm)
	}, Caution, []string{"a", "b"}, 71.999, 72},
	{"something tall in front", StepOver, func(p *layout.Plan, by layout.Length) {
		foot(&p.Units[0], 35*mm, 20*mm, 55*mm)
		move(&p.Units[0], 20*mm, 150*mm)
		p.Units[1].Body.H = 95*mm + by
		move(&p.Units[1], 20*mm, 20*mm)
	}, Caution, []string{"a", "b"}, 40.001, 40},
	{"a shoe's width beside", StepOver, func(p *layout.Plan, by layout.Length) {
		// Half of a P95 foot and its street shoe, 121 mm (ANSUR II).
		foot(&p.Units[0], 35*mm, 20*mm, 55*mm)
		move(&p.Units[0], 20*mm, 150*mm)
		p.Units[1].Body.H = 120 * mm
		move(&p.Units[1], 115_500-by, 20*mm)
	}, Caution, []string{"a", "b"}, 65, 40},
	{"treadle behind the front", TreadleBack, func(p *layout.Plan, by layout.Length) {
		p.Units[0].Treadle = true
		move(&p.Units[0], 20*mm, 40*mm+by)
	}, Caution, []string{"a"}, 40.001, 40},
	{"unit before a treadle", TreadleBlocked, func(p *layout.Plan, by layout.Length) {
		p.Units[0].Treadle = true
		move(&p.Units[0], 20*mm, 140*mm)
		move(&p.Units[1], 90*mm-by, 20*mm)
	}, Caution, []string{"a", "b"}, 120, 0},
}

// rails makes the board one of two rails, 0 to 60 and 100 to 180 mm deep.
func rails(p *layout.Plan) {
	p.Board.Kind = layout.Rails
	p.Board.Rails = []layout.Rail{
		{At: layout.Rect{X0: 0, Y0: 0, X1: 400 * mm, Y1: 60 * mm}},
		{At: layout.Rect{X0: 0, Y0: 100 * mm, X1: 400 * mm, Y1: 180 * mm}},
	}
}

package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// A treadle under a shelf that it only just passes below is as useless as one
// deep down; a blocker counts as deep as it stands before the treadle.
func TestTreadleTouched(t *testing.T) {
	p := tiny()
	shelf(p)
	p.Units = p.Units[:1]
	u := &p.Units[0]
	u.Treadle, u.Body.H = true, 46*mm
	move(u, 20*mm, 150*mm)
	f := only(t, lineup(p), Covered)
	assert.Equal(t, 0.0, f.Measured)

	p = tiny()
	p.Units[0].Treadle = true
	move(&p.Units[0], 20*mm, 140*mm)
	move(&p.Units[1], 30*mm, 100*mm) // 100 to 220 mm, of which 40 mm before it
	assert.Equal(t, 40.0, only(t, lineup(p), TreadleBlocked).Measured)
	p.Board.Fixtures = []layout.Fixture{{Name: "latch", Box: layout.Box{X0: 20 * mm, X1: 30 * mm, Y1: 10 * mm, Z1: 5 * mm}}}
	got := find(lineup(p), TreadleBlocked)
	require.Len(t, got, 2)
	assert.Contains(t, got[0].Text, "The latch stands between Unit a and the front edge")
	assert.Equal(t, []string{"a"}, got[0].Units)
	// What is lower than the treadle's own surface is in nobody's way.
	p.Board.Fixtures[0].Box.Z0, p.Board.Fixtures[0].Box.Z1 = -5*mm, 0
	assert.Len(t, find(lineup(p), TreadleBlocked), 1)
}

// One finding for the lid from each unit, its tallest part named; one from each
// part of the board.
func TestLidOncePerUnit(t *testing.T) {
	p := tiny()
	p.Board.Case = &layout.Case{Inside: layout.Size{W: 400 * mm, D: 300 * mm, H: 70 * mm}, Below: 25 * mm}
	j := plug(&p.Units[0], "x", layout.Right, 60*mm, 35*mm)
	j.Plug.Leg = 25 * mm
	p.Board.Fixtures = []layout.Fixture{
		{Name: "handle", Box: layout.Box{X0: 350 * mm, X1: 360 * mm, Y1: 10 * mm, Z1: 46 * mm}},
		{Name: "latch", Box: layout.Box{X0: 370 * mm, X1: 380 * mm, Y1: 10 * mm, Z1: 47 * mm}},
		{Name: "peg", Box: layout.Box{X0: 390 * mm, X1: 400 * mm, Y1: 10 * mm, Z1: 45 * mm}},
	}
	got := find(lineup(p), CaseLid)
	require.Len(t, got, 4)
	for i, want := range []struct {
		units    []string
		says     string
		measured float64
	}{{nil, "the handle", 46}, {nil, "the latch", 47}, {[]string{"a"}, `the plug in "x" of Unit a`, 60}, {[]string{"b"}, "Unit b", 50}} {
		assert.Equal(t, want.units, got[i].Units)
		assert.Contains(t, got[i].Text, want.says+" reaches")
		assert.Equal(t, want.measured, got[i].Measured)
		assert.Equal(t, 45.0, got[i].Limit)
	}

	p.Board.Case.Below = 80 * mm
	for _, f := range find(lineup(p), CaseLid) {
		assert.Contains(t, f.Text, "the case leaves 0 mm")
		assert.Equal(t, -10.0, f.Limit)
	}
	p.Board.Case.Inside.W, p.Board.Case.Inside.D = 399*mm, 298*mm
	f := only(t, lineup(p), CaseBoard)
	assert.Equal(t, 298.0, f.Limit, "the worse side is named")
	assert.Empty(t, find(lineup(p), CaseLid), "the rest is idle then")
}

func TestFixtureInTheCase(t *testing.T) {
	p := tiny()
	p.Board.Case = &layout.Case{Inside: layout.Size{W: 400 * mm, D: 300 * mm, H: 200 * mm}, Below: 25 * mm}
	p.Board.Fixtures = []layout.Fixture{{Name: "handle", Box: layout.Box{X0: 390 * mm, X1: 420 * mm, Y1: 10 * mm, Z1: 20 * mm}}}
	f := only(t, lineup(p), CaseWall)
	assert.Empty(t, f.Units)
	assert.Contains(t, f.Text, "stands the handle.")
}

// The whole chain in one unit, both ends off the board.
func TestInputSideOfOneUnit(t *testing.T) {
	p := tiny()
	plug(&p.Units[0], "in", layout.Back, 15*mm, 20*mm)
	plug(&p.Units[0], "out", layout.Back, 50*mm, 20*mm)
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "a"}, {Unit: layout.Amp}}
	f := only(t, lineup(p), RunsBack)
	assert.Equal(t, []string{"a"}, f.Units)
	assert.Equal(t, 35.0, f.Measured)
	p.Units[0].Jacks[0].Along = 50 * mm
	assert.Empty(t, find(lineup(p), RunsBack), "one above the other")

	for name, spoil := range map[string]func(){
		"a chain without an end": func() { p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: "b"}) },
		"a jack that is not":     func() { p.Chain.Stops[1].Out = "none" },
		"a unit without a place": func() { p.Units[0].Place = nil },
		"nothing but two ends":   func() { p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: layout.Amp}} },
	} {
		p.Units[0].Jacks[0].Along = 15 * mm
		p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "a"}, {Unit: layout.Amp}}
		spoil()
		assert.Empty(t, find(lineup(p), RunsBack), name)
	}
}

func TestNothingThatWeighs(t *testing.T) {
	p := tiny()
	p.Board.Density = 0
	for i := range p.Units {
		p.Units[i].Mass = 0
		foot(&p.Units[i], 35*mm, 20*mm, 55*mm)
	}
	p.Board.Feet = 100 * mm
	assert.Empty(t, lineup(p), "without masses there is nothing to say about balance")
	p.Limits.Mass = 0
	assert.Empty(t, lineup(p), "nor about a limit of nothing")
}

func TestRailsFromFrontToBack(t *testing.T) {
	p := tiny()
	p.Board.Kind = layout.Rails
	p.Board.Rails = []layout.Rail{
		{At: layout.Rect{X0: 0, Y0: 0, X1: 60 * mm, Y1: 300 * mm}},
		{At: layout.Rect{X0: 100 * mm, Y0: 0, X1: 180 * mm, Y1: 300 * mm}},
		{At: layout.Rect{X0: 200 * mm, Y0: 0, X1: 260 * mm, Y1: 300 * mm}},
	}
	p.Units = p.Units[:1]
	move(&p.Units[0], 35*mm, 20*mm)
	f := only(t, lineup(p), BetweenRails)
	assert.Equal(t, 5.0, f.Measured, "35 to 105 mm wide: 25 on the first, 5 on the second")
	assert.Equal(t, 10.0, f.Limit)

	// 25 mm on the last rail and 20 on the one before it, but past their ends
	// in front: 60 of 120 mm.
	p.Board.Rails[1].At.Y0, p.Board.Rails[2].At.Y0 = 80*mm, 80*mm
	move(&p.Units[0], 160*mm, 20*mm)
	f = only(t, lineup(p), BetweenRails)
	assert.Contains(t, f.Text, "not on both sides of its middle or not over its whole width")
	assert.Empty(t, f.Unit)

	// A plug over a gap may reach below; over a rail it may not.
	p.Board.Rails[1].At.Y0, p.Board.Rails[2].At.Y0 = 0, 0
	move(&p.Units[0], 110*mm, 20*mm)
	plug(&p.Units[0], "x", layout.Right, 60*mm, 5*mm)
	p.Units[0].Jacks[0].Plug.Out = 20 * mm
	assert.Empty(t, lineup(p), "180 to 200 mm is a gap")
	p.Units[0].Jacks[0].Plug.Out++
	assert.Equal(t, []string{PlugBelow}, codes(lineup(p)))
}

// Lengths in a text are rounded so that none looks as if it kept its limit.
func TestWords(t *testing.T) {
	c := &checker{p: tiny()}
	assert.Equal(t, "12.4 mm", c.atLeast(12_345))
	assert.Equal(t, "12.3 mm", c.atMost(12_345))
	assert.Equal(t, "72 mm", c.atLeast(72*mm))
	assert.Equal(t, "72 mm", c.atMost(72*mm))
	assert.Equal(t, "71.9 mm", c.atMost(72*mm-1))
	assert.Equal(t, "5.5 kg", c.heavier(5500*layout.Gram))
	assert.Equal(t, "23.1 kg", c.heavier(23*layout.Kilogram+1))
	assert.Equal(t, "22.9 kg", c.lighter(23*layout.Kilogram-1))
	c.p.LengthUnit = layout.Inches
	assert.Equal(t, "5/64 in", c.atMost(1984), "as a plan that says 5/64in has it")
	assert.Equal(t, "1/64 in", c.atLeast(397))
	assert.Equal(t, "1 37/64 in", c.atLeast(40*mm), "a default in mm is the least")
	assert.Equal(t, "1 9/16 in", c.atMost(40*mm), "and the most")
	assert.Equal(t, "1/2 in", c.atLeast(12_700))
	assert.Equal(t, "33/64 in", c.atLeast(12_701))
	assert.Equal(t, "31/64 in", c.atMost(12_699))
	assert.Equal(t, "1 in", c.atMost(25_401))
	assert.Equal(t, "10.0 lb", c.heavier(4_535_924))
	assert.Equal(t, "The plug", sentence("the plug"))
	assert.Equal(t, "theremin", sentence("theremin"), "a label stays as it is written")
}

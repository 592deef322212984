package wiring

import (
	"testing"

	"footplank/layout"
	"footplank/layout/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mm = layout.Millimetre

func unit(id string, x layout.Length) layout.Unit {
	flat := layout.PlugForm{Name: "flat", Kind: layout.Phone, Out: 12 * mm, Width: 15 * mm}
	return layout.Unit{
		ID: id, Label: id, Body: layout.Size{W: 70 * mm, D: 120 * mm, H: 50 * mm},
		Jacks: []layout.Jack{
			{ID: "in", Kind: layout.Phone, Wall: layout.Right, Along: 60 * mm, Height: 20 * mm, Plug: flat},
			{ID: "out", Kind: layout.Phone, Wall: layout.Left, Along: 60 * mm, Height: 20 * mm, Plug: flat},
		},
		Place: &layout.Placement{On: layout.DeckName, At: layout.Point{X: x, Y: 10 * mm}},
	}
}

func pair() *layout.Plan {
	return &layout.Plan{
		Board: layout.Board{W: 400 * mm, D: 200 * mm},
		Units: []layout.Unit{unit("a", 300*mm), unit("b", 100*mm)},
		Chain: layout.Chain{Stops: []layout.Stop{
			{Unit: layout.Instrument}, {Unit: "a"}, {Unit: "b"}, {Unit: layout.Amp},
		}},
		Lineups: []layout.Lineup{{Name: "all"}},
	}
}

func TestCablesAreStraightFromTipToTip(t *testing.T) {
	p := pair()
	cs := Estimate(p, &p.Lineups[0])
	require.Len(t, cs, 3)
	c := cs[1]
	assert.Equal(t, []Point3{{X: 288 * mm, Y: 70 * mm, Z: 20 * mm}, {X: 182 * mm, Y: 70 * mm, Z: 20 * mm}}, c.Path)
	assert.Equal(t, 106*mm, c.Run)
	// 106 run + 2 x 25 plugs + 20 slack (a tenth would be 10.6).
	assert.Equal(t, 176*mm, c.Cut)
	assert.Equal(t, 200*mm, c.Stock)
	assert.Equal(t, 106*mm, Total(cs))
	for _, i := range []int{0, 2} {
		assert.True(t, cs[i].OffBoard())
		assert.Zero(t, cs[i].Cut)
	}
	assert.Equal(t, layout.Length(400*mm), cs[0].Path[0].X, "the instrument comes in at the nearest edge")
	assert.Equal(t, layout.Length(0), cs[2].Path[1].X)
}

func TestCablesLeaveOutUnplacedUnits(t *testing.T) {
	p := pair()
	p.Units[1].Place = nil
	cs := Estimate(p, &p.Lineups[0])
	require.Len(t, cs, 1)
	assert.Equal(t, layout.Instrument, cs[0].From.Unit)
}

func TestCutTakesTheLargerSlack(t *testing.T) {
	for _, c := range []struct{ run, cut, stock layout.Length }{
		{0, 70 * mm, 100 * mm},
		{30 * mm, 100 * mm, 100 * mm},
		{200 * mm, 270 * mm, 300 * mm},
		{400 * mm, 490 * mm, 600 * mm},
		{1000 * mm, 1150 * mm, 0},
	} {
		assert.Equal(t, c.cut, route.Cut(c.run), "Cut(%v)", c.run)
		assert.Equal(t, c.stock, NextStock(c.cut, layout.Millimetres), "NextStock(%v)", c.cut)
	}
	assert.Equal(t, 12*layout.Inch, NextStock(170*mm, layout.Inches))
	assert.Zero(t, NextStock(1000*mm, layout.Inches))
}

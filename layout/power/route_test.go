package power

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/route"
)

const mm = layout.Millimetre

// A lead is cut for the way it really takes: also where that way bends more
// tightly than it likes, which is far longer than the straight line.
func TestTightWayIsTaken(t *testing.T) {
	straight := func() *Lead {
		d := &Lead{Unit: "a", Jack: "dc", Millivolts: 9000, Milliamps: 100}
		path := []Point3{{}, {X: 100 * mm}}
		d.lay(path, length(path))
		return d
	}
	d := straight()
	Lay([]*Lead{d}, []route.Path{{ID: "a/dc", Length: 500 * mm, Why: "bend too tight", Bend: 15 * mm,
		Points: []route.Point3{{X: 0}, {Y: 200 * mm}, {X: 100 * mm, Y: 200 * mm}, {X: 100 * mm}}}})
	assert.Equal(t, 500*mm, d.Run)
	assert.GreaterOrEqual(t, d.Cut, d.Run)
	assert.Len(t, d.Path, 4)

	d = straight()
	Lay([]*Lead{d}, []route.Path{{ID: "a/dc", Why: "no way"}})
	assert.Equal(t, 100*mm, d.Run, "without any way it keeps the straight line")
	require.Len(t, d.Path, 2)
	assert.Equal(t, "no way", d.Blocked)
}

// A plug that four units wall in gets no lead, and the map says so.
func TestWalledInPlug(t *testing.T) {
	wall := func(id string, x, y, w, d layout.Length) layout.Unit {
		return layout.Unit{ID: id, Label: id, Body: layout.Size{W: w * mm, D: d * mm, H: 50 * mm},
			Place: &layout.Placement{On: layout.DeckName, At: layout.Point{X: x * mm, Y: y * mm}}}
	}
	barrel := layout.PlugForm{Name: "barrel", Kind: layout.DC, Out: 10 * mm, Width: 10 * mm}
	a := drawing("a", layout.Draw{Milliamps: 20})
	a.Body.W = 70 * mm
	a.Jacks[0].Along, a.Jacks[0].Height, a.Jacks[0].Plug = 35*mm, 20*mm, barrel
	a.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 100 * mm, Y: 20 * mm}}
	s := supplyOf("s", nine)
	s.Jacks[1].Wall, s.Jacks[1].Along, s.Jacks[1].Height, s.Jacks[1].Plug = layout.Front, 50*mm, 15*mm, barrel
	s.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 300 * mm, Y: 200 * mm}}
	p := planOf(a, s)
	p.Board.Kind, p.Board.Thickness = layout.Solid, 12*mm
	r := mapped(t, p)
	r.Route(p, nil)
	assert.NotContains(t, codes(r), LeadNoWay)
	p.Units = append(p.Units, wall("left", 90, 130, 40, 60), wall("right", 140, 130, 40, 60), wall("back", 130, 140, 10, 50))
	r = mapped(t, p)
	r.Route(p, nil)
	require.Contains(t, codes(r), LeadNoWay)
	is := r.Issues[len(r.Issues)-1]
	assert.Equal(t, Caution, is.Level)
	assert.Equal(t, []string{"a", "s"}, is.Units)
	assert.Contains(t, is.Text, "No way through for the lead from s to a: ")
}

package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"footplank/layout"
)

func TestAligned(t *testing.T) {
	u := &layout.Unit{Body: layout.Size{W: 73 * mm, D: 122 * mm, H: 50 * mm}}
	pl := layout.Placement{On: "deck", At: layout.Point{X: 5 * mm, Y: 7 * mm}}
	with := layout.RectAt(layout.Point{X: 200 * mm, Y: 100 * mm}, 50*mm, 80*mm)
	for _, c := range []struct {
		line Line
		turn layout.Turn
		want layout.Point
	}{
		{LeftEdges, 0, layout.Point{X: 200 * mm, Y: 7 * mm}},
		{RightEdges, 0, layout.Point{X: 177 * mm, Y: 7 * mm}},
		{RightEdges, 1, layout.Point{X: 128 * mm, Y: 7 * mm}},
		{FrontEdges, 0, layout.Point{X: 5 * mm, Y: 100 * mm}},
		{BackEdges, 0, layout.Point{X: 5 * mm, Y: 58 * mm}},
		{MiddlesSideBySide, 0, layout.Point{X: 5 * mm, Y: 79 * mm}},
		{MiddlesBehind, 0, layout.Point{X: 188500, Y: 7 * mm}},
	} {
		pl.Turn = c.turn
		got := Aligned(u, pl, with, c.line)
		assert.Equal(t, layout.Placement{On: "deck", At: c.want, Turn: c.turn}, got, "line %d turn %d", c.line, c.turn)
		assert.Equal(t, got, Aligned(u, got, with, c.line), "what is in line stays")
	}
}

func TestExchangedKeepsTheOuterEdges(t *testing.T) {
	a := &layout.Unit{Body: layout.Size{W: 120 * mm, D: 90 * mm}}
	b := &layout.Unit{Body: layout.Size{W: 50 * mm, D: 110 * mm}}
	pa := layout.Placement{On: "deck", At: layout.Point{X: 10 * mm, Y: 20 * mm}}
	pb := layout.Placement{On: "deck", At: layout.Point{X: 160 * mm, Y: 5 * mm}, Turn: 2}
	na, nb := Exchanged(a, b, pa, pb)
	assert.Equal(t, layout.Placement{On: "deck", At: layout.Point{X: 90 * mm, Y: 5 * mm}}, na)
	assert.Equal(t, layout.Placement{On: "deck", At: layout.Point{X: 10 * mm, Y: 20 * mm}, Turn: 2}, nb)

	pb = layout.Placement{On: "shelf", At: layout.Point{X: 30 * mm, Y: 200 * mm}}
	na, nb = Exchanged(a, b, pa, pb)
	assert.Equal(t, layout.Placement{On: "shelf", At: layout.Point{X: 30 * mm, Y: 220 * mm}}, na, "the back one's back edge stays")
	assert.Equal(t, layout.Placement{On: "deck", At: layout.Point{X: 10 * mm, Y: 20 * mm}}, nb)
}

// Two units that stand clear of each other still do after an exchange, and the
// two together take the same room along the axis on which they are further
// apart.
func TestExchangedNeverMakesAnOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(10_000, 150_000)
		unit := func(n string) *layout.Unit {
			return &layout.Unit{Body: layout.Size{W: layout.Length(size.Draw(t, n+" w")), D: layout.Length(size.Draw(t, n+" d"))}}
		}
		a, b := unit("a"), unit("b")
		at := func(n string) layout.Placement {
			return layout.Placement{On: "deck", Turn: layout.Turn(rapid.IntRange(0, 3).Draw(t, n+" turn")),
				At: layout.Point{X: layout.Length(rapid.Int64Range(0, 400_000).Draw(t, n+" x")), Y: layout.Length(rapid.Int64Range(0, 300_000).Draw(t, n+" y"))}}
		}
		pa, pb := at("a"), at("b")
		ra, rb := a.Base(pa), b.Base(pb)
		if ra.X1 > rb.X0 { // a stands left of b, beside it
			t.Skip("not side by side")
		}
		na, nb := Exchanged(a, b, pa, pb)
		qa, qb := a.Base(na), b.Base(nb)
		ca, cb := ra.Center(), rb.Center()
		if dy := max(cb.Y-ca.Y, ca.Y-cb.Y); cb.X-ca.X < dy {
			t.Skip("further apart from front to back")
		}
		if qb.X0 != ra.X0 || qa.X1 != rb.X1 {
			t.Fatalf("outer edges went from %v, %v to %v, %v", ra.X0, rb.X1, qb.X0, qa.X1)
		}
		if qb.X1 > qa.X0 {
			t.Fatalf("%v and %v overlap along x", qa, qb)
		}
	})
}

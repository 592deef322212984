package boards

import (
	"testing"

	"footplank/layout"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSpan(t *testing.T) {
	for _, c := range []struct{ lo, size, old, now, wantLo, wantSize layout.Length }{
		{100, 50, 300, 300, 100, 50}, // the same board
		{0, 50, 300, 200, 0, 50},     // at the left edge
		{250, 50, 300, 200, 150, 50}, // at the right edge
		{0, 300, 300, 400, 0, 400},   // from edge to edge
		{0, 300, 300, 200, 0, 200},   //
		{125, 50, 300, 200, 75, 50},  // in the middle
		{50, 150, 300, 200, 17, 150}, // a third of the spare room on its left
		{50, 220, 300, 200, 0, 200},  // larger than the board
		{-15, 50, 300, 200, -15, 50}, // past the left edge by as much
		{265, 50, 300, 200, 165, 50}, // past the right edge
		{100, 50, 300, 600, 220, 50}, // on a larger board
	} {
		lo, size := span(c.lo*mm, c.size*mm, c.old*mm, c.now*mm)
		assert.Equal(t, [2]layout.Length{c.wantLo * mm, c.wantSize * mm}, [2]layout.Length{lo, size}, "%v", c)
	}
}

func TestRisersSlotsAndPinnedUnitsGoAlong(t *testing.T) {
	p := example(t, "ceilidh")
	q, assumed := put(p, &Candidate{W: 520 * mm, D: 300 * mm}, FreeFixed, share)
	assert.Empty(t, assumed, "nothing is cut")
	shelf := q.Board.Risers[0]
	// 105 of 160 mm of spare room before, 120 mm now: 78.75, to whole mm.
	assert.Equal(t, layout.RectAt(layout.Point{X: 79 * mm, Y: 120 * mm}, 400*mm, 180*mm), shelf.At)
	assert.Equal(t, shelf.EndPanels(), shelf.Legs)
	colour, space := q.Slot("colour").At, q.Slot("space").At
	assert.Equal(t, layout.RectAt(layout.Point{X: (520 - 238) * mm}, 238*mm, 140*mm), colour, "in the front right corner as before")
	assert.Equal(t, layout.Point{X: 79 * mm, Y: 120 * mm}, layout.Point{X: space.X0, Y: space.Y0}, "at the shelf's front left corner as before")
	was, now := p.Unit("supply").Place.At, q.Unit("supply").Place.At
	assert.Equal(t, layout.Point{X: was.X - 26*mm, Y: was.Y - 30*mm}, now, "with the shelf that it is screwed down under")

	q, assumed = put(p, &Candidate{W: 380 * mm, D: 170 * mm}, FreeFixed, share)
	assert.Equal(t, layout.Rect{X1: 380 * mm, Y1: 170 * mm}, q.Board.Risers[0].At)
	assert.Contains(t, assumed, "Shelf is cut to 380 mm x 170 mm.")

	q, _ = put(p, &Candidate{W: 540 * mm, D: 330 * mm}, FreeFixed, left)
	assert.Equal(t, 105*mm, q.Board.Risers[0].At.X0)
	q, _ = put(p, &Candidate{W: 540 * mm, D: 330 * mm}, FreeFixed, right)
	assert.Equal(t, (540-55)*mm, q.Board.Risers[0].At.X1)
}

func TestRails(t *testing.T) {
	p := example(t, "pocket")
	was := p.Board.TotalMass()
	for _, c := range []struct {
		w, d  layout.Length
		rails int
	}{{360, 220, 4}, {300, 200, 3}, {360, 103, 1}, {400, 278, 5}, {400, 336, 6}} {
		q, _ := put(p, &Candidate{W: c.w * mm, D: c.d * mm}, FreeFixed, share)
		require.Len(t, q.Board.Rails, c.rails, "%v", c)
		for i, r := range q.Board.Rails {
			y := layout.Length(i) * 58 * mm
			assert.Equal(t, layout.Rect{Y0: y, X1: c.w * mm, Y1: y + 46*mm}, r.At)
		}
		want := float64(was) * float64(c.w) / 360 * float64(c.rails) / 4
		assert.InDelta(t, want, float64(q.Board.TotalMass()), 2)
	}
	// Rails along the depth.
	p.Board.Rails = []layout.Rail{{At: layout.Rect{X1: 50 * mm, Y1: 220 * mm}}, {At: layout.Rect{X0: 150 * mm, X1: 200 * mm, Y1: 220 * mm}}}
	q, _ := put(p, &Candidate{W: 360 * mm, D: 300 * mm}, FreeFixed, share)
	assert.Equal(t, []layout.Rail{{At: layout.Rect{X1: 50 * mm, Y1: 300 * mm}}, {At: layout.Rect{X0: 150 * mm, X1: 200 * mm, Y1: 300 * mm}},
		{At: layout.Rect{X0: 300 * mm, X1: 350 * mm, Y1: 300 * mm}}}, q.Board.Rails)
}

func TestPutOnItself(t *testing.T) {
	for _, name := range []string{"ceilidh", "pocket", "toomuch"} {
		p := example(t, name)
		c := Own(p)
		q, assumed := put(p, &c, FreeFixed, share)
		assert.Empty(t, assumed)
		assert.Equal(t, p.Board, q.Board)
		assert.Equal(t, p.Slots, q.Slots)
	}
}

// TestCovered counts cells.
func TestCovered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rs []layout.Rect
		var grid [20][20]bool
		for range rapid.IntRange(0, 6).Draw(t, "n") {
			x, y := rapid.IntRange(0, 18).Draw(t, "x"), rapid.IntRange(0, 18).Draw(t, "y")
			w, d := rapid.IntRange(1, 20-x).Draw(t, "w"), rapid.IntRange(1, 20-y).Draw(t, "d")
			rs = append(rs, layout.RectAt(layout.Point{X: layout.Length(x), Y: layout.Length(y)}, layout.Length(w), layout.Length(d)))
			for i := x; i < x+w; i++ {
				for k := y; k < y+d; k++ {
					grid[i][k] = true
				}
			}
		}
		want := int64(0)
		for i := range grid {
			for k := range grid[i] {
				if grid[i][k] {
					want++
				}
			}
		}
		require.Equal(t, want, covered(rs))
	})
}

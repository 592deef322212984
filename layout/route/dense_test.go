package route

import (
	"fmt"
	"testing"

	"footplank/layout"
	"footplank/layout/cases"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const (
	mm   = layout.Millimetre
	cell = 5 * mm
)

// dense is the plain twin of Shortest on the deck: every point of a 5 mm
// raster, one step at a time, with the rules as the package's comment has them.
// All coordinates of its boards are multiples of the raster's step, so that it
// sees every shortest path that there is.
type dense struct {
	r      Request
	b      bend
	domain layout.Rect
	solids []layout.Rect
}

// cursor is where the cable is at: place, way, sense of the last turn, and how
// many steps ago that was, as far as it matters.
type cursor struct {
	at               layout.Point
	way, sense, gone int
}

// shortest returns the least length, or -1.
func (d *dense) shortest() layout.Length {
	turnBack := int(2 * d.b.radius / cell)
	tip := turnBack / 2 // the plug's room stands for half of it
	seen := map[cursor]bool{}
	var now, next []cursor
	from, into := heading(d.r.From.Dir), (heading(d.r.To.Dir)+2)&3
	now = append(now, cursor{d.r.From.At, from, none, turnBack},
		cursor{d.r.From.At, (from + 1) & 3, left, tip}, cursor{d.r.From.At, (from + 3) & 3, right, tip})
	if d.hits(d.r.From.At) {
		return -1
	}
	for length := layout.Length(0); len(now) > 0; length += cell {
		next = next[:0]
		for len(now) > 0 {
			c := now[len(now)-1]
			now = now[:len(now)-1]
			if seen[c] {
				continue
			}
			seen[c] = true
			if c.at == d.r.To.At && d.enters(c, into, tip) {
				return length
			}
			if c.gone > 0 { // not twice at one place
				for _, sense := range [2]int{left, right} {
					if (sense != c.sense || c.gone >= turnBack) && d.bends(c.at, c.way, sense) && c.at != d.r.From.At {
						now = append(now, cursor{c.at, (c.way + 1 + 2*sense) & 3, sense, 0})
					}
				}
			}
			s := step(c.way)
			to := c.at.Add(layout.Point{X: s.X * cell, Y: s.Y * cell})
			mid := c.at.Add(layout.Point{X: s.X * cell / 2, Y: s.Y * cell / 2})
			if d.domain.Touches(to) && !d.hits(to) && !d.hits(mid) {
				next = append(next, cursor{to, c.way, c.sense, min(c.gone+1, turnBack)})
			}
		}
		now, next = next, now
	}
	return -1
}

func (d *dense) hits(p layout.Point) bool {
	for _, o := range d.solids {
		if inside(o, d.b.half, p) {
			return true
		}
	}
	return false
}

// enters reports whether the cable may go into the plug from here.
func (d *dense) enters(c cursor, into, tip int) bool {
	switch (into - c.way) & 3 {
	case 0:
		return true
	case 1:
		return c.sense != left || c.gone >= tip
	case 3:
		return c.sense != right || c.gone >= tip
	}
	return false
}

// bends reports whether there is room for a bend at p. Its legs go back the way
// the cable came and on the way it goes; what stands between them must keep
// clear.
func (d *dense) bends(p layout.Point, way, sense int) bool {
	a, b := step(way+2), step(way+1+2*sense)
	sx, sy := a.X+b.X, a.Y+b.Y
	for _, o := range d.solids {
		dx, dy := o.X0-p.X, o.Y0-p.Y
		if sx < 0 {
			dx = p.X - o.X1
		}
		if sy < 0 {
			dy = p.Y - o.Y1
		}
		if dx >= d.b.half && dy >= d.b.half && dx < d.b.radius && dy < d.b.radius && (dx < d.b.clear || dy < d.b.clear) {
			return false
		}
	}
	return true
}

// scene draws a board with bodies and a cable on it, on the raster. The ends
// are further apart than what a cable bridges in the air.
func scene(t *rapid.T) (*Space, Request) {
	draw := func(lo, hi int, what string) layout.Length {
		return layout.Length(rapid.IntRange(lo, hi).Draw(t, what)) * cell
	}
	b := layout.Board{W: 300 * mm, D: 200 * mm, Thickness: 15 * mm}
	var placed []layout.Standing
	for i := range rapid.IntRange(0, 9).Draw(t, "bodies") {
		u := &layout.Unit{ID: fmt.Sprint(i), Body: layout.Size{W: draw(2, 20, "w"), D: draw(2, 20, "d"), H: 50 * mm}}
		s, _ := b.Stand(u, layout.Placement{On: layout.DeckName, At: layout.Point{X: draw(0, 56, "x"), Y: draw(0, 36, "y")}}, func(string) bool { return false })
		placed = append(placed, s)
	}
	end := func(name string, x0, x1 int) End {
		return End{Unit: name, Jack: "tip", Z: 5 * mm, At: layout.Point{X: draw(x0, x1, name), Y: draw(0, 40, name)},
			Dir: layout.Wall(rapid.IntRange(0, 3).Draw(t, name+" way"))}
	}
	return newSpace(&b, placed), Request{ID: "c", Kind: Audio, From: end("a", 0, 20), To: end("b", 38, 60),
		Diameter: 10 * mm, BendRadius: 20 * mm}
}

func TestShortestIsThatOfTheDenseGrid(t *testing.T) {
	found, none := 0, 0
	cases.Fewer(t, 40, func(t *rapid.T) {
		s, r := scene(t)
		b := bendOf(r.Diameter, r.BendRadius)
		require.Equal(t, bend{5 * mm, 10 * mm, 20 * mm}, b, "the scene's figures are on the raster")
		d := dense{r: r, b: b, domain: s.layers[0].domain}
		for _, o := range s.solids {
			if o.box.Z1 > 0 {
				d.solids = append(d.solids, o.box.Rect())
			}
		}
		want, got := d.shortest(), s.Shortest(r)
		if want < 0 {
			none++
			require.False(t, got.OK, "%+v", got)
			require.NotEmpty(t, got.Why)
			return
		}
		found++
		require.True(t, got.OK, "%s", got.Why)
		require.Equal(t, want, got.Square(), "%v", got.Points)
	})
	t.Logf("%d ways, %d without one", found, none)
	require.NotZero(t, found)
}

// Swapping the ends makes no difference to the length, and no way is shorter
// than its ends are apart.
func TestShortestIsTheSameFromBothEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, r := scene(t)
		there := s.Shortest(r)
		r.From, r.To = r.To, r.From
		back := s.Shortest(r)
		require.Equal(t, there.OK, back.OK)
		require.Equal(t, there.Bend, back.Bend)
		require.Equal(t, there.Square(), back.Square())
		if there.Points != nil {
			require.GreaterOrEqual(t, there.Square(), reachOf(&r))
			require.LessOrEqual(t, there.Length, there.Square())
		}
	})
}

package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func drawSmall(t *rapid.T, lo, hi int, name string) Length {
	return Length(rapid.IntRange(lo, hi).Draw(t, name))
}

func drawBox(t *rapid.T) Box {
	n := func(name string) Length { return drawSmall(t, -5, 5, name) }
	x, y, z := n("x"), n("y"), n("z")
	return Box{x, y, z, x + drawSmall(t, 0, 5, "w"), y + drawSmall(t, 0, 5, "d"), z + drawSmall(t, 0, 5, "h")}
}

// Clockwise seen from above: what is in front goes to the left, left to the
// back.
func TestTurnIsClockwise(t *testing.T) {
	// A body 3 wide and 2 deep; the front-left corner goes to the back-left.
	for _, tt := range []struct {
		turn Turn
		in   Point
		want Point
	}{
		{0, Point{0, 0}, Point{0, 0}},
		{1, Point{0, 0}, Point{0, 3}},
		{1, Point{3, 0}, Point{0, 0}},
		{1, Point{0, 2}, Point{2, 3}},
		{2, Point{0, 0}, Point{3, 2}},
		{3, Point{0, 0}, Point{2, 0}},
		{3, Point{3, 0}, Point{2, 3}},
		{5, Point{3, 0}, Point{0, 0}},
		{-1, Point{3, 0}, Point{2, 3}},
	} {
		assert.Equal(t, tt.want, tt.turn.Point(tt.in, 3, 2), "turn %d of %v", tt.turn, tt.in)
	}
	for _, tt := range []struct {
		wall Wall
		turn Turn
		want Wall
	}{{Front, 1, Left}, {Left, 1, Back}, {Back, 1, Right}, {Right, 1, Front}, {Front, 2, Back}, {Front, 3, Right}, {Left, 4, Left}} {
		assert.Equal(t, tt.want, tt.wall.Turned(tt.turn), "%v turned %d", tt.wall, tt.turn)
	}
}

func TestTurnOf(t *testing.T) {
	for _, d := range []int{0, 90, 180, 270} {
		turn, err := TurnOf(d)
		require.NoError(t, err)
		assert.Equal(t, d, turn.Degrees())
	}
	for _, d := range []int{-90, 45, 360, 1} {
		_, err := TurnOf(d)
		assert.ErrorContains(t, err, "want 0, 90, 180 or 270 degrees")
	}
}

func TestWallNames(t *testing.T) {
	for _, name := range WallNames() {
		w, ok := WallOf(name)
		require.True(t, ok)
		assert.Equal(t, name, w.String())
	}
	_, ok := WallOf("top")
	assert.False(t, ok)
}

// Four quarter turns are the identity, and n quarter turns are turn n.
func TestFourTurnsAreTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawLength(t, "w"), drawLength(t, "d")
		p := Point{drawLength(t, "x"), drawLength(t, "y")}
		q := Point{drawLength(t, "x1"), drawLength(t, "y1")}
		r := Rect{min(p.X, q.X), min(p.Y, q.Y), max(p.X, q.X), max(p.Y, q.Y)}
		b := BoxOn(r, -3, 9)
		tp, tr, tb, tw, td := p, r, b, w, d
		for n := range Turn(4) {
			require.Equal(t, n.Point(p, w, d), tp)
			require.Equal(t, n.Rect(r, w, d), tr)
			require.Equal(t, n.Box(b, w, d), tb)
			nw, nd := n.Footprint(w, d)
			require.Equal(t, [2]Length{nw, nd}, [2]Length{tw, td})
			tp, tr, tb = Turn(1).Point(tp, tw, td), Turn(1).Rect(tr, tw, td), Turn(1).Box(tb, tw, td)
			tw, td = Turn(1).Footprint(tw, td)
		}
		require.Equal(t, p, tp)
		require.Equal(t, r, tr)
		require.Equal(t, b, tb)
		require.Equal(t, [2]Length{w, d}, [2]Length{tw, td})
	})
}

// A turn keeps sizes, keeps the body's rectangle at the origin, and keeps what
// is inside the body inside.
func TestTurnKeepsSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawSmall(t, 1, 9, "bw"), drawSmall(t, 1, 9, "bd")
		turn := Turn(rapid.IntRange(-4, 8).Draw(t, "turn"))
		b := drawBox(t)
		got := turn.Box(b, w, d)
		require.Equal(t, b.Rect().W()*b.Rect().D(), got.Rect().W()*got.Rect().D())
		require.Equal(t, [2]Length{b.Z0, b.Z1}, [2]Length{got.Z0, got.Z1})
		tw, td := turn.Footprint(w, d)
		body, turned := Rect{0, 0, w, d}, Rect{0, 0, tw, td}
		require.Equal(t, turned, turn.Rect(body, w, d))
		require.Equal(t, body.Contains(b.Rect()), turned.Contains(got.Rect()))
		back := Turn(0).Add(-turn)
		require.Equal(t, b, back.Box(got, tw, td))
	})
}

// The slow twin of the predicates: cubes of a micrometre.
func TestOverlapsAgainstCubes(t *testing.T) {
	in := func(b Box, x, y, z Length) bool {
		return x >= b.X0 && x < b.X1 && y >= b.Y0 && y < b.Y1 && z >= b.Z0 && z < b.Z1
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawBox(t), drawBox(t)
		var box, rect, outside bool
		for x := Length(-5); x < 10; x++ {
			for y := Length(-5); y < 10; y++ {
				inA, inB := a.Z0 < a.Z1 && in(a, x, y, a.Z0), b.Z0 < b.Z1 && in(b, x, y, b.Z0)
				flatA := in(BoxOn(a.Rect(), 0, 1), x, y, 0)
				flatB := in(BoxOn(b.Rect(), 0, 1), x, y, 0)
				rect = rect || flatA && flatB
				outside = outside || flatB && !flatA
				if inA && inB {
					for z := Length(-5); z < 10; z++ {
						box = box || in(a, x, y, z) && in(b, x, y, z)
					}
				}
			}
		}
		require.Equal(t, box, a.Overlaps(b))
		require.Equal(t, box, b.Overlaps(a), "conflict is symmetric")
		require.Equal(t, rect, a.Rect().Overlaps(b.Rect()))
		require.Equal(t, rect, b.Rect().Overlaps(a.Rect()))
		if !a.Rect().Empty() && !b.Rect().Empty() {
			require.Equal(t, !outside, a.Rect().Contains(b.Rect()))
			u := a.Rect().Union(b.Rect())
			require.True(t, u.Contains(a.Rect()) && u.Contains(b.Rect()))
		}
		p := Point{drawSmall(t, -9, 9, "px"), drawSmall(t, -9, 9, "py")}
		require.Equal(t, box, a.Move(p, 4).Overlaps(b.Move(p, 4)), "moved together")
	})
}

func TestRect(t *testing.T) {
	r := RectAt(Point{1, 2}, 3, 4)
	assert.Equal(t, Rect{1, 2, 4, 6}, r)
	assert.Equal(t, Rect{0, 1, 7, 8}, r.Grow(Edges{Front: 1, Back: 2, Left: 1, Right: 3}))
	assert.Equal(t, Rect{11, 22, 14, 26}, r.Move(Point{10, 20}))
	assert.Equal(t, Point{2, 4}, r.Center())
	assert.Equal(t, r, r.Union(Rect{9, 9, 9, 12}), "an empty one counts for nothing")
	assert.Equal(t, r, Rect{9, 9, 9, 12}.Union(r))
	for p, want := range map[Point]bool{{1, 2}: true, {4, 6}: true, {1, 6}: true, {0, 2}: false, {5, 6}: false, {4, 7}: false, {2, 1}: false} {
		assert.Equal(t, want, r.Touches(p), "%v", p)
	}
	assert.False(t, Rect{0, 0, 2, 2}.Overlaps(Rect{2, 0, 4, 2}), "touching is allowed")
	assert.False(t, Box{0, 0, 0, 2, 2, 2}.Overlaps(Box{0, 0, 2, 2, 2, 4}), "so is standing on top")
}

package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func inRegions(rs []Rect, p Point) bool {
	for _, r := range rs {
		if r.Touches(p) {
			return true
		}
	}
	return false
}

// bearsOn counts, micrometre by micrometre, how much of a base's width and of
// its depth lies over r.
func bearsOn(r, base Rect) (w, d int) {
	for x := base.X0; x < base.X1; x++ {
		if x >= r.X0 && x < r.X1 {
			w++
		}
	}
	for y := base.Y0; y < base.Y1; y++ {
		if y >= r.Y0 && y < r.Y1 {
			d++
		}
	}
	return w, d
}

// The slow twin of RestRegions on a flat surface: the rule as it is written,
// tried at every place round about.
func TestRestRegionsAgainstTrying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(lo, hi int, name string) Length { return drawSmall(t, lo, hi, name) }
		s := Surface{At: RectAt(Point{n(-2, 2, "sx"), n(-2, 2, "sy")}, n(1, 9, "sw"), n(1, 9, "sd")),
			Overhang: Edges{n(0, 5, "front"), n(0, 5, "back"), n(0, 5, "left"), n(0, 5, "right")}}
		w, d := n(1, 8, "w"), n(1, 8, "d")
		regions := s.RestRegions(w, d)
		for _, r := range regions {
			require.True(t, r.X0 <= r.X1 && r.Y0 <= r.Y1, "%v is inside out", r)
		}
		for x := Length(-16); x <= 16; x++ {
			for y := Length(-16); y <= 16; y++ {
				base := RectAt(Point{x, y}, w, d)
				ow, od := bearsOn(s.At, base)
				want := s.At.Grow(s.Overhang).Contains(base)
				if ow < int(w) && od < int(d) { // past edges both ways
					want = want && ow*10000 >= int(w)*7072 && od*10000 >= int(d)*7072
				} else {
					want = want && 2*ow >= int(w) && 2*od >= int(d)
				}
				require.Equal(t, want, inRegions(regions, Point{x, y}), "at %d, %d", x, y)
				if want {
					require.GreaterOrEqual(t, 2*ow*od, int(w*d), "half of the base bears")
					mx, my := 2*x+w, 2*y+d // doubled, to stay whole
					over := mx >= 2*s.At.X0 && mx <= 2*s.At.X1 && my >= 2*s.At.Y0 && my <= 2*s.At.Y1
					require.True(t, over, "the middle is over the surface")
				}
			}
		}
	})
}

// railRests is the rule for rails as it is written, for rails along x; grain is
// the size of the steps that bearing is counted in.
func railRests(rails []Rect, base Rect) bool {
	share := func(r Rect) (w, d Length) {
		i := base.Intersect(r)
		return max(i.W(), 0), max(i.D(), 0)
	}
	for _, a := range rails {
		w, d := share(a)
		if w < base.W() && d < base.D() {
			if w*10000 >= base.W()*7072 && d*10000 >= base.D()*7072 {
				return true
			}
		} else if 2*w >= base.W() && 2*d >= base.D() {
			return true
		}
		for _, b := range rails {
			bw, bd := share(b)
			middle := base.Y0 + base.D()/2
			if a.Y1 <= b.Y0 && w == base.W() && bw == base.W() && d >= MinBearing && bd >= MinBearing && middle >= a.Y0 && middle <= b.Y1 {
				return true
			}
		}
	}
	return false
}

func turned(rs []Rect) []Rect {
	var out []Rect
	for _, r := range rs {
		out = append(out, Rect{r.Y0, r.X0, r.Y1, r.X1})
	}
	return out
}

func TestRestOnRailsAgainstTrying(t *testing.T) {
	const step = 5 * Millimetre
	rapid.Check(t, func(t *rapid.T) {
		n := func(lo, hi int, name string) Length { return step * drawSmall(t, lo, hi, name) }
		s := Surface{At: Rect{0, 0, 20 * step, 20 * step},
			Overhang: Edges{n(0, 3, "front"), n(0, 3, "back"), n(0, 3, "left"), n(0, 3, "right")}}
		y := Length(0)
		for range rapid.IntRange(1, 4).Draw(t, "rails") {
			x, depth := n(0, 4, "x"), n(1, 5, "depth")
			s.Rails = append(s.Rails, Rail{Rect{x, y, x + n(4, 16, "width"), y + depth}})
			y += depth + n(0, 4, "gap")
		}
		var rails []Rect
		for _, r := range s.Rails {
			rails = append(rails, r.At)
		}
		upright := rapid.Bool().Draw(t, "from front to back")
		if upright {
			rails = turned(rails)
			for i := range rails {
				s.Rails[i].At = rails[i]
			}
		}
		w, d := n(1, 12, "w"), n(1, 12, "d")
		regions := s.RestRegions(w, d)
		for i := Length(-4); i <= 22; i++ {
			for j := Length(-4); j <= 22; j++ {
				for _, by := range []Length{-1, 0, 1} {
					p := Point{i*step + by, j*step - by}
					base := RectAt(p, w, d)
					rests := railRests(rails, base) || railRests(turned(rails), turned([]Rect{base})[0])
					want := s.At.Grow(s.Overhang).Contains(base) && rests
					require.Equal(t, want, inRegions(regions, p), "%v on %v", base, rails)
				}
			}
		}
	})
}

func TestRests(t *testing.T) {
	s := Surface{At: Rect{0, 0, 400 * Millimetre, 300 * Millimetre}, Overhang: Edges{Left: 40 * Millimetre}}
	u := &Unit{Body: Size{60 * Millimetre, 120 * Millimetre, 50 * Millimetre}}
	for _, tt := range []struct {
		at   Point
		turn Turn
		want bool
	}{
		{Point{0, 0}, 0, true},
		{Point{-30 * Millimetre, 0}, 0, true},
		{Point{-30*Millimetre - 1, 0}, 0, false},
		{Point{-40 * Millimetre, 0}, 1, true}, // turned it is 120 mm wide
		{Point{-40*Millimetre - 1, 0}, 1, false},
		{Point{0, -1}, 0, false},
	} {
		assert.Equal(t, tt.want, s.Rests(u, Placement{At: tt.at, Turn: tt.turn}), "%+v", tt)
	}
	assert.Empty(t, s.RestRegions(0, 10), "nothing has no base")
	num, den := TwoEdgeShare()
	assert.Greater(t, 2*num*num, den*den, "the square of the share is over a half")
}

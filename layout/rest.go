package layout

// Rules for resting on a surface. All are common practice, no source, and
// chosen so that the allowed origins are a few exact rectangles.
const (
	// MinBearing is the least depth or width of a rail that a base must
	// bear on.
	MinBearing = 10 * Millimetre
	// twoEdgeShare is the share of width and of depth that must bear where
	// a unit stands past two edges at once: its square is just over a half.
	twoEdgeShareNum, twoEdgeShareDen = 7072, 10000
)

// RestRegions returns the origins (closed rectangles, which may overlap) at
// which a body w wide and d deep, as turned, rests on the surface: it stands
// past each edge by no more than that edge's overhang, at least half of its
// base bears, and its centre of mass, taken as the middle of its base, is over
// what bears. Where it passes one edge that is half its width or depth; where
// it passes two at once, 71 % of both.
//
// On rails the base must either rest so on one rail, or bear MinBearing deep
// on two, one before and one behind its middle. Rails run along x or along y.
//
//	  +------+           +------+
//	==|      |==       ==|      |==  rail
//	  |      |           |      |
//	==|      |==         +------+
//	  +------+         ==========    falls between: no
func (s Surface) RestRegions(w, d Length) []Rect {
	if w <= 0 || d <= 0 {
		return nil
	}
	limit := Rect{s.At.X0 - s.Overhang.Left, s.At.Y0 - s.Overhang.Front,
		s.At.X1 + s.Overhang.Right - w, s.At.Y1 + s.Overhang.Back - d}
	var out []Rect
	add := func(r Rect) {
		r = Rect{max(r.X0, limit.X0), max(r.Y0, limit.Y0), min(r.X1, limit.X1), min(r.Y1, limit.Y1)}
		if r.X0 <= r.X1 && r.Y0 <= r.Y1 {
			out = append(out, r)
		}
	}
	if s.Rails == nil {
		for _, r := range restOn(s.At, w, d) {
			add(r)
		}
		return out
	}
	for i, a := range s.Rails {
		for _, r := range restOn(a.At, w, d) {
			add(r)
		}
		for j, b := range s.Rails {
			if i != j {
				add(bridge(a.At, b.At, w, d))
				add(flip(bridge(flip(a.At), flip(b.At), d, w)))
			}
		}
	}
	return out
}

// Rests reports whether the unit rests on the surface at that place, by
// RestRegions.
func (s Surface) Rests(u *Unit, pl Placement) bool {
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	for _, r := range s.RestRegions(w, d) {
		if r.Touches(pl.At) {
			return true
		}
	}
	return false
}

// restOn returns the origins at which enough of the base bears on one flat
// rectangle. A share of at least half puts the middle over it too.
func restOn(on Rect, w, d Length) []Rect {
	span := func(lo, hi, size Length, num, den Length) (Length, Length) {
		need := (size*num + den - 1) / den
		if hi-lo < need {
			return 1, 0
		}
		return lo - (size - need), hi - need
	}
	// Where the surface is smaller than the body, both edges are passed at
	// once and the bearing is the whole surface; span handles that too, as
	// the bearing is then hi-lo >= need.
	wx0, wx1 := span(on.X0, on.X1, w, 1, 1)
	wy0, wy1 := span(on.Y0, on.Y1, d, 1, 1)
	hx0, hx1 := span(on.X0, on.X1, w, 1, 2)
	hy0, hy1 := span(on.Y0, on.Y1, d, 1, 2)
	sx0, sx1 := span(on.X0, on.X1, w, twoEdgeShareNum, twoEdgeShareDen)
	sy0, sy1 := span(on.Y0, on.Y1, d, twoEdgeShareNum, twoEdgeShareDen)
	return []Rect{{hx0, wy0, hx1, wy1}, {wx0, hy0, wx1, hy1}, {sx0, sy0, sx1, sy1}}
}

// bridge returns the origins at which a base bears on rail a in front and
// rail b behind, with its middle over neither's outside, its whole width on
// both.
func bridge(a, b Rect, w, d Length) Rect {
	if a.Y1 > b.Y0 || a.D() < MinBearing || b.D() < MinBearing || d < MinBearing {
		return Rect{1, 1, 0, 0}
	}
	mid := d / 2
	return Rect{
		X0: max(a.X0, b.X0),
		X1: min(a.X1, b.X1) - w,
		Y0: max(b.Y0+MinBearing-d, a.Y0-mid),
		Y1: min(a.Y1-MinBearing, b.Y1-mid),
	}
}

func flip(r Rect) Rect { return Rect{r.Y0, r.X0, r.Y1, r.X1} }

// TwoEdgeShare returns, as a fraction, the share of both its width and its
// depth that must bear where a unit stands past edges both ways.
func TwoEdgeShare() (num, den Length) { return twoEdgeShareNum, twoEdgeShareDen }

package mount

import (
	"slices"

	"footplank/layout"
)

// track is a strip of the board, right across it, from lo to hi along y, or
// along x when it is upright. Pieces are cut where it passes beneath units.
type track struct {
	upright bool
	lo, hi  layout.Length
	width   layout.Length // of the roll; hi-lo is as much or less
}

// way turns a rectangle so that the track runs along x; twice is nothing.
func (t track) way(r layout.Rect) layout.Rect {
	if t.upright {
		return flip(r)
	}
	return r
}

// meets reports whether two tracks of one direction share a line.
func (t track) meets(o track) bool { return t.lo < o.hi && o.lo < t.hi }

// over adds to out where the track passes beneath a unit, spots or none: what
// it costs, so that a strip that a foot shortens is no bargain.
func (t track) over(out []layout.Rect, s *stand) []layout.Rect {
	for _, free := range s.free {
		r := t.way(free)
		r.Y0, r.Y1 = max(r.Y0, t.lo), min(r.Y1, t.hi)
		if r.D() >= Least {
			out = append(out, t.way(r))
		}
	}
	return out
}

// cut adds to out the pieces of the track beneath a unit: where it may lie,
// between the spots.
//
//	+----------------+
//	| ====  ======== |  track
//	|     ()         |  a foot
//	+----------------+
func (t track) cut(out []layout.Rect, s *stand) []layout.Rect {
	for _, free := range s.free {
		r := t.way(free)
		r.Y0, r.Y1 = max(r.Y0, t.lo), min(r.Y1, t.hi)
		if r.D() < Least {
			continue
		}
		from := len(out)
		out = append(out, r)
		for _, spot := range s.spots {
			b := t.way(spot)
			for i := len(out) - 1; i >= from; i-- {
				if a := out[i]; a.Overlaps(b) {
					out = slices.Delete(out, i, i+1)
					if b.X0-a.X0 >= Least {
						out = append(out, layout.Rect{X0: a.X0, Y0: a.Y0, X1: b.X0, Y1: a.Y1})
					}
					if a.X1-b.X1 >= Least {
						out = append(out, layout.Rect{X0: b.X1, Y0: a.Y0, X1: a.X1, Y1: a.Y1})
					}
				}
			}
		}
		for i := from; i < len(out); i++ {
			if out[i].W() < Least {
				out = slices.Delete(out, i, i+1)
				i--
				continue
			}
			out[i] = t.way(out[i])
		}
	}
	return out
}

// stacked is the most tracks that are tried side by side beneath one unit.
const stacked = 8

// tracksFor adds to out, which is empty, the tracks of one roll that are worth a
// try beneath the units: along both ends of where pieces may lie, side by side from there, in
// the middle, and close to both sides of every spot. Some unit's pieces have a
// side on each; with any other track they could be shifted until they have one.
func tracksFor(out []track, group []*stand, upright bool, width layout.Length) []track {
	for _, s := range group {
		for _, free := range s.free {
			t := track{upright: upright, width: width}
			r := t.way(free)
			full := min(width, r.D())
			add := func(lo layout.Length) {
				if t.lo, t.hi = lo, lo+full; t.lo >= r.Y0 && t.hi <= r.Y1 {
					out = append(out, t)
				}
			}
			for i := layout.Length(0); i < stacked && (i+1)*full <= r.D(); i++ {
				add(r.Y0 + i*full)
				add(r.Y1 - (i+1)*full)
			}
			add(r.Y0 + (r.D()-full)/2/layout.Millimetre*layout.Millimetre)
			for _, spot := range s.spots {
				if b := t.way(spot); b.Overlaps(r) {
					add(b.Y0 - full)
					add(b.Y1)
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b track) int {
		if a.lo != b.lo {
			return int(min(max(a.lo-b.lo, -1), 1))
		}
		return int(min(max(a.hi-b.hi, -1), 1))
	})
	return slices.Compact(out)
}

// filling adds to out the tracks side by side that cover all that they can
// beneath one unit.
func filling(out []track, s *stand, upright bool, width layout.Length) []track {
	for _, free := range s.free {
		t := track{upright: upright, width: width}
		r := t.way(free)
		for lo := r.Y0; r.Y1-lo >= Least; lo += width {
			t.lo, t.hi = lo, min(lo+width, r.Y1)
			out = append(out, t)
		}
	}
	return out
}

// strip is a piece beneath a unit and the track that it is cut from.
type strip struct {
	at    layout.Rect
	track track
}

// length returns what is cut from the roll.
func (t track) length(r layout.Rect) layout.Length { return t.way(r).W() }

// ground is what strips on one surface must not run across: legs, fixtures,
// fastener of the other kind, and units that share no place with those on it.
type ground struct {
	parts  []layout.Rect
	breaks []layout.Rect
	// Memory that joined uses again.
	on, strips []layout.Rect
}

// joined returns the strips on the board that the pieces of one track need:
// neighbours are joined wherever nothing is in the way between them, so that
// there are the fewest.
//
//	 A in one line-up    B in another
//	+------+              +------+
//	|======|==============|======|   one strip
//	+------+              +------+
//
// What it returns is good until it is called again.
func (g *ground) joined(t track, pieces []layout.Rect) []layout.Rect {
	out := g.strips[:0]
	for _, part := range g.parts {
		on := g.on[:0]
		for _, r := range pieces {
			if part.Contains(r) {
				on = append(on, t.way(r))
			}
		}
		slices.SortFunc(on, func(a, b layout.Rect) int {
			return cmpPoint(layout.Point{X: a.Y0, Y: a.X0}, layout.Point{X: b.Y0, Y: b.X0})
		})
		var last layout.Rect
		for i, r := range on {
			if i == 0 {
				last = r
				continue
			}
			both := last.Union(r)
			if last.Contains(r) || !g.crosses(t.way(both)) {
				last = both
				continue
			}
			out = append(out, t.way(last))
			last = r
		}
		if !last.Empty() {
			out = append(out, t.way(last))
		}
		g.on = on
	}
	g.strips = out
	return apart(out)
}

// apart cuts rectangles where they lie over each other, so that none does.
func apart(strips []layout.Rect) []layout.Rect {
	clear := true
	for i, r := range strips {
		clear = clear && r.W() >= Least && r.D() >= Least && !slices.ContainsFunc(strips[:i], r.Overlaps)
	}
	if clear {
		return strips
	}
	var out []layout.Rect
	for _, r := range strips {
		rest := []layout.Rect{r}
		for _, have := range out {
			rest = subtract(rest, have)
		}
		for _, r := range rest {
			if r.W() >= Least && r.D() >= Least {
				out = append(out, r)
			}
		}
	}
	return out
}

func (g *ground) crosses(r layout.Rect) bool {
	return slices.ContainsFunc(g.breaks, r.Overlaps)
}

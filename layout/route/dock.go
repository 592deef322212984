package route

import (
	"slices"

	"footplank/layout"
)

// The four ways on a level, anticlockwise, so that +1 is a turn to the left.
const (
	east = iota
	north
	west
	south
)

// heading returns the way that faces a side of the board.
func heading(w layout.Wall) int { return south - int(w&3) }

// step is one unit's length that way.
func step(way int) layout.Point {
	return [4]layout.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[way&3]
}

// dock is where a cable's end comes to lie on a plane.
type dock struct {
	plane int
	at    layout.Point
	way   int           // in which the cable sets out from here
	extra layout.Length // from here to the end itself
	end   Point3
}

// docks returns the places at which an end meets the planes.
//
// A plug's cable comes down inside the plug's own box, where its first bend
// has room. It comes down at the tip, or where something stands right before
// the plug, just far enough back from it:
//
//	 wall                  wall
//	  |=====o               |===o=|other
//	  |plug |               |   | |body
//	  |     |tip            |   | |
//	--+-----o---  deck    --+---o-+----
func (s *Space) docks(w *worker, r *Request, e *End, planes []plane) []dock {
	var out []dock
	for i := range planes {
		pl := &planes[i]
		var at layout.Point
		var ok bool
		switch {
		case e.Edge:
			at, ok = s.slide(r, e, pl)
		case pl.layer == inAir:
			at, ok = e.At, true
		case s.layers[pl.layer].below || e.Z < pl.z:
		default:
			at, ok = s.comeDown(w, r, e, pl)
		}
		if !ok || !pl.domain.Touches(at) {
			continue
		}
		d := dock{plane: i, at: at, way: heading(e.Dir), end: Point3{e.At.X, e.At.Y, e.Z}}
		if e.Edge {
			d.way = (d.way + 2) & 3
			d.end = Point3{at.X, at.Y, pl.z}
		}
		d.extra = span(Point3{at.X, at.Y, pl.z}, d.end)
		out = append(out, d)
	}
	return out
}

// comeDown returns where, on the axis of its own plug, the cable can go down
// from the plug's height to the plane.
func (s *Space) comeDown(w *worker, r *Request, e *End, pl *plane) (layout.Point, bool) {
	half := r.Diameter / 2
	keep := len(w.rects)
	shaft := s.between(w, r, pl.z-half, e.Z+half)
	w.rects = w.rects[:keep]
	back := step(heading(e.Dir) + 2)
	at, limit := e.At, s.plugLength(e)
	for range shaft {
		hit := slices.IndexFunc(shaft, func(o layout.Rect) bool { return inside(o, half, at) })
		if hit < 0 {
			break
		}
		o := shaft[hit]
		switch {
		case back.X > 0:
			at.X = o.X1 + half
		case back.X < 0:
			at.X = o.X0 - half
		case back.Y > 0:
			at.Y = o.Y1 + half
		default:
			at.Y = o.Y0 - half
		}
	}
	free := !slices.ContainsFunc(shaft, func(o layout.Rect) bool { return inside(o, half, at) })
	return at, free && abs(at.X-e.At.X)+abs(at.Y-e.At.Y) <= limit
}

// plugLength returns how far an end's plug stands out of its wall, zero when
// the space does not have it.
func (s *Space) plugLength(e *End) layout.Length {
	for i := range s.solids {
		if o := &s.solids[i]; o.unit == e.Unit && o.jack == e.Jack && o.jack != "" {
			if heading(e.Dir)&1 == 0 {
				return o.box.X1 - o.box.X0
			}
			return o.box.Y1 - o.box.Y0
		}
	}
	return 0
}

// slide returns the free place on the board's edge that is nearest to where a
// cable should leave it.
func (s *Space) slide(r *Request, e *End, pl *plane) (layout.Point, bool) {
	half := r.Diameter / 2
	blocked := func(p layout.Point) bool {
		return !pl.domain.Touches(p) || slices.ContainsFunc(pl.solids, func(o layout.Rect) bool { return inside(o, half, p) })
	}
	if !blocked(e.At) {
		return e.At, true
	}
	best, found := e.At, false
	for _, o := range pl.solids {
		tries := [2]layout.Point{{X: o.X0 - half, Y: e.At.Y}, {X: o.X1 + half, Y: e.At.Y}}
		if heading(e.Dir)&1 == 0 {
			tries = [2]layout.Point{{X: e.At.X, Y: o.Y0 - half}, {X: e.At.X, Y: o.Y1 + half}}
		}
		for _, p := range tries {
			if s.board.Touches(p) && !blocked(p) && (!found || apart(p, e.At) < apart(best, e.At)) {
				best, found = p, true
			}
		}
	}
	return best, found
}

func apart(a, b layout.Point) layout.Length { return abs(a.X-b.X) + abs(a.Y-b.Y) }

// inside reports whether a cable with its middle at p would run into o.
func inside(o layout.Rect, half layout.Length, p layout.Point) bool {
	return p.X > o.X0-half && p.X < o.X1+half && p.Y > o.Y0-half && p.Y < o.Y1+half
}

package route

import (
	"slices"

	"footplank/layout"
)

// source is where a line of the grid comes from: what stands in the way, an end
// or another cable. Away from its source a line goes on as far as there is room.
type source struct {
	north      bool // the line runs along y
	at, lo, hi layout.Length
}

// add offers a line. Those outside the window are left out.
func (g *grid) add(t source) {
	w := &g.win
	if t.north && t.at >= w.X0 && t.at <= w.X1 || !t.north && t.at >= w.Y0 && t.at <= w.Y1 {
		g.sources = append(g.sources, t)
	}
}

// around offers the four lines that keep off o by that much.
func (g *grid) around(o layout.Rect, keep, ends layout.Length) {
	g.add(source{true, o.X0 - keep, o.Y0 - ends, o.Y1 + ends})
	g.add(source{true, o.X1 + keep, o.Y0 - ends, o.Y1 + ends})
	g.add(source{false, o.Y0 - keep, o.X0 - ends, o.X1 + ends})
	g.add(source{false, o.Y1 + keep, o.X0 - ends, o.X1 + ends})
}

// sides offers the lines along the sides of o that a good way needs: where
// there is room for a bend beside it the one that is clear of it, else also the
// one right at it.
func (g *grid) sides(o layout.Rect, pl *plane, b bend) {
	deep := b.clear + b.half
	for way := range 4 {
		strip, at, hug := o, layout.Length(0), layout.Length(0)
		switch way {
		case east:
			strip.X0, strip.X1, at, hug = o.X1, o.X1+deep, o.X1+b.clear, o.X1+b.half
		case north:
			strip.Y0, strip.Y1, at, hug = o.Y1, o.Y1+deep, o.Y1+b.clear, o.Y1+b.half
		case west:
			strip.X0, strip.X1, at, hug = o.X0-deep, o.X0, o.X0-b.clear, o.X0-b.half
		default:
			strip.Y0, strip.Y1, at, hug = o.Y0-deep, o.Y0, o.Y0-b.clear, o.Y0-b.half
		}
		t := source{way&1 == 0, at, o.Y0 - b.radius, o.Y1 + b.radius}
		if way&1 == 1 {
			t.lo, t.hi = o.X0-b.radius, o.X1+b.radius
		}
		g.add(t)
		if !pl.domain.Contains(strip) || slices.ContainsFunc(pl.solids, strip.Overlaps) {
			t.at = hug
			g.add(t)
		}
	}
}

// lines fills in the grid's lines: past each edge of what stands in the window
// by what a cable, a bend and a swing must keep, and through the docks. With
// closed they are closed under what a turn back takes, once; see the package's
// comment.
func (g *grid) lines(planes []plane, docks [2][]dock, b bend, win layout.Rect, r *Request, tracks, old []strand, closed bool) {
	g.win, g.sources = win, g.sources[:0]
	for i := range planes {
		g.obstacles(&planes[i], b, closed)
	}
	for i := range tracks {
		t := &tracks[i]
		keep := b.half + t.diameter/2
		if t.kind != r.Kind {
			keep = max(keep, Near)
		}
		g.add(source{!t.alongX, t.at - keep, t.lo, t.hi})
		g.add(source{!t.alongX, t.at + keep, t.lo, t.hi})
	}
	for i := range old {
		g.add(source{!old[i].alongX, old[i].at, old[i].lo, old[i].hi})
	}
	if closed {
		for _, t := range slices.Clone(g.sources) {
			at := t.at
			t.at = at - 2*b.radius
			g.add(t)
			t.at = at + 2*b.radius
			g.add(t)
		}
	}
	for _, side := range docks {
		for _, d := range side {
			here := layout.Rect{X0: d.at.X, Y0: d.at.Y, X1: d.at.X, Y1: d.at.Y}
			for k := range layout.Length(4) {
				if k < 3 || closed {
					g.around(here, k*b.radius, k*b.radius)
				}
			}
		}
	}
	g.draw()
}

// obstacles offers the lines past what stands in the way on a plane.
func (g *grid) obstacles(pl *plane, b bend, closed bool) {
	far := layout.Edges{Front: b.radius, Back: b.radius, Left: b.radius, Right: b.radius}
	for _, o := range pl.solids {
		switch {
		case !o.Grow(far).Overlaps(g.win):
		case closed:
			g.around(o, b.half, b.half)
			g.around(o, b.clear, b.radius)
			g.around(o, b.radius, b.radius)
		default:
			g.sides(o, pl, b)
		}
	}
	// Between planes cables go only round the rim of the upper one.
	for _, o := range pl.shaft {
		if o.Overlaps(g.win) && o.Overlaps(pl.domain) && (o == pl.core || !pl.core.Contains(o)) {
			g.around(o, b.half, b.half)
		}
	}
}

// draw makes the grid of the lines that were offered.
func (g *grid) draw() {
	g.xs, g.ys = g.xs[:0], g.ys[:0]
	for i := range g.sources {
		if g.sources[i].north {
			g.xs = append(g.xs, g.sources[i].at)
		} else {
			g.ys = append(g.ys, g.sources[i].at)
		}
	}
	g.xs, g.ys = distinct(g.xs), distinct(g.ys)
	g.nx, g.ny = len(g.xs), len(g.ys)
}

// prune walls off what no shortest way uses: the parts of lines that cannot be
// reached straight from their source. A stretch of a shortest way can be moved
// sideways until it lies along a source, without the way growing longer.
func (g *grid) prune(planes int) {
	n := g.nx * g.ny
	g.useEast, g.useNorth = zeroed(g.useEast, n*planes), zeroed(g.useNorth, n*planes)
	for i := range g.sources {
		t := &g.sources[i]
		if t.north {
			from, lo, hi := atLeast(g.xs, t.at), atLeast(g.ys, t.lo), atLeast(g.ys, t.hi)
			for p := range planes {
				use(g.north, g.useNorth, p*n+from, g.nx, g.ny, lo, hi)
			}
		} else {
			from, lo, hi := atLeast(g.ys, t.at)*g.nx, atLeast(g.xs, t.lo), atLeast(g.xs, t.hi)
			for p := range planes {
				use(g.east, g.useEast, p*n+from, 1, g.nx, lo, hi)
			}
		}
	}
	for i, u := range g.useEast {
		if !u {
			g.east[i] = wall
		}
	}
	for i, u := range g.useNorth {
		if !u {
			g.north[i] = wall
		}
	}
}

// use marks the stretches of one line from lo to hi, and on from there both
// ways until there is no going on.
func use(cost []int32, used []bool, from, by, n, lo, hi int) {
	lo, hi = min(lo, n-1), min(hi, n-1)
	for k := lo; k < hi; k++ {
		used[from+k*by] = true
	}
	for k := hi; k < n && cost[from+k*by] != wall; k++ {
		used[from+k*by] = true
	}
	for k := lo - 1; k >= 0 && cost[from+k*by] != wall; k-- {
		used[from+k*by] = true
	}
}

func distinct(s []layout.Length) []layout.Length {
	slices.Sort(s)
	return slices.Compact(s)
}

package route

import (
	"math"
	"slices"

	"footplank/layout"
)

// What a node of the grid knows, one bit each. A bend's bit is that of the
// quadrant inside the bend, between the way of the same number and the next.
const (
	blocked   = 1 << iota // the cable cannot be here
	goalHere              // an end of the cable is here
	shaftHere             // can go up or down from here
	_
	tightNE // no room to bend with the inside to the north-east
	tightNW
	tightSW
	tightSE
)

// grid is the sparse grid: lines where a shortest path may run, and at their
// crossings, on every plane, nodes.
type grid struct {
	xs, ys []layout.Length
	nx, ny int
	flags  []uint8 // by plane, row, column
	shaft  []uint8 // by row, column: bit i is the way between planes 0 and i
	// east and north are what the stretches to the next nodes in x and in y
	// cost: their length in micrometres and what is charged for cables that
	// lie there, or wall.
	east, north []int32

	win               layout.Rect
	sources           []source
	useEast, useNorth []bool
	near              []bool // the cable's old way, in loyal
}

// wall is the cost of a stretch with no way through.
const wall = -1

// bend is what a radius asks for: at a corner, whatever stands inside the bend
// keeps clear in both directions, or by the radius in one.
//
//	|                      |
//	|   +-----             |
//	|   | body             |r  +----
//	|c  +-----             |   | body
//	|  c                   |   +----
//	+---------             +---------
type bend struct{ half, clear, radius layout.Length }

// bendOf returns the room that a bend asks for. With the corner at the origin
// the bend's arc is about (r,r); a body's corner at (c,c) is half a diameter d
// from it when sqrt(2)(r-c) = r-d/2. It is rounded up to a whole millimetre.
func bendOf(diameter, radius layout.Length) bend {
	half := diameter / 2
	c := float64(radius) - (float64(radius)-float64(diameter)/2)/math.Sqrt2
	clear := layout.Length(math.Ceil(c/float64(layout.Millimetre))) * layout.Millimetre
	return bend{half, max(half, min(clear, radius)), radius}
}

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
	far := layout.Edges{Front: b.radius, Back: b.radius, Left: b.radius, Right: b.radius}
	for i := range planes {
		pl := &planes[i]
		for _, o := range pl.solids {
			if o.Grow(far).Overlaps(win) {
				if !closed {
					g.sides(o, pl, b)
					continue
				}
				g.around(o, b.half, b.half)
				g.around(o, b.clear, b.radius)
				g.around(o, b.radius, b.radius)
			}
		}
		// Between planes cables go only round the rim of the upper one.
		for _, o := range pl.shaft {
			if o.Overlaps(win) && o.Overlaps(pl.domain) && (o == pl.core || !pl.core.Contains(o)) {
				g.around(o, b.half, b.half)
			}
		}
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
		for p := range planes {
			if t.north {
				from := p*n + atLeast(g.xs, t.at)
				use(g.north, g.useNorth, from, g.nx, g.ny, atLeast(g.ys, t.lo), atLeast(g.ys, t.hi))
			} else {
				from := p*n + atLeast(g.ys, t.at)*g.nx
				use(g.east, g.useEast, from, 1, g.nx, atLeast(g.xs, t.lo), atLeast(g.xs, t.hi))
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

// fill marks what stands in the way on every plane.
func (g *grid) fill(planes []plane, b bend) {
	n := g.nx * g.ny
	g.flags = zeroed(g.flags, len(planes)*n)
	g.shaft = zeroed(g.shaft, n)
	g.measure(len(planes))
	for p := range planes {
		flags := g.flags[p*n : (p+1)*n]
		g.bound(flags, planes[p].domain)
		for _, o := range planes[p].solids {
			g.block(p, o, b.half)
			g.tighten(flags, o, b)
		}
		if !planes[p].linked {
			continue
		}
		bit := uint8(1) << p
		for i := range g.shaft {
			g.shaft[i] |= bit
		}
		for _, o := range planes[p].shaft {
			i0, i1 := within(g.xs, o.X0-b.half, o.X1+b.half)
			j0, j1 := within(g.ys, o.Y0-b.half, o.Y1+b.half)
			for j := j0; j < j1; j++ {
				for i := i0; i < i1; i++ {
					g.shaft[j*g.nx+i] &^= bit
				}
			}
		}
		for i, up := range g.shaft {
			if up&bit != 0 {
				g.flags[i] |= shaftHere
				flags[i] |= shaftHere
			}
		}
	}
}

// bound blocks what is outside the domain.
func (g *grid) bound(flags []uint8, domain layout.Rect) {
	for j, y := range g.ys {
		row := flags[j*g.nx : (j+1)*g.nx]
		if y < domain.Y0 || y > domain.Y1 {
			for i := range row {
				row[i] |= blocked
			}
			continue
		}
		for i := 0; i < g.nx && g.xs[i] < domain.X0; i++ {
			row[i] |= blocked
		}
		for i := g.nx - 1; i >= 0 && g.xs[i] > domain.X1; i-- {
			row[i] |= blocked
		}
	}
}

// measure writes the lengths of all stretches. What leaves the grid is a wall.
func (g *grid) measure(planes int) {
	n := g.nx * g.ny
	g.east, g.north = sized(g.east, n*planes), sized(g.north, n*planes)
	if n == 0 {
		return
	}
	row := g.east[:g.nx]
	for i := range row {
		row[i] = wall
		if i+1 < g.nx {
			row[i] = int32(g.xs[i+1] - g.xs[i])
		}
	}
	for k := g.nx; k < len(g.east); k += g.nx {
		copy(g.east[k:], row)
	}
	for k := 0; k < len(g.north); k += g.nx {
		v := int32(wall)
		if j := k / g.nx % g.ny; j+1 < g.ny {
			v = int32(g.ys[j+1] - g.ys[j])
		}
		for i := range g.nx {
			g.north[k+i] = v
		}
	}
}

// block marks the nodes and walls off the stretches inside o grown by half the
// diameter. The grown edges are lines of the grid, so a stretch is inside or
// outside whole. It is named by where it starts, which may be on the edge.
func (g *grid) block(p int, o layout.Rect, half layout.Length) {
	i0, i1 := within(g.xs, o.X0-half, o.X1+half)
	j0, j1 := within(g.ys, o.Y0-half, o.Y1+half)
	for j := max(j0-1, 0); j < j1; j++ {
		row := (p*g.ny + j) * g.nx
		for i := i0; i < i1; i++ {
			g.north[row+i] = wall
		}
		if j < j0 {
			continue
		}
		for i := i0; i < i1; i++ {
			g.flags[row+i] |= blocked
		}
		for i := max(i0-1, 0); i < i1; i++ {
			g.east[row+i] = wall
		}
	}
}

// tighten marks the corners from which o would be in the way of the bend. What
// stands across the line of one of the corner's legs is not inside the bend.
func (g *grid) tighten(flags []uint8, o layout.Rect, b bend) {
	if b.clear <= b.half {
		return
	}
	// Lines near the low and the high side of o, in x and in y.
	lowX := [2]layout.Length{o.X0 - b.radius, o.X0 - b.half}
	highX := [2]layout.Length{o.X1 + b.half, o.X1 + b.radius}
	lowY := [2]layout.Length{o.Y0 - b.radius, o.Y0 - b.half}
	highY := [2]layout.Length{o.Y1 + b.half, o.Y1 + b.radius}
	g.corner(flags, lowX, lowY, o.X0, o.Y0, b, tightNE)
	g.corner(flags, highX, lowY, o.X1, o.Y0, b, tightNW)
	g.corner(flags, highX, highY, o.X1, o.Y1, b, tightSW)
	g.corner(flags, lowX, highY, o.X0, o.Y1, b, tightSE)
}

// corner marks the nodes whose bend would run into the corner (cx,cy) of a
// solid: nearer than the radius both ways, and nearer than clear one way.
func (g *grid) corner(flags []uint8, x, y [2]layout.Length, cx, cy layout.Length, b bend, bit uint8) {
	i0, i1 := atLeast(g.xs, x[0]), atLeast(g.xs, x[1]+1)
	j0, j1 := atLeast(g.ys, y[0]), atLeast(g.ys, y[1]+1)
	for j := j0; j < j1; j++ {
		dy := abs(g.ys[j] - cy)
		for i := i0; i < i1; i++ {
			dx := abs(g.xs[i] - cx)
			if dx < b.radius && dy < b.radius && (dx < b.clear || dy < b.clear) {
				flags[j*g.nx+i] |= bit
			}
		}
	}
}

// within returns the range of lines strictly between lo and hi.
func within(lines []layout.Length, lo, hi layout.Length) (from, to int) {
	return atLeast(lines, lo+1), atLeast(lines, hi)
}

// atLeast returns the first line at v or beyond.
func atLeast(lines []layout.Length, v layout.Length) int {
	lo, hi := 0, len(lines)
	for lo < hi {
		mid := (lo + hi) / 2
		if lines[mid] < v {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n+n/2)[:n]
	}
	return s[:n]
}

func zeroed[T any](s []T, n int) []T {
	s = sized(s, n)
	clear(s)
	return s
}

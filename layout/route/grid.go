package route

import (
	"math"

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
			if !g.concerns(o, b.radius) {
				continue
			}
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
			if !g.concerns(o, b.half) {
				continue
			}
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

// concerns reports whether o reaches to within near of the window; all lines
// run inside it.
func (g *grid) concerns(o layout.Rect, near layout.Length) bool {
	w := &g.win
	return o.X0-near <= w.X1 && o.X1+near >= w.X0 && o.Y0-near <= w.Y1 && o.Y1+near >= w.Y0
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

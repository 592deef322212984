package paper

import (
	"math"

	"footplank/layout"
)

// segment is a part of a line: to a point, straight or curved.
type segment struct {
	to, c0, c1  layout.Point
	move, curve bool
}

// segments returns a mark's line with its corners rounded. A corner takes at
// most half of each of its sides, so that two never meet:
//
//	--------.  c
//	         \
//	          |
func segments(m *mark) []segment {
	pts, n := m.points, len(m.points)
	var out []segment
	for i, p := range pts {
		inner := m.shape == ring || i > 0 && i < n-1
		if m.style.Corner == 0 || !inner || n < 3 {
			out = append(out, segment{to: p, move: len(out) == 0})
			continue
		}
		before, after := pts[(i+n-1)%n], pts[(i+1)%n]
		a, b := towards(p, before, m.style.Corner), towards(p, after, m.style.Corner)
		out = append(out, segment{to: a, move: len(out) == 0})
		out = append(out, segment{to: b, c0: between(a, p), c1: between(b, p), curve: true})
	}
	return out
}

// towards returns the point at that distance from p on the way to q, at most
// half way.
func towards(p, q layout.Point, by layout.Length) layout.Point {
	far := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
	if far == 0 {
		return p
	}
	share := min(float64(by)/far, 0.5)
	return layout.Point{
		X: p.X + layout.Length(math.Round(float64(q.X-p.X)*share)),
		Y: p.Y + layout.Length(math.Round(float64(q.Y-p.Y)*share)),
	}
}

// between returns the handle of a curve that is close to an arc: 0.5523 of the
// way for a quarter circle.
func between(a, corner layout.Point) layout.Point {
	return layout.Point{
		X: a.X + (corner.X-a.X)*5523/10000,
		Y: a.Y + (corner.Y-a.Y)*5523/10000,
	}
}

// Measures of the patterns.
const (
	hatchStep  = 2200 // along x, of lines at 45 degrees
	hatchWidth = 350
	dotStep    = 2200
	dotWidth   = 800
	grainStep  = 3000
	grainWidth = 150
)

// patternLines returns the lines of a mark's fill, over all of its bounds and a
// little further, and how they are drawn.
func patternLines(m *mark) (lines [][2]layout.Point, s Style) {
	plain := mark{shape: m.shape, points: m.points, radius: m.radius}
	r := plain.bounds()
	o := m.origin
	slanted := func(step, slope layout.Length) {
		// All lines x + slope*y = k*step from the origin that cross r.
		lo := min(r.X0-o.X+slope*(r.Y0-o.Y), r.X0-o.X+slope*(r.Y1-o.Y))
		hi := max(r.X1-o.X+slope*(r.Y0-o.Y), r.X1-o.X+slope*(r.Y1-o.Y))
		for c := up(lo, step); c <= hi; c += step {
			lines = append(lines, [2]layout.Point{
				{X: o.X + c - slope*(r.Y0-o.Y), Y: r.Y0}, {X: o.X + c - slope*(r.Y1-o.Y), Y: r.Y1},
			})
		}
	}
	switch m.style.Fill {
	case Hatch:
		slanted(hatchStep, 1)
		return lines, Style{Line: hatchWidth}
	case Grain:
		slanted(grainStep, -1)
		return lines, Style{Line: grainWidth, Ink: Grey}
	case Dots:
		// A row is a line of dashes without length and with round ends.
		for y := up(r.Y0-o.Y-dotWidth, dotStep/2); y <= r.Y1-o.Y+dotWidth; y += dotStep / 2 {
			x := up(r.X0-o.X-dotStep, dotStep) + y%dotStep
			lines = append(lines, [2]layout.Point{{X: o.X + x, Y: o.Y + y}, {X: r.X1 + dotStep, Y: o.Y + y}})
		}
		return lines, Style{Line: dotWidth, Round: true, Dash: []layout.Length{0, dotStep}}
	}
	return nil, Style{}
}

// up returns the least multiple of step that is not below l.
func up(l, step layout.Length) layout.Length {
	q := l / step
	if l > q*step {
		q++
	}
	return q * step
}

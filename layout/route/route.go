package route

import (
	"math"

	"footplank/layout"
)

// Kind says what a cable carries, for what should lie beside what.
type Kind string

const (
	Audio Kind = "audio"
	Power Kind = "power"
)

// End is one end of a cable: the tip of a plug, in the board's frame, or the
// edge of the board where the cable leaves it.
type End struct {
	Unit, Jack string
	At         layout.Point
	Z          layout.Length
	// Dir is the way the cable leaves the plug, as a side of the board; for
	// an end at the edge, the side that it goes over.
	Dir layout.Wall
	// Edge is an end at the board's edge, at any height, and slid along the
	// edge if something stands there.
	Edge bool
}

// Request is a cable to be laid.
type Request struct {
	ID                   string
	Kind                 Kind
	From, To             End
	Diameter, BendRadius layout.Length
}

// Point3 is a place in the board's frame.
type Point3 struct{ X, Y, Z layout.Length }

// Distance returns the straight distance, rounded up to a micrometre.
func Distance(a, b Point3) layout.Length {
	dx, dy, dz := float64(a.X-b.X), float64(a.Y-b.Y), float64(a.Z-b.Z)
	return layout.Length(math.Ceil(math.Sqrt(dx*dx + dy*dy + dz*dz)))
}

// Path is the way of one cable.
type Path struct {
	ID string
	// Points are the corners of the rectilinear path of the cable's middle,
	// from tip to tip; nil when there is no way.
	Points []Point3
	// Length is that of the path with its corners on the level rounded to
	// Bend, or to as much as the room beside them has.
	Length layout.Length
	OK     bool
	Why    string // when not OK
	// Bend is the largest radius for which a way was found, BendRadius when
	// OK.
	Bend layout.Length
}

// Square returns the length of the path before its corners are rounded: never
// less than what its ends are apart along the three axes.
func (p Path) Square() layout.Length {
	var sum layout.Length
	for i := 1; i < len(p.Points); i++ {
		sum += span(p.Points[i-1], p.Points[i])
	}
	return sum
}

// span is the rectilinear distance.
func span(a, b Point3) layout.Length {
	return abs(a.X-b.X) + abs(a.Y-b.Y) + abs(a.Z-b.Z)
}

func abs(l layout.Length) layout.Length { return max(l, -l) }

// rounded returns the length of the path with corners on the level rounded to
// the radius, each using at most half of a stretch that it shares with another
// corner. Corners up and down are left square: a cable sags there.
func rounded(pts []Point3, radius layout.Length) layout.Length {
	var sum layout.Length
	var saved float64
	for i := 1; i < len(pts); i++ {
		sum += span(pts[i-1], pts[i])
	}
	share := func(i int) layout.Length { // of the stretch from point i to i+1
		l := span(pts[i], pts[i+1])
		if i > 0 && i+2 < len(pts) {
			l /= 2
		}
		return l
	}
	for i := 1; i+1 < len(pts); i++ {
		a, b, c := pts[i-1], pts[i], pts[i+1]
		if a.Z != b.Z || b.Z != c.Z || (a.X == b.X) == (b.X == c.X) {
			continue
		}
		saved += (2 - math.Pi/2) * float64(min(radius, share(i-1), share(i)))
	}
	return sum - layout.Length(math.Floor(saved))
}

// Shortest lays one cable alone on the board. Its square length is the least
// that the rules in the package's comment allow.
func (s *Space) Shortest(r Request) Path {
	w := takeWorker()
	defer w.release()
	return s.lay(w, &r, layOptions{exact: true}).path
}

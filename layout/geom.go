package layout

import "fmt"

// Point is a place seen from above.
type Point struct{ X, Y Length }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Size is a width (along x), a depth (along y) and a height (along z).
type Size struct{ W, D, H Length }

// Rect is the half-open rectangle [X0,X1) x [Y0,Y1) seen from above.
type Rect struct{ X0, Y0, X1, Y1 Length }

// RectAt returns the rectangle w wide and d deep with its front-left corner at p.
func RectAt(p Point, w, d Length) Rect { return Rect{p.X, p.Y, p.X + w, p.Y + d} }

func (r Rect) W() Length { return r.X1 - r.X0 }
func (r Rect) D() Length { return r.Y1 - r.Y0 }

// Empty reports whether r has no area.
func (r Rect) Empty() bool { return r.X0 >= r.X1 || r.Y0 >= r.Y1 }

// Overlaps reports whether r and s share area. Touching rectangles do not,
// and an empty one overlaps nothing.
func (r Rect) Overlaps(s Rect) bool { return !r.Intersect(s).Empty() }

// Intersect returns the part that r and s share; it may be Empty, and then
// its sides may even be the wrong way round.
func (r Rect) Intersect(s Rect) Rect {
	return Rect{max(r.X0, s.X0), max(r.Y0, s.Y0), min(r.X1, s.X1), min(r.Y1, s.Y1)}
}

// Union returns the smallest rectangle that holds both; an empty one counts
// for nothing.
func (r Rect) Union(s Rect) Rect {
	if r.Empty() {
		return s
	}
	if s.Empty() {
		return r
	}
	return Rect{min(r.X0, s.X0), min(r.Y0, s.Y0), max(r.X1, s.X1), max(r.Y1, s.Y1)}
}

// Contains reports whether s lies wholly in r. Shared edges are inside.
func (r Rect) Contains(s Rect) bool {
	return s.X0 >= r.X0 && s.Y0 >= r.Y0 && s.X1 <= r.X1 && s.Y1 <= r.Y1
}

// Touches reports whether the point is in r or on any of its edges: r taken
// as closed, as ranges of origins are.
func (r Rect) Touches(p Point) bool {
	return p.X >= r.X0 && p.X <= r.X1 && p.Y >= r.Y0 && p.Y <= r.Y1
}

// Move returns r shifted by p.
func (r Rect) Move(p Point) Rect { return Rect{r.X0 + p.X, r.Y0 + p.Y, r.X1 + p.X, r.Y1 + p.Y} }

// Grow returns r with each edge pushed outwards by that edge's length.
func (r Rect) Grow(e Edges) Rect {
	return Rect{r.X0 - e.Left, r.Y0 - e.Front, r.X1 + e.Right, r.Y1 + e.Back}
}

// Center returns the middle of r, rounded towards the front-left.
func (r Rect) Center() Point { return Point{r.X0 + r.W()/2, r.Y0 + r.D()/2} }

// Box is the half-open cuboid [X0,X1) x [Y0,Y1) x [Z0,Z1).
type Box struct{ X0, Y0, Z0, X1, Y1, Z1 Length }

// BoxOn returns the box over r from z0 up to z1.
func BoxOn(r Rect, z0, z1 Length) Box { return Box{r.X0, r.Y0, z0, r.X1, r.Y1, z1} }

// Rect returns the box seen from above.
func (b Box) Rect() Rect { return Rect{b.X0, b.Y0, b.X1, b.Y1} }

// Overlaps reports whether the two share volume. Touching boxes do not.
func (b Box) Overlaps(c Box) bool {
	return b.Rect().Overlaps(c.Rect()) && max(b.Z0, c.Z0) < min(b.Z1, c.Z1)
}

// Move returns b shifted by p and up by z.
func (b Box) Move(p Point, z Length) Box {
	return Box{b.X0 + p.X, b.Y0 + p.Y, b.Z0 + z, b.X1 + p.X, b.Y1 + p.Y, b.Z1 + z}
}

// Edges is a length for each edge of something seen from above.
type Edges struct{ Front, Back, Left, Right Length }

// Turn is a whole number of quarter turns clockwise seen from above, 0 to 3.
type Turn int

// TurnOf returns the turn for 0, 90, 180 or 270 degrees.
func TurnOf(degrees int) (Turn, error) {
	switch degrees {
	case 0, 90, 180, 270:
		return Turn(degrees / 90), nil
	}
	return 0, fmt.Errorf("turn %d: want 0, 90, 180 or 270 degrees", degrees)
}

// Degrees returns 0, 90, 180 or 270.
func (t Turn) Degrees() int { return int(t&3) * 90 }

// Add returns the turn after t and then u.
func (t Turn) Add(u Turn) Turn { return (t + u) & 3 }

// Footprint returns the width and depth of a body w wide and d deep once turned.
func (t Turn) Footprint(w, d Length) (tw, td Length) {
	if t&1 == 1 {
		return d, w
	}
	return w, d
}

// Point turns a point of a body w wide and d deep.
func (t Turn) Point(p Point, w, d Length) Point {
	switch t & 3 {
	case 1:
		return Point{p.Y, w - p.X}
	case 2:
		return Point{w - p.X, d - p.Y}
	case 3:
		return Point{d - p.Y, p.X}
	}
	return p
}

// Rect turns a rectangle of a body w wide and d deep.
func (t Turn) Rect(r Rect, w, d Length) Rect {
	a := t.Point(Point{r.X0, r.Y0}, w, d)
	b := t.Point(Point{r.X1, r.Y1}, w, d)
	return Rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
}

// Box turns a box of a body w wide and d deep.
func (t Turn) Box(b Box, w, d Length) Box { return BoxOn(t.Rect(b.Rect(), w, d), b.Z0, b.Z1) }

// Wall is one of a unit's four sides, named as at turn 0.
type Wall int

// The walls in clockwise order, so that turning adds to them.
const (
	Front Wall = iota
	Left
	Back
	Right
)

var wallNames = [...]string{"front", "left", "back", "right"}

func (w Wall) String() string { return wallNames[w&3] }

// WallNames returns the names of the walls.
func WallNames() []string { return wallNames[:] }

// WallOf returns the wall of that name.
func WallOf(name string) (Wall, bool) {
	for i, n := range wallNames {
		if n == name {
			return Wall(i), true
		}
	}
	return 0, false
}

// Turned returns the side of the board that the wall faces after turn t.
func (w Wall) Turned(t Turn) Wall { return (w + Wall(t)) & 3 }

package pack

import "fmt"

// MaxCoord bounds every coordinate a problem may use, in either direction. It
// leaves room to add a few coordinates without overflow.
const MaxCoord = int64(1) << 40

// Mask is a set of groups, one bit each. Two boxes can only collide when
// their masks share a bit.
type Mask uint64

// AllGroups meets every other non-empty mask.
const AllGroups = ^Mask(0)

// Box is a half-open cuboid [X0,X1) x [Y0,Y1) x [Z0,Z1). Two boxes that only
// touch do not overlap; a box without volume overlaps nothing.
type Box struct {
	X0, Y0, Z0 int64
	X1, Y1, Z1 int64
	// Groups narrows the groups in which this box counts: it is there in
	// the groups of its item and of this mask both. Zero means all of the
	// item's.
	Groups Mask
}

// Shape is an item as it is in one turn: boxes relative to the item's origin.
// An origin may lie anywhere, inside the boxes or not.
type Shape struct {
	Boxes []Box
}

// Region is a closed rectangle of places the origin of an item may take, for
// one of its shapes, at one height: X0 <= x <= X1, Y0 <= y <= Y1, z = Z.
type Region struct {
	Shape          int // index into Item.Shapes
	X0, Y0, X1, Y1 int64
	Z              int64
}

// Item is one thing to place. It takes exactly one origin in exactly one of
// its regions; regions may overlap.
type Item struct {
	Name    string
	Shapes  []Shape
	Regions []Region
	Groups  Mask // zero is an error: such an item could not collide with anything
}

// Obstacle is a box that is already there, in the groups of its mask; zero
// means all groups.
type Obstacle struct {
	Name string
	Box  Box
}

// Problem asks for a place for each item such that no two boxes of different
// items, and no box and obstacle, overlap where their masks meet.
type Problem struct {
	Items     []Item
	Obstacles []Obstacle
}

// Place is where an item stands: which region it uses and the origin in it.
type Place struct {
	Region int // index into Item.Regions
	X, Y   int64
}

// Shape returns the index of the shape that it takes at p.
func (it *Item) Shape(p Place) int { return it.Regions[p.Region].Shape }

// Boxes appends the item's boxes at p, absolute and with their masks made
// explicit, to dst.
func (it *Item) Boxes(dst []Box, p Place) []Box {
	r := it.Regions[p.Region]
	for _, b := range it.Shapes[r.Shape].Boxes {
		g := it.Groups
		if b.Groups != 0 {
			g &= b.Groups
		}
		dst = append(dst, Box{
			X0: b.X0 + p.X, Y0: b.Y0 + p.Y, Z0: b.Z0 + r.Z,
			X1: b.X1 + p.X, Y1: b.Y1 + p.Y, Z1: b.Z1 + r.Z,
			Groups: g,
		})
	}
	return dst
}

// Overlaps reports whether a and b share volume in a group that both are in.
// Both masks must be explicit, as Item.Boxes makes them.
func (b Box) Overlaps(c Box) bool {
	return b.Groups&c.Groups != 0 &&
		max(b.X0, c.X0) < min(b.X1, c.X1) &&
		max(b.Y0, c.Y0) < min(b.Y1, c.Y1) &&
		max(b.Z0, c.Z0) < min(b.Z1, c.Z1)
}

// Validate reports the first thing about p that no search could work with.
// An item without regions is not an error: it cannot be placed.
func (p *Problem) Validate() error {
	for i := range p.Items {
		it := &p.Items[i]
		if it.Groups == 0 {
			return fmt.Errorf("pack: item %d (%s) is in no group", i, it.Name)
		}
		for s, sh := range it.Shapes {
			for k, b := range sh.Boxes {
				if err := b.validate(); err != nil {
					return fmt.Errorf("pack: item %d (%s), shape %d, box %d: %w", i, it.Name, s, k, err)
				}
			}
		}
		for k, r := range it.Regions {
			if r.Shape < 0 || r.Shape >= len(it.Shapes) {
				return fmt.Errorf("pack: item %d (%s), region %d: shape %d of %d", i, it.Name, k, r.Shape, len(it.Shapes))
			}
			if r.X0 > r.X1 || r.Y0 > r.Y1 {
				return fmt.Errorf("pack: item %d (%s), region %d is empty", i, it.Name, k)
			}
			if !inRange(r.X0, r.Y0, r.X1, r.Y1, r.Z) {
				return fmt.Errorf("pack: item %d (%s), region %d: coordinate beyond %d", i, it.Name, k, MaxCoord)
			}
		}
	}
	for i, o := range p.Obstacles {
		if err := o.Box.validate(); err != nil {
			return fmt.Errorf("pack: obstacle %d (%s): %w", i, o.Name, err)
		}
	}
	return nil
}

func (b Box) validate() error {
	if b.X0 > b.X1 || b.Y0 > b.Y1 || b.Z0 > b.Z1 {
		return fmt.Errorf("box %v has an end before its start", b)
	}
	if !inRange(b.X0, b.Y0, b.Z0, b.X1, b.Y1, b.Z1) {
		return fmt.Errorf("coordinate beyond %d", MaxCoord)
	}
	return nil
}

func inRange(vs ...int64) bool {
	for _, v := range vs {
		if v < -MaxCoord || v > MaxCoord {
			return false
		}
	}
	return true
}

package layout

import "math"

// SurfaceKind is how a board's deck is made.
type SurfaceKind string

const (
	Solid SurfaceKind = "solid"
	Rails SurfaceKind = "rails"
)

// DeckName is the name of the deck as a surface.
const DeckName = "deck"

// Rail is one bar of a rail board.
type Rail struct{ At Rect }

// Leg is one support of a riser, from the deck up to the platform.
type Leg struct{ At Rect }

// Riser is a raised shelf over part of the deck.
type Riser struct {
	Name      string
	At        Rect
	Height    Length // of its top above the deck's top
	Thickness Length // of its platform; what passes below has Height-Thickness
	Legs      []Leg  // never empty once read: two end panels by default
	Overhang  Edges  // how far a unit may stand past the shelf's edges
	Density   float64
}

// EndPanels returns the usual legs of a riser: a panel as thick as the
// platform at its left and its right end, over its whole depth.
func (r *Riser) EndPanels() []Leg {
	t := r.Thickness
	return []Leg{
		{Rect{r.At.X0, r.At.Y0, r.At.X0 + t, r.At.Y1}},
		{Rect{r.At.X1 - t, r.At.Y0, r.At.X1, r.At.Y1}},
	}
}

// Fixture is a part of the board that takes room: a handle, a latch.
type Fixture struct {
	Name string
	Box  Box
}

// Case is the room of a case or bag that the loaded board must go into.
type Case struct {
	Name   string
	Inside Size
	// Below is how much of the inside height is under the deck's top: the
	// board's thickness and its feet.
	Below Length
	Mass  Mass
}

// Board is the board itself.
type Board struct {
	W, D      Length
	Kind      SurfaceKind
	Rails     []Rail
	Material  string
	Thickness Length
	Density   float64 // kg/m3 of Material
	Mass      Mass    // of the board alone; zero to compute it
	// Overhang is how far a unit may stand past each edge of the board,
	// PlugRoom how far a plug may.
	Overhang, PlugRoom Edges
	Feet               Length // how far the feet stand in from the edges
	Risers             []Riser
	Fixtures           []Fixture
	Case               *Case
}

// Rect returns the board seen from above.
func (b *Board) Rect() Rect { return Rect{0, 0, b.W, b.D} }

// Surface is a flat place for units.
type Surface struct {
	Name      string
	At        Rect
	Z         Length // of its top, above the deck's top
	Thickness Length
	Overhang  Edges // past its own edges
	Rails     []Rail
}

// Surfaces returns the deck and then the risers in the plan's order.
func (b *Board) Surfaces() []Surface {
	s := []Surface{{Name: DeckName, At: b.Rect(), Thickness: b.Thickness, Overhang: b.Overhang}}
	if b.Kind == Rails {
		s[0].Rails = b.Rails
	}
	for _, r := range b.Risers {
		s = append(s, Surface{Name: r.Name, At: r.At, Z: r.Height, Thickness: r.Thickness, Overhang: r.Overhang})
	}
	return s
}

// Surface returns the surface of that name.
func (b *Board) Surface(name string) (Surface, bool) {
	for _, s := range b.Surfaces() {
		if s.Name == name {
			return s, true
		}
	}
	return Surface{}, false
}

// Riser returns the riser of that name, nil where there is none.
func (b *Board) Riser(name string) *Riser {
	for i := range b.Risers {
		if b.Risers[i].Name == name {
			return &b.Risers[i]
		}
	}
	return nil
}

// Obstacles returns what already takes room above the deck: platforms and
// legs of risers, and fixtures.
func (b *Board) Obstacles() []Fixture {
	var out []Fixture
	for _, r := range b.Risers {
		under := r.Height - r.Thickness
		out = append(out, Fixture{r.Name + " platform", BoxOn(r.At, under, r.Height)})
		for _, l := range r.Legs {
			out = append(out, Fixture{r.Name + " leg", BoxOn(l.At, 0, under)})
		}
	}
	return append(out, b.Fixtures...)
}

// DeckSlabs returns the board's own wood, below its top: one slab, or one for
// each rail.
func (b *Board) DeckSlabs() []Box {
	if b.Kind != Rails {
		return []Box{BoxOn(b.Rect(), -b.Thickness, 0)}
	}
	var out []Box
	for _, r := range b.Rails {
		out = append(out, BoxOn(r.At, -b.Thickness, 0))
	}
	return out
}

// TotalMass returns the mass of the board with its risers, from Mass if that
// is given, else from volume and density.
func (b *Board) TotalMass() Mass {
	if b.Mass > 0 {
		return b.Mass
	}
	var m Mass
	for _, s := range b.slabs() {
		m += slabMass(s.at, s.thickness, s.density)
	}
	return m
}

// slabMass is area x thickness x density. 1 kg/m3 is 1e-12 mg per cubic
// micrometre; floating point, as no density is known to more than three digits.
func slabMass(r Rect, thickness Length, density float64) Mass {
	return Mass(math.Round(float64(r.W()) * float64(r.D()) * float64(thickness) * density * 1e-12))
}

// CaseRoom returns the box that a case leaves for what stands on the board, in
// the board's frame. The board may lie anywhere in the case, so the room past
// each edge is as if the board touched the opposite wall; what stands past two
// opposite edges must share it. Without a case ok is false.
func (b *Board) CaseRoom() (room Box, ok bool) {
	if b.Case == nil {
		return Box{}, false
	}
	dx, dy := b.Case.Inside.W-b.W, b.Case.Inside.D-b.D
	return Box{-dx, -dy, -b.Case.Below, b.W + dx, b.D + dy, b.Case.Inside.H - b.Case.Below}, true
}

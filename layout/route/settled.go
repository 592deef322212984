package route

import "footplank/layout"

// Settled is a cable that lies on the board already and stays: others are laid
// around it.
type Settled struct {
	Kind     Kind
	Diameter layout.Length
	Points   []Point3 // corners of its path, as Path has them
}

// Around returns the space with cables that lie in it already. What Route lays
// there pays for lying on them, along those of the other kind and across them,
// as it does among its own; they do not give way.
func (s *Space) Around(cables []Settled) *Space {
	out := *s
	out.settled = nil
	for i := range cables {
		out.settled = append(out.settled, s.strandsOf(&cables[i])...)
	}
	return &out
}

// strandsOf returns the straight stretches of the cable that lie on a layer;
// those that hang in the air or go up and down are in nobody's way.
func (s *Space) strandsOf(c *Settled) []strand {
	var out []strand
	r := Request{Kind: c.Kind, Diameter: c.Diameter}
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1], c.Points[i]
		if a.Z != b.Z {
			continue
		}
		for k := range s.layers {
			if z0, z1 := s.layers[k].level(c.Diameter); a.Z == (z0+z1)/2 {
				out = addStrand(out, &r, k, a, b)
				break
			}
		}
	}
	return out
}

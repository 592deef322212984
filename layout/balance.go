package layout

// Gravity is standard gravity in m/s2, which makes newtons of kilograms: 9.80665
// exactly, third general conference on weights and measures, 1901 (from memory).
const Gravity = 9.80665

// slab is one flat piece of the board itself.
type slab struct {
	at        Rect
	thickness Length
	density   float64
}

// slabs returns the pieces that the board is made of: the deck or its rails,
// and the platforms and legs of the risers. Fixtures weigh nothing.
func (b *Board) slabs() []slab {
	var out []slab
	if b.Kind == Rails {
		for _, r := range b.Rails {
			out = append(out, slab{r.At, b.Thickness, b.Density})
		}
	} else {
		out = append(out, slab{b.Rect(), b.Thickness, b.Density})
	}
	for _, r := range b.Risers {
		out = append(out, slab{r.At, r.Thickness, r.Density})
		for _, l := range r.Legs {
			out = append(out, slab{l.At, r.Height - r.Thickness, r.Density})
		}
	}
	return out
}

// Centre returns the board's own centre of mass seen from above, in
// micrometres. A mass that the plan gives is taken to be spread as the pieces'
// volumes and densities say; without densities, as the volumes say.
func (b *Board) Centre() (x, y float64) {
	var dense bool
	slabs := b.slabs()
	for _, s := range slabs {
		dense = dense || s.density > 0
	}
	var sum float64
	for _, s := range slabs {
		w := float64(s.at.W()) * float64(s.at.D()) * float64(s.thickness)
		if dense {
			w *= s.density
		}
		mx, my := s.at.middle()
		sum, x, y = sum+w, x+w*mx, y+w*my
	}
	if sum <= 0 {
		return b.Rect().middle()
	}
	return x / sum, y / sum
}

// middle is Center without rounding.
func (r Rect) middle() (x, y float64) {
	return float64(r.X0+r.X1) / 2, float64(r.Y0+r.Y1) / 2
}

// Balance returns the mass of the board with the units that have a place in
// the line-up, and their common centre of mass seen from above, in micrometres.
// A unit's centre of mass is taken as the middle of its body. Cables and the
// case count for nothing.
func (p *Plan) Balance(l *Lineup) (m Mass, x, y float64) {
	m = p.Board.TotalMass()
	x, y = p.Board.Centre()
	x, y = x*float64(m), y*float64(m)
	for _, u := range p.UnitsIn(l) {
		pl, ok := p.PlaceOf(l, u)
		if !ok {
			continue
		}
		mx, my := u.Base(pl).middle()
		m += u.Mass
		x, y = x+mx*float64(u.Mass), y+my*float64(u.Mass)
	}
	if m <= 0 {
		x, y = p.Board.Rect().middle()
		return 0, x, y
	}
	return m, x / float64(m), y / float64(m)
}

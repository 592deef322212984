package route

import "footplank/layout"

// Rules for where a cable may lie; all are common practice, no source.
const (
	// Hang is how far a cable may hang past the back of the board or the
	// edges of a shelf; past the board's other edges no further than plugs or
	// bodies may stand there, either.
	Hang = 30 * layout.Millimetre
	// AirLimit is the longest run that a cable holds itself up between two
	// plugs, without coming down to the surface.
	AirLimit = 80 * layout.Millimetre
)

// solid is a box that a cable must keep out of. Plugs name their jack: a cable
// does not mind its own.
type solid struct {
	box        layout.Box
	unit, jack string
}

// layer is a level that cables lie on: the deck, a shelf, or the underside.
type layer struct {
	z     layout.Length // of the surface that the cable touches
	below bool          // the cable hangs under the surface
	// domain is where the middle of a cable may be.
	domain layout.Rect
	core   layout.Rect // of a shelf, the shelf itself
}

// level returns the heights between which a cable on the layer lies.
func (y *layer) level(diameter layout.Length) (z0, z1 layout.Length) {
	if y.below {
		return y.z - diameter, y.z
	}
	return y.z, y.z + diameter
}

// Space is the free space of one line-up. It does not change and may be used
// by several goroutines.
type Space struct {
	board  layout.Rect
	solids []solid
	layers []layer // the deck first
	// settled is what lies there of cables that stay; see Around.
	settled []strand
}

// NewSpace returns the free space of the line-up: bodies, sweeps and plugs of
// its placed units, the board's wood, its risers and fixtures take room.
func NewSpace(p *layout.Plan, l *layout.Lineup) *Space {
	placed, _ := p.Standings(l)
	return newSpace(&p.Board, placed)
}

func newSpace(b *layout.Board, placed []layout.Standing) *Space {
	s := &Space{board: b.Rect()}
	deck := b.Rect().Grow(layout.Edges{
		Front: past(b.Overhang.Front, b.PlugRoom.Front), Back: Hang, // stage cables may leave there
		Left: past(b.Overhang.Left, b.PlugRoom.Left), Right: past(b.Overhang.Right, b.PlugRoom.Right),
	})
	s.layers = append(s.layers, layer{domain: deck})
	for _, r := range b.Risers {
		lap := layout.Edges{Front: Hang, Back: Hang, Left: Hang, Right: Hang}
		s.layers = append(s.layers, layer{z: r.Height, domain: r.At.Grow(lap), core: r.At})
	}
	if b.Kind == layout.Rails {
		s.layers = append(s.layers, layer{z: -b.Thickness, below: true, domain: b.Rect()})
	}
	for _, w := range b.DeckSlabs() {
		s.solids = append(s.solids, solid{box: w})
	}
	for _, f := range b.Obstacles() {
		s.solids = append(s.solids, solid{box: f.Box})
	}
	for i := range placed {
		for _, pb := range placed[i].Boxes {
			s.solids = append(s.solids, solid{pb.Box, placed[i].Unit.ID, pb.Jack})
		}
	}
	return s
}

// past is how far cables may hang over an edge: as far as plugs and bodies
// stand over it, but no further than Hang.
func past(overhang, plugRoom layout.Length) layout.Length {
	return min(Hang, max(overhang, plugRoom))
}

// owns reports whether the solid is one of the cable's own plugs.
func (r *Request) owns(o *solid) bool {
	return o.jack != "" && (o.unit == r.From.Unit && o.jack == r.From.Jack || o.unit == r.To.Unit && o.jack == r.To.Jack)
}

// plane is a level of one search: a layer, or the air between two plugs.
type plane struct {
	layer  int // index in Space.layers, or inAir
	z      layout.Length
	domain layout.Rect
	core   layout.Rect   // a shelf: nothing comes up or down through it
	solids []layout.Rect // what the cable must keep half its diameter from
	// linked tells that cables may go up or down between this plane and the
	// deck's, keeping from what is in shaft.
	linked bool
	shaft  []layout.Rect
}

// inAir marks the level of a cable that hangs between its plugs.
const inAir = -1

// planes returns the levels of the space as the request's cable sees them.
func (s *Space) planes(w *worker, r *Request) []plane {
	w.rects = w.rects[:0]
	out := w.planes[:0]
	_, deckTop := s.layers[0].level(r.Diameter)
	for i := range s.layers {
		y := &s.layers[i]
		z0, z1 := y.level(r.Diameter)
		pl := plane{layer: i, z: (z0 + z1) / 2, domain: y.domain, core: y.core}
		pl.solids = s.between(w, r, z0, z1)
		if i > 0 {
			pl.linked = true
			pl.shaft = s.between(w, r, min(z0, s.layers[0].z), max(z1, deckTop))
		}
		for _, e := range []*End{&r.From, &r.To} {
			if i == 0 && !pl.domain.Touches(e.At) {
				pl.domain = reachTo(pl.domain, e.At)
			}
		}
		out = append(out, pl)
	}
	w.planes = out
	return out
}

// reachTo returns the rectangle made large enough for the point.
func reachTo(r layout.Rect, p layout.Point) layout.Rect {
	return layout.Rect{X0: min(r.X0, p.X), Y0: min(r.Y0, p.Y), X1: max(r.X1, p.X), Y1: max(r.Y1, p.Y)}
}

// between returns what stands between two heights, but for the cable's own
// plugs, seen from above. The result is part of the worker's memory.
func (s *Space) between(w *worker, r *Request, z0, z1 layout.Length) []layout.Rect {
	from := len(w.rects)
	for i := range s.solids {
		o := &s.solids[i]
		if o.box.Z0 < z1 && o.box.Z1 > z0 && !r.owns(o) && !o.box.Rect().Empty() {
			w.rects = append(w.rects, o.box.Rect())
		}
	}
	return w.rects[from:len(w.rects):len(w.rects)]
}

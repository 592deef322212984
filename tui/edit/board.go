package edit

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// TakeBoard makes a board of the catalog the plan's. Where units and slots are on
// a riser that it does not have they are put on the deck; what does not
// lie on it any more is moved in.
func TakeBoard(p *layout.Plan, b layout.Board) error {
	for _, r := range p.Board.Risers {
		if !slices.ContainsFunc(b.Risers, func(n layout.Riser) bool { return n.Name == r.Name }) {
			if err := p.RemoveRiser(r.Name); err != nil {
				return err
			}
		}
	}
	risers := slices.Clone(b.Risers)
	for i := range risers {
		r := &risers[i]
		if r.Legs = slices.Clone(r.Legs); len(r.Legs) == 0 {
			r.Legs = r.EndPanels()
		}
	}
	p.Board = b
	if p.Board.Risers = risers; len(risers) == 0 {
		p.Board.Risers = nil // as a file without any is read
	}
	p.Board.Rails, p.Board.Fixtures = slices.Clone(b.Rails), slices.Clone(b.Fixtures)
	if b.Case != nil {
		c := *b.Case
		p.Board.Case = &c
	}
	slotsOnto(p)
	return nil
}

// SetBoardSize gives the board another size. Rails as long as the board stay so;
// rails, risers and slots that reach past it are moved in, and cut where they are
// larger than it.
func SetBoardSize(p *layout.Plan, w, d layout.Length) {
	b := &p.Board
	wasW, wasD := b.W, b.D
	b.W, b.D = w, d
	if len(b.Rails) > 0 {
		b.Rails = slices.Clone(b.Rails)
		for i := range b.Rails {
			if at := &b.Rails[i].At; at.X0 == 0 && at.X1 == wasW {
				at.X1 = w
			}
		}
		if d != wasD {
			b.Rails = scaledRails(b.Rails, wasD, d)
		}
		for i := range b.Rails {
			b.Rails[i].At = movedInto(b.Rails[i].At, b.Rect())
		}
	}
	b.Risers = slices.Clone(b.Risers)
	for i := range b.Risers {
		SetRiser(&b.Risers[i], movedInto(b.Risers[i].At, b.Rect()), b.Risers[i].Thickness)
	}
	slotsOnto(p)
}

// scaledRails spreads rails over another depth; where they would lie over each
// other they are evenly divided instead.
func scaledRails(rails []layout.Rail, was, is layout.Length) []layout.Rail {
	out := slices.Clone(rails)
	for i := range out {
		at := &out[i].At
		d := at.D()
		at.Y0 = at.Y0 * is / max(was, 1) / layout.Millimetre * layout.Millimetre
		at.Y1 = at.Y0 + d
	}
	for i := range out {
		if out[i].At.Y1 > is || i > 0 && out[i].At.Overlaps(out[i-1].At) {
			return Rails(out[i].At.W(), is)
		}
	}
	return out
}

// Rails divides a board's depth into rails of about 48 mm, with gaps a quarter as
// deep.
func Rails(w, d layout.Length) []layout.Rail {
	const mm = layout.Millimetre
	n := max(1, (d+15*mm)/(60*mm))
	pitch := d * 5 / (n*5 - 1) / mm * mm
	deep := max(pitch*4/5/mm, 1) * mm
	var out []layout.Rail
	for i := layout.Length(0); i < n; i++ {
		out = append(out, layout.Rail{At: layout.RectAt(layout.Point{Y: i * pitch}, w, deep)})
	}
	return out
}

// SetKind makes the board solid, or of rails over its whole width.
func SetKind(p *layout.Plan, kind layout.SurfaceKind) {
	b := &p.Board
	switch {
	case kind == b.Kind:
	case kind == layout.Rails:
		b.Rails = Rails(b.W, b.D)
	default:
		b.Rails = nil
	}
	b.Kind = kind
}

// SetRiser gives a riser another place, size and thickness. Legs that are its end
// panels stay so; others keep their places and are cut to what is under it.
func SetRiser(r *layout.Riser, at layout.Rect, thick layout.Length) {
	panels := len(r.Legs) == 0 || slices.Equal(r.Legs, r.EndPanels())
	was := r.At
	r.At, r.Thickness = at, thick
	if panels {
		r.Legs = r.EndPanels()
		return
	}
	r.Legs = slices.Clone(r.Legs)
	for i := range r.Legs {
		leg := r.Legs[i].At
		w, d := leg.W(), leg.D()
		leg = layout.RectAt(layout.Point{X: leg.X0 + at.X0 - was.X0, Y: leg.Y0 + at.Y0 - was.Y0}, w, d)
		r.Legs[i].At = movedInto(leg, at)
	}
}

// AddRiser puts a riser on the board behind the others.
func AddRiser(p *layout.Plan, r layout.Riser) error {
	switch _, taken := p.Board.Surface(r.Name); {
	case !layout.ValidID(r.Name):
		return fmt.Errorf("the name %q: want letters, digits, \"-\" and \"_\", at most %d", r.Name, layout.MaxID)
	case taken:
		return fmt.Errorf("there is a surface %q already", r.Name)
	}
	if len(r.Legs) == 0 {
		r.Legs = r.EndPanels()
	}
	p.Board.Risers = append(slices.Clip(p.Board.Risers), r)
	return nil
}

// slotsOnto moves slots that reach past their surface and its overhang in.
func slotsOnto(p *layout.Plan) {
	p.Slots = slices.Clone(p.Slots)
	for i := range p.Slots {
		s := &p.Slots[i]
		if f, ok := p.Board.Surface(s.On); ok {
			s.At = movedInto(s.At, f.At.Grow(f.Overhang))
		}
	}
}

// movedInto moves a rectangle by as little as need be to lie within another, and
// cuts it where it is larger.
func movedInto(r, within layout.Rect) layout.Rect {
	w, d := min(r.W(), within.W()), min(r.D(), within.D())
	x := min(max(r.X0, within.X0), within.X1-w)
	y := min(max(r.Y0, within.Y0), within.Y1-d)
	return layout.RectAt(layout.Point{X: x, Y: y}, w, d)
}

// FreeName makes a name of a word, unlike all that are taken: "shelf", "shelf-2".
func FreeName(word string, taken func(name string) bool) string {
	name := word
	for n := 2; taken(name); n++ {
		name = fmt.Sprintf("%s-%d", word, n)
	}
	return name
}

package cards

import (
	"cmp"
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// freeThird is the back third of the board, or another that no riser is over.
func freeThird(b *layout.Board) layout.Rect {
	const mm = layout.Millimetre
	third := b.D / 3 / mm * mm
	back := layout.Rect{X0: 0, Y0: b.D - third, X1: b.W, Y1: b.D}
	for k := range layout.Length(3) {
		r := back.Move(layout.Point{Y: -k * third})
		if !slices.ContainsFunc(b.Risers, func(o layout.Riser) bool { return o.At.Overlaps(r) }) {
			return r
		}
	}
	return back
}

// Riser is the card of a riser, or with "" of a new one over the back of the
// board.
func (s Shop) Riser(old string) *form.Form {
	b := &s.Plan.Board
	r := layout.Riser{Height: 55 * layout.Millimetre, Thickness: min(9*layout.Millimetre, b.Thickness), Density: b.Density, At: freeThird(b)}
	f := &form.Form{Title: "Riser " + old, Name: "riser", Subject: old, What: "change riser " + old}
	is := old
	f.Begin = func(*layout.Plan) error { is = old; return nil }
	if x := b.Riser(old); x != nil {
		r = *x
	} else {
		old = edit.FreeName("shelf", func(n string) bool { _, taken := b.Surface(n); return taken })
		r.Name = old
		f.Title, f.Subject, f.What, f.Fresh = "A new riser", old, "add a riser", true
		f.Intro = "A raised shelf over part of the board, for a second row and what lies beneath it."
		f.Begin = func(p *layout.Plan) error { is = old; return edit.AddRiser(p, r) }
	}
	on := func(do func(r *layout.Riser)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			x := p.Board.Riser(old)
			if x == nil {
				return fmt.Errorf("there is no riser %q any more", old)
			}
			do(x)
			return nil
		}
	}
	f.Fields = append([]*form.Field{name("Name", old, &is)}, s.spot(r.At, func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return on(func(r *layout.Riser) { edit.SetRiser(r, change(r.At), r.Thickness) })(p)
	})...)
	f.Fields = append(f.Fields,
		form.Length("Height of its top", r.Height, s.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(r *layout.Riser) { r.Height = l })(p)
		}),
		form.Length("Thickness", r.Thickness, s.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(r *layout.Riser) { edit.SetRiser(r, r.At, l) })(p)
		}),
		s.riserMaterial(r, on))
	if !f.Fresh {
		f.Fields = append(f.Fields, form.To("Legs", legsText(&r), "legs"))
	}
	f.Fields = append(f.Fields, form.Heading("How far units may stand past it"))
	f.Fields = append(f.Fields, s.sides("", r.Overhang, func(do func(e *layout.Edges)) func(p *layout.Plan) error {
		return on(func(r *layout.Riser) { do(&r.Overhang) })
	})...)
	f.Becomes = func() string { return is }
	f.Finish = func(p *layout.Plan) error { return p.RenameRiser(old, is) }
	return f
}

// riserMaterial is the field of what a riser is made of, of which a plan knows how
// heavy that is.
func (s Shop) riserMaterial(r layout.Riser, on func(do func(r *layout.Riser)) func(p *layout.Plan) error) *form.Field {
	options := []form.Option{{Value: "", Text: "the board's"}}
	now := ""
	for _, m := range s.Forms.Materials() {
		options = append(options, form.Option{Value: m.Name, Text: m.Name})
		if now == "" && m.Density == r.Density && r.Density != s.Plan.Board.Density {
			now = m.Name
		}
	}
	return form.OneOf("Material", now, "of the shelf, for its mass", options, func(p *layout.Plan, v string) error {
		dense := p.Board.Density
		if m, ok := s.Forms.Material(v); ok {
			dense = m.Density
		}
		return on(func(r *layout.Riser) { r.Density = dense })(p)
	})
}

func legsText(r *layout.Riser) string {
	if slices.Equal(r.Legs, r.EndPanels()) {
		return "two end panels"
	}
	return plural(len(r.Legs), "leg")
}

// Leg is the card of the ith leg of a riser, of a new one behind the last.
func (s Shop) Leg(riser string, i int) *form.Form {
	r := s.Plan.Board.Riser(riser)
	if r == nil {
		return nil
	}
	f := &form.Form{Title: fmt.Sprintf("Leg %d of riser %s", i+1, riser), Name: "leg", Subject: riser, What: "change a leg of riser " + riser,
		Intro: "What carries the shelf, from the deck up to it. Nothing can stand there."}
	on := func(do func(legs []layout.Leg) []layout.Leg) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			r := p.Board.Riser(riser)
			if r == nil {
				return fmt.Errorf("there is no riser %q any more", riser)
			}
			r.Legs = do(slices.Clone(r.Legs))
			return nil
		}
	}
	const mm = layout.Millimetre
	leg := layout.Leg{At: layout.RectAt(layout.Point{X: r.At.X0 + r.At.W()/2/mm*mm, Y: r.At.Y0}, min(20*mm, r.At.W()-r.At.W()/2/mm*mm), r.At.D())}
	if i < len(r.Legs) {
		leg = r.Legs[i]
	} else {
		fresh := leg
		f.Title, f.What, f.Fresh = "A new leg of riser "+riser, "add a leg to riser "+riser, true
		f.Begin = on(func(legs []layout.Leg) []layout.Leg { return append(legs, fresh) })
	}
	f.Fields = s.spot(leg.At, func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return on(func(legs []layout.Leg) []layout.Leg {
			if i < len(legs) {
				legs[i].At = change(legs[i].At)
			}
			return legs
		})(p)
	})
	return f
}

// Rail is the card of a rail by its index, of a new one behind the last.
func (s Shop) Rail(i int) *form.Form {
	b := &s.Plan.Board
	f := &form.Form{Title: fmt.Sprintf("Rail %d from the front", i+1), Name: "rail", What: "change a rail"}
	r := layout.Rail{}
	if fresh := i >= len(b.Rails); fresh {
		const mm = layout.Millimetre
		front := layout.Length(0)
		for _, o := range b.Rails {
			front = max(front, o.At.Y1+12*mm)
		}
		r.At = layout.RectAt(layout.Point{Y: min(front, max(b.D-48*mm, 0))}, b.W, min(48*mm, b.D))
		f.Title, f.What, f.Fresh = "A new rail", "add a rail", true
		f.Begin = func(p *layout.Plan) error { p.Board.Rails = append(slices.Clip(p.Board.Rails), r); return nil }
	} else {
		r = b.Rails[i]
	}
	f.Fields = s.spot(r.At, func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		if i >= len(p.Board.Rails) {
			return fmt.Errorf("there is no such rail any more")
		}
		p.Board.Rails = slices.Clone(p.Board.Rails)
		p.Board.Rails[i].At = change(p.Board.Rails[i].At)
		return nil
	})
	return f
}

// Fixture is the card of a part that takes room on the board: a handle, a latch.
func (s Shop) Fixture(i int) *form.Form {
	b := &s.Plan.Board
	f := &form.Form{Name: "fixture", What: "change what takes room"}
	const mm = layout.Millimetre
	x := layout.Fixture{Name: fmt.Sprintf("fixture %d", i+1), Box: layout.BoxOn(layout.RectAt(layout.Point{}, min(30*mm, b.W), min(20*mm, b.D)), 0, 30*mm)}
	if i >= len(b.Fixtures) {
		f.Fresh, f.What, f.Intro = true, "add what takes room", "A handle, a latch or another part of the board where no unit can stand."
		fresh := x
		f.Begin = func(p *layout.Plan) error {
			p.Board.Fixtures = append(slices.Clip(p.Board.Fixtures), fresh)
			return nil
		}
	} else {
		x = b.Fixtures[i]
	}
	f.Title = x.Name
	on := func(do func(x *layout.Fixture)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			if i >= len(p.Board.Fixtures) {
				return fmt.Errorf("there is no such part any more")
			}
			p.Board.Fixtures = slices.Clone(p.Board.Fixtures)
			do(&p.Board.Fixtures[i])
			return nil
		}
	}
	f.Fields = append([]*form.Field{form.Words("Name", x.Name, "handle, latch", func(p *layout.Plan, v string) error {
		return on(func(x *layout.Fixture) { x.Name = cmp.Or(v, "fixture") })(p)
	})}, s.spot(x.Box.Rect(), func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return on(func(x *layout.Fixture) { x.Box = layout.BoxOn(change(x.Box.Rect()), x.Box.Z0, x.Box.Z1) })(p)
	})...)
	f.Fields = append(f.Fields, form.Length("Height of its top", x.Box.Z1, s.unit(), func(p *layout.Plan, l layout.Length) error {
		return on(func(x *layout.Fixture) { x.Box.Z1 = l })(p)
	}), about(form.Length("From height", x.Box.Z0, s.unit(), func(p *layout.Plan, l layout.Length) error {
		return on(func(x *layout.Fixture) { x.Box.Z0 = l })(p)
	}), "where it begins above the deck's top, below it with a minus"))
	return f
}

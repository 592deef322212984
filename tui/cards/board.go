package cards

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Own is the answer of who has a board of no form of the catalog.
const Own = "own"

// NewPlan is the card of a plan that is begun: its name, the player's measure and
// the board. The plan of the shop is an empty one.
func (s Shop) NewPlan() *form.Form {
	f := &form.Form{Title: "New plan, 1 of 4: the board", Intro: "Choose a board of the catalog, or your own and its size.",
		Name: "new plan", What: "begin a plan", Fresh: true}
	boards := []form.Option{{Value: Own, Text: "of your own size"}}
	for _, b := range s.Forms.Boards() {
		boards = append(boards, form.Option{Value: b.Name, Text: b.Name + ", " + size(b.Board.W, b.Board.D, s.unit())})
	}
	board := form.OneOf("Board", Own, "one of the catalog, or your own", boards, func(p *layout.Plan, v string) error {
		if b, ok := s.Forms.Board(v); ok {
			return edit.TakeBoard(p, b.Board)
		}
		return nil
	})
	board.Then = s.showBoard
	f.Fields = append([]*form.Field{s.title(), board}, s.size()...)
	f.Fields = append(f.Fields, s.kind(), s.material(),
		form.OneOf("Chain ends at", layout.Amp, "where the signal goes from the board", ends, func(p *layout.Plan, v string) error {
			edit.SetEnd(p, v)
			return nil
		}))
	return f
}

// showBoard lets fields that were not touched show the board that is chosen.
func (s Shop) showBoard(f *form.Form, name string) {
	b := &s.Plan.Board
	if c, ok := s.Forms.Board(name); ok {
		b = &c.Board
	}
	f.Show("Width", b.W.Tape(s.unit()))
	f.Show("Depth", b.D.Tape(s.unit()))
	f.Show("Surface", string(b.Kind))
	f.Show("Material", b.Material)
	f.Show("Thickness", b.Thickness.Tape(s.unit()))
}

var ends = []form.Option{{Value: layout.Amp, Text: "the amp"}, {Value: layout.Desk, Text: "the desk"}}

func size(w, d layout.Length, u layout.LengthUnit) string {
	return w.Tape(u) + " x " + d.Tape(u) + " " + string(u)
}

func (s Shop) title() *form.Field {
	return form.Words("Title", s.Plan.Title, "what you call the board", func(p *layout.Plan, v string) error {
		if v == "" {
			return fmt.Errorf("want a name for the board")
		}
		p.Title = v
		return nil
	})
}

func (s Shop) measure() *form.Field {
	return form.OneOf("Measure", string(s.unit()), "what you measure in", []form.Option{{Value: "mm", Text: "millimetres"}, {Value: "in", Text: "inches"}},
		func(p *layout.Plan, v string) error {
			p.LengthUnit = layout.LengthUnit(v)
			return nil
		})
}

// side is a field of the board's width or depth.
func (s Shop) size() []*form.Field {
	b := &s.Plan.Board
	return []*form.Field{
		form.Length("Width", b.W, s.unit(), func(p *layout.Plan, l layout.Length) error {
			if l <= 0 {
				return fmt.Errorf("want more than nothing")
			}
			edit.SetBoardSize(p, l, p.Board.D)
			return nil
		}),
		form.Length("Depth", b.D, s.unit(), func(p *layout.Plan, l layout.Length) error {
			if l <= 0 {
				return fmt.Errorf("want more than nothing")
			}
			edit.SetBoardSize(p, p.Board.W, l)
			return nil
		}),
	}
}

func (s Shop) kind() *form.Field {
	kinds := []form.Option{{Value: string(layout.Solid), Text: "solid"}, {Value: string(layout.Rails), Text: "rails"}}
	return form.OneOf("Surface", string(s.Plan.Board.Kind), "solid, or rails with gaps between", kinds, func(p *layout.Plan, v string) error {
		edit.SetKind(p, layout.SurfaceKind(v))
		return nil
	})
}

func (s Shop) material() *form.Field {
	var options []form.Option
	for _, m := range s.Forms.Materials() {
		options = append(options, form.Option{Value: m.Name, Text: m.Name})
	}
	return form.OneOf("Material", s.Plan.Board.Material, "of the board, for its mass", options, func(p *layout.Plan, v string) error {
		m, ok := s.Forms.Material(v)
		if !ok {
			return nil
		}
		was := p.Board.Density
		p.Board.Material, p.Board.Density = m.Name, m.Density
		for i := range p.Board.Risers { // of the board's own material until the plan says otherwise
			if r := &p.Board.Risers[i]; r.Density == was {
				r.Density = m.Density
			}
		}
		return nil
	})
}

// Board is the card of the board.
func (s Shop) Board() *form.Form {
	b := &s.Plan.Board
	u := s.unit()
	f := &form.Form{Title: "The board", Name: "board", What: "change the board"}
	boards := []form.Option{{Value: "", Text: "as it is"}}
	for _, b := range s.Forms.Boards() {
		boards = append(boards, form.Option{Value: b.Name, Text: b.Name + ", " + size(b.Board.W, b.Board.D, u)})
	}
	catalog := form.OneOf("From the catalog", "", "takes a board of the catalog", boards, func(p *layout.Plan, v string) error {
		if b, ok := s.Forms.Board(v); ok {
			return edit.TakeBoard(p, b.Board)
		}
		return nil
	})
	catalog.Then = s.showBoard
	f.Fields = []*form.Field{catalog}
	f.Fields = append(f.Fields, s.size()...)
	f.Fields = append(f.Fields, s.kind(), s.material(),
		form.Length("Thickness", b.Thickness, u, func(p *layout.Plan, l layout.Length) error {
			was := p.Board.Thickness
			p.Board.Thickness = l
			for i := range p.Board.Risers { // of the same sheet until the plan says otherwise
				if r := &p.Board.Risers[i]; r.Thickness == was {
					edit.SetRiser(r, r.At, l)
				}
			}
			return nil
		}),
		form.MassOrNone("Mass as weighed", b.Mass, "computed", func(p *layout.Plan, m layout.Mass) error { p.Board.Mass = m; return nil }),
		form.Length("Feet, in from edge", b.Feet, u, func(p *layout.Plan, l layout.Length) error { p.Board.Feet = l; return nil }),
		form.To("Risers", plural(len(b.Risers), "riser"), "risers"),
		form.To("Rails", plural(len(b.Rails), "rail"), "rails"),
		form.To("Handles, latches", plural(len(b.Fixtures), "part"), "fixtures"))
	f.Fields = append(f.Fields, s.edges("How far units may stand past it", "", func(b *layout.Board) *layout.Edges { return &b.Overhang })...)
	f.Fields = append(f.Fields, s.edges("How far plugs may", "plugs ", func(b *layout.Board) *layout.Edges { return &b.PlugRoom })...)
	f.Fields = append(f.Fields, s.boardCase()...)
	price, known := s.Plan.Prices["board"]
	f.Fields = append(f.Fields, form.Heading("Buying"),
		form.YesNo("Owned", s.Plan.Owned.Board, "yes: it need not be bought", func(p *layout.Plan, is bool) error { p.Owned.Board = is; return nil }),
		form.Money("Price", price, known, func(p *layout.Plan, v layout.Price, known bool) error { return setPrice(p, "board", v, known) }))
	return f
}

func (s Shop) edges(head, prefix string, of func(b *layout.Board) *layout.Edges) []*form.Field {
	e := of(&s.Plan.Board)
	out := []*form.Field{form.Heading(head)}
	for _, side := range []struct {
		name string
		of   func(e *layout.Edges) *layout.Length
	}{
		{"front", func(e *layout.Edges) *layout.Length { return &e.Front }}, {"back", func(e *layout.Edges) *layout.Length { return &e.Back }},
		{"left", func(e *layout.Edges) *layout.Length { return &e.Left }}, {"right", func(e *layout.Edges) *layout.Length { return &e.Right }},
	} {
		out = append(out, form.Length(prefix+side.name, *side.of(e), s.unit(), func(p *layout.Plan, l layout.Length) error {
			*side.of(of(&p.Board)) = l
			return nil
		}))
	}
	return out
}

// boardCase is the fields of the case: without a width there is none.
func (s Shop) boardCase() []*form.Field {
	c := layout.Case{Name: "case"}
	if s.Plan.Board.Case != nil {
		c = *s.Plan.Board.Case
	}
	own := func(do func(c *layout.Case)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			n := layout.Case{Name: "case", Below: p.Board.Thickness + 10*layout.Millimetre}
			if p.Board.Case != nil {
				n = *p.Board.Case
			}
			do(&n)
			if p.Board.Case = &n; n.Inside == (layout.Size{}) {
				p.Board.Case = nil
			}
			return nil
		}
	}
	u := s.unit()
	side := func(label string, of func(s *layout.Size) *layout.Length) *form.Field {
		return form.LengthOrNone(label, *of(&c.Inside), u, "all three: no case", func(p *layout.Plan, l layout.Length) error {
			return own(func(c *layout.Case) { *of(&c.Inside) = l })(p)
		})
	}
	out := []*form.Field{form.Heading("Its case or bag"),
		side("inside width", sideW), side("inside depth", sideD), side("inside height", sideH)}
	if s.Plan.Board.Case == nil {
		return out
	}
	return append(out,
		form.Length("of it below the top", c.Below, u, func(p *layout.Plan, l layout.Length) error {
			return own(func(c *layout.Case) { c.Below = l })(p)
		}),
		form.MassOrNone("mass of the case", c.Mass, "not known", func(p *layout.Plan, m layout.Mass) error {
			return own(func(c *layout.Case) { c.Mass = m })(p)
		}),
		form.Words("name of the case", c.Name, "case, bag", func(p *layout.Plan, v string) error {
			return own(func(c *layout.Case) { c.Name = orWord(v, "case") })(p)
		}))
}

// spot is where something on a board lies: fields of place and size.
func (s Shop) spot(r layout.Rect, put func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error) []*form.Field {
	field := func(label, want string, l layout.Length, change func(r layout.Rect, l layout.Length) layout.Rect) *form.Field {
		x := form.Length(label, l, s.unit(), func(p *layout.Plan, l layout.Length) error {
			return put(p, func(r layout.Rect) layout.Rect { return change(r, l) })
		})
		x.Want = want + "; " + x.Want
		return x
	}
	return []*form.Field{
		field(FromLeft, "of its left edge", r.X0, func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: l, Y: r.Y0}, r.W(), r.D())
		}),
		field(FromFront, "of its front edge", r.Y0, func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: l}, r.W(), r.D())
		}),
		field("Width", "from left to right", r.W(), func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: r.Y0}, l, r.D())
		}),
		field("Depth", "from front to back", r.D(), func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: r.Y0}, r.W(), l)
		}),
	}
}

// Labels of the fields that tell where something lies, for the mouse to drag it.
const (
	FromLeft  = "From the left"
	FromFront = "From the front"
)

func name(label, value string, keep *string) *form.Field {
	return form.Words(label, value, "letters, digits, - and _", func(_ *layout.Plan, v string) error {
		if !layout.ValidID(v) {
			return fmt.Errorf("want letters, digits, - and _, at most %d", layout.MaxID)
		}
		*keep = v
		return nil
	})
}

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
	i := slices.IndexFunc(b.Risers, func(r layout.Riser) bool { return r.Name == old })
	r := layout.Riser{Height: 55 * layout.Millimetre, Thickness: min(9*layout.Millimetre, b.Thickness), Density: b.Density, At: freeThird(b)}
	f := &form.Form{Title: "Riser " + old, Name: "riser", Subject: old, What: "change riser " + old}
	is := old
	f.Begin = func(*layout.Plan) error { is = old; return nil }
	if i < 0 {
		old = edit.FreeName("shelf", func(n string) bool { _, taken := b.Surface(n); return taken })
		r.Name = old
		f.Title, f.Subject, f.What, f.Fresh = "A new riser", old, "add a riser", true
		f.Intro = "A raised shelf over part of the board, for a second row and what lies beneath it."
		f.Begin = func(p *layout.Plan) error { is = old; return edit.AddRiser(p, r) }
	} else {
		r = b.Risers[i]
	}
	on := func(do func(r *layout.Riser)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			k := slices.IndexFunc(p.Board.Risers, func(x layout.Riser) bool { return x.Name == old })
			if k < 0 {
				return fmt.Errorf("there is no riser %q any more", old)
			}
			do(&p.Board.Risers[k])
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
		}))
	f.Finish = func(p *layout.Plan) error { return p.RenameRiser(old, is) }
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
		return on(func(x *layout.Fixture) { x.Name = orWord(v, "fixture") })(p)
	})}, s.spot(x.Box.Rect(), func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return on(func(x *layout.Fixture) { x.Box = layout.BoxOn(change(x.Box.Rect()), x.Box.Z0, x.Box.Z1) })(p)
	})...)
	f.Fields = append(f.Fields, form.Length("Height of its top", x.Box.Z1, s.unit(), func(p *layout.Plan, l layout.Length) error {
		return on(func(x *layout.Fixture) { x.Box.Z1 = l })(p)
	}))
	return f
}

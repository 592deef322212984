package cards

import (
	"cmp"
	"fmt"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Own is the answer of who has a board of no form of the catalog.
const Own = "own"

// NewPlan is the card of a plan that is begun: its name, the player's measure and
// the board. The plan of the shop is an empty one.
func (s Shop) NewPlan() *form.Form {
	f := &form.Form{Title: "New plan, 1 of 4: the board", Take: "next", Intro: "Choose a board of the catalog, or your own and its size.",
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

// size is the fields of the board's width and depth.
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
		form.MassOrNone("Mass as weighed", b.Mass, "computed", s.unit(), func(p *layout.Plan, m layout.Mass) error { p.Board.Mass = m; return nil }),
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
	return append([]*form.Field{form.Heading(head)}, s.sides(prefix, *of(&s.Plan.Board), func(do func(e *layout.Edges)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error { do(of(&p.Board)); return nil }
	})...)
}

// sides is a field for each edge; set makes a change of the edges one of a plan.
func (s Shop) sides(prefix string, now layout.Edges, set func(do func(e *layout.Edges)) func(p *layout.Plan) error) []*form.Field {
	var out []*form.Field
	for _, side := range []struct {
		name string
		of   func(e *layout.Edges) *layout.Length
	}{
		{"front", func(e *layout.Edges) *layout.Length { return &e.Front }}, {"back", func(e *layout.Edges) *layout.Length { return &e.Back }},
		{"left", func(e *layout.Edges) *layout.Length { return &e.Left }}, {"right", func(e *layout.Edges) *layout.Length { return &e.Right }},
	} {
		out = append(out, form.Length(prefix+side.name, *side.of(&now), s.unit(), func(p *layout.Plan, l layout.Length) error {
			return set(func(e *layout.Edges) { *side.of(e) = l })(p)
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
		form.MassOrNone("mass of the case", c.Mass, "not known", s.unit(), func(p *layout.Plan, m layout.Mass) error {
			return own(func(c *layout.Case) { c.Mass = m })(p)
		}),
		form.Words("name of the case", c.Name, "case, bag", func(p *layout.Plan, v string) error {
			return own(func(c *layout.Case) { c.Name = cmp.Or(v, "case") })(p)
		}))
}

// spot is where something on a board lies: fields of place and size.
func (s Shop) spot(r layout.Rect, put func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error) []*form.Field {
	return s.rect(FromLeft, FromFront, r, put)
}

// rect is the fields of a rectangle, under the labels given for where it begins;
// put makes a change of it one of a plan.
func (s Shop) rect(fromLeft, fromFront string, r layout.Rect, put func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error) []*form.Field {
	field := func(label, want string, l layout.Length, change func(r layout.Rect, l layout.Length) layout.Rect) *form.Field {
		return about(form.Length(label, l, s.unit(), func(p *layout.Plan, l layout.Length) error {
			return put(p, func(r layout.Rect) layout.Rect { return change(r, l) })
		}), want)
	}
	return []*form.Field{
		field(fromLeft, "of its left edge", r.X0, func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: l, Y: r.Y0}, r.W(), r.D())
		}),
		field(fromFront, "of its front edge", r.Y0, func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: l}, r.W(), r.D())
		}),
		field(SpotWidth, "from left to right", r.W(), func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: r.Y0}, l, r.D())
		}),
		field(SpotDepth, "from front to back", r.D(), func(r layout.Rect, l layout.Length) layout.Rect {
			return layout.RectAt(layout.Point{X: r.X0, Y: r.Y0}, r.W(), l)
		}),
	}
}

// Labels of the fields that tell where something lies, for the mouse to drag it.
const (
	FromLeft  = "From the left"
	FromFront = "From the front"
	SpotWidth = "Width"
	SpotDepth = "Depth"
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

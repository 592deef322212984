package cards

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"footplank/catalog"
	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Shop is what cards are made of: a plan and the catalog of its forms.
type Shop struct {
	Plan  *layout.Plan
	Forms *catalog.Catalog
	// Playing names the line-up in which units of slots are placed; "" for the first.
	Playing string
}

func (s Shop) unit() layout.LengthUnit { return s.Plan.Measure() }

// formOf returns what the unit's form gives, nil where it has none.
func (s Shop) formOf(u *layout.Unit) *layout.Unit {
	if f, ok := s.Forms.Unit(u.Form); ok && u.Form != "" {
		return &f.Unit
	}
	return nil
}

// Unit is the card of a unit.
func (s Shop) Unit(id string) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	f := &form.Form{Title: u.Label, Name: "unit", Subject: id, What: "change " + u.Label, Unit: id}
	b := unitCard{s, id, u}
	f.Fields = []*form.Field{b.label(), form.To("Form", cmp.Or(u.Form, "none"), "form")}
	f.Fields = append(f.Fields, b.measures()...)
	f.Fields = append(f.Fields, b.standing()...)
	f.Fields = append(f.Fields, b.worked()...)
	f.Fields = append(f.Fields, b.power()...)
	f.Fields = append(f.Fields, b.gives()...)
	f.Fields = append(f.Fields, b.signal()...)
	name := id
	f.Fields = append(f.Fields, b.owning()...)
	f.Fields = append(f.Fields, form.Words("Name in the file", id, "letters, digits, - and _", func(_ *layout.Plan, v string) error {
		name = v
		return nil
	}))
	f.Becomes = func() string { return name }
	f.Begin = func(*layout.Plan) error { name = id; return nil }
	f.Finish = func(p *layout.Plan) error { return p.RenameUnit(id, name) } // behind all that knows it by the old one
	return f
}

// unitCard is the making of a unit's card.
type unitCard struct {
	Shop
	id string
	u  *layout.Unit
}

// on makes a change of the unit one of a plan.
func (b unitCard) on(do func(u *layout.Unit) error) func(p *layout.Plan) error {
	return func(p *layout.Plan) error {
		u := p.Unit(b.id)
		if u == nil {
			return fmt.Errorf("there is no unit %q any more", b.id)
		}
		return do(u)
	}
}

func (b unitCard) label() *form.Field {
	return form.Words("Label", b.u.Label, "the name on the board, up to 80 characters", func(p *layout.Plan, v string) error {
		if v == "" {
			return fmt.Errorf("want a name to know it by")
		}
		return b.on(func(u *layout.Unit) error { u.Label = v; return nil })(p)
	})
}

// side is a field of one side of the body.
func (b unitCard) side(label string, of func(s *layout.Size) *layout.Length) *form.Field {
	body := b.u.Body
	return form.Length(label, *of(&body), b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.on(func(u *layout.Unit) error {
			if l <= 0 {
				return fmt.Errorf("want more than nothing")
			}
			to := u.Body
			*of(&to) = l
			edit.Resize(u, to, b.formOf(u))
			return nil
		})(p)
	})
}

func sideW(s *layout.Size) *layout.Length { return &s.W }
func sideD(s *layout.Size) *layout.Length { return &s.D }
func sideH(s *layout.Size) *layout.Length { return &s.H }

func (b unitCard) body() []*form.Field {
	return []*form.Field{b.side("Width", sideW), b.side("Depth", sideD), b.side("Height", sideH)}
}

func (b unitCard) over(label string, of func(s *layout.Size) *layout.Length) *form.Field {
	whole := b.u.Overall
	return form.Length(label, *of(&whole), b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.on(func(u *layout.Unit) error {
			if l < *of(&u.Body) {
				return fmt.Errorf("with knobs it is at least its body: want %s or more", (*of(&u.Body)).Format(b.unit()))
			}
			*of(&u.Overall) = l
			return nil
		})(p)
	})
}

func (b unitCard) mass() *form.Field {
	none, usual := "not known", layout.Mass(0)
	if fm := b.formOf(b.u); fm != nil && fm.Mass > 0 {
		none, usual = "as its form", fm.Mass
	}
	return form.MassOrNone("Mass", b.u.Mass, none, b.unit(), func(p *layout.Plan, m layout.Mass) error {
		return b.on(func(u *layout.Unit) error { u.Mass = cmp.Or(m, usual); return nil })(p)
	})
}

func (b unitCard) measures() []*form.Field {
	out := append([]*form.Field{form.Heading("Size by tape measure")}, b.body()...)
	return append(out, b.mass(),
		b.over("Width, knobs too", sideW), b.over("Depth, knobs too", sideD), b.over("Height, knobs too", sideH))
}

var mounts = []form.Option{
	{Value: string(layout.Fixed), Text: "fixed: interlocking"}, {Value: string(layout.Swap), Text: "swap: hook-and-loop"},
}

func (b unitCard) mount() *form.Field {
	return form.OneOf("Mount", string(b.u.Mount), "fixed stays for years; swap changes from gig to gig", mounts,
		func(p *layout.Plan, v string) error {
			return b.on(func(u *layout.Unit) error { u.Mount = layout.Mount(v); return nil })(p)
		})
}

func (b unitCard) standing() []*form.Field {
	var surfaces []string
	for _, f := range b.Plan.Board.Surfaces() {
		surfaces = append(surfaces, f.Name)
	}
	return []*form.Field{
		form.Heading("How it stands"), form.To("Place", b.placeText(b.lineup()), "place"), b.mount(),
		form.YesNo("Pinned", b.u.Pinned, "yes: arranging leaves it where it is", func(p *layout.Plan, is bool) error {
			return b.on(func(u *layout.Unit) error { u.Pinned = is; return nil })(p)
		}),
		form.Some("Surfaces", b.u.On, surfaces, "any", func(p *layout.Plan, v []string) error {
			return b.on(func(u *layout.Unit) error { u.On = v; return nil })(p)
		}),
		b.turns(),
		form.To("On its base", plural(len(b.u.OnBase), "part"), "base"),
	}
}

// lineup is the line-up in which the unit's place is told.
func (s Shop) lineup() string {
	if s.Playing == "" && len(s.Plan.Lineups) > 0 {
		return s.Plan.Lineups[0].Name
	}
	return s.Playing
}

// worked is how a foot works the unit.
func (b unitCard) worked() []*form.Field {
	often := []form.Option{{Value: "0", Text: "never"}, {Value: "1", Text: "now and then"}, {Value: "2", Text: "often"}, {Value: "3", Text: "in every tune"}}
	return []*form.Field{
		form.Heading("How it is worked"),
		form.OneOf("Worked", strconv.Itoa(b.u.Often), "how often while playing: much-used ones go to the front", often, func(p *layout.Plan, v string) error {
			return b.on(func(u *layout.Unit) error { u.Often, _ = strconv.Atoi(v); return nil })(p)
		}),
		form.To("Switches", plural(len(b.u.Switches), "switch"), "switches"),
		form.YesNo("Treadle", b.u.Treadle, "yes: worked by rocking, its heel at the board's front", func(p *layout.Plan, is bool) error {
			return b.on(func(u *layout.Unit) error { u.Treadle = is; return nil })(p)
		}),
		form.To("Sweep of its plate", b.sweepText(), "sweep"),
	}
}

func (b unitCard) turns() *form.Field {
	var now []string
	for _, t := range b.u.Turns {
		now = append(now, strconv.Itoa(t.Degrees()))
	}
	return form.Some("Turns", now, []string{"0", "90", "180", "270"}, "0 only", func(p *layout.Plan, v []string) error {
		return b.on(func(u *layout.Unit) error {
			u.Turns = nil
			for _, w := range v {
				n, _ := strconv.Atoi(w)
				t, err := layout.TurnOf(n)
				if err != nil {
					return err
				}
				u.Turns = append(u.Turns, t)
			}
			return nil
		})(p)
	})
}

func (b unitCard) current() *form.Field {
	n := 0
	if b.u.Draw != nil {
		n = b.u.Draw.Milliamps
	}
	return form.Whole("Draw, mA", n, 0, 100_000, "milliamps from its supply, as on its label; 0: none", func(p *layout.Plan, n int) error {
		return b.on(func(u *layout.Unit) error { edit.SetCurrent(u, n, b.Forms); return nil })(p)
	})
}

// drawing makes a change of what the unit draws one of a plan.
func (b unitCard) drawing(do func(d *layout.Draw)) func(p *layout.Plan) error {
	return b.on(func(u *layout.Unit) error {
		if u.Draw == nil {
			return fmt.Errorf("first say above how many milliamps it draws")
		}
		do(edit.Draw(u))
		return nil
	})
}

func (b unitCard) power() []*form.Field {
	d := layout.Draw{Millivolts: 9000}
	if b.u.Draw != nil {
		d = *b.u.Draw
	}
	leads := []form.Option{{Value: "", Text: "whichever fits"}, {Value: string(layout.PlainLead), Text: "plain"}, {Value: string(layout.ReversingLead), Text: "reversing"}}
	out := []*form.Field{form.Heading("Power"), b.current(),
		volts("Draw, V", d.Millivolts, "volts: 9 is usual", "", func(n int) func(p *layout.Plan) error {
			return b.drawing(func(d *layout.Draw) { d.Millivolts = n })
		}),
		volts("up to, V", d.MaxMillivolts, "for one that takes a range, like 9 to 18", "that voltage only", func(n int) func(p *layout.Plan) error {
			return b.drawing(func(d *layout.Draw) { d.MaxMillivolts = n })
		}),
		form.OneOf("Polarity", polarityOf(d.CentrePositive, d.AC), "as drawn beside its jack", polarities, func(p *layout.Plan, v string) error {
			return b.drawing(func(d *layout.Draw) { d.AC, d.CentrePositive = v == "~", v == "+" })(p)
		}),
		form.YesNo("Own output", d.Isolated, "yes: it must not share an output's ground", func(p *layout.Plan, is bool) error {
			return b.drawing(func(d *layout.Draw) { d.Isolated = is })(p)
		}),
		form.YesNo("On battery", d.Battery, "yes: it plays on its battery and takes no output", func(p *layout.Plan, is bool) error {
			return b.drawing(func(d *layout.Draw) { d.Battery = is })(p)
		}),
		form.OneOf("Lead", string(d.Lead), "the lead that you have for it; a reversing one swaps the poles", leads, func(p *layout.Plan, v string) error {
			return b.drawing(func(d *layout.Draw) { d.Lead = layout.LeadKind(v) })(p)
		}),
	}
	if outputs := b.outputs(); len(outputs) > 0 {
		at := ""
		if d.Feed.Unit != "" {
			at = d.Feed.Unit + "/" + d.Feed.Jack
		}
		options := append([]form.Option{{Value: "", Text: "as the power map has it"}}, outputs...)
		out = append(out, form.OneOf("Fed by", at, "an output of a supply that you choose", options, func(p *layout.Plan, v string) error {
			id, jack, _ := strings.Cut(v, "/")
			return b.drawing(func(d *layout.Draw) { d.Feed = layout.JackRef{Unit: id, Jack: jack} })(p)
		}))
	}
	return out
}

// outputs are those that the unit can be fed by.
func (b unitCard) outputs() (out []form.Option) {
	for i := range b.Plan.Units {
		s := &b.Plan.Units[i]
		if s.ID == b.id {
			continue
		}
		var jacks []string
		if b.u.Expander() {
			jacks = s.Links()
		} else {
			for _, o := range s.Outputs {
				if !o.Link {
					jacks = append(jacks, o.Jack)
				}
			}
		}
		for _, j := range jacks {
			out = append(out, form.Option{Value: s.ID + "/" + j, Text: s.Label + ", " + j})
		}
	}
	return out
}

func (b unitCard) signal() []*form.Field {
	ids := make([]string, len(b.u.Jacks))
	for i := range b.u.Jacks {
		ids[i] = b.u.Jacks[i].ID
	}
	out := []*form.Field{form.Heading("Signal and jacks")}
	if _, passed := edit.Pass(b.u, nil); passed && !b.Plan.InSlots(b.id) {
		out = append(out, form.YesNo("In the chain", edit.StopAt(b.Plan, b.id) >= 0, "yes: the signal passes it in every line-up", func(p *layout.Plan, is bool) error {
			if !is {
				edit.Leave(p, b.id)
				return nil
			}
			return edit.Join(p, b.id)
		}))
	}
	return append(out,
		form.YesNo("Buffer", b.u.Buffer, "yes: it drives the cable behind it, also when off", func(p *layout.Plan, is bool) error {
			return b.on(func(u *layout.Unit) error { u.Buffer = is; return nil })(p)
		}),
		form.Some("Also in use", b.u.Uses, ids, "those of chain and power only", func(p *layout.Plan, v []string) error {
			return b.on(func(u *layout.Unit) error { u.Uses = v; return nil })(p)
		}),
		form.To("Jacks and plugs", plural(len(ids), "jack"), "jacks"))
}

func (b unitCard) owning() []*form.Field {
	price, known := b.Plan.Prices[b.id]
	return []*form.Field{
		form.Heading("Buying"),
		form.YesNo("To buy", b.u.ToBuy, "yes: it stands on the shopping list", func(p *layout.Plan, is bool) error {
			return b.on(func(u *layout.Unit) error { u.ToBuy = is; return nil })(p)
		}),
		form.Money("Price", price, known, func(p *layout.Plan, v layout.Price, known bool) error {
			return setPrice(p, b.id, v, known)
		}),
	}
}

func setPrice(p *layout.Plan, name string, v layout.Price, known bool) error {
	if !known {
		delete(p.Prices, name)
		return nil
	}
	if p.Prices == nil {
		p.Prices = map[string]layout.Price{}
	}
	p.Prices[name] = v
	return nil
}

func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	if strings.HasSuffix(one, "ch") {
		one += "e"
	}
	return strconv.Itoa(n) + " " + one + "s"
}

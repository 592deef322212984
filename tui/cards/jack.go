package cards

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Jack is the card of one jack of a unit: where it sits, and its plug. With jack
// "" it is that of a new one.
func (s Shop) Jack(id, jack string) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	b := jackCard{unitCard{s, id, u}, jack}
	if jack == "" {
		return b.fresh()
	}
	j := u.Jack(jack)
	if j == nil {
		return nil
	}
	f := &form.Form{Title: u.Label + ", jack " + jack, Name: "jack", Subject: id, What: "change jack " + jack + " of " + u.Label, Unit: id}
	f.Fields = append(b.seat(j), b.plug(j), b.leg(j))
	return f
}

type jackCard struct {
	unitCard
	jack string
}

// at makes a change of the jack one of a plan.
func (b jackCard) at(do func(u *layout.Unit, j *layout.Jack) error) func(p *layout.Plan) error {
	return b.on(func(u *layout.Unit) error {
		u.Jacks = slices.Clone(u.Jacks)
		j := u.Jack(b.jack)
		if j == nil {
			return fmt.Errorf("there is no jack %q any more", b.jack)
		}
		return do(u, j)
	})
}

func (b jackCard) seat(j *layout.Jack) []*form.Field {
	walls := make([]form.Option, 0, 4)
	for _, w := range layout.WallNames() {
		walls = append(walls, form.Option{Value: w, Text: w})
	}
	along := form.Length("Along the wall", j.Along, b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Along = l; return nil })(p)
	})
	along.Want = "to its middle, from the left or from the front; " + along.Want
	height := form.Length("Height", j.Height, b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Height = l; return nil })(p)
	})
	height.Want = "of its middle above the base; " + height.Want
	return []*form.Field{
		form.OneOf("Wall", j.Wall.String(), "the wall that it sits in, the switch towards you", walls, func(p *layout.Plan, v string) error {
			return b.at(func(_ *layout.Unit, j *layout.Jack) error {
				j.Wall, _ = layout.WallOf(v)
				return nil
			})(p)
		}), along, height,
	}
}

func (b jackCard) plug(j *layout.Jack) *form.Field {
	options := []form.Option{{Value: "", Text: "whatever fits"}}
	for _, f := range b.Forms.Plugs() {
		if f.Kind == j.Kind {
			options = append(options, form.Option{Value: f.Name, Text: f.Name + ", " + f.Out.Format(b.unit()) + " out"})
		}
	}
	now := ""
	if j.PlugGiven {
		now = j.Plug.Name
	}
	return form.OneOf("Plug", now, "the plug that you have there", options, func(p *layout.Plan, v string) error {
		return b.on(func(u *layout.Unit) error { return edit.SetPlug(u, b.jack, v, b.formOf(u), b.Forms) })(p)
	})
}

func (b jackCard) leg(j *layout.Jack) *form.Field {
	sides := []layout.LegSide{layout.LegUp, layout.LegDown, layout.LegLeft, layout.LegRight}
	if j.Wall == layout.Left || j.Wall == layout.Right {
		sides[2], sides[3] = layout.LegFront, layout.LegBack
	}
	options := []form.Option{{Value: "", Text: "wherever it fits"}}
	for _, side := range sides {
		options = append(options, form.Option{Value: string(side), Text: string(side)})
	}
	now := ""
	if j.LegGiven {
		now = string(j.Leg)
	}
	return form.OneOf("Its leg points", now, "of a right-angle plug, the switch towards you", options, func(p *layout.Plan, v string) error {
		return b.on(func(u *layout.Unit) error { return edit.SetLeg(u, b.jack, layout.LegSide(v), b.formOf(u)) })(p)
	})
}

var jackKinds = []form.Option{
	{Value: string(layout.Phone), Text: "phone, 1/4 in"}, {Value: string(layout.MiniTRS), Text: "mini-trs, 3.5 mm"}, {Value: string(layout.XLR), Text: "xlr"},
	{Value: string(layout.DIN), Text: "din, five-pole"}, {Value: string(layout.DC), Text: "dc, barrel"}, {Value: string(layout.Mains), Text: "mains inlet"},
}

var usualSignal = map[layout.JackKind]layout.Signal{
	layout.Phone: layout.Audio, layout.MiniTRS: layout.Control, layout.XLR: layout.Audio,
	layout.DIN: layout.Control, layout.DC: layout.Power, layout.Mains: layout.Line,
}

// fresh is the card of a jack that the form does not have.
func (b jackCard) fresh() *form.Form {
	const mm = layout.Millimetre
	plug, _ := b.Forms.DefaultPlug(layout.Phone)
	j := layout.Jack{ID: edit.FreeName("jack", func(n string) bool { return b.u.Jack(n) != nil }), Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In,
		Wall: layout.Right, Along: b.u.Body.D / 2 / mm * mm, Height: b.u.Body.H / 2 / mm * mm, Plug: plug}
	b.jack = j.ID
	name := j.ID
	f := &form.Form{Title: b.u.Label + ", a new jack", Name: "jack", Subject: b.id, What: "add a jack to " + b.u.Label, Unit: b.id, Fresh: true,
		Begin: b.on(func(u *layout.Unit) error { name = j.ID; u.Jacks = append(slices.Clone(u.Jacks), j); return nil })}
	f.Fields = []*form.Field{
		form.Words("Name", j.ID, "like in, out, send, return, dc", func(_ *layout.Plan, v string) error {
			switch {
			case !layout.ValidID(v):
				return fmt.Errorf("want letters, digits, - and _, at most %d", layout.MaxID)
			case b.u.Jack(v) != nil:
				return fmt.Errorf("it has a jack of that name already")
			}
			name = v
			return nil
		}),
		form.OneOf("Kind", string(j.Kind), "what plugs into it", jackKinds, func(p *layout.Plan, v string) error {
			return b.at(func(_ *layout.Unit, j *layout.Jack) error {
				j.Kind = layout.JackKind(v)
				j.Signal = usualSignal[j.Kind]
				j.Plug, _ = b.Forms.DefaultPlug(j.Kind)
				return nil
			})(p)
		}),
		form.OneOf("Direction", string(j.Dir), "which way its signal goes", []form.Option{{Value: "in", Text: "in"}, {Value: "out", Text: "out"}}, func(p *layout.Plan, v string) error {
			return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Dir = layout.Direction(v); return nil })(p)
		}),
	}
	f.Fields = append(f.Fields, b.seat(&j)...)
	f.Finish = b.at(func(_ *layout.Unit, j *layout.Jack) error { j.ID = name; return nil })
	return f
}

// DropJack takes a jack out that the unit's form does not have.
func (s Shop) DropJack(id, jack string) func(p *layout.Plan) error {
	return func(p *layout.Plan) error {
		u := p.Unit(id)
		if fm := s.formOf(u); fm != nil && fm.Jack(jack) != nil {
			return fmt.Errorf("jack %q is of the form %s: a unit has all the jacks of its form", jack, u.Form)
		}
		u.Jacks = slices.DeleteFunc(slices.Clone(u.Jacks), func(j layout.Jack) bool { return j.ID == jack })
		u.Uses = slices.DeleteFunc(slices.Clone(u.Uses), func(n string) bool { return n == jack })
		return nil
	}
}

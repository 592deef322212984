package cards

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Jack is the card of one jack of a unit: what it is, where it sits, and its plug.
// With jack "" it is that of a new one.
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
	f := &form.Form{Title: u.Label + ", jack " + jack, Name: "jack", Subject: id + "/" + jack, What: "change jack " + jack + " of " + u.Label, Unit: id}
	f.Fields = append(b.seat(j), b.plug(j), b.leg(j))
	f.Fields = append(f.Fields, b.sort(j)...)
	if fm := b.formOf(u); fm == nil || fm.Jack(jack) == nil { // the form's keep the form's names
		name := jack
		f.Fields = append(f.Fields, b.name(&name))
		f.Begin = func(*layout.Plan) error { name = jack; return nil }
		f.Finish = func(p *layout.Plan) error { return p.RenameJack(id, jack, name) }
	}
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
	along := about(form.Length("Along the wall", j.Along, b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Along = l; return nil })(p)
	}), "to its middle, from the left or from the front")
	height := about(form.Length("Height", j.Height, b.unit(), func(p *layout.Plan, l layout.Length) error {
		return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Height = l; return nil })(p)
	}), "of its middle above the base")
	return []*form.Field{
		form.OneOf("Wall", j.Wall.String(), "the wall that it sits in, the switch towards you", walls, func(p *layout.Plan, v string) error {
			return b.at(func(u *layout.Unit, j *layout.Jack) error {
				w, _ := layout.WallOf(v)
				edit.SetWall(j, w, b.formOf(u))
				return nil
			})(p)
		}), along, height,
	}
}

var signals = []form.Option{
	{Value: string(layout.Audio), Text: "audio"}, {Value: string(layout.Control), Text: "control: a switch, a pedal, MIDI"},
	{Value: string(layout.Power), Text: "power, low voltage"}, {Value: string(layout.Line), Text: "mains"},
}

// sort is the fields of what a jack is.
func (b jackCard) sort(j *layout.Jack) []*form.Field {
	kind := form.OneOf("Kind", string(j.Kind), "what plugs into it", jackKinds, func(p *layout.Plan, v string) error {
		return b.at(func(u *layout.Unit, j *layout.Jack) error {
			edit.SetJackKind(j, layout.JackKind(v), b.formOf(u), b.Forms)
			return nil
		})(p)
	})
	kind.Then = func(f *form.Form, v string) {
		k := *j
		edit.SetJackKind(&k, layout.JackKind(v), b.formOf(b.u), b.Forms)
		f.Show("Signal", string(k.Signal))
	}
	return []*form.Field{kind,
		form.OneOf("Signal", string(j.Signal), "what goes through it", signals, func(p *layout.Plan, v string) error {
			return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Signal = layout.Signal(v); return nil })(p)
		}),
		form.OneOf("Direction", string(j.Dir), "which way its signal goes", []form.Option{{Value: "in", Text: "in"}, {Value: "out", Text: "out"}}, func(p *layout.Plan, v string) error {
			return b.at(func(_ *layout.Unit, j *layout.Jack) error { j.Dir = layout.Direction(v); return nil })(p)
		}),
	}
}

// name is the field of a jack's name, which is given behind all that knows it by
// the old one.
func (b jackCard) name(keep *string) *form.Field {
	return form.Words("Name", *keep, "like in, out, send, return, dc", func(_ *layout.Plan, v string) error {
		switch {
		case !layout.ValidID(v):
			return fmt.Errorf("want letters, digits, - and _, at most %d", layout.MaxID)
		case v != b.jack && b.u.Jack(v) != nil:
			return fmt.Errorf("it has a jack of that name already")
		case v != b.jack && slices.Contains(b.MissingJacks(b.u), v):
			return fmt.Errorf("that is a jack of its form: the list of jacks puts it back")
		}
		*keep = v
		return nil
	})
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
	options := []form.Option{{Value: "", Text: "wherever it fits"}}
	for _, side := range edit.LegSides(j.Wall) {
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
	f.Fields = append([]*form.Field{b.name(&name)}, b.sort(&j)...)
	f.Fields = append(f.Fields, b.seat(&j)...)
	f.Finish = func(p *layout.Plan) error { return p.RenameJack(b.id, j.ID, name) }
	return f
}

// RestoreJack gives a unit a jack of its form back.
func (s Shop) RestoreJack(id, jack string) func(p *layout.Plan) error {
	return unitCard{Shop: s, id: id}.on(func(u *layout.Unit) error { return edit.RestoreJack(u, jack, s.formOf(u)) })
}

// MissingJacks returns the jacks of its form that a unit does not have.
func (s Shop) MissingJacks(u *layout.Unit) []string { return edit.MissingJacks(u, s.formOf(u)) }

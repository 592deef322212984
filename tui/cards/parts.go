package cards

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/tui/form"
)

// Labels of the fields that tell where something lies on a unit. They are not
// those of what lies on the board, which the mouse drags.
const (
	fromItsLeft  = "From its left"
	fromItsFront = "From its front"
)

// part binds a card to the ith of a list of a unit's parts; the one behind the
// last is put there first.
func part[T any](b unitCard, f *form.Form, of func(u *layout.Unit) *[]T, i int, fresh T) (T, func(do func(u *layout.Unit, x *T) error) func(p *layout.Plan) error) {
	x := fresh
	if list := *of(b.u); i < len(list) {
		x = list[i]
	} else {
		f.Fresh = true
		f.Begin = b.on(func(u *layout.Unit) error {
			*of(u) = append(slices.Clip(*of(u)), fresh)
			return nil
		})
	}
	return x, func(do func(u *layout.Unit, x *T) error) func(p *layout.Plan) error {
		return b.on(func(u *layout.Unit) error {
			list := slices.Clone(*of(u))
			if i >= len(list) {
				return fmt.Errorf("it is not there any more")
			}
			if err := do(u, &list[i]); err != nil {
				return err
			}
			*of(u) = list
			return nil
		})
	}
}

// within refuses a length beyond a side of the body.
func (b unitCard) within(l, side layout.Length, what string) error {
	if l < 0 || l > side {
		return fmt.Errorf("want 0 to %s, the body's %s", side.Format(b.unit()), what)
	}
	return nil
}

// about gives a field's wish some words to begin with.
func about(x *form.Field, words string) *form.Field {
	x.Want = words + "; " + x.Want
	return x
}

// unless tells what an empty field of words means.
func unless(x *form.Field, none string) *form.Field {
	x.None = none
	return x
}

func switchesOf(u *layout.Unit) *[]layout.Switch { return &u.Switches }

// Switch is the card of the ith switch of a unit, of a new one behind the last.
func (s Shop) Switch(id string, i int) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	b := unitCard{s, id, u}
	const mm = layout.Millimetre
	f := &form.Form{Title: fmt.Sprintf("%s, switch %d", u.Label, i+1), Name: "switch", Subject: id, Unit: id, What: "change a switch of " + u.Label,
		Intro: "Measured on the body, with the switch towards you. Feet need room between the switches of two units."}
	x, on := part(b, f, switchesOf, i, layout.Switch{At: layout.Point{X: u.Body.W / 2 / mm * mm, Y: min(22*mm, u.Body.D/2)}, Height: u.Body.H})
	if f.Fresh {
		f.Title, f.What = u.Label+", a new switch", "add a switch to "+u.Label
	}
	f.Fields = []*form.Field{
		unless(form.Words("Name", x.Name, "on, tap, toe; may stay empty", func(p *layout.Plan, v string) error {
			return on(func(_ *layout.Unit, x *layout.Switch) error { x.Name = v; return nil })(p)
		}), "none"),
		about(form.Length(fromItsLeft, x.At.X, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(u *layout.Unit, x *layout.Switch) error { x.At.X = l; return b.within(l, u.Body.W, "width") })(p)
		}), "to its middle"),
		about(form.Length(fromItsFront, x.At.Y, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(u *layout.Unit, x *layout.Switch) error { x.At.Y = l; return b.within(l, u.Body.D, "depth") })(p)
		}), "to its middle"),
		about(form.Length("Height", x.Height, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(_ *layout.Unit, x *layout.Switch) error { x.Height = l; return nil })(p)
		}), "of its cap above the base"),
	}
	return f
}

func baseOf(u *layout.Unit) *[]layout.BaseSpot { return &u.OnBase }

var baseParts = []form.Option{
	{Value: string(layout.Foot), Text: "foot"}, {Value: string(layout.BatteryDoor), Text: "battery door"},
	{Value: string(layout.Screw), Text: "screw"}, {Value: string(layout.BaseLabel), Text: "label"},
}

// OnBase is the card of the ith thing on a unit's base that fastener keeps clear
// of, of a new one behind the last. Its fields are as a tape measure finds it, with
// the unit turned over.
func (s Shop) OnBase(id string, i int) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	b := unitCard{s, id, u}
	const mm = layout.Millimetre
	f := &form.Form{Title: u.Label + ", on its base", Name: "base", Subject: id, Unit: id, What: "change what is on the base of " + u.Label,
		Intro: "Turn the unit over from left to right, its front towards you, and measure what you see."}
	size := min(12*mm, u.Body.W, u.Body.D)
	x, on := part(b, f, baseOf, i, layout.BaseSpot{Kind: layout.Foot, At: u.TurnedOver(layout.RectAt(layout.Point{}, size, size))})
	if f.Fresh {
		f.What = "add to what is on the base of " + u.Label
	}
	kind := form.OneOf("What", string(x.Kind), "what no fastener may lie on", baseParts, func(p *layout.Plan, v string) error {
		return on(func(_ *layout.Unit, x *layout.BaseSpot) error { x.Kind = layout.BasePart(v); return nil })(p)
	})
	where := b.rect(fromItsLeft, fromItsFront, u.TurnedOver(x.At), func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return on(func(u *layout.Unit, x *layout.BaseSpot) error {
			x.At = u.TurnedOver(change(u.TurnedOver(x.At)))
			return nil
		})(p)
	})
	about(where[0], "turned over")
	f.Fields = append([]*form.Field{kind}, where...)
	return f
}

// Sweep is the card of the room that a treadle's rocking plate takes beyond its
// body.
func (s Shop) Sweep(id string) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	b := unitCard{s, id, u}
	now := layout.Sweep{Top: u.Height()}
	if u.Sweep != nil {
		now = *u.Sweep
	}
	sweeping := func(do func(s *layout.Sweep)) func(p *layout.Plan) error {
		return b.on(func(u *layout.Unit) error {
			if u.Sweep == nil {
				return fmt.Errorf("first say above that it sweeps")
			}
			s := *u.Sweep
			do(&s)
			u.Sweep = &s
			return nil
		})
	}
	field := func(label, want string, l layout.Length, of func(s *layout.Sweep) *layout.Length) *form.Field {
		return about(form.Length(label, l, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return sweeping(func(s *layout.Sweep) { *of(s) = l })(p)
		}), want)
	}
	const beyond = "how far the plate goes beyond the body there"
	return &form.Form{Title: u.Label + ", sweep of its plate", Name: "sweep", Subject: id, Unit: id, What: "change the sweep of " + u.Label,
		Intro: "Rock it to both ends: how far past its body does the plate reach, and between which heights?",
		Fields: []*form.Field{
			form.YesNo("It sweeps", u.Sweep != nil, "yes: its plate takes room beyond its body", func(p *layout.Plan, is bool) error {
				return b.on(func(u *layout.Unit) error {
					switch {
					case !is:
						u.Sweep = nil
					case u.Sweep == nil:
						u.Sweep = &layout.Sweep{Top: u.Height()}
					}
					return nil
				})(p)
			}),
			field("Past its front", beyond, now.Front, func(s *layout.Sweep) *layout.Length { return &s.Front }),
			field("Past its back", beyond, now.Back, func(s *layout.Sweep) *layout.Length { return &s.Back }),
			field("Past its left", beyond, now.Left, func(s *layout.Sweep) *layout.Length { return &s.Left }),
			field("Past its right", beyond, now.Right, func(s *layout.Sweep) *layout.Length { return &s.Right }),
			field("From height", "where it begins, above the base", now.From, func(s *layout.Sweep) *layout.Length { return &s.From }),
			field("To height", "where it ends, above the base", now.Top, func(s *layout.Sweep) *layout.Length { return &s.Top }),
		}}
}

// sweepText tells a sweep in a few words.
func (b unitCard) sweepText() string {
	s := b.u.Sweep
	if s == nil {
		return "none"
	}
	var past []string
	for _, side := range []struct {
		name string
		l    layout.Length
	}{{"front", s.Front}, {"back", s.Back}, {"left", s.Left}, {"right", s.Right}} {
		if side.l > 0 {
			past = append(past, side.l.Tape(b.unit())+" "+side.name)
		}
	}
	return strings.Join(append(past, "to "+s.Top.Format(b.unit())), ", ")
}

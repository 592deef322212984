package cards

import (
	"fmt"
	"strings"

	"footplank/catalog"
	"footplank/layout"
	"footplank/tui/form"
)

// Title is the card of the plan's name and measure.
func (s Shop) Title() *form.Form {
	return &form.Form{Title: "The plan's name and measure", Name: "title", What: "change the plan's name or measure",
		Fields: []*form.Field{s.title(), s.measure()}}
}

// Limits is the card of the values that the checks go by.
func (s Shop) Limits() *form.Form {
	l := s.Plan.Limits
	most := layout.Mass(0)
	if l.MassGiven {
		most = l.Mass
	}
	u := s.unit()
	f := &form.Form{Title: "Limits", Name: "limits", What: "change the limits",
		Intro: "What the checks go by. The usual values hold for a grown man's street shoe and one person lifting."}
	reach := about(form.Length("Between switches", l.Reach, u, func(p *layout.Plan, l layout.Length) error { p.Limits.Reach = l; return nil }),
		"least between centres of two units' switches")
	over := about(form.Length("Step over", l.StepOver, u, func(p *layout.Plan, l layout.Length) error { p.Limits.StepOver = l; return nil }),
		"how much taller a unit in front of a switch may be")
	f.Fields = []*form.Field{
		form.MassOrNone("Most mass", most, "past "+(23*layout.Kilogram).Carried(u)+" a caution, no fault", u, func(p *layout.Plan, m layout.Mass) error {
			if p.Limits.Mass, p.Limits.MassGiven = m, m != 0; m == 0 {
				p.Limits.Mass = 23 * layout.Kilogram
			}
			return nil
		}), reach, over,
		form.Number("Force of a foot, N", l.FootForce, "newtons on a switch: 300 is a man's stamp", "", func(p *layout.Plan, v float64) error {
			p.Limits.FootForce = v
			return nil
		}),
	}
	return f
}

// Power is the card of the rules by which the supplies are shared out.
func (s Shop) Power() *form.Form {
	r := s.Plan.Power
	f := &form.Form{Title: "Power rules", Name: "power rules", What: "change the power rules",
		Intro: "How the outputs of the supplies are shared out, and where you play."}
	tour := form.Words("Tour", strings.Join(r.Tour, ", "), "countries by two letters: IE, JP, CA", func(p *layout.Plan, v string) error {
		p.Power.Tour = nil
		for _, c := range strings.FieldsFunc(strings.ToUpper(v), func(r rune) bool { return r == ',' || r == ' ' }) {
			if len(c) != 2 || strings.Trim(c, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
				return fmt.Errorf("%q: want a country's two letters, like IE", c)
			}
			p.Power.Tour = append(p.Power.Tour, c)
		}
		return nil
	})
	f.Fields = []*form.Field{
		form.YesNo("Sharing", r.Sharing, "yes: several units on one output", func(p *layout.Plan, is bool) error { p.Power.Sharing = is; return nil }),
		form.Whole("Headroom, percent", r.Headroom, 0, 90, "kept spare on every output: 20 is usual", func(p *layout.Plan, n int) error { p.Power.Headroom = n; return nil }),
		tour,
	}
	return f
}

// Cables is the card of the plan's cables.
func (s Shop) Cables() *form.Form {
	c := s.Plan.Cabling
	u := s.unit()
	f := &form.Form{Title: "Cables", Name: "cables", What: "change the cables", Intro: "Patch cable to cut from, and the cables that leave the board."}
	f.Fields = []*form.Field{
		form.LengthOrNone("Reel", c.Reel, u, "as usual", func(p *layout.Plan, l layout.Length) error { p.Cabling.Reel = l; return nil }),
		form.LengthOrNone("Instrument cable", c.Instrument, u, "as usual", func(p *layout.Plan, l layout.Length) error { p.Cabling.Instrument = l; return nil }),
		form.LengthOrNone("Cable to the amp", c.Amp, u, "as usual", func(p *layout.Plan, l layout.Length) error { p.Cabling.Amp = l; return nil }),
		form.LengthOrNone("Diameter", c.Diameter, u, "as usual", func(p *layout.Plan, l layout.Length) error { p.Cabling.Diameter = l; return nil }),
		form.Number("Capacity, pF per m", c.Capacitance, "picofarads, as on its sheet", "as usual", func(p *layout.Plan, v float64) error { p.Cabling.Capacitance = v; return nil }),
	}
	return f
}

// Fastener is the card of what holds the units.
func (s Shop) Fastener() *form.Form {
	x := s.Plan.Fastening
	f := &form.Form{Title: "Fastener", Name: "fastener", What: "change the fastener", Intro: "What holds the units on the board."}
	roll := func(label, kind, now string, of func(x *layout.Fastening) *layout.FastenerRoll) *form.Field {
		options := []form.Option{{Value: "", Text: "the usual"}}
		for _, n := range s.Forms.Fasteners() {
			if n.Kind == kind {
				options = append(options, form.Option{Value: n.Name, Text: n.Name})
			}
		}
		return form.OneOf(label, now, "a roll of the catalog", options, func(p *layout.Plan, v string) error {
			*of(&p.Fastening) = layout.FastenerRoll{}
			if n, ok := s.Forms.Fastener(v); ok {
				*of(&p.Fastening) = layout.FastenerRoll{Name: n.Name, Widths: n.Widths, StrengthKPa: n.StrengthKPa}
			}
			return nil
		})
	}
	f.Fields = []*form.Field{
		roll("Fixed units", catalog.Interlock, x.Interlock.Name, func(x *layout.Fastening) *layout.FastenerRoll { return &x.Interlock }),
		roll("Swap units", catalog.HookAndLoop, x.HookAndLoop.Name, func(x *layout.Fastening) *layout.FastenerRoll { return &x.HookAndLoop }),
		form.OneOf("Units carry", string(x.UnitSide), "which side of hook-and-loop is under the units",
			[]form.Option{{Value: "", Text: "the usual side"}, {Value: string(layout.Hook), Text: "hook"}, {Value: string(layout.Loop), Text: "loop"}},
			func(p *layout.Plan, v string) error { p.Fastening.UnitSide = layout.Side(v); return nil }),
		form.LengthOrNone("Margin", x.Margin, s.unit(), "as usual", func(p *layout.Plan, l layout.Length) error { p.Fastening.Margin = l; return nil }),
		form.Number("Jerk, g", x.JerkG, "load case, times the unit's weight: 1 to 50", "as usual", func(p *layout.Plan, v float64) error { p.Fastening.JerkG = v; return nil }),
	}
	return f
}

package cards

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/tui/form"
)

const millivoltsMost = 60_000 // as much as a plan may say

// polarities are the ways in which a power jack is wired.
var polarities = []form.Option{{Value: "-", Text: "centre-negative"}, {Value: "+", Text: "centre-positive"}, {Value: "~", Text: "alternating current"}}

func polarityOf(positive, ac bool) string {
	switch {
	case ac:
		return "~"
	case positive:
		return "+"
	}
	return "-"
}

// volts is a field of a voltage; with none set, one that may be left out.
func volts(label string, millivolts int, want, none string, set func(millivolts int) func(p *layout.Plan) error) *form.Field {
	return form.Number(label, float64(millivolts)/1000, want, none, func(p *layout.Plan, v float64) error {
		n := int(min(v, 1e6)*1000 + 0.5)
		if none == "" && n < 100 || n > millivoltsMost {
			return fmt.Errorf("want 0.1 to %d volts", millivoltsMost/1000)
		}
		return set(n)(p)
	})
}

// gives is the fields of a supply: what it gives, and its mains input.
func (b unitCard) gives() []*form.Field {
	out := []*form.Field{form.Heading("What it gives"), form.To("Outputs", plural(len(b.u.Outputs), "output"), "outputs")}
	if !b.u.Supplies() && b.u.Mains == nil && b.u.Milliwatts == 0 {
		return out
	}
	out = append(out, form.Number("In all, watts", float64(b.u.Milliwatts)/1000, "the most at all outputs together", "its outputs bound it", func(p *layout.Plan, v float64) error {
		return b.on(func(u *layout.Unit) error {
			if v > 2000 {
				return fmt.Errorf("want up to 2000 watts")
			}
			u.Milliwatts = int(v*1000 + 0.5)
			return nil
		})(p)
	}))
	return append(out, b.mains()...)
}

// mains is what the label at the inlet says; without volts nothing is known.
func (b unitCard) mains() []*form.Field {
	var now layout.MainsInput
	if b.u.Mains != nil {
		now = *b.u.Mains
	}
	upTo := func(high, low int) int { // the end of a range, none where it is one value
		if high > low {
			return high
		}
		return 0
	}
	known, field := b.knownMains, b.mainsField
	return []*form.Field{b.mainsVolts(now.Volts),
		known(field("mains up to, V", "for one that takes a range, like 100 to 240", "that voltage only", upTo(now.MaxVolts, now.Volts), 90, 260, func(m *layout.MainsInput, n int) {
			if m.MaxVolts = n; n == 0 {
				m.MaxVolts = m.Volts
			}
		})),
		known(field("Mains, Hz", "50 or 60", "50", now.Hertz, 45, 65, func(m *layout.MainsInput, n int) {
			if n == 0 {
				n = 50
			}
			if one := m.MaxHertz <= m.Hertz; one || n > m.MaxHertz {
				m.MaxHertz = n
			}
			m.Hertz = n
		})),
		known(field("mains up to, Hz", "60, for one that takes 50 and 60", "that only", upTo(now.MaxHertz, now.Hertz), 45, 65, func(m *layout.MainsInput, n int) {
			if m.MaxHertz = n; n == 0 {
				m.MaxHertz = m.Hertz
			}
		})),
	}
}

// mainsField is a field of a whole number on the label at the inlet.
func (b unitCard) mainsField(label, want, none string, n, low, high int, do func(m *layout.MainsInput, n int)) *form.Field {
	return form.Number(label, float64(n), want, none, func(p *layout.Plan, v float64) error {
		return b.on(func(u *layout.Unit) error {
			if v != 0 && (v < float64(low) || v > float64(high) || v != float64(int(v))) {
				return fmt.Errorf("want a whole number from %d to %d", low, high)
			}
			m := layout.MainsInput{}
			if u.Mains != nil {
				m = *u.Mains
			}
			do(&m, int(v))
			u.Mains = &m
			return nil
		})(p)
	})
}

// mainsVolts is the field that all of the mains input hangs on: emptied it takes
// the input away.
func (b unitCard) mainsVolts(now int) *form.Field {
	x := b.mainsField("Mains, V", "volts, as on the label at its inlet or its adaptor", "not known", now, 90, 260, func(m *layout.MainsInput, n int) {
		if one := m.MaxVolts <= m.Volts; one || n > m.MaxVolts {
			m.MaxVolts = n
		}
		if m.Volts = n; m.Hertz == 0 {
			m.Hertz, m.MaxHertz = 50, 50
		}
	})
	set := x.Set
	x.Set = func(p *layout.Plan, s string) error {
		if err := set(p, s); err != nil {
			return err
		}
		if u := p.Unit(b.id); u.Mains != nil && u.Mains.Volts == 0 {
			u.Mains = nil
		}
		return nil
	}
	return x
}

// knownMains makes a field of the mains input one that waits for its volts.
func (b unitCard) knownMains(x *form.Field) *form.Field {
	set := x.Set
	x.Set = func(p *layout.Plan, s string) error {
		switch u := p.Unit(b.id); {
		case u == nil || u.Mains != nil:
			return set(p, s)
		case strings.TrimSpace(s) != "":
			return fmt.Errorf("first say above how many volts it takes")
		}
		return nil
	}
	return x
}

// freeJacks are the power jacks of a unit that are no output yet, but for the one
// of that name.
func freeJacks(u *layout.Unit, but string) (out []form.Option) {
	for _, j := range u.Jacks {
		if j.Signal == layout.Power && j.Dir == layout.Out && (j.ID == but || u.Output(j.ID) == nil) {
			out = append(out, form.Option{Value: j.ID, Text: j.ID + ", " + j.Wall.String() + " wall"})
		}
	}
	return out
}

func outputsOf(u *layout.Unit) *[]layout.Output { return &u.Outputs }

// Output is the card of the ith output of a unit, of a new one behind the last. A
// new one takes a power jack that is none yet, or has one made for it.
func (s Shop) Output(id string, i int) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	b := outputCard{unitCard: unitCard{s, id, u}}
	f := &form.Form{Name: "output", Subject: id + "/" + strconv.Itoa(i), Unit: id}
	fresh := layout.Output{Millivolts: 9000, Milliamps: 100, Isolated: true}
	jack, made := b.jackToGive()
	fresh.Jack = jack.ID
	o, on := part(b.unitCard, f, outputsOf, i, fresh)
	b.to = func(do func(u *layout.Unit, o *layout.Output) error) func(p *layout.Plan) error { return on(do) }
	f.Title, f.What = u.Label+", output "+o.Jack, "change output "+o.Jack+" of "+u.Label
	options := freeJacks(u, o.Jack)
	if f.Fresh {
		f.Title, f.What = u.Label+", a new output", "add an output to "+u.Label
		f.Intro = "As its label says. Which unit it feeds is what the power map works out, or the unit's card says."
		if put := f.Begin; made {
			options = []form.Option{{Value: jack.ID, Text: jack.ID + ", a new jack in its back"}}
			f.Begin = func(p *layout.Plan) error {
				if err := b.on(func(u *layout.Unit) error { u.Jacks = append(slices.Clip(u.Jacks), jack); return nil })(p); err != nil {
					return err
				}
				return put(p)
			}
		}
	}
	f.Fields = append(b.at(&o, options, f.Fresh), b.amounts(&o)...)
	f.Fields = append(f.Fields, b.ground(&o)...)
	return f
}

// jackToGive is the power jack that a new output is at: one that is none yet, or
// one that is made.
func (b unitCard) jackToGive() (j layout.Jack, made bool) {
	if free := freeJacks(b.u, ""); len(free) > 0 {
		return *b.u.Jack(free[0].Value), false
	}
	const mm = layout.Millimetre
	plug, _ := b.Forms.DefaultPlug(layout.DC)
	n := len(b.u.Outputs) + 1
	for b.u.Jack("out"+strconv.Itoa(n)) != nil {
		n++
	}
	return layout.Jack{ID: "out" + strconv.Itoa(n), Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Wall: layout.Back,
		Along: b.u.Body.W / 2 / mm * mm, Height: b.u.Body.H / 2, Plug: plug}, true
}

// outputCard is the making of an output's card. to makes a change of the output
// one of a plan.
type outputCard struct {
	unitCard
	to func(do func(u *layout.Unit, o *layout.Output) error) func(p *layout.Plan) error
}

// at is the fields of the jack that gives the output.
func (b outputCard) at(o *layout.Output, options []form.Option, fresh bool) []*form.Field {
	out := []*form.Field{form.OneOf("Jack", o.Jack, "the power jack that gives it", options, func(p *layout.Plan, v string) error {
		return b.to(func(u *layout.Unit, o *layout.Output) error {
			if v != o.Jack && u.Output(v) != nil {
				return fmt.Errorf("jack %q gives another output already", v)
			}
			o.Jack = v
			return nil
		})(p)
	})}
	if j := b.u.Jack(o.Jack); j != nil && !fresh {
		out = append(out, form.To("Its connector", string(j.Kind)+", "+j.Wall.String()+" wall", "jack"))
	}
	return out
}

// amounts is the fields of what the output gives.
func (b outputCard) amounts(o *layout.Output) []*form.Field {
	set := func(do func(o *layout.Output, n int)) func(n int) func(p *layout.Plan) error {
		return func(n int) func(p *layout.Plan) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) error { do(o, n); return nil })
		}
	}
	return []*form.Field{
		volts("Gives, V", o.Millivolts, "volts: 9 is usual", "", set(func(o *layout.Output, n int) { o.Millivolts = n })),
		volts("up to, V", o.MaxMillivolts, "for one that is set anywhere in a range", "that voltage only", set(func(o *layout.Output, n int) { o.MaxMillivolts = n })),
		form.Whole("Most, mA", o.Milliamps, 1, 100_000, "milliamps that it gives, as on its label", func(p *layout.Plan, n int) error {
			return set(func(o *layout.Output, n int) {
				o.Choices = slices.Clone(o.Choices)
				for i := range o.Choices { // positions that give as much go on to do so
					if c := &o.Choices[i]; c.Milliamps == o.Milliamps {
						c.Milliamps = n
					}
				}
				o.Milliamps = n
			})(n)(p)
		}),
		unless(form.Words("Other positions", settingsText(o), "of its switch: 12 V, 18 V 100 mA; empty: none", func(p *layout.Plan, v string) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) (err error) {
				o.Choices, err = readSettings(v, o.Milliamps)
				return err
			})(p)
		}), "none"),
		form.OneOf("Polarity", polarityOf(o.CentrePositive, o.AC), "as drawn beside its jack", polarities, func(p *layout.Plan, v string) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) error { o.AC, o.CentrePositive = v == "~", v == "+"; return nil })(p)
		}),
	}
}

// ground is the fields of what the output shares, and whom it feeds.
func (b outputCard) ground(o *layout.Output) []*form.Field {
	grounds := []form.Option{{Value: "own", Text: "its own: isolated"}, {Value: "shared", Text: "shared with others"}}
	now := "shared"
	if o.Isolated {
		now = "own"
	}
	return []*form.Field{
		form.OneOf("Ground", now, "isolated outputs do not hum into each other", grounds, func(p *layout.Plan, v string) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) error {
				if o.Isolated = v == "own"; o.Isolated {
					o.Group = ""
				}
				return nil
			})(p)
		}),
		unless(form.Words("Group", o.Group, "a letter for those that share one ground; empty: all that say none", func(p *layout.Plan, v string) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) error {
				switch {
				case v != "" && o.Isolated:
					return fmt.Errorf("an isolated output has a ground of its own and is in no group")
				case v != "" && !layout.ValidID(v):
					return fmt.Errorf("want letters, digits, - and _, at most %d", layout.MaxID)
				}
				o.Group = v
				return nil
			})(p)
		}), "none"),
		form.YesNo("A link", o.Link, "yes: it feeds an expander, and no pedal", func(p *layout.Plan, is bool) error {
			return b.to(func(_ *layout.Unit, o *layout.Output) error { o.Link = is; return nil })(p)
		}),
	}
}

// settingsText tells the other positions of a switched output.
func settingsText(o *layout.Output) string {
	var out []string
	for _, c := range o.Choices {
		text := decimals(c.Millivolts) + " V"
		if c.Milliamps != o.Milliamps {
			text += " " + strconv.Itoa(c.Milliamps) + " mA"
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func decimals(milli int) string { return strconv.FormatFloat(float64(milli)/1000, 'f', -1, 64) }

var setting = regexp.MustCompile(`^([0-9]{1,4}(?:\.[0-9]{1,3})?) ?[vV]?(?: ?[ /] ?([0-9]{1,6}) ?(?:[mM][aA])?)?$`)

// readSettings reads positions of a switch: "12 V, 18 V 100 mA". One that says no
// current gives as much as the output does.
func readSettings(s string, milliamps int) ([]layout.Setting, error) {
	var out []layout.Setting
	for _, one := range strings.Split(s, ",") {
		if one = strings.TrimSpace(one); one == "" {
			continue
		}
		m := setting.FindStringSubmatch(one)
		if m == nil {
			return nil, fmt.Errorf("%q: want volts, and milliamps where they differ: 12 V, 18 V 100 mA", one)
		}
		v, _ := strconv.ParseFloat(m[1], 64)
		c := layout.Setting{Millivolts: int(v*1000 + 0.5), Milliamps: milliamps}
		if m[2] != "" {
			c.Milliamps, _ = strconv.Atoi(m[2])
		}
		if c.Millivolts < 100 || c.Millivolts > millivoltsMost || c.Milliamps < 1 || c.Milliamps > 100_000 {
			return nil, fmt.Errorf("%q: want 0.1 to %d volts and 1 to 100000 milliamps", one, millivoltsMost/1000)
		}
		out = append(out, c)
	}
	return out, nil
}

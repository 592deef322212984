package plan

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
)

var drawKeys = []string{"volts", "max_volts", "milliamps", "polarity", "current", "isolated", "battery", "feed", "lead"}

func (v view) readDraw(u *layout.Unit) {
	if v.none("draw") {
		u.Draw = nil
		return
	}
	t, ok := v.sub("draw", drawKeys...)
	if !ok {
		return
	}
	d := layout.Draw{Millivolts: 9000}
	if u.Draw != nil {
		d = *u.Draw
	} else {
		t.need("milliamps", "the current it takes")
	}
	t.feed(&d.Millivolts, &d.MaxMillivolts, &d.Milliamps, 0, &d.CentrePositive, &d.AC, &d.Isolated)
	if b, ok := t.flag("battery"); ok {
		d.Battery = b
	}
	if s, ok := t.word("lead", string(layout.PlainLead), string(layout.ReversingLead)); ok {
		d.Lead = layout.LeadKind(s)
	}
	if n := t.value("feed"); n != nil {
		v.feedAt[u.ID] = n
	}
	u.Draw = &d
	if d.Milliamps == 0 {
		u.Draw = nil
	}
	if u.Draw != nil && u.PowerIn() == nil && !v.unformed[u.ID] {
		t.errorf(t.off, "the unit has no jack to draw by: want a [[unit.jack]] of kind \"dc\"")
	}
}

// feed reads what a draw and an output have in common.
func (v view) feed(millivolts, most, milliamps *int, least int, positive, ac, isolated *bool) {
	if f, ok := v.number("volts", 0.1, 60); ok {
		*millivolts, *most = int(f*1000+0.5), 0
	}
	if f, ok := v.number("max_volts", 0.1, 60); ok {
		if *most = int(f*1000 + 0.5); *most <= *millivolts {
			v.errorf(v.offset("max_volts"), "max_volts: found %g, want more than its volts, %g", f, float64(*millivolts)/1000)
		}
	}
	if n, ok := v.whole("milliamps", least, 100_000); ok {
		*milliamps = n
	}
	if s, ok := v.word("polarity", "centre-negative", "centre-positive"); ok {
		*positive = s == "centre-positive"
	}
	if s, ok := v.word("current", "dc", "ac"); ok {
		*ac = s == "ac"
	}
	if b, ok := v.flag("isolated"); ok {
		*isolated = b
	}
}

// readOutputs reads a supply's outputs, which replace the form's.
func (v view) readOutputs(u *layout.Unit) {
	if f, ok := v.number("watts", 0, 2000); ok {
		u.Milliwatts = int(f*1000 + 0.5)
	}
	var gives []string
	for _, j := range u.Jacks {
		if j.Signal == layout.Power && j.Dir == layout.Out {
			gives = append(gives, j.ID)
		}
	}
	if !v.has("output") {
		// Those of jacks that the unit does not have are not there either.
		u.Outputs = slices.DeleteFunc(u.Outputs, func(o layout.Output) bool { return u.Jack(o.Jack) == nil })
		u.Outputs = orNone(u.Outputs)
		return
	}
	u.Outputs = nil
	for i, n := range v.tables("output", maxParts) {
		t := v.table(n, fmt.Sprintf("%s: output %d", v.name, i+1), n.off,
			"jack", "volts", "max_volts", "milliamps", "choice", "isolated", "group", "polarity", "current", "link")
		o := layout.Output{Millivolts: 9000}
		t.need("milliamps", "the most it gives")
		t.feed(&o.Millivolts, &o.MaxMillivolts, &o.Milliamps, 1, &o.CentrePositive, &o.AC, &o.Isolated)
		t.readChoices(&o)
		if !t.need("jack", "the id of the jack that gives it") {
			continue
		}
		j := t.value("jack")
		switch {
		case j.kind == stringKind && v.unformed[u.ID]:
		case j.kind != stringKind || !slices.Contains(gives, j.text):
			t.errorf(j.off, "jack: found %s, which is no jack of signal \"power\" and dir \"out\": %s", j.found(), wanted(j.text, gives))
		case slices.ContainsFunc(u.Outputs, func(p layout.Output) bool { return p.Jack == j.text }):
			t.errorf(j.off, "jack: %q is an output already", j.text)
		}
		o.Jack = j.text
		u.Outputs = append(u.Outputs, o)
	}
}

// readChoices reads the other positions of a switched output, its ground and
// whether it is a link.
func (v view) readChoices(o *layout.Output) {
	o.Link, _ = v.flag("link")
	if v.has("group") {
		if s, ok := v.id(v.value("group"), "group"); ok {
			o.Group = s
		}
		if o.Isolated {
			v.errorf(v.offset("group"), "group: an isolated output has a ground of its own and is in no group")
		}
	}
	for i, n := range v.tables("choice", maxParts) {
		t := v.table(n, fmt.Sprintf("%s: choice %d", v.name, i+1), n.off, "volts", "milliamps")
		c := layout.Setting{Milliamps: o.Milliamps}
		t.need("volts", "what the output gives in this position")
		if f, ok := t.number("volts", 0.1, 60); ok {
			c.Millivolts = int(f*1000 + 0.5)
		}
		if n, ok := t.whole("milliamps", 1, 100_000); ok {
			c.Milliamps = n
		}
		o.Choices = append(o.Choices, c)
	}
	if o.MaxMillivolts > 0 && len(o.Choices) > 0 {
		v.errorf(v.offset("choice"), "choice: want positions of a switch or a range up to max_volts, not both")
	}
}

// readMains reads what the label at a supply's mains inlet says.
func (v view) readMains(u *layout.Unit) {
	if v.none("mains") {
		u.Mains = nil
		return
	}
	t, ok := v.sub("mains", "volts", "max_volts", "hertz", "max_hertz")
	if !ok {
		return
	}
	m := layout.MainsInput{Volts: 230, Hertz: 50}
	t.need("volts", "what the label at the mains inlet says")
	if n, ok := t.whole("volts", 90, 260); ok {
		m.Volts = n
	}
	if n, ok := t.whole("hertz", 45, 65); ok {
		m.Hertz = n
	}
	m.MaxVolts, m.MaxHertz = m.Volts, m.Hertz
	if n, ok := t.whole("max_volts", m.Volts, 260); ok {
		m.MaxVolts = n
	}
	if n, ok := t.whole("max_hertz", m.Hertz, 65); ok {
		m.MaxHertz = n
	}
	u.Mains = &m
}

// readFeeds looks up the outputs that the player chose, once all units are
// read.
func (r *reader) readFeeds() {
	for i := range r.plan.Units {
		u := &r.plan.Units[i]
		n := r.feedAt[u.ID]
		if n == nil || u.Draw == nil {
			continue
		}
		v := view{r, n, fmt.Sprintf("unit %q: draw: feed", u.ID), n.off}
		id, jack, _ := strings.Cut(n.text, "/")
		if _, ok := r.unitAt[id]; n.kind != stringKind || !ok {
			v.errorf(n.off, "found %s, want \"SUPPLY/OUTPUT\": %s", n.found(), r.wantedUnit(id))
			continue
		}
		s := r.plan.Unit(id)
		if s == nil || r.unformed[id] {
			continue
		}
		gives := v.feedsOf(s, u.Expander())
		if !slices.Contains(gives, jack) {
			v.errorf(n.off, "found %s, but unit %q has no output %q: %s", n.found(), id, layout.Shortened(jack), wanted(jack, gives))
			continue
		}
		u.Draw.Feed = layout.JackRef{Unit: id, Jack: jack}
	}
}

// feedsOf returns the outputs of a supply that can feed a pedal, or its links.
func (v view) feedsOf(s *layout.Unit, expander bool) []string {
	if expander {
		return s.Links()
	}
	var out []string
	for _, o := range s.Outputs {
		if !o.Link {
			out = append(out, o.Jack)
		}
	}
	return out
}

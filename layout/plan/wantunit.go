package plan

import (
	"cmp"
	"slices"

	"footplank/catalog"
	"footplank/layout"
)

// unitWant is the making of a unit's table. form is what its form gives, an
// empty unit without one.
type unitWant struct {
	*want
	u, form *layout.Unit
	text    *node // the unit's table as it is, or nil
}

func (t wantedText) units() *wantList {
	l := &wantList{id: "id", soft: []string{"place", "pinned", "mount", "often", "on", "turns", "owned", "price"}}
	for i := range t.p.Units {
		l.items = append(l.items, t.unit(&t.p.Units[i]))
	}
	return l
}

func (t wantedText) unit(u *layout.Unit) *want {
	w := unitWant{&want{}, u, &layout.Unit{}, t.textOf(u.ID)}
	if f, ok := t.forms.Unit(u.Form); ok && u.Form != "" {
		w.form = &f.Unit
	}
	w.must("id", word(u.ID))
	w.usual(u.Label == u.ID, "label", word(u.Label))
	w.some(u.Form != "", "form", word(u.Form))
	mount := layout.Fixed
	if t.p.InSlots(u.ID) {
		mount = layout.Swap
	}
	w.usual(u.Mount == mount, "mount", word(u.Mount))
	w.usual(!u.Pinned, "pinned", flag(u.Pinned))
	w.usual(u.Often == 0, "often", number(u.Often))
	w.some(len(u.On) > 0, "on", words(u.On))
	w.usual(len(u.Turns) == 0, "turns", turns(u.Turns))
	w.usual(len(u.Uses) == 0, "uses", words(u.Uses))
	w.measures()
	w.sweep()
	w.draw()
	w.usual(u.Milliwatts == w.form.Milliwatts, "watts", milli(u.Milliwatts))
	w.mains()
	w.usual(!u.ToBuy, "owned", flag(!u.ToBuy))
	t.homePrice(w.want, u.ID)
	if u.Place != nil {
		w.must("place", placeOf(*u.Place))
	}
	w.jacks()
	w.switches()
	w.base()
	w.outputs()
	return w.want
}

// textOf returns the table of the unit of that id, or nil.
func (t wantedText) textOf(id string) *node {
	x := t.root.get("unit")
	if x == nil {
		return nil
	}
	for _, n := range x.value.items {
		if k := n.get("id"); k != nil && k.value.text == id {
			return n
		}
	}
	return nil
}

func turns(ts []layout.Turn) list {
	out := make(list, len(ts))
	for i, t := range ts {
		out[i] = number(t.Degrees())
	}
	return out
}

func (w unitWant) measures() {
	u, f := w.u, w.form
	w.usual(u.Form != "" && u.Body == f.Body, "body", lengthsOf(u.Body.W, u.Body.D, u.Body.H))
	o, b := u.Overall, u.Body
	more := layout.Size{W: max(0, f.Overall.W-f.Body.W), D: max(0, f.Overall.D-f.Body.D), H: max(0, f.Overall.H-f.Body.H)}
	w.usual(o == layout.Size{W: b.W + more.W, D: b.D + more.D, H: b.H + more.H}, "overall", lengthsOf(o.W, o.D, o.H))
	if u.Mass != 0 || f.Mass != 0 {
		w.usual(u.Mass == f.Mass, "mass", mass(u.Mass))
	}
	w.usual(u.Treadle == f.Treadle, "treadle", flag(u.Treadle))
	w.usual(u.Buffer == f.Buffer, "buffer", flag(u.Buffer))
}

func (w unitWant) sweep() {
	s := w.u.Sweep
	if s == nil {
		w.usual(w.form.Sweep == nil, "sweep", flag(false))
		return
	}
	base := layout.Sweep{Top: w.u.Height()}
	if w.form.Sweep != nil {
		base = *w.form.Sweep
	}
	t := &want{}
	t.usual(s.Front == base.Front, "front", length(s.Front))
	t.usual(s.Back == base.Back, "back", length(s.Back))
	t.usual(s.Left == base.Left, "left", length(s.Left))
	t.usual(s.Right == base.Right, "right", length(s.Right))
	t.usual(s.From == base.From, "from", length(s.From))
	t.usual(s.Top == base.Top, "top", length(s.Top))
	w.usual(w.form.Sweep != nil && *s == base, "sweep", t)
}

func (w unitWant) draw() {
	d := w.u.Draw
	if d == nil {
		w.usual(w.form.Draw == nil, "draw", flag(false))
		return
	}
	base, fresh := layout.Draw{Millivolts: 9000}, w.form.Draw == nil
	if !fresh {
		base = *w.form.Draw
	}
	t := &want{}
	var text *node
	if w.text != nil {
		if x := w.text.get("draw"); x != nil {
			text = x.value
		}
	}
	t.volts(text, d.Millivolts, d.MaxMillivolts, base.Millivolts, base.MaxMillivolts)
	t.usual(!fresh && d.Milliamps == base.Milliamps, "milliamps", number(d.Milliamps))
	t.current(d.CentrePositive, base.CentrePositive, d.AC, base.AC, d.Isolated, base.Isolated)
	t.usual(d.Battery == base.Battery, "battery", flag(d.Battery))
	t.some(d.Feed.Unit != "", "feed", word(spellRef(d.Feed)))
	t.some(d.Lead != base.Lead, "lead", word(d.Lead))
	w.usual(!fresh && t.silent(""), "draw", t)
}

// volts adds a voltage, or a range of them. A text that gives the voltage takes
// the form's range away, and so must give its own.
func (w *want) volts(text *node, low, high, baseLow, baseHigh int) {
	given := low != baseLow || high == 0 && baseHigh != 0
	w.usual(!given, "volts", milli(low))
	if text != nil && text.get("volts") != nil {
		given = true
	}
	if high != 0 {
		w.usual(high == baseHigh && !given, "max_volts", milli(high))
	}
}

// current adds what a draw and an output have in common besides.
func (w *want) current(positive, basePositive, ac, baseAC, isolated, baseIsolated bool) {
	w.usual(positive == basePositive, "polarity", word(map[bool]string{false: "centre-negative", true: "centre-positive"}[positive]))
	w.usual(ac == baseAC, "current", word(map[bool]string{false: "dc", true: "ac"}[ac]))
	w.usual(isolated == baseIsolated, "isolated", flag(isolated))
}

func (w unitWant) mains() {
	m := w.u.Mains
	if m == nil {
		w.usual(w.form.Mains == nil, "mains", flag(false))
		return
	}
	t := &want{}
	t.must("volts", number(m.Volts))
	t.usual(m.MaxVolts == m.Volts, "max_volts", number(m.MaxVolts))
	t.usual(m.Hertz == 50, "hertz", number(m.Hertz))
	t.usual(m.MaxHertz == m.Hertz, "max_hertz", number(m.MaxHertz))
	w.usual(same(m, w.form.Mains), "mains", t)
}

func (w unitWant) jacks() {
	l := &wantList{id: "id", form: true}
	for i := range w.u.Jacks {
		j := w.u.Jacks[i].Asked()
		l.items = append(l.items, w.jack(&j))
	}
	w.usual(w.jacksAsUsual(), "jacks", words(jackIDs(w.u)))
	w.under("jack", l)
}

// jacksAsUsual reports whether the unit has all jacks of its form, in the form's
// order, and then its own.
func (w unitWant) jacksAsUsual() bool {
	n := len(w.form.Jacks)
	return n == 0 || n <= len(w.u.Jacks) &&
		slices.EqualFunc(w.form.Jacks, w.u.Jacks[:n], func(a, b layout.Jack) bool { return a.ID == b.ID })
}

// jack returns the table of a jack: what differs from the form's, or all of one
// that the form does not have.
func (w unitWant) jack(j *layout.Jack) *want {
	t := &want{}
	t.must("id", word(j.ID))
	base := w.form.Jack(j.ID)
	fresh := base == nil
	if fresh {
		base = &layout.Jack{Kind: j.Kind, Height: w.u.Body.H / 2}
		if j.Kind == layout.DC || j.Kind == layout.Mains {
			base.Dir = layout.In
		}
	}
	signal := usualSignal[j.Kind]
	if !fresh && j.Kind == base.Kind {
		signal = base.Signal
	}
	t.usual(!fresh && j.Kind == base.Kind, "kind", word(j.Kind))
	t.usual(j.Signal == signal, "signal", word(j.Signal))
	t.usual(j.Dir == base.Dir, "dir", word(j.Dir))
	t.usual(!fresh && j.Wall == base.Wall, "wall", word(j.Wall.String()))
	t.usual(!fresh && j.Along == base.Along, "along", length(j.Along))
	t.usual(j.Height == base.Height, "height", length(j.Height))
	t.some(j.PlugGiven, "plug", word(j.Plug.Name))
	t.some(j.LegGiven, "leg", word(cmp.Or(j.Leg, layout.LegUp)))
	return t
}

// instead adds a list of tables that replaces the form's.
func (w unitWant) instead(name string, l *wantList, asForm bool) {
	n := must
	if asForm {
		n = usual
	}
	w.add(wantKey{name: name, v: l, need: n, headed: true})
}

func (w unitWant) switches() {
	l := &wantList{}
	for _, s := range w.u.Switches {
		t := &want{}
		t.some(s.Name != "", "name", word(s.Name))
		t.must("at", lengthsOf(s.At.X, s.At.Y))
		t.usual(s.Height == w.u.Body.H, "height", length(s.Height))
		l.items = append(l.items, t)
	}
	w.instead("switch", l, slices.Equal(w.u.Switches, w.form.Switches))
}

func (w unitWant) base() {
	l := &wantList{}
	for _, s := range w.u.OnBase {
		t := &want{}
		t.must("kind", word(s.Kind))
		t.rect(w.u.TurnedOver(s.At))
		l.items = append(l.items, t)
	}
	w.instead("base", l, slices.Equal(w.u.OnBase, catalog.FitBase(w.form.OnBase, w.form.Body, w.u.Body)))
}

func (w unitWant) outputs() {
	l := &wantList{id: "jack"}
	for _, o := range w.u.Outputs {
		t := &want{}
		t.must("jack", word(o.Jack))
		t.volts(w.outputText(o.Jack), o.Millivolts, o.MaxMillivolts, 9000, 0)
		t.must("milliamps", number(o.Milliamps))
		t.current(o.CentrePositive, false, o.AC, false, o.Isolated, false)
		t.some(o.Group != "", "group", word(o.Group))
		t.usual(!o.Link, "link", flag(o.Link))
		choices := &wantList{}
		for _, c := range o.Choices {
			x := &want{}
			x.must("volts", milli(c.Millivolts))
			x.usual(c.Milliamps == o.Milliamps, "milliamps", number(c.Milliamps))
			choices.items = append(choices.items, x)
		}
		t.usual(len(choices.items) == 0, "choice", choices)
		l.items = append(l.items, t)
	}
	there := slices.DeleteFunc(slices.Clone(w.form.Outputs), func(o layout.Output) bool { return w.u.Jack(o.Jack) == nil })
	w.instead("output", l, sameOutputs(w.u.Outputs, there))
}

func (w unitWant) outputText(jack string) *node {
	if w.text == nil || w.text.get("output") == nil {
		return nil
	}
	for _, n := range w.text.get("output").value.items {
		if k := n.get("jack"); k != nil && k.value.text == jack {
			return n
		}
	}
	return nil
}

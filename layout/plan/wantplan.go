package plan

import (
	"maps"
	"slices"

	"footplank/catalog"
	"footplank/layout"
)

// wanted is the making of what the text of a plan should say. The text as it is
// decides where there is a choice.
type wantedText struct {
	p     *layout.Plan
	forms *catalog.Catalog
	root  *node
}

// wantOf returns what the text of the plan should say. It is the reverse of read:
// what read takes for granted is usual here.
func wantOf(p *layout.Plan, forms *catalog.Catalog, root *node) *want {
	t := wantedText{p, forms, root}
	w := &want{}
	w.usual(p.Title == defaultTitle, "title", word(p.Title))
	w.usual(p.LengthUnit == layout.Millimetres, "length_unit", word(p.LengthUnit))
	w.under("board", t.board())
	w.under("slot", t.slots())
	w.under("unit", t.units())
	w.under("chain", t.chain())
	w.under("lineup", t.lineups())
	w.under("limits", t.limits())
	w.under("power", t.power())
	w.under("cable", t.cable())
	w.under("fastener", t.fastener())
	w.under("owned", t.owned())
	w.under("prices", t.prices())
	return w
}

// rect adds where something is and how large.
func (w *want) rect(r layout.Rect) {
	w.must("at", lengthsOf(r.X0, r.Y0))
	w.must("size", lengthsOf(r.W(), r.D()))
}

func (w *want) edges(name string, e layout.Edges) {
	t := &want{}
	for i, l := range []layout.Length{e.Front, e.Back, e.Left, e.Right} {
		t.usual(l == 0, edgeKeys[i], length(l))
	}
	w.usual(e == layout.Edges{}, name, t)
}

func (t wantedText) slots() *wantList {
	l := &wantList{id: "name"}
	for _, s := range t.p.Slots {
		w := &want{}
		w.must("name", word(s.Name))
		w.usual(s.On == layout.DeckName, "on", word(s.On))
		w.rect(s.At)
		l.items = append(l.items, w)
	}
	return l
}

func (t wantedText) chain() *want {
	c := &t.p.Chain
	order := make(list, len(c.Stops))
	for i, s := range c.Stops {
		order[i] = word(spellStop(s))
	}
	links := &wantList{}
	for _, k := range c.Links {
		w := &want{}
		w.must("from", word(spellRef(k.From)))
		w.must("to", word(spellRef(k.To)))
		links.items = append(links.items, w)
	}
	w := &want{}
	w.usual(len(order) == 0, "order", order)
	direction := word("right-to-left")
	if c.LeftToRight {
		direction = "left-to-right"
	}
	w.usual(!c.LeftToRight, "direction", direction)
	w.under("link", links)
	return w
}

// spellStop writes an entry of the chain's order.
func spellStop(s layout.Stop) string {
	switch {
	case s.Slot != "":
		return "slot:" + s.Slot
	case s.In != "" || s.Out != "":
		return s.Unit + "/" + s.In + ">" + s.Out
	}
	return s.Unit
}

func spellRef(r layout.JackRef) string {
	if r.Jack == "" {
		return r.Unit
	}
	return r.Unit + "/" + r.Jack
}

func (t wantedText) lineups() *wantList {
	l := &wantList{id: "name", soft: []string{"place"}, loose: true}
	ls := t.p.Lineups
	if len(ls) == 1 && ls[0].Name == DefaultLineup && len(ls[0].Place) == 0 && sameFill(ls[0].Fill, nil) && t.root.get("lineup") == nil {
		return l
	}
	for _, one := range ls {
		fill, place := &want{}, &want{}
		for _, slot := range slices.Sorted(maps.Keys(one.Fill)) {
			if t.p.Slot(slot) == nil {
				fill.must(slot, words(one.Fill[slot])) // which reading will refuse
			}
		}
		for _, s := range t.p.Slots {
			if ids, ok := one.Fill[s.Name]; ok {
				fill.usual(len(ids) == 0, s.Name, words(ids))
			} else {
				fill.usual(true, s.Name, list{})
			}
		}
		for i := range t.p.Units {
			if pl, ok := one.Place[t.p.Units[i].ID]; ok {
				place.must(t.p.Units[i].ID, placeOf(pl))
			}
		}
		for _, id := range slices.Sorted(maps.Keys(one.Place)) {
			if t.p.Unit(id) == nil {
				place.must(id, placeOf(one.Place[id])) // which reading will refuse
			}
		}
		w := &want{}
		w.must("name", word(one.Name))
		w.usual(fill.silent(""), "fill", fill)
		w.under("place", place)
		l.items = append(l.items, w)
	}
	return l
}

func placeOf(pl layout.Placement) *want {
	w := &want{}
	unlessUsual := func(is bool) need {
		if is {
			return shown
		}
		return must
	}
	w.add(wantKey{name: "on", v: word(pl.On), need: unlessUsual(pl.On == layout.DeckName)})
	w.must("at", lengthsOf(pl.At.X, pl.At.Y))
	w.add(wantKey{name: "turn", v: number(pl.Turn.Degrees()), need: unlessUsual(pl.Turn == 0)})
	return w
}

func (t wantedText) limits() *want {
	l := &t.p.Limits
	w := &want{}
	w.some(l.MassGiven, "mass", mass(l.Mass))
	w.usual(l.Reach == DefaultReach, "reach", length(l.Reach))
	w.usual(l.StepOver == DefaultStepOver, "step_over", length(l.StepOver))
	w.usual(l.FootForce == DefaultFootForce, "foot_force", number(l.FootForce))
	return w
}

func (t wantedText) power() *want {
	r := &t.p.Power
	w := &want{}
	sharing := word("never")
	if r.Sharing {
		sharing = "allowed"
	}
	w.usual(!r.Sharing, "sharing", sharing)
	w.usual(r.Headroom == defaultHeadroom, "headroom", number(r.Headroom))
	w.usual(len(r.Tour) == 0, "tour", words(r.Tour))
	return w
}

func (t wantedText) cable() *want {
	c := &t.p.Cabling
	w := &want{}
	w.some(c.Reel != 0, "reel", length(c.Reel))
	w.some(c.Instrument != 0, "instrument", length(c.Instrument))
	w.some(c.Amp != 0, "amp", length(c.Amp))
	w.some(c.Diameter != 0, "diameter", length(c.Diameter))
	w.some(c.Capacitance != 0, "pf_per_metre", number(c.Capacitance))
	return w
}

func (t wantedText) fastener() *want {
	f := &t.p.Fastening
	w := &want{}
	w.some(f.Interlock.Name != "", "interlock", word(f.Interlock.Name))
	w.some(f.HookAndLoop.Name != "", "hook_and_loop", word(f.HookAndLoop.Name))
	w.some(f.UnitSide != "", "units_carry", word(f.UnitSide))
	w.some(f.Margin != 0, "margin", length(f.Margin))
	w.some(f.JerkG != 0, "jerk", number(f.JerkG))
	return w
}

func (t wantedText) owned() *want {
	o := &t.p.Owned
	var cables, leads, plugs, rolls wantList
	add := func(l *wantList, count int, make func(w *want)) {
		w := &want{}
		make(w)
		if l != &rolls {
			w.usual(count == 1, "count", number(count))
		}
		l.items = append(l.items, w)
	}
	for _, c := range o.Cables {
		add(&cables, c.Count, func(w *want) {
			w.some(c.Name != "", "name", word(c.Name))
			w.must("length", length(c.Length))
			w.usual(c.Plugs == [2]string{}, "plugs", pairOrNone(c.Plugs))
		})
	}
	for _, l := range o.Leads {
		add(&leads, l.Count, func(w *want) {
			w.must("length", length(l.Length))
			w.usual(!l.Reversed, "reversed", flag(l.Reversed))
		})
	}
	for _, p := range o.Plugs {
		add(&plugs, p.Count, func(w *want) { w.must("form", word(p.Form)) })
	}
	for _, r := range o.Rolls {
		add(&rolls, 1, func(w *want) {
			w.must("kind", word(r.Kind))
			w.must("width", length(r.Width))
			w.must("length", length(r.Length))
		})
	}
	w := &want{}
	w.some(o.Reel != 0, "reel", length(o.Reel))
	w.under("cable", &cables)
	w.under("lead", &leads)
	w.under("plug", &plugs)
	w.under("roll", &rolls)
	return w
}

// pairOrNone is two unknown plugs as a list, for there is no plug called "".
func pairOrNone(p [2]string) value {
	if p == [2]string{} {
		return list{word(""), word("")}
	}
	return pair(p)
}

// prices returns the prices that are not told where the thing itself is.
func (t wantedText) prices() *want {
	w := &want{}
	for _, name := range slices.Sorted(maps.Keys(t.p.Prices)) {
		if !t.pricedAtHome(name) {
			w.must(name, price(t.p.Prices[name]))
		}
	}
	return w
}

// pricedAtHome reports whether the price of a unit or of the board is in its own
// table: it is, unless the text has it among the others.
func (t wantedText) pricedAtHome(name string) bool {
	if name != "board" && t.p.Unit(name) == nil {
		return false
	}
	x := t.root.get("prices")
	return x == nil || x.value.get(name) == nil
}

// homePrice adds the price of a thing to its own table.
func (t wantedText) homePrice(w *want, name string) {
	if p, ok := t.p.Prices[name]; ok && t.pricedAtHome(name) {
		w.must("price", price(p))
	}
}

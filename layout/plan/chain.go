package plan

import (
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

const (
	maxStops = 2 * maxUnits
	maxLinks = 100
)

// chainReader reads the chain, with the offsets of what it says.
type chainReader struct {
	view
	stopAt []int // of the chain's stops
	linkAt [][2]int
}

func (r *reader) readChain(top view) {
	v, ok := top.sub("chain", "order", "direction", "link")
	if !ok {
		return
	}
	c := &chainReader{view: v}
	s, _ := v.word("direction", "right-to-left", "left-to-right")
	r.plan.Chain.LeftToRight = s == "left-to-right"
	items, _ := v.list("order", 0, "stops, like \"instrument\", \"slot:NAME\", \"UNIT\"")
	if len(items) > maxStops {
		v.errorf(items[maxStops].off, "order: more than %d stops", maxStops)
		items = items[:maxStops]
	}
	for i, n := range items {
		if s, ok := c.stop(n, i); ok {
			r.plan.Chain.Stops = append(r.plan.Chain.Stops, s)
			c.stopAt = append(c.stopAt, n.off)
		}
	}
	for i, n := range v.tables("link", maxLinks) {
		c.link(n, i)
	}
	if len(r.list) == 0 {
		c.jacks()
	}
	if len(r.list) == 0 {
		c.loops()
	}
}

// stop reads one entry of the order.
func (c *chainReader) stop(n *node, i int) (layout.Stop, bool) {
	if n.kind != stringKind {
		c.errorf(n.off, "order: found %s, want text in quotes", n.found())
		return layout.Stop{}, false
	}
	if name, ok := strings.CutPrefix(n.text, "slot:"); ok {
		return c.slotStop(n, name)
	}
	id, jacks, named := strings.Cut(n.text, "/")
	if layout.OffBoard(id) {
		if named {
			c.errorf(n.off, "order: %q: the %s is off the board, want it without jacks", layout.Shortened(n.text), id)
		}
		if id == layout.Instrument && i > 0 {
			c.errorf(n.off, "order: %q in the middle, want it first", id)
		}
		return layout.Stop{Unit: id}, true
	}
	if _, ok := c.unitAt[id]; !ok {
		c.errorf(n.off, "order: found %s: %s", n.found(), c.wantedStop(id))
		return layout.Stop{}, false
	}
	if c.filledBy[id] {
		c.errorf(n.off, "order: unit %q is in a slot in some line-up, so it comes through its slot: want \"slot:NAME\" alone", id)
		return layout.Stop{}, false
	}
	s := layout.Stop{Unit: id}
	if named {
		var arrow bool
		if s.In, s.Out, arrow = strings.Cut(jacks, ">"); !arrow || s.In == "" && s.Out == "" {
			c.errorf(n.off, "order: found %s, want its jacks like \"%s/in>out\"", n.found(), id)
			return layout.Stop{}, false
		}
	}
	in, out := s.Jacks()
	for k, old := range c.plan.Chain.Stops {
		oldIn, oldOut := old.Jacks()
		if old.Unit != id || oldIn != in && oldOut != out {
			continue
		}
		jack := in
		if oldIn != in {
			jack = out
		}
		c.errorf(n.off, "order: unit %q is in the chain twice by its jack %q (first in %s), which makes a loop: want the second time by other jacks, like \"%s/return>out\"",
			id, jack, c.line(c.stopAt[k]), id)
		return layout.Stop{}, false
	}
	return s, true
}

func (c *chainReader) slotStop(n *node, name string) (layout.Stop, bool) {
	if c.plan.Slot(name) == nil {
		c.errorf(n.off, "order: found %s, but there is no slot %q: %s", n.found(), layout.Shortened(name), wanted(name, c.slotNames()))
		return layout.Stop{}, false
	}
	for k, old := range c.plan.Chain.Stops {
		if old.Slot == name {
			c.errorf(n.off, "order: slot %q is in the chain twice, first in %s", name, c.line(c.stopAt[k]))
			return layout.Stop{}, false
		}
	}
	return layout.Stop{Slot: name}, true
}

func (c *chainReader) wantedStop(written string) string {
	words := []string{layout.Instrument, layout.Amp, layout.Desk}
	words = append(words, c.unitIDs()...)
	for _, s := range c.plan.Slots {
		words = append(words, "slot:"+s.Name)
		if s.Name == written {
			return fmt.Sprintf("did you mean %q?", "slot:"+s.Name)
		}
	}
	if n := catalog.Nearest(written, words); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	return "want \"instrument\", \"amp\", \"desk\", \"slot:NAME\", or the id of a [[unit]]"
}

// link reads a cable besides the chain.
func (c *chainReader) link(n *node, i int) {
	v := c.table(n, fmt.Sprintf("chain: link %d", i+1), n.off, "from", "to")
	from, ok1 := c.end(v, "from", layout.Out)
	to, ok2 := c.end(v, "to", layout.In)
	if !ok1 || !ok2 {
		return
	}
	switch {
	case to.Unit == layout.Instrument:
		v.errorf(v.offset("to"), "to: nothing goes to the instrument")
	case layout.OffBoard(from.Unit) && layout.OffBoard(to.Unit):
		v.errorf(v.off, "from %q to %q: want a unit of the board at one end", from.Unit, to.Unit)
	case from.Unit == to.Unit:
		v.errorf(v.off, "from unit %q to itself, which makes a loop", from.Unit)
	default:
		c.plan.Chain.Links = append(c.plan.Chain.Links, layout.Link{From: from, To: to})
		c.linkAt = append(c.linkAt, [2]int{v.offset("from"), v.offset("to")})
	}
}

// end reads one end of a link.
func (c *chainReader) end(v view, key string, dir layout.Direction) (layout.JackRef, bool) {
	if !v.need(key, `"UNIT/JACK", "instrument", "amp" or "desk"`) {
		return layout.JackRef{}, false
	}
	n := v.value(key)
	id, jack, _ := strings.Cut(n.text, "/")
	if n.kind == stringKind && layout.OffBoard(n.text) {
		return layout.JackRef{Unit: n.text}, true
	}
	if _, ok := c.unitAt[id]; n.kind != stringKind || !ok {
		v.errorf(n.off, "%s: found %s: %s", key, n.found(), c.wantedStop(id))
		return layout.JackRef{}, false
	}
	u := c.plan.Unit(id)
	if u == nil || c.unformed[id] {
		return layout.JackRef{}, false
	}
	j := u.Jack(jack)
	if j == nil && jack == "" {
		v.errorf(n.off, "%s: found %s without a jack: %s", key, n.found(), c.wantedEnd(u, dir))
		return layout.JackRef{}, false
	}
	if j == nil {
		v.errorf(n.off, "%s: found %s, but unit %q has no jack %q: %s", key, n.found(), id, layout.Shortened(jack), wanted(jack, jackIDs(u)))
		return layout.JackRef{}, false
	}
	if j.Dir != dir {
		v.errorf(n.off, "%s: jack %q of unit %q goes %q, want one that goes %q", key, jack, id, j.Dir, dir)
		return layout.JackRef{}, false
	}
	return layout.JackRef{Unit: id, Jack: jack}, true
}

// wantedEnd names the jacks of a unit that a link may start from or end at.
func (c *chainReader) wantedEnd(u *layout.Unit, dir layout.Direction) string {
	var ends []string
	for _, j := range u.Jacks {
		if j.Dir == dir && j.CarriesSignal() {
			ends = append(ends, u.ID+"/"+j.ID)
		}
	}
	if len(ends) == 0 {
		return fmt.Sprintf("unit %q has none for the signal to go %s", u.ID, dir)
	}
	return "want " + anyOf(ends)
}

// jacks notes jacks that the chain needs and that are not there, go the wrong
// way, or hold two plugs, in any line-up.
func (c *chainReader) jacks() {
	noted := map[string]bool{}
	for li := range c.plan.Lineups {
		l := &c.plan.Lineups[li]
		seen := map[layout.JackRef]bool{}
		extra := 0 // of the chain's own links, those before the extra ones
		if n := len(c.plan.Nodes(l)); n > 0 {
			extra = n - 1
		}
		for i, k := range c.plan.ChainLinks(l) {
			for side, ref := range []layout.JackRef{k.From, k.To} {
				if layout.OffBoard(ref.Unit) {
					continue
				}
				why := c.unfit(ref, []layout.Direction{layout.Out, layout.In}[side])
				if why == "" && seen[ref] {
					why = fmt.Sprintf("jack %q of unit %q has two plugs: one jack takes one cable", ref.Jack, ref.Unit)
				}
				seen[ref] = true
				if why != "" && !noted[why] {
					noted[why] = true
					c.errorf(c.offsetOf(k, side, ref, i >= extra), "%s", why)
				}
			}
		}
	}
}

// unfit says why a jack cannot do what the chain wants of it, or "".
func (c *chainReader) unfit(ref layout.JackRef, dir layout.Direction) string {
	u := c.plan.Unit(ref.Unit)
	j := u.Jack(ref.Jack)
	switch {
	case !slices.ContainsFunc(u.Jacks, layout.Jack.CarriesSignal):
		return fmt.Sprintf("unit %q has no jack for the signal, so it is no stop of the chain: want it out of the order; where it changes with the line-up, in a slot that the order does not pass", ref.Unit)
	case j == nil:
		have := "it has none"
		if len(u.Jacks) > 0 {
			have = "it has " + strings.ReplaceAll(anyOf(jackIDs(u)), " or ", " and ")
		}
		return fmt.Sprintf("unit %q has no jack %q for the signal to go %s: %s; name them like \"%s/JACK>JACK\"",
			ref.Unit, ref.Jack, dir, have, ref.Unit)
	case j.Dir != dir:
		return fmt.Sprintf("jack %q of unit %q goes %q, but the signal must go %q there", ref.Jack, ref.Unit, j.Dir, dir)
	case !j.CarriesSignal():
		return fmt.Sprintf("jack %q of unit %q is for %s, not for the signal", ref.Jack, ref.Unit, j.Signal)
	}
	return ""
}

// offsetOf returns where the plan says that a link is there.
func (c *chainReader) offsetOf(k layout.Link, side int, ref layout.JackRef, extra bool) int {
	if extra {
		if i := slices.Index(c.plan.Chain.Links, k); i >= 0 {
			return c.linkAt[i][side]
		}
	}
	for i, s := range c.plan.Chain.Stops {
		in, out := s.Jacks()
		if s.Unit == ref.Unit && ([]string{out, in}[side]) == ref.Jack {
			return c.stopAt[i]
		}
	}
	return c.unitAt[ref.Unit]
}

// loops notes a link by which the signal comes back to where it was, as
// layout.PassOf tells the passes of a unit apart.
func (c *chainReader) loops() {
	for li := range c.plan.Lineups {
		l := &c.plan.Lineups[li]
		next := map[string][]string{}
		nodes := c.plan.Nodes(l)
		for i := 1; i < len(nodes); i++ {
			a, b := nodes[i-1], nodes[i]
			if !layout.OffBoard(a.Unit) && !layout.OffBoard(b.Unit) {
				from := layout.PassOf(nodes, layout.JackRef{Unit: a.Unit, Jack: a.Out})
				next[from] = append(next[from], layout.PassOf(nodes, layout.JackRef{Unit: b.Unit, Jack: b.In}))
			}
		}
		for i, k := range c.plan.Chain.Links {
			if layout.OffBoard(k.From.Unit) || layout.OffBoard(k.To.Unit) || !c.plan.Present(l, k.From.Unit) || !c.plan.Present(l, k.To.Unit) {
				continue
			}
			from, to := layout.PassOf(nodes, k.From), layout.PassOf(nodes, k.To)
			if reaches(next, to, from, map[string]bool{}) {
				c.errorf(c.linkAt[i][1], "link %d: the signal comes back to unit %q, from which it went to unit %q: a loop; where %q is a return or a second line of that unit, want both as stops of the order, like \"%s/in>send\" and later \"%s/%s>out\"",
					i+1, k.To.Unit, k.From.Unit, k.To.Jack, k.To.Unit, k.To.Unit, k.To.Jack)
				return
			}
			next[from] = append(next[from], to)
		}
	}
}

func reaches(next map[string][]string, from, to string, seen map[string]bool) bool {
	if from == to {
		return true
	}
	seen[from] = true
	for _, n := range next[from] {
		if !seen[n] && reaches(next, n, to, seen) {
			return true
		}
	}
	return false
}

package changeover

import (
	"slices"

	"footplank/layout"
)

// pair is one cable or lead before and after; nil where it is not plugged at
// all.
type pair struct {
	before, after *link
	out, in       []layout.JackRef // ends that are pulled, and that are plugged
	stay          []layout.JackRef // ends that stay in their jacks
	over          string           // unit that holds a cable up which could stay
}

// plugs works out what is unplugged and what is plugged.
func (c *change) plugs() {
	taken := make([]bool, len(c.to.links))
	other := c.match(taken)
	for i := range c.from.links {
		c.pair(&c.from.links[i], other[i])
	}
	for i := range c.to.links {
		if !taken[i] {
			c.pair(nil, &c.to.links[i])
		}
	}
}

// match tells which link after is the same thing as each link before: of one
// sort and name, first those of the same ends, then one end, then the others in
// order.
func (c *change) match(taken []bool) []*link {
	other := make([]*link, len(c.from.links))
	for _, alike := range []int{2, 1, 0} {
		for i := range c.from.links {
			a := &c.from.links[i]
			for k := range c.to.links {
				b := &c.to.links[k]
				if other[i] == nil && !taken[k] && a.sort == b.sort && a.name == b.name && shared(a, b) >= min(alike, len(a.ends)) {
					other[i], taken[k] = b, true
				}
			}
		}
	}
	return other
}

// shared counts the jacks that both have an end in.
func shared(a, b *link) int {
	n := 0
	for _, e := range a.ends {
		if slices.Contains(b.ends, e) {
			n++
		}
	}
	return n
}

func (c *change) pair(a, b *link) {
	p := pair{before: a, after: b}
	if a != nil {
		for _, e := range a.ends {
			if b != nil && slices.Contains(b.ends, e) && !c.lifted[e.Unit] {
				p.stay = append(p.stay, e)
			} else {
				p.out = append(p.out, e)
			}
		}
		// A cable that is held at both ends over a unit holds it down.
		if len(p.stay) == 2 {
			if p.over = c.holds(a); p.over != "" {
				p.stay, p.out = p.stay[:1], p.stay[1:]
			}
		}
	}
	if b != nil {
		for _, e := range b.ends {
			if !slices.Contains(p.stay, e) {
				p.in = append(p.in, e)
			}
		}
	}
	c.pairs = append(c.pairs, p)
}

// holds returns the first unit that is taken up from under the link, "" for none.
func (c *change) holds(a *link) string {
	for i := range c.from.placed {
		if st := &c.from.placed[i]; c.lifted[st.Unit.ID] && a.over(st.Unit.Base(st.Place), st.Z) {
			return st.Unit.ID
		}
	}
	return ""
}

// clear names the cables that stay plugged at both ends and lie where the unit
// is to stand.
func (c *change) clear(id string) []string {
	st := c.to.at[id]
	var out []string
	for i := range c.pairs {
		p := &c.pairs[i]
		if len(p.stay) == 2 && p.before.over(st.Unit.Base(st.Place), st.Z) {
			out = append(out, p.before.called())
		}
	}
	return out
}

// called names what is plugged in a sentence.
func (k *link) called() string {
	switch k.sort {
	case Patch:
		return "cable " + k.label
	case Stage:
		if k.name == layout.Instrument {
			return "the instrument's cable"
		}
		return "the cable to the " + k.name
	case Beside:
		return k.label
	}
	return "the " + k.label
}

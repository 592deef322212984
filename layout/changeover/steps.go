package changeover

import (
	"slices"

	"footplank/layout"
)

// card puts the steps in order: quiet, out, up, across, down, in, power, check.
func (c *change) card() *Card {
	out := &Card{From: c.from.l.Name, To: c.to.l.Name, AsideFewest: true}
	pull := c.unplugs()
	aside, moves, fewest := c.order()
	out.AsideFewest = fewest
	units := c.bodySteps(aside, moves)
	c.passages(units)
	plug, power := c.plugIns()
	if len(pull)+len(units)+len(plug)+len(power) == 0 {
		return out
	}
	out.Steps = append(out.Steps, Step{Kind: Mute})
	for _, s := range [][]Step{pull, units, plug, power, c.checks()} {
		out.Steps = append(out.Steps, s...)
	}
	for i := range out.Steps {
		c.words(&out.Steps[i])
	}
	return out
}

// unplugs are what comes from the wall first, then leads, so that nothing has
// power when its signal goes, then cables in the order of the signal.
func (c *change) unplugs() []Step {
	var mains, leads, rest []Step
	for i := range c.pairs {
		p := &c.pairs[i]
		if len(p.out) == 0 {
			continue
		}
		s := step(Unplug, p.before)
		s.Stays, s.By, s.Over = p.stay, p.after == nil, p.over
		for _, e := range p.out {
			s.Ends = append(s.Ends, End{e, c.from.tight(e)})
		}
		switch s.Sort {
		case Mains:
			mains = append(mains, s)
		case Lead:
			leads = append(leads, s)
		default:
			rest = append(rest, s)
		}
	}
	return slices.Concat(mains, leads, rest)
}

func step(k Kind, l *link) Step {
	return Step{Kind: k, Unit: l.unit, Sort: l.sort, Cable: l.name, Label: l.label}
}

// bodySteps are what is done with units while nothing of theirs is plugged.
func (c *change) bodySteps(aside, moves []string) []Step {
	var out []Step
	up := func(id string, aside bool) {
		from := c.from.at[id].Place
		out = append(out, Step{Kind: Lift, Unit: id, From: &from, Aside: aside})
	}
	down := func(id string, aside bool) {
		to := c.to.at[id].Place
		out = append(out, Step{Kind: Place, Unit: id, To: &to, Aside: aside, Clear: c.clear(id)})
	}
	// From under a riser last, and back under it first: what goes and comes
	// before it is not in the way then.
	beneath := func(of *side) func(a, b string) int {
		rank := func(id string) int {
			if c.roof(of.at[id]) != nil {
				return 1
			}
			return 0
		}
		return func(a, b string) int { return rank(a) - rank(b) }
	}
	slices.SortStableFunc(c.leave, beneath(c.from))
	slices.SortStableFunc(c.come, func(a, b string) int { return beneath(c.to)(b, a) })
	for _, id := range c.leave {
		up(id, false)
	}
	for _, id := range aside {
		up(id, true)
	}
	for _, id := range moves {
		from, to := c.from.at[id].Place, c.to.at[id].Place
		out = append(out, Step{Kind: Move, Unit: id, From: &from, To: &to, Clear: c.clear(id)})
	}
	for _, id := range aside {
		down(id, true)
	}
	for _, id := range c.come {
		down(id, false)
	}
	return out
}

// plugIns are cables in the order of the signal, then leads and the mains.
func (c *change) plugIns() (plug, power []Step) {
	var mains []Step
	in := map[*link]*pair{}
	for i := range c.pairs {
		if b := c.pairs[i].after; b != nil {
			in[b] = &c.pairs[i]
		}
	}
	for i := range c.to.links {
		b := &c.to.links[i]
		p := in[b]
		if len(p.in) == 0 {
			continue
		}
		s := step(Plug, b)
		s.Stays, s.Millivolts, s.Fetched = p.stay, b.millivolts, p.before == nil
		for _, e := range p.in {
			s.Ends = append(s.Ends, End{e, c.to.tight(e)})
		}
		switch s.Sort {
		case Lead:
			s.Kind = Power
			power = append(power, s)
		case Mains:
			s.Kind = Power
			mains = append(mains, s)
		default:
			plug = append(plug, s)
		}
	}
	return plug, append(power, mains...)
}

// checks end the card: has each unit power, and does the signal come through.
func (c *change) checks() []Step {
	var fed, through []string
	heard := map[string]bool{}
	for _, n := range c.p.Nodes(c.to.l) {
		if !layout.OffBoard(n.Unit) && !heard[n.Unit] {
			heard[n.Unit] = true
			through = append(through, n.Unit)
		}
	}
	for i := range c.to.placed {
		if u := c.to.placed[i].Unit; u.Draw != nil || u.Supplies() {
			fed = append(fed, u.ID)
		}
	}
	out := []Step{{Kind: Check, Sort: Lead, Units: fed}, {Kind: Check, Sort: Patch, Units: through}}
	if len(fed) == 0 {
		out = out[1:]
	}
	return out
}

package layout

// Used returns the jacks in use in the line-up, which alone need room for a
// plug: those of its links, those that the plan names for a unit, and those of
// power. A unit that draws uses its power input, an expander its own and a
// supply's link, a supply its mains input. Which outputs are used is what Feeds
// says; a unit of which it says nothing takes the next output in the plan's
// order.
func (p *Plan) Used(l *Lineup) map[JackRef]bool {
	used := map[JackRef]bool{}
	for _, k := range p.ChainLinks(l) {
		for _, r := range []JackRef{k.From, k.To} {
			if !OffBoard(r.Unit) {
				used[r] = true
			}
		}
	}
	units := p.UnitsIn(l)
	for _, u := range units {
		for _, id := range u.Uses {
			used[JackRef{u.ID, id}] = true
		}
		for i := range u.Jacks {
			j := &u.Jacks[i]
			if j.Signal == Line || j.Signal == Power && j.Dir == In && (u.Fed() || u.Supplies()) {
				used[JackRef{u.ID, j.ID}] = true
			}
		}
	}
	p.usedOutputs(l, units, used)
	return used
}

// usedOutputs adds the outputs and links that feed the line-up's units.
func (p *Plan) usedOutputs(l *Lineup, units []*Unit, used map[JackRef]bool) {
	var outputs, links []JackRef
	here := map[string]bool{}
	for _, u := range units {
		here[u.ID] = true
		for _, o := range u.Outputs {
			if !o.Link {
				outputs = append(outputs, JackRef{u.ID, o.Jack})
			}
		}
		for _, id := range u.Links() {
			links = append(links, JackRef{u.ID, id})
		}
	}
	feeds := p.Feeds[l.Name]
	var feed, link int // units without a known output
	for _, u := range units {
		if !u.Fed() && !u.Expander() {
			continue
		}
		switch r, known := feeds[u.ID]; {
		case known && here[r.Unit]:
			used[r] = true
		case u.Expander():
			link++
		default:
			feed++
		}
	}
	take(used, outputs, feed)
	take(used, links, link)
}

// take marks the first n of the jacks that are free.
func take(used map[JackRef]bool, from []JackRef, n int) {
	for _, r := range from {
		if n > 0 && !used[r] {
			used[r] = true
			n--
		}
	}
}

// PulledOut reports whether all of a line-up's links at the unit's jack leave
// the board, or the jack takes the mains: that plug is not in the case.
func PulledOut(links []Link, u *Unit, jack string) bool {
	ref := JackRef{u.ID, jack}
	off := false
	for _, k := range links {
		switch ref {
		case k.From:
			off = OffBoard(k.To.Unit)
		case k.To:
			off = OffBoard(k.From.Unit)
		default:
			continue
		}
		if !off {
			return false
		}
	}
	j := u.Jack(jack)
	return off || j != nil && j.Signal == Line
}

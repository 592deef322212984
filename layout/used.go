package layout

// Used returns the jacks in use in the line-up, which alone need room for a
// plug: those of its links, those that the plan names for a unit, and those of
// power. A unit that draws uses its power input; a supply its own input and as
// many outputs, in the plan's order, as there are units to feed; an expander
// takes the next link output of a supply.
func (p *Plan) Used(l *Lineup) map[JackRef]bool {
	used := map[JackRef]bool{}
	for _, k := range p.ChainLinks(l) {
		for _, r := range []JackRef{k.From, k.To} {
			if !OffBoard(r.Unit) {
				used[r] = true
			}
		}
	}
	var outputs, links []JackRef
	feeds, expanders := 0, 0
	for _, u := range p.UnitsIn(l) {
		for _, id := range u.Uses {
			used[JackRef{u.ID, id}] = true
		}
		for i := range u.Jacks {
			j, ref := &u.Jacks[i], JackRef{u.ID, u.Jacks[i].ID}
			switch {
			case j.Signal == Line:
				used[ref] = true
			case j.Signal != Power:
			case j.Dir == In && u.Supplies():
				used[ref] = true
				expanders++
			case j.Dir == In && u.Draw != nil && u.Draw.Milliamps > 0:
				used[ref] = true
				feeds++
			case j.Dir == Out && u.Supplies() && !u.isOutput(j.ID):
				links = append(links, ref)
			}
		}
		for _, o := range u.Outputs {
			outputs = append(outputs, JackRef{u.ID, o.Jack})
		}
	}
	for _, r := range outputs[:min(feeds, len(outputs))] {
		used[r] = true
	}
	for _, r := range links[:min(expanders, len(links))] {
		used[r] = true
	}
	return used
}

// Supplies reports whether the unit is a supply or an expander.
func (u *Unit) Supplies() bool { return len(u.Outputs) > 0 }

func (u *Unit) isOutput(jack string) bool {
	for _, o := range u.Outputs {
		if o.Jack == jack {
			return true
		}
	}
	return false
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

package arrange

import (
	"slices"

	"footplank/layout"
	"footplank/layout/wiring"
	"footplank/pack"
)

// plugs says what room plugs take in a problem, where the plan leaves their
// choice to the program.
//
//	as they are          either                      least
//	wall|##|             wall|##|  or wall|#|        wall|#|
//	    |##|                 |##|         |#|            |#| what all have
//	    |##| leg up                       |#| flat           in common
type plugs int

const (
	// asTheyAre takes the plugs that the plan has now.
	asTheyAre plugs = iota
	// either gives an item a shape for each of a few choices: the plugs that
	// it has, the usual ones, those that stand out least, and of these those
	// that are no higher than the unit.
	either
	// least takes of each plug only the room that all choices have in common.
	// What does not fit so does not fit with any plugs: that is the proof. What
	// does fit may not seat.
	least
)

// variant is a unit with one choice of plugs.
type variant struct {
	unit *layout.Unit
	// common is set where plugs take the room that all choices share.
	common bool
}

// variants returns the choices of plugs that the problem has for a unit.
func (pr *problem) variants(u *layout.Unit, in []int) []variant {
	if len(pr.plan.PlugForms) == 0 || pr.mode.plugs == asTheyAre {
		return []variant{{unit: u}}
	}
	if pr.mode.plugs == least {
		return []variant{{unit: u, common: true}}
	}
	out := []variant{{unit: u}}
	used := func(j string) bool { return pr.usedBy(u, j, in) != 0 }
	for _, v := range []*layout.Unit{wiring.UsualPlugs(u), wiring.ShallowPlugs(u, used, pr.plan.PlugForms, false), wiring.ShallowPlugs(u, used, pr.plan.PlugForms, true)} {
		fresh := true
		for _, o := range out {
			fresh = fresh && !sameRoom(o.unit, v, used)
		}
		if fresh {
			out = append(out, variant{unit: v})
		}
	}
	return out
}

// sameRoom reports whether the plugs of two variants of a unit take the same.
func sameRoom(a, b *layout.Unit, used func(string) bool) bool {
	for i := range a.Jacks {
		j, k := &a.Jacks[i], &b.Jacks[i]
		if used(j.ID) && (j.Plug != k.Plug || j.Leg != k.Leg) {
			return false
		}
	}
	return true
}

// boxes returns a variant's boxes at a turn, with the plugs of all the line-ups.
func (pr *problem) boxes(v variant, t layout.Turn, in []int) []layout.PartBox {
	out := v.unit.Boxes(t, func(j string) bool { return pr.usedBy(v.unit, j, in) != 0 })
	if !v.common {
		return out
	}
	for i := range out {
		if out[i].Part != layout.PlugPart {
			continue
		}
		j := v.unit.Jack(out[i].Jack)
		for _, c := range wiring.Choices(j, pr.plan.PlugForms) {
			k := *j
			k.Plug, k.Leg = c.Plug, c.Leg
			out[i].Box = common(out[i].Box, v.unit.PlugBox(&k, t))
		}
	}
	return out
}

// common returns what two boxes share.
func common(a, b layout.Box) layout.Box {
	return layout.Box{X0: max(a.X0, b.X0), Y0: max(a.Y0, b.Y0), Z0: max(a.Z0, b.Z0),
		X1: min(a.X1, b.X1), Y1: min(a.Y1, b.Y1), Z1: min(a.Z1, b.Z1)}
}

// choosesPlugs reports whether the plan leaves the choice of any plug to the program.
func choosesPlugs(p *layout.Plan) bool {
	if len(p.PlugForms) == 0 {
		return false
	}
	for i := range p.Units {
		for j := range p.Units[i].Jacks {
			if k := &p.Units[i].Jacks[j]; !k.PlugGiven || !k.LegGiven && k.Plug.Leg > 0 {
				return true
			}
		}
	}
	return false
}

// seats reports whether plugs that seat were found for the places: no more of
// them meet something than the problem itself allows, as where units are pinned
// into each other.
func (pr *problem) seats(places []pack.Place) bool {
	if !choosesPlugs(pr.plan) {
		return true
	}
	bad := wiring.Misseated(pr.placed(places))
	return bad == 0 || pr.mode.plugs != least && bad <= wiring.Misseated(pr.moved(places))
}

// withPlugs returns the problem with the plugs that seat at the places, and the
// places in it. Where any of them is not the usual one there are others to choose
// from as well, or two units could not change places.
func (pr *problem) withPlugs(places []pack.Place) (*problem, []pack.Place) {
	if !choosesPlugs(pr.plan) {
		return pr, places
	}
	placed := pr.placed(places)
	q := pr.plan.Clone()
	m := pr.mode
	m.plugs = asTheyAre
	for i := range q.Units {
		q.Units[i].Jacks = placed.Units[i].Jacks
		if slices.ContainsFunc(q.Units[i].Jacks, func(j layout.Jack) bool { return j.Usual != (layout.Seat{}) }) {
			m.plugs = either
		}
	}
	var names []string
	for _, l := range pr.lineups {
		names = append(names, l.Name)
	}
	lineups, err := choose(q, names)
	out := newProblem(q, lineups, m, pr.given, pr.units...)
	now := out.places(placed)
	if err != nil || now == nil {
		return pr, places // a unit pinned where it may not stand
	}
	return out, now
}

package wiring

import (
	"cmp"
	"slices"

	"footplank/layout"
)

// Ranks of a choice of plug: a leg that points elsewhere is free, another form
// is another cable.
const (
	legRank  = 1
	formRank = 10
)

// Choices returns the plugs that a jack may have, the usual one first: then the
// same form with its leg to the other sides, then the catalog's other forms for
// that kind of jack, those that stand out least first. A plug or a leg that the
// plan itself names stays.
func Choices(j *layout.Jack, forms []layout.PlugForm) []layout.Seat {
	usual := j.UsualSeat()
	out := []layout.Seat{usual}
	add := func(form layout.PlugForm) {
		k := *j
		k.Plug = form
		for _, leg := range legs(&k) {
			if j.LegGiven {
				leg = usual.Leg
			}
			s := layout.Seat{Plug: form, Leg: leg}
			if !slices.ContainsFunc(out, func(o layout.Seat) bool { return sameRoom(o, s) }) {
				out = append(out, s)
			}
		}
	}
	add(usual.Plug)
	if j.PlugGiven {
		return out
	}
	var others []layout.PlugForm
	for _, f := range forms {
		if f.Kind == j.Kind && f.Name != usual.Plug.Name {
			others = append(others, f)
		}
	}
	slices.SortStableFunc(others, func(a, b layout.PlugForm) int { return cmp.Compare(a.Out, b.Out) })
	for _, f := range others {
		add(f)
	}
	return out
}

// sameRoom reports whether two plugs are of one form with their legs to one side.
func sameRoom(a, b layout.Seat) bool {
	return a.Plug == b.Plug && (a.Plug.Leg == 0 || cmp.Or(a.Leg, layout.LegUp) == cmp.Or(b.Leg, layout.LegUp))
}

// rankOf says how far the nth choice is from the usual plug.
func rankOf(choices []layout.Seat, n int) int64 {
	rank, forms := int64(0), int64(0)
	for i := 1; i <= n; i++ {
		if choices[i].Plug.Name != choices[i-1].Plug.Name {
			forms++
			rank = forms * formRank
		} else {
			rank += legRank
		}
	}
	return rank
}

// Seat chooses the plugs of the plan's jacks anew: those that are in use and
// whose usual plug meets something where the units stand get another that does
// not, if there is one. It depends on the plan and its places only, not on what
// was chosen before, so a plan that is read again has the same plugs. Without
// PlugForms in the plan it changes nothing.
//
// It must be done again when units, places, line-ups or the power map change.
// Lists of jacks are replaced and not changed, so that clones may share them.
func Seat(p *layout.Plan) {
	if len(p.PlugForms) == 0 || len(p.Lineups) > maxSeated {
		return
	}
	s := newSeats(p, seatBudget)
	s.choose()
	s.apply()
}

// Misseated counts plugs that meet what stands on the board beside their own
// unit, once for each thing that they meet: zero for a plan that can be built.
func Misseated(p *layout.Plan) int {
	if len(p.Lineups) > maxSeated {
		return 0
	}
	s := newSeats(p, 0)
	for _, v := range s.vars {
		v.choices = []layout.Seat{{Plug: v.jack().Plug, Leg: v.jack().Leg}}
	}
	var sum int64
	for i, v := range s.vars {
		sum += s.alone(v, 0)
		for _, w := range s.vars[:i] {
			sum += s.pair(v, 0, w, 0)
		}
	}
	return int(sum / crossCost)
}

const (
	// maxSeated is how many line-ups a mask can tell apart.
	maxSeated = 64
	// seatBudget bounds the search for plugs, in pairs of boxes compared: a
	// part of a millisecond.
	seatBudget = 150_000
)

// UsualPlugs returns the unit with its usual plugs.
func UsualPlugs(u *layout.Unit) *layout.Unit {
	v := *u
	v.Jacks = slices.Clone(u.Jacks)
	for i := range v.Jacks {
		v.Jacks[i] = v.Jacks[i].Asked()
	}
	return &v
}

// ShallowPlugs returns the unit with plugs that stand out least in the jacks in
// use, of those that meet nothing of the unit itself and do not reach below its
// base; if low is set, no higher than the unit either, where there are such.
func ShallowPlugs(u *layout.Unit, used func(jack string) bool, forms []layout.PlugForm, low bool) *layout.Unit {
	v := UsualPlugs(u)
	var taken []layout.Box
	for _, b := range u.Boxes(0, func(string) bool { return false })[1:] {
		taken = append(taken, b.Box)
	}
	taken = append(taken, u.Treads(0)...)
	for i := range v.Jacks {
		j := &v.Jacks[i]
		if !used(j.ID) {
			continue
		}
		best, worth := layout.Seat{Plug: j.Plug, Leg: j.Leg}, [3]layout.Length{}
		for n, c := range Choices(j, forms) {
			k := *j
			k.Plug, k.Leg = c.Plug, c.Leg
			b := v.PlugBox(&k, 0)
			w := [3]layout.Length{0, 0, c.Plug.Out}
			if b.Z0 < 0 || slices.ContainsFunc(taken, b.Overlaps) {
				w[0] = 1
			}
			if low {
				w[1] = max(0, b.Z1-u.Height())
			}
			if n == 0 || slices.Compare(w[:], worth[:]) < 0 {
				best, worth = c, w
			}
		}
		if now := (layout.Seat{Plug: j.Plug, Leg: j.Leg}); best != now {
			j.Usual, j.Plug, j.Leg = now, best.Plug, best.Leg
		}
		taken = append(taken, v.PlugBox(j, 0))
	}
	return v
}

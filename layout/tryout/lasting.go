package tryout

import (
	"maps"
	"reflect"
	"slices"

	"footplank/layout"
)

// Lasting tells of answers about the plan was which of them are answers about the
// plan is as well. A refusal is one of everything, wherever what may move stands:
// it stays true as long as nothing else has changed. A place or a move depends on
// all that stands, so those last only where the plan is the very same one.
func Lasting(was, is *layout.Plan) func(a *Answer) bool {
	if was == is {
		return func(*Answer) bool { return true }
	}
	same := reflect.DeepEqual(binding(was), binding(is))
	return func(a *Answer) bool { return same && a.Verdict == Impossible && a.Proved }
}

// binding is the plan without what no refusal depends on: where units stand that
// may move, the plugs that seat there, and what concerns money and names only.
func binding(p *layout.Plan) *layout.Plan {
	q := p.Clone()
	q.Title, q.Prices, q.Owned = "", nil, layout.Owned{}
	for i := range q.Units {
		u := &q.Units[i]
		u.Jacks = slices.Clone(u.Jacks)
		for k := range u.Jacks {
			j := &u.Jacks[k]
			s := j.UsualSeat()
			j.Plug, j.Leg, j.Usual = s.Plug, s.Leg, layout.Seat{}
		}
		if !u.Pinned {
			u.Place = nil
		}
	}
	for i := range q.Lineups {
		maps.DeleteFunc(q.Lineups[i].Place, func(id string, _ layout.Placement) bool {
			u := q.Unit(id)
			return u == nil || !u.Pinned
		})
	}
	return q
}

package tryout

import (
	"maps"
	"slices"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Whole returns a plan of the bench, its own or that of an answer, with the
// line-ups that the bench does not look at: they are as the player's plan has them,
// and may collide with what stands elsewhere now. Without such line-ups it is the
// plan itself.
func (b *Bench) Whole(part *layout.Plan) *layout.Plan {
	if b.whole == nil || part == nil {
		return part
	}
	q := b.whole.Clone()
	for i := range part.Units {
		u := part.Units[i]
		if u.Place != nil {
			at := *u.Place
			u.Place = &at
		}
		if old := q.Unit(u.ID); old != nil {
			*old = u
		} else {
			q.Units = append(q.Units, u)
		}
	}
	for i := range part.Lineups {
		from, l := &part.Lineups[i], q.LineupNamed(part.Lineups[i].Name)
		l.Place, l.Fill = maps.Clone(from.Place), map[string][]string{}
		for s, ids := range from.Fill {
			l.Fill[s] = slices.Clone(ids)
		}
	}
	power.Apply(q)
	wiring.Seat(q)
	return q
}

// Stands reports whether the bench's plan fits, so that units have a place to
// keep.
func (b *Bench) Stands() bool { return b.stands }

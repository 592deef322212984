package arrange

import (
	"slices"

	"footplank/layout"
)

// Only returns the plan with only those of its line-ups, so that their shared
// units may move: what other line-ups alone have on the board is left out.
func Only(p *layout.Plan, lineups []string) *layout.Plan {
	q := p.Clone()
	q.Lineups = slices.DeleteFunc(q.Lineups, func(l layout.Lineup) bool { return !slices.Contains(lineups, l.Name) })
	q.Units = slices.DeleteFunc(q.Units, func(u layout.Unit) bool {
		return p.InSlots(u.ID) && !q.InSlots(u.ID)
	})
	return q
}

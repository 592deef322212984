package arrange

import (
	"context"

	"footplank/pack"
)

// joints names units that stay one item though others are parted.
type joints map[string]bool

// rejoin takes an arrangement in which every swap unit may stand elsewhere in
// each line-up, and keeps together one unit after the other as long as all still
// fits: so that no more stand elsewhere than must, as far as the steps go.
func rejoin(ctx context.Context, pr *problem, res pack.Result, opt Options) (pack.Result, *problem, error) {
	held := joints{}
	for i := range pr.plan.Units {
		id := pr.plan.Units[i].ID
		if !pr.parted(id) {
			continue
		}
		held[id] = true
		now := joints{}
		for k, v := range held {
			now[k] = v
		}
		po := pack.Options{Seed: opt.Seed, Workers: opt.Workers, Steps: trySteps}
		m := pr.mode
		m.joined = &now
		with, next, err := first(ctx, newProblem(pr.plan, pr.lineups, m, nil), po)
		if err != nil {
			return res, pr, err
		}
		if with.Verdict != pack.Fits || !next.seats(with.Places) {
			held[id] = false
			continue
		}
		with.Nodes += res.Nodes
		res, pr = with, next
	}
	return res, pr, nil
}

// parted reports whether the unit is several items.
func (pr *problem) parted(id string) bool {
	n := 0
	for i := range pr.items {
		if pr.items[i].unit.ID == id {
			n++
		}
	}
	return n > 1
}

// elsewhere lists the units of slots that do not stand at one place in all their
// line-ups, in the plan's order.
func (pr *problem) elsewhere(places []pack.Place) []string {
	var out []string
	for i := range pr.items {
		for j := range i {
			a, b := &pr.items[i], &pr.items[j]
			if a.unit == b.unit && pr.placement(i, places[i]) != pr.placement(j, places[j]) {
				if len(out) == 0 || out[len(out)-1] != a.unit.ID {
					out = append(out, a.unit.ID)
				}
			}
		}
	}
	return out
}

package tryout

import (
	"context"
	"slices"

	"footplank/pack"
)

// among looks for places of the items for which may is set, and of those without
// one, all others staying where they are; nil if it finds none. What stays is an
// obstacle to the engine, and what is out of reach is left out, so it answers
// sooner than for the whole problem with most of it held.
func among(ctx context.Context, p *pack.Problem, at []pack.Place, may []bool, opt pack.Options) []pack.Place {
	q := &pack.Problem{Obstacles: slices.Clone(p.Obstacles)}
	var free []int
	for i, pl := range at {
		if pl.Region < 0 || may[i] {
			free = append(free, i)
			q.Items = append(q.Items, p.Items[i])
		}
	}
	reach := reachOf(q.Items)
	for i, pl := range at {
		if pl.Region < 0 || may[i] {
			continue
		}
		for _, b := range p.Items[i].Boxes(nil, pl) {
			if b.Overlaps(reach) {
				q.Obstacles = append(q.Obstacles, pack.Obstacle{Name: p.Items[i].Name, Box: b})
			}
		}
	}
	opt.Complete = true
	res, err := pack.Solve(ctx, q, opt)
	if err != nil || res.Verdict != pack.Fits {
		return nil
	}
	places := slices.Clone(at)
	for k, i := range free {
		places[i] = res.Places[k]
	}
	// What stays may collide with itself, with other plugs say.
	if !arranged(ctx, p, places) {
		return nil
	}
	return places
}

// reachOf is a box around all that the items can take, in the groups that any of
// them is in.
func reachOf(items []pack.Item) pack.Box {
	const far = 4 * pack.MaxCoord
	all := pack.Box{X0: far, Y0: far, Z0: far, X1: -far, Y1: -far, Z1: -far}
	for i := range items {
		it := &items[i]
		all.Groups |= it.Groups
		for k, r := range it.Regions {
			for _, b := range it.Boxes(nil, pack.Place{Region: k}) {
				all.X0, all.X1 = min(all.X0, b.X0+r.X0), max(all.X1, b.X1+r.X1)
				all.Y0, all.Y1 = min(all.Y0, b.Y0+r.Y0), max(all.Y1, b.Y1+r.Y1)
				all.Z0, all.Z1 = min(all.Z0, b.Z0), max(all.Z1, b.Z1)
			}
		}
	}
	return all
}

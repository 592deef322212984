package power

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/pack/recall"
)

// answers remembers what searches came to. Where units stand is in a problem by
// what outlets cost only, and not at all when outputs are taken in order: so the
// search of Apply, and the first of Map, are done again only when units, supplies
// or line-ups change, and the second when a lead can have another length.
var answers = recall.Memory[answer]{Most: 512}

// solve searches for the cheapest map, or remembers the search. leave tells
// whether units may be without an outlet, which is worse than all else.
func (pr *problem) solve(ctx context.Context, leave bool) answer {
	d := pr.question(leave)
	a, ok := answers.Recall(d)
	if !ok {
		a = pr.search(ctx, leave)
		if ctx.Err() == nil {
			answers.Keep(d, a)
		}
	}
	a.at, a.stuck = slices.Clone(a.at), slices.Clone(a.stuck)
	return a
}

// question writes down all of a problem that its search looks at.
func (pr *problem) question(leave bool) recall.Digest {
	q := make(recall.Question, 0, 1<<14)
	q.Yes(leave)
	q.Yes(pr.share)
	q.Yes(pr.asks)
	recall.Add(&q, pr.spare, pr.improve, len(pr.rows), len(pr.nodes), len(pr.outlets), len(pr.demands), len(pr.forced), len(pr.start))
	for n := range pr.nodes {
		recall.Add(&q, pr.nodes[n].parent)
		recall.Add(&q, pr.nodes[n].bound())
	}
	for o := range pr.outlets {
		out := &pr.outlets[o]
		recall.Add(&q, out.zone, out.node, pr.class[o], len(out.settings))
		for _, st := range out.settings {
			recall.Add(&q, st.Millivolts, st.Milliamps)
		}
	}
	var last *layout.Unit
	for i := range pr.demands {
		d := &pr.demands[i]
		q.Yes(d.unit == last) // of one unit, and so of one team
		last = d.unit
		recall.Add(&q, d.unit.Draw.Milliamps, len(d.lineups))
		recall.Add(&q, d.lineups...)
		recall.Add(&q, d.can...)
		recall.Add(&q, d.fit...)
		for o := range d.alone {
			q.Yes(d.alone[o])
			q.Yes(d.swapped[o])
		}
		for _, cost := range d.cost {
			recall.Add(&q, cost...)
		}
	}
	for _, f := range pr.forced {
		recall.Add(&q, f.outlet, f.unit.Draw.Milliamps, len(f.lineups))
		recall.Add(&q, f.lineups...)
	}
	recall.Add(&q, pr.start...)
	return q.Digest()
}

// Forget forgets all searches, so that a benchmark can make them anew.
func Forget() { answers.Forget() }

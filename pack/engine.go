package pack

import (
	"context"
	"runtime"
)

// solve decides p: quick reasons first, then the repairing and the complete
// search beside each other.
func solve(ctx context.Context, p *Problem, opt Options) (Result, error) {
	m := compile(p, false)
	if r := m.noRegion(); r != nil {
		return Result{Verdict: Impossible, Reason: r}, nil
	}
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	lc := newLocal(m, opt.Seed)
	if len(opt.Start) == len(p.Items) {
		lc.start(opt.Start)
	}
	out, nodes := race(ctx, workers, opt.Steps, []searcher{
		{name: "local", share: 50, run: lc.run},
		{name: "relative", share: 100, run: (&relative{m: m}).run},
	})
	res := Result{Verdict: out.verdict, Places: out.places, Reason: out.reason, Nodes: nodes}
	if res.Verdict == Fits && opt.Objective != nil {
		res.Cost = opt.Objective.Cost(res.Places)
	}
	return res, nil
}

// noRegion says which item has no place of its own at all.
func (m *model) noRegion() *Reason {
	for i, cs := range m.cells {
		if len(cs) == 0 {
			return &Reason{Rule: "no-region", Items: []int{i}}
		}
	}
	return nil
}

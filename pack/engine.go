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
	reason, tights := m.bounds()
	if reason != nil {
		return Result{Verdict: Impossible, Reason: reason}, nil
	}
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	list := []searcher{
		{name: "repair", share: 120, run: func(pc *pacer) outcome { return m.repair(pc, opt) }},
		{name: "learn", share: 120, run: func(pc *pacer) outcome { return newLearner(m).run(pc) }},
	}
	if t := newTightFill(m, tights); t != nil {
		list[1] = searcher{name: "tight", share: 240, run: t.run}
	}
	out, nodes := race(ctx, workers, opt.Steps, list)
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

// bounds looks for a quick reason, and drops cells that cannot be used, until
// there is nothing more to drop.
func (m *model) bounds() (*Reason, []tight) {
	for {
		reason, tights := m.areaBound(m.levels())
		if reason != nil || m.gone == nil {
			return reason, tights
		}
		m.sweep()
	}
}

// repair alternates between the repairing search and a learning search that
// begins from the best that the other has left.
func (m *model) repair(pc *pacer, opt Options) outcome {
	lc := newLocal(m, opt.Seed)
	if len(opt.Start) == len(m.cells) {
		lc.start(opt.Start)
	}
	var learn *learner
	for portion := int64(30 * (len(m.cells) + 4)); ; portion += portion / 2 {
		out, on := lc.runFor(pc, portion)
		if out.verdict != Undecided || !on {
			return out
		}
		if learn == nil {
			learn = newLearner(m)
		}
		learn.hint(lc.best)
		out, on = learn.runFor(pc, portion)
		if out.verdict != Undecided || !on {
			return out
		}
	}
}

package pack

import (
	"context"
	"runtime"
)

// solve decides p and improves on the arrangement found.
func solve(ctx context.Context, p *Problem, opt Options) (Result, error) {
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	res := decide(ctx, p, opt, workers)
	if res.Verdict != Fits || opt.Objective == nil {
		return res, nil
	}
	steps := opt.ImproveSteps
	if opt.Steps > 0 {
		left := max(1, opt.Steps-res.Nodes)
		if steps <= 0 || left < steps {
			steps = left
		}
	}
	improve(ctx, p, opt, workers, &res, steps)
	return res, nil
}

// decide answers without regard to an objective: quick reasons first, then a
// search made for plain rectangles where p is nothing more, else the repairing
// and the complete search beside each other.
func decide(ctx context.Context, p *Problem, opt Options, workers int) Result {
	if p.arranged(opt.Start) {
		return Result{Verdict: Fits, Places: append([]Place{}, opt.Start...)}
	}
	if pp, ok := plainOf(p); ok {
		a := solvePlain(ctx, pp, opt)
		return Result{Verdict: a.Verdict, Places: a.placesOf(p), Reason: a.Reason, Nodes: a.Nodes}
	}
	m := compile(p, false)
	if r := m.noRegion(); r != nil {
		return Result{Verdict: Impossible, Reason: r}
	}
	reason, tights, loads := m.bounds()
	if reason != nil {
		return Result{Verdict: Impossible, Reason: reason}
	}
	list := []searcher{
		{name: "repair", share: 120, run: func(pc *pacer) outcome { return m.repair(pc, opt, loads) }},
		{name: "learn", share: 120, run: func(pc *pacer) outcome { return newLearner(m, loads).run(pc) }},
	}
	if t := newTightFill(m, tights); t != nil {
		list[1] = searcher{name: "tight", share: 240, run: t.run}
	}
	if opt.Complete {
		list = []searcher{{name: "learn", share: 240, run: func(pc *pacer) outcome { return newLearner(m, loads).run(pc) }}}
	}
	out, nodes := race(ctx, workers, opt.Steps, list)
	return Result{Verdict: out.verdict, Places: out.places, Reason: out.reason, Nodes: nodes}
}

// arranged reports whether places is an arrangement of p.
func (p *Problem) arranged(places []Place) bool {
	if len(places) != len(p.Items) {
		return false
	}
	var all [][]Box
	for i, pl := range places {
		it := &p.Items[i]
		if pl.Region < 0 || pl.Region >= len(it.Regions) {
			return false
		}
		r := it.Regions[pl.Region]
		if pl.X < r.X0 || pl.X > r.X1 || pl.Y < r.Y0 || pl.Y > r.Y1 {
			return false
		}
		all = append(all, it.Boxes(nil, pl))
	}
	for i, bs := range all {
		for _, b := range bs {
			for _, o := range p.Obstacles {
				if o.Box.Groups == 0 {
					o.Box.Groups = AllGroups
				}
				if b.Overlaps(o.Box) {
					return false
				}
			}
			for _, cs := range all[:i] {
				for _, c := range cs {
					if b.Overlaps(c) {
						return false
					}
				}
			}
		}
	}
	return true
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
//
// The last result are zones that a search should watch.
func (m *model) bounds() (*Reason, []tight, []tight) {
	for {
		levels := m.levels()
		reason, tights := m.areaBound(levels)
		if reason != nil || m.gone == nil {
			return reason, tights, m.crowded(levels, 2)
		}
		m.sweep()
	}
}

// repair alternates between the repairing search and a learning search that
// begins from the best that the other has left.
func (m *model) repair(pc *pacer, opt Options, loads []tight) outcome {
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
			learn = newLearner(m, loads)
		}
		learn.shake(lc.rng)
		learn.hint(lc.best)
		out, on = learn.runFor(pc, portion)
		if out.verdict != Undecided || !on {
			return out
		}
	}
}

package pack

import (
	"context"
	"runtime"
	"sync/atomic"

	"footplank/pack/crew"
)

// A plain problem goes to several searches at once; the first to answer wins.
// "First" is counted in steps, not on the clock, so that the same input gives
// the same answer on any machine: an answer found after s steps makes each
// other search stop once it has itself done s steps, and of several answers
// the one with the fewest steps counts.

// plainFound is what one search of a core found; pos has one place for each
// rectangle, kind by kind in the core's units.
type plainFound struct {
	verdict Verdict
	pos     [][]plainPos
	nodes   int64
}

// plainMethod is one search. It returns Undecided once the pace says stop.
type plainMethod func(c *plainCore, p *pace) plainFound

// pace counts one search's steps and tells it when to stop.
type pace struct {
	steps  int64
	next   int64 // the step count at which to look up again
	limit  int64 // steps allowed, zero for any number
	halted bool
	race   *plainRace
}

// plainRace is what the searches of one problem share.
type plainRace struct {
	ctx    context.Context
	finish atomic.Int64  // the fewest steps after which one answered
	slots  chan struct{} // as many may run at once as it has room for
}

const paceStride = 512

// tick counts one step and reports whether to go on.
func (p *pace) tick() bool { return p.spend(1) }

// spend counts n steps and reports whether to go on.
func (p *pace) spend(n int64) bool {
	p.steps += n
	return p.steps < p.next || p.look()
}

// look is the slow part of tick: asks the clock, the other searches and the
// step limit.
func (p *pace) look() bool {
	if p.halted || p.race.ctx.Err() != nil ||
		p.limit > 0 && p.steps >= p.limit ||
		p.steps >= p.race.finish.Load() {
		p.halted = true
		return false
	}
	p.next = p.steps + paceStride
	if p.limit > 0 {
		p.next = min(p.next, p.limit)
	}
	<-p.race.slots
	p.race.slots <- struct{}{}
	return true
}

// runRace runs methods beside each other on c.
func runRace(ctx context.Context, c *plainCore, opt Options, methods []plainMethod) plainFound {
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	r := &plainRace{ctx: ctx, slots: make(chan struct{}, min(workers, len(methods)))}
	r.finish.Store(1<<63 - 1)
	found := make([]plainFound, len(methods))
	steps := make([]int64, len(methods))
	var racing crew.Crew
	for i, m := range methods {
		racing.Go(func() {
			r.slots <- struct{}{}
			defer func() { <-r.slots }()
			p := &pace{limit: opt.Steps, race: r}
			found[i] = m(c, p)
			steps[i] = p.steps
			if found[i].verdict != Undecided {
				r.lower(p.steps)
			}
		})
	}
	racing.Wait()
	best, nodes := -1, int64(0)
	for i := range found {
		nodes += found[i].nodes
		if found[i].verdict != Undecided && (best < 0 || steps[i] < steps[best]) {
			best = i
		}
	}
	if best < 0 {
		return plainFound{nodes: nodes}
	}
	return found[best]
}

// lower makes s the finish if it is earlier than the present one.
func (r *plainRace) lower(s int64) {
	for {
		old := r.finish.Load()
		if s >= old || r.finish.CompareAndSwap(old, s) {
			return
		}
	}
}

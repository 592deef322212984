package pack

import (
	"context"
	"sync"
	"sync/atomic"

	"footplank/pack/crew"
)

// pacer hands a search its steps in portions. A search calls tick before each
// step and returns when tick says so; between portions it waits inside tick, so
// that searches beside each other advance in lock-step whatever the scheduler
// does.
type pacer struct {
	steps, granted int64
	stop           *atomic.Bool
	grants         chan int64
	paused         chan struct{}
}

// tick counts n steps and reports whether the search may go on.
func (pc *pacer) tick(n int64) bool {
	pc.steps += n
	if pc.stop.Load() {
		return false
	}
	for pc.steps >= pc.granted {
		if pc.paused == nil {
			return false
		}
		pc.paused <- struct{}{}
		g, ok := <-pc.grants
		if !ok || pc.stop.Load() {
			return false
		}
		pc.granted += g
	}
	return true
}

// outcome is what one search of several found out.
type outcome struct {
	verdict Verdict
	places  []Place
	reason  *Reason
}

// searcher is one way to decide a problem.
type searcher struct {
	name string
	// share is its portion of steps in one round.
	share int64
	run   func(pc *pacer) outcome
}

// race runs the searches in rounds until one has an answer. When several answer
// in the same round the first of the list wins, so the answer depends on steps
// alone. With one worker the searches of a round run one after the other, with
// the same result.
func race(ctx context.Context, workers int, steps int64, list []searcher) (outcome, int64) {
	r := &racers{list: list, at: make([]racer, len(list)), workers: workers}
	for i := range r.at {
		r.at[i] = racer{pc: pacer{stop: new(atomic.Bool), grants: make(chan int64), paused: make(chan struct{})}}
	}
	release := context.AfterFunc(ctx, func() {
		for i := range r.at {
			r.at[i].pc.stop.Store(true)
		}
	})
	defer release()
	out, total := r.rounds(ctx, steps)
	r.finish()
	if r.thrown != nil {
		panic(r.thrown)
	}
	return out, total
}

type racer struct {
	pc      pacer
	started bool
	over    bool
	result  chan outcome
	out     outcome
}

type racers struct {
	list    []searcher
	at      []racer
	workers int

	mu     sync.Mutex
	thrown any // what a search panicked with, for the caller's goroutine
}

// rounds also returns the steps made. Those of a search that was stopped within
// the last round because another had won do not count: how far it got then is
// up to the scheduler.
func (r *racers) rounds(ctx context.Context, steps int64) (outcome, int64) {
	spent, made := int64(0), int64(0)
	for ctx.Err() == nil && (steps <= 0 || spent < steps) {
		live := 0
		for i := range r.at {
			if !r.at[i].over {
				live++
				spent += r.list[i].share
			}
		}
		if live == 0 {
			break
		}
		before := make([]int64, len(r.at))
		for i := range r.at {
			before[i] = r.at[i].pc.steps
		}
		r.round()
		made = 0
		for i := range r.at {
			made += r.at[i].pc.steps
			if r.at[i].over && r.at[i].out.verdict != Undecided {
				for _, b := range before[i+1:] {
					made += b
				}
				return r.at[i].out, made
			}
		}
	}
	return outcome{}, made
}

// round gives each search its share and waits until all have used it. As soon
// as one has answered, those after it in the list are stopped: they could not
// win any more.
func (r *racers) round() {
	slots := make(chan struct{}, max(1, r.workers))
	var searches crew.Crew
	for i := range r.at {
		if r.at[i].over {
			continue
		}
		slots <- struct{}{}
		searches.Go(func() {
			defer func() { <-slots }()
			r.advance(i)
			if r.at[i].over && r.at[i].out.verdict != Undecided {
				for k := i + 1; k < len(r.at); k++ {
					r.at[k].pc.stop.Store(true)
				}
			}
		})
	}
	searches.Wait()
}

// advance runs search i until it pauses or ends.
func (r *racers) advance(i int) {
	a := &r.at[i]
	if !a.started {
		a.started = true
		a.pc.granted = r.list[i].share
		a.result = make(chan outcome, 1)
		go func() {
			var out outcome
			defer func() {
				if x := recover(); x != nil {
					r.mu.Lock()
					r.thrown = x
					r.mu.Unlock()
				}
				a.result <- out
			}()
			out = r.list[i].run(&a.pc)
		}()
	} else {
		a.pc.grants <- r.list[i].share
	}
	select {
	case <-a.pc.paused:
	case a.out = <-a.result:
		a.over = true
	}
}

// finish ends the searches that still wait and waits for them to be gone.
func (r *racers) finish() {
	for i := range r.at {
		a := &r.at[i]
		if !a.started || a.over {
			continue
		}
		a.pc.stop.Store(true)
		close(a.pc.grants)
		<-a.result
	}
}

package tryout

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/power"
	"footplank/pack"
	"footplank/pack/crew"
)

// Steps of the engine. A round that leaves something undecided is followed by
// one of more steps, as long as the time lasts.
const (
	firstRound   = 20_000
	roundGrowth  = 10
	arrangeSteps = 40_000 // for a plan without places
	placeSteps   = 1500   // for the tried unit's place among those free
	waySteps     = 6000   // for a shorter way of what moves
	reasonSteps  = 8000   // for each of the many questions behind a reason
)

// Options steer a tryout. The zero value is ready to use.
type Options struct {
	Seed int64
	// Steps bounds each search, in steps of the engine, if positive. Without
	// it searches are repeated with more steps until the context ends.
	Steps   int64
	Workers int // 0: one for each processor
	// Lineups, if any are named, are all that is looked at where the plan's
	// line-ups do not go together, or are not known to.
	Lineups []string
	// Brief leaves out growth, which takes longest of what explains a refusal,
	// and findings.
	Brief bool
	// Progress, if set, is told of what has been proved so far, from the
	// goroutine that does the work.
	Progress func(Answer)
}

func (o Options) workers() int {
	if o.Workers > 0 {
		return o.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// Bench is a plan made ready for questions: arranged, its kit known. It answers
// any number of them, from several goroutines too.
type Bench struct {
	plan *layout.Plan
	opt  Options
	// Arranged says in a sentence that units had to be given a place first; ""
	// when all had one.
	Arranged string
	// stands is false when not even the plan without the candidate fits, or is
	// not known to: then nothing has a place to keep.
	stands bool
	// whole is the plan with all its line-ups where the bench has only some of
	// them; else nil.
	whole *layout.Plan

	known *known
}

// Plan returns the plan that questions are asked about, every unit at its place.
func (b *Bench) Plan() *layout.Plan { return b.plan }

// Part reports whether the bench's plan, and that of its answers, has only the
// line-ups of Options.Lineups, because all together do not fit.
func (b *Bench) Part() bool { return b.whole != nil }

// Prepare makes a bench of the plan, which is not changed. Units without a place
// are given one first, those with one staying; a plan whose places collide is
// arranged anew.
func Prepare(ctx context.Context, p *layout.Plan, opt Options) (*Bench, error) {
	b := &Bench{plan: p.Clone(), opt: opt, known: &known{}}
	power.Apply(b.plan)
	m, err := arrange.NewModel(b.plan, nil, arrange.AsTheyStand, arrange.PlugsAsTheyAre, nil)
	if err != nil {
		return nil, err
	}
	now, whole := m.Now(b.plan)
	items, missing, own := m.Items(), 0, 0
	for i, pl := range now {
		switch {
		case pl.Region < 0:
			missing++
		case !items[i].Held:
			own++
		}
	}
	if whole && missing == 0 && sound(ctx, m, now) {
		b.stands = true
		return b, nil
	}
	if whole && missing > 0 && own > 0 && b.complete(ctx, m, now) {
		b.Arranged = fmt.Sprintf("Some had no place and were given one first: %s.", unplaced(items, now))
		return b, nil
	}
	res, err := arrange.Arrange(ctx, b.plan, arrange.Options{Seed: opt.Seed, Steps: arrangeSteps, DecideSteps: 10 * arrangeSteps, Workers: opt.Workers, Explain: arrange.UnitsOnly})
	if err != nil {
		return nil, err
	}
	switch {
	case res.Verdict == pack.Fits:
		b.plan, b.stands = res.Plan, true
		b.Arranged = "The units had no places yet, so they were arranged first."
		if own > 0 {
			b.Arranged = "The places in the plan do not go together, so everything was arranged anew first."
		}
	case opt.Lineups != nil && len(arrange.Only(p, opt.Lineups).Lineups) < len(p.Lineups):
		return b.part(ctx, p, res.Verdict)
	case res.Verdict == pack.Impossible:
		b.Arranged = "The plan does not fit as it is: " + res.Why
	default:
		b.Arranged = "Whether the plan fits as it is was not decided in the time."
	}
	return b, nil
}

// part makes the bench one of only the line-ups that are asked about.
func (b *Bench) part(ctx context.Context, p *layout.Plan, v pack.Verdict) (*Bench, error) {
	opt := b.opt
	opt.Lineups = nil
	c, err := Prepare(ctx, arrange.Only(p, b.opt.Lineups), opt)
	if err != nil {
		return nil, err
	}
	why := "Whether all line-ups of the plan go together was not decided in the time"
	if v == pack.Impossible {
		why = "The line-ups of the plan do not all fit together as it is"
	}
	c.whole, c.Arranged = p, strings.TrimSpace(fmt.Sprintf("%s: only %s was looked at. %s", why, strings.Join(b.opt.Lineups, ", "), c.Arranged))
	return c, nil
}

// asked is the plan that questions have to make sense of.
func (b *Bench) asked() *layout.Plan {
	if b.whole != nil {
		return b.whole
	}
	return b.plan
}

// unplaced names the units without a place.
func unplaced(items []arrange.ModelItem, now []pack.Place) string {
	var names []string
	for i, it := range items {
		if now[i].Region < 0 && !slices.Contains(names, it.Unit.Label) {
			names = append(names, it.Unit.Label)
		}
	}
	return strings.Join(names, ", ")
}

// sound reports whether the places are an arrangement that goes into the case.
func sound(ctx context.Context, m *arrange.Model, now []pack.Place) bool {
	return arranged(ctx, m.Problem(), now) && m.GoesIn(now)
}

// arranged reports whether the places are an arrangement: the engine looks at its
// start first.
func arranged(ctx context.Context, p *pack.Problem, at []pack.Place) bool {
	held := hold(p, at, nil)
	res, err := pack.Solve(ctx, held, pack.Options{Start: at, Steps: 1, Workers: 1})
	return err == nil && res.Verdict == pack.Fits
}

// complete gives places to the units without, moving as few others as it can.
func (b *Bench) complete(ctx context.Context, m *arrange.Model, now []pack.Place) bool {
	rules := rulesFor(m)
	res, err := pack.FewestMovesOf(ctx, m.Problem(), now, rules, pack.Options{Seed: b.opt.Seed, Steps: 10 * firstRound, ImproveSteps: waySteps, Workers: b.opt.Workers})
	if err != nil || res.Verdict != pack.Fits || !m.GoesIn(res.Places) {
		return false
	}
	b.plan, b.stands = m.Placed(res.Places), true
	return true
}

// Try asks one question about a plan. The error is for a question that makes no
// sense; a context that ends leaves what was proved until then.
func Try(ctx context.Context, p *layout.Plan, q Question, opt Options) (*Answer, error) {
	began := time.Now()
	if err := q.Check(p); err != nil {
		return nil, err
	}
	if opt.Lineups == nil {
		opt.Lineups = q.Lineups
	}
	b, err := Prepare(ctx, p, opt)
	if err != nil {
		return nil, err
	}
	a, err := b.Try(ctx, q)
	if a != nil {
		a.Elapsed = time.Since(began)
	}
	return a, err
}

// TryAll asks several questions, as many at a time as there are workers: first for
// all verdicts, then for the reasons of what was refused, so that time that is up
// costs those first. told, if set, is told of each answer when it is whole, one at
// a time.
func (b *Bench) TryAll(ctx context.Context, qs []Question, told func(i int, a *Answer)) ([]*Answer, error) {
	for i := range qs {
		if err := qs[i].Check(b.asked()); err != nil {
			return nil, err
		}
	}
	one := b.alone()
	finders, out := make([]*finder, len(qs)), make([]*Answer, len(qs))
	var telling sync.Mutex
	tell := func(i int) {
		if told != nil {
			telling.Lock()
			defer telling.Unlock()
			told(i, out[i])
		}
	}
	err := b.each(len(qs), func(i int) (err error) {
		if finders[i], err = one.decide(ctx, qs[i]); err != nil {
			return err
		}
		if out[i] = finders[i].a; out[i].Verdict != Impossible {
			tell(i)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = b.each(len(qs), func(i int) error {
		if out[i].Verdict != Impossible {
			return nil
		}
		defer tell(i)
		return finders[i].reasons(ctx)
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// each does n things, as many at a time as there are workers.
func (b *Bench) each(n int, do func(i int) error) error {
	errs := make([]error, n)
	next := make(chan int, n) // all of them, so that nobody waits for a worker
	for i := range n {
		next <- i
	}
	close(next)
	var asking crew.Crew
	for range min(n, b.opt.workers()) {
		asking.Go(func() {
			for i := range next {
				errs[i] = do(i)
			}
		})
	}
	asking.Wait()
	return cmp.Or(errs...)
}

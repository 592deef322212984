package pack

import (
	"context"
	"errors"
	"math"
	"runtime"
	"sort"
	"sync"

	"footplank/pack/crew"
)

// The least container is closed in from both sides at once:
//
//	low ---->            <---- high
//	 |  |  |  .  .  .  .  .  |
//	 refuted one by one      found by beams, by halving the
//	 by bounds and search    interval, with wider and wider beams,
//	                         then by search, one by one
//
// The search from below decides each size; what it finds first is the least.
// The beams give an answer when the time is short. With many rectangles only
// the bounds are worth their while from below, and beams run on all cores.

// maxExact is the number of rectangles up to which the search from below goes
// beyond bounds.
const maxExact = 36

// least searches from below and from above at once.
func (f *family) least(ctx context.Context, opt Options) (Container, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	g := &closing{low: f.next(f.low), stop: stop, share: opt.Steps == 0}
	f.shelves(g)
	exact := len(f.rects) <= maxExact
	beams := 1
	if !exact {
		beams = max(1, min(4, workersOf(opt)))
	}
	var searches crew.Crew
	for i := range beams {
		searches.Go(func() { f.fromAbove(ctx, opt, g, i, exact) })
	}
	f.fromBelow(ctx, opt, g, exact)
	searches.Wait()
	return f.result(g)
}

func workersOf(opt Options) int {
	if opt.Workers > 0 {
		return opt.Workers
	}
	return runtime.GOMAXPROCS(0)
}

func (f *family) result(g *closing) (Container, error) {
	best := g.best()
	if best == nil {
		return Container{Lower: g.low}, ErrNothingFound
	}
	c := Container{Lower: min(g.low, best.size), Proved: best.size <= g.low, Nodes: g.nodes}
	c.W, c.H = f.sides(best.size)
	for _, p := range best.at {
		c.Places = append(c.Places, RectPlace(p))
	}
	return c, nil
}

// closing is the interval in which the answer lies, shared by the searches.
// Where the answer is to be the same each time, the searches from above do
// not look at each other's finds.
type closing struct {
	mu    sync.Mutex
	low   int64 // under this nothing fits
	finds []find
	nodes int64
	stop  context.CancelFunc
	share bool
}

// find is an arrangement: the best of searcher by.
type find struct {
	size int64
	by   int
	at   []plainPos
}

// The searchers from above count from 0.
const (
	byExact = -1
	byShelf = 1 << 20 // anything else is preferred
)

// shelves makes a first, plain arrangement in next to no time: rectangles by
// falling height in rows, each row on top of the one before.
//
//	|+--++-+     |
//	||  || |     |
//	|+--+--+-+-+ |
//	||  |  | | +-|
//	+------------+
func (f *family) shelves(g *closing) {
	width := f.width
	if f.square {
		width = min(maxPlain, max(f.low, 4*ceilSqrt(f.area)/3))
	}
	at := make([]plainPos, len(f.rects))
	order := make([]int, len(f.rects))
	for i, r := range f.rects {
		order[i] = i
		at[i].Turned = r.Turn && r.W < r.H && r.H <= width || r.W > width
	}
	side := func(i int) (w, h int64) {
		if at[i].Turned {
			return f.rects[i].H, f.rects[i].W
		}
		return f.rects[i].W, f.rects[i].H
	}
	sort.SliceStable(order, func(a, b int) bool {
		_, ha := side(order[a])
		_, hb := side(order[b])
		return ha > hb
	})
	var x, y, top int64
	for _, i := range order {
		w, h := side(i)
		if x+w > width {
			x, y = 0, top
		}
		at[i].X, at[i].Y = x, y
		x, top = x+w, max(top, y+h)
	}
	g.found(find{f.sizeOf(at), byShelf, at})
}

// raise tells that nothing under low fits.
func (g *closing) raise(low, nodes int64) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.low = max(g.low, low)
	g.nodes += nodes
	g.shut()
}

// found tells of an arrangement.
func (g *closing) found(new find) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for i := range g.finds {
		if g.finds[i].by == new.by {
			if new.size < g.finds[i].size {
				g.finds[i] = new
			}
			g.shut()
			return
		}
	}
	g.finds = append(g.finds, new)
	g.shut()
}

// best is the smallest find, of several the one of the first searcher.
func (g *closing) best() *find {
	var best *find
	for i := range g.finds {
		f := &g.finds[i]
		if best == nil || f.size < best.size || f.size == best.size && f.by < best.by {
			best = f
		}
	}
	return best
}

func (g *closing) shut() {
	if b := g.best(); b != nil && b.size <= g.low {
		g.stop()
	}
}

// interval is what searcher by is to work on.
func (g *closing) interval(by int) (low, high int64) {
	g.mu.Lock()
	defer g.mu.Unlock()
	low, high = g.low, math.MaxInt64
	for _, f := range g.finds {
		if f.by == by || g.share {
			high = min(high, f.size)
		}
	}
	return low, high
}

// fromBelow decides one size after the other; without exact, by bounds only.
func (f *family) fromBelow(ctx context.Context, opt Options, g *closing, exact bool) {
	for s := f.next(f.low); ctx.Err() == nil; s = f.next(s + 1) {
		var a plainAnswer
		switch {
		case exact:
			a = solvePlain(ctx, f.problem(s), opt)
		default:
			a = quickPlain(f.problem(s))
		}
		switch a.Verdict {
		case Impossible:
			g.raise(f.next(s+1), a.Nodes)
		case Fits:
			g.found(find{s, byExact, a.At})
			return
		default:
			return
		}
		if s >= f.high {
			return
		}
	}
}

// quickPlain answers by bounds alone.
func quickPlain(pp plainProblem) plainAnswer {
	core, fixed := corePlain(pp)
	if fixed != nil {
		return *fixed
	}
	if r := boundPlain(core); r != nil {
		return plainAnswer{Verdict: Impossible, Reason: core.reason(r)}
	}
	return plainAnswer{}
}

// errStopped says that a beam was told to stop.
var errStopped = errors.New("stopped")

// maxRounds is how often beams are widened beside an exact search, which has
// the better use for the processor then.
const maxRounds = 9

// fromAbove halves the interval with beams, then again with wider ones.
func (f *family) fromAbove(ctx context.Context, opt Options, g *closing, by int, exact bool) {
	race := &plainRace{ctx: ctx, slots: make(chan struct{}, 1)}
	race.slots <- struct{}{}
	race.finish.Store(math.MaxInt64)
	p := &pace{limit: opt.Steps, race: race}
	seed := opt.Seed*64 + int64(by)
	if f.beamAt(f.high, 1, seed, p, g, by) != nil {
		return
	}
	for round := int64(1); !exact || round <= maxRounds; round++ {
		lo, hi := g.interval(by)
		hi = min(hi, f.high)
		for lo < hi {
			mid := f.next(lo + (hi-lo)/2)
			if mid >= hi {
				mid = lo
			}
			width := beamWidth(round, len(f.rects))
			if f.beamAt(mid, width, seed+round<<20, p, g, by) != nil {
				return
			}
			_, now := g.interval(by)
			if now <= mid {
				hi = now
			} else {
				lo = f.next(mid + 1)
			}
		}
		if low, high := g.interval(by); high <= low || ctx.Err() != nil {
			return
		}
	}
	f.downward(ctx, opt, g, by)
}

// downward decides the sizes under the best found, the largest first, while
// the search from below is held up by a hard one.
func (f *family) downward(ctx context.Context, opt Options, g *closing, by int) {
	for ctx.Err() == nil {
		low, high := g.interval(by)
		s := f.previous(min(high, f.high))
		if s <= low {
			return // the search from below is there
		}
		a := solvePlain(ctx, f.problem(s), opt)
		switch a.Verdict {
		case Fits:
			g.found(find{s, by, a.At})
		case Impossible:
			g.raise(f.next(s+1), a.Nodes)
			return
		default:
			return
		}
	}
}

// beamAt runs a beam for size s and reports what it found to g.
func (f *family) beamAt(s int64, width int, seed int64, p *pace, g *closing, by int) error {
	pp := f.problem(s)
	core, fixed := corePlain(pp)
	if fixed != nil {
		if !p.tick() {
			return errStopped
		}
		return nil
	}
	b := newBeam(core, p, seed^s<<32)
	pos := b.run(width)
	if pos != nil {
		a := core.answer(plainFound{verdict: Fits, pos: pos})
		g.found(find{f.sizeOf(a.At), by, a.At})
	}
	if p.halted {
		return errStopped
	}
	return nil
}

// sizeOf returns the size of the smallest container that the places fit in.
func (f *family) sizeOf(at []plainPos) int64 {
	var x, y int64
	for i, p := range at {
		w, h := f.rects[i].W, f.rects[i].H
		if p.Turned {
			w, h = h, w
		}
		x, y = max(x, p.X+w), max(y, p.Y+h)
	}
	if f.square {
		return max(x, y)
	}
	return y
}

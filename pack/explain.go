package pack

import (
	"context"
	"math/bits"
	"slices"
)

// ConflictSet is the answer of Conflict.
type ConflictSet struct {
	// Verdict is Impossible when Items is a set that cannot fit, Fits when
	// all items of the problem fit, else Undecided.
	Verdict Verdict
	// Items cannot fit together even without the others; by index, rising.
	Items []int
	// Minimal: without any one of Items the rest fits, proved.
	Minimal bool
	// Smallest: no smaller set of items is refused, proved.
	Smallest bool
	// Reason is why Items cannot fit; its indices are those of the problem.
	Reason *Reason
}

// stepsEach bounds the work on one of many sub-problems when the caller has
// set no bound.
const stepsEach = 60_000

// smallTries bounds how many sets are looked at for a smaller one.
const smallTries = 4000

// Conflict finds a small set of items of p that already cannot fit together.
// It takes items away one by one as long as the rest is still refused, then
// looks for a smaller set altogether. opt.Steps, if set, bounds the work on each
// sub-problem; ctx bounds all of it.
func Conflict(ctx context.Context, p *Problem, opt Options) (ConflictSet, error) {
	if err := p.Validate(); err != nil {
		return ConflictSet{}, err
	}
	opt = quiet(opt)
	c := &conflictFinder{ctx: ctx, p: p, opt: opt}
	whole := decide(ctx, p, opt, opt.Workers)
	if whole.Verdict != Impossible {
		return ConflictSet{Verdict: whole.Verdict}, nil
	}
	c.opt.Steps = opt.Steps
	if c.opt.Steps <= 0 {
		c.opt.Steps = stepsEach
	}
	set := ConflictSet{Verdict: Impossible, Items: whole.Reason.Items, Reason: whole.Reason, Minimal: true}
	if len(set.Items) < len(p.Items) {
		// A bound named fewer items than all; they alone break it.
		if r := c.try(set.Items); r.Verdict != Impossible {
			set.Items = allItems(len(p.Items))
		}
	}
	c.filter(&set)
	c.smaller(&set)
	slices.Sort(set.Items)
	return set, nil
}

// quiet is opt for a search that is part of another.
func quiet(opt Options) Options {
	opt.Objective, opt.Progress, opt.Start = nil, nil, nil
	if opt.Workers <= 0 {
		opt.Workers = 2
	}
	return opt
}

type conflictFinder struct {
	ctx context.Context
	p   *Problem
	opt Options
	// fits lists sets known to fit, as bits of the items, when those are
	// few enough for it: any part of such a set fits too.
	fits []uint64
}

// try decides the problem of some of the items alone.
func (c *conflictFinder) try(items []int) Result {
	key := uint64(0)
	for _, i := range items {
		key |= 1 << uint(i&63)
	}
	small := len(c.p.Items) <= 64
	if small {
		for _, f := range c.fits {
			if key&^f == 0 {
				return Result{Verdict: Fits}
			}
		}
	}
	sub := &Problem{Obstacles: c.p.Obstacles}
	for _, i := range items {
		sub.Items = append(sub.Items, c.p.Items[i])
	}
	r := decide(c.ctx, sub, c.opt, c.opt.Workers)
	if r.Verdict == Fits && small {
		c.fits = append(c.fits, key)
	}
	if r.Reason != nil {
		for k, i := range r.Reason.Items {
			r.Reason.Items[k] = items[i]
		}
	}
	return r
}

// filter drops each item without which the rest is still refused.
func (c *conflictFinder) filter(set *ConflictSet) {
	for _, i := range slices.Clone(set.Items) {
		at := slices.Index(set.Items, i)
		if at < 0 {
			continue
		}
		rest := slices.Delete(slices.Clone(set.Items), at, at+1)
		r := c.try(rest)
		switch r.Verdict {
		case Impossible:
			set.Items, set.Reason = rest, r.Reason
			if n := len(r.Reason.Items); n > 0 && n < len(rest) && c.try(r.Reason.Items).Verdict == Impossible {
				set.Items = slices.Clone(r.Reason.Items)
			}
		case Undecided:
			set.Minimal = false
		}
	}
}

// smaller looks through all sets of fewer items, smallest first, while they are
// not too many.
func (c *conflictFinder) smaller(set *ConflictSet) {
	n, tried, sure := len(c.p.Items), 0, true
	for size := 1; size < len(set.Items); size++ {
		if n > 64 || tried+choose(n, size) > smallTries {
			return
		}
		for _, items := range subsets(n, size) {
			tried++
			r := c.try(items)
			if r.Verdict == Impossible {
				set.Items, set.Reason, set.Minimal, set.Smallest = items, r.Reason, sure, sure
				return
			}
			sure = sure && r.Verdict == Fits
			if c.ctx.Err() != nil {
				return
			}
		}
	}
	set.Smallest = sure
	set.Minimal = set.Minimal || sure
}

// choose is the number of sets of k out of n, up to a bound beyond use.
func choose(n, k int) int {
	v := 1
	for i := 0; i < k; i++ {
		v = v * (n - i) / (i + 1)
		if v > 1<<40 {
			return 1 << 40
		}
	}
	return v
}

// subsets lists the sets of k out of n, n at most 64, in a fixed order.
func subsets(n, k int) [][]int {
	var out [][]int
	for s := uint64(1)<<k - 1; s>>n == 0; {
		var v []int
		for b := s; b != 0; b &= b - 1 {
			v = append(v, bits.TrailingZeros64(b))
		}
		out = append(out, v)
		low := s & -s
		up := s + low
		if up < s {
			break
		}
		s = up | (s^up)>>2/low
	}
	return out
}

// Growth is the answer of LeastGrowth.
type Growth struct {
	// Enough is the least growth known to make room, or -1 if none is.
	Enough int64
	// TooLittle is the largest growth proved not to, or -1 if none is. The
	// answer is exact to the unit asked for when Enough is one unit more,
	// or Enough is zero.
	TooLittle int64
	Places    []Place // an arrangement at Enough
}

// LeastGrowth finds how much a problem must grow to fit, exact to unit and up to
// limit: grow(0) is the problem as it is, grow(g) must allow all that grow of
// less allows. Wider and Deeper are such. A growth that could not be decided in
// time is passed over, so that Enough and TooLittle may lie apart.
func LeastGrowth(ctx context.Context, grow func(int64) *Problem, limit, unit int64, opt Options) (Growth, error) {
	opt = quiet(opt)
	if opt.Steps <= 0 {
		opt.Steps = 10 * stepsEach
	}
	unit = max(1, unit)
	g := Growth{Enough: -1, TooLittle: -1}
	if err := grow(0).Validate(); err != nil {
		return g, err
	}
	lo, hi := int64(-1), max(0, limit)/unit+1 // in units: refused, not known to do
	try := func(k int64) Verdict {
		r := decide(ctx, grow(k*unit), opt, opt.Workers)
		switch r.Verdict {
		case Fits:
			g.Enough, g.Places = k*unit, r.Places
		case Impossible:
			g.TooLittle = max(g.TooLittle, k*unit)
		}
		return r.Verdict
	}
	// Undecided growths lie between what is refused and what fits: first
	// the least that fits is looked for as if they were refused.
	unsure := int64(-1)
	for lo+1 < hi && ctx.Err() == nil {
		mid := lo + (hi-lo)/2
		switch try(mid) {
		case Fits:
			hi = mid
		case Undecided:
			unsure = mid
			lo = mid
		default:
			lo = mid
		}
	}
	if unsure < 0 {
		return g, nil
	}
	// Then the largest that is refused, below those undecided.
	lo, hi = -1, unsure
	if g.TooLittle >= 0 {
		lo = g.TooLittle / unit
	}
	for lo+1 < hi && ctx.Err() == nil {
		mid := lo + (hi-lo)/2
		if decide(ctx, grow(mid*unit), opt, opt.Workers).Verdict == Impossible {
			lo = mid
			g.TooLittle = mid * unit
		} else {
			hi = mid
		}
	}
	return g, nil
}

// Wider returns how p grows in width: each region reaches further right.
func Wider(p *Problem) func(int64) *Problem {
	return func(g int64) *Problem { return grown(p, g, 0) }
}

// Deeper returns how p grows in depth: each region reaches further back.
func Deeper(p *Problem) func(int64) *Problem {
	return func(g int64) *Problem { return grown(p, 0, g) }
}

func grown(p *Problem, x, y int64) *Problem {
	q := &Problem{Items: slices.Clone(p.Items), Obstacles: p.Obstacles}
	for i := range q.Items {
		q.Items[i].Regions = slices.Clone(q.Items[i].Regions)
		for r := range q.Items[i].Regions {
			q.Items[i].Regions[r].X1 += x
			q.Items[i].Regions[r].Y1 += y
		}
	}
	return q
}

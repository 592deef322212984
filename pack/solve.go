package pack

import "context"

// Verdict is what Solve found out.
type Verdict int

const (
	// Undecided: the time, the steps or the caller's patience ran out.
	Undecided Verdict = iota
	// Fits: Result.Places is an arrangement.
	Fits
	// Impossible: proved that there is none; Result.Reason says how.
	Impossible
)

func (v Verdict) String() string {
	switch v {
	case Fits:
		return "fits"
	case Impossible:
		return "impossible"
	}
	return "undecided"
}

// Reason says as data why a problem cannot be solved.
type Reason struct {
	// Rule is a stable code: "no-region" (an item has no place at all),
	// "area", "dual-feasible", "load-x", "load-y", "pair" (two items cannot
	// stand together), "search" (every arrangement was tried).
	Rule string
	// Items are those that the rule used, by index, rising; for "search"
	// all of them.
	Items []int
	// Need and Have are the two sides of a broken bound, in the rule's own
	// measure (square or plain coordinates); zero where it has none.
	Need, Have int64
	// Nodes counts the search nodes behind the proof; zero for a bound.
	Nodes int64
}

// Result is the answer of Solve.
type Result struct {
	Verdict Verdict
	Places  []Place // one an item when Verdict is Fits, else nil
	Cost    int64   // Objective.Cost(Places), zero without an objective
	Optimal bool    // no arrangement costs less, proved
	Reason  *Reason // set when Verdict is Impossible
	Nodes   int64   // search nodes spent, all searches together
}

// Objective scores whole arrangements; less is better. Its methods are called
// from several goroutines at once and must not keep places.
type Objective interface {
	Cost(places []Place) int64
}

// MoveObjective is an Objective that can tell the change in cost of a small
// change without scoring the whole again. Optional, for speed only.
type MoveObjective interface {
	Objective
	// Delta returns Cost after item takes place to, less Cost before.
	Delta(places []Place, item int, to Place) int64
}

// LineObjective is an Objective that knows coordinates at which an item is
// cheap and close beside them dear, which a search finds by luck only. Optional.
type LineObjective interface {
	Objective
	// Lines appends coordinates of the item's origin that are worth trying
	// in that region, the others standing at places: x for axis 0, y for
	// axis 1. They need not lie in the region, nor be free.
	Lines(dst []int64, places []Place, item, region, axis int) []int64
}

// BoundObjective is an Objective that can bound from below what any
// completion of a partial arrangement costs. Optional; lets improvement end
// in a proof.
type BoundObjective interface {
	Objective
	// Bound is at most the Cost of each arrangement that agrees with places
	// on the items that are set.
	Bound(places []Place, set []bool) int64
}

// Progress is a snapshot of running work.
type Progress struct {
	Verdict Verdict // Fits once an arrangement is known
	Places  []Place // the best so far, a copy; nil before the first
	Cost    int64   // its cost
	Nodes   int64
}

// Options steer a search. The zero value is ready to use.
type Options struct {
	// Seed starts the random choices of the local search. With the same
	// problem, Seed and Steps the answer is the same.
	Seed int64
	// Steps bounds the work, in steps of the search, if positive. A search
	// without a bound on its steps ends with its context.
	Steps int64
	// ImproveSteps bounds the work after the first arrangement, if
	// positive; zero means as long as the context lasts.
	ImproveSteps int64
	// Workers is how many searches may run beside each other; zero means
	// as many as there are processors.
	Workers int
	// Complete leaves the repairing search out: for small problems, and where
	// a refusal is likelier than an arrangement.
	Complete bool
	// Objective, if set, is improved once something fits.
	Objective Objective
	// Start, if set, is an arrangement to begin from, one place an item. It
	// need not be free of collisions.
	Start []Place
	// Progress, if set, is called from one goroutine at a time, seldom
	// enough to draw from.
	Progress func(Progress)
}

// Solve decides p and, given an objective, improves on the first arrangement
// until ctx ends, the steps are used up or nothing better exists. It returns
// an error only for a problem that fails Validate; a cancelled search answers
// with the best it has, or Undecided.
func Solve(ctx context.Context, p *Problem, opt Options) (Result, error) {
	if err := p.Validate(); err != nil {
		return Result{}, err
	}
	return solve(ctx, p, opt)
}

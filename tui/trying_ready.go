package tui

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/layout/tryout"
)

// prepared is what questions are asked of.
type prepared struct {
	bench bench
	told  string // what had to be done first
	// narrow: it serves the line-ups it was made for alone, because all
	// together they do not go, or are not known to. The line-ups are lines,
	// nil for all.
	narrow bool
	lines  []string
	// part: its answers are of some of the plan's line-ups; no plan of all of
	// them can be taken.
	part bool
}

// serves reports whether questions about these line-ups can be asked of it.
func (r *prepared) serves(lineups []string) bool { return !r.narrow || slices.Equal(r.lines, lineups) }

// preparer makes a bench of a plan, of the line-ups named where all together do
// not go.
type preparer func(ctx context.Context, p *layout.Plan, lineups []string, tell func(tryout.Answer)) (prepared, error)

func prepareBench(ctx context.Context, p *layout.Plan, lineups []string, tell func(tryout.Answer)) (prepared, error) {
	return preparedWith(ctx, p, tryout.Options{Seed: 1, Lineups: lineups, Progress: tell})
}

func preparedWith(ctx context.Context, p *layout.Plan, opt tryout.Options) (prepared, error) {
	b, err := tryout.Prepare(ctx, p, opt)
	if err != nil {
		return prepared{}, err
	}
	r := prepared{bench: b, told: b.Arranged, narrow: b.Part() || !b.Stands(), lines: opt.Lineups, part: b.Part()}
	if r.part {
		r.bench = partBench{b, b.Whole(b.Plan())}
	}
	return r, nil
}

// partBench answers about some line-ups with plans that have the others too, as
// the screen wants them.
type partBench struct {
	*tryout.Bench
	plan *layout.Plan
}

func (b partBench) Plan() *layout.Plan { return b.plan }

func (b partBench) Try(ctx context.Context, q tryout.Question) (*tryout.Answer, error) {
	a, err := b.Bench.Try(ctx, q)
	if a != nil {
		a.Plan = b.Whole(a.Plan)
	}
	return a, err
}

// wanted are the line-ups that questions are about, nil for all.
func (t *trial) wanted() []string {
	if t.every {
		return nil
	}
	return []string{t.lineup}
}

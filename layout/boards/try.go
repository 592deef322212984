package boards

import (
	"context"
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// most bounds the places of slots that are tried on a board.
const most = 8

// seeds bounds how often a board with a fault is arranged anew.
const seeds = 3

// try finds out whether the plan fits on a board, and if so how well: with the
// risers where the rule puts them, or else where they keep their distance to one
// of the sides.
func (t *trial) try(ctx context.Context, b *Board) {
	var tried []*layout.Plan
	goes := No
	for _, a := range []anchor{share, left, right} {
		p, assumed := put(t.p, &b.Candidate, t.opt.Mounting, a)
		if slices.ContainsFunc(tried, func(q *layout.Plan) bool { return sameRisers(p, q) }) {
			continue
		}
		tried = append(tried, p)
		x := Board{Candidate: b.Candidate, Assumed: assumed}
		t.on(ctx, &x, p)
		if x.Case != No {
			goes = x.Case
		}
		switch {
		case len(tried) == 1, x.better(b):
			*b = x
		case b.AnySlots && x.Verdict == pack.Impossible && !x.AnySlots:
			*b = x // it comes nearer, and so says more
		}
		if b.Works || ctx.Err() != nil {
			break
		}
	}
	switch {
	case b.fits() && b.Case == No:
		b.Case = goes
	case b.Verdict == pack.Impossible && len(tried) > 1:
		b.Why += " Nor does it fit with the riser at its old distance to either side."
	}
}

// better reports whether the answer x says more for a board than y does.
func (x *Board) better(y *Board) bool {
	rank := func(b *Board) int {
		switch {
		case b.Works:
			return 4
		case b.fits() && len(b.Faults) == 0:
			return 3
		case b.fits():
			return 2
		case b.Verdict == pack.Undecided:
			return 1
		}
		return 0
	}
	return rank(x) > rank(y)
}

func sameRisers(p, q *layout.Plan) bool {
	return slices.EqualFunc(p.Board.Risers, q.Board.Risers, func(a, b layout.Riser) bool { return a.At == b.At })
}

// on finds out whether the plan fits on the board that it has been put on.
func (t *trial) on(ctx context.Context, b *Board, p *layout.Plan) {
	if why, units := held(p); why != "" {
		b.Verdict, b.Why, b.Units, b.AnySlots = pack.Impossible, why, units, true
		return
	}
	assumed := slices.Clone(b.Assumed)
	bare := p
	if p.Board.Case != nil {
		bare = p.Clone()
		bare.Board.Case = nil
	}
	if res := t.arrange(ctx, loose(bare), true, t.opt.Seed); res.Verdict == pack.Impossible {
		t.explain(ctx, b, loose(bare), res)
		b.AnySlots = true
		return
	}
	t.anywhere(ctx, b, bare)
	if !b.fits() || p.Board.Case == nil {
		return
	}
	in := Board{Candidate: b.Candidate, Assumed: assumed}
	if in.Case = t.intoCase(ctx, &in, p); in.Case == Yes {
		*b = in
		return
	}
	b.Case, b.Works = in.Case, false
}

// intoCase looks for an arrangement that goes into the plan's case.
func (t *trial) intoCase(ctx context.Context, b *Board, p *layout.Plan) Goes {
	in := p.Board.Case.Inside
	if p.Board.W > in.W || p.Board.D > in.D || t.arrange(ctx, loose(p), true, t.opt.Seed).Verdict == pack.Impossible {
		return No
	}
	if t.anywhere(ctx, b, p); b.fits() {
		return Yes
	}
	return NotSo // another place of a slot may do, so this is no proof
}

// anywhere tries the places of the slots one after the other, and arranges the
// first that fits.
func (t *trial) anywhere(ctx context.Context, b *Board, p *layout.Plan) {
	open := false
	var first arrange.Result
	ways := variants(p)
	failed := ways[0]
	for i, q := range ways {
		res := t.arrange(ctx, q, false, t.opt.Seed)
		switch {
		case res.Verdict == pack.Fits:
			b.Verdict, b.Why, b.Units = pack.Fits, "", nil
			if i > 0 {
				b.Assumed = append(slices.Clone(b.Assumed), moved(p, q)...)
			}
			t.settle(ctx, b, q, res)
			return
		case res.Verdict == pack.Undecided:
			open = true
		case first.Verdict == pack.Undecided:
			first, failed = res, q
		}
		if ctx.Err() != nil {
			open = true
			break
		}
	}
	if open {
		b.Verdict = pack.Undecided
		return
	}
	t.explain(ctx, b, failed, first)
	if len(ways) > 1 {
		b.Why += fmt.Sprintf(" The same goes for each of the %d ways to put the slots that were tried.", len(ways))
	}
}

// explain says why the plan does not fit: who is to blame, as far as that is
// found in the time.
func (t *trial) explain(ctx context.Context, b *Board, p *layout.Plan, res arrange.Result) {
	b.Verdict, b.Why, b.Units = pack.Impossible, res.Why, res.Units
	again, err := arrange.Arrange(ctx, p, arrange.Options{Seed: t.opt.Seed, Workers: 1, FirstFit: true, Explain: arrange.UnitsOnly, DecideSteps: t.opt.Steps})
	if err == nil && again.Verdict == pack.Impossible {
		b.Why, b.Units = again.Why, again.Units
	}
}

// arrange asks the arranger, for a first fit only or for short cables too.
func (t *trial) arrange(ctx context.Context, p *layout.Plan, first bool, seed int64) arrange.Result {
	res, err := arrange.Arrange(ctx, p, arrange.Options{Seed: seed, Workers: 1, FirstFit: first, Explain: arrange.ProofOnly,
		DecideSteps: t.opt.Steps, Steps: t.opt.ImproveSteps})
	if err != nil {
		panic("boards: " + err.Error()) // the line-ups are the plan's own, and few enough
	}
	return res
}

// settle measures an arrangement; one with a fault is tried again with other
// seeds.
func (t *trial) settle(ctx context.Context, b *Board, p *layout.Plan, res arrange.Result) {
	t.measure(b, res.Plan)
	for n := int64(1); n < seeds && len(b.Faults) > 0 && ctx.Err() == nil; n++ {
		again := t.arrange(ctx, p, false, t.opt.Seed+n)
		if again.Verdict != pack.Fits {
			break
		}
		other := *b
		if t.measure(&other, again.Plan); len(other.Faults) < len(b.Faults) {
			*b = other
		}
	}
	b.Works = len(b.Faults) == 0
}

// held looks at the units that keep their places: whether the board carries them
// there. The arranger takes such places as given.
func held(p *layout.Plan) (why string, units []string) {
	limit := p.Board.Rect().Grow(p.Board.Overhang)
	plugs := p.Board.Rect().Grow(p.Board.PlugRoom)
	for i := range p.Lineups {
		placed, _ := p.Standings(&p.Lineups[i])
		for k := range placed {
			s := &placed[k]
			if !s.Unit.Pinned {
				continue
			}
			on, _ := p.Board.Surface(s.Place.On)
			if !on.Rests(s.Unit, s.Place) || !limit.Contains(s.Unit.Base(s.Place)) {
				return fmt.Sprintf("%s keeps its place, and there it does not rest on this board.", s.Unit.Label), []string{s.Unit.ID}
			}
			for _, x := range s.Boxes {
				if x.Part == layout.PlugPart && !plugs.Contains(x.Box.Rect()) {
					return fmt.Sprintf("%s keeps its place, and there its plug in %q stands out past the edge of this board by more than there is room.", s.Unit.Label, x.Jack), []string{s.Unit.ID}
				}
			}
		}
	}
	return "", nil
}

package arrange

import (
	"cmp"
	"context"
	"math/bits"
	"slices"

	"footplank/layout"
	"footplank/pack"
)

// LineupSets says which line-ups go together on one board.
type LineupSets struct {
	// Fit lists the sets of line-ups that fit together and would not with any
	// other, the largest first.
	Fit []LineupSet
	// Clash lists the sets that do not fit together and would without any one
	// of them: single line-ups, pairs, more; the smallest first.
	Clash []LineupSet
	// Whole: nothing was left undecided, so these are all there are.
	Whole bool
}

// LineupSet is a set of line-ups, in the plan's order.
type LineupSet struct {
	Lineups []string
	// Proved: of a set that fits, that no line-up can be added; of a clash,
	// that it is one.
	Proved bool
	Units  []string // of a clash, those that collide
	Why    string
}

// Limits of the work, in steps of the engine for each set, and in sets.
const (
	setSteps = 200_000
	mostSets = 400
)

// sorter sorts out which line-ups go together. Sets of them are bits.
type sorter struct {
	ctx   context.Context
	p     *layout.Plan
	names []string
	opt   Options
	fit   []uint64 // known to fit; so do their parts
	clash []uint64 // smallest known not to, or not known to; so are those with more
	sure  map[uint64]bool
	open  map[uint64]bool // sets that were not decided
	why   map[uint64]refusal
	tried int
}

// refusal is a problem with the reason why it cannot be solved.
type refusal struct {
	pr     *problem
	reason *pack.Reason
}

// SortLineups finds the largest sets of line-ups that fit together, and the
// smallest that do not, among those named, all if none is. It looks for a set
// that nothing known so far decides: one that fits is made larger as long as it
// still does, one that does not is made smaller as long as it still does not.
//
//	known    barn+pit fit, pit+solo do not
//	next     barn+solo: neither in the one nor over the other
func SortLineups(ctx context.Context, p *layout.Plan, names []string, opt Options) (*LineupSets, error) {
	chosen, err := choose(p, names)
	if err != nil {
		return nil, err
	}
	s := &sorter{ctx: ctx, p: p, opt: opt, sure: map[uint64]bool{}, open: map[uint64]bool{}, why: map[uint64]refusal{}}
	for _, l := range chosen {
		s.names = append(s.names, l.Name)
	}
	all := ^uint64(0) >> (64 - len(s.names))
	done := false
	for s.tried < mostSets && ctx.Err() == nil {
		set, ok := s.next(all, 0)
		if !ok {
			done = true
			break
		}
		v, err := s.try(set)
		if err != nil {
			return nil, err
		}
		if v == pack.Fits {
			err = s.enlarge(set, all)
		} else {
			err = s.lessen(set)
		}
		if err != nil {
			return nil, err
		}
	}
	return s.sorted(all, done)
}

// next finds a set that is part of none that fits and has no clash in it: from
// each clash something must go.
func (s *sorter) next(set uint64, from int) (uint64, bool) {
	for _, f := range s.fit {
		if set&^f == 0 {
			return 0, false
		}
	}
	for k := from; k < len(s.clash); k++ {
		c := s.clash[k]
		if c&^set != 0 {
			continue
		}
		for b := c; b != 0; b &= b - 1 {
			if found, ok := s.next(set&^(b&-b), k+1); ok {
				return found, true
			}
		}
		return 0, false
	}
	return set, true
}

// try decides a set.
func (s *sorter) try(set uint64) (pack.Verdict, error) {
	if set == 0 {
		return pack.Fits, nil
	}
	for _, f := range s.fit {
		if set&^f == 0 {
			return pack.Fits, nil
		}
	}
	for _, c := range s.clash {
		if c&^set == 0 && s.sure[c] {
			return pack.Impossible, nil
		}
	}
	if s.open[set] {
		return pack.Undecided, nil
	}
	s.tried++
	res, pr, err := s.decide(set)
	if err != nil {
		return pack.Undecided, err
	}
	switch res.Verdict {
	case pack.Fits:
		s.fit = append(s.fit, set)
	case pack.Undecided:
		s.open[set] = true
	default:
		s.why[set] = refusal{pr, res.Reason}
	}
	return res.Verdict, nil
}

func (s *sorter) decide(set uint64) (pack.Result, *problem, error) {
	p, lineups := s.plan(set)
	opt := s.opt
	opt.DecideSteps = cmp.Or(opt.DecideSteps, setSteps)
	return decide(s.ctx, p, lineups, opt)
}

// plan returns the plan of only those line-ups; where others were not asked
// about, what they share with these stays where it is.
func (s *sorter) plan(set uint64) (*layout.Plan, []*layout.Lineup) {
	names := s.named(set)
	p := s.p
	if len(s.names) == len(p.Lineups) {
		p = Only(p, names)
	}
	var out []*layout.Lineup
	for _, n := range names {
		out = append(out, p.LineupNamed(n))
	}
	return p, out
}

func (s *sorter) named(set uint64) []string {
	var out []string
	for b := set; b != 0; b &= b - 1 {
		out = append(out, s.names[bits.TrailingZeros64(b)])
	}
	return out
}

// enlarge adds line-ups to a set that fits as long as it still does.
func (s *sorter) enlarge(set, all uint64) error {
	for b := all &^ set; b != 0; b &= b - 1 {
		v, err := s.try(set | b&-b)
		if err != nil {
			return err
		}
		if v == pack.Fits {
			set |= b & -b
		}
	}
	s.fit = slices.DeleteFunc(s.fit, func(f uint64) bool { return f != set && f&^set == 0 })
	if !slices.Contains(s.fit, set) {
		s.fit = append(s.fit, set)
	}
	return nil
}

// lessen takes line-ups from a set that is not known to fit as long as it still
// is not.
func (s *sorter) lessen(set uint64) error {
	for b := set; b != 0; b &= b - 1 {
		v, err := s.try(set &^ (b & -b))
		if err != nil {
			return err
		}
		if v != pack.Fits {
			set &^= b & -b
		}
	}
	s.clash = append(s.clash, set)
	s.sure[set] = !s.open[set]
	return nil
}

// sorted makes the answer.
func (s *sorter) sorted(all uint64, done bool) (*LineupSets, error) {
	out := &LineupSets{Whole: done}
	order := func(largest bool) func(a, b uint64) int {
		return func(a, b uint64) int {
			d := cmp.Compare(bits.OnesCount64(a), bits.OnesCount64(b))
			if largest {
				d = -d
			}
			// Of two the one with the plan's first line-ups comes first.
			return cmp.Or(d, cmp.Compare(bits.Reverse64(b), bits.Reverse64(a)))
		}
	}
	// What was found to fit on the way to a clash may be part of another set.
	s.fit = slices.DeleteFunc(slices.Clone(s.fit), func(f uint64) bool {
		return slices.ContainsFunc(s.fit, func(g uint64) bool { return g != f && f&^g == 0 })
	})
	slices.SortFunc(s.fit, order(true))
	slices.SortFunc(s.clash, order(false))
	for _, set := range s.clash {
		c := LineupSet{Lineups: s.named(set), Proved: s.sure[set]}
		out.Whole = out.Whole && c.Proved
		if c.Proved {
			if err := s.blame(set, &c); err != nil {
				return nil, err
			}
		}
		out.Clash = append(out.Clash, c)
	}
	for _, set := range s.fit {
		if set == 0 {
			continue // not even one line-up by itself
		}
		f := LineupSet{Lineups: s.named(set), Proved: true}
		for b := all &^ set; b != 0; b &= b - 1 {
			f.Proved = f.Proved && slices.ContainsFunc(s.clash, func(c uint64) bool { return s.sure[c] && c&^(set|b&-b) == 0 })
		}
		out.Fit = append(out.Fit, f)
	}
	return out, nil
}

// blame finds the units that collide.
func (s *sorter) blame(set uint64, c *LineupSet) error {
	w, ok := s.why[set]
	if !ok {
		return nil
	}
	r, err := w.pr.blame(s.ctx, w.reason, s.opt)
	if err != nil {
		return err
	}
	c.Why, c.Units = w.pr.why(r)
	return nil
}

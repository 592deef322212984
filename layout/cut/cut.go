package cut

import (
	"context"
	"fmt"
	"slices"

	"footplank/layout"
)

// Piece is a length that is wanted a number of times.
type Piece struct {
	Length layout.Length
	Count  int
}

// Bar is one bar of the stock with the pieces cut from it, longest first.
type Bar struct {
	Cuts  []layout.Length
	Waste layout.Length // what is left over
}

// Result is a cutting list.
type Result struct {
	Bars []Bar // the fullest first
	// Proved is set when no list has fewer bars.
	Proved bool
	// Bound is a number of bars that no list can be below. It is len(Bars)
	// when Proved.
	Bound int
}

// Steps is how much work Cut does at most: for what a player cuts it is never
// reached; where it is, about a second has gone by.
const Steps = 20_000_000

// maxPieces is the most pieces that Cut takes.
const maxPieces = 10_000

// Cut returns a list with the fewest bars of length stock from which the pieces
// can be cut, or the best found when the context ends or the steps run out. It
// errs on lengths or counts that are not positive, more than 10,000 pieces, and
// a piece longer than the stock.
func Cut(ctx context.Context, stock layout.Length, pieces []Piece) (Result, error) {
	return Within(ctx, stock, pieces, Steps)
}

// Within is Cut with a number of steps of one's own; a step is about a piece
// looked at.
func Within(ctx context.Context, stock layout.Length, pieces []Piece, steps int) (Result, error) {
	in, err := newInstance(stock, pieces)
	if err != nil {
		return Result{}, err
	}
	s := &solver{instance: in, ctx: ctx, left: steps}
	s.solve()
	return s.result(stock), nil
}

// instance is the pieces by kind, the longest first, in the largest measure that
// keeps all lengths whole.
type instance struct {
	unit  layout.Length // one of that measure
	room  int64         // of a bar
	size  []int64       // falling, all different
	count []int
}

func newInstance(stock layout.Length, pieces []Piece) (*instance, error) {
	if stock <= 0 {
		return nil, fmt.Errorf("stock of %s: want a length above 0", stock)
	}
	total := 0
	unit := stock
	kinds := map[layout.Length]int{}
	for _, p := range pieces {
		switch {
		case p.Length <= 0 || p.Count <= 0:
			return nil, fmt.Errorf("%d pieces of %s: want a length and a count above 0", p.Count, p.Length)
		case p.Length > stock:
			return nil, fmt.Errorf("a piece of %s is longer than the stock of %s: want longer stock", p.Length, stock)
		case p.Count > maxPieces-total:
			return nil, fmt.Errorf("more than %d pieces", maxPieces)
		}
		total += p.Count
		kinds[p.Length] += p.Count
		unit = gcd(unit, p.Length)
	}
	in := &instance{unit: unit, room: int64(stock / unit)}
	for l := range kinds {
		in.size = append(in.size, int64(l/unit))
	}
	slices.Sort(in.size)
	slices.Reverse(in.size)
	for _, n := range in.size {
		in.count = append(in.count, kinds[layout.Length(n)*unit])
	}
	return in, nil
}

func gcd(a, b layout.Length) layout.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// pattern is what is cut from one bar: how many of each kind.
type pattern []int

// fill returns what the pattern takes of a bar.
func (in *instance) fill(p pattern) int64 {
	var sum int64
	for i, n := range p {
		sum += int64(n) * in.size[i]
	}
	return sum
}

// solver holds the best list so far and the bound.
type solver struct {
	*instance
	ctx   context.Context
	left  int // steps
	ticks int
	best  []pattern
	bound int
}

// spend takes steps and reports whether there were any left.
func (s *solver) spend(n int) bool {
	s.left -= n
	if s.ticks++; s.ticks&255 == 0 && s.ctx.Err() != nil {
		s.left = 0
	}
	return s.left > 0
}

// quickShare of the steps goes to a first search before the linear program.
const quickShare = 40

func (s *solver) solve() {
	s.best = s.bestFit()
	s.bound = s.lowerBound()
	if s.open() {
		s.keep(s.repair(s.best))
	}
	if s.open() {
		s.complete(s.bound, s.left/quickShare)
	}
	if s.open() {
		s.program()
	}
	for s.open() && s.left > 0 && s.ctx.Err() == nil {
		if !s.complete(s.bound, s.left) {
			break
		}
	}
}

func (s *solver) open() bool { return s.bound < len(s.best) }

// keep takes a list if it is better than the best.
func (s *solver) keep(list []pattern) {
	if len(list) < len(s.best) {
		s.best = list
	}
}

func (s *solver) result(stock layout.Length) Result {
	r := Result{Bound: s.bound, Proved: s.bound == len(s.best), Bars: make([]Bar, 0, len(s.best))}
	for _, p := range s.best {
		b := Bar{Waste: stock}
		for i, n := range p {
			for ; n > 0; n-- {
				l := layout.Length(s.size[i]) * s.unit
				b.Cuts = append(b.Cuts, l)
				b.Waste -= l
			}
		}
		r.Bars = append(r.Bars, b)
	}
	slices.SortStableFunc(r.Bars, func(a, b Bar) int {
		if a.Waste != b.Waste {
			return int(min(max(a.Waste-b.Waste, -1), 1))
		}
		return slices.Compare(b.Cuts, a.Cuts)
	})
	return r
}

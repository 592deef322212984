package boards

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"time"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
	"footplank/pack/crew"
)

// Usual measures of work for one search, in steps of the engine: our own choice.
const (
	usualSteps   = 60_000
	usualImprove = 2500
	// For a few boards there is time for twice as much.
	fewBoards = 6
)

// Sizes returns candidates of those sizes, cut from the plan's own board.
func Sizes(sizes ...layout.Size) []Candidate {
	var out []Candidate
	for _, s := range sizes {
		out = append(out, Candidate{W: s.W, D: s.D})
	}
	return out
}

// Own returns the plan's own board as a candidate.
func Own(p *layout.Plan) Candidate {
	c := Candidate{Name: "yours", W: p.Board.W, D: p.Board.D, Own: true}
	if price, ok := p.Prices["board"]; ok {
		c.Price = &price
	}
	return c
}

// OfCatalog returns the boards of the catalog as candidates.
func OfCatalog(forms *catalog.Catalog) []Candidate {
	var out []Candidate
	for _, f := range forms.Boards() {
		b := f.Board
		out = append(out, Candidate{Name: f.Name, W: b.W, D: b.D, Board: &b, Price: f.Price})
	}
	return out
}

// Compare tries the plan on each board. The plan is not changed.
//
// When the context ends or the time is up, what was proved stays and the rest is
// Undecided. It returns an error for a line-up that the plan does not have and
// for a board without a size.
func Compare(ctx context.Context, p *layout.Plan, candidates []Candidate, opt Options) (*Result, error) {
	for i := range candidates {
		if err := candidates[i].check(p.LengthUnit); err != nil {
			return nil, err
		}
	}
	t, err := newTrial(p, opt)
	if err != nil {
		return nil, err
	}
	if opt.ImproveSteps == 0 && len(candidates) <= fewBoards {
		t.opt.ImproveSteps *= 2
	}
	ctx, cancel := opt.within(ctx)
	defer cancel()
	r := t.result()
	for _, c := range candidates {
		r.Boards = append(r.Boards, &Board{Candidate: c})
	}
	r.sort()
	var mu sync.Mutex
	done := 0
	next := make(chan *Board, len(r.Boards)) // all of them, so that nobody waits for a worker
	for _, b := range r.Boards {
		next <- b
	}
	close(next)
	tell := func(b *Board) {
		mu.Lock()
		defer mu.Unlock()
		if done++; opt.Progress != nil {
			opt.Progress(done, len(r.Boards), b)
		}
	}
	var trying crew.Crew
	for range opt.workers(len(r.Boards)) {
		trying.Go(func() {
			for b := range next {
				t.try(ctx, b)
				tell(b)
			}
		})
	}
	trying.Wait()
	r.Stopped = ctx.Err() != nil && r.Undecided()
	r.mark()
	return r, nil
}

// check refuses a board that no plan could be put on.
func (c *Candidate) check(u layout.LengthUnit) error {
	const least, most = 50 * layout.Millimetre, 3000 * layout.Millimetre
	if min(c.W, c.D) < least || max(c.W, c.D) > most {
		return fmt.Errorf("board %s: want from %s to %s each way", c.size(u), least.Format(unit(u)), most.Format(unit(u)))
	}
	return nil
}

func unit(u layout.LengthUnit) layout.LengthUnit { return cmp.Or(u, layout.Millimetres) }

// size names a board by its size: "560 x 330 mm".
func (c *Candidate) size(u layout.LengthUnit) string {
	u = unit(u)
	return c.W.Number(u) + " x " + c.D.Number(u) + " " + string(u)
}

func (o *Options) within(ctx context.Context) (context.Context, context.CancelFunc) {
	if o.Seconds <= 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, time.Duration(o.Seconds*float64(time.Second)))
}

func (o *Options) workers(boards int) int {
	n := o.Workers
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return max(1, min(n, boards))
}

// trial is a plan being tried on boards.
type trial struct {
	p    *layout.Plan
	opt  Options
	same map[string]bool // texts of what is at fault on any board
}

func newTrial(p *layout.Plan, opt Options) (*trial, error) {
	for _, n := range opt.Lineups {
		if p.LineupNamed(n) == nil {
			var has []string
			for i := range p.Lineups {
				has = append(has, p.Lineups[i].Name)
			}
			if near := catalog.Nearest(n, has); near != "" {
				return nil, fmt.Errorf("no line-up %q in the plan: did you mean %q?", n, near)
			}
			return nil, fmt.Errorf("no line-up %q in the plan: it has %q", n, has)
		}
	}
	if len(p.Lineups) > arrange.MaxLineups {
		return nil, fmt.Errorf("%d line-ups: at most %d can be arranged together", len(p.Lineups), arrange.MaxLineups)
	}
	if len(opt.Lineups) > 0 {
		p = arrange.Only(p, opt.Lineups)
	}
	if opt.WithoutCase {
		p = p.Clone()
		p.Board.Case = nil
	}
	opt.Mounting = cmp.Or(opt.Mounting, FreeFixed)
	opt.Steps, opt.ImproveSteps = cmp.Or(opt.Steps, usualSteps), cmp.Or(opt.ImproveSteps, usualImprove)
	return &trial{p: p, opt: opt}, nil
}

// result is the empty result with what holds for all boards.
func (t *trial) result() *Result {
	r := &Result{Mounting: t.opt.Mounting, Same: t.anyBoard()}
	switch t.opt.Mounting {
	case KeepFixed:
		r.Rules = append(r.Rules, "Fixed and pinned units keep their places, carried over by the rule below; the others may move.")
	case FreeAll:
		r.Rules = append(r.Rules, "All units may move, pinned ones too.")
	default:
		r.Rules = append(r.Rules, "All units may move but the pinned ones, which keep their places, carried over by the rule below.")
	}
	b := &t.p.Board
	r.Rules = append(r.Rules, "What touches an edge of your board goes on touching it, what reaches from edge to edge goes on reaching, and what lies between keeps its share of the room on both sides. What is larger than the board is cut.")
	if len(b.Risers) > 0 {
		r.Rules = append(r.Rules, "A riser takes along what is on it and below it. Where that does not do, it is tried at its old distance to either side.")
	}
	if len(t.p.Slots) > 0 {
		r.Rules = append(r.Rules, "Slots keep their size. Where that does not do, they are tried against the edges.")
	}
	if b.Kind == layout.Rails {
		r.Rules = append(r.Rules, "Your rails are cut or lengthened, and there are as many as the depth holds at the same spacing.")
	}
	if b.Mass > 0 {
		r.Rules = append(r.Rules, "Boards of other sizes weigh what yours does, in proportion to the surface of the deck or the rails.")
	}
	return r
}

func (r *Result) sort() {
	slices.SortStableFunc(r.Boards, func(a, b *Board) int {
		return cmp.Or(cmp.Compare(a.W*a.D, b.W*b.D), cmp.Compare(a.W, b.W), cmp.Compare(a.Name, b.Name))
	})
}

// mark finds the smallest board that works.
func (r *Result) mark() {
	for _, b := range r.Boards {
		if b.Works {
			b.Smallest = true
			return
		}
	}
}

// fits reports whether the verdict is that all line-ups fit.
func (b *Board) fits() bool { return b.Verdict == pack.Fits }

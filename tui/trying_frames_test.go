package tui

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/layout/book"
	"footplank/layout/paper"
	"footplank/layout/tryout"
	"footplank/pack"
)

// tryStates are what a player may see while something is tried, with the keys that
// lead there.
var tryStates = []struct {
	name string
	keys []string
}{
	{"a unit of the shelf fits", []string{"l", "y"}},
	{"not tried yet", []string{"l", "y", "hold", "down"}},
	{"typing what to try", []string{"y", "/", "d", "r", "i", "v"}},
	{"sizes that do not fit", []string{"y", "/", "3", "0", "0", "x", "1", "2", "0", "x", "5", "0", "enter"}},
	{"nothing like that", []string{"y", "/", "q", "q", "enter"}},
	{"instead of a unit", []string{"/", "e", "c", "h", "o", "enter", "y", "/", "l", "a", "r", "g", "e", "-", "t", "enter"}},
	{"others move", []string{"l", "y", "down", "down"}},
	{"table of what was tried", []string{"l", "y", "down", "down", "down", "w"}},
	{"in full", []string{"l", "y", "i"}},
	{"boards", []string{"b"}},
	{"boards being tried", []string{"hold", "b"}},
	{"a board that is too small", []string{"b", "up", "up", "up"}},
	{"sizes of boards being typed", []string{"b", "2", "4", "8", "0", "x"}},
	{"table of boards", []string{"b", "w"}},
	{"about a board", []string{"b", "i"}},
	{"changeover card", []string{"l", "g"}},
	{"which sheet to write", []string{"W"}},
	{"a form that the sheet does not have", []string{"W", "right", "right", "down", "right", "right", "enter"}},
	{"a sheet was written", []string{"W", "enter"}},
	{"keys while trying", []string{"l", "y", "?", "w", "h", "i", "l", "e", "space", "t", "r", "y"}},
}

func TestTryingFrames(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		for _, theme := range themes[1:] {
			t.Run(fmt.Sprintf("%dx%d-%s", size[0], size[1], theme.name), func(t *testing.T) {
				var b strings.Builder
				for _, s := range tryStates {
					opt := theme.opt
					opt.compare, opt.prepare = rememberedBoards, rememberedBench
					opt.print = noSheet
					p := settledPlayer(t, opt, size[0], size[1])
					for _, k := range s.keys {
						if k == "hold" {
							p.held = true
							continue
						}
						p.keys(k)
					}
					frame := p.m.View()
					requireInside(t, frame, size[0], size[1])
					require.NotContains(t, frame, "\x1b")
					if theme.opt.ASCII {
						requireASCII(t, frame)
					}
					fmt.Fprintf(&b, "#### %s\n%s\n", s.name, frame)
				}
				golden.RequireEqual(t, b.String())
			})
		}
	}
}

// noSheet stands in for writeSheet.
func noSheet(*layout.Plan, book.Sheet, string, string, bool) ([]paper.Replaced, error) {
	return nil, nil
}

// deck is a bench that answers at once: what fits is put to the front left, every
// third unit does not fit, every third is undecided.
type deck struct{ p *layout.Plan }

func (d deck) Plan() *layout.Plan { return d.p }

func (d deck) Try(ctx context.Context, q tryout.Question) (*tryout.Answer, error) {
	if err := q.Check(d.p); err != nil {
		return nil, err
	}
	a := &tryout.Answer{Question: q, Verdict: tryout.Undecided, Lineups: q.Lineups, Unit: q.Candidate.Name}
	switch len(q.Candidate.Name) % 3 {
	case 0:
		a.Verdict, a.Proved = tryout.Impossible, true
	case 1:
		a.Verdict, a.Power.OK = tryout.Fits, true
		a.Plan, a.Unit = d.put(q)
	}
	return a, nil
}

// put puts the candidate to the front left, whatever stands there.
func (d deck) put(q tryout.Question) (*layout.Plan, string) {
	p := d.p.Clone()
	u := q.Candidate.Unit
	if q.Candidate.Kind != tryout.OfPlan {
		for n := 0; p.Unit(u.ID) != nil; n++ {
			u.ID = "tried-" + digits(n)
		}
		if p.AddUnit(u) != nil {
			return d.p, ""
		}
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		if q.Lineups != nil && !slices.Contains(q.Lineups, l.Name) {
			continue
		}
		ids := slices.DeleteFunc(slices.Clone(l.Fill[q.Slot]), func(id string) bool { return id == q.InsteadOf || id == u.ID })
		if p.SetFill(l.Name, q.Slot, append(ids, u.ID)) == nil {
			p.SetPlace(l, p.Unit(u.ID), layout.Placement{On: layout.DeckName})
		}
	}
	return p, u.ID
}

// threeBoards stands in for compareBoards: one's own, one that is too small, one
// that nobody knows.
func threeBoards(ctx context.Context, p *layout.Plan, _ []boards.Candidate, _ layout.Length, opt boards.Options) (*boards.Result, error) {
	own := p.Clone()
	r := &boards.Result{Boards: []*boards.Board{
		{Candidate: boards.Candidate{W: 60 * mm, D: 60 * mm}, Verdict: pack.Impossible, Why: "It is too small."},
		{Candidate: boards.Candidate{W: 200 * mm, D: 100 * mm, Name: "fence"}, Verdict: pack.Undecided},
		{Candidate: boards.Candidate{W: p.Board.W + mm, D: p.Board.D}, Verdict: pack.Fits, Works: true, Plan: own},
	}}
	own.Board.W += mm
	for i, b := range r.Boards {
		opt.Progress(i+1, len(r.Boards), b)
	}
	return r, ctx.Err()
}

// Answers that were given once, for the frames: they are the same each time.
var (
	oneBench   bench
	benchOnce  sync.Once
	onceTried  = map[string]*tryout.Answer{}
	onceBoards = map[string]*boards.Result{}
)

type remembered struct{ bench }

func (r remembered) Try(ctx context.Context, q tryout.Question) (*tryout.Answer, error) {
	key := fmt.Sprint(q.Candidate.Kind, q.Candidate.Name, q.Slot, q.InsteadOf, q.Lineups)
	if onceTried[key] == nil {
		a, err := r.bench.Try(ctx, q)
		if err != nil {
			return nil, err
		}
		onceTried[key] = a
	}
	return onceTried[key], nil
}

func rememberedBench(ctx context.Context, p *layout.Plan, _ []string, tell func(tryout.Answer)) (prepared, error) {
	var err error
	benchOnce.Do(func() {
		var r prepared
		r, err = fewSteps(ctx, p, nil, tell)
		oneBench = r.bench
	})
	return prepared{bench: remembered{oneBench}}, err
}

func rememberedBoards(ctx context.Context, p *layout.Plan, list []boards.Candidate, step layout.Length, opt boards.Options) (*boards.Result, error) {
	key := fmt.Sprint(len(list), step)
	if onceBoards[key] == nil {
		r, err := fewBoards(ctx, p, list, step, opt)
		onceBoards[key] = r
		return r, err
	}
	for i, b := range onceBoards[key].Boards {
		opt.Progress(i+1, len(onceBoards[key].Boards), b)
	}
	return onceBoards[key], nil
}

// dealt stands in for prepareBench.
func dealt(_ context.Context, p *layout.Plan, _ []string, _ func(tryout.Answer)) (prepared, error) {
	return prepared{bench: deck{p}}, nil
}

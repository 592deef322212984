package arrange

import (
	"context"
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/wiring"
	"footplank/pack"
)

// trySteps bounds the passes that cannot prove anything about the plan itself,
// in steps of the engine, so that they never eat the time of the one that can.
const trySteps = 60_000

// Options steer Arrange. The zero value is ready to use.
type Options struct {
	Seed int64
	// Steps bounds the improvement, in steps of the engine, if positive;
	// without it the improvement goes on until the context ends.
	Steps int64
	// DecideSteps bounds the search for the first fit or a proof likewise.
	DecideSteps int64
	Workers     int // 0: one for each processor
	// Lineups names the line-ups to arrange; nil for all. Units that stand
	// in another line-up too and have a place keep it.
	Lineups []string
	// FirstFit stops at the first arrangement that fits.
	FirstFit bool
	// Explain says how much is found out about what is impossible.
	Explain Explain
	// Progress, if set, is told of better arrangements, seldom enough to
	// draw from, on another goroutine.
	Progress func(Progress)
}

// Explain says how much Arrange finds out about what is impossible: to know who
// is to blame takes far longer than to know that nothing fits.
type Explain int

const (
	Fully     Explain = iota // units and line-ups
	UnitsOnly                // the smallest set of units, nothing about line-ups
	ProofOnly                // what the proof itself says
)

// Progress is a snapshot of a running Arrange.
type Progress struct {
	Verdict pack.Verdict
	Plan    *layout.Plan // the best so far, nil before the first
	Cost    int64
	Nodes   int64
	Cable   layout.Length // of the best so far, all line-ups together
}

// Result is the answer of Arrange.
type Result struct {
	Verdict pack.Verdict
	Plan    *layout.Plan // a copy with every place set when Verdict is Fits
	Cost    int64
	Optimal bool // no arrangement costs less, proved
	Nodes   int64
	// Why says in a sentence why nothing fits, Units whom it concerns, Rule
	// the engine's code for it; set when Verdict is Impossible.
	Why   string
	Rule  string
	Units []string
	// Alone is what each line-up does by itself; set when several do not
	// fit together.
	Alone map[string]pack.Verdict
	// Sets says which line-ups go together; set with Alone.
	Sets *LineupSets
	// Elsewhere lists the units of slots that do not stand at one place in
	// all their line-ups.
	Elsewhere []string
}

// Cable returns the plan's cable on the board, all line-ups added up.
func Cable(p *layout.Plan) layout.Length {
	var sum layout.Length
	for i := range p.Lineups {
		sum += wiring.Total(wiring.Estimate(p, &p.Lineups[i]))
	}
	return sum
}

// Arrange places every unit of the line-ups that may move, so that nothing
// collides, and then improves the arrangement. The plan is not changed.
//
// It answers Impossible only with a proof that holds for the plan as it is:
// pins, slots, turns, plugs and all. It returns an error for a line-up that the
// plan does not have and for a plan with more line-ups than the engine has
// groups.
func Arrange(ctx context.Context, p *layout.Plan, opt Options) (Result, error) {
	lineups, err := choose(p, opt.Lineups)
	if err != nil {
		return Result{}, err
	}
	res, pr, err := decide(ctx, p, lineups, opt)
	if err != nil {
		return Result{}, err
	}
	switch res.Verdict {
	case pack.Fits:
		if pr.mode.apart {
			if res, pr, err = rejoin(ctx, pr, res, opt); err != nil {
				return Result{}, err
			}
		}
		out, err := improve(ctx, pr, res, opt)
		return out, err
	case pack.Impossible:
		reason := res.Reason
		if opt.Explain != ProofOnly {
			if reason, err = pr.blame(ctx, res.Reason, opt); err != nil {
				return Result{}, err
			}
		}
		out := Result{Verdict: res.Verdict, Nodes: res.Nodes, Rule: reason.Rule}
		if out.Why, out.Units = pr.why(reason); opt.Explain != Fully {
			return out, nil
		}
		out.Alone, err = alone(ctx, p, lineups, opt)
		if err == nil && len(lineups) > 1 {
			out.Sets, err = SortLineups(ctx, p, opt.Lineups, opt)
		}
		return out, err
	}
	return Result{Verdict: res.Verdict, Nodes: res.Nodes}, nil
}

func choose(p *layout.Plan, names []string) ([]*layout.Lineup, error) {
	if len(p.Lineups) > MaxLineups {
		return nil, fmt.Errorf("%d line-ups: at most %d can be arranged together", len(p.Lineups), MaxLineups)
	}
	var out []*layout.Lineup
	for i := range p.Lineups {
		if names == nil || slices.Contains(names, p.Lineups[i].Name) {
			out = append(out, &p.Lineups[i])
		}
	}
	for _, n := range names {
		if p.LineupNamed(n) == nil {
			return nil, fmt.Errorf("no line-up %q in this plan: it has %s", n, lineupNames(p))
		}
	}
	return out, nil
}

// MaxLineups is how many line-ups the engine's groups can tell apart.
const MaxLineups = 64

func lineupNames(p *layout.Plan) string {
	s := ""
	for i := range p.Lineups {
		if i > 0 {
			s += ", "
		}
		s += fmt.Sprintf("%q", p.Lineups[i].Name)
	}
	return s
}

// pass is one attempt to decide a plan.
type pass struct {
	mode  mode
	steps int64 // at most; 0 for as many as the options say
}

// passes returns the attempts in their order: comfortable and together, just
// together, then anyhow. Only the last may say Impossible of the plan, and where
// the program chooses plugs only one that takes the least room for them.
func passes(p *layout.Plan, lineups []*layout.Lineup) []pass {
	parted := len(newProblem(p, lineups, mode{}, nil).items) != len(newProblem(p, lineups, mode{apart: true}, nil).items)
	out := []pass{{mode{comfort: true}, trySteps}}
	if parted || choosesPlugs(p) {
		out = append(out, pass{mode{}, trySteps})
	}
	if !choosesPlugs(p) {
		return append(out, pass{mode{apart: true}, 0})
	}
	out = append(out, pass{mode{apart: true, plugs: least}, trySteps},
		pass{mode{comfort: true, plugs: either}, trySteps}, pass{mode{plugs: either}, trySteps})
	if parted {
		out = append(out, pass{mode{apart: true}, trySteps})
	}
	return append(out, pass{mode{apart: true, plugs: either}, 4 * trySteps}, pass{mode{apart: true, plugs: least}, 0})
}

// decide looks for a first fit or a proof that there is none; see passes.
func decide(ctx context.Context, p *layout.Plan, lineups []*layout.Lineup, opt Options) (pack.Result, *problem, error) {
	var nodes int64
	var res pack.Result
	var pr *problem
	loose := false // it fits with the least room for plugs: no proof is to be had
	for _, s := range passes(p, lineups) {
		proof := s.mode.apart && (s.mode.plugs == least || !choosesPlugs(p))
		switch {
		case loose && proof:
			continue
		case loose && s.mode == (mode{apart: true, plugs: either}):
			s.steps = 0 // the last
		}
		pr = newProblem(p, lineups, s.mode, nil)
		po := pack.Options{Seed: opt.Seed, Workers: opt.Workers, Steps: opt.DecideSteps}
		if s.steps > 0 && (po.Steps == 0 || po.Steps > s.steps) {
			po.Steps = s.steps
		}
		var err error
		if res, pr, err = first(ctx, pr, po); err != nil {
			return res, nil, err
		}
		nodes += res.Nodes
		res.Nodes = nodes
		fits := res.Verdict == pack.Fits
		switch {
		case fits && pr.seats(res.Places), res.Verdict == pack.Impossible && proof:
			return res, pr, nil
		case fits && proof:
			loose = true
		}
	}
	return pack.Result{Verdict: pack.Undecided, Nodes: nodes}, pr, nil
}

// first solves one pass. Where the answer only fits its case if the case were
// larger, it looks for one with the board in the middle; without that it does
// not know.
func first(ctx context.Context, pr *problem, po pack.Options) (pack.Result, *problem, error) {
	res, err := pr.solve(ctx, po)
	if err != nil || res.Verdict != pack.Fits {
		return res, pr, err
	}
	if pr.goesIn(res.Places) {
		return res, pr, nil
	}
	pr = newProblem(pr.plan, pr.lineups, pr.mode, pr.middle())
	again, err := pr.solve(ctx, po)
	again.Nodes += res.Nodes
	if again.Verdict == pack.Impossible {
		again.Verdict, again.Reason = pack.Undecided, nil
	}
	return again, pr, err
}

// solve asks the engine, beginning from where the plan's units stand now.
func (pr *problem) solve(ctx context.Context, po pack.Options) (pack.Result, error) {
	po.Start = pr.places(pr.plan)
	return pack.Solve(ctx, &pr.pack, po)
}

// improve goes on from a first fit, in that share of the case's room that it
// takes, and with the plugs that it has.
func improve(ctx context.Context, pr *problem, first pack.Result, opt Options) (Result, error) {
	pr, places := pr.withPlugs(first.Places)
	c := newCost(pr)
	pr.tidy(places, c)
	out := Result{Verdict: pack.Fits, Plan: pr.placed(places), Nodes: first.Nodes, Cost: c.Cost(places), Elsewhere: pr.elsewhere(places)}
	if opt.FirstFit {
		return out, nil
	}
	room, _ := pr.intoCase(places)
	pr = newProblem(pr.plan, pr.lineups, pr.mode, room)
	c = newCost(pr)
	po := pack.Options{Seed: opt.Seed, Workers: opt.Workers, Steps: opt.Steps, ImproveSteps: opt.Steps, Objective: c, Start: pr.places(out.Plan)}
	if opt.Progress != nil {
		po.Progress = func(g pack.Progress) {
			if g.Places == nil {
				return
			}
			// What is shown may be taken as it is, so it is as tidy as
			// the answer, and goes into the case.
			if pr.tidy(g.Places, c); pr.goesIn(g.Places) && pr.seats(g.Places) {
				q := pr.placed(g.Places)
				opt.Progress(Progress{Verdict: pack.Fits, Plan: q, Cost: c.Cost(g.Places), Nodes: first.Nodes + g.Nodes, Cable: Cable(q)})
			}
		}
	}
	sooner, stop := forEstimates(ctx)
	defer stop()
	res, err := pack.Solve(sooner, &pr.pack, po)
	if err != nil {
		return Result{}, err
	}
	out.Nodes += res.Nodes
	// A search that is stopped before it has looked at its own start
	// answers nothing; the first fit stands then.
	if res.Verdict != pack.Fits {
		return out, nil
	}
	pr.tidy(res.Places, c)
	if places := pr.byRealRuns(ctx, res.Places, c, opt.Steps); pr.goesIn(places) && pr.seats(places) {
		res.Places = places
		pr.tidy(res.Places, c)
		out.Plan, out.Cost = pr.placed(res.Places), c.Cost(res.Places)
		out.Elsewhere = pr.elsewhere(res.Places)
		out.Optimal = res.Optimal && out.Cost <= res.Cost
	}
	return out, nil
}

// alone tries each line-up by itself, to tell the player which one is to blame.
func alone(ctx context.Context, p *layout.Plan, lineups []*layout.Lineup, opt Options) (map[string]pack.Verdict, error) {
	if len(lineups) < 2 {
		return nil, nil
	}
	out := map[string]pack.Verdict{}
	for _, l := range lineups {
		// As a plan of its own, so that shared units may move.
		q := p.Clone()
		q.Lineups = []layout.Lineup{*l}
		keepSlots(q, p)
		var verdict pack.Verdict
		for _, m := range []mode{{}, {apart: true, plugs: least}, {plugs: either}} {
			pr := newProblem(q, []*layout.Lineup{&q.Lineups[0]}, m, nil)
			res, err := pack.Solve(ctx, &pr.pack, pack.Options{Seed: opt.Seed, Workers: opt.Workers, Steps: trySteps})
			if err != nil {
				return nil, err
			}
			proof := m.plugs == least || !choosesPlugs(q)
			if verdict = res.Verdict; verdict == pack.Fits && pr.seats(res.Places) || proof && verdict == pack.Impossible || !choosesPlugs(q) {
				break
			}
			verdict = pack.Undecided
		}
		out[l.Name] = verdict
	}
	return out, nil
}

// keepSlots drops the units that only other line-ups of the whole plan use:
// with those line-ups gone they would count as units of every line-up.
func keepSlots(q, whole *layout.Plan) {
	q.Units = slices.DeleteFunc(q.Units, func(u layout.Unit) bool {
		return whole.InSlots(u.ID) && q.SlotOf(&q.Lineups[0], u.ID) == nil
	})
}

package tryout

import (
	"context"
	"fmt"
	"slices"
	"time"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// hold returns the problem with every item held to its place but those for which
// may is set, and those that have none.
func hold(p *pack.Problem, at []pack.Place, may []bool) *pack.Problem {
	q := &pack.Problem{Items: slices.Clone(p.Items), Obstacles: p.Obstacles}
	for i, pl := range at {
		if pl.Region < 0 || may != nil && may[i] {
			continue
		}
		r := p.Items[i].Regions[pl.Region]
		r.X0, r.X1, r.Y0, r.Y1 = pl.X, pl.X, pl.Y, pl.Y
		q.Items[i].Regions = slices.Repeat([]pack.Region{r}, len(p.Items[i].Regions))
	}
	return q
}

// rulesFor says that all but held items may move, a unit being one move in all
// its line-ups, and that fixed units are dear.
func rulesFor(m *arrange.Model) pack.MoveRules {
	items := m.Items()
	r := pack.MoveRules{Movable: make([]bool, len(items)), Group: make([]int, len(items)), Dear: make([]bool, len(items))}
	first := map[*layout.Unit]int{}
	for i, it := range items {
		if _, seen := first[it.Unit]; !seen {
			first[it.Unit] = i
		}
		r.Movable[i], r.Group[i], r.Dear[i] = !it.Held, first[it.Unit], it.Unit.Mount == layout.Fixed
	}
	return r
}

// finder answers one question.
type finder struct {
	b     *Bench
	t     *trial
	steps int64 // of this round
	opt   Options
	a     *Answer
	// stay and move are what the two parts of the ladder have come to.
	stay, move pack.Verdict
	// no is what is refused, the model nil if nothing is known to be.
	no refusal
	// stuck: more steps would not decide more.
	stuck bool
}

// refusal is a model without an arrangement, its line-ups, and the engine's
// reason.
type refusal struct {
	m       *arrange.Model
	lineups []string
	reason  *pack.Reason
}

// Try asks one question.
func (b *Bench) Try(ctx context.Context, q Question) (*Answer, error) {
	f, err := b.decide(ctx, q)
	if err != nil {
		return nil, err
	}
	return f.a, f.reasons(ctx)
}

// reasons explains a refusal.
func (f *finder) reasons(ctx context.Context) error {
	if f.a.Verdict != Impossible || ctx.Err() != nil {
		return nil // without time only a set of everything would be told
	}
	began := time.Now()
	err := f.explain(ctx)
	f.a.Elapsed += time.Since(began)
	return err
}

// decide finds the verdict on a question, and what else there is to say of it
// but reasons.
func (b *Bench) decide(ctx context.Context, q Question) (*finder, error) {
	if err := q.Check(b.asked()); err != nil {
		return nil, err
	}
	if err := b.holds(&q); err != nil {
		return nil, err
	}
	began := time.Now()
	f := &finder{b: b, t: b.put(&q), opt: b.opt}
	f.a = &Answer{Question: q, Verdict: Undecided, Lineups: f.t.lineups, Unit: f.t.unit.ID, Power: Power{OK: true, Outputs: map[string]layout.JackRef{}}}
	if b.Arranged != "" {
		f.a.Notes = append(f.a.Notes, b.Arranged)
	}
	f.a.Notes = append(f.a.Notes, f.t.notes...)
	f.feed(ctx)
	f.steps = firstRound
	if f.opt.Steps > 0 {
		f.steps = f.opt.Steps
	}
	for {
		if err := f.round(ctx); err != nil {
			return nil, err
		}
		settled := f.a.Verdict != Undecided && (f.a.Proved || f.a.Verdict == Fits)
		if settled || f.stuck || f.opt.Steps > 0 || ctx.Err() != nil {
			break
		}
		f.steps *= roundGrowth
	}
	f.a.AllTried = f.stuck
	if f.a.Room() {
		f.cables()
		f.findings()
	}
	f.a.Elapsed = time.Since(began)
	return f, nil
}

// say notes what was proved, once, and tells of it.
func (f *finder) say(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	if slices.Contains(f.a.Steps, s) {
		return
	}
	f.a.Steps = append(f.a.Steps, s)
	f.tell()
}

func (f *finder) tell() {
	if f.opt.Progress != nil {
		a := *f.a
		a.Steps, a.Notes = slices.Clone(a.Steps), slices.Clone(a.Notes)
		f.opt.Progress(a)
	}
}

func (f *finder) options() pack.Options {
	return pack.Options{Seed: f.opt.Seed, Steps: f.steps, Workers: f.opt.workers()}
}

// round goes down the ladder once.
func (f *finder) round(ctx context.Context) error {
	if !f.b.stands {
		return f.anew(ctx)
	}
	if f.stay == pack.Undecided {
		if err := f.staying(ctx); err != nil || f.stay == pack.Fits {
			return err
		}
	}
	// A line-up that is refused by itself settles it, and is the smaller
	// problem.
	if err := f.refused(ctx); err != nil {
		return err
	}
	if f.no.m == nil {
		if err := f.moving(ctx); err != nil {
			return err
		}
	}
	if f.move == pack.Impossible {
		f.a.Verdict, f.a.Proved = Impossible, true
		f.say("Wherever anything stands, it does not fit.")
	}
	return nil
}

// staying looks for a place while nothing else moves: the same in all line-ups,
// else one in each.
func (f *finder) staying(ctx context.Context) error {
	for _, split := range []arrange.Split{arrange.AsTheyStand, arrange.Apart} {
		m, err := arrange.NewModel(f.t.plan, f.mates(), split, arrange.PlugsToChoose, nil)
		if err != nil {
			return err
		}
		at, whole := m.Now(f.t.plan)
		if !whole {
			// With other plugs a unit may stand where it may no more.
			f.stay = pack.Impossible
			break
		}
		v, plan, err := f.place(ctx, m, at)
		if err != nil {
			return err
		}
		f.stay = v
		if v == pack.Fits {
			f.a.Verdict, f.a.Proved = Fits, true
			f.adopt(plan)
			f.tell()
			return nil
		}
		if len(f.t.lineups) < 2 {
			break
		}
	}
	if f.stay == pack.Impossible {
		f.say("Where things stand, with the plugs that they have, there is no place for it.")
	}
	return nil
}

// mates names the line-ups that bear on where the unit is best: those touched,
// and all where it stands in others too, for one place for all is better.
func (f *finder) mates() []string {
	for i := range f.t.plan.Lineups {
		l := &f.t.plan.Lineups[i]
		if !slices.Contains(f.t.lineups, l.Name) && f.t.plan.Present(l, f.t.unit.ID) {
			return nil
		}
	}
	return f.t.touched
}

// place looks for the best place of what has none, all else held.
func (f *finder) place(ctx context.Context, m *arrange.Model, at []pack.Place) (pack.Verdict, *layout.Plan, error) {
	opt := f.options()
	opt.Objective, opt.ImproveSteps, opt.Workers = m.Objective(), placeSteps, 1
	res, err := pack.Solve(ctx, hold(m.Problem(), at, nil), opt)
	if err != nil || res.Verdict != pack.Fits {
		return res.Verdict, nil, err
	}
	may := make([]bool, len(at))
	for i := range at {
		if may[i] = at[i].Region < 0; !may[i] {
			res.Places[i] = at[i]
		}
	}
	m.Tidy(res.Places, may)
	if !m.GoesIn(res.Places) || !m.Seats(res.Places) {
		return pack.Undecided, nil, nil
	}
	return pack.Fits, m.Placed(res.Places), nil
}

// moving looks for the fewest moves. Where the program chooses plugs, the room
// that all choices have in common bounds the moves from below.
func (f *finder) moving(ctx context.Context) error {
	chooses := arrange.ChoosesPlugs(f.t.plan)
	var low pack.Moves
	var bare *arrange.Model
	if chooses {
		var err error
		if low, bare, err = f.atLeast(ctx); err != nil || low.Verdict == pack.Impossible {
			return err
		}
	}
	high, m, err := f.intoCase(ctx)
	if err != nil {
		return err
	}
	// seats: the fewest moves of the bound are an answer as they are.
	seats := func() bool {
		return chooses && low.Verdict == pack.Fits && bare.GoesIn(low.Places) && bare.Seats(low.Places)
	}
	unseated := high.Verdict == pack.Fits && !m.Seats(high.Places)
	switch {
	case (high.Verdict == pack.Impossible || unseated) && seats():
		f.move = pack.Fits
		return f.moved(ctx, bare, low)
	case high.Verdict == pack.Impossible && chooses:
		f.say("With the plugs as they are, or the usual or flattest ones, it does not fit; whether it does with others was not decided.")
		f.stuck = true
		return nil
	case unseated:
		f.say("There is room if units move, but plugs that all seat there were not found.")
		f.stuck = true
		return nil
	}
	if chooses && high.Proved && low.Proved && (low.Dear != high.Dear || low.Cheap != high.Cheap) {
		if seats() {
			f.move = pack.Fits
			return f.moved(ctx, bare, low)
		}
		// More steps do not help: it is about other plugs still.
		f.stuck, high.Proved = true, false
		if high.Verdict == pack.Fits {
			f.say("With the plugs as they are, or the usual or the flattest ones, no fewer moves do.")
		}
	}
	high.Proved = high.Proved && (!chooses || low.Proved)
	if f.move = high.Verdict; f.move == pack.Impossible {
		f.no = refusal{m, f.everyLineup(), high.Reason}
	}
	if f.move != pack.Fits {
		return nil
	}
	return f.moved(ctx, m, high)
}

// atLeast bounds the moves from below, with no more room for plugs than all
// choices need, and says what that proves.
func (f *finder) atLeast(ctx context.Context) (pack.Moves, *arrange.Model, error) {
	low, bare, err := f.fewest(ctx, arrange.PlugsAtLeast, nil)
	switch {
	case err != nil:
	case low.Verdict == pack.Impossible:
		f.move, f.no = low.Verdict, refusal{bare, f.everyLineup(), low.Reason}
	case low.Proved && low.Dear > 0:
		f.say("Without moving a fixed unit it does not fit.")
	case low.Proved && low.Cheap > 0:
		f.say("Where things stand there is no place for it, with any plugs.")
	}
	return low, bare, err
}

// intoCase asks for the fewest moves after which the board goes into its case.
// Where everything fits, but the board would have to lie there in two ways at
// once, it lies in the middle, which is one way of several and proves nothing.
func (f *finder) intoCase(ctx context.Context) (pack.Moves, *arrange.Model, error) {
	high, m, err := f.fewest(ctx, arrange.PlugsToChoose, nil)
	if err != nil || high.Verdict != pack.Fits || m.GoesIn(high.Places) {
		return high, m, err
	}
	high, m, err = f.fewest(ctx, arrange.PlugsToChoose, m.Middle())
	if high.Proved = false; high.Verdict == pack.Impossible {
		high.Verdict = pack.Undecided
	}
	return high, m, err
}

// fewest asks for the fewest moves of all line-ups together.
func (f *finder) fewest(ctx context.Context, plugs arrange.Plugs, room *layout.Rect) (pack.Moves, *arrange.Model, error) {
	m, err := arrange.NewModel(f.t.plan, nil, arrange.Apart, plugs, room)
	if err != nil {
		return pack.Moves{}, nil, err
	}
	opt := f.options()
	if opt.ImproveSteps = waySteps; plugs == arrange.PlugsAtLeast {
		opt.ImproveSteps = 1
	}
	at, rules := f.standing(m)
	res, err := pack.FewestMovesOf(ctx, m.Problem(), at, rules, opt)
	return res, m, err
}

// standing returns where the items of the model stand, and what may move. One
// that stands where it no longer may, for its plugs are others now, moves.
func (f *finder) standing(m *arrange.Model) ([]pack.Place, pack.MoveRules) {
	at, _ := m.Now(f.t.plan)
	return at, rulesFor(m)
}

// anew arranges everything, where not even the plan as it stands fits.
func (f *finder) anew(ctx context.Context) error {
	res, err := arrange.Arrange(ctx, f.t.plan, arrange.Options{Seed: f.opt.Seed, Steps: min(f.steps, arrangeSteps), DecideSteps: f.steps, Workers: f.opt.Workers})
	if err != nil {
		return err
	}
	switch res.Verdict {
	case pack.Fits:
		f.a.Verdict, f.a.Proved = Fits, true
		f.a.Notes = append(f.a.Notes, "With it everything fits, arranged anew.")
		f.adopt(res.Plan)
	case pack.Impossible:
		f.a.Verdict, f.a.Proved = Impossible, true
		f.move = pack.Impossible
	}
	return nil
}

package tryout

import (
	"context"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// moved takes an answer with fewest moves: the same moves with every unit
// keeping together across line-ups, if that does, and the tried unit at its best
// place.
func (f *finder) moved(ctx context.Context, m *arrange.Model, res pack.Moves) error {
	places := res.Places
	if alike, err := f.alike(ctx, m, res); err != nil {
		return err
	} else if alike != nil {
		m, places = alike.m, alike.places
	}
	best := m.Placed(places)
	plan := best.Clone()
	f.clear(plan)
	last, err := arrange.NewModel(plan, f.mates(), arrange.AsTheyStand, arrange.PlugsToChoose, nil)
	if err != nil {
		return err
	}
	if at, whole := last.Now(plan); whole {
		v, p, err := f.place(ctx, last, at)
		if err != nil {
			return err
		}
		if v == pack.Fits {
			best = p
		}
	}
	best = f.tidied(best)
	f.a.Verdict, f.a.Proved = Moves, res.Proved
	f.adopt(best)
	if f.a.Units != res.Dear+res.Cheap {
		f.a.Proved = false // a change of plugs alone was counted as a move
	}
	if f.a.Units == 0 {
		f.a.Verdict, f.a.Proved = Fits, true // with other plugs, where things stand
	}
	if res.Dear > 0 && res.Proved {
		f.say("Without moving a fixed unit it does not fit.")
	}
	f.tell()
	return nil
}

// clear takes the tried unit off the board.
func (f *finder) clear(p *layout.Plan) {
	for _, l := range f.t.lineups {
		delete(p.LineupNamed(l).Place, f.t.unit.ID)
	}
}

type arrangement struct {
	m      *arrange.Model
	places []pack.Place
}

// alike looks for an answer in which the units that must move stand at one place
// in all the line-ups in which they do now.
func (f *finder) alike(ctx context.Context, apart *arrange.Model, res pack.Moves) (*arrangement, error) {
	m, err := arrange.NewModel(f.t.plan, nil, arrange.AsTheyStand, arrange.PlugsToChoose, nil)
	if err != nil {
		return nil, err
	}
	if len(m.Items()) == len(apart.Items()) {
		return nil, nil
	}
	moves := map[string]bool{}
	for _, i := range res.Moved {
		moves[apart.Items()[i].Unit.ID] = true
	}
	at, rules := f.standing(m)
	for i, it := range m.Items() {
		rules.Movable[i] = rules.Movable[i] && moves[it.Unit.ID]
	}
	opt := f.options()
	opt.ImproveSteps = waySteps
	r, err := pack.FewestMovesOf(ctx, m.Problem(), at, rules, opt)
	if err != nil || r.Verdict != pack.Fits || r.Dear != res.Dear || r.Cheap != res.Cheap || !m.GoesIn(r.Places) || !m.Seats(r.Places) {
		return nil, err
	}
	return &arrangement{m, r.Places}, nil
}

// tidied moves what has moved anyway to whole millimetres, where that is free.
func (f *finder) tidied(p *layout.Plan) *layout.Plan {
	m, err := arrange.NewModel(p, nil, arrange.AsTheyStand, arrange.PlugsAsTheyAre, nil)
	if err != nil {
		return p
	}
	at, whole := m.Now(p)
	if !whole {
		return p
	}
	may := make([]bool, len(at))
	for i, it := range m.Items() {
		l := p.LineupNamed(it.Lineups[0])
		was, ok := f.b.plan.PlaceOf(l, it.Unit)
		here, _ := p.PlaceOf(l, it.Unit)
		may[i] = !it.Held && (it.Unit.ID == f.t.unit.ID || !ok || was != here)
	}
	m.Tidy(at, may)
	if !m.GoesIn(at) || !m.Seats(at) {
		return p
	}
	return m.Placed(at)
}

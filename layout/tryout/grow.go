package tryout

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// mostGrowth is how much larger a board is looked at: beyond it is another board.
const mostGrowth = 200 * layout.Millimetre

// Kinds of what grows.
const (
	GrowSlot  = "slot"
	GrowBoard = "board"
)

// axes are the ways to grow, in width and in depth, the likeliest first.
var axes = [][]Growth{
	{{What: GrowSlot, Side: layout.Right}, {What: GrowSlot, Side: layout.Left}, {What: GrowBoard, Side: layout.Right}},
	{{What: GrowSlot, Side: layout.Back}, {What: GrowSlot, Side: layout.Front}, {What: GrowBoard, Side: layout.Back}},
}

// growth looks for the least that the slot must grow to make room along one axis;
// of two opposite edges the one that goes out less is told. Where the slot cannot
// grow enough on the board as it is, the board grows with it.
func (f *finder) growth(ctx context.Context, ways []Growth, opt pack.Options) (*Growth, error) {
	var best *Growth
	for _, g := range ways {
		limit := f.limit(g)
		switch {
		case best != nil && g.What == GrowBoard:
			continue
		case best != nil:
			limit = min(limit, best.By-layout.Millimetre)
		}
		ok, err := f.grow(ctx, &g, limit, opt)
		if err != nil {
			return nil, err
		}
		if ok {
			best = &g
		}
	}
	return best, nil
}

// limit is how far the growth can go: a slot to the edge of its surface.
func (f *finder) limit(g Growth) layout.Length {
	if g.What == GrowBoard {
		return mostGrowth
	}
	slot := f.t.plan.Slot(f.a.Question.Slot)
	s, ok := f.t.plan.Board.Surface(slot.On)
	if !ok {
		return 0
	}
	// Bodies may stand past the board's edges, and so may a slot.
	r := s.At.Grow(s.Overhang)
	switch g.Side {
	case layout.Left:
		return slot.At.X0 - r.X0
	case layout.Right:
		return r.X1 - slot.At.X1
	case layout.Front:
		return slot.At.Y0 - r.Y0
	}
	return r.Y1 - slot.At.Y1
}

// grown returns the plan with slot or board larger. A board takes the slot with
// it, and a case that bounds it.
func grown(p *layout.Plan, slot string, g Growth, by layout.Length) *layout.Plan {
	q := p.Clone()
	s := q.Slot(slot)
	switch g.Side {
	case layout.Left:
		s.At.X0 -= by
	case layout.Right:
		s.At.X1 += by
	case layout.Front:
		s.At.Y0 -= by
	default:
		s.At.Y1 += by
	}
	if g.What == GrowSlot {
		return q
	}
	b := &q.Board
	if c := b.Case; c != nil {
		larger := *c
		b.Case = &larger
	}
	b.Rails = slices.Clone(b.Rails)
	if g.Side == layout.Right {
		for i := range b.Rails {
			if b.Rails[i].At.X1 == b.W {
				b.Rails[i].At.X1 += by
			}
		}
		b.W += by
		if b.Case != nil {
			b.Case.Inside.W += by
		}
	} else {
		b.D += by
		if b.Case != nil {
			b.Case.Inside.D += by
		}
	}
	if sur, ok := q.Board.Surface(s.On); ok && s.On != layout.DeckName {
		// A riser does not grow with the board, nor does a slot on it.
		s.At = p.Slot(slot).At.Intersect(sur.At)
	}
	return q
}

// grow finds the least growth up to the limit: first for the units that collide,
// which no smaller one helps, then for everything.
func (f *finder) grow(ctx context.Context, g *Growth, limit layout.Length, opt pack.Options) (bool, error) {
	const unit = int64(layout.Millimetre)
	if limit < layout.Millimetre {
		return false, nil
	}
	con := f.a.Conflict
	some := func(by int64) *pack.Problem {
		p := f.t.plan
		if len(con.Lineups) < len(p.Lineups) {
			p = arrange.Only(p, con.Lineups)
		}
		m, err := arrange.NewModel(grown(p, f.a.Question.Slot, *g, layout.Length(by)), nil, arrange.Apart, arrange.PlugsAtLeast, nil)
		if err != nil {
			return &pack.Problem{}
		}
		out := &pack.Problem{Obstacles: m.Problem().Obstacles}
		for i, it := range m.Items() {
			if slices.Contains(con.Units, it.Unit.ID) {
				out.Items = append(out.Items, m.Problem().Items[i])
			}
		}
		return out
	}
	few := opt
	few.Complete = len(con.Units) <= fewItems
	if res, err := pack.Solve(ctx, some(int64(limit)), few); err != nil || res.Verdict == pack.Impossible {
		return false, err
	}
	part, err := pack.LeastGrowth(ctx, some, int64(limit), unit, few)
	if err != nil || part.Enough < 0 {
		return false, err
	}
	// With everything on the board no less can do.
	from := part.Enough
	models := map[int64]*arrange.Model{}
	whole := func(by int64) *pack.Problem {
		m, err := arrange.NewModel(grown(f.t.plan, f.a.Question.Slot, *g, layout.Length(from+by)), nil, arrange.Apart, arrange.PlugsToChoose, nil)
		if err != nil {
			return &pack.Problem{}
		}
		models[from+by] = m
		return m.Problem()
	}
	first, err := pack.Solve(ctx, whole(0), opt)
	if err != nil {
		return false, err
	}
	all := pack.Growth{Enough: 0, TooLittle: -1, Places: first.Places}
	if first.Verdict != pack.Fits {
		if all, err = pack.LeastGrowth(ctx, whole, int64(limit)-from, unit, opt); err != nil || all.Enough < 0 {
			return false, err
		}
	}
	g.By = layout.Length(from + all.Enough)
	if m := models[int64(g.By)]; m == nil || !m.GoesIn(all.Places) || !m.Seats(all.Places) {
		return false, nil // perhaps, but not with what was found
	}
	if all.Enough == 0 {
		g.Exact = part.TooLittle == part.Enough-unit
	} else {
		g.Exact = all.TooLittle == all.Enough-unit && !arrange.ChoosesPlugs(f.t.plan)
	}
	g.Case = g.What == GrowBoard && f.t.plan.Board.Case != nil && !f.goesInStill(models[int64(g.By)], all.Places)
	return true, nil
}

// goesInStill reports whether what the model's places say goes into the case of
// the plan as it is.
func (f *finder) goesInStill(m *arrange.Model, at []pack.Place) bool {
	p := m.Placed(at)
	p.Board.Case = f.t.plan.Board.Case
	n, err := arrange.NewModel(p, nil, arrange.Apart, arrange.PlugsAsTheyAre, nil)
	if err != nil {
		return false
	}
	now, whole := n.Now(p)
	return whole && n.GoesIn(now)
}

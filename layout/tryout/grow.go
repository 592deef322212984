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

// grow finds the least growth up to the limit. What is refused is looked at in
// problems of more and more:
//
//	the units that collide, in their line-ups      few and quick
//	everything, plugs taking the least they can    what they refuse, all do
//	everything, with plugs to choose               what these hold is the answer
//
// Each begins where the one before has left off: no less growth can do. Most
// often what the few need does for everything, so that is asked first.
func (f *finder) grow(ctx context.Context, g *Growth, limit layout.Length, opt pack.Options) (bool, error) {
	if limit < layout.Millimetre {
		return false, nil
	}
	con := f.a.Conflict
	few := opt
	few.Complete = len(con.Units) <= fewItems
	some := stretch{f: f, g: *g, plugs: arrange.PlugsAtLeast, units: con.Units, lineups: con.Lineups, opt: few}
	reach := growth{enough: 0, proved: true, top: millimetres(limit)}
	if err := some.least(ctx, &reach); err != nil || reach.enough < 0 {
		return false, err
	}
	done, err := f.growAll(ctx, *g, &reach, opt)
	if done == nil || !done.stands() {
		return false, err // perhaps, but not with what was found
	}
	g.By, g.Exact = layout.Length(reach.enough)*layout.Millimetre, reach.proved
	g.Case = g.What == GrowBoard && f.t.plan.Board.Case != nil && !f.goesInStill(done.found, done.places)
	return true, nil
}

// growAll raises the reach to what everything needs, and returns the problem in
// which it was found; nil if none was.
func (f *finder) growAll(ctx context.Context, g Growth, reach *growth, opt pack.Options) (*stretch, error) {
	last := &stretch{f: f, g: g, plugs: arrange.PlugsToChoose, opt: opt}
	if g.What == GrowSlot { // a board grows where nothing else would do
		if v, err := last.try(ctx, reach.enough); err != nil || v == pack.Fits && last.stands() {
			return last, err
		}
	}
	chooses := arrange.ChoosesPlugs(f.t.plan)
	if chooses {
		whole := opt
		whole.Complete = true // refusals are what is looked for here
		all := &stretch{f: f, g: g, plugs: arrange.PlugsAtLeast, opt: whole}
		if err := all.least(ctx, reach); err != nil || reach.enough < 0 {
			return nil, err
		}
		if all.stands() {
			return all, nil // plugs were found that seat there
		}
	}
	if err := last.least(ctx, reach); err != nil || reach.enough < 0 {
		return nil, err
	}
	if chooses && last.refused {
		reach.proved = false // with other plugs less may do
	}
	return last, nil
}

func millimetres(l layout.Length) int64 { return int64(l / layout.Millimetre) }

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

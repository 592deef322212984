package arrange

import (
	"footplank/layout"
	"footplank/pack"
)

// The board may lie anywhere in its case, so what stands past its left edge
// takes room from what stands past its right. The packing problem cannot say
// that: it lets each side have all the room, which proves nothing wrongly, and
// what comes out is looked at afterwards.

// reached returns how far the line-up's boxes that travel in the case reach,
// the board included, seen from above.
func (pr *problem) reached(p *layout.Plan, k int) layout.Rect {
	out := p.Board.Rect()
	placed, _ := p.Standings(p.LineupNamed(pr.lineups[k].Name))
	for i := range placed {
		for _, b := range placed[i].Boxes {
			if b.Part == layout.BodyPart || b.Part == layout.PlugPart && !layout.PulledOut(pr.links[k], placed[i].Unit, b.Jack) {
				out = out.Union(b.Box.Rect())
			}
		}
	}
	return out
}

// intoCase returns the share of the case's room that the arrangement needs,
// with what is left over parted between opposite edges. ok is false when some
// line-up does not go into the case.
func (pr *problem) intoCase(places []pack.Place) (room *layout.Rect, ok bool) {
	if !pr.cased {
		return nil, true
	}
	p := pr.placed(places)
	all := p.Board.Rect()
	inside := p.Board.Case.Inside
	for k := range pr.lineups {
		r := pr.reached(p, k)
		if r.W() > inside.W || r.D() > inside.D {
			return nil, false
		}
		all = all.Union(r)
	}
	x, y := max(0, inside.W-all.W())/2, max(0, inside.D-all.D())/2
	all = all.Grow(layout.Edges{Left: x, Right: x, Front: y, Back: y})
	return &all, true
}

// goesIn reports whether every line-up goes into the case.
func (pr *problem) goesIn(places []pack.Place) bool {
	_, ok := pr.intoCase(places)
	return ok
}

// middle is the room in the case with the board in the middle of it.
func (pr *problem) middle() *layout.Rect {
	b := &pr.plan.Board
	x, y := (b.Case.Inside.W-b.W)/2, (b.Case.Inside.D-b.D)/2
	r := b.Rect().Grow(layout.Edges{Left: x, Right: x, Front: y, Back: y})
	return &r
}

package pack

import (
	"cmp"
	"slices"
)

// tightFill is the complete search for problems without any room to spare. In a
// zone that the items must fill to the last corner, the first open point from
// the front, and there from the left, is the corner of some box:
//
//	+----+------+-----+
//	|    |      |     |
//	|    +---+--+     |     everything in front of * and to its left on
//	|    |   |*       |     the same line is covered, so what covers *
//	+----+---+--------+     begins there on both axes
//
// So the branches are the boxes that may have their corner there. Of several
// such zones (surfaces, groups) the one with the fewest branches is taken.
type tightFill struct {
	m      *model
	zones  []*zone
	filled [][]forbid // by zone: what is covered, holes included
	at     []spot
	placed []int
	pc     *pacer
}

// branch is an item standing with some box's corner at the open point.
type branch struct {
	item, cell int
	x, y       int64
	size       int64
}

// newTightFill returns a search over the zones of tights, or nil when none of
// them can guide it.
func newTightFill(m *model, tights []tight) *tightFill {
	t := &tightFill{m: m, at: make([]spot, len(m.cells))}
	for _, c := range tights {
		for _, zn := range c.zones {
			if zn.clean && !slices.Contains(t.zones, zn) && len(t.zones) < 8 {
				t.zones = append(t.zones, zn)
			}
		}
	}
	if len(t.zones) == 0 {
		return nil
	}
	for _, zn := range t.zones {
		t.filled = append(t.filled, slices.Clone(zn.holes))
	}
	return t
}

func (t *tightFill) run(pc *pacer) outcome {
	t.pc = pc
	points := make([]openPoint, len(t.zones))
	for k, zn := range t.zones {
		points[k] = openPoint{zn.r.x0, zn.r.y0, true}
	}
	places, stopped := t.dfs(points)
	switch {
	case places != nil:
		return outcome{verdict: Fits, places: places}
	case stopped:
		return outcome{}
	}
	return outcome{verdict: Impossible, reason: &Reason{Rule: "search", Items: allItems(len(t.m.cells)), Nodes: pc.steps}}
}

// openPoint is the first uncovered point of a zone; any is false when there is
// none.
type openPoint struct {
	x, y int64
	any  bool
}

func (t *tightFill) dfs(points []openPoint) (places []Place, stopped bool) {
	if !t.pc.tick(1) {
		return nil, true
	}
	points = slices.Clone(points)
	var best []branch
	pick := -1
	for k := range t.zones {
		if !points[k].any {
			continue
		}
		points[k] = t.nextOpen(k, points[k])
		if !points[k].any {
			continue
		}
		bs := t.branches(k, points[k], pick >= 0, len(best))
		if pick < 0 || len(bs) < len(best) {
			best, pick = bs, k
		}
		if len(best) == 0 {
			return nil, false
		}
	}
	if pick < 0 {
		return t.rest()
	}
	slices.SortStableFunc(best, func(a, b branch) int { return cmp.Compare(b.size, a.size) })
	for _, b := range best {
		t.stand(b)
		places, stopped = t.dfs(points)
		t.lift(b)
		if places != nil || stopped {
			return places, stopped
		}
	}
	return nil, false
}

// nextOpen returns the first open point of zone k that is not before from.
func (t *tightFill) nextOpen(k int, from openPoint) openPoint {
	r, rects := t.zones[k].r, t.filled[k]
	x, y := from.x, from.y
	for {
		up := r.y1 // the nearest top above y, where something may open
		for moved := true; moved && x < r.x1; {
			moved = false
			for _, f := range rects {
				if f.y0 <= y && y < f.y1 {
					up = min(up, f.y1)
					if f.x0 <= x && x < f.x1 {
						x, moved = f.x1, true
					}
				}
			}
		}
		if x < r.x1 {
			return openPoint{x, y, true}
		}
		if up >= r.y1 {
			return openPoint{}
		}
		x, y = r.x0, up
	}
}

// branches lists what may have a corner at point p of zone k. With limited set
// it may stop early once there are limit or more.
func (t *tightFill) branches(k int, p openPoint, limited bool, limit int) []branch {
	var out []branch
	for i := range t.m.cells {
		if t.at[i].placed || t.twinWaits(i) {
			continue
		}
		for c, cl := range t.m.cells[i] {
			for _, f := range t.zones[k].covers[i][c].rects {
				x, y := p.x-f.x0, p.y-f.y0
				if !cl.has(x, y) || !t.free(cl.kind, x, y) {
					continue
				}
				b := branch{i, c, x, y, (f.x1 - f.x0) * (f.y1 - f.y0)}
				if !slices.ContainsFunc(out, func(o branch) bool {
					return o.item == i && o.x == x && o.y == y && t.m.cells[i][o.cell].kind == cl.kind
				}) {
					out = append(out, b)
				}
				if limited && len(out) >= limit {
					return out
				}
			}
		}
	}
	return out
}

// twinWaits reports whether an item equal to i and before it is still to be
// placed; that one goes first.
func (t *tightFill) twinWaits(i int) bool {
	j := t.m.same[i]
	return j >= 0 && !t.at[j].placed
}

func (t *tightFill) free(kind int, x, y int64) bool {
	for _, j := range t.placed {
		s := &t.at[j]
		if t.m.clash(s.kind, s.x, s.y, kind, x, y) {
			return false
		}
	}
	return true
}

func (t *tightFill) stand(b branch) {
	cl := t.m.cells[b.item][b.cell]
	t.at[b.item] = spot{true, b.cell, cl.kind, b.x, b.y}
	t.placed = append(t.placed, b.item)
	for k, zn := range t.zones {
		for _, f := range zn.covers[b.item][b.cell].rects {
			t.filled[k] = append(t.filled[k], forbid{f.x0 + b.x, f.y0 + b.y, f.x1 + b.x, f.y1 + b.y})
		}
	}
}

func (t *tightFill) lift(b branch) {
	t.at[b.item].placed = false
	t.placed = t.placed[:len(t.placed)-1]
	for k, zn := range t.zones {
		t.filled[k] = t.filled[k][:len(t.filled[k])-len(zn.covers[b.item][b.cell].rects)]
	}
}

// rest places the items that take nothing of the full zones, by the learning
// search, beside those that stand.
func (t *tightFill) rest() ([]Place, bool) {
	left := *t.m
	left.cells = slices.Clone(t.m.cells)
	for _, i := range t.placed {
		a := t.at[i]
		c := t.m.cells[i][a.cell]
		c.x0, c.x1, c.y0, c.y1 = a.x, a.x, a.y, a.y
		left.cells[i] = []cell{c}
	}
	left.findSame()
	out := newLearner(&left, nil).run(t.pc)
	return out.places, out.verdict == Undecided
}

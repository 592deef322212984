package tryout

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"footplank/layout"
)

const mm = layout.Millimetre

// row is a board as deep as its units, so that they stand in one row; all sizes
// and places are whole steps. What fits at all fits at whole steps then: push
// everything to the left.
type row struct {
	width      int
	slot       [2]int
	units      []block
	lineups    [][]int // swap units of each, in the slot
	candidate  int     // its width
	tried      []bool  // by line-up
	insteadOf  int     // a swap unit, or -1
	fixedPlace []int
	place      []map[int]int // of swap units by line-up
}

type block struct {
	width         int
	fixed, pinned bool
}

const step = 10 * mm

// plan is the row as a plan.
func (r *row) plan() *layout.Plan {
	p := &layout.Plan{
		Board: layout.Board{W: layout.Length(r.width) * step, D: 100 * mm, Kind: layout.Solid, Thickness: 15 * mm},
		Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Slot: "any"}, {Unit: layout.Amp}}},
	}
	p.Slots = []layout.Slot{{Name: "any", On: layout.DeckName, At: layout.Rect{X0: layout.Length(r.slot[0]) * step, X1: layout.Length(r.slot[1]) * step, Y1: 100 * mm}}}
	for i, b := range r.units {
		u := bare(fmt.Sprintf("u%d", i), b.width)
		if u.Pinned = b.pinned; b.fixed {
			u.Mount = layout.Fixed
			u.Place = at(r.fixedPlace[i])
		}
		p.Units = append(p.Units, u)
	}
	for k, ids := range r.lineups {
		l := layout.Lineup{Name: fmt.Sprintf("l%d", k), Fill: map[string][]string{}, Place: map[string]layout.Placement{}}
		for _, i := range ids {
			id := fmt.Sprintf("u%d", i)
			l.Fill["any"] = append(l.Fill["any"], id)
			l.Place[id] = *at(r.place[k][i])
		}
		p.Lineups = append(p.Lineups, l)
	}
	return p
}

func at(x int) *layout.Placement {
	return &layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(x) * step}}
}

func bare(id string, width int) layout.Unit {
	return layout.Unit{ID: id, Label: id, Mount: layout.Swap, Mass: 400 * layout.Gram,
		Body: layout.Size{W: layout.Length(width) * step, D: 100 * mm, H: 50 * mm}}
}

// span is where a unit may stand: swap units and the candidate in the slot.
func (r *row) span(i int) (int, int) {
	if i >= 0 && r.units[i].fixed {
		return 0, r.width
	}
	return r.slot[0], r.slot[1]
}

func (r *row) widthOf(i int) int {
	if i < 0 {
		return r.candidate
	}
	return r.units[i].width
}

// fits tries every arrangement at whole steps in which only the units of the set
// move, those of gone being left out.
func (r *row) fits(moves, gone uint) bool {
	var fixed []int
	for i, b := range r.units {
		if b.fixed && gone>>i&1 == 0 {
			fixed = append(fixed, i)
		}
	}
	var place func(k int, taken []bool) bool
	place = func(k int, taken []bool) bool {
		if k == len(fixed) {
			for l := range r.lineups {
				if !r.lineup(l, taken, moves, gone) {
					return false
				}
			}
			return true
		}
		i := fixed[k]
		lo, hi := 0, r.width-r.units[i].width
		if r.units[i].pinned || moves>>i&1 == 0 {
			lo, hi = r.fixedPlace[i], r.fixedPlace[i]
		}
		for x := lo; x <= hi; x++ {
			if now, ok := taking(taken, x, r.units[i].width); ok && place(k+1, now) {
				return true
			}
		}
		return false
	}
	return place(0, make([]bool, r.width))
}

// taking returns the row with so many steps from x taken.
func taking(taken []bool, x, w int) ([]bool, bool) {
	if x < 0 || x+w > len(taken) || slices.Contains(taken[x:x+w], true) {
		return nil, false
	}
	out := slices.Clone(taken)
	for i := x; i < x+w; i++ {
		out[i] = true
	}
	return out, true
}

// lineup tries every arrangement of one line-up beside its fixed units.
func (r *row) lineup(l int, taken []bool, moves, gone uint) bool {
	var ids []int
	for _, i := range r.lineups[l] {
		if gone>>i&1 == 0 && !(r.tried[l] && i == r.insteadOf) {
			ids = append(ids, i)
		}
	}
	if r.tried[l] {
		ids = append(ids, -1)
	}
	var place func(k int, taken []bool) bool
	place = func(k int, taken []bool) bool {
		if k == len(ids) {
			return true
		}
		i := ids[k]
		lo, hi := r.span(i)
		hi -= r.widthOf(i)
		if i >= 0 && (r.units[i].pinned || moves>>i&1 == 0) {
			lo, hi = r.place[l][i], r.place[l][i]
		}
		for x := lo; x <= hi; x++ {
			if now, ok := taking(taken, x, r.widthOf(i)); ok && place(k+1, now) {
				return true
			}
		}
		return false
	}
	return place(0, taken)
}

// fewest returns the fewest fixed units that move, with them the fewest others;
// -1 when nothing does.
func (r *row) fewest() (fixed, swap int) {
	best := -1
	for s := uint(0); s < 1<<len(r.units); s++ {
		cost := 0
		for i, b := range r.units {
			if s>>i&1 == 1 {
				cost++
				if b.fixed {
					cost += 99
				}
			}
		}
		if (best < 0 || cost < best) && r.fits(s, 0) {
			best = cost
		}
	}
	if best < 0 {
		return -1, -1
	}
	return best / 100, best % 100
}

// drawRow draws a row that is sound as it stands.
func drawRow(t *rapid.T) *row {
	r := &row{width: rapid.IntRange(9, 16).Draw(t, "width"), insteadOf: -1}
	lo := rapid.IntRange(0, 4).Draw(t, "slot from")
	r.slot = [2]int{lo, rapid.IntRange(lo+4, r.width).Draw(t, "slot to")}
	taken := make([]bool, r.width)
	for range rapid.IntRange(0, 2).Draw(t, "fixed") {
		b := block{rapid.IntRange(1, 4).Draw(t, "w"), true, rapid.IntRange(0, 3).Draw(t, "pinned") == 0}
		x := rapid.IntRange(0, r.width-b.width).Draw(t, "x")
		if now, ok := taking(taken, x, b.width); ok {
			taken = now
			r.units, r.fixedPlace = append(r.units, b), append(r.fixedPlace, x)
		}
	}
	swaps := rapid.IntRange(1, 3).Draw(t, "swap")
	first := len(r.units)
	for range swaps {
		r.units = append(r.units, block{width: rapid.IntRange(1, 4).Draw(t, "w")})
		r.fixedPlace = append(r.fixedPlace, 0)
	}
	for range rapid.IntRange(1, 2).Draw(t, "line-ups") {
		row, place := taken, map[int]int{}
		var ids []int
		for i := first; i < len(r.units); i++ {
			hi := r.slot[1] - r.units[i].width
			if !rapid.Bool().Draw(t, "in") || hi < r.slot[0] {
				continue
			}
			x := rapid.IntRange(r.slot[0], hi).Draw(t, "x")
			if now, ok := taking(row, x, r.units[i].width); ok {
				row = now
				ids, place[i] = append(ids, i), x
			}
		}
		r.lineups, r.place = append(r.lineups, ids), append(r.place, place)
		r.tried = append(r.tried, rapid.IntRange(0, 3).Draw(t, "tried") > 0)
	}
	if !slices.Contains(r.tried, true) {
		r.tried[0] = true
	}
	r.candidate = rapid.IntRange(1, 6).Draw(t, "candidate")
	if l := slices.Index(r.tried, true); rapid.Bool().Draw(t, "instead") && len(r.lineups[l]) > 0 {
		r.insteadOf = r.lineups[l][0]
		for k := range r.tried {
			r.tried[k] = r.tried[k] && slices.Contains(r.lineups[k], r.insteadOf)
		}
	}
	r.drop()
	return r
}

// drop takes out units that are in no line-up: they would be in all of them.
func (r *row) drop() {
	for i := len(r.units) - 1; i >= 0; i-- {
		used := r.units[i].fixed
		for _, ids := range r.lineups {
			used = used || slices.Contains(ids, i)
		}
		if used {
			continue
		}
		r.units, r.fixedPlace = slices.Delete(r.units, i, i+1), slices.Delete(r.fixedPlace, i, i+1)
		for l := range r.lineups {
			place := map[int]int{}
			for k, j := range r.lineups[l] {
				x := r.place[l][j]
				if j > i {
					r.lineups[l][k]--
					j--
				}
				place[j] = x
			}
			r.place[l] = place
		}
		if r.insteadOf > i {
			r.insteadOf--
		}
	}
}

func (r *row) question() Question {
	q := Question{Candidate: Candidate{Kind: OfForm, Name: "new", Unit: bare("new", r.candidate)}, Slot: "any"}
	for l, yes := range r.tried {
		if yes {
			q.Lineups = append(q.Lineups, fmt.Sprintf("l%d", l))
		}
	}
	if r.insteadOf >= 0 {
		q.InsteadOf = fmt.Sprintf("u%d", r.insteadOf)
	}
	return q
}

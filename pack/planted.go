package pack

import "math/rand/v2"

// The two line-ups of a planted board.
const (
	plantA    Mask = 1
	plantB    Mask = 2
	plantBoth      = plantA | plantB
)

// Heights of a planted board in micrometres: the riser's legs, its platform,
// and the band at jack height that is filled without waste.
const (
	plantClear = int64(55000)
	plantThick = int64(9000)
	plantJack0 = int64(15000)
	plantJack1 = int64(20000)
	plantLeg   = int64(18000)
)

// Planted makes a board problem of which the answer is known. A board with a
// riser is cut without waste, at jack height, into bodies and the plugs that
// interlock between them, once for each of two line-ups that share most items:
//
//	+--------+--+-----+        the strip between A and B is filled
//	|   A    |aa|     |        by plugs of both in turn; the whole
//	|        +--+  B  |        floor at that height is covered
//	|        |bb|     |
//	+--------+--+-----+
//
// The pieces are then turned and shuffled, and each may stand anywhere on the
// deck or the riser in its turns, plugs within the edges. With tooLarge one
// body is a millimetre wider, which cannot fit: at jack height there is more to
// place than floor. Items are at least 4; each has 3 to 5 boxes.
func Planted(seed int64, items int, tooLarge bool) *Problem {
	p, _ := planted(seed, items, tooLarge)
	return p
}

// planted also returns the places of the plan, which are an arrangement unless
// tooLarge.
func planted(seed int64, items int, tooLarge bool) (*Problem, []Place) {
	for try := uint64(0); ; try++ {
		pl := &planter{rng: rand.New(rand.NewPCG(uint64(seed), try))}
		if pl.cut(max(4, items)) {
			return pl.problem(tooLarge)
		}
	}
}

// plantPart is a rectangle of the plan at jack height that an item fills in
// some line-ups.
type plantPart struct {
	item   int
	plug   bool
	r      forbid
	groups Mask
}

type planter struct {
	rng    *rand.Rand
	w, d   int64 // of the board
	riser  int64 // depth of the riser, at the back
	groups []Mask
	level  []int // of each item: 0 in front, 1 under the riser, 2 on it
	parts  []plantPart
}

func (pl *planter) between(a, b int64) int64 { return a + pl.rng.Int64N(b-a+1) }

// cut makes the plan. It is false when a piece came out too small or with too
// many plugs.
func (pl *planter) cut(n int) bool {
	top := max(1, n/4)
	under := max(1, n/5)
	front := n - top - under
	const each = int64(9_000_000_000) // of floor for an item
	pl.w = pl.between(380_000, 620_000)
	pl.riser = max(60_000, int64(top)*each/pl.w)
	pl.d = pl.riser + max(60_000, int64(front)*each/pl.w)
	pl.groups = make([]Mask, n)
	pl.level = make([]int, n)
	for i := range pl.groups {
		pl.groups[i] = plantBoth
		switch {
		case i >= front+under:
			pl.level[i] = 2
		case i >= front:
			pl.level[i] = 1
		}
	}
	f := pl.d - pl.riser
	return pl.fill(0, forbid{0, 0, pl.w, f}, countUp(0, front), plantBoth) &&
		pl.fill(1, forbid{plantLeg, f, pl.w - plantLeg, pl.d}, countUp(front, front+under), plantBoth) &&
		pl.fill(2, forbid{0, f, pl.w, pl.d}, countUp(front+under, n), plantBoth) &&
		pl.fewEnough()
}

func countUp(a, b int) []int {
	var v []int
	for ; a < b; a++ {
		v = append(v, a)
	}
	return v
}

// fill cuts r for the items, which all are in groups.
func (pl *planter) fill(level int, r forbid, items []int, groups Mask) bool {
	w, d := r.x1-r.x0, r.y1-r.y0
	if w < 30_000 || d < 30_000 {
		return false
	}
	n := len(items)
	if n == 1 {
		pl.parts = append(pl.parts, plantPart{items[0], false, r, groups})
		return true
	}
	if groups == plantBoth && n <= 4 && pl.rng.IntN(3) == 0 {
		k := 1 + pl.rng.IntN(n-1)
		for x, i := range items {
			pl.groups[i] = plantA
			if x >= k {
				pl.groups[i] = plantB
			}
		}
		return pl.fill(level, r, items[:k], plantA) && pl.fill(level, r, items[k:], plantB)
	}
	k := max(1, min(n-1, n/2+pl.rng.IntN(3)-1))
	across := w > d // the cut runs from front to back
	long := max(w, d)
	strip := int64(0)
	if pl.rng.IntN(10) > 0 {
		strip = pl.between(12_000, 24_000)
	}
	at := (long-strip)*int64(k)/int64(n) + pl.between(-long/12, long/12)
	a, s, b := r, r, r
	if across {
		a.x1, s.x0, s.x1, b.x0 = r.x0+at, r.x0+at, r.x0+at+strip, r.x0+at+strip
	} else {
		a.y1, s.y0, s.y1, b.y0 = r.y0+at, r.y0+at, r.y0+at+strip, r.y0+at+strip
	}
	return pl.fill(level, a, items[:k], groups) && pl.fill(level, b, items[k:], groups) &&
		(strip == 0 || pl.interlock(level, s, across, groups))
}

// interlock fills strip s with plugs of the items on its two sides.
func (pl *planter) interlock(level int, s forbid, across bool, groups Mask) bool {
	ends := []int64{s.y0, s.y1}
	if !across {
		ends = []int64{s.x0, s.x1}
	}
	for _, p := range pl.parts {
		if pl.level[p.item] == level && (pl.touches(p, s, across, 0) || pl.touches(p, s, across, 1)) {
			if across {
				ends = append(ends, p.r.y0, p.r.y1)
			} else {
				ends = append(ends, p.r.x0, p.r.x1)
			}
		}
	}
	ends = distinct(ends)
	var made []plantPart
	side := pl.rng.IntN(2)
	for k := 0; k+1 < len(ends); k++ {
		for a := ends[k]; a < ends[k+1]; {
			b := a + pl.between(18_000, 50_000)
			if ends[k+1]-b < 18_000 {
				b = ends[k+1]
			}
			piece := s
			if across {
				piece.y0, piece.y1 = a, b
			} else {
				piece.x0, piece.x1 = a, b
			}
			if pl.rng.IntN(4) > 0 {
				side = 1 - side
			}
			got, ok := pl.assign(level, piece, across, side, groups)
			if !ok {
				return false
			}
			made = joinParts(made, got)
			a = b
		}
	}
	pl.parts = append(pl.parts, made...)
	return true
}

func (pl *planter) touches(p plantPart, s forbid, across bool, side int) bool {
	if across {
		return max(p.r.y0, s.y0) < min(p.r.y1, s.y1) &&
			(side == 0 && p.r.x1 == s.x0 || side == 1 && p.r.x0 == s.x1)
	}
	return max(p.r.x0, s.x0) < min(p.r.x1, s.x1) &&
		(side == 0 && p.r.y1 == s.y0 || side == 1 && p.r.y0 == s.y1)
}

// assign gives piece to a neighbour on the side, in each line-up of groups.
func (pl *planter) assign(level int, piece forbid, across bool, side int, groups Mask) ([]plantPart, bool) {
	var out []plantPart
	for g := plantA; g <= plantB; g <<= 1 {
		if groups&g == 0 {
			continue
		}
		owner := -1
		for _, p := range pl.parts {
			if pl.level[p.item] == level && p.groups&g != 0 && pl.touches(p, piece, across, side) {
				owner = p.item
			}
		}
		if owner < 0 {
			return nil, false
		}
		if len(out) == 1 && out[0].item == owner {
			out[0].groups |= g
		} else {
			out = append(out, plantPart{owner, true, piece, g})
		}
	}
	return out, true
}

// joinParts appends parts to made, joined to what they continue.
func joinParts(made, parts []plantPart) []plantPart {
next:
	for _, p := range parts {
		for k, q := range made {
			if q.item != p.item || q.groups != p.groups {
				continue
			}
			if q.r.x0 == p.r.x0 && q.r.x1 == p.r.x1 && q.r.y1 == p.r.y0 {
				made[k].r.y1 = p.r.y1
				continue next
			}
			if q.r.y0 == p.r.y0 && q.r.y1 == p.r.y1 && q.r.x1 == p.r.x0 {
				made[k].r.x1 = p.r.x1
				continue next
			}
		}
		made = append(made, p)
	}
	return made
}

func (pl *planter) fewEnough() bool {
	count := make([]int, len(pl.groups))
	for _, p := range pl.parts {
		count[p.item]++
		if count[p.item] > 5 {
			return false
		}
	}
	return true
}

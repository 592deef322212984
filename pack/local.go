package pack

import (
	"math/rand/v2"
	"slices"
)

// local is the repairing search: it keeps a set of items that stand without
// collision and inserts the others one by one where the sum of the weights of
// what they hit is least. What is hit is taken out again and the weight of that
// pair rises, so that items in each other's way learn to keep apart.
type local struct {
	m      *model
	rng    *rand.Rand
	pos    []spot
	weight [][]int64 // by pair: what it costs the row's item to push out the column's
	base   []int64
	tabu   []int64 // step until which an item resists being pushed out
	step   int64
	best   []spot // with the fewest items left out so far
	fewest int
	since  int // insertions since then or since the restart

	hits  []hit
	lines []int64
	spans []span
}

// spot is where an item stands.
type spot struct {
	placed bool
	cell   int
	kind   int
	x, y   int64
}

// hit is a forbidden rectangle of absolute origins, made by a placed item.
type hit struct {
	forbid
	owner int
	w     int64
}

type span struct {
	a, b  int64
	owner int
	w     int64
}

// choice is a place considered for an item.
type choice struct {
	cell int
	x, y int64
	cost int64
	tie  int64
}

func newLocal(m *model, seed int64) *local {
	n := len(m.cells)
	l := &local{m: m, rng: rand.New(rand.NewPCG(uint64(seed), 0x9e3779b97f4a7c15)),
		pos: make([]spot, n), best: make([]spot, n), fewest: n + 1, weight: make([][]int64, n), base: make([]int64, n), tabu: make([]int64, n)}
	areas, total := make([]float64, n), 1.0
	for i, cs := range m.cells {
		for _, c := range cs {
			areas[i] = max(areas[i], m.kinds[c.kind].area)
		}
		total += areas[i]
	}
	for i := range l.base {
		// A share of the whole in parts of 1000, plus a floor: small
		// items give way before large ones.
		l.base[i] = 40 + int64(areas[i]*1000/total)
	}
	for i := range l.weight {
		l.weight[i] = make([]int64, n)
		copy(l.weight[i], l.base)
	}
	return l
}

// runFor searches until all items stand or so many items were inserted; it may
// be called again to go on. The second result says whether the pacer still
// allows that.
func (l *local) runFor(pc *pacer, insertions int64) (outcome, bool) {
	n := len(l.m.cells)
	for end := l.step + insertions; ; {
		out := l.unplaced()
		if len(out) == 0 {
			return outcome{verdict: Fits, places: l.places()}, true
		}
		if len(out) < l.fewest {
			l.fewest, l.since = len(out), 0
			copy(l.best, l.pos)
		}
		if l.since++; l.since > 60*n+400 {
			l.restart()
		}
		if l.step >= end {
			return outcome{}, true
		}
		if !pc.tick(int64(2 + n/4)) {
			return outcome{}, false
		}
		l.insert(l.pick(out))
	}
}

// places returns the arrangement of a local search in which all items stand.
func (l *local) places() []Place {
	ps := make([]Place, len(l.pos))
	for i, s := range l.pos {
		ps[i] = Place{Region: l.m.cells[i][s.cell].region, X: s.x, Y: s.y}
	}
	return ps
}

// start stands items as they are in ps, as far as they do not collide.
func (l *local) start(ps []Place) {
	for i, p := range ps {
		for c, cl := range l.m.cells[i] {
			if cl.region == p.Region && cl.has(p.X, p.Y) && l.free(i, cl.kind, p.X, p.Y) {
				l.pos[i] = spot{true, c, cl.kind, p.X, p.Y}
				break
			}
		}
	}
}

func (l *local) free(i, kind int, x, y int64) bool {
	for j, s := range l.pos {
		if j != i && s.placed && l.m.clash(s.kind, s.x, s.y, kind, x, y) {
			return false
		}
	}
	return true
}

// restart clears the board. The weights fade by half, but stay.
func (l *local) restart() {
	l.since = 0
	for i := range l.pos {
		l.pos[i].placed = false
		for j := range l.weight[i] {
			l.weight[i][j] = (l.weight[i][j] + l.base[j]) / 2
		}
	}
}

func (l *local) unplaced() []int {
	var out []int
	for i, s := range l.pos {
		if !s.placed {
			out = append(out, i)
		}
	}
	return out
}

// pick returns the item to insert next: the largest, now and then any.
func (l *local) pick(out []int) int {
	if l.rng.IntN(8) == 0 {
		return out[l.rng.IntN(len(out))]
	}
	best, bestKey := out[0], int64(-1)
	for _, i := range out {
		if key := l.base[i] * int64(800+l.rng.IntN(400)); key > bestKey {
			best, bestKey = i, key
		}
	}
	return best
}

// insert stands item i where it hurts least and takes out what it hits.
func (l *local) insert(i int) {
	l.step++
	best := choice{cell: -1}
	for c := range l.m.cells[i] {
		l.scan(i, c, &best)
	}
	if best.cell < 0 {
		return
	}
	kind := l.m.cells[i][best.cell].kind
	for j, s := range l.pos {
		if j != i && s.placed && l.m.clash(s.kind, s.x, s.y, kind, best.x, best.y) {
			l.pos[j].placed = false
			l.weight[i][j] += 20 + l.base[j]/8
		}
	}
	l.pos[i] = spot{true, best.cell, kind, best.x, best.y}
	l.tabu[i] = l.step + 2 + l.rng.Int64N(6)
}

// scan looks for the best place of item i in its cell c. It tries lines through
// the edges of what is forbidden there; along each line all the contact places.
func (l *local) scan(i, c int, best *choice) {
	cl := l.m.cells[i][c]
	l.gather(i, cl)
	corner := l.rng.IntN(4)
	for axis := 0; axis < 2; axis++ {
		lo, hi := cl.x0, cl.x1
		if axis == 1 {
			lo, hi = cl.y0, cl.y1
		}
		l.lines = append(l.lines[:0], lo)
		if hi > lo {
			l.lines = append(l.lines, hi)
		}
		for _, h := range l.hits {
			a, b := h.x0, h.x1
			if axis == 1 {
				a, b = h.y0, h.y1
			}
			if a > lo {
				l.lines = append(l.lines, a)
			}
			if b < hi {
				l.lines = append(l.lines, b)
			}
		}
		l.lines = distinct(l.lines)
		for left := min(len(l.lines), 14); left > 0; left-- {
			k := l.rng.IntN(len(l.lines))
			at := l.lines[k]
			l.lines[k] = l.lines[len(l.lines)-1]
			l.lines = l.lines[:len(l.lines)-1]
			l.along(cl, c, axis, at, corner, best)
		}
	}
}

func distinct(v []int64) []int64 {
	slices.Sort(v)
	k := 0
	for i := range v {
		if i == 0 || v[i] != v[k-1] {
			v[k] = v[i]
			k++
		}
	}
	return v[:k]
}

// gather collects what the placed items forbid to item i in cell cl.
func (l *local) gather(i int, cl cell) {
	l.hits = l.hits[:0]
	for j, s := range l.pos {
		if j == i || !s.placed {
			continue
		}
		w := l.weight[i][j]
		if l.tabu[j] > l.step {
			w += 4000
		}
		for _, f := range l.m.between(s.kind, cl.kind) {
			g := forbid{f.x0 + s.x, f.y0 + s.y, f.x1 + s.x, f.y1 + s.y}
			if g.meets(cl) {
				l.hits = append(l.hits, hit{g, j, w})
			}
		}
	}
}

// along weighs the contact places of one line of cell cl.
func (l *local) along(cl cell, c, axis int, at int64, corner int, best *choice) {
	l.spans = l.spans[:0]
	lo, hi := cl.y0, cl.y1
	if axis == 1 {
		lo, hi = cl.x0, cl.x1
	}
	for _, h := range l.hits {
		if axis == 0 && h.x0 < at && at < h.x1 {
			l.spans = append(l.spans, span{h.y0, h.y1, h.owner, h.w})
		} else if axis == 1 && h.y0 < at && at < h.y1 {
			l.spans = append(l.spans, span{h.x0, h.x1, h.owner, h.w})
		}
	}
	try := func(v int64) {
		if v < lo || v > hi {
			return
		}
		cost, last := int64(0), -1
		for _, s := range l.spans {
			if s.a < v && v < s.b && s.owner != last {
				cost += s.w
				last = s.owner
				if best.cell >= 0 && cost > best.cost {
					return
				}
			}
		}
		x, y := at, v
		if axis == 1 {
			x, y = v, at
		}
		tie := cornerDistance(cl, x, y, corner) + l.rng.Int64N(1+(cl.x1-cl.x0+cl.y1-cl.y0)/8)
		if best.cell < 0 || cost < best.cost || tie < best.tie {
			*best = choice{c, x, y, cost, tie}
		}
	}
	try(lo)
	if hi > lo {
		try(hi)
	}
	for _, s := range l.spans {
		try(s.a)
		try(s.b)
	}
}

// cornerDistance is the way along the axes from (x, y) to a corner of cl.
func cornerDistance(cl cell, x, y int64, corner int) int64 {
	dx, dy := x-cl.x0, y-cl.y0
	if corner&1 != 0 {
		dx = cl.x1 - x
	}
	if corner&2 != 0 {
		dy = cl.y1 - y
	}
	return dx + dy
}

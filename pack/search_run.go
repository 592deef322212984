package pack

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// run searches until an arrangement or a contradiction without decisions.
func (l *learner) run(pc *pacer) outcome {
	out, _ := l.runFor(pc, 1<<62)
	return out
}

// runFor is run that comes back after so many contradictions; it may be called
// again to go on. The second result says whether the pacer still allows that.
func (l *learner) runFor(pc *pacer, contradictions int64) (outcome, bool) {
	for end := l.conflicts + contradictions; ; {
		if l.failed {
			return outcome{verdict: Impossible, reason: &Reason{Rule: "search", Items: allItems(l.n - 1), Nodes: pc.steps}}, true
		}
		if c := l.propagate(); c != nil {
			l.dropDirty()
			if !l.learn(c) {
				l.failed = true
				continue
			}
			l.budget--
			if !pc.tick(5) {
				return outcome{}, false
			}
			continue
		}
		if l.conflicts >= end {
			return outcome{}, true
		}
		if l.budget <= 0 {
			l.restarts++
			l.budget = 32 * restartLength(l.restarts)
			l.back(0)
			l.settle()
			l.reduce()
			continue
		}
		a, ok := l.pick()
		if !ok {
			return outcome{verdict: Fits, places: l.places()}, true
		}
		if !pc.tick(1) {
			return outcome{}, false
		}
		l.levels = append(l.levels, int32(len(l.steps)))
		l.raise(a, decided)
	}
}

// restartLength is the series 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 ... from k = 1.
func restartLength(k int64) int64 {
	for size := int64(1); ; size = 2*size + 1 {
		if k == size {
			return (size + 1) / 2
		}
		if k < 2*size+1 {
			k -= size
			size = 0
		}
	}
}

// settle makes what is known without decisions part of the start.
func (l *learner) settle() {
	if len(l.levels) > 0 || l.head < len(l.steps) {
		return
	}
	for _, st := range l.steps {
		l.last[st.s] = -1
	}
	l.steps, l.head = l.steps[:0], 0
}

func (l *learner) dropDirty() {
	for _, b := range l.dirty {
		l.bounds[b].waiting = false
	}
	l.dirty = l.dirty[:0]
	for _, q := range l.duePairs {
		l.pairs[q].due = false
	}
	l.duePairs = l.duePairs[:0]
}

// places reads the earliest arrangement off the bounds.
func (l *learner) places() []Place {
	ps := make([]Place, l.n-1)
	for i := range ps {
		for k, a := range l.cellAt[i] {
			if l.holds(a) {
				ps[i] = Place{Region: l.m.cells[i][k].region, X: l.lb[l.diff(0, 0, i+1)], Y: l.lb[l.diff(1, 0, i+1)]}
			}
		}
	}
	return ps
}

// pick chooses the next decision: a cell for an item, or a side of a forbidden
// rectangle that the earliest arrangement hits, whichever has been in more
// contradictions. Without either the earliest arrangement is an answer.
func (l *learner) pick() (atom, bool) {
	best, found, score, item := atom{}, false, -1.0, -1
	for i, as := range l.cellAt {
		if l.cellTaken(i) {
			continue
		}
		for k, a := range as {
			if l.broken(a) {
				continue
			}
			x := l.activity[a.s>>1] + 1e-9*l.m.kinds[l.m.cells[i][k].kind].area/1e12
			if x > score {
				best, found, score, item = a, true, x, i
			}
		}
	}
	for j := 1; j < l.n-1; j++ {
		kj := l.kindOf(j)
		if kj < 0 {
			continue
		}
		for i := 0; i < j; i++ {
			ki := l.kindOf(i)
			if ki < 0 {
				continue
			}
			x, y := l.diff(0, i+1, j+1), l.diff(1, i+1, j+1)
			dx := l.lb[l.diff(0, 0, j+1)] - l.lb[l.diff(0, 0, i+1)]
			dy := l.lb[l.diff(1, 0, j+1)] - l.lb[l.diff(1, 0, i+1)]
			for _, f := range l.m.between(ki, kj) {
				if !f.holds(dx, dy) {
					continue
				}
				if sc := max(l.activity[x>>1], l.activity[y>>1]); sc > score {
					best, found, score, item = l.side(i, j, x, y, f, dx, dy), true, sc, -1
				}
			}
		}
	}
	if item >= 0 {
		if w := l.wish[item]; w >= 0 && !l.broken(l.cellAt[item][w]) {
			best = l.cellAt[item][w]
		}
	}
	return best, found
}

// shake mixes what the search takes for important, so that it goes another way.
func (l *learner) shake(rng *rand.Rand) {
	l.back(0)
	l.dropDirty()
	for v := range l.activity {
		l.activity[v] = rng.Float64()
	}
	l.bump = 1
}

// hint has the search try what places suggests first: their cells, and which
// item is on which side of which. Items that do not stand suggest nothing.
func (l *learner) hint(at []spot) {
	for i, s := range at {
		l.wish[i] = -1
		if s.placed {
			l.wish[i] = s.cell
		}
	}
	for _, p := range l.pairs {
		a, b := at[p.i], at[p.j]
		if !a.placed || !b.placed {
			continue
		}
		dx, dy := b.x-a.x, b.y-a.y
		best := int64(-1)
		for _, f := range l.m.between(a.kind, b.kind)[:min(1, len(l.m.between(a.kind, b.kind)))] {
			for w, gap := range [4]int64{f.x0 - dx, dx - f.x1, f.y0 - dy, dy - f.y1} {
				if gap >= 0 && gap > best {
					best = gap
					l.sides[p.i*l.n+p.j] = int8(w + 1)
				}
			}
		}
	}
}

func (l *learner) cellTaken(i int) bool {
	for _, a := range l.cellAt[i] {
		if l.holds(a) {
			return true
		}
	}
	return false
}

// kindOf returns the kind that item i is known to take, or -1.
func (l *learner) kindOf(i int) int {
	for _, ka := range l.kindAt[i] {
		if l.holds(ka.a) {
			return ka.kind
		}
	}
	return -1
}

// side chooses the way out of f: as last time between i and j if that is still
// open, else the shortest.
func (l *learner) side(i, j int, x, y int32, f forbid, dx, dy int64) atom {
	ways := [4]atom{{x ^ 1, -f.x0}, {x, f.x1}, {y ^ 1, -f.y0}, {y, f.y1}}
	length := [4]int64{dx - f.x0, f.x1 - dx, dy - f.y0, f.y1 - dy}
	last := &l.sides[i*l.n+j]
	if w := *last - 1; w >= 0 && !l.broken(ways[w]) {
		return ways[w]
	}
	best := -1
	for w := range ways {
		if !l.broken(ways[w]) && (best < 0 || length[w] < length[best]) {
			best = w
		}
	}
	*last = int8(best + 1)
	return ways[best]
}

// learn turns a contradiction into a clause, goes back to where it is first of
// use and draws its conclusion. It is false when nothing is left to go back to.
func (l *learner) learn(c conflict) bool {
	for len(l.need) < len(l.steps) {
		l.need = append(l.need, 0)
		l.marked = append(l.marked, false)
	}
	limit := int32(len(l.steps))
	level := 0
	for _, a := range c {
		if k := l.maker(a, limit); k >= 0 {
			level = max(level, l.levelOf(k))
		}
	}
	if level == 0 {
		return false
	}
	l.conflicts++
	base := l.levels[level-1]
	open, lower := 0, []int32(nil)
	mark := func(a atom, limit int32) {
		k := l.maker(a, limit)
		if k < l.levels[0] {
			return
		}
		l.activity[a.s>>1] += l.bump
		if l.marked[k] {
			l.need[k] = max(l.need[k], a.c)
			return
		}
		l.marked[k], l.need[k] = true, a.c
		if k >= base {
			open++
		} else {
			lower = append(lower, k)
		}
	}
	for _, a := range c {
		mark(a, limit)
	}
	k := limit - 1
	for ; ; k-- {
		if !l.marked[k] {
			continue
		}
		if open == 1 {
			break
		}
		st := l.steps[k]
		l.marked[k] = false
		open--
		l.out = l.explain(atom{st.s, l.need[k]}, st.reason, k, l.out[:0])
		for _, a := range l.out {
			mark(a, k)
		}
	}
	cl := &clause{learned: true, atoms: []atom{atom{l.steps[k].s, l.need[k]}.opposite()}}
	first := l.steps[k].s
	kept := l.shorten(lower)
	slices.SortFunc(kept, func(a, b int32) int { return cmp.Compare(b, a) })
	lastLevel := -1
	for _, q := range kept {
		s := l.steps[q].s
		if s == first || slices.ContainsFunc(cl.atoms, func(a atom) bool { return a.s == s^1 }) {
			continue // a later step of the view says more
		}
		cl.atoms = append(cl.atoms, atom{s, l.need[q]}.opposite())
		if lv := l.levelOf(q); lv != lastLevel {
			lastLevel = lv
			cl.lbd++
		}
	}
	to := 0
	if len(cl.atoms) > 1 {
		to = l.levelOf(l.maker(cl.atoms[1].opposite(), limit))
	}
	l.marked[k] = false
	for _, q := range lower {
		l.marked[q] = false
	}
	l.back(to)
	l.fade()
	if len(cl.atoms) > 1 {
		l.attach(cl)
		cl.activity = float32(l.conflicts)
		l.raise(cl.atoms[0], why{cl: cl, u: -1})
		return true
	}
	return l.set(cl.atoms[0], decided) == nil
}

// shorten leaves out steps that the other marked ones imply.
func (l *learner) shorten(lower []int32) []int32 {
	var kept []int32
	for _, k := range lower {
		st := l.steps[k]
		if st.reason == decided {
			kept = append(kept, k)
			continue
		}
		l.out = l.explain(atom{st.s, l.need[k]}, st.reason, k, l.out[:0])
		for _, a := range l.out {
			q := l.maker(a, k)
			if q >= l.levels[0] && (!l.marked[q] || l.need[q] < a.c) {
				kept = append(kept, k)
				break
			}
		}
	}
	return kept
}

// fade makes contradictions of the past count less.
func (l *learner) fade() {
	l.bump /= 0.92
	if l.bump > 1e100 {
		for v := range l.activity {
			l.activity[v] *= 1e-100
		}
		l.bump *= 1e-100
	}
}

// maxAtoms bounds what learned clauses hold, at 16 bytes an atom.
const maxAtoms = 6 << 20

// reduce forgets the less useful half of the learned clauses when there are
// many. Nothing is decided when it is called.
func (l *learner) reduce() {
	if len(l.learned) < 4000+int(l.conflicts/8) && l.atomsHeld < maxAtoms {
		return
	}
	slices.SortStableFunc(l.learned, func(a, b *clause) int {
		if (a.lbd <= 2) != (b.lbd <= 2) {
			if a.lbd <= 2 {
				return -1
			}
			return 1
		}
		if c := cmp.Compare(a.lbd, b.lbd); c != 0 {
			return c
		}
		return cmp.Compare(b.activity, a.activity)
	})
	half := len(l.learned) / 2
	for _, cl := range l.learned[half:] {
		cl.gone = true
		l.atomsHeld -= int64(len(cl.atoms))
	}
	clear(l.learned[half:])
	l.learned = l.learned[:half]
	for s := range l.watches {
		l.watches[s].purge()
	}
}

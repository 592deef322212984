package pack

// learner is the complete search: decisions, propagation and clauses learned
// from contradictions, over whole-number variables of any size. Its variables
// are the differences of the coordinates of any two items, with the origin of
// the board as item 0, and one 0/1 variable for each cell of an item.
type learner struct {
	trail
	m      *model
	n      int // items and the board's origin
	view   [2][]int32
	pairOf []pairRef // by variable: which difference it is; axis -1 for 0/1
	cellAt [][]atom  // by item and cell: the cell is taken
	kindAt [][]kindAtom

	pairs    []itemPair
	pairAt   []int32   // by node and node: the pair, or -1
	pairsOf  [][]int32 // by item
	kindItem []int32   // by view: the item that takes a kind when it is 1, or -1
	duePairs []int32
	hits     []collision

	watches []watchList
	clauses []*clause
	learned []*clause
	bounds  []*loadBound
	loadsOn [][]int32 // by view: the bounds to look at
	dirty   []int32
	failed  bool // contradiction without any decision

	activity []float64 // by variable
	bump     float64
	wish     []int  // by item: the cell to try first, or -1
	sides    []int8 // by collision number: the way it was last resolved

	need      []int64 // by step, during analysis
	marked    []bool
	out       []atom
	conflicts int64
	restarts  int64
	budget    int64 // contradictions until the next restart
	atomsHeld int64

	adding      []atom // by add
	freeAtoms   []atom // for clauses to come
	freeClauses []clause
}

// pairRef names a difference variable: v's coordinate less u's.
type pairRef struct {
	axis, u, v int32
}

// kindAtom says that an item takes one of its kinds.
type kindAtom struct {
	kind int
	a    atom
}

// conflict is a contradiction: atoms that hold but cannot all hold.
type conflict []atom

// set makes a hold for reason. It returns what contradicts it, if anything.
func (l *learner) set(a atom, reason why) conflict {
	if l.lb[a.s] >= a.c {
		return nil
	}
	if l.lb[a.s^1] >= 1-a.c {
		if reason.sum() {
			a.c = 1 - l.lb[a.s^1] // no more is needed to contradict
		}
		c := l.explain(a, reason, int32(len(l.steps)), nil)
		return append(c, a.opposite())
	}
	l.raise(a, reason)
	return nil
}

// explain appends atoms that held before step limit and together made a hold.
func (l *learner) explain(a atom, reason why, limit int32, to []atom) []atom {
	if reason.cl != nil {
		for _, b := range reason.cl.atoms {
			if b.s != a.s { // a clause has each view once
				to = append(to, b.opposite())
			}
		}
		return to
	}
	if reason.u == hitReason {
		for _, b := range l.hits[reason.v].atoms() {
			if b.s != a.s {
				to = append(to, b.opposite())
			}
		}
		return to
	}
	u, v := l.before(reason.u, limit), l.before(reason.v, limit)
	// What the sum exceeds the need by is given to one of the two, so that
	// an older and weaker bound of it may do.
	spare := u + v - a.c
	return append(to, atom{reason.u, u - spare}, atom{reason.v, v})
}

// propagate draws all conclusions from the steps that are still to be looked
// at.
func (l *learner) propagate() conflict {
	for {
		for l.head < len(l.steps) {
			k := l.head
			l.head++
			st := l.steps[k]
			if c := l.wake(st); c != nil {
				return c
			}
			if l.lb[st.s] == st.now {
				if p := l.pairOf[st.s>>1]; p.axis >= 0 {
					if c := l.sums(st.s, p); c != nil {
						return c
					}
					l.duePair(l.pairAt[int(p.u)*l.n+int(p.v)])
				} else if i := l.kindItem[st.s]; i >= 0 {
					for _, q := range l.pairsOf[i] {
						l.duePair(q)
					}
				}
			}
			for _, b := range l.loadsOn[st.s] {
				if !l.bounds[b].waiting {
					l.bounds[b].waiting = true
					l.dirty = append(l.dirty, b)
				}
			}
		}
		if len(l.duePairs) > 0 {
			q := l.duePairs[len(l.duePairs)-1]
			l.duePairs = l.duePairs[:len(l.duePairs)-1]
			l.pairs[q].due = false
			if c := l.separate(&l.pairs[q]); c != nil {
				return c
			}
			continue
		}
		if len(l.dirty) == 0 {
			return nil
		}
		b := l.bounds[l.dirty[len(l.dirty)-1]]
		l.dirty = l.dirty[:len(l.dirty)-1]
		b.waiting = false
		if c := b.check(l); c != nil {
			return c
		}
	}
}

// sums passes a raised difference on: v-u and w-v give w-u.
func (l *learner) sums(s int32, p pairRef) conflict {
	u, v := int(p.u), int(p.v)
	if s&1 != 0 {
		u, v = v, u
	}
	view, n := l.view[p.axis], l.n
	rowU, rowV := view[u*n:u*n+n], view[v*n:v*n+n]
	raised := l.lb[s]
	for w := 0; w < n; w++ {
		if w == u || w == v {
			continue
		}
		vw, uw := rowV[w], rowU[w]
		if x := raised + l.lb[vw]; x > l.lb[uw] {
			if c := l.set(atom{uw, x}, why{u: s, v: vw}); c != nil {
				return c
			}
		}
		wu, wv := uw^1, vw^1
		if x := raised + l.lb[wu]; x > l.lb[wv] {
			if c := l.set(atom{wv, x}, why{u: s, v: wu}); c != nil {
				return c
			}
		}
	}
	return nil
}

// add puts a clause in while nothing is decided. Atoms of the same view are
// joined to the weaker.
func (l *learner) add(atoms ...atom) {
	as := l.adding[:0]
	for _, a := range atoms {
		if l.holds(a) {
			return
		}
		if l.broken(a) {
			continue
		}
		joined := false
		for k := range as {
			if as[k].s == a.s {
				as[k].c = min(as[k].c, a.c)
				joined = true
			}
		}
		if !joined {
			as = append(as, a)
		}
	}
	l.adding = as
	switch len(as) {
	case 0:
		l.failed = true
	case 1:
		if l.set(as[0], decided) != nil {
			l.failed = true
		}
	default:
		l.attach(l.written(as))
	}
}

// written returns a clause that is never forgotten. There are thousands of them,
// so they are made many at a time.
func (l *learner) written(as []atom) *clause {
	const many = 256
	if len(l.freeAtoms) < len(as) {
		l.freeAtoms = make([]atom, many*4+len(as))
	}
	if len(l.freeClauses) == 0 {
		l.freeClauses = make([]clause, many)
	}
	cl := &l.freeClauses[0]
	l.freeClauses = l.freeClauses[1:]
	cl.atoms = l.freeAtoms[:len(as):len(as)]
	l.freeAtoms = l.freeAtoms[len(as):]
	copy(cl.atoms, as)
	return cl
}

func (l *learner) attach(cl *clause) {
	if cl.learned {
		l.learned = append(l.learned, cl)
		l.atomsHeld += int64(len(cl.atoms))
	} else {
		l.clauses = append(l.clauses, cl)
	}
	l.watchAtom(cl.atoms[0], cl, cl.atoms[1])
	l.watchAtom(cl.atoms[1], cl, cl.atoms[0])
}

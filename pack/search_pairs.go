package pack

// itemPair holds what could collide between two items i < j.
type itemPair struct {
	i, j int
	x, y int32     // views of the differences, j less i
	hits [][]int32 // by kind of i and kind of j, one after the other: first and end in learner.hits
	due  bool
}

// collision is one forbidden rectangle between two kinds. It is a clause that is
// not written down: a is not taken, or b is not, or one of the four sides holds.
type collision struct {
	a, b atom
	x, y int32
	f    forbid
}

func (h *collision) sides() [4]atom {
	return [4]atom{{h.x ^ 1, -h.f.x0}, {h.x, h.f.x1}, {h.y ^ 1, -h.f.y0}, {h.y, h.f.y1}}
}

func (h *collision) atoms() [6]atom {
	s := h.sides()
	return [6]atom{h.a.opposite(), h.b.opposite(), s[0], s[1], s[2], s[3]}
}

// makePairs lists the pairs of items that could collide.
func (l *learner) makePairs() {
	n := l.n
	l.pairAt = make([]int32, n*n)
	for k := range l.pairAt {
		l.pairAt[k] = -1
	}
	l.pairsOf = make([][]int32, n-1)
	l.kindItem = make([]int32, len(l.lb))
	for k := range l.kindItem {
		l.kindItem[k] = -1
	}
	for i, kas := range l.kindAt {
		for _, ka := range kas {
			l.kindItem[ka.a.s] = int32(i)
		}
	}
	hits, rows := 0, 0
	for j := range l.m.cells {
		for i := range j {
			for _, ka := range l.kindAt[i] {
				for _, kb := range l.kindAt[j] {
					hits += len(l.m.between(ka.kind, kb.kind))
				}
			}
			rows += len(l.kindAt[i]) * (len(l.kindAt[j]) + 1)
		}
	}
	l.hits = make([]collision, 0, hits)
	free := make([]int32, 0, rows)
	for j := range l.m.cells {
		for i := range j {
			free = l.makePair(i, j, free)
		}
	}
}

// makePair makes the pair of two items; its rows are taken off free.
func (l *learner) makePair(i, j int, free []int32) []int32 {
	p := itemPair{i: i, j: j, x: l.diff(0, i+1, j+1), y: l.diff(1, i+1, j+1)}
	any := false
	p.hits = make([][]int32, 0, len(l.kindAt[i]))
	for _, ka := range l.kindAt[i] {
		row := free
		for _, kb := range l.kindAt[j] {
			row = append(row, int32(len(l.hits)))
			for _, f := range l.m.between(ka.kind, kb.kind) {
				l.hits = append(l.hits, collision{ka.a, kb.a, p.x, p.y, f})
				any = true
			}
		}
		row = append(row, int32(len(l.hits)))
		p.hits = append(p.hits, row)
		free = row[len(row):]
	}
	if !any {
		return free
	}
	q := int32(len(l.pairs))
	l.pairs = append(l.pairs, p)
	l.pairAt[(i+1)*l.n+j+1], l.pairAt[(j+1)*l.n+i+1] = q, q
	l.pairsOf[i] = append(l.pairsOf[i], q)
	l.pairsOf[j] = append(l.pairsOf[j], q)
	l.duePair(q)
	return free
}

func (l *learner) duePair(q int32) {
	if q >= 0 && !l.pairs[q].due {
		l.pairs[q].due = true
		l.duePairs = append(l.duePairs, q)
	}
}

// separate draws the conclusions for a pair of which at least one kind is
// known: a rectangle with a single side left puts the pair there, one with none
// rules out the kind that is still open.
func (l *learner) separate(p *itemPair) conflict {
	a, b := l.takenKind(p.i), l.takenKind(p.j)
	switch {
	case a >= 0 && b >= 0:
		return l.apart(p, a, b, false)
	case a >= 0:
		for b := range l.kindAt[p.j] {
			if !l.broken(l.kindAt[p.j][b].a) {
				if c := l.apart(p, a, b, true); c != nil {
					return c
				}
			}
		}
	case b >= 0:
		for a := range l.kindAt[p.i] {
			if !l.broken(l.kindAt[p.i][a].a) {
				if c := l.apart(p, a, b, true); c != nil {
					return c
				}
			}
		}
	}
	return nil
}

// takenKind returns which of its kinds item i is known to take, or -1.
func (l *learner) takenKind(i int) int {
	for k := range l.kindAt[i] {
		if l.holds(l.kindAt[i][k].a) {
			return k
		}
	}
	return -1
}

func (l *learner) apart(p *itemPair, a, b int, open bool) conflict {
	row := p.hits[a]
	x0, x1, y0, y1 := l.lb[p.x], -l.lb[p.x^1], l.lb[p.y], -l.lb[p.y^1]
	for q := row[b]; q < row[b+1]; q++ {
		f := &l.hits[q].f
		if x1 <= f.x0 || x0 >= f.x1 || y1 <= f.y0 || y0 >= f.y1 {
			continue
		}
		ways, way := 0, 0
		if x0 <= f.x0 {
			ways, way = 1, 0
		}
		if x1 >= f.x1 {
			ways, way = ways+1, 1
		}
		if y0 <= f.y0 {
			ways, way = ways+1, 2
		}
		if y1 >= f.y1 {
			ways, way = ways+1, 3
		}
		if ways > 1 || ways == 1 && open {
			continue
		}
		var c conflict
		h := &l.hits[q]
		switch {
		case ways == 1:
			c = l.set(h.sides()[way], why{u: hitReason, v: q})
		case !l.holds(h.a):
			c = l.set(h.a.opposite(), why{u: hitReason, v: q})
		default:
			c = l.set(h.b.opposite(), why{u: hitReason, v: q})
		}
		if c != nil {
			return c
		}
		if open {
			return nil // that kind is out
		}
		x0, x1, y0, y1 = l.lb[p.x], -l.lb[p.x^1], l.lb[p.y], -l.lb[p.y^1]
	}
	return nil
}

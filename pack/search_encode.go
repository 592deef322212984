package pack

import "slices"

// newLearner writes the model down as variables and clauses, with the area
// bounds of loads.
func newLearner(m *model, loads []tight) *learner {
	l := &learner{m: m, n: len(m.cells) + 1, bump: 1}
	l.differences()
	l.cellVars()
	l.watches = make([]watchList, len(l.lb))
	l.loadsOn = make([][]int32, len(l.lb))
	l.activity = make([]float64, len(l.lb)/2)
	l.sides = make([]int8, l.n*l.n)
	l.wish = make([]int, len(m.cells))
	for i := range m.cells {
		l.wish[i] = -1
		l.oneCell(i)
		l.cellEdges(i)
	}
	l.makePairs()
	for j := range m.cells {
		l.orderTwins(j)
	}
	l.addLoads(loads)
	return l
}

// differences makes the difference variables with the bounds that the cells
// give. Item i is node i+1, node 0 the origin of the board.
func (l *learner) differences() {
	n := l.n
	for a := range l.view {
		l.view[a] = make([]int32, n*n)
		lo, hi := make([]int64, n), make([]int64, n)
		for i, cs := range l.m.cells {
			for k, c := range cs {
				c0, c1 := c.x0, c.x1
				if a == 1 {
					c0, c1 = c.y0, c.y1
				}
				if k == 0 {
					lo[i+1], hi[i+1] = c0, c1
				}
				lo[i+1], hi[i+1] = min(lo[i+1], c0), max(hi[i+1], c1)
			}
		}
		for v := range n {
			for u := range v {
				s := l.newVar(lo[v]-hi[u], hi[v]-lo[u])
				l.view[a][u*n+v], l.view[a][v*n+u] = s, s^1
				l.pairOf = append(l.pairOf, pairRef{int32(a), int32(u), int32(v)})
			}
		}
	}
}

func (l *learner) diff(axis, u, v int) int32 { return l.view[axis][u*l.n+v] }

func (l *learner) newBool() atom {
	l.pairOf = append(l.pairOf, pairRef{axis: -1})
	return atom{l.newVar(0, 1), 1}
}

// cellVars makes the 0/1 variables.
func (l *learner) cellVars() {
	l.cellAt = make([][]atom, len(l.m.cells))
	l.kindAt = make([][]kindAtom, len(l.m.cells))
	for i, cs := range l.m.cells {
		count := map[int]int{}
		for _, c := range cs {
			l.cellAt[i] = append(l.cellAt[i], l.newBool())
			count[c.kind]++
		}
		for k, c := range cs {
			if slices.ContainsFunc(l.kindAt[i], func(x kindAtom) bool { return x.kind == c.kind }) {
				continue
			}
			a := l.cellAt[i][k]
			if count[c.kind] > 1 {
				a = l.newBool()
			}
			l.kindAt[i] = append(l.kindAt[i], kindAtom{c.kind, a})
		}
	}
}

// oneCell says that item i takes exactly one cell, and which kind that makes.
func (l *learner) oneCell(i int) {
	l.add(l.cellAt[i]...)
	for k, a := range l.cellAt[i] {
		for _, b := range l.cellAt[i][:k] {
			l.add(a.opposite(), b.opposite())
		}
	}
	for _, ka := range l.kindAt[i] {
		some := []atom{ka.a.opposite()}
		for k, a := range l.cellAt[i] {
			if l.m.cells[i][k].kind == ka.kind && a != ka.a {
				l.add(a.opposite(), ka.a)
				some = append(some, a)
			}
		}
		if len(some) > 1 {
			l.add(some...)
		}
	}
	for k, ka := range l.kindAt[i] {
		for _, kb := range l.kindAt[i][:k] {
			l.add(ka.a.opposite(), kb.a.opposite())
		}
	}
}

// cellEdges ties the cells of item i to its coordinates: a cell bounds them, and
// they are bounded by the hull of the cells that are left.
func (l *learner) cellEdges(i int) {
	for side := 0; side < 4; side++ {
		s := l.diff(side/2, 0, i+1) ^ int32(side&1)
		var ends []int64
		edge := make([]int64, len(l.cellAt[i]))
		for k, c := range l.m.cells[i] {
			edge[k] = [...]int64{c.x0, -c.x1, c.y0, -c.y1}[side]
			ends = append(ends, edge[k])
			l.add(l.cellAt[i][k].opposite(), atom{s, edge[k]})
		}
		for _, v := range distinct(ends) {
			cl := []atom{{s, v}}
			for k, a := range l.cellAt[i] {
				if edge[k] < v {
					cl = append(cl, a)
				}
			}
			l.add(cl...)
		}
	}
}

// orderTwins puts item j behind the item equal to it: in a later cell, or in
// the same and not to its left.
func (l *learner) orderTwins(j int) {
	i := l.m.same[j]
	if i < 0 {
		return
	}
	for k, a := range l.cellAt[i] {
		l.add(a.opposite(), l.cellAt[j][k].opposite(), atom{l.diff(0, i+1, j+1), 0})
		for k2 := 0; k2 < k; k2++ {
			l.add(a.opposite(), l.cellAt[j][k2].opposite())
		}
	}
}

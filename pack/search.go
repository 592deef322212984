package pack

// relative is a complete search over relative placement: each item gets a cell,
// and of each forbidden rectangle that the earliest arrangement breaks, the
// difference is put to its left, right, front or back. What was decided is a
// set of bounds on differences of coordinates; it needs no grid.
type relative struct {
	m  *model
	pc *pacer
}

// edge says v - u <= c on one axis.
type edge struct {
	u, v int
	c    int64
}

type relState struct {
	cell  []int // -1 while open
	lo    [2][]int64
	hi    [2][]int64
	edges [2][]edge
}

func newRelState(n int) *relState {
	s := &relState{cell: make([]int, n)}
	for i := range s.cell {
		s.cell[i] = -1
	}
	for a := range s.lo {
		s.lo[a], s.hi[a] = make([]int64, n), make([]int64, n)
	}
	return s
}

func (s *relState) clone() *relState {
	t := &relState{cell: append([]int(nil), s.cell...)}
	for a := range s.lo {
		t.lo[a] = append([]int64(nil), s.lo[a]...)
		t.hi[a] = append([]int64(nil), s.hi[a]...)
		t.edges[a] = append([]edge(nil), s.edges[a]...)
	}
	return t
}

func (r *relative) run(pc *pacer) outcome {
	r.pc = pc
	s, stopped := r.dfs(newRelState(len(r.m.cells)))
	switch {
	case s != nil:
		return outcome{verdict: Fits, places: r.places(s)}
	case stopped:
		return outcome{}
	}
	return outcome{verdict: Impossible, reason: &Reason{Rule: "search", Items: allItems(len(r.m.cells)), Nodes: pc.steps}}
}

// places reads the earliest arrangement off s.
func (r *relative) places(s *relState) []Place {
	ps := make([]Place, len(s.cell))
	for i, c := range s.cell {
		ps[i] = Place{Region: r.m.cells[i][c].region, X: s.lo[0][i], Y: s.lo[1][i]}
	}
	return ps
}

func allItems(n int) []int {
	v := make([]int, n)
	for i := range v {
		v[i] = i
	}
	return v
}

// dfs returns a state whose earliest arrangement is free of collisions, or nil;
// stopped says that the search was cut short.
func (r *relative) dfs(s *relState) (found *relState, stopped bool) {
	if !r.pc.tick(1) {
		return nil, true
	}
	if !r.propagate(s) {
		return nil, false
	}
	item, cells, ok := r.openItem(s)
	if !ok {
		return nil, false
	}
	if item >= 0 {
		for _, c := range cells {
			t := s.clone()
			t.set(r.m, item, c)
			if found, stopped = r.dfs(t); found != nil || stopped {
				return found, stopped
			}
		}
		return nil, false
	}
	i, j, f, any := r.broken(s)
	if !any {
		return s, false
	}
	for _, d := range s.ways(i, j, f) {
		t := s.clone()
		t.edges[d.axis] = append(t.edges[d.axis], d.edge)
		if found, stopped = r.dfs(t); found != nil || stopped {
			return found, stopped
		}
	}
	return nil, false
}

func (s *relState) set(m *model, i, c int) {
	cl := m.cells[i][c]
	s.cell[i] = c
	s.lo[0][i], s.hi[0][i], s.lo[1][i], s.hi[1][i] = cl.x0, cl.x1, cl.y0, cl.y1
}

// way is one of the four sides of a forbidden rectangle.
type way struct {
	axis int
	edge edge
}

// ways lists the sides of f that the bounds of i and j still allow.
func (s *relState) ways(i, j int, f forbid) []way {
	var out []way
	for a := 0; a < 2; a++ {
		f0, f1 := f.x0, f.x1
		if a == 1 {
			f0, f1 = f.y0, f.y1
		}
		if s.lo[a][j]-s.hi[a][i] <= f0 {
			out = append(out, way{a, edge{i, j, f0}})
		}
		if s.hi[a][j]-s.lo[a][i] >= f1 {
			out = append(out, way{a, edge{j, i, -f1}})
		}
	}
	return out
}

// settled reports whether the bounds already keep f from being hit.
func (s *relState) settled(i, j int, f forbid) bool {
	return s.hi[0][j]-s.lo[0][i] <= f.x0 || s.lo[0][j]-s.hi[0][i] >= f.x1 ||
		s.hi[1][j]-s.lo[1][i] <= f.y0 || s.lo[1][j]-s.hi[1][i] >= f.y1
}

func (r *relative) propagate(s *relState) bool {
	for {
		for a := 0; a < 2; a++ {
			if !s.tighten(a) {
				return false
			}
		}
		posted := false
		for j := range s.cell {
			for i := 0; i < j; i++ {
				if s.cell[i] < 0 || s.cell[j] < 0 {
					continue
				}
				for _, f := range r.table(s, i, j) {
					if s.settled(i, j, f) {
						continue
					}
					w := s.ways(i, j, f)
					if len(w) == 0 {
						return false
					}
					if len(w) == 1 && !s.posted(w[0]) {
						s.edges[w[0].axis] = append(s.edges[w[0].axis], w[0].edge)
						posted = true
					}
				}
			}
		}
		if !posted {
			return true
		}
	}
}

func (s *relState) posted(w way) bool {
	for _, e := range s.edges[w.axis] {
		if e.u == w.edge.u && e.v == w.edge.v && e.c <= w.edge.c {
			return true
		}
	}
	return false
}

func (r *relative) table(s *relState, i, j int) []forbid {
	return r.m.between(r.m.cells[i][s.cell[i]].kind, r.m.cells[j][s.cell[j]].kind)
}

// tighten brings the bounds of one axis to rest. Without a contradiction that
// takes at most as many passes as there are items.
func (s *relState) tighten(a int) bool {
	lo, hi := s.lo[a], s.hi[a]
	for pass := 0; ; pass++ {
		moved := false
		for _, e := range s.edges[a] {
			if v := lo[e.v] - e.c; v > lo[e.u] {
				lo[e.u], moved = v, true
			}
			if v := hi[e.u] + e.c; v < hi[e.v] {
				hi[e.v], moved = v, true
			}
		}
		for i := range lo {
			if lo[i] > hi[i] {
				return false
			}
		}
		if !moved {
			return true
		}
		if pass > len(lo) {
			return false
		}
	}
}

// openItem returns the item without a cell that has the fewest cells left, and
// those. It is false when an item has none.
func (r *relative) openItem(s *relState) (item int, cells []int, ok bool) {
	item = -1
	for i, c := range s.cell {
		if c >= 0 {
			continue
		}
		var left []int
		for k, cl := range r.m.cells[i] {
			if r.possible(s, i, k, cl) {
				left = append(left, k)
			}
		}
		if len(left) == 0 {
			return i, nil, false
		}
		if item < 0 || len(left) < len(cells) {
			item, cells = i, left
		}
	}
	return item, cells, true
}

func (r *relative) possible(s *relState, i, k int, cl cell) bool {
	t := &relState{lo: [2][]int64{{cl.x0, 0}, {cl.y0, 0}}, hi: [2][]int64{{cl.x1, 0}, {cl.y1, 0}}}
	for j, c := range s.cell {
		if c < 0 {
			continue
		}
		for a := 0; a < 2; a++ {
			t.lo[a][1], t.hi[a][1] = s.lo[a][j], s.hi[a][j]
		}
		for _, f := range r.m.between(cl.kind, r.m.cells[j][c].kind) {
			if len(t.ways(0, 1, f)) == 0 {
				return false
			}
		}
	}
	return true
}

// broken returns the rectangle with the fewest ways left among those that the
// earliest arrangement hits.
func (r *relative) broken(s *relState) (bi, bj int, bf forbid, any bool) {
	least := 5
	for j := range s.cell {
		for i := 0; i < j; i++ {
			for _, f := range r.table(s, i, j) {
				if !f.holds(s.lo[0][j]-s.lo[0][i], s.lo[1][j]-s.lo[1][i]) {
					continue
				}
				if w := len(s.ways(i, j, f)); w < least {
					least, bi, bj, bf, any = w, i, j, f, true
				}
			}
		}
	}
	return bi, bj, bf, any
}

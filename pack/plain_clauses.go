package pack

// cdcl decides a set of clauses by conflict-driven learning: guess a literal,
// draw all unit consequences, and at a contradiction learn the clause that
// would have prevented it (cut at the first unique implication point), go
// back to where that clause first speaks and forget what proves useless.
//
// A literal is 2*v for variable v being true, 2*v+1 for it being false.
type cdcl struct {
	arena    []uint32    // clauses: a header of three words, then literals
	watches  [][]watcher // by literal: clauses to look at once it is false
	learnts  []uint32    // where learnt clauses start in arena
	value    []int8      // by literal: 1 true, -1 false, 0 open
	level    []int32     // by variable
	reason   []uint32    // by variable: the clause that implied it
	phase    []bool      // by variable: its last value, true meaning false
	trail    []uint32
	trailEnd []int // where each level starts
	head     int   // literals of trail already propagated
	heap     varHeap
	bump     float64
	fade     float64 // of the weight of earlier conflicts, at each new one
	seen     []bool
	clause   []uint32 // the clause being learnt
	toClear  []uint32
	marks    []uint32 // by level: stamps for counting levels in a clause
	stamp    uint32
	broken   bool // a contradiction without guesses
	pace     *pace
	nodes    int64 // conflicts
}

// watcher names a clause and one of its other literals: while that one is
// true the clause need not be read. A clause of two literals is marked.
type watcher struct {
	clause  uint32
	blocker uint32
	binary  bool
}

const (
	noClause   = ^uint32(0)
	clauseHead = 3 // length; levels it spans (0: not learnt); use mark
)

func not(l uint32) uint32 { return l ^ 1 }

// newVar adds a variable that is first tried with the given value.
func (s *cdcl) newVar(try bool) uint32 {
	v := uint32(len(s.level))
	s.watches = append(s.watches, nil, nil)
	s.value = append(s.value, 0, 0)
	s.level = append(s.level, 0)
	s.reason = append(s.reason, noClause)
	s.phase = append(s.phase, !try)
	s.seen = append(s.seen, false)
	s.marks = append(s.marks, 0)
	s.heap.add(v)
	return v
}

// add adds a clause; it is to be called before search only. Literals already
// decided are dropped.
func (s *cdcl) add(lits ...uint32) {
	if s.broken {
		return
	}
	kept := s.clause[:0]
	for _, l := range lits {
		if s.value[l] > 0 {
			return
		}
		if s.value[l] == 0 {
			kept = append(kept, l)
		}
	}
	s.clause = kept
	switch len(kept) {
	case 0:
		s.broken = true
	case 1:
		s.enqueue(kept[0], noClause)
		s.broken = s.propagate() != noClause
	default:
		s.attach(kept, 0)
	}
}

// attach stores a clause of two literals or more and watches its first two.
func (s *cdcl) attach(lits []uint32, levels uint32) uint32 {
	c := uint32(len(s.arena))
	s.arena = append(s.arena, uint32(len(lits)), levels, 0)
	s.arena = append(s.arena, lits...)
	two := len(lits) == 2
	s.watches[not(lits[0])] = append(s.watches[not(lits[0])], watcher{c, lits[1], two})
	s.watches[not(lits[1])] = append(s.watches[not(lits[1])], watcher{c, lits[0], two})
	if levels > 0 {
		s.learnts = append(s.learnts, c)
	}
	return c
}

func (s *cdcl) lits(c uint32) []uint32 {
	return s.arena[c+clauseHead : c+clauseHead+s.arena[c]]
}

func (s *cdcl) enqueue(l, why uint32) {
	s.value[l], s.value[not(l)] = 1, -1
	v := l >> 1
	s.level[v] = int32(len(s.trailEnd))
	s.reason[v] = why
	s.trail = append(s.trail, l)
}

// propagate draws all unit consequences and returns a clause that they make
// false, or noClause.
func (s *cdcl) propagate() uint32 {
	for s.head < len(s.trail) {
		p := s.trail[s.head]
		s.head++
		ws := s.watches[p]
		out := 0
		for i := 0; i < len(ws); i++ {
			w := ws[i]
			b := s.value[w.blocker]
			if b > 0 {
				ws[out] = w
				out++
				continue
			}
			if w.binary {
				ws[out] = w
				out++
				if b < 0 {
					out += copy(ws[out:], ws[i+1:])
					s.watches[p] = ws[:out]
					return w.clause
				}
				s.enqueue(w.blocker, w.clause)
				continue
			}
			if s.rewatch(w.clause, not(p), &w) {
				continue
			}
			ws[out] = w
			out++
			first := w.blocker
			if s.value[first] > 0 {
				continue
			}
			if s.value[first] < 0 {
				out += copy(ws[out:], ws[i+1:])
				s.watches[p] = ws[:out]
				return w.clause
			}
			s.enqueue(first, w.clause)
		}
		s.watches[p] = ws[:out]
	}
	return noClause
}

// rewatch looks for another literal of clause c to watch instead of the false
// one, and reports whether it moved the watch. If not, w's blocker is the
// other watched literal.
func (s *cdcl) rewatch(c, gone uint32, w *watcher) bool {
	lits := s.lits(c)
	if lits[0] == gone {
		lits[0], lits[1] = lits[1], gone
	}
	w.blocker = lits[0]
	if s.value[lits[0]] > 0 {
		return false
	}
	for k := 2; k < len(lits); k++ {
		if l := lits[k]; s.value[l] >= 0 {
			lits[1], lits[k] = l, gone
			s.watches[not(l)] = append(s.watches[not(l)], *w)
			return true
		}
	}
	return false
}

// back undoes all guesses beyond the given level.
func (s *cdcl) back(level int) {
	if len(s.trailEnd) <= level {
		return
	}
	from := s.trailEnd[level]
	for i := len(s.trail) - 1; i >= from; i-- {
		l := s.trail[i]
		s.value[l], s.value[not(l)] = 0, 0
		s.phase[l>>1] = l&1 == 1
		s.heap.put(l >> 1)
	}
	s.trail = s.trail[:from]
	s.trailEnd = s.trailEnd[:level]
	s.head = from
}

// solve searches until it is decided or the pace says stop.
func (s *cdcl) solve() Verdict {
	if s.broken || s.propagate() != noClause {
		return Impossible
	}
	s.bump = 1
	for run := int64(1); ; run++ {
		if v := s.descend(100 * luby(run)); v != Undecided || s.pace.halted {
			return v
		}
		s.back(0)
		s.forget()
	}
}

// descend searches for a number of conflicts.
func (s *cdcl) descend(conflicts int64) Verdict {
	for {
		from := len(s.trail)
		c := s.propagate()
		if !s.pace.spend(int64(len(s.trail)-from) + 1) {
			return Undecided
		}
		if c != noClause {
			s.nodes++
			if len(s.trailEnd) == 0 {
				return Impossible
			}
			s.learn(c)
			conflicts--
			continue
		}
		if conflicts <= 0 {
			return Undecided
		}
		v, ok := s.heap.pop(s.value)
		if !ok {
			return Fits
		}
		s.trailEnd = append(s.trailEnd, len(s.trail))
		l := 2 * v
		if s.phase[v] {
			l++
		}
		s.enqueue(l, noClause)
	}
}

// luby is the run-length sequence 1 1 2 1 1 2 4 1 1 2 ...
func luby(i int64) int64 {
	for k := int64(1); ; k++ {
		if i == 1<<k-1 {
			return 1 << (k - 1)
		}
		if i < 1<<k-1 {
			i -= 1<<(k-1) - 1
			k = 0
		}
	}
}

package pack

import "sort"

// learn derives a clause from the false clause c, goes back and asserts it.
func (s *cdcl) learn(c uint32) {
	s.derive(c)
	s.shorten()
	to := 0
	if len(s.clause) > 1 {
		at := 1
		for i := 2; i < len(s.clause); i++ {
			if s.level[s.clause[i]>>1] > s.level[s.clause[at]>>1] {
				at = i
			}
		}
		s.clause[1], s.clause[at] = s.clause[at], s.clause[1]
		to = int(s.level[s.clause[1]>>1])
	}
	levels := s.spans(s.clause)
	s.back(to)
	for _, v := range s.toClear {
		s.seen[v] = false
	}
	s.toClear = s.toClear[:0]
	why := noClause
	if len(s.clause) > 1 {
		why = s.attach(s.clause, levels)
	}
	s.enqueue(s.clause[0], why)
	s.bump /= s.fade
	if s.bump > 1e100 {
		s.heap.rescale(1e-100)
		s.bump *= 1e-100
	}
}

// derive resolves back from the false clause c to the first unique
// implication point and leaves the clause in s.clause, its asserting literal
// first.
func (s *cdcl) derive(c uint32) {
	s.clause = append(s.clause[:0], 0)
	open, at := 0, len(s.trail)-1
	skip := noClause
	for {
		if s.arena[c+1] > 0 {
			s.arena[c+2] = 1 // in use
		}
		for _, q := range s.lits(c) {
			v := q >> 1
			if q == skip || s.seen[v] || s.level[v] == 0 {
				continue
			}
			s.seen[v] = true
			s.toClear = append(s.toClear, v)
			s.heap.raise(v, s.bump)
			if int(s.level[v]) == len(s.trailEnd) {
				open++
			} else {
				s.clause = append(s.clause, q)
			}
		}
		for !s.seen[s.trail[at]>>1] {
			at--
		}
		skip = s.trail[at]
		at--
		open--
		if open == 0 {
			break
		}
		c = s.reason[skip>>1]
	}
	s.clause[0] = not(skip)
}

// shorten drops literals that the others imply.
func (s *cdcl) shorten() {
	kept := s.clause[:1]
	for _, l := range s.clause[1:] {
		if s.reason[l>>1] == noClause || !s.implied(l, 12) {
			kept = append(kept, l)
		}
	}
	s.clause = kept
}

// implied reports whether the reasons of l lead, within depth steps, to
// literals of the clause being learnt only.
func (s *cdcl) implied(l uint32, depth int) bool {
	for _, q := range s.lits(s.reason[l>>1]) {
		v := q >> 1
		if v == l>>1 || s.level[v] == 0 || s.seen[v] {
			continue
		}
		if depth == 0 || s.reason[v] == noClause || !s.implied(q, depth-1) {
			return false
		}
		s.seen[v] = true // so is what it was found to follow from
		s.toClear = append(s.toClear, v)
	}
	return true
}

// spans counts the levels in a clause.
func (s *cdcl) spans(lits []uint32) uint32 {
	s.stamp++
	var n uint32
	for _, l := range lits {
		if lv := s.level[l>>1]; s.marks[lv] != s.stamp {
			s.marks[lv] = s.stamp
			n++
		}
	}
	return n
}

// forget drops the worse half of the learnt clauses once there are many;
// those that span few levels stay. It is called without guesses standing.
func (s *cdcl) forget() {
	limit := 4000 + int(s.nodes/20)
	if len(s.learnts) < limit {
		return
	}
	order := append([]uint32(nil), s.learnts...)
	sort.Slice(order, func(i, j int) bool {
		a, b := order[i], order[j]
		if s.arena[a+2] != s.arena[b+2] {
			return s.arena[a+2] > s.arena[b+2]
		}
		if s.arena[a+1] != s.arena[b+1] {
			return s.arena[a+1] < s.arena[b+1]
		}
		if s.arena[a] != s.arena[b] {
			return s.arena[a] < s.arena[b]
		}
		return a > b
	})
	drop := map[uint32]bool{}
	for i, c := range order {
		if i >= len(order)/2 && s.arena[c+1] > 2 && s.arena[c] > 2 {
			drop[c] = true
		}
		s.arena[c+2] = 0
	}
	s.rebuild(drop)
}

// rebuild copies the arena without the clauses in drop and without those
// satisfied for good, and watches anew.
func (s *cdcl) rebuild(drop map[uint32]bool) {
	old := s.arena
	s.arena = make([]uint32, 0, len(old))
	s.learnts = s.learnts[:0]
	for i := range s.watches {
		s.watches[i] = s.watches[i][:0]
	}
	for _, l := range s.trail {
		s.reason[l>>1] = noClause // decided for good, never asked why
	}
	for c := uint32(0); c < uint32(len(old)); c += clauseHead + old[c] {
		if drop[c] {
			continue
		}
		lits := old[c+clauseHead : c+clauseHead+old[c]]
		kept, satisfied := s.clause[:0], false
		for _, l := range lits {
			satisfied = satisfied || s.value[l] > 0
			if s.value[l] == 0 {
				kept = append(kept, l)
			}
		}
		s.clause = kept
		if !satisfied {
			s.attach(kept, old[c+1])
		}
	}
}

// varHeap keeps the open variables, the most active on top.
type varHeap struct {
	activity []float64
	heap     []uint32
	at       []int32 // place in heap, -1 if not in
}

func (h *varHeap) add(v uint32) {
	h.activity = append(h.activity, 0)
	h.at = append(h.at, -1)
	h.put(v)
}

// put takes v into the heap unless it is in.
func (h *varHeap) put(v uint32) {
	if h.at[v] >= 0 {
		return
	}
	h.at[v] = int32(len(h.heap))
	h.heap = append(h.heap, v)
	h.up(len(h.heap) - 1)
}

func (h *varHeap) raise(v uint32, by float64) {
	h.activity[v] += by
	if h.at[v] >= 0 {
		h.up(int(h.at[v]))
	}
}

func (h *varHeap) rescale(f float64) {
	for i := range h.activity {
		h.activity[i] *= f
	}
}

// pop takes out the most active variable that value leaves open.
func (h *varHeap) pop(value []int8) (uint32, bool) {
	for len(h.heap) > 0 {
		v := h.heap[0]
		last := h.heap[len(h.heap)-1]
		h.heap = h.heap[:len(h.heap)-1]
		h.at[v] = -1
		if len(h.heap) > 0 {
			h.heap[0] = last
			h.at[last] = 0
			h.down(0)
		}
		if value[2*v] == 0 {
			return v, true
		}
	}
	return 0, false
}

func (h *varHeap) up(i int) {
	v := h.heap[i]
	for i > 0 {
		p := (i - 1) / 2
		if h.activity[h.heap[p]] >= h.activity[v] {
			break
		}
		h.heap[i] = h.heap[p]
		h.at[h.heap[i]] = int32(i)
		i = p
	}
	h.heap[i] = v
	h.at[v] = int32(i)
}

func (h *varHeap) down(i int) {
	v := h.heap[i]
	for {
		c := 2*i + 1
		if c >= len(h.heap) {
			break
		}
		if c+1 < len(h.heap) && h.activity[h.heap[c+1]] > h.activity[h.heap[c]] {
			c++
		}
		if h.activity[h.heap[c]] <= h.activity[v] {
			break
		}
		h.heap[i] = h.heap[c]
		h.at[h.heap[i]] = int32(i)
		i = c
	}
	h.heap[i] = v
	h.at[v] = int32(i)
}

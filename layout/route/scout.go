package route

// scout is the first look at the way: from the start towards the goal over the
// bare nodes, corners and bends left aside. It tells the look back how far it is
// at least from a node to the start.
type scout struct {
	seen  []seen // by node
	stamp uint32
	heap  heap
	total int64 // the least cost from start to goal
}

// explore runs until it has come to the goal; false when it cannot.
func (s *search) explore() bool {
	b := &s.scout
	if n := len(s.flags); len(b.seen) < n {
		b.seen, b.stamp = make([]seen, n+n/2), 0
	}
	b.stamp++
	b.heap = b.heap[:0]
	for i, n := range s.nodes[0] {
		if s.flags[n]&blocked == 0 {
			s.sight(n, int64(s.docks[0][i].extra)*scale)
		}
	}
	b.total = -1
	for len(b.heap) > 0 {
		e := b.heap.pop()
		if b.total >= 0 && e.bound() >= b.total || e.bound() >= s.limit {
			break
		}
		node := e.state
		at := &b.seen[node]
		if at.done {
			continue
		}
		at.done = true
		cost := at.cost
		if s.flags[node]&goalHere != 0 {
			for i, d := range s.nodes[1] {
				if c := cost + int64(s.docks[1][i].extra)*scale; d == node && (b.total < 0 || c < b.total) {
					b.total = c
				}
			}
		}
		for way := range 4 {
			if next, more, ok := s.next(node, way); ok {
				s.sight(next, cost+more*scale)
			}
		}
		s.eachShaft(node, func(next int32, height int64) { s.sight(next, cost+height*scale) })
	}
	return b.total >= 0
}

// sight offers a cost from the start to the node.
func (s *search) sight(node int32, cost int64) {
	b := &s.scout
	at := &b.seen[node]
	if at.stamp == b.stamp && (at.done || at.cost <= cost) {
		return
	}
	*at = seen{cost: cost, stamp: b.stamp}
	if ahead := s.apartFrom(node, 1) * scale; cost+ahead < s.limit {
		b.heap.push(entryOf(cost+ahead, ahead, node))
	}
}

// behind returns the least from the start to the node. Where the scout did not
// go it is at least what is missing to its total, and so never falls by more
// from one node to the next than the stretch between them costs.
func (s *search) behind(node int32) int64 {
	b := &s.scout
	if at := &b.seen[node]; at.stamp == b.stamp && at.done {
		return at.cost
	}
	return max(s.apartFrom(node, 0)*scale, b.total-s.apartFrom(node, 1)*scale)
}

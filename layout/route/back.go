package route

import (
	"slices"

	"footplank/layout"
)

// back is the search's look ahead: from the goal back to the start, with four
// states to a node, one for each way that the cable goes on, and with no regard
// to how far it must go between two turns in the same sense. What it finds out
// is the least that is to come from a node, corners and charges for other
// cables included. It guides the search proper, with its twelve states.
type back struct {
	seen  []seen // by node and way
	stamp uint32
	heap  heap
	total int64 // the least cost from start to goal
}

type seen struct {
	cost  int64
	stamp uint32
	done  bool
}

// lookBack runs until it has come to a start, and returns what that costs, or -1
// when it cannot.
func (s *search) lookBack() int64 {
	b := &s.back
	if n := 4 * len(s.flags); len(b.seen) < n {
		b.seen, b.stamp = make([]seen, n+n/2), 0
	}
	b.stamp++
	b.heap = b.heap[:0]
	for i := range s.docks[1] {
		d, n := &s.docks[1][i], s.nodes[1][i]
		if s.flags[n]&blocked == 0 {
			s.offer(n, (d.way+1)&3, int64(d.extra)*scale+1)
			s.offer(n, (d.way+2)&3, int64(d.extra)*scale)
			s.offer(n, (d.way+3)&3, int64(d.extra)*scale+1)
		}
	}
	b.total = -1
	for len(b.heap) > 0 {
		e := b.heap.pop()
		if b.total >= 0 && e.bound() >= b.total || e.bound() >= s.top {
			break
		}
		at := &b.seen[e.state]
		if at.done {
			continue
		}
		node, way, cost := e.state/4, int(e.state%4), at.cost
		first := s.untouched(node)
		at.done = true
		s.atStart(node, way, cost)
		// The cable came this way, or turned into it here.
		back := (way + 2) & 3
		if prev, more, ok := s.next(node, back); ok {
			s.offer(prev, way, cost+more*scale)
		}
		if s.flags[node]&(tightNE<<way) == 0 && s.opens(node, (way+1)&3) {
			s.offer(node, (way+3)&3, cost+1)
		}
		if s.flags[node]&(tightNE<<((way+3)&3)) == 0 && s.opens(node, (way+3)&3) {
			s.offer(node, (way+1)&3, cost+1)
		}
		if !first {
			continue // it went up and down from here at no greater cost
		}
		s.eachShaft(node, func(next int32, height int64) {
			for from := range 4 {
				s.offer(next, from, cost+height*scale+2)
			}
		})
	}
	return b.total
}

// untouched reports whether the look back has not yet been at the node.
func (s *search) untouched(node int32) bool {
	for i := range s.back.seen[4*node : 4*node+4] {
		if at := &s.back.seen[4*node+int32(i)]; at.stamp == s.back.stamp && at.done {
			return false
		}
	}
	return true
}

// opens reports whether a cable can come from that way, or starts here.
func (s *search) opens(node int32, way int) bool {
	_, _, ok := s.next(node, way)
	return ok || slices.Contains(s.nodes[0], node)
}

// atStart takes note of a way that leaves a node with a dock of the start.
func (s *search) atStart(node int32, way int, cost int64) {
	for i, n := range s.nodes[0] {
		if n != node {
			continue
		}
		d := &s.docks[0][i]
		c := cost + int64(d.extra)*scale
		switch (way - d.way) & 3 {
		case 2:
			continue
		case 1, 3:
			c++
		}
		if s.back.total < 0 || c < s.back.total {
			s.back.total = c
		}
	}
}

// offer offers a cost from the node, going that way, to the goal.
func (s *search) offer(node int32, way int, cost int64) {
	b := &s.back
	id := 4*node + int32(way)
	at := &b.seen[id]
	if at.stamp == b.stamp && (at.done || at.cost <= cost) {
		return
	}
	*at = seen{cost: cost, stamp: b.stamp}
	if ahead := s.behind(node); cost+ahead < s.top {
		b.heap.push(entryOf(cost+ahead, ahead, id))
	}
}

// rest returns the least that is to come from the node on, going that way.
// Where the look back did not go it is at least what is missing to the
// least in all.
func (s *search) rest(node int32, way int) int64 {
	b := &s.back
	if at := &b.seen[4*node+int32(way)]; at.stamp == b.stamp && at.done {
		return at.cost
	}
	return max(s.apartFrom(node, 1)*scale, b.total-s.behind(node))
}

// gap is how far a node is from the docks of both sides; see apartFrom.
type gap struct {
	stamp uint32
	to    [2]int32
}

// apartFrom is the distance from the node to the nearest dock of a side, with
// nothing in between, in micrometres.
func (s *search) apartFrom(node int32, side int) int64 {
	g := &s.gaps[node]
	if g.stamp != s.gapStamp {
		plane, p := s.place(node)
		g.stamp, g.to = s.gapStamp, [2]int32{s.apart(plane, p, 0), s.apart(plane, p, 1)}
	}
	return int64(g.to[side])
}

func (s *search) apart(plane int, p layout.Point, side int) int32 {
	best := int32(-1)
	for i := range s.docks[side] {
		d := &s.docks[side][i]
		l := int32(apart(p, d.at) + abs(s.planes[plane].z-s.planes[d.plane].z) + d.extra)
		if best < 0 || l < best {
			best = l
		}
	}
	return best
}

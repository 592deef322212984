package route

import (
	"slices"

	"footplank/layout"
)

// States of the search at a node. A settled one has gone straight for long
// enough to turn either way; a fresh one has just turned and may turn back,
// but not on in the same sense until it has gone on for two radii.
//
//	0..3   settled, going that way
//	4..11  fresh: 4 + 2*way + 1 if the turn was to the right
const statesPerNode = 12

const (
	left  = 0
	right = 1
	// none is the sense of a settled state.
	none = -1
)

// Costs are lengths in micrometres times scale, plus one for each corner: of
// the shortest ways one with the fewest corners.
const scale = 64

type label struct {
	cost   int64
	parent int32  // a state, or -1-i for the start at dock i
	stamp  uint32 // of the search, and whether it has been expanded; see fresh
}

// Labels are told from those of earlier searches by a stamp that rises by two;
// the odd one in between marks what is done.
func (l *label) fresh(stamp uint32) bool { return l.stamp&^1 == stamp }
func (l *label) done() bool              { return l.stamp&1 == 1 }

// search is one run of A* on the grid.
type search struct {
	*grid
	planes []plane
	docks  [2][]dock
	nodes  [2][]int32 // of the docks
	bend   bend
	limit  int64 // of the cost, scaled
	top    int64 // the same, of the part of the search that is under way

	labels []label
	stamp  uint32
	heap   heap
	goal   label // the best arrival so far
	scout  scout
	back   back

	gaps     []gap // by node
	gapStamp uint32
}

// run finds the cheapest way and returns its cost and its nodes.
func (s *search) run() (cost int64, way []int32, ok bool) {
	s.begin()
	s.top = s.limit
	if !s.explore() || !s.capped(s.scout.total, s.lookBack) || !s.capped(s.back.total, s.lookOn) {
		return 0, nil, false
	}
	return s.goal.cost, s.trace(), true
}

// capped runs a part of the search. What the part before came to is nearly always
// what this one comes to, but for some corners and bends. So what looks to cost
// much more is not even kept to be looked at; where the cap is met all the same,
// it is done once more without.
func (s *search) capped(before int64, part func() int64) bool {
	if s.top = before + scale*2*int64(s.bend.radius) + 16; s.top < s.limit {
		if cost := part(); cost >= 0 && cost <= s.top {
			return true
		}
	}
	s.top = s.limit
	return part() >= 0
}

// lookOn is the search proper. It returns its cost, or -1.
func (s *search) lookOn() int64 {
	s.stamp += 2
	s.heap = s.heap[:0]
	s.goal = label{cost: -1}
	for i := range s.docks[0] {
		s.start(i)
	}
	for len(s.heap) > 0 {
		e := s.heap.pop()
		if s.goal.cost >= 0 && s.goal.cost <= e.bound() {
			break
		}
		l := &s.labels[e.state]
		if l.done() {
			continue // reached more cheaply since
		}
		l.stamp |= 1
		node, kind := e.state/statesPerNode, int(e.state%statesPerNode)
		if kind < 4 {
			s.goOn(node, kind, l.cost, e.state)
		} else {
			s.walk(node, (kind-4)/2, (kind-4)%2, l.cost, e.state, 2*s.bend.radius, false)
		}
	}
	return s.goal.cost
}

func (s *search) begin() {
	if n := len(s.planes) * s.nx * s.ny * statesPerNode; len(s.labels) < n {
		s.labels, s.stamp = make([]label, n+n/2), 0
	}
	s.gapStamp++
	if n := len(s.planes) * s.nx * s.ny; len(s.gaps) < n {
		s.gaps, s.gapStamp = make([]gap, n+n/2), 1
	}
	for side := range s.docks {
		s.nodes[side] = s.nodes[side][:0]
		for _, d := range s.docks[side] {
			n := s.node(d.plane, atLeast(s.xs, d.at.X), atLeast(s.ys, d.at.Y))
			s.nodes[side] = append(s.nodes[side], n)
			if side == 1 {
				s.flags[n] |= goalHere
			}
		}
	}
}

func (s *search) node(plane, i, j int) int32 { return int32((plane*s.ny+j)*s.nx + i) }

func (s *search) place(node int32) (plane int, p layout.Point) {
	n, nx, ny := uint32(node), uint32(s.nx), uint32(s.ny)
	row := n / nx
	return int(row / ny), layout.Point{X: s.xs[n-row*nx], Y: s.ys[row%ny]}
}

// start leaves dock i: straight on, or with the first turn in the plug's own
// room, for which half of the usual stretch to the next turn is enough.
func (s *search) start(i int) {
	d, n := &s.docks[0][i], s.nodes[0][i]
	if s.flags[n]&blocked != 0 {
		return
	}
	cost := int64(d.extra) * scale
	s.reach(n, d.way, cost, int32(-1-i))
	s.walk(n, (d.way+1)&3, left, cost+1, int32(-1-i), s.bend.radius, true)
	s.walk(n, (d.way+3)&3, right, cost+1, int32(-1-i), s.bend.radius, true)
}

// reach offers a cost for a state. kind is that of a state at a node.
func (s *search) reach(node int32, kind int, cost int64, parent int32) {
	id := node*statesPerNode + int32(kind)
	l := &s.labels[id]
	if l.fresh(s.stamp) && l.cost <= cost {
		return
	}
	way := kind
	if kind >= 4 {
		way = (kind - 4) / 2
	}
	ahead := s.rest(node, way)
	*l = label{cost: cost, parent: parent, stamp: s.stamp}
	if cost+ahead < s.top && (s.goal.cost < 0 || cost+ahead < s.goal.cost) {
		s.heap.push(entryOf(cost+ahead, ahead, id))
	}
}

// goOn expands a settled state: turns either way, one stretch straight on, up
// or down.
func (s *search) goOn(node int32, way int, cost int64, id int32) {
	if s.flags[node]&goalHere != 0 {
		s.arrive(node, way, none, cost, id, true)
	}
	s.turn(node, way, left, cost, id)
	s.turn(node, way, right, cost, id)
	s.shafts(node, cost, id)
	if next, more, ok := s.next(node, way); ok {
		s.reach(next, way, cost+more*scale, id)
	}
}

// turn offers the fresh state after a turn at the node, if there is room for
// the bend.
func (s *search) turn(node int32, way, sense int, cost int64, id int32) {
	to, quadrant := (way+1)&3, (way+1)&3
	if sense == right {
		to, quadrant = (way+3)&3, (way+2)&3
	}
	if _, _, ok := s.next(node, to); !ok && s.flags[node]&goalHere == 0 {
		return
	}
	if s.flags[node]&(tightNE<<quadrant) == 0 {
		s.reach(node, 4+2*to+sense, cost+1, id)
	}
}

// walk goes straight on after a turn, until it has gone far enough to be
// settled. Before that it may only turn the other way. tip says that the turn
// was in the plug's own room.
func (s *search) walk(node int32, way, sense int, cost int64, id int32, settle layout.Length, tip bool) {
	lines, from, by := s.xs, int(node)%s.nx, 1
	if way&1 == 1 {
		lines, from = s.ys, int(node)/s.nx%s.ny
	}
	if way >= west {
		by = -1
	}
	for k := from + by; ; k += by {
		next, more, ok := s.next(node, way)
		if !ok {
			return
		}
		node, cost = next, cost+more*scale
		gone := abs(lines[k] - lines[from])
		if gone >= settle {
			s.reach(node, way, cost, id)
			return
		}
		if s.flags[node]&goalHere != 0 {
			s.arrive(node, way, sense, cost, id, tip || gone >= s.bend.radius)
		}
		s.turn(node, way, 1-sense, cost, id)
		s.shafts(node, cost, id)
	}
}

// next returns the node next to this one that way and what it costs to get
// there, in micrometres.
func (s *search) next(node int32, way int) (next int32, cost int64, ok bool) {
	var c int32
	switch way {
	case east:
		next, c = node+1, s.east[node]
	case north:
		next, c = node+int32(s.nx), s.north[node]
	case west:
		if next = node - 1; next < 0 {
			return
		}
		c = s.east[next]
	default:
		if next = node - int32(s.nx); next < 0 {
			return
		}
		c = s.north[next]
	}
	return next, int64(c), c != wall && s.flags[next]&blocked == 0
}

// shafts offers the ways between the deck's plane and the others, after which
// the cable may go any way.
func (s *search) shafts(node int32, cost int64, id int32) {
	s.eachShaft(node, func(next int32, height int64) {
		for way := range 4 {
			s.reach(next, way, cost+height*scale+2, id)
		}
	})
}

// eachShaft tells of the nodes right above or below on other planes.
func (s *search) eachShaft(node int32, tell func(next int32, height int64)) {
	if s.flags[node]&shaftHere == 0 {
		return
	}
	n := int32(s.nx * s.ny)
	plane, flat := int(node/n), node%n
	bits := s.shaft[flat]
	for p := 1; p < len(s.planes); p++ {
		to := 0
		switch {
		case bits&(1<<p) == 0:
			continue
		case plane == 0:
			to = p
		case plane != p:
			continue
		}
		if next := int32(to)*n + flat; s.flags[next]&blocked == 0 {
			tell(next, int64(abs(s.planes[plane].z-s.planes[to].z)))
		}
	}
}

// arrive ends at the docks of the node. ripe says that the last turn, of that
// sense, is far enough back for another in the same sense in the plug's room.
func (s *search) arrive(node int32, way, sense int, cost int64, id int32, ripe bool) {
	for i := range s.docks[1] {
		if s.nodes[1][i] != node {
			continue
		}
		d := &s.docks[1][i]
		c := cost + int64(d.extra)*scale
		switch turned := (d.way + 2 - way) & 3; {
		case turned == 0:
		case turned == 2, turned == 1 && sense == left && !ripe, turned == 3 && sense == right && !ripe:
			continue
		default:
			c++
		}
		if s.goal.cost < 0 || c < s.goal.cost {
			s.goal = label{cost: c, parent: id, stamp: uint32(i)}
		}
	}
}

// trace returns the nodes of the way from start to goal: its corners and, where
// it changes the plane, both ends of that.
func (s *search) trace() []int32 {
	n := int32(s.nx * s.ny)
	out := []int32{s.nodes[1][s.goal.stamp]}
	add := func(node int32) {
		last := out[len(out)-1]
		if below := node/n*n + last%n; below != last {
			out = append(out, below) // straight on from node, then up or down
		}
		if node != out[len(out)-1] {
			out = append(out, node)
		}
	}
	id := s.goal.parent
	for ; id >= 0; id = s.labels[id].parent {
		add(id / statesPerNode)
	}
	add(s.nodes[0][-1-id])
	slices.Reverse(out)
	return out
}

// startDock returns the dock that the way starts from.
func (s *search) startDock() *dock {
	id := s.goal.parent
	for id >= 0 {
		id = s.labels[id].parent
	}
	return &s.docks[0][-1-id]
}

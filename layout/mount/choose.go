package mount

import (
	"cmp"
	"math"
	"slices"

	"footplank/layout"
)

// maxNodes bounds the search for one group of units, one direction and one
// width; beyond it the best found so far stands. Boards of the size that a
// player carries stay far below.
const maxNodes = 500

// perPiece is what one more piece counts beneath a unit that shares its place
// with none, in mm2 of roll: cutting and sticking it is work too.
const perPiece = 400

// notFavoured is what it counts when a treadle or a tall unit gets no more
// towards its toe: more than any roll, less than a strip that units share.
const notFavoured = 1_000_000_000

// sharedPiece is what one more strip counts where units share their places: more
// than any length of roll, so that the fewest strips win.
const sharedPiece = 1_000_000_000_000

// candidate is a track with what it gives each unit of a group.
type candidate struct {
	track
	grips int     // number of the first of its grips, one for each unit
	area  float64 // of all pieces, mm2
	off   layout.Length
	cost  cost
}

// cost orders choices: pieces on the board first where units share a place,
// else roll first.
type cost int64

// choice is the tracks chosen for a group.
type choice struct {
	tracks []track
	cost   cost
	// unheld counts the units that no choice holds, lack is by how much.
	unheld int
	lack   float64
}

func (c *choice) better(o *choice) bool {
	if c.unheld != o.unheld {
		return c.unheld < o.unheld
	}
	if d := cmp.Compare(c.lack, o.lack); d != 0 {
		return d < 0
	}
	return c.cost < o.cost
}

// chooser searches the cheapest tracks of one direction and one width. One
// serves all searches of a plan, and keeps its memory from one to the next.
type chooser struct {
	group   []*stand
	ground  *ground
	upright bool
	width   layout.Length
	single  bool
	cands   []candidate
	grips   []grip  // of the candidates
	across  [][]int // candidates that touch each unit, rising
	cheap   []cost  // the least that one of those costs
	lost    []bool  // units that cannot hold whatever is chosen
	rocks   []bool  // units that cannot be spanned, for the spots on them
	middle  layout.Length

	taken  []int
	banned []bool
	best   []int
	found  bool // best holds all units that can be held
	least  cost
	nodes  int

	// Memory that is used again.
	sum    []grip
	sums   [][]grip // by depth
	tried  []int    // of all nodes on the way, the deepest last
	tracks []track
	pieces []layout.Rect
}

// start makes the chooser ready for another search.
func (c *chooser) start(group []*stand, g *ground, upright bool, width layout.Length) {
	c.group, c.ground, c.upright, c.width = group, g, upright, width
	c.single, c.found, c.least, c.nodes = len(group) == 1, false, math.MaxInt64, 0
	c.cands, c.banned, c.taken, c.best, c.tried = c.cands[:0], c.banned[:0], c.taken[:0], c.best[:0], c.tried[:0]
	c.prepare()
}

// choose returns the best tracks of one direction and width.
func (c *chooser) choose(group []*stand, g *ground, upright bool, width layout.Length) choice {
	c.start(group, g, upright, width)
	sum := c.zero()
	var so cost
	for i := range group {
		if c.lost[i] {
			so += c.fill(i, sum)
		}
	}
	c.search(sum, so)
	if !c.found {
		for i := range group {
			if !c.done(i, &sum[i]) {
				so += c.fill(i, sum)
			}
		}
		c.best, c.least = append(c.best[:0], c.taken...), so
	}
	return c.outcome()
}

// zero returns a grip of nothing for each unit.
func (c *chooser) zero() []grip {
	c.sum = resized(c.sum, len(c.group))
	clear(c.sum)
	return c.sum
}

// resized returns a slice of n whose contents are anything.
func resized[T any](s []T, n int) []T { return slices.Grow(s[:0], n)[:n] }

func (c *chooser) outcome() choice {
	c.favour()
	out := choice{cost: c.least, tracks: make([]track, 0, len(c.best))}
	sum := c.zero()
	for _, k := range c.best {
		out.tracks = append(out.tracks, c.cands[k].track)
		c.joinInto(sum, k)
	}
	for i, s := range c.group {
		if !s.statics.toeFirst(&sum[i]) {
			out.cost += notFavoured
		}
		if !s.statics.holds(&sum[i], s.slack) {
			out.unheld++
			h := s.statics.worst(&sum[i])
			out.lack += min(h.Use, 1e6)
		}
	}
	return out
}

// prepare works out the candidates, and which units cannot hold: those that do
// not with all that can be laid beneath them. The candidates that no spot shortens
// come first, of these the ones that lie furthest from the middle: of two choices
// that cost the same the first is taken.
func (c *chooser) prepare() {
	n := len(c.group)
	c.grips = c.grips[:0]
	c.lost, c.rocks = resized(c.lost, n), resized(c.rocks, n)
	var around layout.Rect
	for i, s := range c.group {
		around = around.Union(s.base)
		var all grip
		c.tracks = filling(c.tracks[:0], s, c.upright, c.width)
		for _, t := range c.tracks {
			c.pieces = t.cut(c.pieces[:0], s)
			for _, r := range c.pieces {
				all.add(s.statics, r)
			}
		}
		c.lost[i] = !s.statics.holds(&all, s.slack)
		c.rocks[i] = !s.statics.spans(&all)
	}
	c.tracks = tracksFor(c.tracks[:0], c.group, c.upright, c.width)
	c.middle = track{upright: c.upright}.way(around).Center().Y
	for _, t := range c.tracks {
		c.add(t)
	}
	slices.SortStableFunc(c.cands, func(a, b candidate) int {
		if a.area != b.area {
			return cmp.Compare(b.area, a.area)
		}
		return cmp.Compare(abs(b.off), abs(a.off))
	})
	c.across, c.cheap = resized(c.across, n), resized(c.cheap, n)
	for i := range c.across {
		c.across[i], c.cheap[i] = c.across[i][:0], math.MaxInt64
	}
	for k := range c.cands {
		c.crosses(k)
	}
}

// add makes a track a candidate unless it passes beneath no unit.
func (c *chooser) add(t track) {
	area := 0.0
	from := len(c.grips)
	c.grips = slices.Grow(c.grips, len(c.group))[:from+len(c.group)]
	grips := c.grips[from:]
	clear(grips)
	for i, s := range c.group {
		c.pieces = t.cut(c.pieces[:0], s)
		for _, r := range c.pieces {
			grips[i].add(s.statics, r)
		}
		area += grips[i].area
	}
	c.pieces = c.pieces[:0]
	for i, s := range c.group {
		if grips[i].n > 0 {
			c.pieces = t.over(c.pieces, s)
		}
	}
	if len(c.pieces) > 0 {
		c.cands = append(c.cands, candidate{track: t, grips: from, area: area, off: t.lo + t.hi - 2*c.middle, cost: c.price(t, c.pieces)})
		c.banned = append(c.banned, false)
	}
}

// crosses files a candidate with the units that it passes beneath.
func (c *chooser) crosses(k int) {
	for i := range c.group {
		if c.grip(k, i).n > 0 {
			c.across[i], c.cheap[i] = append(c.across[i], k), min(c.cheap[i], c.cands[k].cost)
		}
	}
}

// grip returns what a candidate gives a unit of the group.
func (c *chooser) grip(k, i int) *grip { return &c.grips[c.cands[k].grips+i] }

// fill takes tracks side by side beneath one unit, as far as they lie clear of
// what is taken, and returns what they cost.
func (c *chooser) fill(i int, sum []grip) cost {
	var so cost
	c.tracks = filling(c.tracks[:0], c.group[i], c.upright, c.width)
	for _, t := range c.tracks {
		n := len(c.cands)
		c.add(t)
		if len(c.cands) == n {
			continue
		}
		c.crosses(n)
		if c.clear(n) {
			c.taken = append(c.taken, n)
			so += c.cands[n].cost
			c.joinInto(sum, n)
		}
	}
	return so
}

// evener reports whether what is taken lies better than the best that costs the
// same: less of it shortened by spots, then evener about the middle, then wider
// apart.
func (c *chooser) evener() bool {
	a, e, s := c.lie(c.taken)
	ba, be, bs := c.lie(c.best)
	return cmp.Or(cmp.Compare(ba, a), cmp.Compare(e, be), cmp.Compare(bs, s)) < 0
}

func (c *chooser) lie(set []int) (area float64, uneven, spread layout.Length) {
	for _, k := range set {
		t := &c.cands[k]
		area, uneven, spread = area+t.area, uneven+t.off, spread+abs(t.off)
	}
	if c.group[0].statics.favours {
		uneven = 0 // more lies towards the toe
	}
	return area, abs(uneven), spread
}

// favour adds tracks towards the toe of treadles and tall units until there is
// more there than at the other end, or no room for more.
func (c *chooser) favour() {
	c.taken = append(c.taken[:0], c.best...)
	sum := c.zero()
	for _, k := range c.taken {
		c.joinInto(sum, k)
	}
	for i, s := range c.group {
		for k := 0; k < len(c.cands) && !s.statics.toeFirst(&sum[i]); k++ {
			if g := c.grip(k, i); g.toe > 0 && g.toe >= g.area*0.9 && c.clear(k) {
				c.taken = append(c.taken, k)
				c.least += c.cands[k].cost
				c.joinInto(sum, k)
				k = -1
			}
		}
	}
	c.best = append(c.best[:0], c.taken...)
}

// done reports whether a unit needs nothing more.
func (c *chooser) done(i int, g *grip) bool {
	s := c.group[i]
	return c.lost[i] || (c.rocks[i] || s.statics.spans(g)) && s.statics.holds(g, s.slack)
}

// price returns what the pieces of a track cost.
func (c *chooser) price(t track, pieces []layout.Rect) cost {
	var mm2 cost
	strips := c.ground.joined(t, pieces)
	for _, r := range strips {
		mm2 += cost(t.width) * cost(t.length(r)) / 1_000_000
	}
	if c.single {
		return mm2 + perPiece*cost(len(strips))
	}
	return mm2 + sharedPiece*cost(len(strips))
}

// clear reports whether a candidate lies over none that is taken.
func (c *chooser) clear(k int) bool {
	for _, t := range c.taken {
		if c.cands[t].meets(c.cands[k].track) {
			return false
		}
	}
	return true
}

func (c *chooser) joinInto(sum []grip, k int) {
	for i := range sum {
		sum[i].join(c.grip(k, i))
	}
}

// search takes the unit that does not hold yet and that the fewest tracks
// cross, and tries each of those. As more fastener never holds less, every set
// of tracks that holds all units is a continuation of one of these; a track
// that has been tried is not tried again beside its later brothers. What costs
// more than the best, counting the cheapest track still to come, is left out;
// what costs as much too where units share a place, for there the first will do.
func (c *chooser) search(sum []grip, so cost) {
	if c.nodes++; c.nodes > maxNodes || so > c.least || so == c.least && !c.single {
		return
	}
	open := -1
	for i := range c.group {
		if (open < 0 || len(c.across[i]) < len(c.across[open])) && !c.done(i, &sum[i]) {
			open = i
		}
	}
	if open < 0 {
		if so < c.least || c.evener() {
			c.least, c.best, c.found = so, append(c.best[:0], c.taken...), true
		}
		return
	}
	if c.cheap[open] > c.least-so {
		return // whatever holds it costs too much
	}
	for len(c.sums) <= len(c.taken) {
		c.sums = append(c.sums, nil)
	}
	next := resized(c.sums[len(c.taken)], len(sum))
	c.sums[len(c.taken)] = next
	from := len(c.tried)
	for _, k := range c.across[open] {
		t := &c.cands[k]
		if c.banned[k] || so+t.cost > c.least || so+t.cost == c.least && !c.single || !c.clear(k) {
			continue
		}
		copy(next, sum)
		c.joinInto(next, k)
		c.taken = append(c.taken, k)
		c.search(next, so+t.cost)
		c.taken = c.taken[:len(c.taken)-1]
		c.banned[k] = true
		c.tried = append(c.tried, k)
	}
	for _, k := range c.tried[from:] {
		c.banned[k] = false
	}
	c.tried = c.tried[:from]
}

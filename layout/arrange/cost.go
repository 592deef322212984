package arrange

import (
	"math"
	"slices"

	"footplank/layout"
	"footplank/pack"
)

// Weights of the cost, all against a micrometre of cable. They are our own
// choice: how much longer a cable may get to gain a millimetre of the other.
const (
	againstWeight = 0.5 // signal running the wrong way, for its x distance
	edgeWeight    = 0.5 // first and last plug away from their side of the board
	frontWeight   = 0.5 // distance from the front, for each level of Often
	treadleWeight = 8.0 // a treadle further back than TreadleFront
	crowdWeight   = 3.0 // switches closer than a shoe, for what is missing
	apartWeight   = 0.5 // distance between two line-ups' places of one unit
)

// Fixed parts of the penalties, so that none is worth a hair's breadth.
const (
	crowdCost   = 60 * layout.Millimetre
	tooTallCost = 60 * layout.Millimetre
	apartCost   = 40 * layout.Millimetre
)

// end is a jack of an item, or an end of the chain when item is -1.
type end struct {
	item int
	jack *layout.Jack
	at   int // of the jack in its unit
	name string
}

// wire is a link with the number of line-ups that have just this one.
type wire struct {
	a, b  end
	count float64
	chain bool // part of the chain: its direction counts
}

// cost is the objective: cheaper arrangements are better to play and to wire.
// It is immutable once made, so searches may share it.
type cost struct {
	pr    *problem
	wires []wire
	of    [][]int // wires at each item
	mates [][]int // items of the same unit
	foes  [][]int // items whose switches could be crowded by each other
}

func newCost(pr *problem) *cost {
	c := &cost{pr: pr, of: make([][]int, len(pr.items)), mates: make([][]int, len(pr.items)), foes: make([][]int, len(pr.items))}
	seen := map[[2]end]int{}
	for k, l := range pr.lineups {
		links := pr.plan.ChainLinks(l)
		chained := len(pr.plan.Nodes(l)) - 1
		for n, link := range links {
			a, aok := c.end(link.From, k)
			b, bok := c.end(link.To, k)
			if !aok || !bok || a.item < 0 && b.item < 0 {
				continue
			}
			if at, ok := seen[[2]end{a, b}]; ok {
				c.wires[at].count++
				continue
			}
			seen[[2]end{a, b}] = len(c.wires)
			for _, e := range []end{a, b} {
				if e.item >= 0 {
					c.of[e.item] = append(c.of[e.item], len(c.wires))
				}
			}
			c.wires = append(c.wires, wire{a, b, 1, n < chained})
		}
	}
	for i := range pr.items {
		for j := range pr.items {
			a, b := &pr.items[i], &pr.items[j]
			switch {
			case i == j:
			case a.unit == b.unit:
				c.mates[i] = append(c.mates[i], j)
			case pr.pack.Items[i].Groups&pr.pack.Items[j].Groups != 0 && (len(a.unit.Switches) > 0 || len(b.unit.Switches) > 0):
				c.foes[i] = append(c.foes[i], j)
			}
		}
	}
	return c
}

func (c *cost) end(r layout.JackRef, lineup int) (end, bool) {
	if layout.OffBoard(r.Unit) {
		return end{item: -1, name: r.Unit}, true
	}
	for i, it := range c.pr.items {
		if it.unit.ID == r.Unit && c.pr.pack.Items[i].Groups&(1<<lineup) != 0 {
			at := slices.IndexFunc(it.unit.Jacks, func(j layout.Jack) bool { return j.ID == r.Jack })
			if at < 0 {
				return end{}, false
			}
			return end{item: i, jack: &it.unit.Jacks[at], at: at}, true
		}
	}
	return end{}, false
}

// Cost implements pack.Objective.
func (c *cost) Cost(places []pack.Place) int64 {
	var sum float64
	for i := range c.wires {
		sum += c.wire(&c.wires[i], places, -1, pack.Place{})
	}
	for i := range places {
		sum += c.alone(i, places[i])
		for _, j := range c.mates[i] {
			if i < j {
				sum += c.apart(i, places[i], j, places[j])
			}
		}
		for _, j := range c.foes[i] {
			if i < j {
				sum += c.feet(i, places[i], j, places[j])
			}
		}
	}
	return int64(math.Round(sum))
}

// Delta implements pack.MoveObjective.
func (c *cost) Delta(places []pack.Place, i int, to pack.Place) int64 {
	was := places[i]
	sum := c.alone(i, to) - c.alone(i, was)
	for _, w := range c.of[i] {
		sum += c.wire(&c.wires[w], places, i, to) - c.wire(&c.wires[w], places, i, was)
	}
	for _, j := range c.mates[i] {
		sum += c.apart(i, to, j, places[j]) - c.apart(i, was, j, places[j])
	}
	for _, j := range c.foes[i] {
		sum += c.feet(i, to, j, places[j]) - c.feet(i, was, j, places[j])
	}
	return int64(math.Round(sum))
}

// Lines implements pack.LineObjective: plugs that look straight at each other
// need no bend.
func (c *cost) Lines(dst []int64, places []pack.Place, i, region, axis int) []int64 {
	for _, k := range c.of[i] {
		w := &c.wires[k]
		mine, other := w.a, w.b
		if mine.item != i {
			mine, other = other, mine
		}
		if other.item < 0 || other.item == i {
			continue
		}
		a, b := c.tip(mine, pack.Place{Region: region}), c.tip(other, places[other.item])
		switch {
		case axis == 0 && a.dy != 0 && a.dy == -b.dy:
			dst = append(dst, int64(b.x-a.x))
		case axis == 1 && a.dx != 0 && a.dx == -b.dx:
			dst = append(dst, int64(b.y-a.y))
		}
	}
	return dst
}

// wire returns what a link costs, item moved standing at to.
func (c *cost) wire(w *wire, places []pack.Place, moved int, to pack.Place) float64 {
	tip := func(e end) tip {
		p := places[e.item]
		if e.item == moved {
			p = to
		}
		return c.tip(e, p)
	}
	if w.a.item < 0 || w.b.item < 0 {
		e, off := w.a, w.b
		if e.item < 0 {
			e, off = off, e
		}
		t := tip(e)
		return w.count * edgeWeight * c.toEdge(off.name, t.x, t.y)
	}
	a, b := tip(w.a), tip(w.b)
	length := runOf(a, b)
	if w.chain {
		back := b.x - a.x
		if c.pr.plan.Chain.LeftToRight {
			back = -back
		}
		length += againstWeight * max(0, back)
	}
	return w.count * length
}

// tip returns where the cable leaves the plug at an end of a link.
func (c *cost) tip(e end, p pack.Place) tip {
	s := &c.pr.items[e.item].spots[p.Region]
	at, h := s.unit.Tip(&s.unit.Jacks[e.at], s.turn)
	t := tip{x: float64(int64(at.X) + p.X), y: float64(int64(at.Y) + p.Y), z: float64(s.z + h)}
	switch e.jack.Wall.Turned(s.turn) {
	case layout.Left:
		t.dx = -1
	case layout.Right:
		t.dx = 1
	case layout.Front:
		t.dy = -1
	default:
		t.dy = 1
	}
	return t
}

// toEdge returns how far a plug is from where its cable leaves the board: the
// instrument's at the side where the signal starts, the others at the other
// side or the back.
func (c *cost) toEdge(name string, x, y float64) float64 {
	left, right := x, float64(c.pr.plan.Board.W)-x
	if c.pr.plan.Chain.LeftToRight {
		left, right = right, left
	}
	if name == layout.Instrument {
		return max(0, right)
	}
	return max(0, min(left, float64(c.pr.plan.Board.D)-y))
}

// alone returns what an item's place costs by itself.
func (c *cost) alone(i int, p pack.Place) float64 {
	u := c.pr.items[i].unit
	count := float64(len(c.pr.items[i].lineups))
	y := float64(p.Y)
	sum := 0.0
	if u.Worked() {
		sum += frontWeight * float64(u.Often) * max(0, y)
	}
	if u.Treadle {
		sum += treadleWeight * max(0, y-float64(layout.TreadleFront))
	}
	return sum * count
}

// apart returns what it costs that a unit stands elsewhere in another line-up.
func (c *cost) apart(i int, p pack.Place, j int, q pack.Place) float64 {
	a, b := c.pr.items[i].spots[p.Region], c.pr.items[j].spots[q.Region]
	if p.X == q.X && p.Y == q.Y && a.surface == b.surface && a.turn == b.turn {
		return 0
	}
	return float64(apartCost) + apartWeight*math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y))
}

// feet returns what it costs that switches of two units are closer than a shoe,
// or that one unit stands in the way of the foot on the other.
func (c *cost) feet(i int, p pack.Place, j int, q pack.Place) float64 {
	a, b := c.standing(i, p), c.standing(j, q)
	reach := float64(c.pr.plan.Limits.Reach)
	sum := 0.0
	for m := range a.Unit.Switches {
		s, _ := a.SwitchAt(m)
		for n := range b.Unit.Switches {
			t, _ := b.SwitchAt(n)
			if d := math.Hypot(float64(s.X-t.X), float64(s.Y-t.Y)); d < reach {
				sum += float64(crowdCost) + crowdWeight*(reach-d)
			}
		}
	}
	if c.inTheWay(&a, &b) || c.inTheWay(&b, &a) {
		sum += float64(tooTallCost)
	}
	return sum * float64(c.shared(i, j))
}

// inTheWay reports whether the body of other is too tall to step over on the
// way to a switch of s.
func (c *cost) inTheWay(s, other *layout.Standing) bool {
	u := other.Unit
	body := layout.BoxOn(u.Base(other.Place), other.Z, other.Z+u.Height())
	if w := u.Sweep; w != nil {
		body.Z1 = other.Z + max(u.Height(), w.Top)
	}
	for i := range s.Unit.Switches {
		if p, z := s.SwitchAt(i); layout.StepOver(p, z, body) > c.pr.plan.Limits.StepOver {
			return true
		}
	}
	return false
}

// shared counts the line-ups that both items are in.
func (c *cost) shared(i, j int) int {
	n := 0
	for _, k := range c.pr.items[i].lineups {
		if c.pr.pack.Items[j].Groups&(1<<k) != 0 {
			n++
		}
	}
	return n
}

// standing returns the item at a place, without boxes.
func (c *cost) standing(i int, p pack.Place) layout.Standing {
	pl := c.pr.placement(i, p)
	return layout.Standing{Unit: c.pr.items[i].unit, Place: pl, Z: c.pr.items[i].spots[p.Region].z}
}

package pack

import "slices"

// ordered is the learning search: where a rectangle stands is told by the
// answers to "is its x (its y) at least p?" for every place p worth asking,
// and each pair of rectangles by four statements, one of which must hold:
//
//	i left of j,  j left of i,  i below j,  j below i.
//
// "i left of j" and "x of i at least p" together imply "x of j at least
// p + w of i". These clauses go to cdcl.
//
// Places worth asking are sums of the other rectangles' widths: pushed left
// and down until nothing moves, every rectangle stands at one.
type ordered struct {
	c     *plainCore
	style orderStyle
	s     *cdcl
	boxes []orderBox
}

// orderBox is one rectangle of the core.
type orderBox struct {
	kind int
	axis [2]orderAxis
	turn uint32 // the literal "is turned", noLit if it may not
}

// orderAxis is one coordinate of a rectangle: the k-th variable from first
// says that the coordinate is at least places[k+1].
type orderAxis struct {
	places []int64
	first  uint32
	size   int64 // width or height as stated
	other  int64 // the same when turned
}

const noLit = ^uint32(0)

// atLeast returns the literal "coordinate at least p", or one of the two
// constants.
func (a *orderAxis) atLeast(p int64) (lit uint32, yes, no bool) {
	k, _ := slices.BinarySearch(a.places, p)
	if k == 0 {
		return 0, true, false
	}
	if k == len(a.places) {
		return 0, false, true
	}
	return 2 * (a.first + uint32(k-1)), false, false
}

// maxOrderVars bounds the questions asked of all rectangles together, and
// maxOrderClauses about the clauses that relate them, which take some 60 bytes
// each; a larger problem is left to the other searches.
const (
	maxOrderVars    = 60000
	maxOrderClauses = 2500000
)

// orderStyle is how a learning search guesses.
type orderStyle struct {
	apart bool    // "i left of j" is first guessed true
	fade  float64 // by which the weight of past conflicts falls at each new one
}

// The styles that run; they differ where luck decides how soon an arrangement
// is found.
var (
	orderBold  = orderStyle{apart: true, fade: 0.9}
	orderTimid = orderStyle{apart: false, fade: 0.95}
)

// orderedMethod decides a core by learning.
func orderedMethod(style orderStyle) plainMethod {
	return func(c *plainCore, p *pace) plainFound {
		o := &ordered{c: c, style: style, s: &cdcl{pace: p, fade: style.fade}}
		if !o.state() {
			return plainFound{}
		}
		f := plainFound{verdict: o.s.solve(), nodes: o.s.nodes}
		if f.verdict == Fits {
			f.pos = o.positions()
		}
		return f
	}
}

// state writes the problem as clauses; it reports false when that would take
// too many.
func (o *ordered) state() bool {
	if !o.stateBoxes() {
		return false
	}
	for i := range o.boxes {
		for j := range i {
			if o.s.pace.halted {
				return false
			}
			o.statePair(j, i)
		}
	}
	o.stateCorner()
	return true
}

func (o *ordered) stateBoxes() bool {
	vars := 0
	for k, kd := range o.c.kinds {
		x := o.placesOf(k, 0)
		y := o.placesOf(k, 1)
		vars += (len(x) + len(y)) * len(kd.items)
		if x == nil || y == nil || vars > maxOrderVars || vars*o.c.n > maxOrderClauses {
			return false
		}
		for range kd.items {
			b := orderBox{kind: k, turn: noLit}
			if kd.turn {
				b.turn = 2 * o.s.newVar(false)
			}
			b.axis[0] = o.newAxis(x, kd.w, kd.h)
			b.axis[1] = o.newAxis(y, kd.h, kd.w)
			o.boxes = append(o.boxes, b)
			if kd.turn {
				o.stateWalls(&b)
			}
		}
	}
	slices.SortStableFunc(o.boxes, func(a, b orderBox) int {
		return int(b.axis[0].size*b.axis[1].size - a.axis[0].size*a.axis[1].size)
	})
	return true
}

// placesOf returns where kind k may stand on an axis: sums of what the others
// measure on it, as far as the container reaches.
func (o *ordered) placesOf(k, axis int) []int64 {
	size := o.c.side(axis)
	if size > maxSums {
		return o.farPlacesOf(k, axis)
	}
	set := newSums(size)
	set.set(0)
	for j := range o.c.kinds {
		kd := &o.c.kinds[j]
		copies := len(kd.items)
		if j == k {
			copies--
		}
		for range copies {
			set.shiftOr(kd.measure(axis), kd.turn, kd.measure(1-axis))
		}
	}
	own := o.c.kinds[k].shortest(axis)
	var places []int64
	for p := int64(0); p >= 0 && p <= size-own; p = set.next(p + 1) {
		places = append(places, p)
	}
	return places
}

// farPlacesOf is placesOf for a container of many steps: it lists the sums one
// by one, and gives up when they are too many to ask about.
func (o *ordered) farPlacesOf(k, axis int) []int64 {
	var lengths [][2]int64
	for j := range o.c.kinds {
		kd := &o.c.kinds[j]
		for i := range kd.items {
			if i == 0 && j == k {
				continue
			}
			v := [2]int64{kd.measure(axis), kd.measure(axis)}
			if kd.turn {
				v[1] = kd.measure(1 - axis)
			}
			lengths = append(lengths, v)
		}
	}
	list, _ := sumList([]int64{0}, lengths, o.c.side(axis)-o.c.kinds[k].shortest(axis), maxOrderVars/o.c.n)
	return list
}

func (o *ordered) newAxis(places []int64, size, other int64) orderAxis {
	a := orderAxis{places: places, size: size, other: other}
	for k := 1; k < len(places); k++ {
		v := o.s.newVar(false)
		if k == 1 {
			a.first = v
		} else {
			o.s.add(2*v+1, 2*(v-1))
		}
	}
	return a
}

// stateWalls keeps a rectangle that may be turned inside the container.
func (o *ordered) stateWalls(b *orderBox) {
	for axis := range 2 {
		a := &b.axis[axis]
		side := o.c.side(axis)
		o.stateAtMost(a, side-a.size, b.turn)
		o.stateAtMost(a, side-a.other, not(b.turn))
	}
}

// stateAtMost says: the coordinate is at most p unless the literal holds.
func (o *ordered) stateAtMost(a *orderAxis, p int64, unless uint32) {
	lit, yes, no := a.atLeast(p + 1)
	switch {
	case no:
	case yes:
		o.s.add(unless)
	default:
		o.s.add(not(lit), unless)
	}
}

// statePair says that boxes i and j do not overlap.
func (o *ordered) statePair(i, j int) {
	a, b := &o.boxes[i], &o.boxes[j]
	same := a.kind == b.kind && a.turn == noLit
	var any []uint32
	var lits [4]uint32
	for axis := range 2 {
		for dir := range 2 {
			l := noLit
			p, q := a, b
			if dir == 1 {
				p, q = b, a
			}
			fits := p.least(axis)+q.least(axis) <= o.c.side(axis)
			if fits && !(same && axis == 0 && dir == 1) {
				l = 2 * o.s.newVar(o.style.apart)
				any = append(any, l)
				o.statePrecedes(p, q, axis, l)
			}
			lits[2*axis+dir] = l
		}
	}
	o.s.add(any...)
	if same && lits[3] != noLit {
		// Of two equal ones either i is left of j, or not above it.
		if lits[0] != noLit {
			o.s.add(lits[0], not(lits[3]))
		} else {
			o.s.add(not(lits[3]))
		}
	}
}

// least is the box's smallest measure on an axis.
func (b *orderBox) least(axis int) int64 {
	if b.turn != noLit {
		return min(b.axis[axis].size, b.axis[axis].other)
	}
	return b.axis[axis].size
}

// statePrecedes says what literal l, "p before q on the axis", implies.
func (o *ordered) statePrecedes(p, q *orderBox, axis int, l uint32) {
	a := &p.axis[axis]
	if p.turn == noLit {
		o.stateAfter(a, &q.axis[axis], a.size, not(l), noLit)
		return
	}
	o.stateAfter(a, &q.axis[axis], min(a.size, a.other), not(l), noLit)
	if a.size > a.other {
		o.stateAfter(a, &q.axis[axis], a.size, not(l), p.turn)
	} else {
		o.stateAfter(a, &q.axis[axis], a.other, not(l), not(p.turn))
	}
}

// stateAfter says: q is at least p plus size, unless one of two literals
// holds.
func (o *ordered) stateAfter(p, q *orderAxis, size int64, unless, or uint32) {
	for _, at := range p.places {
		from, always, _ := p.atLeast(at)
		to, yes, no := q.atLeast(at + size)
		if yes {
			continue
		}
		clause := []uint32{unless}
		if or != noLit {
			clause = append(clause, or)
		}
		if !always {
			clause = append(clause, not(from))
		}
		if !no {
			clause = append(clause, to)
		}
		o.s.add(clause...)
		if no {
			break // all that follows is implied
		}
	}
}

// stateCorner takes out mirror images: the centre of the largest rectangle
// that is the only one of its kind, and may not turn, stays in the lower left
// quarter, with x <= y where exchanging the two changes nothing.
func (o *ordered) stateCorner() {
	for i := range o.boxes {
		b := &o.boxes[i]
		if len(o.c.kinds[b.kind].items) > 1 || b.turn != noLit {
			continue
		}
		for axis := range 2 {
			a := &b.axis[axis]
			lit, yes, no := a.atLeast((o.c.side(axis)-a.size)/2 + 1)
			if !yes && !no {
				o.s.add(not(lit))
			}
		}
		if o.c.symmetric() {
			for _, p := range b.axis[0].places[1:] { // x at most y
				x, _, _ := b.axis[0].atLeast(p)
				y, _, _ := b.axis[1].atLeast(p)
				o.s.add(not(x), y)
			}
		}
		return
	}
}

// positions reads the answer, kind by kind.
func (o *ordered) positions() [][]plainPos {
	pos := make([][]plainPos, len(o.c.kinds))
	for i := range o.boxes {
		b := &o.boxes[i]
		var at [2]int64
		for axis := range 2 {
			a := &b.axis[axis]
			at[axis] = a.places[0]
			for k := 1; k < len(a.places); k++ {
				if o.s.value[2*(a.first+uint32(k-1))] > 0 {
					at[axis] = a.places[k]
				}
			}
		}
		turned := b.turn != noLit && o.s.value[b.turn] > 0
		pos[b.kind] = append(pos[b.kind], plainPos{at[0], at[1], turned})
	}
	return pos
}

// side is the container's measure on an axis: 0 across, 1 up.
func (c *plainCore) side(axis int) int64 {
	if axis == 0 {
		return c.W
	}
	return c.H
}

// measure is the kind's measure on an axis, not turned.
func (k *plainKind) measure(axis int) int64 {
	if axis == 0 {
		return k.w
	}
	return k.h
}

// shortest is the kind's smallest measure on an axis, in any turn.
func (k *plainKind) shortest(axis int) int64 {
	if k.turn {
		return min(k.w, k.h)
	}
	return k.measure(axis)
}

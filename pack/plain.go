package pack

import "context"

// Plain rectangles: how a problem of single boxes in one common container is
// decided. The files plain*.go, bounds.go and least*.go are about nothing else.
//
//	problem --> plain form --> bounds --> searches, side by side --> answer
//	            (plainOf)      (bounds)   outline upright, outline across,
//	                                      learning
//
// The plain form is width and height of a container and of each rectangle.
// Lengths are divided by what divides them all, equal rectangles are gathered
// as kinds. From there on nothing depends on how fine the caller's unit is:
// every search only looks at places that are sums of lengths, because every
// arrangement can be pushed left and down until each rectangle touches
// something, wall or rectangle, on both these sides:
//
//	+-----------+             +-----------+
//	|  +-+ +--+ |             |+-+        |
//	|  | | +--+ |     -->     || +--+     |
//	|  +-+ +--+ |             |+-+--+     |
//	|      |  | |             ||  |       |
//	+------+--+-+             ++--+-------+
//
// Three searches of two sorts then run beside each other (plain_race.go):
//
//   - The outline search (plain_skyline.go) fills the container from the
//     bottom, always in the narrowest niche of the outline, and counts the
//     area it loses. Where little may be lost (perfect squares; 18 squares in
//     a square of 46, where 7 cells may stay empty) nearly every branch dies
//     at once. It runs upright and, where that is not the same, across.
//   - The learning search (plain_order.go, plain_clauses.go, plain_learn.go)
//     asks of pairs which is left of or below which, and of rectangles whether
//     their x or y is at least p; of each contradiction it keeps the part of
//     the guesses that caused it as a new clause. Where much may be lost it
//     finds the short proofs that no search by places finds.
//
// The first to answer wins. "First" is counted in steps and not on the clock,
// so the same problem has the same answer on a busy machine.
//
// Both are complete: "impossible" means that the whole tree was refuted. What
// makes the trees small has a proof in the comment beside it: pushing, mirror
// images, equal rectangles, areas lost for good, states seen before.
//
// Hundreds of rectangles are beyond both; least containers then come from
// beams (plain_beam.go), which find but never prove.

// maxPlain bounds the sides of a container that the plain search takes on, so
// that areas stay far inside an int64.
const maxPlain = int64(1) << 30

// plainRect is one rectangle to place; with Turn it may also stand on its
// side.
type plainRect struct {
	W, H int64
	Turn bool
}

// plainProblem asks for places for all Rects in a container W wide and H deep
// such that no two overlap. Corners may be any integers.
type plainProblem struct {
	W, H  int64
	Rects []plainRect
}

// plainPos is where a rectangle stands: its lower left corner, and whether
// width and height are exchanged.
type plainPos struct {
	X, Y   int64
	Turned bool
}

// plainAnswer is what solvePlain found: At has one place a rectangle when
// Verdict is Fits; Reason is set when it is Impossible, with Items indexing
// Rects.
type plainAnswer struct {
	Verdict Verdict
	At      []plainPos
	Reason  *Reason
	Nodes   int64
}

// plainOf reports whether p is a plain rectangle problem and restates it so:
// every item is a single box (in one turn, or in two with width and height
// exchanged), all boxes meet in height and group, all may stand anywhere in
// one common rectangle, and nothing else is in the way.
func plainOf(p *Problem) (plainProblem, bool) {
	pp, _, ok := plainFrom(p)
	return pp, ok
}

// plainFrom is plainOf that also returns the container's lower left corner.
func plainFrom(p *Problem) (plainProblem, [2]int64, bool) {
	var pp plainProblem
	var corner [2]int64
	if len(p.Items) == 0 || len(p.Obstacles) != 0 {
		return pp, corner, false
	}
	zLow, zHigh := int64(-4*MaxCoord), int64(4*MaxCoord)
	for i := range p.Items {
		it := &p.Items[i]
		var rect plainRect
		for k, r := range it.Regions {
			boxes := it.Shapes[r.Shape].Boxes
			if len(boxes) != 1 {
				return pp, corner, false
			}
			b := boxes[0]
			w, h := b.X1-b.X0, b.Y1-b.Y0
			if w == 0 || h == 0 || b.Z0 == b.Z1 || (b.Groups != 0 && b.Groups&it.Groups != it.Groups) {
				return pp, corner, false
			}
			zLow, zHigh = max(zLow, b.Z0+r.Z), min(zHigh, b.Z1+r.Z)
			span := plainProblem{W: r.X1 - r.X0 + w, H: r.Y1 - r.Y0 + h}
			at := [2]int64{r.X0 + b.X0, r.Y0 + b.Y0}
			if i == 0 && k == 0 {
				pp, corner = span, at
			}
			if span.W != pp.W || span.H != pp.H || at != corner {
				return pp, corner, false
			}
			switch {
			case k == 0:
				rect = plainRect{W: w, H: h}
			case w == rect.W && h == rect.H:
			case w == rect.H && h == rect.W:
				rect.Turn = true
			default:
				return pp, corner, false
			}
		}
		if len(it.Regions) == 0 {
			return pp, corner, false
		}
		for j := 0; j < i; j++ {
			if p.Items[j].Groups&it.Groups == 0 {
				return pp, corner, false
			}
		}
		pp.Rects = append(pp.Rects, rect)
	}
	return pp, corner, zLow < zHigh && pp.W <= maxPlain && pp.H <= maxPlain
}

// placesOf restates an answer for the plain form of p as places of p's items.
func (a *plainAnswer) placesOf(p *Problem) []Place {
	pp, corner, ok := plainFrom(p)
	if !ok || a.Verdict != Fits {
		return nil
	}
	places := make([]Place, len(p.Items))
	for i := range p.Items {
		it, at, rect := &p.Items[i], a.At[i], pp.Rects[i]
		if at.Turned {
			rect.W, rect.H = rect.H, rect.W
		}
		for k, r := range it.Regions {
			b := it.Shapes[r.Shape].Boxes[0]
			if b.X1-b.X0 == rect.W && b.Y1-b.Y0 == rect.H {
				places[i] = Place{Region: k, X: corner[0] + at.X - b.X0, Y: corner[1] + at.Y - b.Y0}
				break
			}
		}
	}
	return places
}

// solvePlain decides pp. Without a time-out or step limit in the way, the
// same problem and seed give the same answer.
func solvePlain(ctx context.Context, pp plainProblem, opt Options) plainAnswer {
	core, fixed := corePlain(pp)
	if fixed != nil {
		return *fixed
	}
	if r := boundPlain(core); r != nil {
		return plainAnswer{Verdict: Impossible, Reason: core.reason(r)}
	}
	return core.answer(runPlain(ctx, core, opt))
}

// plainCore is a plain problem made ready for search: without empty
// rectangles, in the largest unit that divides all lengths, equal rectangles
// gathered as kinds.
type plainCore struct {
	W, H  int64
	kinds []plainKind
	n     int   // rectangles, all kinds together
	area  int64 // of all rectangles
	unitX int64 // one step across, in the caller's lengths
	unitY int64
	rects int // in the problem as given
}

// plainKind is a set of equal rectangles, by index in the problem as given.
// Turn is set only where turning makes a difference and is possible; a
// rectangle that only fits turned is stated so, with flip set.
type plainKind struct {
	w, h  int64
	turn  bool
	items []kindItem
}

type kindItem struct {
	index int
	flip  bool // stated with width and height exchanged
}

// corePlain makes pp ready. It answers at once when nothing is to be placed
// or one rectangle is larger than the container or a length is negative.
func corePlain(pp plainProblem) (*plainCore, *plainAnswer) {
	c := &plainCore{rects: len(pp.Rects)}
	type form struct {
		w, h int64
		turn bool
	}
	seen := map[form]int{}
	gx, gy, turns := int64(0), int64(0), false
	for i, r := range pp.Rects {
		straight := r.W <= pp.W && r.H <= pp.H
		turned := r.Turn && r.W != r.H && r.H <= pp.W && r.W <= pp.H
		if !straight && !turned {
			return nil, &plainAnswer{Verdict: Impossible, Reason: tooLarge(i, r, pp)}
		}
		if r.W <= 0 || r.H <= 0 {
			continue
		}
		f, flip := form{r.W, r.H, straight && turned}, false
		if !straight || f.turn && r.W < r.H {
			f.w, f.h, flip = r.H, r.W, true
		}
		turns = turns || f.turn
		gx, gy = gcd(gx, f.w), gcd(gy, f.h)
		k, ok := seen[f]
		if !ok {
			k = len(c.kinds)
			seen[f] = k
			c.kinds = append(c.kinds, plainKind{w: f.w, h: f.h, turn: f.turn})
		}
		c.kinds[k].items = append(c.kinds[k].items, kindItem{i, flip})
		c.n++
	}
	if c.n == 0 {
		return nil, &plainAnswer{Verdict: Fits, At: make([]plainPos, len(pp.Rects))}
	}
	if turns {
		gx = gcd(gx, gy)
		gy = gx
	}
	c.unitX, c.unitY, c.W, c.H = gx, gy, pp.W/gx, pp.H/gy
	for k := range c.kinds {
		c.kinds[k].w /= gx
		c.kinds[k].h /= gy
		c.area += c.kinds[k].w * c.kinds[k].h * int64(len(c.kinds[k].items))
		if c.area > c.W*c.H {
			return nil, &plainAnswer{Verdict: Impossible, Reason: tooMuch(pp)}
		}
	}
	return c, nil
}

// symmetric reports whether exchanging x and y turns the problem into itself,
// for the simple case of squares and rectangles that may turn.
func (c *plainCore) symmetric() bool {
	for i := range c.kinds {
		if c.kinds[i].w != c.kinds[i].h && !c.kinds[i].turn {
			return false
		}
	}
	return c.W == c.H && c.unitX == c.unitY
}

// tooLarge is the reason when rectangle i does not fit the container alone.
func tooLarge(i int, r plainRect, pp plainProblem) *Reason {
	if r.W > pp.W {
		return &Reason{Rule: "load-x", Items: []int{i}, Need: r.W, Have: pp.W}
	}
	return &Reason{Rule: "load-y", Items: []int{i}, Need: r.H, Have: pp.H}
}

// tooMuch is the reason when the rectangles have more area than the container.
func tooMuch(pp plainProblem) *Reason {
	r := &Reason{Rule: "area", Have: pp.W * pp.H}
	for i, q := range pp.Rects {
		if q.W > 0 && q.H > 0 {
			r.Items = append(r.Items, i)
			r.Need += q.W * q.H
			if r.Need > r.Have {
				return r // these alone are too much
			}
		}
	}
	return r
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

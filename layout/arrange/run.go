package arrange

import (
	"math"

	"footplank/layout"
	"footplank/layout/route"
)

// near is how far aside of each other two plugs may be for a cable to go from
// one to the other without bends to speak of: our own choice.
const near = float64(2 * layout.Millimetre)

// bend is the radius that a patch cable asks for.
var bend = float64(route.BendRadius(route.PatchDiameter))

// What the bends of a cable add to its length along the axes, and the way down
// to the board and up again: what real runs between two units alone on a board
// came to on the average, less what lengthOf counts without them.
const (
	bendsAhead = float64(12 * layout.Millimetre) // neither plug looks away from the other
	bendsBack  = float64(30 * layout.Millimetre)
)

// tip is a plug's tip and the way that the cable leaves it.
type tip struct {
	x, y, z, dx, dy float64
	// lo and hi are how far the unit's wall goes on beside the plug, towards
	// smaller and larger coordinates; out and half how far the plug stands out
	// and half its width.
	lo, hi, out, half float64
}

// facing reports whether two plugs look straight at each other.
func facing(a, b tip) bool {
	x, y := b.x-a.x, b.y-a.y
	return a.dx == -b.dx && a.dy == -b.dy && x*a.dx+y*a.dy >= 0 && math.Abs(x*a.dy)+math.Abs(y*a.dx) <= near
}

// runOf estimates the run between two tips and what it is worth to have it not
// too short.
func runOf(a, b tip) float64 { return lengthOf(a, b) + squeeze(a, b) }

// lengthOf estimates the run between two tips as if nothing else stood on the
// board: along the axes, for a plug has the room for its first bend in itself;
// and where it looks away from the other, around its own unit.
//
//	a|->--+          a|->-+
//	      |           +---|-----+
//	 +-<-|b           | unit    |
//	                  +---------+
//	                  +----<-|b
func lengthOf(a, b tip) float64 {
	x, y := b.x-a.x, b.y-a.y
	rise := math.Abs(a.z - b.z)
	if facing(a, b) {
		return math.Hypot(x, y) + rise
	}
	back := aroundOf(a, b) + aroundOf(b, a)
	behind := max(0, -(x*a.dx + y*a.dy), x*b.dx+y*b.dy)
	bends := min(bendsBack, bendsAhead+behind)
	return math.Abs(x) + math.Abs(y) + rise + back + bends
}

// aroundOf returns how much further the cable must go to the side at a, for b is
// behind it: past the plug itself, or past the end of the wall.
func aroundOf(a, b tip) float64 {
	x, y := b.x-a.x, b.y-a.y
	ahead := x*a.dx + y*a.dy
	if ahead >= 0 {
		return 0
	}
	side := x*math.Abs(a.dy) + y*math.Abs(a.dx)
	lo, hi := a.half+near, a.half+near
	if ahead < -a.out {
		lo, hi = a.lo+near, a.hi+near
	}
	up, down := hi+math.Abs(hi-side), lo+math.Abs(lo+side)
	return max(0, min(up, down)-math.Abs(side))
}

// squeeze is what it costs that two plugs are too near each other: nobody gets a
// cable between plugs that touch. Closer than a bend's radius counts as longer,
// the more the closer, so that neighbours share what room there is.
func squeeze(a, b tip) float64 {
	short := max(0, bend-math.Abs(a.x-b.x)-math.Abs(a.y-b.y)-math.Abs(a.z-b.z))
	return squeezeWeight * short * short / bend
}

// squeezeWeight makes 2.5 mm less than a bend's radius the best where all else is
// equal: our own choice.
const squeezeWeight = 4

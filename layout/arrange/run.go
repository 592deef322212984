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

// tip is a plug's tip and the way that the cable leaves it.
type tip struct{ x, y, z, dx, dy float64 }

// facing reports whether two plugs look straight at each other.
func facing(a, b tip) bool {
	x, y := b.x-a.x, b.y-a.y
	return a.dx == -b.dx && a.dy == -b.dy && x*a.dx+y*a.dy >= 0 && math.Abs(x*a.dy)+math.Abs(y*a.dx) <= near
}

// runOf estimates the run between two tips and what it is worth to have it not
// too short.
func runOf(a, b tip) float64 { return lengthOf(a, b) + squeeze(a, b) }

// lengthOf estimates the run between two tips as if nothing else stood on the
// board: along the axes, each end going straight on for a bend's radius first. Two
// plugs that look straight at each other need no bend at all.
//
//	a|->-+          +-<-|b      room for two bends: no longer than
//	     +----------+           along the axes
//
//	 a|->-+                     no room: there and back again
//	+-----+
//	+-<-|b
//
// Where units stand in the way the real run is longer.
func lengthOf(a, b tip) float64 {
	rise := math.Abs(a.z - b.z)
	x, y := b.x-a.x, b.y-a.y
	if facing(a, b) {
		return math.Hypot(x, y) + rise
	}
	x += bend * (b.dx - a.dx)
	y += bend * (b.dy - a.dy)
	return math.Abs(x) + math.Abs(y) + 2*bend + rise
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

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

// runOf estimates the run between two tips as if nothing else stood on the
// board: along the axes, each end going straight on for a bend's radius first.
//
//	a|->-+          +-<-|b      room for two bends: no longer than
//	     +----------+           along the axes
//
//	 a|->-+                     no room: there and back again
//	+-----+
//	+-<-|b
//
// Two plugs that look straight at each other need no bend at all, but nobody
// gets a cable between plugs that touch: closer than a bend's radius counts as
// longer again, the more the closer, so that neighbours share what room there
// is. Where units stand in the way the real run is longer.
func runOf(a, b tip) float64 {
	rise := math.Abs(a.z - b.z)
	x, y := b.x-a.x, b.y-a.y
	ahead := x*a.dx + y*a.dy
	if facing := a.dx == -b.dx && a.dy == -b.dy; facing && ahead >= 0 && math.Abs(x*a.dy)+math.Abs(y*a.dx) <= near {
		short := max(0, bend-ahead)
		return math.Hypot(x, y) + 2*short*short/bend + rise
	}
	x += bend * (b.dx - a.dx)
	y += bend * (b.dy - a.dy)
	return math.Abs(x) + math.Abs(y) + 2*bend + rise
}

package edit

import "footplank/layout"

// Line is what of two units is brought in line.
type Line int

// The lines. Side by side, two middles are equally far from the board's front;
// one behind the other, equally far from its left edge.
const (
	LeftEdges Line = iota
	RightEdges
	FrontEdges
	BackEdges
	MiddlesSideBySide
	MiddlesBehind
)

// Aligned returns pl moved, along one axis only, so that it is in line with a
// unit that stands on with.
func Aligned(u *layout.Unit, pl layout.Placement, with layout.Rect, line Line) layout.Placement {
	b := u.Base(pl)
	switch line {
	case LeftEdges:
		pl.At.X = with.X0
	case RightEdges:
		pl.At.X = with.X1 - b.W()
	case FrontEdges:
		pl.At.Y = with.Y0
	case BackEdges:
		pl.At.Y = with.Y1 - b.D()
	case MiddlesSideBySide:
		pl.At.Y = (with.Y0 + with.Y1 - b.D()) / 2
	default:
		pl.At.X = (with.X0 + with.X1 - b.W()) / 2
	}
	return inReach(pl)
}

// Exchanged returns the places of two units after each has taken the other's.
// Turns stay with the units. Along the axis on which they are further apart the
// outer edges stay where they are, so that what stands around the two keeps its
// room and only the gap between them may change:
//
//	|  A  |  gap  |B|   becomes   |B|  gap  |  A  |
//
// On the other axis each takes the front or left edge of the other.
func Exchanged(a, b *layout.Unit, pa, pb layout.Placement) (layout.Placement, layout.Placement) {
	ra, rb := a.Base(pa), b.Base(pb)
	na := layout.Placement{On: pb.On, Turn: pa.Turn, At: layout.Point{X: rb.X0, Y: rb.Y0}}
	nb := layout.Placement{On: pa.On, Turn: pb.Turn, At: layout.Point{X: ra.X0, Y: ra.Y0}}
	ca, cb := ra.Center(), rb.Center()
	dx, dy := cb.X-ca.X, cb.Y-ca.Y
	if max(dx, -dx) >= max(dy, -dy) {
		if dx >= 0 {
			na.At.X = rb.X1 - ra.W()
		} else {
			nb.At.X = ra.X1 - rb.W()
		}
	} else if dy >= 0 {
		na.At.Y = rb.Y1 - ra.D()
	} else {
		nb.At.Y = ra.Y1 - rb.D()
	}
	return inReach(na), inReach(nb)
}

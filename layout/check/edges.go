package check

import (
	"fmt"

	"footplank/layout"
)

// edges checks what stands past the edges of the board and of risers.
func (c *checker) edges() {
	b := &c.p.Board
	for i := range c.stand {
		s := &c.stand[i]
		past, where, allowed := pastEdge(s.base, s.surface.At, s.surface.Overhang)
		on := s.Place.On
		if on != layout.DeckName {
			// On a riser at the board's edge, the board's overhang binds too.
			if p, w, a := pastEdge(s.base, b.Rect(), b.Overhang); p-a > past-allowed {
				past, where, allowed, on = p, w, a, "board"
			}
		}
		if past > allowed {
			c.addLength(OffBoard, Fault, fmt.Sprintf("%s stands %s past the %s edge of the %s, and %s. Move it %s %s.",
				s.Unit.Label, c.atLeast(past), where, on, c.allowance(allowed), c.atLeast(past-allowed), where.opposite().towards()),
				past, allowed, s.Unit.ID)
		}
		c.plugEdges(s)
	}
}

func (c *checker) plugEdges(s *standing) {
	b := &c.p.Board
	worst, at := layout.Length(0), -1
	for i := range s.Boxes {
		if s.Boxes[i].Part != layout.PlugPart {
			continue
		}
		if past, _, allowed := pastEdge(s.Boxes[i].Box.Rect(), b.Rect(), b.PlugRoom); past-allowed > worst {
			worst, at = past-allowed, i
		}
	}
	if at < 0 {
		return
	}
	past, where, allowed := pastEdge(s.Boxes[at].Box.Rect(), b.Rect(), b.PlugRoom)
	c.addLength(PlugOffBoard, Fault, fmt.Sprintf("The plug in %q of %s stands %s past the %s edge of the board, and %s. Move %s %s %s, or leave more plug room there.",
		s.Boxes[at].Jack, s.Unit.Label, c.atLeast(past), where, c.allowance(allowed), s.Unit.Label, c.atLeast(worst), where.opposite().towards()),
		past, allowed, s.Unit.ID)
}

func (c *checker) allowance(l layout.Length) string {
	if l <= 0 {
		return "nothing may stand there"
	}
	return "only " + c.atMost(l) + " is allowed"
}

// pastEdge returns how far r stands past the edge of on where it exceeds the
// allowance most, or keeps within it least.
func pastEdge(r, on layout.Rect, allow layout.Edges) (past layout.Length, where side, allowed layout.Length) {
	_, where = pastSide(r, on.Grow(allow))
	switch where {
	case left:
		return on.X0 - r.X0, where, allow.Left
	case right:
		return r.X1 - on.X1, where, allow.Right
	case front:
		return on.Y0 - r.Y0, where, allow.Front
	default:
		return r.Y1 - on.Y1, where, allow.Back
	}
}

// bearing checks that enough of each base rests on its surface. What is past
// an edge by too much is said by edges and not again here.
func (c *checker) bearing() {
	for i := range c.stand {
		s := &c.stand[i]
		if past, _, allowed := pastEdge(s.base, s.surface.At, s.surface.Overhang); past > allowed || s.surface.Rests(s.Unit, s.Place) {
			continue
		}
		if s.surface.Rails != nil {
			c.betweenRails(s)
		} else {
			c.littleBase(s)
		}
	}
}

// littleBase says by how much a unit on a solid surface fails to rest, along
// the axis that fails most. See layout.Surface.RestRegions for the shares.
func (c *checker) littleBase(s *standing) {
	on, base := s.surface.At, s.base
	share := base.Intersect(on)
	num, den := layout.Length(1), layout.Length(2)
	if share.W() < base.W() && share.D() < base.D() {
		num, den = layout.TwoEdgeShare()
	}
	needW, needD := (base.W()*num+den-1)/den, (base.D()*num+den-1)/den
	bears, need, name := share.W(), needW, "width"
	if needD-share.D() > needW-share.W() {
		bears, need, name = share.D(), needD, "depth"
	}
	bears = max(bears, 0)
	c.addLength(LittleBase, Fault, fmt.Sprintf("Too little of %s stands on the %s: %s of its %s, and it needs %s. Move it %s further on.",
		s.Unit.Label, s.Place.On, c.atMost(bears), name, c.atLeast(need), c.atLeast(need-bears)), bears, need, s.Unit.ID)
}

// betweenRails says why a unit on a rail board does not rest.
func (c *checker) betweenRails(s *standing) {
	var best, second layout.Length
	for _, r := range s.surface.Rails {
		share := s.base.Intersect(r.At)
		if share.Empty() {
			continue
		}
		d := share.D()
		if r.At.D() > r.At.W() { // a rail that runs from front to back
			d = share.W()
		}
		if d > best {
			best, second = d, best
		} else if d > second {
			second = d
		}
	}
	u := s.Unit
	if second >= layout.MinBearing {
		c.add(BetweenRails, Fault, fmt.Sprintf("%s bears on rails, yet not on both sides of its middle or not over its whole width, and tips off. Move it over the gap between two rails, or turn it.", u.Label), u.ID)
		return
	}
	how := "lies on no rail at all"
	switch {
	case second > 0:
		how = fmt.Sprintf("bears only %s on its second rail", c.atMost(second))
	case best > 0:
		how = "bears on one rail only, with less than half of it"
	}
	c.addLength(BetweenRails, Fault, fmt.Sprintf("%s falls between the rails: it %s. Give it %s on each of two rails, or put a plate under it.",
		u.Label, how, c.atLeast(layout.MinBearing)), second, layout.MinBearing, u.ID)
}

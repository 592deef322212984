package check

import (
	"fmt"

	"footplank/layout"
)

// clash is how two sets of boxes overlap.
type clash struct {
	// depth is how far the second set must move towards way to come clear of
	// every box of the first that it overlaps now. Of the four ways it is
	// the one with the least depth.
	depth layout.Length
	way   side
	a, b  int // the two boxes that overlap most on that way
}

// clashOf compares every box of a with every box of b. ok is false when none
// overlap.
func clashOf(a, b []layout.PartBox) (best clash, ok bool) {
	var ways [4]clash
	for i := range a {
		for j := range b {
			if !a[i].Box.Overlaps(b[j].Box) {
				continue
			}
			ok = true
			p, q := &a[i].Box, &b[j].Box
			for w, d := range [...]layout.Length{left: q.X1 - p.X0, right: p.X1 - q.X0, front: q.Y1 - p.Y0, back: p.Y1 - q.Y0} {
				if d > ways[w].depth {
					ways[w] = clash{d, side(w), i, j}
				}
			}
		}
	}
	best = ways[0]
	for _, w := range ways[1:] {
		if w.depth < best.depth {
			best = w
		}
	}
	return best, ok
}

// collisions checks units against each other, and the plugs of one unit.
func (c *checker) collisions() {
	for j := range c.stand {
		b := &c.stand[j]
		c.ownPlugs(b)
		for i := 0; i < j; i++ {
			a := &c.stand[i]
			if !a.bounds.Overlaps(b.bounds) {
				continue
			}
			k, ok := clashOf(a.Boxes, b.Boxes)
			if !ok {
				continue
			}
			mover, way := b.Unit, k.way
			if mover.Pinned && !a.Unit.Pinned {
				mover, way = a.Unit, way.opposite()
			}
			c.addLength(Collision, Fault, fmt.Sprintf("%s and %s want the same room. Move %s %s %s, or the other away.",
				sentence(part(a.Unit, &a.Boxes[k.a])), part(b.Unit, &b.Boxes[k.b]), mover.Label, c.atLeast(k.depth), way.towards()),
				k.depth, 0, a.Unit.ID, b.Unit.ID)
		}
	}
}

// ownPlugs checks the plugs of one unit against each other.
func (c *checker) ownPlugs(s *standing) {
	for i := range s.Boxes {
		for j := i + 1; j < len(s.Boxes); j++ {
			a, b := &s.Boxes[i], &s.Boxes[j]
			if a.Part != layout.PlugPart || b.Part != layout.PlugPart || !a.Box.Overlaps(b.Box) {
				continue
			}
			k, _ := clashOf(s.Boxes[i:i+1], s.Boxes[j:j+1])
			c.addLength(OwnPlugs, Fault, fmt.Sprintf("The plugs in %q and %q of %s overlap by %s. Use narrower plugs, or turn a leg the other way.",
				a.Jack, b.Jack, s.Unit.Label, c.atLeast(k.depth)), k.depth, 0, s.Unit.ID)
		}
	}
}

// obstacles checks units against the risers and fixtures of the board, and
// plugs against the surface below them.
func (c *checker) obstacles() {
	for i := range c.stand {
		s := &c.stand[i]
		for r := range c.p.Board.Risers {
			c.riser(s, &c.p.Board.Risers[r])
		}
		for f := range c.p.Board.Fixtures {
			x := &c.p.Board.Fixtures[f]
			c.obstacle(s, "the "+x.Name, x.Box)
		}
		c.plugBelow(s)
	}
}

// riser checks a unit against one riser: its legs, and its platform, which is
// a matter of headroom for what stands below it.
func (c *checker) riser(s *standing, r *layout.Riser) {
	if s.Place.On == r.Name {
		return // only a plug can reach into it, see plugBelow
	}
	under := r.Height - r.Thickness
	for _, leg := range r.Legs {
		c.obstacle(s, "a leg of the "+r.Name, layout.BoxOn(leg.At, 0, under))
	}
	platform := layout.BoxOn(r.At, under, r.Height)
	if s.Z >= under {
		c.obstacle(s, "the "+r.Name, platform)
		return
	}
	tallest := -1
	for i := range s.Boxes {
		if s.Boxes[i].Box.Overlaps(platform) && (tallest < 0 || s.Boxes[i].Box.Z1 > s.Boxes[tallest].Box.Z1) {
			tallest = i
		}
	}
	if tallest < 0 {
		return
	}
	b := &s.Boxes[tallest]
	c.addLength(Headroom, Fault, fmt.Sprintf("%s needs %s of height, and under the %s there are %s. Move it out from under, or raise the %s by %s.",
		sentence(part(s.Unit, b)), c.atLeast(b.Box.Z1-s.Z), r.Name, c.atMost(under-s.Z), r.Name, c.atLeast(b.Box.Z1-under)),
		b.Box.Z1-s.Z, under-s.Z, s.Unit.ID)
}

func (c *checker) obstacle(s *standing, name string, box layout.Box) {
	if !s.bounds.Overlaps(box) {
		return
	}
	k, ok := clashOf([]layout.PartBox{{Box: box}}, s.Boxes)
	if !ok {
		return
	}
	c.addLength(Obstacle, Fault, fmt.Sprintf("%s is in the way of %s. Move %s %s %s.",
		sentence(name), part(s.Unit, &s.Boxes[k.b]), s.Unit.Label, c.atLeast(k.depth), k.way.towards()), k.depth, 0, s.Unit.ID)
}

// plugBelow checks that no plug would have to go into the surface that its
// unit stands on.
func (c *checker) plugBelow(s *standing) {
	for i := range s.Boxes {
		b := &s.Boxes[i]
		if b.Part != layout.PlugPart || !s.over(b.Box.Rect()) {
			continue
		}
		low := s.Z - b.Box.Z0
		if low <= 0 {
			continue
		}
		c.addLength(PlugBelow, Fault, fmt.Sprintf("The plug in %q of %s reaches %s into the %s. Use a plug that is narrower or whose leg points elsewhere, or raise the unit.",
			b.Jack, s.Unit.Label, c.atLeast(low), s.Place.On), low, 0, s.Unit.ID)
	}
}

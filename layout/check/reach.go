package check

import (
	"fmt"
	"math"

	"footplank/layout"
)

// sore is the level of something that hinders a foot: less where the foot has
// nothing to do while playing. In a plan that says of no unit how often it is
// worked, all are.
func (c *checker) sore(worked, idle Level, units ...*layout.Unit) Level {
	if c.silent {
		return worked
	}
	for _, u := range units {
		if u.Often > 0 {
			return worked
		}
	}
	return idle
}

// thing is what a foot may run into: a unit or a part of the board.
type thing struct {
	unit  *layout.Unit // nil for a part of the board
	name  string
	boxes []layout.PartBox
}

func (t *thing) id(first string) []string {
	if t.unit == nil {
		return []string{first}
	}
	return []string{first, t.unit.ID}
}

// things returns all that stands on the board, and the board's risers and
// fixtures.
func (c *checker) things() []thing {
	obstacles := c.p.Board.Obstacles()
	out := make([]thing, 0, len(c.stand)+len(obstacles))
	for i := range c.stand {
		s := &c.stand[i]
		out = append(out, thing{s.Unit, s.Unit.Label, s.Boxes})
	}
	for _, o := range obstacles {
		out = append(out, thing{nil, "the " + o.Name, []layout.PartBox{{Part: layout.BodyPart, Box: o.Box}}})
	}
	return out
}

// switches checks that a shoe gets at each switch, and at no other with it.
func (c *checker) switches() {
	things := c.things()
	for i := range c.stand {
		s := &c.stand[i]
		for j := 0; j < i; j++ {
			c.switchesClose(&c.stand[j], s)
		}
		if !s.Unit.Worked() {
			continue
		}
		for t := range things {
			if things[t].unit != s.Unit && !c.covered(s, &things[t]) {
				c.stepOver(s, &things[t])
			}
		}
	}
}

func (c *checker) switchesClose(a, b *standing) {
	reach := c.p.Limits.Reach
	least := int64(math.MaxInt64)
	for i := range a.Unit.Switches {
		p, _ := a.SwitchAt(i)
		for j := range b.Unit.Switches {
			q, _ := b.SwitchAt(j)
			dx, dy := int64(p.X-q.X), int64(p.Y-q.Y)
			least = min(least, dx*dx+dy*dy)
		}
	}
	if reach <= 0 || least >= int64(reach)*int64(reach) {
		return
	}
	d := layout.Length(math.Sqrt(float64(least)))
	level := c.sore(Caution, Note, a.Unit, b.Unit)
	c.addLength(SwitchesClose, level, fmt.Sprintf("The switches of %s and %s are %s apart and a shoe needs %s: it will press both. Move them %s further apart.",
		a.Unit.Label, b.Unit.Label, c.atMost(d), c.atLeast(reach), c.atLeast(reach-d)), d, reach, a.Unit.ID, b.Unit.ID)
}

// covered reports whether the thing lies over what a foot presses of the unit,
// and files it. See layout.Unit.Treads.
func (c *checker) covered(s *standing, t *thing) bool {
	for _, air := range s.Unit.Treads(s.Place.Turn) {
		air = air.Move(s.Place.At, s.Z)
		for k := range t.boxes {
			if b := &t.boxes[k].Box; b.Overlaps(air) {
				c.addLength(Covered, c.sore(Fault, Caution, s.Unit), fmt.Sprintf("No foot gets at %s: %s lies over it. Move one of them.",
					s.Unit.Label, t.name), max(b.Z0-air.Z0, 0), 0, t.id(s.Unit.ID)...)
				return true
			}
		}
	}
	return false
}

// stepOver checks for one thing that is too tall in the way of the foot to the
// unit's switches.
func (c *checker) stepOver(s *standing, t *thing) {
	var worst layout.Length
	for i := range s.Unit.Switches {
		p, z := s.SwitchAt(i)
		for k := range t.boxes {
			worst = max(worst, layout.StepOver(p, z, t.boxes[k].Box))
		}
	}
	limit := c.p.Limits.StepOver
	if worst <= limit {
		return
	}
	c.addLength(StepOver, c.sore(Caution, Note, s.Unit), fmt.Sprintf("The switch of %s is hard to reach: %s in front of it is %s taller, and a foot gets over %s. Raise the one behind, or swap the two.",
		s.Unit.Label, t.name, c.atLeast(worst), c.atMost(limit)), worst, limit, t.id(s.Unit.ID)...)
}

// treadles checks that each treadle is at the board's front with its way free.
func (c *checker) treadles() {
	var things []thing
	for i := range c.stand {
		s := &c.stand[i]
		if !s.Unit.Treadle {
			continue
		}
		if things == nil {
			things = c.things()
		}
		if y := s.base.Y0; y > layout.TreadleFront {
			c.addLength(TreadleBack, Caution, fmt.Sprintf("%s is %s behind the front edge: the heel has no floor. Bring it %s further to the front.",
				s.Unit.Label, c.atLeast(y), c.atLeast(y-layout.TreadleFront)), y, layout.TreadleFront, s.Unit.ID)
		}
		for t := range things {
			if things[t].unit != s.Unit {
				c.treadleFree(s, &things[t])
			}
		}
	}
}

// treadleFree checks one thing against the room before a treadle.
func (c *checker) treadleFree(s *standing, t *thing) {
	before := layout.Rect{X0: s.base.X0, Y0: -layout.MaxLength, X1: s.base.X1, Y1: s.base.Y0}
	var depth layout.Length
	for k := range t.boxes {
		b := &t.boxes[k]
		if b.Box.Z1 > s.Z && b.Part != layout.SweepPart && b.Box.Rect().Overlaps(before) {
			depth = max(depth, min(b.Box.Y1, s.base.Y0)-b.Box.Y0)
		}
	}
	if depth > 0 {
		c.addLength(TreadleBlocked, Caution, fmt.Sprintf("%s stands between %s and the front edge, where the heel goes. Move it away.",
			sentence(t.name), s.Unit.Label), depth, 0, t.id(s.Unit.ID)...)
	}
}

package changeover

import (
	"slices"

	"footplank/layout"
)

// passage is the way of a unit out from under a riser, or in under it: straight
// towards one side, where nothing stands in its way.
//
//	+------------ riser ------------+
//	|     +----+     +----+         |
//	|     |    |     |unit|         |
//	+-----|    |-----|    |---------+
//	      +----+     |    |
//	                 |  v |   swept until it is clear of the riser
//	                 +----+
type passage struct {
	riser string
	side  layout.Wall
	past  []string // what stands in the way to the front, where no side is free
}

// passages finds the ways of the units that stand beneath a riser, step by step
// as the board is then.
func (c *change) passages(steps []Step) {
	here := map[string]*layout.Standing{}
	for i := range c.from.placed {
		here[c.from.placed[i].Unit.ID] = &c.from.placed[i]
	}
	for i := range steps {
		s := &steps[i]
		if s.From != nil {
			delete(here, s.Unit)
			s.out = c.passage(c.from.at[s.Unit], here)
		}
		if s.To != nil {
			s.in = c.passage(c.to.at[s.Unit], here)
			if s.beneath = c.slide(s, here); s.beneath != "" {
				s.out, s.in = nil, nil
			}
			here[s.Unit] = c.to.at[s.Unit]
		}
	}
}

// slide returns the riser beneath which a unit can be pushed straight to where it
// goes; "" where it cannot.
func (c *change) slide(s *Step, here map[string]*layout.Standing) string {
	if s.out == nil || s.in == nil || s.out.riser != s.in.riser || s.From.Turn != s.To.Turn || s.From.At.X != s.To.At.X && s.From.At.Y != s.To.At.Y {
		return ""
	}
	a, b := c.from.at[s.Unit].Boxes[0].Box, c.to.at[s.Unit].Boxes[0].Box
	way := layout.Box{X0: min(a.X0, b.X0), Y0: min(a.Y0, b.Y0), Z0: a.Z0, X1: max(a.X1, b.X1), Y1: max(a.Y1, b.Y1), Z1: a.Z1}
	if _, free := c.inWay(way, here); !free {
		return ""
	}
	return s.out.riser
}

// passage is nil for a unit that comes straight up.
func (c *change) passage(st *layout.Standing, here map[string]*layout.Standing) *passage {
	r := c.roof(st)
	if r == nil {
		return nil
	}
	out := &passage{riser: r.Name}
	for _, out.side = range []layout.Wall{layout.Front, layout.Back, layout.Left, layout.Right} {
		way := swept(st.Boxes[0].Box, r.At, out.side)
		past, free := c.inWay(way, here)
		if free {
			out.past = nil
			return out
		}
		if out.side == layout.Front {
			out.past = past
		}
	}
	out.side = layout.Front
	return out
}

// roof returns the riser above the unit.
func (c *change) roof(st *layout.Standing) *layout.Riser {
	for i := range c.p.Board.Risers {
		if r := &c.p.Board.Risers[i]; st.Z < r.Height && r.At.Overlaps(st.Unit.Base(st.Place)) {
			return r
		}
	}
	return nil
}

// swept is what a body takes on its way out from under the riser.
func swept(body layout.Box, riser layout.Rect, side layout.Wall) layout.Box {
	w, d := body.X1-body.X0, body.Y1-body.Y0
	switch side {
	case layout.Front:
		body.Y0 = min(body.Y0, riser.Y0-d)
	case layout.Back:
		body.Y1 = max(body.Y1, riser.Y1+d)
	case layout.Left:
		body.X0 = min(body.X0, riser.X0-w)
	default:
		body.X1 = max(body.X1, riser.X1+w)
	}
	return body
}

// inWay lists the units with a part of their body in the way; it is free when
// there are none, and no leg or fixture of the board is in it either.
func (c *change) inWay(way layout.Box, here map[string]*layout.Standing) (units []string, free bool) {
	for i := range c.p.Units {
		id := c.p.Units[i].ID
		if st := here[id]; st != nil && slices.ContainsFunc(bodies(st), func(b layout.PartBox) bool { return b.Box.Overlaps(way) }) {
			units = append(units, id)
		}
	}
	for _, o := range c.p.Board.Obstacles() {
		if o.Box.Overlaps(way) {
			return units, false
		}
	}
	return units, len(units) == 0
}

// words name the riser, and the side where it is not the front: how is "to" or
// "from".
func (o *passage) words(p *layout.Plan, how string) string {
	text := "the " + o.riser
	switch {
	case len(o.past) > 0:
		names := ""
		for i, id := range o.past {
			if i > 0 {
				names += " and "
			}
			names += name(p, id)
		}
		text += ", past " + names + " (close: try it before the gig)"
	case o.side == layout.Back:
		text += " " + how + " the back"
	case o.side == layout.Left:
		text += " " + how + " the left"
	case o.side == layout.Right:
		text += " " + how + " the right"
	}
	return text
}

package edit

import (
	"footplank/layout"
)

// Contact is what a unit meets first on its way in one direction.
type Contact struct {
	Gap  layout.Length // how far until they touch; 0 when they do
	With string        // what it meets, in words: a label, "shelf leg", "edge"
	Unit string        // its ID when it is a unit
	Out  bool          // the way leads out of an overlap with it
	// From and To are the ends of the way across the gap, in the middle of
	// what faces each other; alike while the two overlap.
	From, To layout.Point
}

// lane is a box seen along a direction: from near to far on the way, and
// across it.
type lane struct{ near, far, left, right, low, high layout.Length }

func laneOf(b layout.Box, dir layout.Wall) lane {
	switch dir {
	case layout.Left:
		return lane{-b.X1, -b.X0, b.Y0, b.Y1, b.Z0, b.Z1}
	case layout.Front:
		return lane{-b.Y1, -b.Y0, b.X0, b.X1, b.Z0, b.Z1}
	case layout.Back:
		return lane{b.Y0, b.Y1, b.X0, b.X1, b.Z0, b.Z1}
	}
	return lane{b.X0, b.X1, b.Y0, b.Y1, b.Z0, b.Z1}
}

// span is the way from one place along a direction to another, across from
// left to right at the middle.
func span(dir layout.Wall, from, to, left, right layout.Length) (a, b layout.Point) {
	across := (left + right) / 2
	at := func(along layout.Length) layout.Point {
		switch dir {
		case layout.Left:
			return layout.Point{X: -along, Y: across}
		case layout.Front:
			return layout.Point{X: across, Y: -along}
		case layout.Back:
			return layout.Point{X: across, Y: along}
		}
		return layout.Point{X: along, Y: across}
	}
	return at(from), at(to)
}

func (a lane) meets(b lane) bool {
	return max(a.left, b.left) < min(a.right, b.right) && max(a.low, b.low) < min(a.high, b.high)
}

// thing is one neighbour as a whole: a unit with all its boxes, or an obstacle.
type thing struct {
	name, unit string
	boxes      []layout.Box
}

// things returns what a unit can meet on the board in the line-up.
func things(p *layout.Plan, l *layout.Lineup, except string) (self []layout.Box, others []thing) {
	standings, _ := p.Standings(l)
	for i := range standings {
		s := &standings[i]
		boxes := make([]layout.Box, len(s.Boxes))
		for k, b := range s.Boxes {
			boxes[k] = b.Box
		}
		if s.Unit.ID == except {
			self = boxes
			continue
		}
		others = append(others, thing{s.Unit.Label, s.Unit.ID, boxes})
	}
	for _, o := range p.Board.Obstacles() {
		others = append(others, thing{name: o.Name, boxes: []layout.Box{o.Box}})
	}
	return self, others
}

// Ahead returns what the unit meets first when it slides in the direction:
// units, obstacles, the walls of a case, and for its body the edges of its
// slot, of its surface, and of that surface's overhang. An edge that the body
// has reached and may pass, for an overhang lies behind it or for it is a slot's,
// counts only where nothing else lies ahead. ok is false when the unit is not placed or nothing
// lies ahead.
func Ahead(p *layout.Plan, l *layout.Lineup, u *layout.Unit, dir layout.Wall) (c Contact, ok bool) {
	w, ok := waysOf(p, l, u)
	if !ok {
		return Contact{}, false
	}
	return w.ahead(dir)
}

// Around returns what Ahead does for each direction, by layout.Wall; nil where
// nothing lies ahead.
func Around(p *layout.Plan, l *layout.Lineup, u *layout.Unit) (all [4]*Contact) {
	w, ok := waysOf(p, l, u)
	if !ok {
		return all
	}
	for dir := range all {
		if c, ok := w.ahead(layout.Wall(dir)); ok {
			all[dir] = &c
		}
	}
	return all
}

// ways is a placed unit with what it can meet.
type ways struct {
	p      *layout.Plan
	l      *layout.Lineup
	u      *layout.Unit
	pl     layout.Placement
	self   []layout.Box
	others []thing
}

func waysOf(p *layout.Plan, l *layout.Lineup, u *layout.Unit) (w ways, ok bool) {
	w = ways{p: p, l: l, u: u}
	if w.pl, ok = p.PlaceOf(l, u); ok {
		w.self, w.others = things(p, l, u.ID)
	}
	return w, ok
}

func (w *ways) ahead(dir layout.Wall) (c Contact, ok bool) {
	p, u, pl, self := w.p, w.u, w.pl, w.self
	take := func(n Contact) {
		if !ok || n.Gap < c.Gap {
			c, ok = n, true
		}
	}
	for _, o := range w.others {
		if n, met := o.gap(self, dir); met {
			take(n)
		}
	}
	body := layout.BoxOn(u.Base(pl), 0, 1)
	reached := ""
	edge := func(r layout.Rect, name string, b layout.Box, last bool) {
		at, end := laneOf(b, dir), laneOf(layout.BoxOn(r, 0, 1), dir).far
		switch gap := end - at.far; {
		case gap > 0:
			n := Contact{Gap: gap, With: name}
			n.From, n.To = span(dir, at.far, end, at.left, at.right)
			take(n)
		case gap == 0 && last:
			take(Contact{With: name})
		case gap == 0:
			reached = name
		}
	}
	if s := p.SlotOf(w.l, u.ID); s != nil && s.On == pl.On {
		edge(s.At, s.Name+" slot edge", body, false)
	}
	if s, found := p.Board.Surface(pl.On); found {
		over := s.At.Grow(s.Overhang)
		hangs := laneOf(layout.BoxOn(over, 0, 1), dir).far > laneOf(layout.BoxOn(s.At, 0, 1), dir).far
		edge(s.At, s.Name+" edge", body, !hangs)
		if hangs {
			edge(over, "end of overhang", body, true)
		}
	}
	if room, given := p.Board.CaseRoom(); given {
		for _, b := range self {
			edge(room.Rect(), "case wall", b, true)
		}
	}
	if !ok && reached != "" {
		return Contact{With: reached}, true
	}
	return c, ok
}

// gap returns how far self must slide until it first touches the thing, or
// leaves it when they overlap already; met is false when they never meet.
func (o *thing) gap(self []layout.Box, dir layout.Wall) (c Contact, met bool) {
	c.With, c.Unit = o.name, o.unit
	if c.Gap = o.clear(self, dir); c.Gap > 0 {
		c.Out = true
		return c, true
	}
	for _, a := range self {
		for _, b := range o.boxes {
			la, lb := laneOf(a, dir), laneOf(b, dir)
			if g := lb.near - la.far; g >= 0 && la.meets(lb) && (!met || g < c.Gap) {
				c.Gap, met = g, true
				c.From, c.To = span(dir, la.far, lb.near, max(la.left, lb.left), min(la.right, lb.right))
			}
		}
	}
	return c, met
}

// clear returns how far self must slide until none of its boxes overlaps the
// thing's; 0 when none does now.
func (o *thing) clear(self []layout.Box, dir layout.Wall) layout.Length {
	var gone layout.Length
	for again := true; again; {
		again = false
		for _, a := range self {
			for _, b := range o.boxes {
				la, lb := laneOf(a, dir), laneOf(b, dir)
				if la.meets(lb) && la.near+gone < lb.far && lb.near < la.far+gone {
					gone, again = lb.far-la.near, true
				}
			}
		}
	}
	return gone
}

// Beside returns the placed unit that lies next in the direction, by the
// middles of the bodies: the nearest whose way there leads more along the
// direction than across it, else the nearest on that side at all.
func Beside(p *layout.Plan, l *layout.Lineup, u *layout.Unit, dir layout.Wall) *layout.Unit {
	pl, ok := p.PlaceOf(l, u)
	if !ok {
		return nil
	}
	var best *layout.Unit
	var least layout.Length
	standings, _ := p.Standings(l)
	for i := range standings {
		s := &standings[i]
		if s.Unit.ID == u.ID {
			continue
		}
		along, across := apart(u.Base(pl).Center(), s.Unit.Base(s.Place).Center(), dir)
		if along <= 0 {
			continue
		}
		cost := along + 2*across
		if across > along {
			cost += layout.MaxLength
		}
		if best == nil || cost < least {
			best, least = s.Unit, cost
		}
	}
	return best
}

func apart(a, b layout.Point, dir layout.Wall) (along, across layout.Length) {
	dx, dy := b.X-a.X, b.Y-a.Y
	switch dir {
	case layout.Left:
		along, across = -dx, dy
	case layout.Right:
		along, across = dx, dy
	case layout.Front:
		along, across = -dy, dx
	default:
		along, across = dy, dx
	}
	return along, max(across, -across)
}

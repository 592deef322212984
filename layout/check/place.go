package check

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// places checks what the plan says about where units may stand.
func (c *checker) places() {
	for _, u := range c.unplaced {
		if pl, ok := c.p.PlaceOf(c.l, u); ok {
			c.add(NoPlace, Fault, fmt.Sprintf("%s is to stand on %q, and the board has no such surface. Give it a place on one that it has.", u.Label, pl.On), u.ID)
			continue
		}
		c.add(NoPlace, Fault, fmt.Sprintf("%s has no place yet. Put it on the board or let it be arranged.", u.Label), u.ID)
	}
	for i := range c.stand {
		c.turn(&c.stand[i])
		c.slot(&c.stand[i])
	}
	for i := range c.p.Slots {
		if name := c.p.Slots[i].Name; len(c.l.Fill[name]) == 0 {
			text := fmt.Sprintf("Slot %q is empty in this line-up", name)
			if slices.ContainsFunc(c.p.Chain.Stops, func(s layout.Stop) bool { return s.Slot == name }) {
				text += ": the signal goes straight past it"
			}
			c.add(SlotEmpty, Note, text+".")
		}
	}
}

func (c *checker) turn(s *standing) {
	allowed := s.Unit.AllowedTurns()
	var names []string
	for _, t := range allowed {
		if t.Add(0) == s.Place.Turn.Add(0) {
			return
		}
		names = append(names, fmt.Sprint(t.Degrees()))
	}
	c.addMeasured(WrongTurn, Fault, fmt.Sprintf("%s is turned %d degrees; the plan allows %s. Turn it, or allow this turn in the plan.",
		s.Unit.Label, s.Place.Turn.Degrees(), layout.And(names)), float64(s.Place.Turn.Degrees()), 0, "", s.Unit.ID)
}

// slot checks the unit's surface and, for a unit of a slot, its region.
func (c *checker) slot(s *standing) {
	u, on := s.Unit, s.Place.On
	if !u.MayStandOn(on) {
		c.add(WrongSurface, Fault, fmt.Sprintf("%s stands on the %s; the plan allows it on %s only. Move it, or allow this surface in the plan.",
			u.Label, on, layout.And(u.On)), u.ID)
	}
	slot := c.p.SlotOf(c.l, u.ID)
	if slot == nil {
		return
	}
	if home := slotSurface(slot); home != on {
		c.add(WrongSurface, Fault, fmt.Sprintf("%s stands on the %s; its slot %q is on the %s. Move it there.", u.Label, on, slot.Name, home), u.ID)
		return
	}
	if past, where := pastSide(s.base, slot.At); past > 0 {
		c.addLength(OutsideSlot, Fault, fmt.Sprintf("%s stands %s out of its slot %q at the %s. Move it %s, or make the slot larger.",
			u.Label, c.atLeast(past), slot.Name, where, where.opposite().towards()), past, 0, u.ID)
	}
}

func slotSurface(s *layout.Slot) string {
	if s.On == "" {
		return layout.DeckName
	}
	return s.On
}

// pastSide returns how far r reaches out of bound on its worst side; not
// positive when it does not.
func pastSide(r, bound layout.Rect) (past layout.Length, where side) {
	past = -layout.MaxLength
	for s, d := range [...]layout.Length{left: bound.X0 - r.X0, right: r.X1 - bound.X1, front: bound.Y0 - r.Y0, back: r.Y1 - bound.Y1} {
		if d > past {
			past, where = d, side(s)
		}
	}
	return past, where
}

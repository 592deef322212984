package layout

import (
	"fmt"
	"slices"
)

// AddSlot adds a slot behind the others. Nothing is in it, and the chain passes
// it only once it has a stop there.
func (p *Plan) AddSlot(s Slot) error {
	switch _, ok := p.Board.Surface(s.On); {
	case !ValidID(s.Name):
		return badName("slot", s.Name)
	case p.Slot(s.Name) != nil:
		return fmt.Errorf("there is a slot %q already", s.Name)
	case !ok:
		return fmt.Errorf("slot %q: there is no surface %q", s.Name, s.On)
	}
	p.Slots = append(slices.Clip(p.Slots), s)
	return nil
}

// RenameSlot gives a slot another name, in the chain and in line-ups too.
func (p *Plan) RenameSlot(name, to string) error {
	s := p.Slot(name)
	switch {
	case s == nil:
		return fmt.Errorf("there is no slot %q", name)
	case name == to:
		return nil
	case !ValidID(to):
		return badName("slot", to)
	case p.Slot(to) != nil:
		return fmt.Errorf("there is a slot %q already", to)
	}
	s.Name = to
	p.Chain.Stops = slices.Clone(p.Chain.Stops)
	for i := range p.Chain.Stops {
		if t := &p.Chain.Stops[i]; t.Slot == name {
			t.Slot = to
		}
	}
	for i := range p.Lineups {
		rekey(p.Lineups[i].Fill, name, to)
	}
	return nil
}

// RemoveSlot takes a slot out of the plan, the chain and the line-ups. Units that
// are in no other slot stay in the plan and are then on the board in every
// line-up, where they stood in the first one that had them.
func (p *Plan) RemoveSlot(name string) error {
	i := slices.IndexFunc(p.Slots, func(s Slot) bool { return s.Name == name })
	if i < 0 {
		return fmt.Errorf("there is no slot %q", name)
	}
	p.Slots = slices.Delete(slices.Clone(p.Slots), i, i+1)
	p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(s Stop) bool { return s.Slot == name })
	for i := range p.Lineups {
		delete(p.Lineups[i].Fill, name)
	}
	p.settlePlaces()
	return nil
}

// SetFill puts those units, in the order of the signal, into a line-up's slot and
// no others. A unit that was in another slot of the line-up leaves it; one that
// the chain passed by itself is passed in its slot from now on, and one that was
// fixed is held by hook-and-loop.
func (p *Plan) SetFill(lineup, slot string, ids []string) error {
	l := p.LineupNamed(lineup)
	switch {
	case l == nil:
		return fmt.Errorf("there is no line-up %q", lineup)
	case p.Slot(slot) == nil:
		return fmt.Errorf("there is no slot %q", slot)
	}
	for i, id := range ids {
		switch {
		case p.Unit(id) == nil:
			return fmt.Errorf("there is no unit %q", id)
		case slices.Contains(ids[:i], id):
			return fmt.Errorf("unit %q is given twice", id)
		}
	}
	for other, list := range l.Fill {
		l.Fill[other] = slices.DeleteFunc(slices.Clone(list), func(id string) bool { return slices.Contains(ids, id) })
	}
	if l.Fill == nil {
		l.Fill = map[string][]string{}
	}
	l.Fill[slot] = slices.Clone(ids)
	for _, id := range ids {
		p.Unit(id).Mount = Swap
	}
	p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(s Stop) bool { return slices.Contains(ids, s.Unit) })
	p.settlePlaces()
	return nil
}

// settlePlaces takes away where units stand in line-ups whose slots they are not
// in. A unit that is in no slot at all any more, and stands nowhere else, stands
// where it did in the first of the line-ups, or of those that are gone.
func (p *Plan) settlePlaces(gone ...Lineup) {
	for i := range p.Units {
		u := &p.Units[i]
		slotted := p.InSlots(u.ID)
		settle := func(l *Lineup) {
			pl, ok := l.Place[u.ID]
			if ok && !slotted && u.Place == nil {
				u.Place = &pl
			}
		}
		for k := range p.Lineups {
			l := &p.Lineups[k]
			if p.SlotOf(l, u.ID) == nil {
				settle(l)
				delete(l.Place, u.ID)
			}
		}
		for k := range gone {
			settle(&gone[k])
		}
	}
	p.Feeds = nil
}

// RenameRiser gives a riser another name, wherever units and slots name it.
func (p *Plan) RenameRiser(name, to string) error {
	i := slices.IndexFunc(p.Board.Risers, func(r Riser) bool { return r.Name == name })
	switch _, taken := p.Board.Surface(to); {
	case i < 0:
		return fmt.Errorf("there is no riser %q", name)
	case name == to:
		return nil
	case !ValidID(to):
		return badName("riser", to)
	case taken:
		return fmt.Errorf("there is a surface %q already", to)
	}
	p.Board.Risers = slices.Clone(p.Board.Risers)
	p.Board.Risers[i].Name = to
	p.eachSurface(func(on string) (string, bool) {
		if on == name {
			return to, true
		}
		return on, true
	})
	return nil
}

// RemoveRiser takes a riser off the board: what stood on it stands nowhere, and
// slots that were on it are on the deck beneath.
func (p *Plan) RemoveRiser(name string) error {
	i := slices.IndexFunc(p.Board.Risers, func(r Riser) bool { return r.Name == name })
	if i < 0 {
		return fmt.Errorf("there is no riser %q", name)
	}
	p.Board.Risers = slices.Delete(slices.Clone(p.Board.Risers), i, i+1)
	p.eachSurface(func(on string) (string, bool) { return on, on != name })
	return nil
}

// eachSurface changes the surfaces that the plan names; those that are not kept
// become the deck for slots, and go from units.
func (p *Plan) eachSurface(change func(on string) (to string, keep bool)) {
	p.Slots = slices.Clone(p.Slots)
	for i := range p.Slots {
		s := &p.Slots[i]
		if to, keep := change(s.On); keep {
			s.On = to
		} else {
			s.On = DeckName
		}
	}
	for i := range p.Units {
		u := &p.Units[i]
		var on []string
		for _, name := range u.On {
			if to, keep := change(name); keep {
				on = append(on, to)
			}
		}
		u.On = on
		if u.Place == nil {
			continue
		}
		pl := *u.Place
		u.Place = nil
		if to, keep := change(pl.On); keep {
			pl.On = to
			u.Place = &pl
		}
	}
	for i := range p.Lineups {
		for id, pl := range p.Lineups[i].Place {
			to, keep := change(pl.On)
			if pl.On = to; keep {
				p.Lineups[i].Place[id] = pl
			} else {
				delete(p.Lineups[i].Place, id)
			}
		}
	}
}

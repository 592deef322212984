package edit

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// NameLineups makes the plan's line-ups those of the names: those that it has stay
// as they are, those that it lacks take the place of those that go, and what is
// beyond them is new and empty.
func NameLineups(p *layout.Plan, names []string) error {
	var leave, come []string
	for i, n := range names {
		switch {
		case slices.Contains(names[:i], n):
			return fmt.Errorf("%q is given twice", n)
		case p.LineupNamed(n) == nil:
			come = append(come, n)
		}
	}
	for _, l := range p.Lineups {
		if !slices.Contains(names, l.Name) {
			leave = append(leave, l.Name)
		}
	}
	for i, n := range come {
		if i < len(leave) {
			if err := p.RenameLineup(leave[i], n); err != nil {
				return err
			}
		} else if err := p.AddLineup(n, ""); err != nil {
			return err
		}
	}
	for _, n := range leave[min(len(come), len(leave)):] {
		if err := p.RemoveLineup(n); err != nil {
			return err
		}
	}
	for i, n := range names {
		if err := p.MoveLineup(n, i); err != nil {
			return err
		}
	}
	return nil
}

// NameSlots makes the plan's slots those of the names, as NameLineups does. A new
// one is the whole deck until the player says where it is.
func NameSlots(p *layout.Plan, names []string) error {
	for i, n := range names {
		switch {
		case slices.Contains(names[:i], n):
			return fmt.Errorf("%q is given twice", n)
		case p.Slot(n) == nil:
			if err := p.AddSlot(layout.Slot{Name: n, On: layout.DeckName, At: p.Board.Rect()}); err != nil {
				return err
			}
		}
	}
	for i := len(p.Slots) - 1; i >= 0; i-- {
		if n := p.Slots[i].Name; !slices.Contains(names, n) {
			if err := p.RemoveSlot(n); err != nil {
				return err
			}
		}
	}
	return nil
}

// Unchained returns the slots that the chain does not pass.
func Unchained(p *layout.Plan) []string {
	var out []string
	for i := range p.Slots {
		if n := p.Slots[i].Name; !Chained(p, n) {
			out = append(out, n)
		}
	}
	return out
}

// Chained reports whether the chain passes a slot.
func Chained(p *layout.Plan, slot string) bool {
	return slices.ContainsFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Slot == slot })
}

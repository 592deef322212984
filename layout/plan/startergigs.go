package plan

import (
	"maps"
	"slices"
	"strings"
)

// StarterLineup is a gig of a new plan.
type StarterLineup struct {
	Name string
	Fill map[string][]string // the ids of the units in each slot
}

// stops is the chain's order: units of slots are passed in their slots.
func (s *starter) stops() []string {
	slotOf := map[string]string{}
	for _, l := range s.a.Lineups {
		for slot, ids := range l.Fill {
			for _, id := range ids {
				slotOf[id] = slot
			}
		}
	}
	var out []string
	add := func(stop string) {
		if !slices.Contains(out, stop) {
			out = append(out, stop)
		}
	}
	for _, id := range s.order {
		if slot, in := slotOf[id]; in {
			add("slot:" + slot)
		} else {
			add(id)
		}
	}
	for _, slot := range s.a.Slots {
		add("slot:" + slot)
	}
	return out
}

func (s *starter) slots() {
	if len(s.a.Slots) == 0 {
		return
	}
	s.line("\n# Slots are parts of the board for units that change from gig to gig: say here which parts.")
	for _, name := range s.a.Slots {
		s.line("[[slot]]\nname = %s\nat   = [0, 0]   # its front-left corner\nsize = [%s, %s]   # the whole deck: make it smaller if you like",
			quoted(name), s.spell.length(s.a.BoardW), s.spell.length(s.a.BoardD))
	}
}

func (s *starter) lineups() {
	if len(s.a.Lineups) == 0 {
		return
	}
	s.line("\n# Line-ups say what is in the slots, gig by gig; units in no slot are there at every one.")
	for _, l := range s.a.Lineups {
		s.line("[[lineup]]\nname = %s", quoted(l.Name))
		var fill []string
		for i, slot := range s.a.Slots {
			if slices.Contains(s.a.Slots[:i], slot) {
				continue // which reading will refuse
			}
			fill = append(fill, spellKey(slot)+" = "+words(l.Fill[slot]).spell(s.spell))
		}
		for _, slot := range slices.Sorted(maps.Keys(l.Fill)) {
			if !slices.Contains(s.a.Slots, slot) {
				fill = append(fill, spellKey(slot)+" = "+words(l.Fill[slot]).spell(s.spell)) // which reading will refuse
			}
		}
		if len(fill) > 0 {
			s.line("fill = { %s }", strings.Join(fill, ", "))
		}
	}
}

package layout

import (
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"
)

// MaxID is the most characters of an id, or of the name of a slot or a riser.
const MaxID = 40

// ValidID reports whether s can be an id: it must stand in the chain's entries
// ("unit/in>out") without quotes of its own.
func ValidID(s string) bool {
	if s == "" || utf8.RuneCountInString(s) > MaxID {
		return false
	}
	for _, r := range s {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && r != '-' && r != '_' {
			return false
		}
	}
	return true
}

// ReservedID reports whether the chain or a placement means something else by s
// than a unit, which may not be called so.
func ReservedID(s string) bool { return OffBoard(s) || s == "slot" || s == DeckName }

// ValidUnitID is ValidID for a unit.
func ValidUnitID(s string) bool { return ValidID(s) && !ReservedID(s) }

// The methods below change a plan as a whole: what refers to the thing that is
// changed follows. Each does all of it or, with an error, nothing. They change
// no list or map in place that Clone shares, so a clone from before is an undo
// step. What is worked out from a plan, the power map and the choice of plugs,
// must be worked out again after them.

// AddUnit adds a unit behind the others.
func (p *Plan) AddUnit(u Unit) error {
	if err := p.freeID(u.ID); err != nil {
		return err
	}
	if u.Label == "" {
		u.Label = u.ID
	}
	p.Units = append(slices.Clip(p.Units), u)
	return nil
}

func (p *Plan) freeID(id string) error {
	switch {
	case ReservedID(id):
		return fmt.Errorf("the id %q has a meaning of its own in a plan: want another", id)
	case !ValidID(id):
		return badName("id", id)
	case p.Unit(id) != nil:
		return fmt.Errorf("there is a unit %q already", id)
	}
	return nil
}

func badName(what, name string) error {
	return fmt.Errorf("%s %q: want letters, digits, \"-\" and \"_\", at most %d of them", what, Shortened(name), MaxID)
}

// RenameUnit gives a unit another id, in the chain, in links, in line-ups, in
// what it feeds and in the prices too. A label that was the id goes with it.
func (p *Plan) RenameUnit(id, to string) error {
	u := p.Unit(id)
	switch {
	case u == nil:
		return fmt.Errorf("there is no unit %q", id)
	case id == to:
		return nil
	}
	if err := p.freeID(to); err != nil {
		return err
	}
	u.ID = to
	if u.Label == id {
		u.Label = to
	}
	name := func(s *string) {
		if *s == id {
			*s = to
		}
	}
	p.Chain.Stops, p.Chain.Links = slices.Clone(p.Chain.Stops), slices.Clone(p.Chain.Links)
	for i := range p.Chain.Stops {
		name(&p.Chain.Stops[i].Unit)
	}
	for i := range p.Chain.Links {
		name(&p.Chain.Links[i].From.Unit)
		name(&p.Chain.Links[i].To.Unit)
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		for slot, ids := range l.Fill {
			ids = slices.Clone(ids)
			for k := range ids {
				name(&ids[k])
			}
			l.Fill[slot] = ids
		}
		rekey(l.Place, id, to)
	}
	p.eachFeed(func(r *JackRef) { name(&r.Unit) })
	rekey(p.Prices, id, to)
	p.Feeds = nil
	return nil
}

// rekey moves what a map has under one key to another.
func rekey[V any](m map[string]V, from, to string) {
	if v, ok := m[from]; ok {
		delete(m, from)
		m[to] = v
	}
}

// eachFeed calls do with the output that each unit names to draw from; a draw
// that it changes is a new one, for clones share the old.
func (p *Plan) eachFeed(do func(r *JackRef)) {
	for i := range p.Units {
		u := &p.Units[i]
		if u.Draw == nil {
			continue
		}
		d := *u.Draw
		if do(&d.Feed); d != *u.Draw {
			u.Draw = &d
		}
	}
}

// RemoveUnit takes a unit out of the plan and out of all that refers to it: its
// links go, and units that drew from it are left to the power map.
func (p *Plan) RemoveUnit(id string) error {
	i := slices.IndexFunc(p.Units, func(u Unit) bool { return u.ID == id })
	if i < 0 {
		return fmt.Errorf("there is no unit %q", id)
	}
	p.Units = slices.Delete(slices.Clone(p.Units), i, i+1)
	p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(s Stop) bool { return s.Unit == id })
	p.Chain.Links = slices.DeleteFunc(slices.Clone(p.Chain.Links), func(k Link) bool { return k.From.Unit == id || k.To.Unit == id })
	for i := range p.Lineups {
		l := &p.Lineups[i]
		for slot, ids := range l.Fill {
			l.Fill[slot] = without(ids, id)
		}
		delete(l.Place, id)
	}
	p.eachFeed(func(r *JackRef) {
		if r.Unit == id {
			*r = JackRef{}
		}
	})
	delete(p.Prices, id)
	p.Feeds = nil
	return nil
}

func without(list []string, s string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(x string) bool { return x == s })
}

// MoveUnit puts a unit at that index of the plan's units, which is the order in
// which lists show them.
func (p *Plan) MoveUnit(id string, index int) error {
	i := slices.IndexFunc(p.Units, func(u Unit) bool { return u.ID == id })
	if i < 0 {
		return fmt.Errorf("there is no unit %q", id)
	}
	p.Units = moved(p.Units, i, index)
	return nil
}

// moved returns the list with the ith element at another index, which is held
// to the list.
func moved[T any](list []T, i, index int) []T {
	v := list[i]
	list = slices.Delete(slices.Clone(list), i, i+1)
	return slices.Insert(list, min(max(index, 0), len(list)), v)
}

// AddLineup adds a line-up behind the others: with what the one of the name like
// has in its slots, and where, or empty if like is "".
func (p *Plan) AddLineup(name, like string) error {
	if err := p.freeLineup(name); err != nil {
		return err
	}
	fresh := Lineup{Name: name, Fill: map[string][]string{}, Place: map[string]Placement{}}
	if like != "" {
		l := p.LineupNamed(like)
		if l == nil {
			return fmt.Errorf("there is no line-up %q", like)
		}
		for slot, ids := range l.Fill {
			fresh.Fill[slot] = slices.Clone(ids)
		}
		for id, pl := range l.Place {
			fresh.Place[id] = pl
		}
	}
	p.Lineups = append(slices.Clip(p.Lineups), fresh)
	p.Feeds = nil
	return nil
}

func (p *Plan) freeLineup(name string) error {
	switch {
	case name == "":
		return fmt.Errorf("a line-up wants a name")
	case p.LineupNamed(name) != nil:
		return fmt.Errorf("there is a line-up %q already", name)
	}
	return nil
}

// RenameLineup gives a line-up another name.
func (p *Plan) RenameLineup(name, to string) error {
	l := p.LineupNamed(name)
	switch {
	case l == nil:
		return fmt.Errorf("there is no line-up %q", name)
	case name == to:
		return nil
	}
	if err := p.freeLineup(to); err != nil {
		return err
	}
	l.Name = to
	p.Feeds = nil
	return nil
}

// RemoveLineup takes a line-up out, but not the last one. Units that are in no
// slot any more are on the board in every line-up.
func (p *Plan) RemoveLineup(name string) error {
	i := slices.IndexFunc(p.Lineups, func(l Lineup) bool { return l.Name == name })
	switch {
	case i < 0:
		return fmt.Errorf("there is no line-up %q", name)
	case len(p.Lineups) == 1:
		return fmt.Errorf("line-up %q is the only one: a plan has at least one", name)
	}
	gone := p.Lineups[i]
	p.Lineups = slices.Delete(slices.Clone(p.Lineups), i, i+1)
	p.settlePlaces(gone)
	return nil
}

// MoveLineup puts a line-up at that index of the plan's line-ups.
func (p *Plan) MoveLineup(name string, index int) error {
	i := slices.IndexFunc(p.Lineups, func(l Lineup) bool { return l.Name == name })
	if i < 0 {
		return fmt.Errorf("there is no line-up %q", name)
	}
	p.Lineups = moved(p.Lineups, i, index)
	return nil
}

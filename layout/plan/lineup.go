package plan

import (
	"fmt"

	"footplank/layout"
)

// DefaultLineup is the name of the one line-up of a plan that has none.
const DefaultLineup = "all"

func (r *reader) readLineups(top view) {
	tables := top.tables("lineup", maxLineups)
	if len(tables) == 0 {
		r.plan.Lineups = []layout.Lineup{{Name: DefaultLineup, Fill: map[string][]string{}, Place: map[string]layout.Placement{}}}
		return
	}
	views := make([]view, len(tables))
	for i, n := range tables {
		v := r.table(n, fmt.Sprintf("lineup %d", i+1), n.off, "name", "fill", "place")
		l := layout.Lineup{Fill: map[string][]string{}, Place: map[string]layout.Placement{}}
		if v.need("name", "the gig's") {
			l.Name, _ = v.text("name")
		}
		if l.Name != "" {
			v.name = fmt.Sprintf("lineup %q", l.Name)
			if r.plan.LineupNamed(l.Name) != nil {
				v.errorf(v.offset("name"), "there is a line-up of that name already")
			}
		} else if n := v.value("name"); n != nil && n.kind == stringKind && n.text == "" {
			v.errorf(n.off, "name: empty, want the gig's")
		}
		v.readFill(&l)
		r.plan.Lineups = append(r.plan.Lineups, l)
		views[i] = v
	}
	for i, v := range views {
		v.readPlaces(&r.plan.Lineups[i])
	}
}

func (v view) slotNames() []string {
	names := make([]string, len(v.plan.Slots))
	for i, s := range v.plan.Slots {
		names[i] = s.Name
	}
	return names
}

// readFill reads which units the line-up puts into which slots.
func (v view) readFill(l *layout.Lineup) {
	e := v.n.get("fill")
	if e == nil {
		return
	}
	if e.value.kind != tableKind {
		v.errorf(e.value.off, "fill: found %s, want a table like { SLOT = [\"UNIT\", \"UNIT\"] }", e.value.found())
		return
	}
	t := view{v.reader, e.value, v.name + ": fill", e.value.off}
	in := map[string]string{} // unit -> slot
	for _, e := range t.n.keys {
		slot := v.plan.Slot(e.name)
		if slot == nil && !v.full() {
			t.errorf(e.off, "there is no slot %q: %s", layout.Shortened(e.name), wanted(e.name, v.slotNames()))
		}
		items, ok := t.list(e.name, 0, "units")
		if !ok {
			continue
		}
		ids := make([]string, 0, len(items))
		for _, n := range items {
			if v.full() {
				return
			}
			if t.fills(n, e.name, in) {
				ids = append(ids, n.text)
			}
		}
		if slot != nil {
			l.Fill[e.name] = ids
		}
	}
}

// fills judges one unit in a slot of the line-up.
func (v view) fills(n *node, slot string, in map[string]string) bool {
	_, known := v.unitAt[n.text]
	if n.kind != stringKind || !known {
		v.errorf(n.off, "%s: found %s, which is no unit: %s", slot, n.found(), v.wantedUnit(n.text))
		return false
	}
	if other, twice := in[n.text]; twice {
		v.errorf(n.off, "%s: unit %q is in slot %q of this line-up already", slot, n.text, other)
		return false
	}
	in[n.text] = slot
	v.filledBy[n.text] = true
	u := v.plan.Unit(n.text)
	if u != nil && u.Mount == layout.Fixed {
		v.errorf(n.off, "%s: unit %q has mount \"fixed\" (%s) and cannot change with the line-up: want mount = \"swap\", or take it out of here",
			slot, n.text, v.line(v.mountAt[n.text]))
	}
	return true
}

// readPlaces reads where the line-up's units stand.
func (v view) readPlaces(l *layout.Lineup) {
	e := v.n.get("place")
	if e == nil {
		return
	}
	if e.value.kind != tableKind {
		v.errorf(e.value.off, "place: found %s, want a table like { UNIT = { on = \"deck\", at = [10, 20], turn = 0 } }", e.value.found())
		return
	}
	t := view{v.reader, e.value, v.name + ": place", e.value.off}
	for _, e := range t.n.keys {
		if v.full() {
			return
		}
		pl, ok := t.place(e.name)
		_, known := v.unitAt[e.name]
		switch {
		case !known:
			t.errorf(e.off, "there is no unit %q: %s", layout.Shortened(e.name), v.wantedUnit(e.name))
		case !v.filledBy[e.name]:
			t.errorf(e.off, "unit %q is in no slot and so on the board in every line-up: want its place in its [[unit]]", e.name)
		case v.plan.SlotOf(l, e.name) == nil:
			t.errorf(e.off, "unit %q is not in this line-up: want it in the line-up's fill, or no place", e.name)
		case ok:
			l.Place[e.name] = *pl
		}
	}
}

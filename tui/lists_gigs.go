package tui

import (
	"slices"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

// slotList is the plan's slots.
func slotList() *list {
	return &list{
		title: fixedText("Slots: regions whose units change from gig to gig"),
		intro: fixedText("Enter changes where a slot lies, drawn on the board as you do. What is in it is said per line-up."),
		items: func(m *Model, _ int) []item {
			p := m.history.Plan()
			out := make([]item, len(p.Slots))
			for i := range p.Slots {
				s := &p.Slots[i]
				in := "not in the chain"
				if edit.Chained(p, s.Name) {
					in = "in the chain"
				}
				out[i] = item{id: s.Name, n: i, text: m.pad([]int{18, 12, 20}, s.Name, "on "+s.On, m.length(s.At.W())+" x "+m.lengthUnit(s.At.D()), in)}
			}
			return out
		},
		open: verb{"open: the chosen slot", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Slot(it.id), nil) }},
		add:  verb{"add: a slot", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Slot(""), nil) }},
		move: func(m *Model, it item, by int) int {
			if it.n+by < 0 || it.n+by >= len(m.history.Plan().Slots) ||
				!m.alter("move slot "+it.id+" in the list", "", func(p *layout.Plan) error { p.Slots = swapped(p.Slots, it.n, it.n+by); return nil }) {
				return 0
			}
			return by
		},
		drop: verb{"remove: the slot; its units stay in the plan", func(m *Model, it item) tea.Cmd {
			m.alter("remove slot "+it.id, "", func(p *layout.Plan) error { return p.RemoveSlot(it.id) })
			return nil
		}},
	}
}

// lineupList is the plan's line-ups with what is in their slots.
func lineupList() *list {
	return &list{
		title: fixedText("Line-ups: what is in the slots, gig by gig"),
		intro: func(m *Model) string {
			if len(m.history.Plan().Slots) == 0 {
				return "Without a slot every line-up has the same units: make a slot first, for what changes from gig to gig."
			}
			return "Enter on a line-up renames it, on a slot it chooses what is in it. Units in no slot are in every line-up."
		},
		items: func(m *Model, _ int) []item { return m.lineupItems() },
		open: verb{"open: the chosen one", func(m *Model, it item) tea.Cmd {
			if it.kind == "slot" {
				return m.openList(fillList(m.history.Plan().Lineups[it.n].Name, it.id))
			}
			return m.fill(m.shop().Lineup(it.id, ""), nil)
		}},
		add:  verb{"add: an empty line-up", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Lineup("", ""), nil) }},
		copy: verb{"copy: a line-up like this one", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Lineup("", m.lineupOf(it)), nil) }},
		drop: verb{"remove: the line-up", func(m *Model, it item) tea.Cmd {
			name := m.lineupOf(it)
			m.alter("remove line-up "+name, "", func(p *layout.Plan) error { return p.RemoveLineup(name) })
			return nil
		}},
		move: func(m *Model, it item, by int) int {
			p := m.history.Plan()
			if it.n+by < 0 || it.n+by >= len(p.Lineups) {
				return 0
			}
			name := m.lineupOf(it)
			if !m.alter("move line-up "+name, "", func(p *layout.Plan) error { return p.MoveLineup(name, it.n+by) }) {
				return 0
			}
			return by * (len(p.Slots) + 1)
		},
		tall: func(m *Model) int { return len(m.history.Plan().Slots) + 1 },
	}
}

// lineupOf is the line-up that a line of the list belongs to.
func (m *Model) lineupOf(it item) string {
	p := m.history.Plan()
	return p.Lineups[min(it.n, len(p.Lineups)-1)].Name
}

func (m *Model) lineupItems() []item {
	p := m.history.Plan()
	var out []item
	for i := range p.Lineups {
		l := &p.Lineups[i]
		out = append(out, item{id: l.Name, n: i, kind: "lineup", text: "Line-up " + l.Name})
		for k := range p.Slots {
			ids := l.Fill[p.Slots[k].Name]
			in := "empty"
			if len(ids) > 0 {
				in = names(len(ids), func(i int) string { return m.labelOf(ids[i]) })
			}
			out = append(out, item{id: p.Slots[k].Name, n: i, kind: "slot", text: m.pad([]int{24}, "   slot "+p.Slots[k].Name, in)})
		}
	}
	return out
}

// fillList is what is in a slot in a line-up, in the order of the signal, then
// what could be.
func fillList(lineup, slot string) *list {
	flip := verb{"put in: the chosen one, or take it out", func(m *Model, it item) tea.Cmd { return m.flipFill(lineup, slot, it) }}
	return &list{
		title: fixedText("Slot " + slot + " in line-up " + lineup),
		intro: fixedText("Space puts a unit in or takes it out; shift and an arrow order them as the signal goes. A unit in a slot is held by hook-and-loop."),
		items: func(m *Model, _ int) []item { return m.fillItems(lineup, slot) },
		open:  flip, flip: flip,
		add: verb{"add: a unit of the catalog", func(m *Model, _ item) tea.Cmd { return m.addUnit() }},
		move: func(m *Model, it item, by int) int {
			ids := m.filling(lineup, slot)
			if it.kind != "in" || it.n+by < 0 || it.n+by >= len(ids) {
				return 0
			}
			if !m.alter("order slot "+slot+" in "+lineup, it.id, func(p *layout.Plan) error { return edit.Fill(p, lineup, slot, it.id, true, it.n+by) }) {
				return 0
			}
			return by
		},
	}
}

// filling is what is in a slot of a line-up.
func (m *Model) filling(lineup, slot string) []string {
	if l := m.history.Plan().LineupNamed(lineup); l != nil {
		return l.Fill[slot]
	}
	return nil
}

func (m *Model) fillItems(lineup, slot string) []item {
	p := m.history.Plan()
	ids := m.filling(lineup, slot)
	out := []item{{text: "In the slot, in the order of the signal", head: true}}
	for i, id := range ids {
		out = append(out, item{id: id, n: i, kind: "in", text: strconv.Itoa(i+1) + " " + m.labelOf(id)})
	}
	out = append(out, item{text: "Not in it", head: true})
	for _, mount := range []layout.Mount{layout.Swap, layout.Fixed} { // those that are made to come and go first
		for i := range p.Units {
			u := &p.Units[i]
			if u.Mount != mount || slices.Contains(ids, u.ID) || !edit.Passes(u) {
				continue
			}
			out = append(out, item{id: u.ID, n: i, kind: "out", text: m.pad([]int{26, 7}, "  "+u.Label, string(u.Mount), whereNow(p, lineup, u.ID))})
		}
	}
	return out
}

// whereNow is where a unit is that could go into a slot of a line-up.
func whereNow(p *layout.Plan, lineup, id string) string {
	if !p.InSlots(id) {
		return "in every line-up"
	}
	var at []string
	for i := range p.Lineups {
		l := &p.Lineups[i]
		slot := p.SlotOf(l, id)
		switch {
		case slot == nil:
		case l.Name == lineup:
			return "in slot " + slot.Name + ", which it would leave"
		default:
			at = append(at, l.Name)
		}
	}
	return "in " + names(len(at), func(i int) string { return at[i] })
}

func (m *Model) flipFill(lineup, slot string, it item) tea.Cmd {
	what := "put " + m.labelOf(it.id) + " into slot " + slot + " in " + lineup
	if it.kind == "in" {
		what = "take " + m.labelOf(it.id) + " out of slot " + slot + " in " + lineup
	}
	n := len(m.filling(lineup, slot))
	if m.alter(what, it.id, func(p *layout.Plan) error { return edit.Fill(p, lineup, slot, it.id, it.kind != "in", n) }) && it.kind != "in" {
		m.over().list.at++ // the line above grew by one: go on with the unit below
	}
	return nil
}

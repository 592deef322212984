package tui

import (
	"cmp"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

const (
	stopItem = "stop"
	linkItem = "link"
)

// chainList is the way of the signal, then the cables beside it.
func chainList() *list {
	l := &list{
		title: fixedText("The chain: the way of the signal"),
		intro: func(m *Model) string {
			text := "From the instrument on. Shift and an arrow move the chosen one; its cables follow."
			if n := len(edit.Unpassed(m.history.Plan())); n > 0 {
				text += " " + plural(n, "unit") + " not in it: a adds."
			}
			return text
		},
		items: func(m *Model, _ int) []item { return m.chainItems() },
		open:  verb{"open: its jacks", (*Model).openStop},
		add:   verb{"add: a unit, a slot or a cable beside it", func(m *Model, it item) tea.Cmd { return m.openList(stopChoices(m.behind(it))) }},
		drop:  verb{"remove: the chosen one from the chain", (*Model).dropStop},
		flip:  verb{"turn round: the signal runs the other way across the board", (*Model).flipChain},
		move:  (*Model).moveStop,
	}
	return l
}

func (m *Model) chainItems() []item {
	p := m.history.Plan()
	way := "from the right to the left, as is usual"
	if p.Chain.LeftToRight {
		way = "from the left to the right"
	}
	out := []item{{text: "The signal runs " + way + "; space turns it round", head: true}}
	for i, s := range p.Chain.Stops {
		out = append(out, item{kind: stopItem, n: i, id: s.Unit, text: m.stopText(s)})
	}
	out = append(out, item{text: "Cables beside the chain", head: true})
	for i, k := range p.Chain.Links {
		out = append(out, item{kind: linkItem, n: i, text: m.refText(k.From) + " to " + m.refText(k.To)})
	}
	return out
}

func (m *Model) stopText(s layout.Stop) string {
	p := m.history.Plan()
	switch {
	case s.Slot != "":
		text := "slot " + s.Slot
		if l := m.edited(); len(l.Fill[s.Slot]) > 0 {
			ids := l.Fill[s.Slot]
			return m.pad([]int{24}, text, "in "+l.Name+": "+names(len(ids), func(i int) string { return m.labelOf(ids[i]) }))
		}
		return m.pad([]int{24}, text, "empty in "+m.edited().Name)
	case layout.OffBoard(s.Unit):
		return s.Unit
	}
	text := m.labelOf(s.Unit)
	if s.In != "" || s.Out != "" {
		return m.pad([]int{24}, text, "by "+cmp.Or(s.In, "in")+" and "+cmp.Or(s.Out, "out"))
	}
	if u := p.Unit(s.Unit); u != nil && u.Buffer {
		return m.pad([]int{24}, text, "buffer")
	}
	return text
}

func (m *Model) refText(r layout.JackRef) string {
	if r.Jack == "" {
		return r.Unit
	}
	return m.labelOf(r.Unit) + ", " + r.Jack
}

func (m *Model) openStop(it item) tea.Cmd {
	p := m.history.Plan()
	switch {
	case it.kind == linkItem:
		return m.fill(m.shop().Link(it.n), nil)
	case it.n >= len(p.Chain.Stops):
		return nil
	case p.Chain.Stops[it.n].Slot != "":
		return m.openList(fillList(m.edited().Name, p.Chain.Stops[it.n].Slot))
	case layout.OffBoard(it.id):
		return m.changeEnd(it)
	}
	return m.fill(m.shop().Stop(it.n), nil)
}

// changeEnd lets the chain end at the desk instead of the amp.
func (m *Model) changeEnd(it item) tea.Cmd {
	end := map[string]string{layout.Amp: layout.Desk, layout.Desk: layout.Amp}[it.id]
	if end == "" {
		m.say("", "The chain begins at the instrument.")
		return nil
	}
	m.alter("end the chain at the "+end, "", func(p *layout.Plan) error { edit.SetEnd(p, end); return nil })
	return nil
}

func (m *Model) dropStop(it item) tea.Cmd {
	if it.kind == linkItem {
		m.alter("remove a cable beside the chain", "", func(p *layout.Plan) error { return edit.RemoveLink(p, it.n) })
		return nil
	}
	what := it.text
	if it.id != "" {
		what = m.labelOf(it.id)
	}
	m.alter("take "+what+" out of the chain", it.id, func(p *layout.Plan) error { return edit.RemoveStop(p, it.n) })
	return nil
}

func (m *Model) flipChain(item) tea.Cmd {
	m.alter("turn the signal round", "", func(p *layout.Plan) error { p.Chain.LeftToRight = !p.Chain.LeftToRight; return nil })
	return nil
}

func (m *Model) moveStop(it item, by int) int {
	if it.kind != stopItem {
		m.say("", "Cables beside the chain have no order.")
		return 0
	}
	moved := 0
	done := m.alter("move "+it.text+" in the chain", it.id, func(p *layout.Plan) error {
		to, err := edit.MoveStop(p, it.n, by)
		moved = to - it.n
		return err
	})
	if !done {
		return 0
	}
	return moved
}

// behind is the place in the chain behind a chosen line of its list: before the
// end where that is no stop.
func (m *Model) behind(it item) int {
	n := len(m.history.Plan().Chain.Stops)
	if it.kind != stopItem || it.n >= n-1 {
		return max(n-1, 0)
	}
	return it.n + 1
}

// stopChoices is what can be put into the chain, at that place of it.
func stopChoices(at int) *list {
	return &list{
		title: fixedText("Put into the chain"),
		intro: func(m *Model) string {
			if stops := m.history.Plan().Chain.Stops; at > 0 && at < len(stops) {
				return "It goes in behind " + m.stopName(stops[at-1]) + ", where the list stood; then it can be moved."
			}
			return "It goes in before the end; then it can be moved."
		},
		items: func(m *Model, _ int) []item { return m.stopItems() },
		open: verb{"choose: this one", func(m *Model, it item) tea.Cmd {
			m.pop()
			return m.addStop(it, at)
		}},
	}
}

func (m *Model) stopItems() []item {
	p := m.history.Plan()
	out := []item{{text: "Units that it does not pass yet", head: true}}
	for _, u := range edit.Unpassed(p) {
		out = append(out, item{kind: stopItem, id: u.ID, text: u.Label})
	}
	out = append(out, item{text: "Slots", head: true})
	for i := range p.Slots {
		if s := &p.Slots[i]; !edit.Chained(p, s.Name) {
			out = append(out, item{kind: "slot", id: s.Name, text: "slot " + s.Name})
		}
	}
	out = append(out, item{kind: "new slot", text: "a new slot, for units that change from gig to gig"})
	out = append(out, item{text: "Once more, by other jacks", head: true})
	for i := range p.Units {
		u := &p.Units[i]
		if s, ok := edit.AgainBy(p, u); ok && edit.StopAt(p, u.ID) >= 0 {
			out = append(out, item{kind: "again", id: u.ID, text: u.Label + " by " + cmp.Or(s.In, "in") + " and " + cmp.Or(s.Out, "out")})
		}
	}
	out = append(out, item{text: "Its ends", head: true})
	if stops := p.Chain.Stops; len(stops) == 0 || stops[0].Unit != layout.Instrument {
		out = append(out, item{kind: "end", id: layout.Instrument, text: "the instrument, where it begins"})
	}
	if stops := p.Chain.Stops; len(stops) == 0 || stops[len(stops)-1].Unit == layout.Instrument || !layout.OffBoard(stops[len(stops)-1].Unit) {
		out = append(out, item{kind: "end", id: layout.Amp, text: "the amp, where it ends"}, item{kind: "end", id: layout.Desk, text: "the desk, where it ends"})
	}
	out = append(out, item{text: "Beside it", head: true},
		item{kind: linkItem, text: "a cable of its own: from a tuner output, from a DI to the desk"})
	return slices.DeleteFunc(slices.Clone(out), func(it item) bool { return it.head && !leads(out, it.text) })
}

// leads reports whether something stands below a heading.
func leads(items []item, head string) bool {
	i := slices.IndexFunc(items, func(it item) bool { return it.head && it.text == head })
	return i >= 0 && i+1 < len(items) && !items[i+1].head
}

func (m *Model) addStop(it item, at int) tea.Cmd {
	p, last := m.history.Plan(), m.lastStop()
	switch it.kind {
	case linkItem:
		return m.fill(m.shop().Link(len(p.Chain.Links)), nil)
	case "new slot":
		return m.fill(m.shop().Slot(""), nil)
	case "slot":
		m.alter("put slot "+it.id+" into the chain", "", func(p *layout.Plan) error {
			edit.AddStop(p, layout.Stop{Slot: it.id}, at)
			return nil
		})
		last = at + 1
	case "again":
		last++
		m.alter("put "+m.labelOf(it.id)+" into the chain once more", it.id, func(p *layout.Plan) error { return edit.PassAgain(p, it.id) })
	case "end":
		m.alter("put the "+it.id+" into the chain", "", func(p *layout.Plan) error {
			if it.id == layout.Instrument {
				edit.AddStop(p, layout.Stop{Unit: it.id}, 0)
			} else {
				edit.SetEnd(p, it.id)
			}
			return nil
		})
	default:
		m.alter("put "+m.labelOf(it.id)+" into the chain", it.id, func(p *layout.Plan) error { return edit.JoinAt(p, it.id, at) })
		last = at + 1
	}
	if s := m.over(); s != nil && s.list != nil {
		s.list.at = last // a heading stands over the first stop
	}
	return nil
}

// stopName is what a stop is called within a sentence.
func (m *Model) stopName(s layout.Stop) string {
	switch {
	case s.Slot != "":
		return "slot " + s.Slot
	case layout.OffBoard(s.Unit):
		return "the " + s.Unit
	}
	return m.labelOf(s.Unit)
}

// lastStop is the line of the stop before the chain's end, in its list.
func (m *Model) lastStop() int { return max(len(m.history.Plan().Chain.Stops)-1, 0) }

package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

const pairGroup = "With a neighbour (after n)"

// pairTable is what the keys do with the chosen unit and another one.
func pairTable() table {
	line := func(key, name, what string, line edit.Line) action {
		return action{bind(name, key), pairGroup, nowPair(what), func(m *Model, _ string) tea.Cmd { return m.align(line, what) }}
	}
	return table{
		{bind("tab arrows", "tab", "shift+tab", "up", "down", "left", "right"), pairGroup, always("choose the other unit; a click does too"), (*Model).nextOther},
		line("l", "l", "left edges in line", edit.LeftEdges),
		line("r", "r", "right edges in line", edit.RightEdges),
		line("f", "f", "front edges in line", edit.FrontEdges),
		line("b", "b", "back edges in line", edit.BackEdges),
		line("s", "s", "middles in line side by side, a row", edit.MiddlesSideBySide),
		line("c", "c", "middles in line one behind the other, a column", edit.MiddlesBehind),
		{bind("x", "x", "enter"), pairGroup, nowPair("exchange the two"), do((*Model).exchange)},
		{bind("esc", "esc", "n", "q"), pairGroup, always("leave both as they are"), do((*Model).leavePair)},
	}
}

// nowPair says what would happen to which two units.
func nowPair(what string) func(m *Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if m.mode != pairing || m.unit() == nil || m.otherUnit() == nil {
			return what, m.mode == pairing
		}
		return what + ": " + m.label() + " and " + clean(m.otherUnit().Label), true
	}
}

// otherUnit is the second unit, or nil.
func (m *Model) otherUnit() *layout.Unit {
	if m.mode != pairing {
		return nil
	}
	return m.plan().Unit(m.other)
}

// placedOthers are the units that the selected one can be paired with.
func (m *Model) placedOthers() []*layout.Unit {
	p, l := m.history.Plan(), m.edited()
	var out []*layout.Unit
	for _, u := range p.UnitsIn(l) {
		if _, ok := p.PlaceOf(l, u); ok && u.ID != m.selected {
			out = append(out, u)
		}
	}
	return out
}

// startPairing chooses the nearest unit as the other one.
func (m *Model) startPairing() tea.Cmd {
	u, pl, _ := m.place()
	at := u.Base(pl).Center()
	best, least := "", layout.Length(0)
	for _, o := range m.placedOthers() {
		opl, _ := m.history.Plan().PlaceOf(m.edited(), o)
		c := o.Base(opl).Center()
		far := max(c.X-at.X, at.X-c.X) + max(c.Y-at.Y, at.Y-c.Y)
		if best == "" || far < least {
			best, least = o.ID, far
		}
	}
	m.mode, m.other, m.held = pairing, best, 0
	return nil
}

// nextOther goes through the other units, by list or by direction.
func (m *Model) nextOther(pressed string) tea.Cmd {
	all := m.placedOthers()
	i := slices.IndexFunc(all, func(u *layout.Unit) bool { return u.ID == m.other })
	switch pressed {
	case "tab", "shift+tab":
		m.other = all[stepRound(i, len(all), pressed == "shift+tab")].ID
	default:
		from := m.otherUnit()
		for range all { // over the selected one, which lies between others
			next := edit.Beside(m.history.Plan(), m.edited(), from, direction(pressed))
			if next == nil {
				return nil
			}
			if from = next; next.ID != m.selected {
				m.other = next.ID
				return nil
			}
		}
	}
	return nil
}

// align brings the selected unit in line with the other one.
func (m *Model) align(line edit.Line, what string) tea.Cmd {
	p, o := m.history.Plan(), m.otherUnit()
	u, pl, _ := m.place()
	opl, ok := p.PlaceOf(m.edited(), o)
	m.mode = onBoard
	if !ok {
		return nil
	}
	next := edit.Aligned(u, pl, o.Base(opl), line)
	if next == pl {
		m.say("", "Already so: "+what+".")
		return nil
	}
	m.setPlace("align", next)
	m.say("", "Now "+what+": "+m.label()+" moved to "+clean(o.Label)+".")
	return nil
}

// exchange lets the two units take each other's places.
func (m *Model) exchange() tea.Cmd {
	p, o := m.history.Plan(), m.otherUnit()
	u, pl, _ := m.place()
	opl, ok := p.PlaceOf(m.edited(), o)
	m.mode = onBoard
	if !ok {
		return nil
	}
	a, b := edit.Exchanged(u, o, pl, opl)
	other := o.ID
	m.change("exchange "+clean(o.Label)+" and", func(p *layout.Plan, l *layout.Lineup) {
		p.SetPlace(l, p.Unit(m.selected), a)
		p.SetPlace(l, p.Unit(other), b)
	})
	m.say("", m.label()+" and "+clean(o.Label)+" have exchanged places.")
	return nil
}

func (m *Model) leavePair() tea.Cmd {
	m.mode = onBoard
	return nil
}

func (m *Model) pairText() string {
	o := m.otherUnit()
	if o == nil || m.unit() == nil {
		return ""
	}
	return m.label() + " with " + clean(o.Label) + ": l r f b bring edges in line, s middles in a row, c in a column; x exchanges the two."
}

func (m *Model) pairHints() []hint {
	s := &m.styles.sign
	return []hint{{key: "tab " + s.left + s.up + s.down + s.right, what: "other unit", press: "tab"}, {key: "l", what: "left"}, {key: "r", what: "right"},
		{key: "f", what: "front"}, {key: "b", what: "back"}, {key: "s", what: "row"}, {key: "c", what: "column"}, {key: "x", what: "exchange"}, {key: "esc", what: "leave"}}
}

func nowStartPair(m *Model) (string, bool) {
	what, ok := needsPlace("bring %s in line with another unit, or exchange the two")(m)
	if ok && len(m.placedOthers()) == 0 {
		return "no other unit of this line-up has a place", false
	}
	return what, ok
}

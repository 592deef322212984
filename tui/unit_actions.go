package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

// nextUnit goes through the list of units.
func (m *Model) nextUnit(pressed string) tea.Cmd {
	units := m.plan().UnitsIn(m.lineupNow())
	if len(units) == 0 {
		m.say("", "This line-up has no units.")
		return nil
	}
	i := slices.IndexFunc(units, func(u *layout.Unit) bool { return u.ID == m.selected })
	m.selectUnit(units[stepRound(i, len(units), pressed == "shift+tab")].ID)
	return nil
}

// direction is where an arrow key points; shift and ctrl do not matter.
func direction(pressed string) layout.Wall {
	switch pressed[strings.LastIndex(pressed, "+")+1:] {
	case "left":
		return layout.Left
	case "right":
		return layout.Right
	case "up":
		return layout.Back
	}
	return layout.Front
}

// arrow moves a held unit, else chooses the unit that way.
func (m *Model) arrow(pressed string) tea.Cmd {
	if m.held != 0 {
		return m.nudge(pressed)
	}
	u := m.unit()
	if u == nil {
		m.chooseFirst()
		return nil
	}
	if _, ok := m.plan().PlaceOf(m.lineupNow(), u); !ok {
		m.chooseFirst()
		return nil
	}
	next := edit.Beside(m.plan(), m.lineupNow(), u, direction(pressed))
	if next == nil {
		m.say("", "No unit that way. Space picks "+m.label()+" up, then the arrows move it.")
		return nil
	}
	m.selectUnit(next.ID)
	return nil
}

// chooseFirst selects the placed unit nearest to the front left.
func (m *Model) chooseFirst() {
	placed, _ := m.plan().Standings(m.lineupNow())
	best, least := "", layout.Length(0)
	for i := range placed {
		s := &placed[i]
		if far := s.Place.At.X + 2*s.Place.At.Y; best == "" || far < least {
			best, least = s.Unit.ID, far
		}
	}
	if best == "" {
		m.nextUnit("tab")
		return
	}
	m.selectUnit(best)
}

// nudge moves the unit one step.
func (m *Model) nudge(pressed string) tea.Cmd {
	if m.stride == touching {
		return m.slide(pressed)
	}
	if _, ok := needsPlace("")(m); !ok {
		return nil
	}
	_, pl, _ := m.place()
	m.setPlace("move", edit.Move(pl, direction(pressed), edit.Strides(m.plan().LengthUnit)[m.stride]))
	return nil
}

// slide moves the unit until it touches something.
func (m *Model) slide(pressed string) tea.Cmd {
	if _, ok := needsPlace("")(m); !ok {
		return nil
	}
	u, pl, _ := m.place()
	dir := direction(pressed)
	c, ok := edit.Ahead(m.history.Plan(), m.edited(), u, dir)
	switch {
	case !ok:
		m.say("", "Nothing to touch that way.")
	case c.Gap == 0:
		m.say("", m.label()+" touches "+clean(c.With)+" already.")
	default:
		m.setPlace("slide", edit.Slide(pl, dir, c.Gap))
		verb := " now touches "
		if c.Out {
			verb = " is now clear of "
		}
		m.say("", m.label()+verb+clean(c.With)+".")
	}
	return nil
}

// setPlace is the edit behind every move.
func (m *Model) setPlace(what string, pl layout.Placement) {
	id := m.selected
	m.change(what, func(p *layout.Plan, l *layout.Lineup) { p.SetPlace(l, p.Unit(id), pl) })
	m.moved = true
}

// change makes an edit of the selected unit in the line-up on screen.
func (m *Model) change(what string, edits func(p *layout.Plan, l *layout.Lineup)) {
	l := m.lineupNow().Name
	s := edit.Step{What: what + " " + m.label(), Unit: m.selected, Lineup: l, Series: m.held}
	if m.held != 0 {
		s.What = "move " + m.label()
	}
	// While the best arrangement so far is on screen, the edit is made of the
	// plan as it was, and that is what is seen from then on.
	m.history.Do(s, func(p *layout.Plan) { edits(p, p.LineupNamed(l)) })
}

func (m *Model) chooseStride(pressed string) tea.Cmd {
	m.stride = int(pressed[0] - '1')
	if m.held != 0 {
		m.say("", sentence("arrows "+m.strideText(m.label())))
	} else if m.stride == touching {
		m.say("", "Moves go on until the unit touches something.")
	} else {
		m.say("", "Moves are "+edit.Strides(m.plan().LengthUnit)[m.stride].Name+".")
	}
	return nil
}

// pickUpOrDown is the space key.
func (m *Model) pickUpOrDown() tea.Cmd {
	if m.held != 0 {
		m.held = 0
		return nil
	}
	u, pl, placed := m.place()
	m.pickUp(pl, placed)
	if !placed {
		m.setPlace("place", edit.FirstPlace(m.history.Plan(), m.edited(), u))
	}
	return nil
}

// pickUp begins to hold the selected unit.
func (m *Model) pickUp(at layout.Placement, placed bool) {
	m.series++
	m.held, m.was = m.series, nil
	if placed {
		m.was = &at
	}
}

func (m *Model) enter() tea.Cmd {
	if m.held == 0 && (m.offer != nil || m.job != nil) {
		return m.takeBest()
	}
	return m.pickUpOrDown()
}

// escape leaves whatever is nearest.
func (m *Model) escape() tea.Cmd {
	switch {
	case m.held != 0:
		if m.history.Series() == m.held {
			m.history.Undo()
		}
		m.held, m.drag = 0, drag{}
	case m.offer != nil:
		m.offer = nil
		m.say("", "Dropped the arrangement; the plan is as it was.")
	case m.job != nil:
		m.stop()
		m.say("", "Stopped arranging; the plan is as it was.")
	default:
		m.selected, m.wires.chosen = "", ""
	}
	return nil
}

func (m *Model) turn(pressed string) tea.Cmd {
	u, pl, _ := m.place()
	by := layout.Turn(1)
	if pressed == "T" {
		by = 3
	}
	pl = edit.Turned(u, pl, by, m.plan().LengthUnit)
	m.setPlace("turn", pl)
	if allowed := u.AllowedTurns(); !slices.Contains(allowed, pl.Turn) {
		var all []string
		for _, t := range allowed {
			all = append(all, digits(t.Degrees()))
		}
		m.say("", m.label()+" is turned to "+digits(pl.Turn.Degrees())+", which the plan does not allow: only "+strings.Join(all, ", ")+". E opens its card, where Turns allows more.")
	}
	return nil
}

func (m *Model) surfaceAfter(name string) layout.Surface {
	all := m.plan().Board.Surfaces()
	i := slices.IndexFunc(all, func(s layout.Surface) bool { return s.Name == name })
	return all[(i+1)%len(all)]
}

func (m *Model) ontoNext() tea.Cmd {
	u, pl, _ := m.place()
	s := m.surfaceAfter(pl.On)
	m.setPlace("put", edit.Onto(u, pl, s))
	text := m.label() + " is on the " + clean(s.Name) + " now."
	if !u.MayStandOn(s.Name) {
		text = m.label() + " is on the " + clean(s.Name) + " now, where the plan does not want it."
	}
	m.say("", text)
	return nil
}

func (m *Model) changeMount() tea.Cmd {
	id := m.selected
	m.change("change mount of", func(p *layout.Plan, _ *layout.Lineup) {
		u := p.Unit(id)
		if u.Mount == layout.Fixed {
			u.Mount = layout.Swap
		} else {
			u.Mount = layout.Fixed
		}
	})
	m.say("", m.label()+" is mounted "+string(m.unit().Mount)+" now.")
	return nil
}

func (m *Model) pin() tea.Cmd {
	id := m.selected
	what := "pin"
	if m.history.Plan().Unit(id).Pinned {
		what = "unpin"
	}
	m.change(what, func(p *layout.Plan, _ *layout.Lineup) { u := p.Unit(id); u.Pinned = !u.Pinned })
	if m.unit().Pinned {
		m.say("", m.label()+" is pinned: arranging leaves it here.")
	} else {
		m.say("", m.label()+" is not pinned any more: arranging may move it.")
	}
	return nil
}

// strideName is how far one press moves, "5 mm".
func (m *Model) strideName() string { return edit.Strides(m.plan().LengthUnit)[m.stride].Name }

package tui

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/tui/form"
)

// cardOf makes a card that leads to others anew.
func (m *Model) cardOf(name, subject string) *form.Form {
	switch name {
	case "unit":
		return m.shop().Unit(subject)
	case "board":
		return m.shop().Board()
	case "riser":
		return m.shop().Riser(subject)
	case "output":
		id, i := m.outputOf(subject)
		return m.shop().Output(id, i)
	}
	return nil
}

// outputOf is the unit and the number of the output that a card is about.
func (m *Model) outputOf(subject string) (id string, i int) {
	id, n, _ := strings.Cut(subject, "/")
	i, err := strconv.Atoi(n)
	if u := m.history.Plan().Unit(id); err != nil || u == nil || i >= len(u.Outputs) {
		return "", 0
	}
	return id, i
}

// lead goes where a field leads; back is called when the player returns.
func (m *Model) lead(to, subject string, back func(m *Model) tea.Cmd) tea.Cmd {
	if l := m.listOf(to, subject); l != nil {
		l.left = back
		return m.push(screen{list: l})
	}
	var f *form.Form
	switch to {
	case "place":
		f = m.shop().Place(subject, m.edited().Name)
	case "sweep":
		f = m.shop().Sweep(subject)
	case "jack":
		if id, i := m.outputOf(subject); id != "" {
			f = m.shop().Jack(id, m.history.Plan().Unit(id).Outputs[i].Jack)
		}
	}
	return m.fill(f, back)
}

func (m *Model) listOf(to, subject string) *list {
	switch to {
	case "form":
		return m.catalogFor(subject)
	case "jacks":
		return jackList(subject)
	case "switches":
		return switchList(subject)
	case "base":
		return baseList(subject)
	case "outputs":
		return outputList(subject)
	case "risers":
		return riserList()
	case "legs":
		return legList(subject)
	case "rails":
		return railList()
	case "fixtures":
		return fixtureList()
	}
	return nil
}

package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

const stripGroup = "What the drawing shows (after v)"

// stripTable is what the keys do after v.
func stripTable() table {
	onOff := func(what string, of func(m *Model) *bool) (func(*Model) (string, bool), func(*Model, string) tea.Cmd) {
		return func(m *Model) (string, bool) {
				if *of(m) {
					return what + ": on", true
				}
				return what + ": off", true
			}, func(m *Model, _ string) tea.Cmd {
				*of(m) = !*of(m)
				return nil
			}
	}
	var t table
	add := func(name, what string, of func(m *Model) *bool) {
		now, do := onOff(what, of)
		t = append(t, action{bind(name, name), stripGroup, now, do})
	}
	add("c", "audio runs", func(m *Model) *bool { return &m.show.cables })
	add("e", "power leads", func(m *Model) *bool { return &m.show.leads })
	add("p", "plugs", func(m *Model) *bool { return &m.show.plugs })
	add("w", "switches", func(m *Model) *bool { return &m.show.switches })
	add("s", "slots", func(m *Model) *bool { return &m.show.slots })
	return append(t,
		action{bind("d", "d"), stripGroup, nowSurface, do((*Model).nextSurface)},
		action{bind("m", "m"), stripGroup, nowMouse, do((*Model).toggleMouse)},
		action{bind("esc", "esc", "v", "enter", "q", " "), stripGroup, always("done"),
			do(func(m *Model) tea.Cmd { m.mode = onBoard; return nil })},
	)
}

func nowSurface(m *Model) (string, bool) {
	if len(m.plan().Board.Risers) == 0 {
		return "the deck is all there is", false
	}
	if m.show.surface == "" {
		return "surface: from above", true
	}
	return "surface: " + clean(m.show.surface), true
}

// nextSurface goes from the view from above through the surfaces.
func (m *Model) nextSurface() tea.Cmd {
	all := m.plan().Board.Surfaces()
	next := all[0].Name
	for i, s := range all {
		if s.Name == m.show.surface {
			next = ""
			if i+1 < len(all) {
				next = all[i+1].Name
			}
		}
	}
	m.show.surface = next
	return nil
}

func nowMouse(m *Model) (string, bool) {
	if m.show.mouse {
		return "mouse: here", true
	}
	return "mouse: left to the terminal", true
}

func (m *Model) toggleMouse() tea.Cmd {
	m.show.mouse = !m.show.mouse
	if m.show.mouse {
		return tea.EnableMouseCellMotion
	}
	return tea.DisableMouse
}

// stripText is what the drawing shows, each with its key.
func (m *Model) stripText() string {
	var out []string
	for i := range m.tables.strip {
		a := &m.tables.strip[i]
		if what, _ := a.now(m); a.keys.Help().Key != "esc" {
			out = append(out, a.keys.Help().Key+" "+what)
		}
	}
	return strings.Join(out, "   ")
}

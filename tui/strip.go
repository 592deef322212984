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
	add("f", "fastener", func(m *Model) *bool { return &m.show.fastener })
	return append(t,
		action{bind("d", "d", "D"), stripGroup, nowStripLook, (*Model).nextLook},
		action{bind("m", "m"), stripGroup, nowMouse, do((*Model).toggleMouse)},
		action{bind("esc", "esc", "v", "enter", "q", " "), stripGroup, always("done"),
			do(func(m *Model) tea.Cmd { m.mode = onBoard; return nil })},
	)
}

func nowStripLook(m *Model) (string, bool) { return "view: " + m.camera.lookName(), true }

func nowMouse(m *Model) (string, bool) {
	if m.show.mouse {
		return "mouse: on", true
	}
	return "mouse: off", true
}

func nowMouseKey(m *Model) (string, bool) {
	if m.show.mouse {
		return "leave the mouse to the terminal, to mark and copy text", true
	}
	return "take the mouse back from the terminal", true
}

func (m *Model) toggleMouse() tea.Cmd {
	m.show.mouse = !m.show.mouse
	m.drag = drag{}
	if m.show.mouse {
		m.say("", "The mouse works here again: click, drag, wheel.")
		return tea.EnableMouseCellMotion
	}
	m.say("", "The mouse is left to the terminal, to mark and copy text. M takes it back.")
	return tea.DisableMouse
}

// stripItems is what the drawing shows, each with its key.
func (m *Model) stripItems() (out []hint) {
	t := m.modes[showing].table
	for i := range t {
		if what, _ := t[i].now(m); t[i].keys.Help().Key != "esc" {
			out = append(out, hint{key: t[i].keys.Help().Key, what: what})
		}
	}
	return out
}

func (m *Model) stripText() string {
	var out []string
	for _, h := range m.stripItems() {
		out = append(out, h.key+" "+h.what)
	}
	return strings.Join(out, "   ")
}

func (m *Model) stripHints() []hint {
	var out []hint
	for _, h := range m.stripItems() {
		word, _, _ := strings.Cut(h.what, ":")
		out = append(out, hint{key: h.key, what: word})
	}
	return append(out, hint{key: "esc", what: "done"})
}

package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

// question is a few answers to choose from, each by a key. Esc is always one:
// to leave things as they are.
type question struct {
	text    string
	choices []choice
}

type choice struct {
	key, what string
	do        func(m *Model) tea.Cmd
}

func (m *Model) ask(text string, choices ...choice) {
	m.mode, m.question, m.quitting = asking, question{text, choices}, false
	m.held = 0
}

// answer handles a key while a question stands.
func (m *Model) answer(msg tea.KeyMsg) tea.Cmd {
	if msg.Type == tea.KeyEsc {
		m.mode, m.quitting, m.quitAfter = onBoard, false, false
		return nil
	}
	for _, c := range m.question.choices {
		if msg.String() == c.key {
			m.mode, m.quitting = onBoard, false
			return c.do(m)
		}
	}
	return nil
}

// newInput is a line to type into. Its cursor stands still, so that the screen
// is not drawn again while nothing happens.
func newInput(value string) textinput.Model {
	in := textinput.New()
	in.Prompt = ""
	in.CharLimit = 1000
	in.Cursor.SetMode(cursor.CursorStatic)
	in.SetValue(value)
	in.CursorEnd()
	in.Focus()
	return in
}

// startLooking asks for a part of a label.
func (m *Model) startLooking() tea.Cmd {
	m.mode, m.before, m.held = looking, m.selected, 0
	m.input = newInput("")
	return nil
}

// startNaming asks for a file's name.
func (m *Model) startNaming() tea.Cmd {
	if m.saving {
		m.say("", "Saving is going on.")
		return nil
	}
	name := m.path
	if name == "" {
		name = "board.toml"
	}
	m.mode, m.held = naming, 0
	m.input = newInput(name)
	return nil
}

// typed handles a key while a line is typed.
func (m *Model) typed(msg tea.KeyMsg) tea.Cmd {
	find := m.mode == looking
	switch msg.Type {
	case tea.KeyEsc:
		if find {
			m.selected = m.before
		}
		m.mode, m.quitAfter = onBoard, false
		return nil
	case tea.KeyEnter:
		m.mode = onBoard
		if find {
			return nil
		}
		name := strings.TrimSpace(m.input.Value())
		if name == "" {
			m.mode = naming
			m.say("", "A name is needed, like board.toml. Esc leaves without saving.")
			return nil
		}
		return m.saveAs(name, false)
	case tea.KeyTab, tea.KeyDown, tea.KeyShiftTab, tea.KeyUp:
		if find {
			m.nextMatch(msg.Type == tea.KeyTab || msg.Type == tea.KeyDown)
		}
		return nil
	}
	var cmd tea.Cmd
	m.input, cmd = m.input.Update(msg)
	if find {
		m.selected = m.before
		if hits := m.matches(); len(hits) > 0 && m.input.Value() != "" {
			m.selected = hits[0].ID
		}
	}
	return cmd
}

// matches returns the units whose label or ID holds what is typed, those that
// begin with it first.
func (m *Model) matches() []*layout.Unit {
	want := strings.ToLower(strings.TrimSpace(m.input.Value()))
	var first, rest []*layout.Unit
	for _, u := range m.plan().UnitsIn(m.lineupNow()) {
		label, id := strings.ToLower(u.Label), strings.ToLower(u.ID)
		switch {
		case strings.HasPrefix(label, want) || strings.HasPrefix(id, want):
			first = append(first, u)
		case strings.Contains(label, want) || strings.Contains(id, want):
			rest = append(rest, u)
		}
	}
	return append(first, rest...)
}

func (m *Model) nextMatch(forward bool) {
	hits := m.matches()
	if len(hits) == 0 {
		return
	}
	i := slices.IndexFunc(hits, func(u *layout.Unit) bool { return u.ID == m.selected })
	if forward {
		i = (i + 1) % len(hits)
	} else {
		i = (max(i, 0) + len(hits) - 1) % len(hits)
	}
	m.selected = hits[i].ID
}

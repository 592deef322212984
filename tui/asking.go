package tui

import (
	"path/filepath"
	"slices"
	"strings"
	"unicode"

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
		name = fileName(m.history.Plan().Title) + ".toml"
	}
	m.mode, m.held = naming, 0
	m.input = newInput(name)
	return nil
}

// fileName is what a plan's title gives for the name of a file, without an ending:
// letters and digits of any language, in lower case, and dashes.
func fileName(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	name := []rune(strings.Join(words, "-"))
	name = name[:min(len(name), 40)]
	if len(name) == 0 {
		return "board"
	}
	return strings.TrimRight(string(name), "-")
}

// lookingTable is what keys do while a unit is looked for; all others are text.
func lookingTable() table {
	const group = ""
	return table{
		{bind("enter", "enter"), group, always("choose"), do(func(m *Model) tea.Cmd { m.mode = onBoard; return nil })},
		{bind("tab", "tab", "down", "shift+tab", "up"), group, always("next match"), func(m *Model, pressed string) tea.Cmd {
			m.nextMatch(pressed == "shift+tab" || pressed == "up")
			return nil
		}},
		{bind("esc", "esc"), group, always("back"), do(func(m *Model) tea.Cmd {
			m.selected, m.mode = m.before, onBoard
			return nil
		})},
	}
}

// namingTable is what keys do while the name of a file is typed.
func namingTable() table {
	const group = ""
	return table{
		{bind("enter", "enter"), group, always("save"), do((*Model).named)},
		{bind("esc", "esc"), group, always("do not save"), do(func(m *Model) tea.Cmd {
			m.mode, m.quitAfter = onBoard, false
			return nil
		})},
	}
}

// named saves under the name that was typed.
func (m *Model) named() tea.Cmd {
	name := strings.TrimSpace(m.input.Value())
	if name == "" {
		m.say("", "A name is needed, like board.toml. Esc leaves without saving.")
		return nil
	}
	m.mode = onBoard
	if name = untilde(name); filepath.Ext(name) == "" && name != m.path {
		name += ".toml" // what opening looks for
	}
	return m.saveAs(name, false)
}

// typed handles a key that goes into the line.
func (m *Model) typed(msg tea.KeyMsg) tea.Cmd {
	var cmd tea.Cmd
	m.input, cmd = m.input.Update(msg)
	if m.mode == looking {
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

func (m *Model) nextMatch(back bool) {
	hits := m.matches()
	if len(hits) == 0 {
		return
	}
	i := slices.IndexFunc(hits, func(u *layout.Unit) bool { return u.ID == m.selected })
	m.selected = hits[stepRound(i, len(hits), back)].ID
}

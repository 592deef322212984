package tui

import tea "github.com/charmbracelet/bubbletea"

// hint is a key and what it does, in a word or two. It is a button too: a click
// presses the key.
type hint struct {
	key, what string
	press     string // the key that a click presses; "" for key itself
}

// button is a key on screen: the columns that it takes and what to press.
type button struct {
	x, w  int
	press string
}

// hints is the last line: the keys that matter most now, as many as fit.
func (m *Model) hints() string {
	line, _ := m.hintLine()
	return fit(line, m.areas.hints.w, "")
}

// hintLine sets as many hints as fit, the last two of the list always.
func (m *Model) hintLine() (line string, at []button) {
	list := m.modes[m.mode].hints(m)
	last := max(len(list)-2, 0)
	room, x := m.areas.hints.w+1, 0
	for _, h := range list[last:] {
		_, w := m.hintText(h)
		room -= w
	}
	add := func(h hint) {
		text, w := m.hintText(h)
		line += text
		at = append(at, button{x, w, h.pressed()})
		x += w
	}
	for _, h := range list[:last] {
		_, w := m.hintText(h)
		if room -= w; room < 0 {
			break
		}
		add(h)
	}
	for _, h := range list[last:] {
		add(h)
	}
	return line, at
}

// hintText is a hint as it is drawn, and how many columns it takes.
func (m *Model) hintText(h hint) (styled string, w int) {
	key, what := m.ascii(h.key), m.ascii(h.what)
	return " " + m.styles.key.over(key) + " " + m.styles.quiet.over(what) + " ", cells(key) + cells(what) + 3
}

// pressed is the key that a click on the hint presses, "" where it names
// several.
func (h hint) pressed() string {
	switch {
	case h.press != "":
		return h.press
	case len([]rune(h.key)) == 1 || buttonKeys[h.key] != 0:
		return h.key
	}
	return ""
}

// buttonKeys are the keys without a letter that can be clicked.
var buttonKeys = map[string]tea.KeyType{
	"esc": tea.KeyEsc, "enter": tea.KeyEnter, "tab": tea.KeyTab, "space": tea.KeySpace, "pgdown": tea.KeyPgDown,
	"left": tea.KeyLeft, "right": tea.KeyRight, "ctrl+s": tea.KeyCtrlS, "f1": tea.KeyF1,
}

// buttonAt returns the button in a column, nil where there is none.
func buttonAt(at []button, x int) *button {
	for i := range at {
		if b := &at[i]; x >= b.x && x < b.x+b.w {
			return b
		}
	}
	return nil
}

// clickButton presses the key of the button in a column.
func (m *Model) clickButton(at []button, x int) tea.Cmd {
	if b := buttonAt(at, x); b != nil && b.press != "" {
		return m.pressNamed(b.press)
	}
	return nil
}

// pressNamed is as if a key were pressed.
func (m *Model) pressNamed(name string) tea.Cmd {
	msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
	if t, ok := buttonKeys[name]; ok {
		msg = tea.KeyMsg{Type: t}
	}
	if name == "space" {
		msg.Runes = []rune{' '}
	}
	return m.keyed(msg)
}

// answerHints are the answers to a question.
func (m *Model) answerHints() []hint {
	var out []hint
	for _, c := range m.question.choices {
		out = append(out, hint{key: c.key, what: c.what})
	}
	return append(out, hint{key: "esc", what: "stay"})
}

func (m *Model) boardHints() []hint {
	s := &m.styles.sign
	arrows := s.left + s.up + s.down + s.right
	end := []hint{{key: "?", what: "help"}, {key: "q", what: "quit"}}
	_, onWire := m.chosenWire()
	switch {
	case m.held != 0:
		move := "slide until it touches"
		if m.stride != touching {
			move = "move " + m.strideName()
		}
		return append([]hint{{key: arrows, what: move}, {key: "space", what: "set down"}, {key: "esc", what: "put back"},
			{key: "1234", what: "step", press: digits(m.stride%4 + 1)}, {key: "t", what: "turn"}, {key: "+ -", what: "zoom", press: "+"}}, end...)
	case m.offer != nil, m.job != nil:
		return append([]hint{{key: "enter", what: "take this"}, {key: "esc", what: "drop it"}}, end...)
	case onWire:
		return append([]hint{{key: "k", what: "next cable"}, {key: "K", what: "back"}, {key: "x", what: "kit"}, {key: "e", what: "power"},
			{key: "c", what: "runs"}, {key: "l", what: "line-up"}, {key: "esc", what: "leave"}}, end...)
	case m.unit() != nil:
		return append([]hint{{key: "space", what: "pick up"}, {key: "E", what: "its card"}, {key: "t", what: "turn"}, {key: "n", what: "neighbour"}, {key: "p", what: "pin"},
			{key: "f", what: "next finding"}, {key: "a", what: "arrange"}, {key: "u", what: "undo"}, {key: "s", what: "save"}, {key: "z", what: "close up"},
			{key: "i", what: "about it"}, {key: "m", what: "mount"}, {key: "l", what: "line-up"}, {key: "v", what: "show"}, {key: "c", what: "runs"},
			{key: "k", what: "its cables"}, {key: "d", what: "view"}, {key: "e", what: "power"}, {key: "x", what: "kit"}, {key: "o", what: "surface"},
			{key: "/", what: "find"}}, end...)
	}
	return append([]hint{{key: "tab", what: "choose"}, {key: "/", what: "find"}, {key: "A", what: "add"}, {key: "P", what: "plan"}, {key: "a", what: "arrange"}, {key: "l", what: "line-up"},
		{key: "f", what: "findings"}, {key: "v", what: "show"}, {key: "u", what: "undo"}, {key: "s", what: "save"}, {key: "d", what: "view"},
		{key: "+", what: "zoom"}, {key: "c", what: "runs"}, {key: "k", what: "cables"}, {key: "e", what: "power"}, {key: "x", what: "kit"},
		{key: "w", what: "all findings"}}, end...)
}

package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// action is one thing that a key does. The table that it stands in is the
// only place that says so: keys are looked up there, and help and hints are
// written from it.
type action struct {
	keys  key.Binding // its help text names the keys
	group string
	// now says what it would do this moment, or why it cannot.
	now func(m *Model) (what string, can bool)
	do  func(m *Model, pressed string) tea.Cmd
}

// table is the actions of one mode.
type table []action

// tables is every table.
type tables struct {
	board, strip table
}

func newTables() tables { return tables{board: boardTable(), strip: stripTable()} }

// bind is a binding of keys under one name for the help.
func bind(name string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(name, ""))
}

// press does what the key is bound to. Where that cannot be done now it says
// why instead of doing nothing.
func (t table) press(m *Model, msg tea.KeyMsg) tea.Cmd {
	for i := range t {
		a := &t[i]
		if !key.Matches(msg, a.keys) {
			continue
		}
		if a.edits() && msg.String() != "enter" {
			m.takeOwn()
		}
		if why, can := a.now(m); !can {
			m.say("", sentence(why))
			return nil
		}
		return a.do(m, msg.String())
	}
	return nil
}

// edits reports whether the action may change the plan's units.
func (a *action) edits() bool { return a.group == moving || a.group == changing }

// always is for what can always be done and always means the same.
func always(what string) func(*Model) (string, bool) {
	return func(*Model) (string, bool) { return what, true }
}

// sentence makes a phrase a sentence.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	if s[0] >= 'a' && s[0] <= 'z' {
		s = string(s[0]-'a'+'A') + s[1:]
	}
	if last := s[len(s)-1]; last != '.' && last != '?' {
		s += "."
	}
	return s
}

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

// bind is a binding of keys under one name for the help.
func bind(name string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(name, ""))
}

// also adds words by which the help's search finds a key, beside those that it
// shows.
func also(b key.Binding, words string) key.Binding {
	b.SetHelp(b.Help().Key, words)
	return b
}

// find returns the action that a key is bound to, or nil.
func (t table) find(msg tea.KeyMsg) *action {
	for i := range t {
		if key.Matches(msg, t[i].keys) {
			return &t[i]
		}
	}
	return nil
}

// press does what the key is bound to. Where that cannot be done now it says
// why instead of doing nothing.
func (a *action) press(m *Model, msg tea.KeyMsg) tea.Cmd {
	if a.edits() && msg.String() != "enter" {
		m.takeOwn()
	}
	if why, can := a.now(m); !can {
		m.say("", sentence(why))
		return nil
	}
	return a.do(m, msg.String())
}

// edits reports whether the action may change the plan's units.
func (a *action) edits() bool {
	return a.group == moving || a.group == changing || a.group == pairGroup
}

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

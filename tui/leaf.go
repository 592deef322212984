package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

const makingPage = "making up a page"

// leaf is what stands on a page that takes a while to make up: it is made in the
// background, of the plan as it is, and kept until it is wanted of another plan.
type leaf struct {
	plan  *layout.Plan // that it is of, nil when there is none yet
	lines func(w int) []string
	asked *layout.Plan // that it is being made up for

	at   int // the width that done is for
	done []string
}

// maker makes up what stands on a page: a function that sets it in lines of a
// width.
type maker func(p *layout.Plan) func(w int) []string

type leafMsg struct {
	name  string
	plan  *layout.Plan
	lines func(w int) []string
}

// followLeaf starts to make up what the page on screen wants, if that is not
// known and is not being made up.
func (m *Model) followLeaf() tea.Cmd {
	if m.mode != reading || m.page.make == nil {
		return nil
	}
	name, p, work := m.page.leaf, m.plan(), m.page.make
	if m.leaves == nil {
		m.leaves = map[string]*leaf{}
	}
	f := m.leaves[name]
	if f == nil {
		f = &leaf{}
		m.leaves[name] = f
	}
	if f.plan == p || f.asked != nil {
		return nil
	}
	f.asked = p
	return m.guarded(makingPage, func() tea.Msg { return leafMsg{name, p, work(p)} })
}

// made takes what was made up.
func (m *Model) made(msg leafMsg) {
	if f := m.leaves[msg.name]; f != nil {
		*f = leaf{plan: msg.plan, lines: msg.lines}
	}
}

// leafLines are the lines of the page that is open: the last ones, said to be so,
// while new ones are being made up.
func (m *Model) leafLines(w int) []string {
	f := m.leaves[m.page.leaf]
	if f == nil || f.plan == nil {
		return []string{m.styles.quiet.over("It is being worked out: a moment.")}
	}
	if f.at != w || f.done == nil {
		f.at, f.done = w, f.lines(w)
		for i := range f.done {
			f.done[i] = m.ascii(f.done[i])
		}
	}
	if f.plan != m.plan() {
		old := m.styles.caution.over("Of the plan as it was; it is being worked out anew.")
		return append([]string{old, ""}, f.done...)
	}
	return f.done
}

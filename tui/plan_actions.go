package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/tui/edit"
)

func (m *Model) undo() tea.Cmd {
	m.held = 0
	if s, ok := m.history.Undo(); ok {
		m.goTo(s)
		m.say("", "Took back: "+s.What+".")
	}
	return nil
}

func (m *Model) redo() tea.Cmd {
	m.held = 0
	if s, ok := m.history.Redo(); ok {
		m.goTo(s)
		m.say("", "Did again: "+s.What+".")
	}
	return nil
}

// goTo shows where an edit was made.
func (m *Model) goTo(s edit.Step) {
	if i := m.lineupIndex(s.Lineup); i >= 0 && i != m.lineup {
		m.showLineup(i)
	}
	if s.Unit != "" {
		m.selectUnit(s.Unit)
	}
}

func (m *Model) lineupIndex(name string) int {
	return slices.IndexFunc(m.plan().Lineups, func(l layout.Lineup) bool { return l.Name == name })
}

func (m *Model) nextLineup(pressed string) tea.Cmd {
	m.switched(stepRound(m.lineup, len(m.plan().Lineups), pressed == "L"))
	if m.mode == reading && m.page.tab == "g" {
		m.nameChange()
	}
	return nil
}

// nextCulprit goes to the next finding and selects its first unit. Where the
// line-up has none it goes to the next one that has.
func (m *Model) nextCulprit(pressed string) tea.Cmd {
	m.look()
	n := len(m.found())
	if n == 0 {
		i := m.nextFaulty()
		if i < 0 {
			return nil
		}
		m.showLineup(i)
		m.goToFinding(0)
		return nil
	}
	m.goToFinding(stepRound(m.culprit, n, pressed == "F"))
	return nil
}

func (m *Model) goToFinding(i int) {
	m.look()
	fs := m.found()
	if i < 0 || i >= len(fs) {
		return
	}
	m.culprit = i
	if len(fs[i].Units) > 0 {
		m.selectUnit(fs[i].Units[0])
	}
}

// nextFaulty returns the next line-up after this one with findings that are
// more than notes, or -1.
func (m *Model) nextFaulty() int {
	results := m.look().results
	for k := 1; k < len(results); k++ {
		i := (m.lineup + k) % len(results)
		if slices.ContainsFunc(results[i].Findings, func(f check.Finding) bool { return f.Level != check.Note }) {
			return i
		}
	}
	return -1
}

// nextRuns goes from no runs to audio, to audio and power, to power alone.
func (m *Model) nextRuns() tea.Cmd {
	m.show.cables, m.show.leads = runsAfter(m.show.cables, m.show.leads)
	return nil
}

func runsAfter(cables, leads bool) (bool, bool) {
	switch {
	case !cables && !leads:
		return true, false
	case cables && !leads:
		return true, true
	case cables:
		return false, true
	}
	return false, false
}

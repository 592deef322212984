package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout/sheet"
)

// triedList are the candidates with an answer to the question as it is now, of the
// plan as it is or as it was.
func (m *Model) triedList() []int {
	t := m.trial
	var out []int
	for i := range t.list {
		if t.knows(&t.list[i]) {
			out = append(out, i)
		}
	}
	return out
}

// triesPage is a table of all that were tried like this.
func (m *Model) triesPage() tea.Cmd {
	m.open(page{title: "Tried " + m.tryPlace(), back: trying, items: (*Model).triedItems, pick: (*Model).pickTried})
	if c := m.trial.candidate(); c != nil {
		for i, k := range m.triedList() {
			if m.trial.list[k].same(c) {
				m.page.chosen = i
			}
		}
	}
	return nil
}

func (m *Model) triedItems(w int) [][]string {
	t := m.trial
	rows := [][]string{}
	for _, k := range m.triedList() {
		c := &t.list[k]
		var row []string
		if a := t.answers[t.key(c)]; a != nil {
			row = sheet.TryoutRow(t.asks(), a)
		} else {
			old := t.old(t.key(c))
			row = sheet.TryoutRow(old.base, old.answer)
			row[1] = "before: " + row[1]
		}
		row[0] = c.label
		rows = append(rows, row)
	}
	return m.tabled(sheet.TryoutColumns(), rows, w)
}

// pickTried chooses what was picked in the table, whatever is typed.
func (m *Model) pickTried(item int) {
	t := m.trial
	list := m.triedList()
	if item >= len(list) {
		return
	}
	k := list[item]
	at := slices.Index(t.shown, k)
	if at < 0 {
		c := t.list[k]
		t.typed = ""
		m.sift() // which may move it in the list
		at = slices.IndexFunc(t.shown, func(s int) bool { return t.list[s].same(&c) })
	}
	m.chooseTry(max(at, 0))
}

// tryPage is the answer in full.
func (m *Model) tryPage() tea.Cmd {
	m.open(page{title: clean(m.trial.candidate().label) + " " + m.tryWhere(), back: trying, lines: (*Model).tryAnswer})
	return nil
}

package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

// drag is a unit that the mouse holds.
type drag struct {
	on   bool
	from layout.Point     // on the board, where it was pressed
	was  layout.Placement // of the unit then
}

// point handles the mouse: a click chooses what is under it, a drag moves a
// unit. Every one of these has a key too.
func (m *Model) point(msg tea.MouseMsg) tea.Cmd {
	if !m.show.mouse || m.areas.span == tooSmall {
		return nil
	}
	if m.mode == reading {
		switch msg.Button {
		case tea.MouseButtonWheelUp:
			m.pageLines()
			m.page.scroll(m, -1)
		case tea.MouseButtonWheelDown:
			m.pageLines()
			m.page.scroll(m, 1)
		}
		return nil
	}
	if m.mode != onBoard && m.mode != showing {
		return nil
	}
	switch msg.Action {
	case tea.MouseActionPress:
		if msg.Button == tea.MouseButtonLeft {
			m.note = note{}
			m.click(msg.X, msg.Y)
		}
	case tea.MouseActionMotion:
		m.dragTo(msg.X, msg.Y)
	case tea.MouseActionRelease:
		if m.drag.on {
			m.drag.on, m.held = false, 0
		}
	}
	return nil
}

// click chooses what is at a cell of the screen.
func (m *Model) click(x, y int) {
	a := &m.areas
	switch {
	case a.header.holds(x, y):
		if i := m.tabAt(x); i >= 0 && i != m.lineup {
			m.showLineup(i)
		}
	case a.list.holds(x, y):
		if id := m.listed(y - a.list.y); id != "" {
			m.selectUnit(id)
		}
	case a.findings.holds(x, y):
		m.goToFinding(m.findingAt(y - a.findings.y))
	case a.board.holds(x, y):
		m.clickBoard(x-a.board.x, y-a.board.y)
	}
}

func (m *Model) clickBoard(x, y int) {
	g := m.drawing()
	id := g.At(x, y).Unit
	if id == "" {
		m.clickRun(g, x, y)
		return
	}
	m.selectUnit(id)
	if _, ok := m.canEdit(); !ok {
		return
	}
	if _, pl, ok := m.place(); ok {
		m.series++
		m.held = m.series
		m.drag = drag{true, g.Point(x, y), pl}
	}
}

// dragTo moves the unit that the mouse holds with it, by whole steps.
func (m *Model) dragTo(x, y int) {
	if !m.drag.on || m.held == 0 || m.unit() == nil {
		return
	}
	to := m.drawing().Point(x-m.areas.board.x, y-m.areas.board.y)
	step := edit.Strides(m.plan().LengthUnit)[m.stride%touching]
	pl := m.drag.was
	pl.At.X = step.From(pl.At.X, nearest(to.X-m.drag.from.X, step))
	pl.At.Y = step.From(pl.At.Y, nearest(to.Y-m.drag.from.Y, step))
	m.setPlace("move", pl)
}

// nearest is how many strides are nearest to a distance.
func nearest(l layout.Length, s edit.Stride) int64 {
	n := 2*int64(l) + s.Halves/2
	q := n / s.Halves
	if n%s.Halves < 0 {
		q--
	}
	return q
}

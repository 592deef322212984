package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

// mouseHelp is what the mouse does, for the help. Keys can do all of it.
var mouseHelp = []string{
	"Click a unit, a cable, a line of the list or a finding: choose it. Drag a unit: move it by the step (1 2 3 4).",
	"Wheel over the board: look closer or from further off. Drag the bare board, or drag with the right button: move the view.",
	"In a list: click what you want; where more can be done with it, a second click opens it, and dragging moves it where there is an order. In a form: click a field, an option, or drag a slot or a riser over the board by its middle, an edge or a corner.",
	"Click a line-up, a page's tab or a key in the last line, on larger screens in the first one too: the same as the key.",
}

// drag is what the mouse holds: a unit, the board, or nothing.
type drag struct {
	what dragged
	from layout.Point     // on the board, where it was pressed
	was  layout.Placement // of the unit then
	x, y int              // on the screen
	went bool             // it was not just a click
}

type dragged int

const (
	noDrag dragged = iota
	unitDrag
	boardDrag
)

// point handles the mouse: a click chooses what is under it, a drag moves a
// unit or the view, the wheel zooms and scrolls. Every one of these has a key too.
func (m *Model) point(msg tea.MouseMsg) tea.Cmd {
	if !m.show.mouse || m.areas.span == tooSmall {
		return nil
	}
	if m.over() != nil && m.mode == m.home() && !m.areas.hints.holds(msg.X, msg.Y) {
		return m.pointOver(msg)
	}
	switch {
	case msg.Button == tea.MouseButtonWheelUp || msg.Button == tea.MouseButtonWheelDown:
		if msg.Action == tea.MouseActionPress {
			m.wheel(msg.Button == tea.MouseButtonWheelUp, msg.X, msg.Y)
		}
	case msg.Action == tea.MouseActionPress && msg.Button == tea.MouseButtonLeft:
		return m.click(msg.X, msg.Y)
	case msg.Action == tea.MouseActionPress && (msg.Button == tea.MouseButtonRight || msg.Button == tea.MouseButtonMiddle):
		if m.onDrawing() && m.areas.board.holds(msg.X, msg.Y) {
			m.grabBoard(msg.X, msg.Y)
		}
	case msg.Action == tea.MouseActionMotion:
		m.dragTo(msg.X, msg.Y)
	case msg.Action == tea.MouseActionRelease:
		m.letGo()
	}
	return nil
}

// onDrawing reports whether the board is on screen and is not in use by a
// question or a line to type into.
func (m *Model) onDrawing() bool {
	return m.mode == onBoard || m.mode == showing || m.mode == pairing || m.mode == trying || m.mode == comparing
}

// click chooses what is at a cell of the screen.
func (m *Model) click(x, y int) tea.Cmd {
	a := &m.areas
	m.drag = drag{}
	switch {
	case a.hints.holds(x, y):
		_, at := m.hintLine()
		return m.clickButton(at, x-a.hints.x)
	case m.mode == reading && m.pageArea().holds(x, y):
		return m.clickPage(x, y)
	case !m.onDrawing() && !(m.mode == reading && a.header.holds(x, y)):
		return nil
	}
	if a.says.holds(x, y) {
		m.clickSays()
		return nil
	}
	m.note, m.moved = note{}, false
	switch {
	case a.header.holds(x, y):
		if m.tabAt(x) < 0 {
			return m.clickDoor(x)
		}
		if i := m.tabAt(x); i >= 0 && i != m.lineup {
			m.switched(i)
			if m.mode == reading && m.page.tab == "g" {
				m.nameChange()
			}
		}
	case m.mode == trying && a.list.holds(x, y):
		if i := m.sideAt(m.tryRows(), m.trial.chosen, y-a.list.y); i >= 0 {
			m.chooseTry(i)
		}
	case m.mode == comparing && a.list.holds(x, y):
		if i := m.sideAt(m.boardRows(), m.boards.chosen, y-a.list.y); i >= 0 {
			m.boards.chosen, m.boards.looked = i, true
		}
	case a.list.holds(x, y):
		m.clickUnit(m.listed(y - a.list.y))
		m.followUnit()
	case a.findings.holds(x, y):
		m.goToFinding(m.findingAt(y - a.findings.y))
		m.followUnit()
	case a.board.holds(x, y):
		m.clickBoard(x, y)
	}
	return nil
}

// clickSays goes to the finding that is told in the editor's line.
func (m *Model) clickSays() {
	if m.mode == onBoard && m.note.text == "" && m.job == nil && m.offer == nil && m.areas.span == compact {
		m.goToFinding(m.toldFinding())
		m.followUnit()
	}
}

// clickUnit chooses a unit: the other one while two are wanted.
func (m *Model) clickUnit(id string) {
	switch {
	case id == "":
	case m.mode == pairing:
		if _, ok := m.plan().PlaceOf(m.lineupNow(), m.plan().Unit(id)); ok && id != m.selected {
			m.other = id
		}
	default:
		m.selectUnit(id)
	}
}

// clickBoard chooses a unit and takes hold of it, or takes hold of the board.
func (m *Model) clickBoard(x, y int) {
	from := m.pointAt(x, y)
	id := m.drawing().At(x-m.areas.board.x, y-m.areas.board.y).Unit
	if m.mode == trying || m.mode == comparing {
		m.grabBoard(x, y) // its units stay where they are
		return
	}
	if id == "" || m.mode == pairing {
		m.clickUnit(id)
		if id == "" {
			m.grabBoard(x, y)
		}
		return
	}
	m.selectUnit(id)
	if _, ok := m.canEdit(); !ok {
		return
	}
	if _, pl, ok := m.place(); ok {
		m.takeOwn()
		if m.held == 0 {
			m.pickUp(pl, true)
		}
		m.drag = drag{what: unitDrag, from: from, was: pl, x: x, y: y}
	}
}

// pointAt is the place on the board that a cell of the screen shows.
func (m *Model) pointAt(x, y int) layout.Point {
	return m.drawing().Point(x-m.areas.board.x, y-m.areas.board.y)
}

func (m *Model) grabBoard(x, y int) {
	m.drag = drag{what: boardDrag, from: m.pointAt(x, y), x: x, y: y}
}

// dragTo moves what the mouse holds with it.
func (m *Model) dragTo(x, y int) {
	d := &m.drag
	if d.what == noDrag || !d.went && x == d.x && y == d.y {
		return
	}
	d.went = true
	to := m.pointAt(x, y)
	switch {
	case d.what == boardDrag:
		if m.camera.step == 0 {
			g := m.drawing()
			m.camera.step, _ = g.Step()
			w := g.Window()
			m.camera.middle = layout.Point{X: (w.X0 + w.X1) / 2, Y: (w.Y0 + w.Y1) / 2}
			to = m.pointAt(x, y)
		}
		m.camera.middle.X += d.from.X - to.X
		m.camera.middle.Y += d.from.Y - to.Y
		m.keepBoardInSight()
	case m.held != 0 && m.unit() != nil:
		m.dragUnit(to)
	}
}

// dragUnit moves the held unit by whole steps from where it was pressed, so that
// it stays under the pointer as it was grabbed.
func (m *Model) dragUnit(to layout.Point) {
	step := edit.Strides(m.plan().LengthUnit)[m.stride%touching]
	pl := m.drag.was
	pl.At.X = step.From(pl.At.X, nearest(to.X-m.drag.from.X, step))
	pl.At.Y = step.From(pl.At.Y, nearest(to.Y-m.drag.from.Y, step))
	m.setPlace("move", pl)
}

// letGo ends a drag. A click on the bare board chooses the run that is drawn
// there, or nothing.
func (m *Model) letGo() {
	d := m.drag
	m.drag = drag{}
	switch {
	case d.what == unitDrag:
		m.held = 0
	case d.what == boardDrag && !d.went && m.mode == onBoard:
		if x, y := d.x-m.areas.board.x, d.y-m.areas.board.y; !m.clickRun(m.drawing(), x, y) {
			m.selectUnit("")
		}
	}
}

// wheel zooms at the pointer, scrolls a page, or goes through a list.
func (m *Model) wheel(up bool, x, y int) {
	by := 1
	if up {
		by = -1
	}
	switch {
	case m.mode == reading:
		m.pageLines()
		if m.page.items == nil {
			by *= linesOfWheel
		}
		m.page.scroll(by)
	case !m.onDrawing():
	case m.areas.board.holds(x, y):
		m.zoom(up, x-m.areas.board.x, y-m.areas.board.y)
	case m.mode == trying && m.areas.list.holds(x, y):
		m.browseTries(map[bool]string{true: "up", false: "down"}[up])
	case m.mode == comparing && m.areas.list.holds(x, y):
		m.browseBoards(map[bool]string{true: "up", false: "down"}[up])
	case m.mode != onBoard:
	case m.areas.list.holds(x, y):
		m.nextUnit(map[bool]string{true: "shift+tab", false: "tab"}[up])
		m.followUnit()
	case m.areas.findings.holds(x, y):
		if len(m.found()) > 0 {
			m.nextCulprit(map[bool]string{true: "F", false: "f"}[up])
			m.followUnit()
		}
	}
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

package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/cards"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// spotDrag is what a form is about, dragged over the board.
type spotDrag struct {
	on   bool
	from layout.Point // where it was pressed
	at   layout.Point // where the thing was then
}

// pointOver handles the mouse while there are screens over the board.
func (m *Model) pointOver(msg tea.MouseMsg) tea.Cmd {
	s := m.over()
	press := msg.Action == tea.MouseActionPress
	switch {
	case press && (msg.Button == tea.MouseButtonWheelUp || msg.Button == tea.MouseButtonWheelDown):
		m.wheelOver(s, msg)
	case press && msg.Button == tea.MouseButtonLeft && s.list != nil:
		m.ed.carry = s.list.move != nil && m.itemAt(s.list, msg.Y) >= 0
		return m.clickList(s.list, msg.Y-m.areas.board.y)
	case msg.Action == tea.MouseActionMotion && m.ed.carry && s.list != nil:
		m.carryTo(s.list, m.itemAt(s.list, msg.Y))
	case press && msg.Button == tea.MouseButtonLeft && m.areas.detail.holds(msg.X, msg.Y):
		return m.clickForm(s, msg.X-m.areas.detail.x-1, msg.Y-m.areas.detail.y)
	case press && msg.Button == tea.MouseButtonLeft && m.areas.board.holds(msg.X, msg.Y):
		m.grabSpot(s.form, msg.X, msg.Y)
	case msg.Action == tea.MouseActionMotion && m.ed.spot.on:
		m.dragSpot(s.form, msg.X, msg.Y)
	case msg.Action == tea.MouseActionRelease:
		m.ed.spot, m.ed.carry = spotDrag{}, false
	}
	m.settle()
	return nil
}

func (m *Model) wheelOver(s *screen, msg tea.MouseMsg) {
	by := 1
	if msg.Button == tea.MouseButtonWheelUp {
		by = -1
	}
	switch {
	case s.list != nil:
		s.list.step(m, by)
	case m.areas.board.holds(msg.X, msg.Y):
		m.zoom(by < 0, msg.X-m.areas.board.x, msg.Y-m.areas.board.y)
	case m.areas.detail.holds(msg.X, msg.Y):
		s.form.Next(by)
	}
}

// itemAt is the index of the item in a row of the screen, -1 for none.
func (m *Model) itemAt(l *list, y int) int {
	m.drawList(l, area{0, m.areas.board.y, m.w, m.areas.board.h}) // where its lines are
	if row := y - m.areas.board.y; row >= 0 && row < len(l.itemOf) {
		return l.itemOf[row]
	}
	return -1
}

// carryTo moves the chosen item of a list to where the mouse drags it, and never
// past that: it would come back, and go past again.
func (m *Model) carryTo(l *list, to int) {
	tall := 1
	if l.tall != nil {
		tall = l.tall(m)
	}
	for to >= 0 && max(l.at-to, to-l.at) >= tall {
		was, key := l.at, "shift+down"
		if to < l.at {
			key = "shift+up"
		}
		if m.moveItem(key); l.at == was || (l.at < to) != (was < to) {
			return // it goes no further
		}
	}
}

// clickList chooses an item; the chosen one it opens, and in a list where nothing
// else can be done with an item any.
func (m *Model) clickList(l *list, row int) tea.Cmd {
	m.note = note{}
	i := m.itemAt(l, row+m.areas.board.y)
	if i < 0 {
		return nil
	}
	all := l.shown(m, listWidth(m))
	switch {
	case all[i].head:
	case i != l.at && (l.drop.do != nil || l.move != nil):
		l.at = i
	case l.open.do != nil:
		l.at = i
		return l.open.do(m, all[i])
	case l.flip.do != nil:
		return l.flip.do(m, all[i])
	}
	return nil
}

// clickForm goes to a field: a link it opens, a choice it changes when it is
// clicked again.
func (m *Model) clickForm(s *screen, x, row int) tea.Cmd {
	m.note = note{}
	head, rows, top := m.formLines(s, m.areas.detail)
	i := row - len(head) + top
	if row >= len(head) && i < len(rows) && rows[i].option == buttonRow {
		_, at := m.formButtons()
		return m.clickButton(at, x)
	}
	if row < len(head) || i >= len(rows) || rows[i].field < 0 {
		return nil
	}
	f, field := s.form, rows[i].field
	if rows[i].option >= 0 {
		f.Choose(rows[i].option)
		return nil
	}
	was := f.At()
	f.Go(field)
	switch x := f.Now(); {
	case x.Kind == form.Link:
		return m.followLink()
	case x.Kind == form.Choice && field == was:
		f.Move(1)
	}
	return nil
}

// grabSpot takes hold of what the form is about, where that lies somewhere.
func (m *Model) grabSpot(f *form.Form, x, y int) {
	at, ok := m.spotOf(f)
	if !ok {
		return
	}
	from := m.drawing().Point(x-m.areas.board.x, y-m.areas.board.y)
	m.ed.spot = spotDrag{on: true, from: from, at: at}
}

func (m *Model) spotOf(f *form.Form) (at layout.Point, ok bool) {
	u := m.history.Plan().Measure()
	x, err := layout.ParseLength(f.Value(cards.FromLeft), u)
	y, err2 := layout.ParseLength(f.Value(cards.FromFront), u)
	return layout.Point{X: x, Y: y}, err == nil && err2 == nil
}

// dragSpot moves it by whole steps.
func (m *Model) dragSpot(f *form.Form, x, y int) {
	d, u := &m.ed.spot, m.history.Plan().Measure()
	to := m.drawing().Point(x-m.areas.board.x, y-m.areas.board.y)
	step := edit.Strides(u)[1]
	by := func(at, l layout.Length) string { return step.From(at, nearest(l, step)).Tape(u) }
	f.PutAll(map[string]string{cards.FromLeft: by(d.at.X, to.X-d.from.X), cards.FromFront: by(d.at.Y, to.Y-d.from.Y)})
}

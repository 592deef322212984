package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"footplank/layout"
	"footplank/layout/sheet"
	"footplank/tui/cards"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// spotDrag is what a form is about, dragged over the board.
type spotDrag struct {
	on   bool
	from layout.Point // where it was pressed
	at   layout.Rect  // where the thing was then
	// edge is which edges are dragged, by layout.Wall; none moves the whole.
	edge [4]bool
}

// pointOver handles the mouse while there are screens over the board.
func (m *Model) pointOver(msg tea.MouseMsg) tea.Cmd {
	s := m.over()
	press := msg.Action == tea.MouseActionPress
	switch {
	case press && (msg.Button == tea.MouseButtonWheelUp || msg.Button == tea.MouseButtonWheelDown):
		m.wheelOver(s, msg)
	case press && msg.Button == tea.MouseButtonLeft && s.list != nil:
		m.ed.carry, m.ed.opens = s.list.move != nil && m.itemAt(s.list, msg.Y) >= 0, false
		return m.clickList(s.list, msg.Y-m.areas.board.y)
	case msg.Action == tea.MouseActionMotion && m.ed.carry && s.list != nil:
		to := m.itemAt(s.list, msg.Y)
		m.ed.opens = m.ed.opens && to == s.list.at
		m.carryTo(s.list, to)
	case press && msg.Button == tea.MouseButtonLeft && m.areas.detail.holds(msg.X, msg.Y):
		return m.clickForm(s, msg.X-m.areas.detail.x-1, msg.Y-m.areas.detail.y)
	case press && msg.Button == tea.MouseButtonLeft && m.areas.board.holds(msg.X, msg.Y):
		m.grabSpot(s.form, msg.X, msg.Y)
	case msg.Action == tea.MouseActionMotion && m.ed.spot.on:
		m.dragSpot(s.form, msg.X, msg.Y)
	case msg.Action == tea.MouseActionRelease:
		opens := m.ed.opens && s.list != nil
		m.ed.spot, m.ed.carry, m.ed.opens = spotDrag{}, false, false
		if opens {
			return m.doVerb(verbOpen, true)
		}
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
// else can be done with an item any. What can be dragged opens once the mouse lets go
// of it where it was.
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
	case l.open.do != nil && l.move != nil:
		m.ed.opens = true
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
func (m *Model) clickForm(s *screen, col, row int) tea.Cmd {
	m.note = note{}
	head, rows, top := m.formLines(s, m.areas.detail)
	i := row - len(head) + top
	if row >= len(head) && i < len(rows) && rows[i].option == buttonRow {
		_, at := m.formButtons()
		return m.clickButton(at, col)
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
		by := 1
		if text := ansi.Strip(rows[i].text); col == cells(before(text, m.styles.sign.left)) && col < cells(text) {
			by = -1
		}
		f.Move(by)
	}
	return nil
}

// before is the part of a text before the first of a sign, all of it where there is
// none.
func before(text, sign string) string {
	text, _, _ = strings.Cut(text, sign)
	return text
}

// grabSpot takes hold of what the form is about, where that lies somewhere: of an
// edge or a corner of it where it has a size and the mouse is at one, else of all of
// it.
func (m *Model) grabSpot(f *form.Form, x, y int) {
	at, sized, ok := m.spotOf(f)
	if !ok {
		return
	}
	g := m.drawing()
	col, row := x-m.areas.board.x, y-m.areas.board.y
	d := spotDrag{on: true, from: g.Point(col, row), at: at}
	if sized {
		d.edge = edgesAt(g, at, col, row)
	}
	m.ed.spot = d
}

// edgesAt is the edges of a rectangle that a cell of the drawing is at. In a
// rectangle of few cells the middle still moves it.
func edgesAt(g *sheet.Grid, at layout.Rect, col, row int) (edge [4]bool) {
	c0, r1, _ := g.Cell(layout.Point{X: at.X0, Y: at.Y0})
	c1, r0, _ := g.Cell(layout.Point{X: at.X1 - 1, Y: at.Y1 - 1})
	left, right := layout.Left, layout.Right
	if c0 > c1 { // seen from below
		c0, c1, left, right = c1, c0, right, left
	}
	if row >= r0-1 && row <= r1+1 {
		edge[left], edge[right] = near(col, c0) && col < c1-1, near(col, c1) && col > c0+1
	}
	if col >= c0-1 && col <= c1+1 {
		edge[layout.Back], edge[layout.Front] = near(row, r0) && row < r1, near(row, r1) && row > r0
	}
	return edge
}

func near(a, b int) bool { return a-b <= 1 && b-a <= 1 }

// spotOf is what the fields of a form say of where its thing lies, and whether they
// say its size too.
func (m *Model) spotOf(f *form.Form) (at layout.Rect, sized, ok bool) {
	u := m.history.Plan().Measure()
	x, err := layout.ParseLength(f.Value(cards.FromLeft), u)
	y, err2 := layout.ParseLength(f.Value(cards.FromFront), u)
	w, err3 := layout.ParseLength(f.Value(cards.SpotWidth), u)
	d, err4 := layout.ParseLength(f.Value(cards.SpotDepth), u)
	return layout.RectAt(layout.Point{X: x, Y: y}, max(w, 0), max(d, 0)), err3 == nil && err4 == nil && w > 0 && d > 0, err == nil && err2 == nil
}

// dragSpot moves it, or the edges that are held, by whole steps.
func (m *Model) dragSpot(f *form.Form, x, y int) {
	d, u := &m.ed.spot, m.history.Plan().Measure()
	to := m.pointAt(x, y)
	step := edit.Strides(u)[1]
	by := func(at, l layout.Length) layout.Length { return step.From(at, nearest(l, step)) }
	dx, dy := to.X-d.from.X, to.Y-d.from.Y
	if d.edge == ([4]bool{}) {
		f.PutAll(map[string]string{cards.FromLeft: by(d.at.X0, dx).Tape(u), cards.FromFront: by(d.at.Y0, dy).Tape(u)})
		return
	}
	r, least := d.at, step.From(0, 1)
	if d.edge[layout.Left] {
		r.X0 = min(by(r.X0, dx), r.X1-least)
	}
	if d.edge[layout.Right] {
		r.X1 = max(by(r.X1, dx), r.X0+least)
	}
	if d.edge[layout.Front] {
		r.Y0 = min(by(r.Y0, dy), r.Y1-least)
	}
	if d.edge[layout.Back] {
		r.Y1 = max(by(r.Y1, dy), r.Y0+least)
	}
	f.PutAll(map[string]string{cards.FromLeft: r.X0.Tape(u), cards.FromFront: r.Y0.Tape(u), cards.SpotWidth: r.W().Tape(u), cards.SpotDepth: r.D().Tape(u)})
}

package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/sheet"
)

// camera is how the board is looked at: from which side, how closely, and
// what of it is in the middle.
type camera struct {
	step   layout.Length // of the board per column; 0 for all of the board
	middle layout.Point  // with a step
	// surface is the one looked at, "" for all from above; below is the
	// board's underside.
	surface string
	below   bool
}

// scales is what a column of the screen may show of the board, from the closest
// look on.
var scales = func() (out []layout.Length) {
	for decade := layout.Length(100); decade <= 1000*layout.Millimetre; decade *= 10 {
		for _, n := range []layout.Length{10, 12, 15, 20, 25, 30, 40, 50, 60, 80} {
			out = append(out, decade*n/10)
		}
	}
	return out
}()

const (
	closestScale = layout.Millimetre / 4
	furthest     = 3 // times the board
)

// wholeStep is what a column shows when all of the board is on screen.
func (m *Model) wholeStep() layout.Length {
	v := m.boardView()
	v.Step = 0
	return sheet.Scale(m.plan(), v)
}

// scaleAfter is the next scale closer by, or further off; 0 is the whole board.
// ok is false at either end.
func (m *Model) scaleAfter(closer bool) (step layout.Length, ok bool) {
	whole := m.wholeStep()
	now := m.camera.step
	if now == 0 {
		now = whole
	}
	if closer {
		for _, s := range slices.Backward(scales) {
			if s < now && s >= closestScale {
				return s, true
			}
		}
		return now, false
	}
	for _, s := range scales {
		switch {
		case now < whole && s >= whole:
			return 0, true
		case s > now && s <= furthest*whole:
			return s, true
		}
	}
	return now, false
}

// zoom looks closer, or from further off, while what is in a cell of the
// drawing stays there.
func (m *Model) zoom(closer bool, col, row int) {
	step, ok := m.scaleAfter(closer)
	if !ok {
		return
	}
	at := m.drawing().Point(col, row)
	if m.camera.step = step; step == 0 {
		return
	}
	m.camera.middle = at
	// At the new scale the place is somewhere else: move it back. The second
	// time it is because the ruler's numbers became wider or narrower.
	for range 2 {
		now := m.drawing().Point(col, row)
		m.camera.middle.X += at.X - now.X
		m.camera.middle.Y += at.Y - now.Y
	}
	m.keepBoardInSight()
}

// zoomKey zooms at the chosen unit if it is in sight, else at the middle.
func (m *Model) zoomKey(pressed string) tea.Cmd {
	g := m.drawing()
	w := g.Window()
	col, row, _ := g.Cell(layout.Point{X: (w.X0 + w.X1) / 2, Y: (w.Y0 + w.Y1) / 2})
	if b, ok := m.chosenBase(); ok {
		if c, r, in := g.Cell(b.Center()); in {
			col, row = c, r
		}
	}
	m.zoom(pressed != "-" && pressed != "_", col, row)
	return nil
}

func (m *Model) wholeBoard() tea.Cmd {
	m.camera.step = 0
	return nil
}

// closeUp shows the chosen unit with half as much again on either side of it.
func (m *Model) closeUp() tea.Cmd {
	b, ok := m.chosenBase()
	if !ok {
		return nil
	}
	want := max(2*b.W()/layout.Length(m.areas.board.w), b.D()/layout.Length(m.areas.board.h)) // a row shows two columns' worth
	m.camera.step, m.camera.middle = closestScale, b.Center()
	for _, s := range scales {
		if s >= max(want, closestScale) {
			m.camera.step = s
			break
		}
	}
	return nil
}

// pan moves the view by a quarter of the window.
func (m *Model) pan(pressed string) tea.Cmd {
	dir := direction(pressed)
	switch pressed {
	case "pgup":
		dir = layout.Back
	case "home":
		dir = layout.Left
	case "end":
		dir = layout.Right
	}
	w := m.drawing().Window()
	switch by := (w.X1 - w.X0) / 4; dir {
	case layout.Left:
		m.panBy(-by, 0)
	case layout.Right:
		m.panBy(by, 0)
	case layout.Back:
		m.panBy(0, w.D()/4)
	default:
		m.panBy(0, -w.D()/4)
	}
	return nil
}

// panBy moves the window, to the right and up as the screen has it.
func (m *Model) panBy(right, up layout.Length) {
	if m.camera.below {
		right = -right
	}
	m.camera.middle.X += right
	m.camera.middle.Y += up
	m.keepBoardInSight()
}

// keepBoardInSight keeps the middle of the window over the board.
func (m *Model) keepBoardInSight() {
	r := sheet.Whole(&m.plan().Board)
	at := &m.camera.middle
	at.X, at.Y = min(max(at.X, r.X0), r.X1), min(max(at.Y, r.Y0), r.Y1)
}

// chosenBase is the body of the selected unit as it stands on screen.
func (m *Model) chosenBase() (layout.Rect, bool) {
	u := m.unit()
	if u == nil {
		return layout.Rect{}, false
	}
	pl, ok := m.plan().PlaceOf(m.lineupNow(), u)
	if !ok {
		return layout.Rect{}, false
	}
	return u.Base(pl), true
}

// followUnit moves the window as little as need be to have all of the selected
// unit in it, with a little room around; a unit larger than the window is put
// into its middle.
func (m *Model) followUnit() {
	b, ok := m.chosenBase()
	if !ok || m.camera.step == 0 || m.areas.span == tooSmall {
		return
	}
	w := m.drawing().Window()
	room := 2 * m.camera.step
	m.camera.middle.X += reach(b.X0-room, b.X1+room, w.X0, w.X1)
	m.camera.middle.Y += reach(b.Y0-room, b.Y1+room, w.Y0, w.Y1)
}

// reach is how far a window from lo to hi must move to hold what lies from a to
// b.
func reach(a, b, lo, hi layout.Length) layout.Length {
	switch {
	case b-a >= hi-lo:
		return (a + b - lo - hi) / 2
	case a < lo:
		return a - lo
	case b > hi:
		return b - hi
	}
	return 0
}

// looks are the sides that the board can be looked at from: from above, the
// deck and each riser by itself, the underside.
func (m *Model) looks() []camera {
	out := []camera{{}}
	all := m.plan().Board.Surfaces()
	for _, s := range all {
		if len(all) > 1 {
			out = append(out, camera{surface: s.Name})
		}
	}
	return append(out, camera{below: true})
}

func (m *Model) lookAfter(pressed string) camera {
	all := m.looks()
	i := slices.IndexFunc(all, func(c camera) bool { return c.surface == m.camera.surface && c.below == m.camera.below })
	return all[stepRound(i, len(all), pressed == "D")]
}

func (m *Model) nextLook(pressed string) tea.Cmd {
	c := m.lookAfter(pressed)
	m.camera.surface, m.camera.below = c.surface, c.below
	return nil
}

// lookName names a side to look from.
func (c camera) lookName() string {
	switch {
	case c.below:
		return "underside"
	case c.surface == "":
		return "from above"
	case c.surface == layout.DeckName:
		return "deck alone"
	}
	return clean(c.surface) + " alone"
}

// caption says what is special about the view, "" for nothing.
func (m *Model) caption() string {
	c := &m.camera
	var text []string
	switch {
	case c.below:
		text = append(text, "Underside, mirrored: turned over left to right")
	case c.surface == layout.DeckName:
		text = append(text, "Deck alone")
	case c.surface != "":
		text = append(text, clean(c.surface)+" alone, the rest in broken lines")
	}
	switch whole := m.wholeStep(); {
	case c.step > whole:
		text = append(text, "From further off: 0 shows it larger")
	case c.step != 0:
		text = append(text, "A part of it: 0 shows all")
	}
	if m.onTrial() {
		text = append(text, m.tryCaption())
	}
	if m.onBoards() {
		text = append(text, m.boardCaption())
	}
	if text == nil {
		return ""
	}
	return strings.Join(text, ". ") + "."
}

func nowZoom(m *Model) (string, bool) {
	_, closer := m.scaleAfter(true)
	_, further := m.scaleAfter(false)
	switch {
	case !closer:
		return "- looks from further off; this is as close as it gets", true
	case !further:
		return "+ looks closer; this is as far off as it gets", true
	}
	return "+ looks closer, - from further off", true
}

func nowWhole(m *Model) (string, bool) {
	if m.camera.step == 0 {
		return "all of the board is on screen", false
	}
	return "all of the board, as large as it can be", true
}

func nowCloseUp(m *Model) (string, bool) {
	if why, ok := needsUnit("")(m); !ok {
		return why, false
	}
	if _, ok := m.chosenBase(); !ok {
		return named("%s has no place yet: space gives it one", m.label()), false
	}
	return named("%s and what is around it, close by", m.label()), true
}

func nowPan(m *Model) (string, bool) {
	if m.camera.step == 0 {
		return "all of the board is on screen: + looks closer", false
	}
	return "move the view to the back, the front, the left, the right; alt+arrows too", true
}

func nowLook(m *Model) (string, bool) {
	return "look at the board another way, next: " + m.lookAfter("d").lookName() + "; D goes back. Now: " + m.camera.lookName(), true
}

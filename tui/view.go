package tui

import (
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/sheet"
)

// View draws the whole screen.
func (m *Model) View() string {
	switch {
	case m.w <= 0 || m.h <= 0:
		return ""
	case m.areas.span == tooSmall:
		return m.smallView()
	}
	m.look()
	parts := []part{{m.areas.header, []string{m.header()}}, {m.areas.hints, []string{m.hints()}}}
	switch {
	case m.mode == reading:
		parts = append(parts, part{m.pageArea(), m.drawPage()})
	case m.over() != nil:
		parts = append(parts, m.pileParts()...)
	default:
		parts = append(parts, part{m.areas.board, m.boardLines()}, part{m.areas.list, m.besideLines()},
			part{m.areas.detail, m.aboutLines()}, part{m.areas.findings, m.findingLines()}, part{m.areas.says, m.saysLines()})
	}
	return compose(parts, m.h)
}

// besideLines is the list beside the board: of its units, or of what is tried.
func (m *Model) besideLines() []string {
	if m.onTrial() {
		return m.trySideLines()
	}
	if m.onBoards() {
		return m.boardSideLines()
	}
	return m.listLines()
}

// aboutLines is what there is to say of what is chosen in that list.
func (m *Model) aboutLines() []string {
	if m.onTrial() {
		return m.tryDetail()
	}
	if m.onBoards() {
		return m.boardDetail()
	}
	return m.detailLines()
}

// part is an area with its lines, each exactly as wide as the area.
type part struct {
	area
	lines []string
}

// compose puts parts that cover a screen of h rows together.
func compose(parts []part, h int) string {
	slices.SortStableFunc(parts, func(a, b part) int { return a.x - b.x })
	var b strings.Builder
	b.Grow(4 * h * 200)
	for y := range h {
		if y > 0 {
			b.WriteByte('\n')
		}
		for _, p := range parts {
			if y < p.y || y >= p.y+p.h {
				continue
			}
			if i := y - p.y; i < len(p.lines) {
				b.WriteString(p.lines[i])
			} else {
				b.WriteString(strings.Repeat(" ", p.w))
			}
		}
	}
	return b.String()
}

// smallView is what a terminal below the least size gets.
func (m *Model) smallView() string {
	by := " x "
	lines := []string{
		"footplank needs " + digits(leastWidth) + by + digits(leastHeight) + " characters;",
		"this terminal has " + digits(m.w) + by + digits(m.h) + ".",
		"Make it larger, or press q to quit.",
	}
	if m.mode == asking {
		lines = append(lines[:2], m.questionText())
	}
	var out []string
	for _, s := range lines {
		out = append(out, wrap(m.ascii(s), m.w)...)
	}
	if len(out) > m.h {
		out = out[:m.h]
	}
	for i := range out {
		out[i] = strings.TrimRight(fit(out[i], m.w, ""), " ")
	}
	return strings.Join(out, "\n")
}

// boardView is what of the board the drawing shows, but for what follows from
// the findings.
func (m *Model) boardView() sheet.View {
	v := sheet.View{
		Cols: m.areas.board.w, Rows: m.areas.board.h, Lineup: m.lineupNow().Name, Selected: m.selected, ASCII: m.opt.ASCII,
		Plugs: m.show.plugs, Switches: m.show.switches, Slots: m.show.slots, Fastener: m.show.fastener,
		Surface: m.camera.surface, Below: m.camera.below, Step: m.camera.step, Middle: m.camera.middle,
	}
	if m.mode == pairing {
		v.Other = m.other
	}
	if m.held != 0 {
		v.Was = m.was
	}
	return v
}

// drawing returns the drawing of the board, made once for a plan and a view.
func (m *Model) drawing() *sheet.Grid {
	v, s := m.boardView(), m.look()
	now := drawn{s.plan, m.what(), m.lineup, v}
	if s.grid == nil || !now.same(&s.gridOf) {
		s.gridOf = now
		v.Faulty = s.faulty[min(m.lineup, len(s.faulty)-1)]
		v.Caption, v.Pieces, v.Before = m.caption(), m.bedding.pieces(), m.stoodBefore()
		s.grid = sheet.Redraw(s.grid, m.plan(), v)
	}
	return s.grid
}

// what is on screen: the plan, or something that is only tried.
type what int

const (
	itself what = iota
	unitsTried
	boardsTried
)

func (m *Model) what() what {
	switch {
	case m.onTrial():
		return unitsTried
	case m.onBoards():
		return boardsTried
	}
	return itself
}

// stoodBefore is where units stood that what is tried moves or takes away.
func (m *Model) stoodBefore() []layout.Standing {
	if m.onTrial() {
		return m.beforeTrial()
	}
	return nil
}

// sameView compares views without their faulty units, their captions and where units stood before, which
// follow from the plan, the line-up and the rest of the view.
func sameView(a, b sheet.View) bool {
	return a.Cols == b.Cols && a.Rows == b.Rows && a.Lineup == b.Lineup && a.Selected == b.Selected && a.ASCII == b.ASCII &&
		a.Plugs == b.Plugs && a.Switches == b.Switches && a.Slots == b.Slots && a.Fastener == b.Fastener &&
		a.Surface == b.Surface && a.Below == b.Below && a.Step == b.Step && (a.Step == 0 || a.Middle == b.Middle) &&
		a.Other == b.Other && a.Was == b.Was
}

// boardLines paints the drawing. Neighbouring cells of one style are written
// in one go.
func (m *Model) boardLines() []string {
	g := m.drawing()
	t, dims := m.traced(g), m.measures(g)
	out := make([]string, g.H)
	var b, run strings.Builder
	for r := range g.H {
		b.Reset()
		var now paint
		for i := r * g.W; i < (r+1)*g.W; i++ {
			text, p := " ", paint{}
			if cell := &g.Cells[i]; cell.Mark != sheet.Blank || cell.Text != " " || dims != nil || t != nil && t.cells[i].id != 0 {
				text, p = m.painted(g, i, t, dims)
			}
			if p != now {
				b.WriteString(now.over(run.String()))
				run.Reset()
				now = p
			}
			run.WriteString(text)
		}
		b.WriteString(now.over(run.String()))
		run.Reset()
		out[r] = b.String()
	}
	return out
}

// painted is what a cell of the screen shows: a distance, a run or the drawing.
func (m *Model) painted(g *sheet.Grid, i int, t *trace, dims map[int]string) (string, paint) {
	cell := &g.Cells[i]
	if text, ok := dims[i]; ok {
		return text, m.styles.measure
	}
	if t != nil && cell.Text != "" {
		if text, p := t.over(i, cell, m.styles); text != "" {
			return text, p
		}
	}
	p := m.styles.marks[cell.Mark]
	if cell.Mark == sheet.Label && cell.Unit == m.selected && m.selected != "" {
		p = m.styles.chosenLabel
	} else if cell.Text == " " {
		p = paint{}
	}
	return cell.Text, p
}

// header is the plan's title and the line-ups with their verdicts.
func (m *Model) header() string {
	if m.beginning() {
		return fit("", m.w, "")
	}
	tabs, start := m.tabs()
	title := m.headTitle()
	if doors, _ := m.doorLine(cells(title)+doorGap, start); doors != "" {
		title += strings.Repeat(" ", doorGap) + doors
	}
	return fit(title, start, m.styles.sign.ellipsis) + tabs
}

// headTitle is the plan's title, and whether it is saved.
func (m *Model) headTitle() string {
	p := m.plan()
	title := " " + m.styles.title.over(m.ascii(clean(p.Title)))
	if p.Title == "" {
		title = " " + m.styles.title.over("footplank")
	}
	switch {
	case m.saving:
		title += m.styles.quiet.over("  saving")
	case m.history.Dirty():
		title += m.styles.caution.over("  not saved")
	}
	return title
}

// tab is one line-up in the header.
type tab struct {
	text   string // without styles
	styled string
	lineup int
}

// tabs returns the line-ups as the header shows them at its right end, and the
// column that they start at. Where not all fit, those around the one on screen
// are shown.
func (m *Model) tabs() (styled string, start int) {
	all, first, last := m.tabSpan()
	width := 0
	for _, t := range all[first:last] {
		styled += t.styled
		width += cells(t.text)
	}
	if more := len(all) - (last - first); more > 0 {
		s := " +" + digits(more) + " "
		styled += m.styles.quiet.over(s)
		width += cells(s)
	}
	return styled, max(m.w-width, 0)
}

func (m *Model) tabSpan() (all []tab, first, last int) {
	room := m.w * 2 / 3
	all = make([]tab, len(m.seen.results))
	for i, r := range m.seen.results {
		all[i] = m.tab(i, &r, room/3)
	}
	first, last = m.lineup, m.lineup+1
	used := cells(all[m.lineup].text) + 6
	for grown := true; grown; {
		grown = false
		if last < len(all) && used+cells(all[last].text) <= room {
			used += cells(all[last].text)
			last++
			grown = true
		}
		if first > 0 && used+cells(all[first-1].text) <= room {
			first--
			used += cells(all[first].text)
			grown = true
		}
	}
	return all, first, last
}

func (m *Model) tab(i int, r *check.Result, room int) tab {
	name := m.ascii(clean(r.Lineup))
	if cells(name) > room {
		name = fit(name, room, m.styles.sign.ellipsis)
	}
	mark, styledMark := m.verdictMark(r)
	if i == m.lineup {
		name = "[" + name + "]"
		return tab{" " + name + mark + " ", " " + m.styles.chosen.over(name) + styledMark + " ", i}
	}
	return tab{" " + name + mark + " ", " " + name + styledMark + " ", i}
}

// verdictMark is what a line-up's tab says of it: "!2 ~1 ?3" for two faults,
// one caution and three units without a place.
func (m *Model) verdictMark(r *check.Result) (plain, styled string) {
	faults, cautions, unplaced := counts(r)
	s := &m.styles.sign
	add := func(p paint, text string) {
		plain += " " + text
		styled += " " + p.over(text)
	}
	if faults > 0 {
		add(m.styles.fault, s.fault+digits(faults))
	}
	if unplaced > 0 {
		add(m.styles.fault, s.empty+digits(unplaced))
	}
	if cautions > 0 {
		add(m.styles.caution, s.caution+digits(cautions))
	}
	if faults+unplaced == 0 {
		add(m.styles.good, s.good)
	}
	return plain, styled
}

func counts(r *check.Result) (faults, cautions, unplaced int) {
	for i := range r.Findings {
		switch f := &r.Findings[i]; {
		case f.Code == check.NoPlace:
			unplaced++
		case f.Level == check.Fault:
			faults++
		case f.Level == check.Caution:
			cautions++
		}
	}
	return faults, cautions, unplaced
}

// tabAt returns the line-up whose tab is at a column, or -1.
func (m *Model) tabAt(x int) int {
	m.look()
	_, at := m.tabs()
	all, first, last := m.tabSpan()
	for _, t := range all[first:last] {
		n := cells(t.text)
		if x >= at && x < at+n {
			return t.lineup
		}
		at += n
	}
	return -1
}

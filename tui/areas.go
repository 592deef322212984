package tui

// The least terminal that everything fits into.
const (
	leastWidth  = 80
	leastHeight = 24
)

// span names the breakpoints: how the screen is divided.
type span int

const (
	tooSmall span = iota
	compact       // board and list of units; the selected unit below in two lines
	roomy         // and a panel for the selected unit, and a list of findings
	wide          // list and panel on either side of the board
)

// Where the breakpoints lie: roomy and wide want at least so many columns and
// rows.
const (
	roomyWidth, roomyHeight = 110, 32
	wideWidth, wideHeight   = 216, 42
)

// area is a rectangle of the screen, in cells.
type area struct{ x, y, w, h int }

func (a area) holds(x, y int) bool { return x >= a.x && y >= a.y && x < a.x+a.w && y < a.y+a.h }

// areas is the screen cut up. A part that a span does not have is empty.
type areas struct {
	span     span
	header   area // one line: plan and line-ups
	board    area
	list     area // units of the line-up
	detail   area // the selected unit
	findings area
	says     area // question, progress, message
	hints    area // one line: what keys do
}

// divide cuts a screen of w by h cells. The parts never overlap and never
// leave the screen.
func divide(w, h int) areas {
	if w < leastWidth || h < leastHeight {
		return areas{}
	}
	a := areas{span: compact, header: area{0, 0, w, 1}, hints: area{0, h - 1, w, 1}}
	switch {
	case w >= wideWidth && h >= wideHeight:
		a.span = wide
	case w >= roomyWidth && h >= roomyHeight:
		a.span = roomy
	}
	if a.span == compact {
		// The board is deeper than wide screens are high: rows are what it
		// lacks, so the list stands beside it.
		side := min(20+(w-leastWidth)/3, 34)
		a.says = area{0, h - 3, w, 2}
		a.detail = area{0, h - 5, w, 2}
		body := h - 6
		a.board = area{0, 1, w - side, body}
		a.list = area{w - side, 1, side, body}
		return a
	}
	found := min(4+(h-roomyHeight)/9, 8) // a line for each of a few findings; the board needs the rows more
	a.says = area{0, h - 2, w, 1}
	body := h - 3 - found
	a.findings = area{0, 1 + body, w, found}
	if a.span == wide {
		left, right := 30, min(46+(w-wideWidth)/8, 60)
		a.list = area{0, 1, left, body}
		a.board = area{left, 1, w - left - right, body}
		a.detail = area{w - right, 1, right, body}
		return a
	}
	// One column for both: boards are wider than deep, and so is what is left.
	side := min(32+(w-roomyWidth)/5, 46)
	list := body - min(max(body/2, 15), 26)
	a.board = area{0, 1, w - side, body}
	a.list = area{w - side, 1, side, list}
	a.detail = area{w - side, 1 + list, side, body - list}
	return a
}

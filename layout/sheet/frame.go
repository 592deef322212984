package sheet

import "footplank/layout"

// frame maps the board to cells.
type frame struct {
	win  layout.Rect   // the part of the board shown
	step layout.Length // of the board per column; a row shows two
	// The cells that show the window; rulers and the board's outline may
	// stand around them.
	col0, row0, cols, rows int
	mirror                 bool // seen from below: x runs to the left
}

// flip is where x is drawn: mirrored within the window when seen from below.
func (f *frame) flip(x layout.Length) layout.Length {
	if f.mirror {
		return f.win.X0 + f.win.X1 - x
	}
	return x
}

// tame keeps coordinates so small that nothing computed from them overflows.
func tame(l layout.Length) layout.Length {
	const far = 1 << 40 // micrometres, a thousand kilometres
	return min(max(l, -far), far)
}

func floorDiv(a, b layout.Length) layout.Length {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// ceilDiv is for a >= 0, b > 0.
func ceilDiv(a, b layout.Length) layout.Length { return (a + b - 1) / b }

// margins are the cells kept free around the board for outline and rulers.
type margins struct{ left, right, top, bottom int }

// newFrame finds the largest scale at which win fits into the cells that the
// margins leave, and centres it there.
func newFrame(win layout.Rect, w, h int, m margins) frame {
	win = layout.Rect{X0: tame(win.X0), Y0: tame(win.Y0), X1: tame(win.X1), Y1: tame(win.Y1)}
	win.X1, win.Y1 = max(win.X1, win.X0+1), max(win.Y1, win.Y0+1)
	cols, rows := max(w-m.left-m.right, 1), max(h-m.top-m.bottom, 1)
	step := max(ceilDiv(win.W(), layout.Length(cols)), ceilDiv(win.D(), 2*layout.Length(rows)))
	f := frame{win: win, step: step}
	f.cols = int(min(ceilDiv(win.W(), step), layout.Length(cols)))
	f.rows = int(min(ceilDiv(win.D(), 2*step), layout.Length(rows)))
	f.col0 = m.left + (cols-f.cols)/2
	f.row0 = m.top + (rows-f.rows)/2
	return f
}

// leastStep is the closest look there is: a tenth of a millimetre per column.
const leastStep = layout.Millimetre / 10

// frameAt is the frame of a given scale that fills the cells which the margins
// leave. Cells begin at multiples of the step, so that nothing trembles while
// the drawing is moved.
func frameAt(middle layout.Point, step layout.Length, w, h int, m margins) frame {
	step = min(max(step, leastStep), 1<<40)
	f := frame{step: step, col0: m.left, row0: m.top, cols: max(w-m.left-m.right, 1), rows: max(h-m.top-m.bottom, 1)}
	c, r := layout.Length(f.cols), layout.Length(f.rows)
	f.win.X0 = floorDiv(tame(middle.X)-c*step/2, step) * step
	f.win.X1 = f.win.X0 + c*step
	f.win.Y1 = floorDiv(tame(middle.Y)+r*step, 2*step) * 2 * step
	f.win.Y0 = f.win.Y1 - 2*r*step
	return f
}

func (f *frame) inside(col, row int) bool {
	return col >= f.col0 && row >= f.row0 && col < f.col0+f.cols && row < f.row0+f.rows
}

// col returns the column that begins nearest to x, row the row whose upper
// edge is nearest to y.
func (f *frame) col(x layout.Length) int {
	return f.col0 + int(floorDiv(2*(f.flip(tame(x))-f.win.X0)+f.step, 2*f.step))
}

func (f *frame) row(y layout.Length) int {
	return f.row0 + int(floorDiv(f.win.Y1-tame(y)+f.step, 2*f.step))
}

// area is a block of cells: columns c0 up to but not c1, rows r0 up to but not
// r1. It may lie outside the grid.
type area struct{ c0, r0, c1, r1 int }

func (a area) w() int { return a.c1 - a.c0 }
func (a area) h() int { return a.r1 - a.r0 }

func (a area) has(col, row int) bool {
	return col >= a.c0 && row >= a.r0 && col < a.c1 && row < a.r1
}

func (a area) clip(b area) area {
	return area{max(a.c0, b.c0), max(a.r0, b.r0), min(a.c1, b.c1), min(a.r1, b.r1)}
}

// area returns the cells of a rectangle, at least one each way.
func (f *frame) area(r layout.Rect) area {
	if f.mirror {
		r.X0, r.X1 = f.win.X0+f.win.X1-tame(r.X1), f.win.X0+f.win.X1-tame(r.X0)
	}
	return f.areaSeen(r)
}

// areaSeen is area for a rectangle that is mirrored already where it must be.
func (f *frame) areaSeen(r layout.Rect) area {
	col := func(x layout.Length) int { return f.col0 + int(floorDiv(2*(tame(x)-f.win.X0)+f.step, 2*f.step)) }
	a := area{col(r.X0), f.row(r.Y1), col(r.X1), f.row(r.Y0)}
	if a.c1 <= a.c0 {
		a.c0 = f.col0 + int(floorDiv(tame(r.X0)-f.win.X0, f.step))
		a.c1 = a.c0 + 1
	}
	if a.r1 <= a.r0 {
		a.r0 = f.row0 + int(floorDiv(f.win.Y1-tame(r.Y1), 2*f.step))
		a.r1 = a.r0 + 1
	}
	return a
}

// shown returns the cells that show the window.
func (f *frame) shown() area {
	return area{f.col0, f.row0, f.col0 + f.cols, f.row0 + f.rows}
}

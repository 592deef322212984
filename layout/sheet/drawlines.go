package sheet

import (
	"strconv"

	"footplank/layout"
	"footplank/layout/wiring"
)

// cables draws cables as straight lines over what is empty. With braille
// characters a cell has two dots across and four down, and so a dot is square;
// without them each cell of a line shows its slope.
func (a *artist) cables(cs []wiring.Cable) {
	dots := make([]uint8, len(a.g.Cells))
	for i := range cs {
		path := cs[i].Path
		for k := 1; k < len(path); k++ {
			a.cable(path[k-1], path[k], dots)
		}
	}
	if !a.gl.braille {
		return
	}
	for i, d := range dots {
		if d != 0 && a.cableMayCross(i) {
			a.g.put(i%a.g.W, i/a.g.W, brailleOf[d], CableMark, "")
		}
	}
}

// cableMayCross reports whether a cable may be drawn in the cell.
func (a *artist) cableMayCross(i int) bool {
	switch a.g.Cells[i].Mark {
	case Blank, RailFill, RiserEdge, SlotEdge, SweepMark, CableMark:
		return true
	}
	return false
}

// brailleBits is the dot of each place of a braille cell, row by row.
var brailleBits = [4][2]uint8{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// brailleOf is the character of each set of dots, as strings so that drawing
// allocates none.
var brailleOf = func() (t [256]string) {
	for i := range t {
		t[i] = string(rune(0x2800 + i))
	}
	return t
}()

// cable sets the dots of one straight piece.
func (a *artist) cable(from, to wiring.Point3, dots []uint8) {
	f := a.f
	half := float64(f.step) / 2
	x0, y0 := float64(f.flip(tame(from.X))-f.win.X0)/half, float64(f.win.Y1-tame(from.Y))/half
	x1, y1 := float64(f.flip(tame(to.X))-f.win.X0)/half, float64(f.win.Y1-tame(to.Y))/half
	x0, y0, x1, y1, ok := clipLine(x0, y0, x1, y1, float64(2*f.cols), float64(4*f.rows))
	if !ok {
		return
	}
	slope := a.slope(x1-x0, y1-y0)
	n := int(max(abs(x1-x0), abs(y1-y0))) + 1
	for i := 0; i <= n; i++ {
		t := float64(i) / float64(n)
		x := min(int(x0+(x1-x0)*t), 2*f.cols-1)
		y := min(int(y0+(y1-y0)*t), 4*f.rows-1)
		c, r := f.col0+x/2, f.row0+y/4
		if c >= a.g.W || r >= a.g.H {
			continue
		}
		k := r*a.g.W + c
		if a.gl.braille {
			dots[k] |= brailleBits[y%4][x%2]
		} else if a.cableMayCross(k) {
			a.g.put(c, r, slope, CableMark, "")
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

// slope returns the character for a line that goes dx to the right and dy
// down, both in squares.
func (a *artist) slope(dx, dy float64) string {
	switch {
	case abs(dy) < abs(dx)/2:
		return a.gl.level
	case abs(dx) < abs(dy)/4:
		return a.gl.upright
	case (dx > 0) == (dy > 0):
		return a.gl.fall
	}
	return a.gl.rise
}

// clipLine cuts a line to the rectangle from 0,0 to w,h (Liang and Barsky's
// way: each edge narrows the stretch of the line that is inside).
func clipLine(x0, y0, x1, y1, w, h float64) (a, b, c, d float64, ok bool) {
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{x0 - x1, x0}, {x1 - x0, w - x0}, {y0 - y1, y0}, {y1 - y0, h - y0}} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return 0, 0, 0, 0, false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	if t0 > t1 {
		return 0, 0, 0, 0, false
	}
	in := func(v, hi float64) float64 { return min(max(v, 0), hi) }
	return in(x0+(x1-x0)*t0, w), in(y0+(y1-y0)*t0, h), in(x0+(x1-x0)*t1, w), in(y0+(y1-y0)*t1, h), true
}

// tick spacings in micrometres, rising.
var (
	metricTicks = []layout.Length{1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000, 200_000, 500_000, 1_000_000, 5_000_000, 20_000_000, 100_000_000}
	inchTicks   = []layout.Length{25_400 / 4, 25_400 / 2, 25_400, 2 * 25_400, 4 * 25_400, 6 * 25_400, 12 * 25_400, 24 * 25_400, 120 * 25_400, 1200 * 25_400, 4800 * 25_400}
)

// ticks returns the first spacing of which apart cells of size cell hold one.
func (a *artist) ticks(cell layout.Length, apart int) layout.Length {
	list := metricTicks[a.fine(3):]
	if a.p.Measure() == layout.Inches {
		list = inchTicks[a.fine(2):]
	}
	for _, t := range list {
		if t >= cell*layout.Length(apart) {
			return t
		}
	}
	return list[len(list)-1]
}

// fine returns how many of the finest ticks to leave out: all n of them, but
// for a close look.
func (a *artist) fine(n int) int {
	if a.v.Step > 0 {
		return 0
	}
	return n
}

func (a *artist) number(l layout.Length) string {
	if a.p.Measure() == layout.Inches {
		return l.Number(layout.Inches)
	}
	return strconv.FormatInt(int64(l/layout.Millimetre), 10)
}

// rulerWidth returns the cells that the numbers at the left edge take.
func (a *artist) rulerWidth(win layout.Rect) int {
	whole := func(l layout.Length) int { // of tick numbers, without fractions
		if a.p.Measure() == layout.Inches {
			return len(a.number(tame(l) / layout.Inch * layout.Inch))
		}
		return len(a.number(tame(l)))
	}
	w := max(whole(win.Y1), whole(win.Y0), 2)
	if a.p.Measure() == layout.Inches && a.v.Step > 0 && a.ticks(2*a.v.Step, 2) < layout.Inch {
		w += len(" 3/4")
	}
	return min(w, 8)
}

// rulers draws the scales: along x in the row below the window, along y left
// of it, both from the board's front-left corner.
func (a *artist) rulers() {
	f := a.f
	row := f.row0 + f.rows
	every := a.ticks(f.step, 6)
	last := f.col0 - 1
	x0 := every * -floorDiv(-f.win.X0, every)
	n := floorDiv(f.win.X1-x0, every)
	for i := range max(n+1, 0) {
		x := x0 + every*i
		if f.mirror {
			x = x0 + every*(n-i)
		}
		c := f.col(x)
		s := a.gl.tick + a.number(x)
		if c > last && c+len(a.number(x)) < a.g.W {
			last = c + a.g.write(c, row, s, Ruler, "")
		}
	}
	if s := string(a.p.Measure()); last+2 <= a.g.W-len(s) {
		a.g.write(min(last+1, a.g.W-len(s)), row, s, Ruler, "")
	}
	every = a.ticks(2*f.step, 2)
	for y := every * -floorDiv(-f.win.Y0, every); y <= f.win.Y1; y += every {
		r := f.row(y) - 1 // the row that begins at y and goes up
		if y == f.win.Y1 {
			r = f.row0
		}
		s := a.number(y)
		if c := f.col0 - 1 - len(s); c >= 0 && r >= f.row0 && r < row {
			a.g.write(c, r, s, Ruler, "")
		}
	}
}

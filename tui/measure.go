package tui

import (
	"footplank/layout"
	"footplank/layout/sheet"
	"footplank/tui/edit"
)

// measures are the distances from the unit that is being moved to what lies
// next in each direction, as text in the cells of the drawing between the two.
// A gap too narrow for its number shows in the panel only.
//
//	┌──────┐            ┌──────┐
//	│ unit │←────27────→│ next │
//	└──────┘            └──────┘
func (m *Model) measures(g *sheet.Grid) map[int]string {
	u := m.unit()
	if u == nil || m.held == 0 && !m.moved {
		return nil
	}
	out := map[int]string{}
	for dir, c := range m.around(u) {
		if c == nil || c.Gap == 0 || c.Out {
			continue
		}
		n := measure{grid: g, out: out, text: m.length(c.Gap), s: &m.styles.sign}
		if d := layout.Wall(dir); d == layout.Left || d == layout.Right {
			n.level(c)
		} else {
			n.upright(c)
		}
	}
	return out
}

// measure writes one distance into cells.
type measure struct {
	grid *sheet.Grid
	out  map[int]string
	text string
	s    *signs
}

// between returns the cells at both ends of a gap, both within it.
func (n *measure) between(c *edit.Contact) (c0, r0, c1, r1 int) {
	in := func(a, b layout.Length) (layout.Length, layout.Length) {
		switch {
		case a < b:
			return a, b - 1
		case a > b:
			return a - 1, b
		}
		return a, b
	}
	x0, x1 := in(c.From.X, c.To.X)
	y0, y1 := in(c.From.Y, c.To.Y)
	c0, r0, _ = n.grid.Cell(layout.Point{X: x0, Y: y0})
	c1, r1, _ = n.grid.Cell(layout.Point{X: x1, Y: y1})
	return min(c0, c1), min(r0, r1), max(c0, c1), max(r0, r1)
}

// level is a distance from left to right: arrows to both ends where there is
// room for them.
func (n *measure) level(c *edit.Contact) {
	c0, r, c1, _ := n.between(c)
	c0, c1 = max(c0, 0), min(c1, n.grid.W-1)
	room, w := c1-c0+1, cells(n.text)
	if room < w {
		return
	}
	at := c0 + (room-w)/2
	if !n.write(at, r, n.text) || room < w+2 {
		return
	}
	for i := c0; i <= c1; i++ {
		switch {
		case i == c0:
			n.put(i, r, n.s.left)
		case i == c1:
			n.put(i, r, n.s.right)
		case i < at || i >= at+w:
			n.put(i, r, n.s.rule)
		}
	}
}

// upright is a distance from front to back: the number in the middle row.
func (n *measure) upright(c *edit.Contact) {
	col, r0, _, r1 := n.between(c)
	r0, r1 = max(r0, 0), min(r1, n.grid.H-1)
	if r1 < r0 {
		return
	}
	mid := (r0 + r1) / 2
	if !n.write(col-cells(n.text)/2, mid, n.text) {
		return
	}
	for r := r0; r <= r1; r++ {
		switch {
		case r == mid:
		case r == r0:
			n.put(col, r, n.s.up)
		case r == r1:
			n.put(col, r, n.s.down)
		default:
			n.put(col, r, n.s.bar)
		}
	}
}

// write puts text where it covers no word; it is all or nothing.
func (n *measure) write(c, r int, text string) bool {
	for i := range text { // digits, points and fractions: one byte a cell
		if !n.clear(c+i, r) {
			return false
		}
	}
	for i := range text {
		n.out[r*n.grid.W+c+i] = text[i : i+1]
	}
	return true
}

func (n *measure) put(c, r int, text string) {
	if n.clear(c, r) {
		n.out[r*n.grid.W+c] = text
	}
}

func (n *measure) clear(c, r int) bool {
	if !n.grid.Shown(c, r) {
		return false
	}
	cell := n.grid.At(c, r)
	free := cell.Unit == "" || cell.Mark == sheet.PlugMark || cell.Mark == sheet.SweepMark
	return free && cell.Text != "" && cell.Mark != sheet.BoardEdge && shows(cell.Mark)
}

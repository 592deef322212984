package tui

import (
	"footplank/layout"
	"footplank/layout/route"
	"footplank/layout/sheet"
)

// The ways out of a cell that a run takes, for indexing the tables of
// characters. touched is set for every cell of a run.
const (
	up uint8 = 1 << iota
	right
	down
	left
	touched
)

// lineSet is the characters of one style of run, by the ways out of the cell.
type lineSet [16]string

// The styles tell audio, power and the chosen run apart without colour: thin
// lines with round corners, dotted lines, heavy lines. Units have none of them
// with round corners or dots.
var (
	audioLines  = lineSet{"─", "╵", "╶", "╰", "╷", "│", "╭", "├", "╴", "╯", "─", "┴", "╮", "┤", "┬", "┼"}
	chosenLines = lineSet{"━", "╹", "╺", "┗", "╻", "┃", "┏", "┣", "╸", "┛", "━", "┻", "┓", "┫", "┳", "╋"}
	powerLines  = dots()

	plainAudio  = lineSet{"-", "|", "-", `\`, "|", "|", "/", "+", "-", "/", "-", "+", `\`, "+", "+", "+"}
	plainPower  = all("*")
	plainChosen = all("@")
)

// dots makes a dotted line of braille characters: the middle row, and the left
// column of dots.
func dots() (s lineSet) {
	for i := range s {
		r := rune(0x2800)
		for way, bits := range [4]rune{0x03, 0x12, 0x46, 0x02} {
			if i>>way&1 == 1 {
				r |= bits
			}
		}
		if i == 0 {
			r |= 0x12
		}
		s[i] = string(r)
	}
	return s
}

func all(c string) (s lineSet) {
	for i := range s {
		s[i] = c
	}
	return s
}

// trace is the runs drawn over a board, a cell of it for each of the grid's.
type trace struct {
	cells []traced
	ids   []string // of the runs
	close bool     // a part of the board: runs end where the drawing of it does
}

type traced struct {
	ways [3]uint8 // by style
	end  bool     // of the chosen run
	id   int16    // 1 + index of the run that a click means
}

// style is how a run is drawn; the greater covers the less.
type style int

const (
	powerStyle style = iota
	audioStyle
	chosenStyle
)

// clear makes the trace an empty one for the grid, in the memory it has.
func (t *trace) clear(g *sheet.Grid) {
	if n := g.W * g.H; cap(t.cells) < n {
		t.cells = make([]traced, n)
	} else {
		t.cells = t.cells[:n]
		clear(t.cells)
	}
	t.ids = t.ids[:0]
}

// run draws a run along its path. Straight estimates may go aslant: they become
// stairs.
func (t *trace) run(g *sheet.Grid, path []route.Point3, s style, id string) {
	t.ids = append(t.ids, id)
	for i := 1; i < len(path); i++ {
		c0, r0 := cellOf(g, path[i-1])
		c1, r1 := cellOf(g, path[i])
		t.touch(g, c0, r0, s, touched)
		steps := max(dist(c0, c1), dist(r0, r1))
		c, r := c0, r0
		for k := 1; k <= steps; k++ {
			nc, nr := c0+(c1-c0)*k/steps, r0+(r1-r0)*k/steps
			if nc != c {
				t.step(g, c, r, nc, r, s)
			}
			if nr != r {
				t.step(g, nc, r, nc, nr, s)
			}
			c, r = nc, nr
		}
	}
	if s == chosenStyle && len(path) > 0 {
		for _, p := range []route.Point3{path[0], path[len(path)-1]} {
			c, r := cellOf(g, p)
			if at := t.at(g, c, r); at != nil {
				at.end = true
				at.ways[s] |= touched // also where the plugs' tips meet and nothing lies between
				at.id = int16(len(t.ids))
			}
		}
	}
}

func dist(a, b int) int { return max(a-b, b-a) }

// cellOf is the cell of a place, which may lie outside the grid.
func cellOf(g *sheet.Grid, p route.Point3) (c, r int) {
	const far = 4000 // cells beyond any screen, and few enough to step through
	c, r, _ = g.Cell(layout.Point{X: p.X, Y: p.Y})
	return min(max(c, -far), far), min(max(r, -far), far)
}

func (t *trace) at(g *sheet.Grid, c, r int) *traced {
	if c < 0 || r < 0 || c >= g.W || r >= g.H || t.close && !g.Shown(c, r) {
		return nil
	}
	return &t.cells[r*g.W+c]
}

// runAt returns the ID of a run that is drawn in a cell, "" for none.
func (t *trace) runAt(g *sheet.Grid, c, r int) string {
	if at := t.at(g, c, r); at != nil && at.id > 0 {
		return t.ids[at.id-1]
	}
	return ""
}

// step draws from a cell to its neighbour.
func (t *trace) step(g *sheet.Grid, c0, r0, c1, r1 int, s style) {
	out, in := right, left
	switch {
	case c1 < c0:
		out, in = left, right
	case r1 < r0:
		out, in = up, down
	case r1 > r0:
		out, in = down, up
	}
	t.touch(g, c0, r0, s, out|touched)
	t.touch(g, c1, r1, s, in|touched)
}

func (t *trace) touch(g *sheet.Grid, c, r int, s style, ways uint8) {
	if at := t.at(g, c, r); at != nil {
		at.ways[s] |= ways
		at.id = int16(len(t.ids))
	}
}

// over returns what stands in a cell instead of what the drawing has there, ""
// to leave it. A run is seen where nothing lies on it; the chosen one shows
// through plugs, outlines and the insides of units, but never covers a word.
func (t *trace) over(i int, cell *sheet.Cell, s *styles) (text string, p paint) {
	at := &t.cells[i]
	if at.ways[chosenStyle] != 0 && shows(cell.Mark) {
		if at.end {
			return s.sign.end, s.chosenRun
		}
		return s.chosenLines[at.ways[chosenStyle]&15], s.chosenRun
	}
	if !free(cell) {
		return "", paint{}
	}
	switch {
	case at.ways[audioStyle] != 0:
		return s.audioLines[at.ways[audioStyle]&15], s.audioRun
	case at.ways[powerStyle] != 0:
		return s.powerLines[at.ways[powerStyle]&15], s.powerRun
	}
	return "", paint{}
}

// free reports whether a run may be seen in a cell: on the bare board, and under
// a treadle's sweep.
func free(c *sheet.Cell) bool {
	switch c.Mark {
	case sheet.Blank, sheet.RailFill, sheet.RiserEdge, sheet.SlotEdge:
		return c.Unit == ""
	case sheet.SweepMark:
		return true
	}
	return false
}

// shows reports whether the chosen run is seen in a cell.
func shows(m sheet.Mark) bool {
	switch m {
	case sheet.Label, sheet.GhostLabel, sheet.AreaName, sheet.Ruler, sheet.TurnMark, sheet.SwitchMark:
		return false
	}
	return true
}

package sheet

import (
	"strings"

	"footplank/layout"
)

// Mark is what a cell of a drawing shows; whoever shows the drawing gives each
// a style.
type Mark uint8

// The marks. An edge's class names the foremost state of its unit: selected,
// else the second of two, else faulty, else pinned, else its mount.
const (
	Blank Mark = iota
	BoardEdge
	RailFill
	RiserEdge
	SlotEdge
	FixtureFill
	FixedEdge
	SwapEdge
	PinnedEdge
	FaultEdge
	SelectedEdge
	OtherEdge // of the second unit
	WasEdge   // where the selected unit stood before
	GhostEdge // of a unit beneath the riser, or on another surface than the one viewed
	Label
	GhostLabel
	AreaName // of a slot, a riser or a fixture
	PlugMark
	SweepMark
	SwitchMark
	CableMark
	TurnMark
	InterlockMark // fastener of fixed units
	HookMark      // and of swap units
	FootMark      // of the board, on its underside
	Caption
	Ruler
	markCount
)

// Cell is one character of a drawing.
type Cell struct {
	// Text is one grapheme, a space where there is nothing, and "" for the
	// right half of a wide one.
	Text string
	Mark Mark
	Unit string // ID of the unit that the cell belongs to, or ""
}

// Grid is a drawing: H rows of W cells, row 0 at the back of the board.
type Grid struct {
	W, H  int
	Cells []Cell
	frame frame
}

// At returns the cell in that column and row; outside the grid a blank one.
func (g *Grid) At(col, row int) Cell {
	if col < 0 || row < 0 || col >= g.W || row >= g.H {
		return Cell{Text: " "}
	}
	return g.Cells[row*g.W+col]
}

// Lines returns the rows as text, each as wide as the grid.
func (g *Grid) Lines() []string {
	out := make([]string, g.H)
	var b strings.Builder
	for r := range out {
		b.Reset()
		for _, c := range g.Cells[r*g.W : (r+1)*g.W] {
			b.WriteString(c.Text)
		}
		out[r] = b.String()
	}
	return out
}

// Point returns the place on the board under the middle of a cell. Cells
// outside the grid are fine: the board's plane goes on.
func (g *Grid) Point(col, row int) layout.Point {
	f := &g.frame
	return layout.Point{
		X: f.flip(f.win.X0 + f.step*layout.Length(2*(col-f.col0)+1)/2),
		Y: f.win.Y1 - f.step*layout.Length(2*(row-f.row0)+1),
	}
}

// Cell returns the column and row that a place on the board is drawn in, and
// whether that cell is within the drawn part of the board.
func (g *Grid) Cell(p layout.Point) (col, row int, ok bool) {
	f := &g.frame
	x := f.flip(tame(p.X)) - f.win.X0
	if f.mirror {
		x-- // a column goes up to its right edge and not to its left one, seen from above
	}
	col = f.col0 + int(floorDiv(x, f.step))
	// A row goes down to its lower edge and not up to its upper one.
	row = f.row0 + int(floorDiv(f.win.Y1-tame(p.Y)-1, 2*f.step))
	return col, row, f.inside(col, row)
}

// Shown reports whether a cell is in the drawn part of the board: not outside
// the grid, in a ruler or around the board.
func (g *Grid) Shown(col, row int) bool { return g.frame.inside(col, row) }

// Step returns how much of the board one column and one row show.
func (g *Grid) Step() (column, row layout.Length) { return g.frame.step, 2 * g.frame.step }

// Window returns the part of the board that the drawing shows.
func (g *Grid) Window() layout.Rect { return g.frame.win }

func newGrid(old *Grid, w, h int) *Grid {
	w, h = min(max(w, 1), maxCells), min(max(h, 1), maxCells)
	g := &Grid{W: w, H: h}
	if old != nil && cap(old.Cells) >= w*h {
		g.Cells = old.Cells[:w*h]
		old.Cells, old.W, old.H = nil, 0, 0
	} else {
		g.Cells = make([]Cell, w*h)
	}
	blank := Cell{Text: " "}
	for i := range g.Cells {
		g.Cells[i] = blank
	}
	return g
}

// maxCells bounds the width and the height of a drawing; no terminal has more.
const maxCells = 2000

// put writes a grapheme one cell wide. Writing over half of a wide one blanks
// its other half.
func (g *Grid) put(col, row int, text string, m Mark, unit string) {
	if col < 0 || row < 0 || col >= g.W || row >= g.H {
		return
	}
	i := row*g.W + col
	g.split(i, col)
	g.Cells[i] = Cell{text, m, unit}
}

// split blanks the other half of a wide grapheme at cell i.
func (g *Grid) split(i, col int) {
	if g.Cells[i].Text == "" && col > 0 {
		g.Cells[i-1].Text = " "
	}
	if col+1 < g.W && g.Cells[i+1].Text == "" {
		g.Cells[i+1].Text = " "
	}
}

// write writes text from a cell on and returns how many cells it took. What
// does not fit into the row is left out.
func (g *Grid) write(col, row int, text string, m Mark, unit string) int {
	start := col
	eachGrapheme(text, func(s string, w int) bool {
		if w < 1 || w > 2 || col+w > g.W {
			return col+w <= g.W
		}
		g.put(col, row, s, m, unit)
		if w == 2 {
			g.put(col+1, row, " ", m, unit)
			if row >= 0 && row < g.H && col >= 0 {
				g.Cells[row*g.W+col] = Cell{s, m, unit}
				g.Cells[row*g.W+col+1] = Cell{"", m, unit}
			}
		}
		col += w
		return true
	})
	return col - start
}

package paper

import (
	"cmp"
	"fmt"
	"slices"

	"footplank/layout"
)

// Tile is one page's part of a drawing.
type Tile struct {
	Name     string // column as a letter from the left, row from the top: "A1"
	Col, Row int
	Window   layout.Rect // of the drawing
	Skipped  bool        // shows nothing that is needed and that no other shows
}

// Grid is how a drawing is cut.
type Grid struct {
	Paper      Size // as it lies
	Cols, Rows int
	Tiles      []Tile        // row by row
	whole      int           // how many of what is needed lie wholly on one page
	off        layout.Length // twice as far as the middles lie apart
}

// Cut returns the tiles of a drawing of that size. A tile is the body of a page;
// tiles side by side share Overlap, and all together lie about the middle of what
// is needed:
//
//	+---------+-+---------+
//	|  A1     | |     B1  |
//	|         | |         |     the middle of the overlap is marked, at the
//	+---------+-+---------+     same places of the drawing on both pages
//	+---------+-+---------+
//	|  A2     | |     B2  |
//
// Of both ways to lay the paper, and of the places where an edge of a tile meets
// one of what is needed, the one with the fewest pages is taken, then that which
// cuts the fewest things. Tiles that add nothing are left out as long as those
// that are printed still hang together, side by side.
func (t Tiling) Cut(wide, high layout.Length) Grid {
	need := t.Need
	if len(need) == 0 {
		need = []layout.Rect{{X1: wide, Y1: high}}
	}
	var best Grid
	for i, size := range []Size{t.Paper, t.Paper.Across()} {
		if g := cutOn(size, need); i == 0 || g.Better(&best) {
			best = g
		}
	}
	return best
}

// Better reports whether g is to be taken rather than o.
func (g *Grid) Better(o *Grid) bool {
	return cmp.Or(cmp.Compare(g.Pages(), o.Pages()), cmp.Compare(o.whole, g.whole), cmp.Compare(g.off, o.off)) < 0
}

func cutOn(paper Size, need []layout.Rect) Grid {
	var hull layout.Rect
	for _, r := range need {
		hull = hull.Union(r)
	}
	body := Body(paper)
	xs := starts(axis{hull.X0, hull.X1, body.W()}, need, func(r layout.Rect) (layout.Length, layout.Length) { return r.X0, r.X1 })
	ys := starts(axis{hull.Y0, hull.Y1, body.D()}, need, func(r layout.Rect) (layout.Length, layout.Length) { return r.Y0, r.Y1 })
	var best Grid
	for i, y := range ys {
		for j, x := range xs {
			if g := gridAt(paper, layout.Point{X: x, Y: y}, hull, need); i+j == 0 || g.Better(&best) {
				best = g
			}
		}
	}
	return best
}

// gridAt is the grid whose first tile has its corner there.
func gridAt(paper Size, at layout.Point, hull layout.Rect, need []layout.Rect) Grid {
	body := Body(paper)
	g := Grid{Paper: paper, Cols: tilesFor(hull.W(), body.W()), Rows: tilesFor(hull.D(), body.D())}
	for row := range g.Rows {
		for col := range g.Cols {
			corner := layout.Point{X: at.X + layout.Length(col)*(body.W()-Overlap), Y: at.Y + layout.Length(row)*(body.D()-Overlap)}
			g.Tiles = append(g.Tiles, Tile{Name: tileName(col, row), Col: col, Row: row, Window: layout.RectAt(corner, body.W(), body.D())})
		}
	}
	g.leaveOut(need)
	for _, r := range need {
		if slices.ContainsFunc(g.Tiles, func(t Tile) bool { return !t.Skipped && t.Window.Contains(r) }) {
			g.whole++
		}
	}
	all := g.Tiles[0].Window.Union(g.Tiles[len(g.Tiles)-1].Window)
	g.off = abs(all.X0+all.X1-hull.X0-hull.X1) + abs(all.Y0+all.Y1-hull.Y0-hull.Y1)
	return g
}

func abs(l layout.Length) layout.Length { return max(l, -l) }

// axis is a stretch to cover with tiles.
type axis struct{ from, to, tile layout.Length }

// starts returns where the first tile of an axis may begin: in the middle of the
// room there is, at its ends, and where an edge of a tile meets an edge of
// something that is needed. Only the few that cut the least are tried together
// with those of the other axis.
func starts(a axis, need []layout.Rect, of func(layout.Rect) (from, to layout.Length)) []layout.Length {
	const few = 12
	n := tilesFor(a.to-a.from, a.tile)
	last, first := a.from, a.to-span(n, a.tile)
	list := []layout.Length{(first + last) / 2, first, last}
	for _, r := range need {
		from, to := of(r)
		for i := range layout.Length(n) {
			begin := i * (a.tile - Overlap)
			for _, s := range []layout.Length{from - begin, to - begin - a.tile} {
				if s >= first && s <= last {
					list = append(list, s)
				}
			}
		}
	}
	cuts := map[layout.Length]int{}
	for _, s := range list {
		if _, done := cuts[s]; done {
			continue
		}
		cuts[s] = 0
		for _, r := range need {
			from, to := of(r)
			i := (from - s) / (a.tile - Overlap) // the last tile that begins before it
			if begin := s + min(i, layout.Length(n-1))*(a.tile-Overlap); to > begin+a.tile {
				cuts[s]++
			}
		}
	}
	slices.SortFunc(list, func(b, c layout.Length) int {
		return cmp.Or(cmp.Compare(cuts[b], cuts[c]), cmp.Compare(abs(2*b-first-last), abs(2*c-first-last)), cmp.Compare(b, c))
	})
	list = slices.Compact(list)
	return list[:min(few, len(list))]
}

// leaveOut marks tiles that are not needed. The tiles cut the plane into cells
// that one, two or four of them show:
//
//	cell  0       1   2   3   4
//	    +-------+---+---+---+-------+
//	    |     A     |
//	            |     B     |           cells 1 and 3 are overlaps
//	                    |     C     |
//
// A cell with something needed keeps a tile that shows it. Tiles with few such
// cells go first.
func (g *Grid) leaveOut(need []layout.Rect) {
	cells := g.cells(need)
	busy := func(i int) (n int) {
		for _, c := range cells {
			if g.Tiles[i].shows(c) {
				n++
			}
		}
		return n
	}
	var order []int
	for i := range g.Tiles {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(i, j int) int { return busy(i) - busy(j) })
	for again := true; again; { // one left out may free its neighbour
		again = false
		for _, i := range order {
			t := &g.Tiles[i]
			if t.Skipped {
				continue
			}
			t.Skipped = true
			if g.enough(cells) && g.hangTogether() {
				again = true
			} else {
				t.Skipped = false
			}
		}
	}
}

// cell is a column and a row of what tiles cut the plane into.
type cell struct{ col, row int }

// shows reports whether the cell is on the tile.
func (t *Tile) shows(c cell) bool {
	return max(c.col-2*t.Col, 2*t.Col-c.col) <= 1 && max(c.row-2*t.Row, 2*t.Row-c.row) <= 1
}

// cells returns those with something needed.
func (g *Grid) cells(need []layout.Rect) []cell {
	first := g.Tiles[0].Window
	var out []cell
	for row := range 2*g.Rows - 1 {
		y0, y1 := band(row, g.Rows, first.D())
		for col := range 2*g.Cols - 1 {
			x0, x1 := band(col, g.Cols, first.W())
			r := layout.Rect{X0: x0, Y0: y0, X1: x1, Y1: y1}.Move(layout.Point{X: first.X0, Y: first.Y0})
			if slices.ContainsFunc(need, r.Overlaps) {
				out = append(out, cell{col, row})
			}
		}
	}
	return out
}

// band returns from where to where a column of cells goes, of n tiles.
func band(i, n int, tile layout.Length) (from, to layout.Length) {
	from = layout.Length(i/2) * (tile - Overlap)
	if i%2 == 1 {
		return from + tile - Overlap, from + tile
	}
	to = from + tile
	if i > 0 {
		from += Overlap
	}
	if i < 2*(n-1) {
		to -= Overlap
	}
	return from, to
}

// enough reports whether the tiles that are printed show all those cells.
func (g *Grid) enough(cells []cell) bool {
	for _, c := range cells {
		if !slices.ContainsFunc(g.Tiles, func(t Tile) bool { return !t.Skipped && t.shows(c) }) {
			return false
		}
	}
	return true
}

// hangTogether reports whether one gets from each printed tile to each other
// over printed ones that lie side by side, so that they can be taped.
func (g *Grid) hangTogether() bool {
	seen := make([]bool, len(g.Tiles))
	var todo []*Tile
	visit := func(t *Tile) {
		if t != nil && !t.Skipped && !seen[t.Row*g.Cols+t.Col] {
			seen[t.Row*g.Cols+t.Col] = true
			todo = append(todo, t)
		}
	}
	if i := slices.IndexFunc(g.Tiles, func(t Tile) bool { return !t.Skipped }); i >= 0 {
		visit(&g.Tiles[i])
	}
	n := 0
	for ; len(todo) > 0; n++ {
		t := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		visit(g.at(t.Col-1, t.Row))
		visit(g.at(t.Col+1, t.Row))
		visit(g.at(t.Col, t.Row-1))
		visit(g.at(t.Col, t.Row+1))
	}
	return n > 0 && n == g.Pages()
}

// tilesFor returns how many tiles cover a length.
func tilesFor(l, tile layout.Length) int {
	n := 1
	for span(n, tile) < l {
		n++
	}
	return n
}

// span is how long n tiles are together.
func span(n int, tile layout.Length) layout.Length {
	return layout.Length(n)*(tile-Overlap) + Overlap
}

func tileName(col, row int) string {
	name := ""
	for c := col; c >= 0; c = c/26 - 1 {
		name = string(rune('A'+c%26)) + name
	}
	return fmt.Sprint(name, row+1)
}

// Pages returns how many tiles are printed.
func (g *Grid) Pages() int {
	n := 0
	for _, t := range g.Tiles {
		if !t.Skipped {
			n++
		}
	}
	return n
}

// Windows returns what of the drawing each printed tile shows.
func (g *Grid) Windows() []layout.Rect {
	var out []layout.Rect
	for _, t := range g.Tiles {
		if !t.Skipped {
			out = append(out, t.Window)
		}
	}
	return out
}

// at returns the tile in that column and row, or nil.
func (g *Grid) at(col, row int) *Tile {
	if col < 0 || col >= g.Cols || row < 0 || row >= g.Rows {
		return nil
	}
	return &g.Tiles[row*g.Cols+col]
}

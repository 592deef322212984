package paper

import (
	"fmt"

	"footplank/layout"
)

// Overlap is how far tiles side by side show the same.
const Overlap = 10 * layout.Millimetre

// Tiling says how a drawing is cut into pages.
type Tiling struct {
	Paper Size // upright; the way with fewer pages is taken
	Title string
	Note  string
	// Skip, if given, leaves out the tiles for which it reports true.
	Skip func(window layout.Rect) bool
}

// Tile is one page's part of a drawing.
type Tile struct {
	Name     string // column as a letter from the left, row from the top: "A1"
	Col, Row int
	Window   layout.Rect // of the drawing
	Skipped  bool
}

// Grid is how a drawing is cut.
type Grid struct {
	Paper      Size // as it lies
	Cols, Rows int
	Tiles      []Tile // row by row
}

// Cut returns the tiles of a drawing. A tile is the body of a page; tiles side
// by side share Overlap, and all together lie centred on the drawing:
//
//	+---------+-+---------+
//	|  A1     | |     B1  |
//	|         | |         |     the middle of the overlap is marked, at the
//	+---------+-+---------+     same places of the drawing on both pages
//	+---------+-+---------+
//	|  A2     | |     B2  |
func (t Tiling) Cut(d *Drawing) Grid {
	up, across := t.cutOn(t.Paper, d), t.cutOn(t.Paper.Across(), d)
	if across.pages() < up.pages() {
		return across
	}
	return up
}

func (t Tiling) cutOn(paper Size, d *Drawing) Grid {
	body := Body(paper)
	g := Grid{Paper: paper, Cols: tilesFor(d.W, body.W()), Rows: tilesFor(d.H, body.D())}
	x0 := (d.W - span(g.Cols, body.W())) / 2
	y0 := (d.H - span(g.Rows, body.D())) / 2
	for row := range g.Rows {
		for col := range g.Cols {
			at := layout.Point{X: x0 + layout.Length(col)*(body.W()-Overlap), Y: y0 + layout.Length(row)*(body.D()-Overlap)}
			tile := Tile{Name: tileName(col, row), Col: col, Row: row, Window: layout.RectAt(at, body.W(), body.D())}
			tile.Skipped = t.Skip != nil && t.Skip(tile.Window)
			g.Tiles = append(g.Tiles, tile)
		}
	}
	return g
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

// pages returns how many tiles are printed.
func (g *Grid) pages() int {
	n := 0
	for _, t := range g.Tiles {
		if !t.Skipped {
			n++
		}
	}
	return n
}

// at returns the tile in that column and row, or nil.
func (g *Grid) at(col, row int) *Tile {
	if col < 0 || col >= g.Cols || row < 0 || row >= g.Rows {
		return nil
	}
	return &g.Tiles[row*g.Cols+col]
}

// Tiles appends the pages of a drawing at true scale and returns how it was cut.
func (d *Document) Tiles(src *Drawing, t Tiling) Grid {
	g := t.Cut(src)
	marked := NewDrawing(src.W, src.H)
	marked.Play(src, layout.Rect{X0: -layout.MaxLength, Y0: -layout.MaxLength, X1: layout.MaxLength, Y1: layout.MaxLength},
		layout.Point{X: -layout.MaxLength, Y: -layout.MaxLength}, 1, 1)
	marked.Layer("tile marks")
	g.marks(marked)
	for i := range g.Tiles {
		if tile := &g.Tiles[i]; !tile.Skipped {
			d.tile(marked, t, &g, tile)
		}
	}
	return g
}

func (d *Document) tile(src *Drawing, t Tiling, g *Grid, tile *Tile) {
	f := Frame{Title: t.Title, Note: t.Note}
	if len(g.Tiles) > 1 {
		f.Right, f.Under = tile.Name, g.neighbours(tile)
	}
	p := d.Framed(g.Paper, f)
	body := Body(g.Paper)
	p.Play(src, tile.Window, layout.Point{X: body.X0, Y: body.Y0}, 1, 1)
	if len(g.Tiles) > 1 {
		p.Layer("frame")
		p.Rect(body, Style{Line: 100, Ink: Grey})
		g.drawMap(p, tile)
	}
}

// neighbours says in words which tiles join this one.
func (g *Grid) neighbours(t *Tile) string {
	text := ""
	for _, n := range []struct {
		dx, dy int
		where  string
	}{{-1, 0, "left"}, {1, 0, "right"}, {0, -1, "above"}, {0, 1, "below"}} {
		if o := g.at(t.Col+n.dx, t.Row+n.dy); o != nil && !o.Skipped {
			text += ", " + n.where + " " + o.Name
		}
	}
	if text == "" {
		return "no page joins it"
	}
	return "overlap 10 mm: " + text[2:]
}

// marks draws the middles of the overlaps, and crosses on them to lay one page
// on the other by.
func (g *Grid) marks(d *Drawing) {
	first, last := g.Tiles[0].Window, g.Tiles[len(g.Tiles)-1].Window
	cut := Style{Line: 120, Ink: Grey, Dash: []layout.Length{4000, 1000, 500, 1000}}
	for col := 1; col < g.Cols; col++ {
		x := g.at(col, 0).Window.X0 + Overlap/2
		d.Line(layout.Point{X: x, Y: first.Y0}, layout.Point{X: x, Y: last.Y1}, cut)
		for row := range g.Rows {
			w := g.at(col, row).Window
			for _, y := range []layout.Length{w.Y0 + 2*Overlap, w.Y1 - 2*Overlap} {
				cross(d, layout.Point{X: x, Y: y})
			}
		}
	}
	for row := 1; row < g.Rows; row++ {
		y := g.at(0, row).Window.Y0 + Overlap/2
		d.Line(layout.Point{X: first.X0, Y: y}, layout.Point{X: last.X1, Y: y}, cut)
		for col := range g.Cols {
			w := g.at(col, row).Window
			for _, x := range []layout.Length{w.X0 + 2*Overlap, w.X1 - 2*Overlap} {
				cross(d, layout.Point{X: x, Y: y})
			}
		}
	}
}

func cross(d *Drawing, c layout.Point) {
	const arm = 3 * layout.Millimetre
	s := Style{Line: 150}
	d.Circle(c, arm/2, s)
	d.Line(layout.Point{X: c.X - arm, Y: c.Y}, layout.Point{X: c.X + arm, Y: c.Y}, s)
	d.Line(layout.Point{X: c.X, Y: c.Y - arm}, layout.Point{X: c.X, Y: c.Y + arm}, s)
}

// drawMap shows which tile of the whole this page is: black the page itself,
// crossed out what is not printed.
func (g *Grid) drawMap(p *Page, tile *Tile) {
	const wide, high = 60 * layout.Millimetre, 10 * layout.Millimetre
	in := p.Size.Inner()
	w := min(wide/layout.Length(g.Cols), 9*layout.Millimetre)
	h := min(high/layout.Length(g.Rows), 5*layout.Millimetre)
	left := in.X1 - 24*layout.Millimetre - w*layout.Length(g.Cols)
	top := in.Y1 - 1*layout.Millimetre - h*layout.Length(g.Rows)
	for i := range g.Tiles {
		t := &g.Tiles[i]
		r := layout.RectAt(layout.Point{X: left + w*layout.Length(t.Col), Y: top + h*layout.Length(t.Row)}, w, h)
		st := Style{Line: 150}
		name := Type{Size: min(h*7/10, w/3), Anchor: Middle}
		if t.Name == tile.Name {
			st.Fill, st.Ground, name.Ink = Solid, Black, White
		}
		p.Rect(r, st)
		if t.Skipped {
			p.Line(layout.Point{X: r.X0, Y: r.Y0}, layout.Point{X: r.X1, Y: r.Y1}, Style{Line: 150})
			p.Line(layout.Point{X: r.X0, Y: r.Y1}, layout.Point{X: r.X1, Y: r.Y0}, Style{Line: 150})
			continue
		}
		p.Text(layout.Point{X: (r.X0 + r.X1) / 2, Y: (r.Y0+r.Y1)/2 + name.Cap()/2}, t.Name, name)
	}
}

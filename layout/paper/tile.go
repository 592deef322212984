package paper

import "footplank/layout"

// Overlap is how far tiles side by side show the same.
const Overlap = 10 * layout.Millimetre

// Tiling says how a drawing is cut into pages.
type Tiling struct {
	Paper Size // upright; the way with fewer pages is taken
	Title string
	Note  string
	// Need is what must be on the pages, the whole drawing if nil. The pages lie so
	// that few are needed and few of these are cut by the edge of a page.
	Need []layout.Rect
}

// Tiles appends the pages of a drawing at true scale and returns how it was cut.
func (d *Document) Tiles(src *Drawing, t Tiling) Grid {
	g := t.Cut(src.W, src.H)
	d.Lay(src, t, &g)
	return g
}

// Lay appends the pages of a drawing that was cut before, so that it could be
// drawn with an eye on the pages' edges.
func (d *Document) Lay(src *Drawing, t Tiling, g *Grid) {
	marked := NewDrawing(src.W, src.H)
	marked.Play(src, layout.Rect{X0: -layout.MaxLength, Y0: -layout.MaxLength, X1: layout.MaxLength, Y1: layout.MaxLength},
		layout.Point{X: -layout.MaxLength, Y: -layout.MaxLength}, 1, 1)
	marked.Layer("tile marks")
	g.marks(marked)
	for i := range g.Tiles {
		if tile := &g.Tiles[i]; !tile.Skipped {
			d.tile(marked, t, g, tile)
		}
	}
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

// marks draws the middles of the overlaps of pages that are printed, and crosses
// on them to lay one page on the other by.
func (g *Grid) marks(d *Drawing) {
	cut := Style{Line: 120, Ink: Grey, Dash: []layout.Length{4000, 1000, 500, 1000}}
	for i := range g.Tiles {
		t := &g.Tiles[i]
		if t.Skipped {
			continue
		}
		w := t.Window
		if o := g.at(t.Col+1, t.Row); o != nil && !o.Skipped {
			x := o.Window.X0 + Overlap/2
			d.Line(layout.Point{X: x, Y: w.Y0}, layout.Point{X: x, Y: w.Y1}, cut)
			cross(d, layout.Point{X: x, Y: w.Y0 + 2*Overlap})
			cross(d, layout.Point{X: x, Y: w.Y1 - 2*Overlap})
		}
		if o := g.at(t.Col, t.Row+1); o != nil && !o.Skipped {
			y := o.Window.Y0 + Overlap/2
			d.Line(layout.Point{X: w.X0, Y: y}, layout.Point{X: w.X1, Y: y}, cut)
			cross(d, layout.Point{X: w.X0 + 2*Overlap, Y: y})
			cross(d, layout.Point{X: w.X1 - 2*Overlap, Y: y})
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

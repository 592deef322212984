package plate

import (
	"footplank/layout"
	"footplank/layout/paper"
)

// flow sets text and tables on framed pages, a new one when one is full.
type flow struct {
	doc   *paper.Document
	size  paper.Size
	frame paper.Frame
	page  *paper.Page
	body  layout.Rect
	y     layout.Length
}

var (
	bodyType    = paper.Type{Size: 3300}
	headingType = paper.Type{Size: 4500, Face: paper.Bold}
	cellType    = paper.Type{Size: 2800}
)

func newFlow(doc *paper.Document, size paper.Size, frame paper.Frame) *flow {
	f := &flow{doc: doc, size: size, frame: frame, body: paper.Body(size)}
	f.turn()
	return f
}

// turn begins a page.
func (f *flow) turn() {
	f.page = f.doc.Framed(f.size, f.frame)
	f.page.Layer("text")
	f.y = f.body.Y0 + 2*mm
}

// need begins a page if there is less room than that.
func (f *flow) need(room layout.Length) {
	if f.y+room > f.body.Y1 {
		f.turn()
	}
}

func (f *flow) heading(text string) {
	f.need(headingType.Lead() + 20*mm)
	f.y += 3*mm + headingType.Size
	f.page.Text(layout.Point{X: f.body.X0, Y: f.y}, text, headingType)
	f.y += 2 * mm
}

// para sets a paragraph, with a mark before it if given.
func (f *flow) para(bullet, text string) {
	indent := layout.Length(0)
	if bullet != "" {
		indent = 5 * mm
	}
	for i, line := range bodyType.Wrap(text, f.body.W()-indent) {
		f.need(bodyType.Lead())
		f.y += bodyType.Lead()
		if i == 0 {
			f.page.Text(layout.Point{X: f.body.X0, Y: f.y}, bullet, bodyType)
		}
		f.page.Text(layout.Point{X: f.body.X0 + indent, Y: f.y}, line, bodyType)
	}
	f.y += mm
}

// column is a column of a table.
type column struct {
	head  string
	width layout.Length
	right bool // numbers
}

// room is how wide its words may be: less for numbers, whose right ends come near
// to the next column.
func (c *column) room() layout.Length {
	if c.right {
		return c.width - 4*mm
	}
	return c.width - 2*mm
}

// table sets rows; words that are too long for their cell are wrapped. The head
// is set again on each page.
func (f *flow) table(cols []column, rows [][]string) {
	f.need(20 * mm)
	f.head(cols)
	for _, row := range rows {
		lines := make([][]string, len(cols))
		high := 1
		for i, c := range cols {
			lines[i] = cellType.Wrap(row[i], c.room())
			high = max(high, len(lines[i]))
		}
		tall := layout.Length(high)*cellType.Lead() + mm
		if f.y+tall > f.body.Y1 {
			f.turn()
			f.head(cols)
		}
		x := f.body.X0
		for i, c := range cols {
			y := f.y + cellType.Lead()
			for _, l := range lines[i] {
				f.cell(x, y, c, l, cellType)
				y += cellType.Lead()
			}
			x += c.width
		}
		f.y += tall
		f.page.Line(layout.Point{X: f.body.X0, Y: f.y}, layout.Point{X: x, Y: f.y}, paper.Style{Line: 80, Ink: paper.Grey})
	}
	f.y += 2 * mm
}

func (f *flow) head(cols []column) {
	t := cellType
	t.Face = paper.Bold
	x := f.body.X0
	f.y += t.Lead()
	for _, c := range cols {
		f.cell(x, f.y, c, c.head, t)
		x += c.width
	}
	f.y += mm
	f.page.Line(layout.Point{X: f.body.X0, Y: f.y}, layout.Point{X: x, Y: f.y}, paper.Style{Line: 250})
}

func (f *flow) cell(x, y layout.Length, c column, text string, t paper.Type) {
	if c.right {
		t.Anchor = paper.End
		x += c.room()
	}
	f.page.Text(layout.Point{X: x, Y: y}, text, t)
}

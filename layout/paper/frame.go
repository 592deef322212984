package paper

import (
	"fmt"

	"footplank/layout"
)

// Room that a frame takes of a page within the printer's margins.
const (
	headHeight = 11 * layout.Millimetre
	footHeight = 15 * layout.Millimetre
	// BarLength is that of the bar to measure.
	BarLength = 100 * layout.Millimetre
	// BarHeight is the height of the bar with its words.
	BarHeight = 10 * layout.Millimetre
)

// BarWords are what stands with the bar on every page.
const BarWords = "Print at 100 % (actual size), no fit to page. Then measure the bar: 100 mm."

// Frame is what stands around the body of a page.
type Frame struct {
	Title string
	Note  string // below the title, for instance how the page is seen
	Right string // at the right of the title
	Under string // below that
}

// Body returns the room within a frame on paper of that size.
func Body(s Size) layout.Rect {
	in := s.Inner()
	in.Y0 += headHeight
	in.Y1 -= footHeight
	return in
}

// Framed appends a page with a frame: title, note, the bar to measure, and its
// number, which is written when all pages are known. Its body is Body(s).
func (d *Document) Framed(s Size, f Frame) *Page {
	p := d.Page(s)
	p.numbered = true
	p.Layer("frame")
	in := s.Inner()
	title := Type{Size: 4500, Face: Bold}
	right := Type{Size: 4500, Face: Bold, Anchor: End}
	small := Type{Size: 3 * layout.Millimetre}
	room := in.W() - 4*layout.Millimetre
	p.Text(layout.Point{X: in.X0, Y: in.Y0 + 4*layout.Millimetre}, title.Shorten(f.Title, room-right.Width(f.Right)), title)
	p.Text(layout.Point{X: in.X1, Y: in.Y0 + 4*layout.Millimetre}, f.Right, right)
	under := small
	under.Anchor = End
	p.Text(layout.Point{X: in.X1, Y: in.Y0 + 8500}, f.Under, under)
	note := small
	note.Face = Italic
	p.Text(layout.Point{X: in.X0, Y: in.Y0 + 8500}, note.Shorten(f.Note, room-small.Width(f.Under)), note)
	p.Bar(layout.Point{X: in.X0 + 200, Y: in.Y1 - 10*layout.Millimetre})
	return p
}

// Bar draws the bar to measure, its left end at that point, and the words below it.
func (d *Drawing) Bar(at layout.Point) {
	y := at.Y + 4*layout.Millimetre
	d.Line(layout.Point{X: at.X, Y: y}, layout.Point{X: at.X + BarLength, Y: y}, Style{Line: 400})
	for i := range layout.Length(11) {
		tall := 2 * layout.Millimetre
		if i%5 == 0 {
			tall = 4 * layout.Millimetre
		}
		x := at.X + i*BarLength/10
		d.Line(layout.Point{X: x, Y: y}, layout.Point{X: x, Y: y - tall}, Style{Line: 200})
	}
	d.Text(layout.Point{X: at.X, Y: y + 4*layout.Millimetre}, BarWords, Type{Size: 3 * layout.Millimetre})
}

// number writes which page of how many this is.
func (p *Page) number(i, of int) mark {
	in := p.Size.Inner()
	return mark{
		shape: words, points: []layout.Point{{X: in.X1, Y: in.Y1 - 1500}},
		text: fmt.Sprintf("page %d of %d", i, of), set: Type{Size: 3 * layout.Millimetre, Anchor: End},
	}
}

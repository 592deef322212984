package document

import (
	"fmt"
	"io"

	"footplank/layout"
	"footplank/layout/paper"
)

// PDF writes the document as pages of that size and returns the texts that
// have characters which the fonts in the PDF do not have.
func (d *Document) PDF(w io.Writer, size paper.Size) ([]paper.Replaced, error) {
	s := &setter{size: size, percent: 100}
	if title := Clean(d.Title); title != "" {
		s.title(1, title)
	}
	s.blocks(d.Blocks)
	doc := paper.NewDocument(Clean(d.Title))
	paginate(doc, size, s.pieces)
	foot(doc, Clean(d.Title))
	return doc.PDF(w)
}

// paginate puts pieces on pages.
func paginate(doc *paper.Document, size paper.Size, pieces []piece) {
	r := room(size)
	var page *paper.Page
	y := r.Y0
	turn := func() {
		page = doc.Page(size)
		y = r.Y0
	}
	put := func(p *piece) {
		if y > r.Y0 {
			y += p.gap
		}
		p.draw(page.Drawing, r.X0, y)
		y += p.high
	}
	for i := 0; i < len(pieces); {
		end, high := group(pieces[i:])
		p := &pieces[i]
		switch {
		case p.high == 0 && i == len(pieces)-1:
			return // a break before nothing
		case page == nil, p.fresh && y > r.Y0:
			turn()
		case y > r.Y0 && y+p.gap+high > r.Y1:
			turn()
			if p.again != nil {
				put(p.again)
			}
		}
		if high > r.D() {
			end = 1 // it does not fit anyway: as it comes
		}
		for k := range end {
			if q := &pieces[i+k]; k > 0 && y+q.gap+q.high > r.Y1 {
				turn()
			}
			put(&pieces[i+k])
		}
		i += end
	}
}

// group returns how many pieces are tied to the first one, itself among them,
// and how high they are without the gap above.
func group(pieces []piece) (n int, high layout.Length) {
	high = -pieces[0].gap
	for n < len(pieces) {
		p := &pieces[n]
		if n > 0 && p.fresh {
			break
		}
		high += p.gap + p.high
		n++
		if !p.tied {
			break
		}
	}
	return n, high
}

// foot writes the title and the number of each page.
func foot(doc *paper.Document, title string) {
	t := paper.Type{Size: 8 * point, Face: paper.Regular}
	for i, p := range doc.Pages() {
		r := room(p.Size)
		y := p.Size.H - footUp
		p.Line(layout.Point{X: r.X0, Y: y - t.Lead()}, layout.Point{X: r.X1, Y: y - t.Lead()}, hair)
		number := fmt.Sprintf("Page %d of %d", i+1, len(doc.Pages()))
		p.Text(layout.Point{X: r.X0, Y: y}, t.Shorten(title, r.W()-2*t.Width(number)), t)
		t := t
		t.Anchor = paper.End
		p.Text(layout.Point{X: r.X1, Y: y}, number, t)
	}
}

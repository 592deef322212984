package paper

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"footplank/layout"
)

// fixedDate is what a PDF says it was made on, so that the same input gives the
// same bytes.
var fixedDate = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// PDF writes the document and returns the texts that it had to write
// otherwise, each once, in the order of the pages. A document without pages
// gets an empty one.
func (d *Document) PDF(w io.Writer) ([]Replaced, error) {
	pages := d.pages
	if len(pages) == 0 {
		pages = []*Page{{Drawing: NewDrawing(A4.W, A4.H), Size: A4}}
	}
	b := newPDF(d.Title, pages)
	for i, p := range pages {
		b.page(p)
		if p.numbered {
			n := p.number(i+1, len(pages))
			b.text(&n)
		}
	}
	var out bytes.Buffer
	if err := b.f.Output(&out); err != nil {
		return nil, fmt.Errorf("PDF of %q: %w", d.Title, err)
	}
	whole, err := withPreferences(out.Bytes())
	if err != nil {
		return nil, fmt.Errorf("PDF of %q: %w", d.Title, err)
	}
	_, err = w.Write(whole)
	return b.replaced, err
}

// pdf is the back end for PDF.
type pdf struct {
	f        *fpdf.Fpdf
	layers   map[string]int
	replaced []Replaced
	seen     map[string]bool
}

func newPDF(title string, pages []*Page) *pdf {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: pages[0].Size.W.MM(), Ht: pages[0].Size.H.MM()}})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(fixedDate)
	f.SetModificationDate(fixedDate)
	f.SetTitle(utf16Text(title), false)
	f.SetProducer("", false)
	b := &pdf{f: f, layers: map[string]int{}, seen: map[string]bool{}}
	for face := range Face(faces) {
		if used(pages, face) {
			// A copy, for the library writes into the font while it cuts it down.
			f.AddUTF8FontFromBytes(fontNames[face], "", bytes.Clone(fontFiles[face]))
		}
	}
	for _, p := range pages {
		for _, l := range p.layers {
			name := lastPart(l.name)
			if _, ok := b.layers[name]; name != "" && !ok {
				// The library takes apart what is not in the first plane.
				written, _ := Drawable(name, Regular)
				b.layers[name] = f.AddLayer(written, true)
			}
		}
	}
	return b
}

func used(pages []*Page, face Face) bool {
	for _, p := range pages {
		for _, l := range p.layers {
			for i := range l.marks {
				if l.marks[i].shape == words && l.marks[i].set.Face == face {
					return true
				}
			}
		}
	}
	return false
}

func lastPart(name string) string { return name[strings.LastIndexByte(name, '/')+1:] }

// utf16Text is how PDF wants text outside page content: UTF-16 with a byte order mark.
func utf16Text(s string) string {
	out := []byte{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return string(out)
}

func (b *pdf) page(p *Page) {
	b.f.AddPageFormat("P", fpdf.SizeType{Wd: p.Size.W.MM(), Ht: p.Size.H.MM()})
	for _, l := range p.layers {
		if len(l.marks) == 0 {
			continue
		}
		id, ok := b.layers[lastPart(l.name)]
		if ok {
			b.f.BeginLayer(id)
		}
		b.marks(l.marks)
		if ok {
			b.f.EndLayer()
		}
	}
}

// marks draws the marks of a layer, those with the same clip within one.
func (b *pdf) marks(marks []mark) {
	var now *layout.Rect
	for i := range marks {
		m := &marks[i]
		if !sameClip(now, m.clip) {
			if now != nil {
				b.f.ClipEnd()
			}
			if now = m.clip; now != nil {
				b.f.ClipRect(now.X0.MM(), now.Y0.MM(), now.W().MM(), now.D().MM(), false)
			}
		}
		b.mark(m)
	}
	if now != nil {
		b.f.ClipEnd()
	}
}

func sameClip(a, b *layout.Rect) bool {
	return a == b || a != nil && b != nil && *a == *b
}

func (b *pdf) mark(m *mark) {
	if m.shape == words {
		b.text(m)
		return
	}
	if m.style.Fill != NoFill {
		ground := int(White)
		if m.style.Fill == Solid {
			ground = int(m.style.Ground)
		}
		b.f.SetFillColor(ground, ground, ground)
		b.path(m, "F")
		b.pattern(m)
	}
	if m.style.Line > 0 {
		b.stroke(m.style)
		b.path(m, "D")
	}
}

// stroke sets how lines are drawn.
func (b *pdf) stroke(s Style) {
	b.f.SetDrawColor(int(s.Ink), int(s.Ink), int(s.Ink))
	b.f.SetLineWidth(s.Line.MM())
	style := "butt"
	if s.Round {
		style = "round"
	}
	b.f.SetLineCapStyle(style)
	join := "miter"
	if s.Round || s.Corner > 0 {
		join = "round"
	}
	b.f.SetLineJoinStyle(join)
	dash := make([]float64, len(s.Dash))
	for i, l := range s.Dash {
		dash[i] = l.MM()
	}
	b.f.SetDashPattern(dash, 0)
}

func (b *pdf) path(m *mark, how string) {
	switch m.shape {
	case box:
		p, q := m.points[0], m.points[1]
		b.f.Rect(p.X.MM(), p.Y.MM(), (q.X - p.X).MM(), (q.Y - p.Y).MM(), how)
	case circle:
		b.f.Circle(m.points[0].X.MM(), m.points[0].Y.MM(), m.radius.MM(), how)
	default:
		for _, s := range segments(m) {
			switch {
			case s.move:
				b.f.MoveTo(s.to.X.MM(), s.to.Y.MM())
			case s.curve:
				b.f.CurveBezierCubicTo(s.c0.X.MM(), s.c0.Y.MM(), s.c1.X.MM(), s.c1.Y.MM(), s.to.X.MM(), s.to.Y.MM())
			default:
				b.f.LineTo(s.to.X.MM(), s.to.Y.MM())
			}
		}
		if m.shape == ring {
			b.f.ClosePath()
		}
		b.f.DrawPath(how)
	}
}

// pattern draws the lines of a fill.
func (b *pdf) pattern(m *mark) {
	lines, style := patternLines(m)
	if len(lines) == 0 {
		return
	}
	switch m.shape {
	case box:
		p, q := m.points[0], m.points[1]
		b.f.ClipRect(p.X.MM(), p.Y.MM(), (q.X - p.X).MM(), (q.Y - p.Y).MM(), false)
	case circle:
		b.f.ClipCircle(m.points[0].X.MM(), m.points[0].Y.MM(), m.radius.MM(), false)
	default:
		var pts []fpdf.PointType
		for _, p := range m.points {
			pts = append(pts, fpdf.PointType{X: p.X.MM(), Y: p.Y.MM()})
		}
		b.f.ClipPolygon(pts, false)
	}
	b.stroke(style)
	for _, l := range lines {
		b.f.Line(l[0].X.MM(), l[0].Y.MM(), l[1].X.MM(), l[1].Y.MM())
	}
	b.f.ClipEnd()
}

func (b *pdf) text(m *mark) {
	written, whole := Drawable(m.text, m.set.Face)
	if !whole && !b.seen[m.text] {
		b.seen[m.text] = true
		b.replaced = append(b.replaced, Replaced{m.text, written})
	}
	if strings.TrimSpace(written) == "" {
		return
	}
	f, at := b.f, m.points[0]
	f.SetFont(fontNames[m.set.Face], "", 10)
	f.SetFontUnitSize(m.set.Size.MM())
	f.SetTextColor(int(m.set.Ink), int(m.set.Ink), int(m.set.Ink))
	x, y := at.X, at.Y
	switch w := m.set.Width(m.text); m.set.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	}
	if m.set.Turn == 0 {
		f.Text(x.MM(), y.MM(), written)
		return
	}
	f.TransformBegin()
	f.TransformRotate(-float64(m.set.Turn.Degrees()), at.X.MM(), at.Y.MM())
	f.Text(x.MM(), y.MM(), written)
	f.TransformEnd()
}

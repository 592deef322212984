package document

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/paper"
)

// piece is something that no page may part.
type piece struct {
	high, gap layout.Length // gap is kept above it, but for the first of a page
	tied      bool          // stays with the next piece
	fresh     bool          // begins a page
	// again is drawn above the piece when it begins a page: the head of its
	// table.
	again *piece
	draw  func(d *paper.Drawing, x, y layout.Length)
}

func (s *setter) add(p piece) { s.pieces = append(s.pieces, p) }

// gap is the usual distance between blocks.
func (s *setter) gap() layout.Length { return s.of(3 * layout.Millimetre) }

func (s *setter) blocks(bs []Block) {
	for i, b := range bs {
		s.block(b)
		if _, text := b.(Para); text && i+1 < len(bs) && len(s.pieces) > 0 {
			// What a paragraph introduces does not begin on another page.
			switch bs[i+1].(type) {
			case *Table, List, Figure:
				s.pieces[len(s.pieces)-1].tied = true
			}
		}
	}
}

func (s *setter) block(b Block) {
	switch b := b.(type) {
	case Heading:
		s.title(b.Level, b.Text)
	case Para:
		s.paragraph(b.Text, s.body(), s.gap())
	case List:
		for i, item := range b.Items {
			s.item(b.Mark, i, len(b.Items), item)
		}
	case *Table:
		s.table(b)
	case Drawing:
		t := s.fixed()
		for i, line := range b.Lines {
			s.line(line, t, i == 0, i+1 < len(b.Lines))
		}
	case Figure:
		s.figure(b)
	case Caution:
		s.caution(b)
	case PageBreak:
		s.add(piece{fresh: true, draw: func(*paper.Drawing, layout.Length, layout.Length) {}})
	case Keep:
		from := len(s.pieces)
		s.blocks(b.Blocks)
		for i := from; i < len(s.pieces)-1; i++ {
			s.pieces[i].tied = true
		}
	case Pair:
		s.pair(b)
	case Card:
		s.card(b)
	}
}

// baseline is how far the baseline of a line is below its top.
func baseline(t paper.Type) layout.Length { return t.Size * 95 / 100 }

// line adds a line of text as it is.
func (s *setter) line(text string, t paper.Type, first, tied bool) {
	gap := layout.Length(0)
	if first {
		gap = s.gap()
	}
	s.add(piece{high: t.Lead(), gap: gap, tied: tied, draw: func(d *paper.Drawing, x, y layout.Length) {
		d.Text(layout.Point{X: x, Y: y + baseline(t)}, text, t)
	}})
}

func (s *setter) title(level int, text string) {
	t := s.heading(level)
	gap := s.of(t.Size)
	for i, line := range t.Wrap(Clean(text), s.wide()) {
		s.line(line, t, false, true)
		if i == 0 {
			s.pieces[len(s.pieces)-1].gap = gap
		}
	}
}

// paragraph adds lines of which neither the first nor the last stands alone.
func (s *setter) paragraph(text string, t paper.Type, gap layout.Length) {
	lines := t.Wrap(Clean(text), s.wide())
	for i, line := range lines {
		n := len(lines)
		s.line(line, t, false, n <= 3 && i+1 < n || i == 0 && n > 1 || i == n-2)
		if i == 0 {
			s.pieces[len(s.pieces)-1].gap = gap
		}
	}
}

// item adds an item of a list as one piece.
func (s *setter) item(m Mark, i, of int, text string) {
	t := s.body()
	indent := s.of(6 * layout.Millimetre)
	lines := t.Wrap(Clean(text), s.wide()-indent)
	gap := s.of(layout.Millimetre)
	if i == 0 {
		gap = s.gap()
	}
	s.add(piece{high: t.Lead() * layout.Length(len(lines)), gap: gap, tied: i == 0 && of > 1,
		draw: func(d *paper.Drawing, x, y layout.Length) {
			s.mark(d, m, i, layout.Point{X: x, Y: y + baseline(t)}, t)
			d.Lines(layout.Point{X: x + indent, Y: y + baseline(t)}, lines, t)
		}})
}

// mark draws what stands before an item whose baseline begins at that point.
func (s *setter) mark(d *paper.Drawing, m Mark, i int, at layout.Point, t paper.Type) {
	switch m {
	case Number:
		d.Text(at, fmt.Sprintf("%d.", i+1), t)
	case Check:
		side := t.Cap() * 11 / 10
		d.Rect(layout.Rect{X0: at.X, Y0: at.Y - side, X1: at.X + side, Y1: at.Y}, tick)
	default:
		d.Circle(layout.Point{X: at.X + t.Size/3, Y: at.Y - t.Size/3}, t.Size/9, dot)
	}
}

// figure adds a drawing with its caption.
func (s *setter) figure(f Figure) {
	if f.Art == nil || f.Art.W <= 0 || f.Art.H <= 0 {
		s.block(Drawing{f.Instead})
		return
	}
	r := room(s.size)
	num, den := layout.Length(1), layout.Length(1)
	most := r.D() - s.of(12*layout.Millimetre)
	if f.HighMost > 0 {
		most = most * layout.Length(f.HighMost) / 100
	}
	if !f.True {
		if f.Art.W > s.wide() {
			num, den = s.wide(), f.Art.W
		}
		if f.Art.H*num/den > most {
			num, den = most, f.Art.H
		}
	}
	gap := s.gap()
	if f.True {
		gap = 0
	}
	s.add(piece{high: f.Art.H * num / den, gap: gap, tied: f.Caption != "", draw: func(d *paper.Drawing, x, y layout.Length) {
		left := x
		if !f.True {
			left += (s.wide() - f.Art.W*num/den) / 2
		}
		d.Play(f.Art, layout.Rect{X1: f.Art.W, Y1: f.Art.H}, layout.Point{X: left, Y: y}, num, den)
	}})
	if f.Caption != "" {
		s.paragraph(f.Caption, s.small(), s.of(layout.Millimetre))
	}
}

// caution adds a box with a heavy edge.
func (s *setter) caution(c Caution) {
	pad, indent := s.of(3*layout.Millimetre), s.of(4*layout.Millimetre)
	t, h := s.body(), s.heading(4)
	var items [][]string
	high := 2*pad + h.Lead()
	for _, text := range c.Items {
		lines := t.Wrap(Clean(text), s.wide()-2*pad-indent)
		items = append(items, lines)
		high += t.Lead()*layout.Length(len(lines)) + s.of(layout.Millimetre)/2
	}
	s.add(piece{high: high, gap: s.gap() + s.of(layout.Millimetre), draw: func(d *paper.Drawing, x, y layout.Length) {
		d.Rect(layout.Rect{X0: x, Y0: y, X1: x + s.wide(), Y1: y + high}, edge)
		y += pad
		d.Text(layout.Point{X: x + pad, Y: y + baseline(h)}, Clean(c.Title), h)
		y += h.Lead()
		for i, lines := range items {
			s.mark(d, Bullet, i, layout.Point{X: x + pad, Y: y + baseline(t)}, t)
			d.Lines(layout.Point{X: x + pad + indent, Y: y + baseline(t)}, lines, t)
			y += t.Lead()*layout.Length(len(lines)) + s.of(layout.Millimetre)/2
		}
	}})
}

// card adds blocks on a page of their own, to be read from where one stands; what
// is too long for it goes on on further pages.
func (s *setter) card(c Card) {
	inner := s.set(c)
	inner.pieces[0].fresh = true
	s.pieces = append(s.pieces, inner.pieces...)
	s.block(PageBreak{})
}

// set sets a card as large as the page has room for, up to a third larger than
// other text as long as no table is folded for it, or as small as needed, down to
// half the size.
func (s *setter) set(c Card) *setter {
	for percent := layout.Length(135); ; percent -= 5 {
		inner := &setter{size: s.size, percent: percent}
		inner.title(1, c.Title)
		inner.blocks(c.Blocks)
		fits := stacked(inner.pieces) <= room(s.size).D() && (percent <= 100 || !inner.folded)
		if fits || percent <= 50 {
			return inner
		}
	}
}

// stacked is how high pieces are one below the other, without the gap above.
func stacked(pieces []piece) layout.Length {
	if len(pieces) == 0 {
		return 0
	}
	high := -pieces[0].gap
	for _, p := range pieces {
		high += p.gap + p.high
	}
	return high
}

// pair sets blocks side by side as one piece, the page shared out so that it is
// least high; or one below the other where that is higher than a page or breaks
// words of a table.
func (s *setter) pair(b Pair) {
	between := s.of(7 * layout.Millimetre)
	var left, right *setter
	high := room(s.size).D() + 1
	for share := layout.Length(35); share <= 65; share += 5 {
		at := (s.wide() - between) * share / 100
		l, r := s.beside(at, b.Left), s.beside(s.wide()-between-at, b.Right)
		if h := max(stacked(l.pieces), stacked(r.pieces)); h < high && !l.broken && !r.broken {
			left, right, high = l, r, h
		}
	}
	if left == nil {
		s.blocks(b.Left)
		s.blocks(b.Right)
		return
	}
	s.folded = s.folded || left.folded || right.folded
	gap := s.gap()
	for _, side := range []*setter{left, right} {
		if len(side.pieces) > 0 {
			gap = max(gap, side.pieces[0].gap)
		}
	}
	s.add(piece{high: high, gap: gap, draw: func(d *paper.Drawing, x, y layout.Length) {
		left.play(d, x, y)
		right.play(d, x+left.column+between, y)
	}})
}

// beside sets blocks in a column of that width.
func (s *setter) beside(column layout.Length, bs []Block) *setter {
	inner := &setter{size: s.size, percent: s.percent, column: column}
	inner.blocks(bs)
	return inner
}

// play draws all pieces one below the other.
func (s *setter) play(d *paper.Drawing, x, y layout.Length) {
	for i, p := range s.pieces {
		if i > 0 {
			y += p.gap
		}
		p.draw(d, x, y)
		y += p.high
	}
}

package document

import (
	"footplank/layout"
	"footplank/layout/paper"
)

// table adds a table: its head and each row are a piece.
func (s *setter) table(t *Table) {
	head, rows := t.grid()
	if len(head) == 0 {
		return
	}
	gap := s.of(3 * layout.Millimetre)
	// Bold is wider, so the head's cells must have their say in that face.
	measure := s.cell().Width
	least, wish := make([]layout.Length, len(head)), make([]layout.Length, len(head))
	for i, h := range head {
		least[i], wish[i] = longestWord(h, s.head().Width), s.head().Width(h)
		for _, r := range rows {
			least[i], wish[i] = max(least[i], longestWord(r[i], measure)), max(wish[i], measure(r[i]))
		}
	}
	within := s.wide() - gap*layout.Length(len(head)-1)
	s.folded = s.folded || total(wish) > within
	s.broken = s.broken || total(least) > within
	w := columns(least, wish, within)
	top := s.row(t, head, w, gap, s.head(), rule)
	top.gap, top.tied = s.gap(), true
	s.add(top)
	for i, r := range rows {
		p := s.row(t, r, w, gap, s.cell(), hair)
		p.again = &top
		p.tied = together(head, rows, i)
		s.add(p)
	}
}

func total(all []layout.Length) (sum layout.Length) {
	for _, w := range all {
		sum += w
	}
	return sum
}

// together reports whether a row stays on the page of the next one: so do the first
// three, the last two, and rows whose first cell is empty with the one above that
// names what they are of.
func together(head []string, rows [][]string, i int) bool {
	last := len(rows) - 1
	return i < last && (i < 2 || i == last-1 || head[0] != "" && rows[i+1][0] == "")
}

// row returns a row of cells with a line beneath.
func (s *setter) row(t *Table, cells []string, w []layout.Length, gap layout.Length, set paper.Type, under paper.Style) piece {
	pad := s.of(layout.Millimetre) * 6 / 10
	broken := make([][]string, len(cells))
	n := 1
	var total layout.Length
	for i, text := range cells {
		broken[i] = set.Wrap(text, w[i])
		n = max(n, len(broken[i]))
		total += w[i] + gap
	}
	high := set.Lead()*layout.Length(n) + 2*pad
	return piece{high: high, draw: func(d *paper.Drawing, x, y layout.Length) {
		d.Line(layout.Point{X: x, Y: y + high}, layout.Point{X: x + total - gap, Y: y + high}, under)
		for i, lines := range broken {
			at, set := layout.Point{X: x, Y: y + pad + baseline(set)}, set
			switch t.align(i) {
			case Right:
				at.X, set.Anchor = x+w[i], paper.End
			case Centre:
				at.X, set.Anchor = x+w[i]/2, paper.Middle
			}
			d.Lines(at, lines, set)
			x += w[i] + gap
		}
	}}
}

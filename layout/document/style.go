package document

import (
	"footplank/layout"
	"footplank/layout/paper"
)

// point is a printer's point, 1/72 in.
const point = layout.Inch / 72

// The margins of a page; the foot with its number stands within the lower one.
const (
	marginSide = 18 * layout.Millimetre
	marginTop  = 15 * layout.Millimetre
	marginFoot = 18 * layout.Millimetre
	footUp     = 10 * layout.Millimetre // of its baseline above the paper's edge
)

// setter turns blocks into pieces for a page's width. Its sizes are in percent,
// so that a card can be set larger or smaller.
type setter struct {
	size    paper.Size
	percent layout.Length
	column  layout.Length // width of the column, 0 for the page's
	pieces  []piece
	folded  bool // a cell of a table takes more lines than one
	broken  bool // a word of a table is broken
}

// room is where blocks go on a page.
func room(s paper.Size) layout.Rect {
	return layout.Rect{X0: marginSide, Y0: marginTop, X1: s.W - marginSide, Y1: s.H - marginFoot}
}

func (s *setter) of(l layout.Length) layout.Length { return l * s.percent / 100 }

func (s *setter) wide() layout.Length {
	if s.column > 0 {
		return s.column
	}
	return room(s.size).W()
}

// typeOf returns type of that many half points.
func (s *setter) typeOf(halves layout.Length, f paper.Face) paper.Type {
	return paper.Type{Size: s.of(halves * point / 2), Face: f}
}

func (s *setter) body() paper.Type  { return s.typeOf(19, paper.Regular) }
func (s *setter) cell() paper.Type  { return s.typeOf(17, paper.Regular) }
func (s *setter) head() paper.Type  { return s.typeOf(17, paper.Bold) }
func (s *setter) fixed() paper.Type { return s.typeOf(15, paper.Mono) }
func (s *setter) small() paper.Type { return s.typeOf(16, paper.Italic) }

// heading returns the type of a heading of that level.
func (s *setter) heading(level int) paper.Type {
	return s.typeOf([]layout.Length{36, 27, 22, 19}[min(max(level, 1), 4)-1], paper.Bold)
}

var (
	hair = paper.Style{Line: layout.Millimetre / 10, Ink: paper.Grey}
	rule = paper.Style{Line: layout.Millimetre / 4}
	edge = paper.Style{Line: layout.Millimetre / 2}
	tick = paper.Style{Line: layout.Millimetre / 5}
	dot  = paper.Style{Fill: paper.Solid}
)

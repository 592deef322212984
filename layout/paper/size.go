package paper

import (
	"strings"

	"footplank/layout"
)

// PrinterMargin is kept white along the edges of a page, for few printers
// reach there: common practice.
const PrinterMargin = 6 * layout.Millimetre

// Size is a size of paper.
type Size struct {
	Name string
	W, H layout.Length
}

// Sizes of paper, upright: A4 from ISO 216, Letter 8 1/2 x 11 in.
var (
	A4     = Size{"A4", 210 * layout.Millimetre, 297 * layout.Millimetre}
	Letter = Size{"Letter", 17 * layout.Inch / 2, 11 * layout.Inch}
)

// Sizes returns the sizes that SizeNamed knows.
func Sizes() []Size { return []Size{A4, Letter} }

// SizeNamed returns the upright size of that name, in capitals or not.
func SizeNamed(name string) (Size, bool) {
	for _, s := range Sizes() {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Size{}, false
}

// Across returns the paper turned by a quarter.
func (s Size) Across() Size { return Size{s.Name, s.H, s.W} }

// Inner returns the page less the printer's margins.
func (s Size) Inner() layout.Rect {
	return layout.Rect{X0: PrinterMargin, Y0: PrinterMargin, X1: s.W - PrinterMargin, Y1: s.H - PrinterMargin}
}

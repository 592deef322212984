package edit

import (
	"math"

	"footplank/layout"
)

// Stride is how far one press of an arrow moves a unit.
type Stride struct {
	Name string
	// Halves is the distance in half micrometres: a sixteenth of an inch is
	// not a whole number of micrometres.
	Halves int64
}

// Strides returns the plan's strides from the shortest: 1, 5 and 25 mm, or
// 1/16, 1/4 and 1 in.
func Strides(u layout.LengthUnit) [3]Stride {
	if u == layout.Inches {
		in := int64(layout.Inch) * 2
		return [3]Stride{{"1/16 in", in / 16}, {"1/4 in", in / 4}, {"1 in", in}}
	}
	mm := int64(layout.Millimetre) * 2
	return [3]Stride{{"1 mm", mm}, {"5 mm", 5 * mm}, {"25 mm", 25 * mm}}
}

// From returns the length n strides on from l. A length on the strides' grid
// stays on it, so that two strides of 1/16 in are exactly 1/8 in.
func (s Stride) From(l layout.Length, n int64) layout.Length {
	k := int64(math.Round(float64(l) * 2 / float64(s.Halves)))
	if s.on(k) == l {
		return s.on(k + n)
	}
	return l + s.on(n)
}

// on returns the kth point of the grid, halves rounded away from zero.
func (s Stride) on(k int64) layout.Length {
	v := k * s.Halves
	if v < 0 {
		return layout.Length((v - 1) / 2)
	}
	return layout.Length((v + 1) / 2)
}

package layout

import (
	"math"
	"strings"
)

// Tape writes a length as a number that a tape measure shows, in the player's
// unit: to the nearest tenth of a mm, or, where it is no fraction of an inch
// already, to the nearest 32nd of one.
func (l Length) Tape(u LengthUnit) string {
	s := l.Number(u)
	switch {
	case u != Inches:
		const tenth = Millimetre / 10
		n := l + tenth/2
		if r := n % tenth; r < 0 {
			n -= tenth + r
		} else {
			n -= r
		}
		return n.Number(u)
	case strings.Contains(s, "/"):
		return s
	}
	n := math.Round(float64(l) / float64(Inch) * 32)
	return Length(math.Round(n * float64(Inch) / 32)).Number(u)
}

// UpTo rounds a length that is not negative up to what is cut or bought by:
// whole mm, or eighths of an inch.
func (l Length) UpTo(u LengthUnit) Length {
	step := Millimetre
	if u == Inches {
		step = Inch / 8
	}
	return (l + step - 1) / step * step
}

// Measure returns the unit in which the plan's player measures: inches, or else
// millimetres.
func (p *Plan) Measure() LengthUnit {
	if p.LengthUnit == Inches {
		return Inches
	}
	return Millimetres
}

package layout

import (
	"fmt"
	"math"
	"strings"
)

// Tape writes a length as a number that a tape measure shows, in the player's
// unit: to the nearest tenth of a mm, or, where it is no fraction of an inch
// already, to the nearest 32nd of one.
func (l Length) Tape(u LengthUnit) string { return l.taped(u).Number(u) }

// Together adds up lengths as Tape writes them, so that the sum is that of what a
// player is shown.
func Together(list []Length, u LengthUnit) (sum Length) {
	marks := int64(0)
	for _, l := range list {
		sum += l.taped(u)
		marks += int64(math.Round(float64(l.taped(u)) / float64(Inch) * 64))
	}
	if u == Inches { // a 64th is no whole number of micrometres
		return Length(math.Round(float64(marks) * float64(Inch) / 64))
	}
	return sum
}

// taped is the length that Tape writes.
func (l Length) taped(u LengthUnit) Length {
	switch {
	case u != Inches:
		const tenth = Millimetre / 10
		n := l + tenth/2
		if r := n % tenth; r < 0 {
			return n - tenth - r
		}
		return n - n%tenth
	case strings.Contains(l.Number(u), "/"):
		return l
	}
	n := math.Round(float64(l) / float64(Inch) * 32)
	return Length(math.Round(n * float64(Inch) / 32))
}

// Marked reports whether a ruler in 64ths of an inch has a mark for the length, to
// within a micrometre, for a 64th is no whole number of them.
func (l Length) Marked() bool { return !strings.Contains(l.Number(Inches), ".") }

// AtLeast rounds a length up to a mark of a ruler, a tenth of a mm or 1/64 in: for
// what is too long, for a move, and for the least that is allowed. AtMost rounds
// one down, for what is too short, and for the most that is allowed. So none is
// ever shown as if it were within its limit.
func (l Length) AtLeast(u LengthUnit) Length { return l.ruled(u, math.Ceil) }

// AtMost is AtLeast rounded down.
func (l Length) AtMost(u LengthUnit) Length { return l.ruled(u, math.Floor) }

func (l Length) ruled(u LengthUnit, to func(float64) float64) Length {
	step := float64(Millimetre) / 10
	if u == Inches {
		if l.Marked() {
			return l
		}
		step = float64(Inch) / 64
	}
	return Length(math.Round(to(float64(l)/step) * step))
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

// Carried writes a mass that is lifted, with one decimal: in kg, or in pounds for
// a player who measures in inches.
func (m Mass) Carried(u LengthUnit) string {
	if u == Inches {
		return fmt.Sprintf("%.1f lb", float64(m)/float64(Pound))
	}
	return fmt.Sprintf("%.1f kg", float64(m)/float64(Kilogram))
}

// Scales writes the mass of one unit as kitchen scales show it: in whole grams,
// or for a player who measures in inches in pounds and tenths of an ounce.
func (m Mass) Scales(u LengthUnit) string {
	if u != Inches {
		return fmt.Sprintf("%.0f g", m.Grams())
	}
	tenths := int64(math.Round(float64(m) * 160 / float64(Pound)))
	if tenths < 160 {
		return fmt.Sprintf("%d.%d oz", tenths/10, tenths%10)
	}
	return fmt.Sprintf("%d lb %d.%d oz", tenths/160, tenths%160/10, tenths%10)
}

// Warmth writes a temperature in degrees Celsius, or for a player who measures in
// inches in degrees Fahrenheit: never one that is warmer than it.
func Warmth(celsius int, u LengthUnit) string {
	if u == Inches {
		return fmt.Sprintf("%d °F", celsius*9/5+32)
	}
	return fmt.Sprintf("%d °C", celsius)
}

package layout

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Length is a length in micrometres. An inch is 25,400 of them exactly.
type Length int64

// Common lengths.
const (
	Micrometre Length = 1
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Inch              = 25400 * Micrometre
	// MaxLength is the longest length that a plan may state: 100 m. It
	// keeps sums of lengths, and areas, far from overflow.
	MaxLength = 100_000 * Millimetre
)

// Mass is a mass in milligrams.
type Mass int64

// Common masses; an avoirdupois pound is 0.45359237 kg exactly, an ounce a
// sixteenth of it, here to the nearest milligram.
const (
	Milligram Mass = 1
	Gram           = 1000 * Milligram
	Kilogram       = 1000 * Gram
	Ounce          = Mass(28350)
	Pound          = Mass(453592)
	// MaxMass is the largest mass that a plan may state: one tonne.
	MaxMass = 1000 * Kilogram
)

// Grams returns m in grams.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// LengthUnit is a unit that lengths are written in.
type LengthUnit string

const (
	Millimetres LengthUnit = "mm"
	Inches      LengthUnit = "in"
)

// MM returns l in millimetres, exact to three decimals.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// String returns l in millimetres with as many decimals as it needs: "12.5mm".
func (l Length) String() string { return l.Format(Millimetres) }

// Format returns l in the unit given, with the unit's name: millimetres with
// at most three decimals, inches as a whole number and a fraction when l is a
// multiple of 1/64 in, else with at most four decimals.
func (l Length) Format(u LengthUnit) string { return l.Number(u) + string(u) }

// Number is Format without the unit's name.
func (l Length) Number(u LengthUnit) string {
	if u != Inches {
		return trimZeros(strconv.FormatFloat(l.MM(), 'f', 3, 64))
	}
	// 1/64 in is 396.875 micrometres, so plans that say 1/64 in are rounded
	// on reading; take the nearest fraction when it reads back to l.
	n := int64(math.Round(float64(l) / float64(Inch) * 64))
	if Length(math.Round(float64(n)*float64(Inch)/64)) != l {
		return trimZeros(strconv.FormatFloat(float64(l)/float64(Inch), 'f', 4, 64))
	}
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, num, den := n/64, n%64, int64(64)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, num, den)
}

func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

var lengthUnits = map[string]*big.Rat{
	"mm": big.NewRat(1000, 1), "cm": big.NewRat(10_000, 1), "m": big.NewRat(1_000_000, 1),
	"in": big.NewRat(25_400, 1), `"`: big.NewRat(25_400, 1), "ft": big.NewRat(304_800, 1),
}

// ParseLength reads "24in", "7 1/2in", "1/2 in", "12cm", "305mm", "305.5 mm"
// or, in the unit given, a bare number. It rounds to the nearest micrometre
// and refuses what is longer than MaxLength.
func ParseLength(s string, bare LengthUnit) (Length, error) {
	v, err := parseQuantity(s, string(bare), lengthUnits, int64(MaxLength))
	if err != nil {
		return 0, fmt.Errorf("length %q: %w, want a number and mm, cm, m, in or ft, like \"305mm\" or \"7 1/2in\"", s, err)
	}
	return Length(v), nil
}

var massUnits = map[string]*big.Rat{
	"g": big.NewRat(1000, 1), "kg": big.NewRat(1_000_000, 1),
	"oz": big.NewRat(45359237, 1600), "lb": big.NewRat(45359237, 100),
}

// ParseMass reads "350g", "2.6kg", "12oz", "1 1/2 lb", and "2lb 10oz" as kitchen scales
// show it, each part rounded to a milligram; a bare number is grams.
func ParseMass(s string) (Mass, error) {
	if lb, oz, ok := strings.Cut(strings.ToLower(s), "lb"); ok && strings.HasSuffix(strings.TrimSpace(oz), "oz") {
		pounds, err := ParseMass(lb + "lb")
		if err != nil {
			return 0, err
		}
		ounces, err := ParseMass(oz)
		switch {
		case err != nil:
			return 0, err
		case pounds < 0 || ounces < 0 || pounds+ounces > MaxMass:
			return 0, fmt.Errorf("mass %q: want pounds and ounces above zero, and not above %.0f kg", s, MaxMass.Grams()/1000)
		}
		return pounds + ounces, nil
	}
	v, err := parseQuantity(s, "g", massUnits, int64(MaxMass))
	if err != nil {
		return 0, fmt.Errorf("mass %q: %w, want a number and g, kg, oz or lb", s, err)
	}
	return Mass(v), nil
}

// parseQuantity reads a number, perhaps with a fraction behind it, and a unit,
// and returns it in the measure of the units' factors, rounded.
func parseQuantity(s, bare string, units map[string]*big.Rat, limit int64) (int64, error) {
	s = strings.TrimSpace(s)
	if len(s) > 64 {
		return 0, fmt.Errorf("too long to be a number")
	}
	cut := len(s)
	for cut > 0 && !strings.ContainsRune("0123456789./ ", rune(s[cut-1])) {
		cut--
	}
	unit := strings.ToLower(strings.TrimSpace(s[cut:]))
	if unit == "" {
		unit = bare
	}
	f, ok := units[unit]
	if !ok {
		return 0, fmt.Errorf("unknown unit %q", unit)
	}
	sum := new(big.Rat)
	fields := strings.Fields(s[:cut])
	if len(fields) == 0 || len(fields) > 2 || len(fields) == 2 && !strings.Contains(fields[1], "/") {
		return 0, fmt.Errorf("no number")
	}
	for i, w := range fields {
		r, ok := parseNumber(w)
		if !ok || len(fields) == 2 && (r.Sign() < 0 || i == 0 && !r.IsInt()) {
			return 0, fmt.Errorf("%q is not a number", w)
		}
		sum.Add(sum, r)
	}
	sum.Mul(sum, f)
	if sum.Cmp(big.NewRat(limit, 1)) > 0 || sum.Cmp(big.NewRat(-limit, 1)) < 0 {
		return 0, fmt.Errorf("beyond all measure")
	}
	v, _ := sum.Float64()
	return int64(math.Round(v)), nil
}

// parseNumber reads "12", "-1.5", "3/8". Plain decimal digits only: an exponent
// could ask for a number of any size, and big.Rat takes 010/16 for octal.
func parseNumber(w string) (*big.Rat, bool) {
	if strings.Trim(w, "+-0123456789./") != "" {
		return nil, false
	}
	top, bottom, fraction := strings.Cut(w, "/")
	if !fraction {
		return new(big.Rat).SetString(w)
	}
	a, aok := new(big.Int).SetString(top, 10)
	b, bok := new(big.Int).SetString(bottom, 10)
	if !aok || !bok || b.Sign() <= 0 {
		return nil, false
	}
	return new(big.Rat).SetFrac(a, b), true
}

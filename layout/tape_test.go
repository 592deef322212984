package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTape(t *testing.T) {
	for l, want := range map[Length]string{
		0: "0", 49: "0", 50: "0.1", 1000: "1", 12_345: "12.3", 12_350: "12.4", -40: "0", -12_340: "-12.3", -60: "-0.1",
	} {
		assert.Equal(t, want, l.Tape(Millimetres), "%d", int64(l))
	}
	for l, want := range map[Length]string{
		Inch: "1", Inch / 2: "1/2", 10 * Millimetre: "13/32", 2 * Inch: "2", Inch + 397: "1 1/64", Inch + 250: "1",
	} {
		assert.Equal(t, want, l.Tape(Inches), "%d", int64(l))
	}
}

// Limits: never on the wrong side of what they are, and a mark of the ruler.
func TestAtLeastAndAtMost(t *testing.T) {
	for l, want := range map[Length][2]string{
		0: {"0", "0"}, 1: {"0", "0.1"}, 12_300: {"12.3", "12.3"}, 12_301: {"12.3", "12.4"}, 12_399: {"12.3", "12.4"}, -50: {"-0.1", "0"},
	} {
		assert.Equal(t, want, [2]string{l.AtMost(Millimetres).Number(Millimetres), l.AtLeast(Millimetres).Number(Millimetres)}, "%d", int64(l))
	}
	// 10 mm are 25.2 sixty-fourths. A micrometre is what reading a 64th may round
	// by, and counts for nothing.
	for l, want := range map[Length][2]string{
		Inch: {"1", "1"}, 397: {"1/64", "1/64"}, 10 * Millimetre: {"25/64", "13/32"}, Inch + 1: {"1", "1"}, Inch + 2: {"1", "1 1/64"},
	} {
		assert.Equal(t, want, [2]string{l.AtMost(Inches).Number(Inches), l.AtLeast(Inches).Number(Inches)}, "%d", int64(l))
	}
}

// What is added up is what is shown: 3 times 2 17/32 are 7 19/32, whatever the
// lengths are to the micrometre; 64 times 1/64 are 1.
func TestTogether(t *testing.T) {
	sixtyFour := make([]Length, 64)
	for i := range sixtyFour {
		sixtyFour[i] = 397 // as "1/64in" is read
	}
	assert.Equal(t, "1", Together(sixtyFour, Inches).Tape(Inches))
	third := Length(64_200)
	assert.Equal(t, "2 17/32", third.Tape(Inches))
	assert.Equal(t, "7 19/32", Together([]Length{third, third, third}, Inches).Tape(Inches))
	assert.Equal(t, "0.3", Together([]Length{130, 130, 130}, Millimetres).Tape(Millimetres))
}

func TestUpTo(t *testing.T) {
	assert.Equal(t, 13*Millimetre, (12*Millimetre + 1).UpTo(Millimetres))
	assert.Equal(t, 12*Millimetre, (12 * Millimetre).UpTo(Millimetres))
	assert.Equal(t, Inch/2, (Inch/2 - 5).UpTo(Inches))
}

// F = C x 9/5 + 32.
func TestWarmth(t *testing.T) {
	assert.Equal(t, "49 °C", Warmth(49, Millimetres))
	assert.Equal(t, "120 °F", Warmth(49, Inches))
	assert.Equal(t, "212 °F", Warmth(100, Inches))
}

// A pound is 0.45359237 kg and 16 ounces: the international avoirdupois pound of
// 1959, as NIST SP 811 has it (from memory).
func TestMassesInThePlayersMeasure(t *testing.T) {
	assert.Equal(t, "13.5 kg", (13_460 * Gram).Carried(Millimetres))
	assert.Equal(t, "50.7 lb", (23 * Kilogram).Carried(Inches))
	assert.Equal(t, "1050 g", (1050 * Gram).Scales(Millimetres))
	for m, want := range map[Mass]string{
		0: "0.0 oz", Ounce: "1.0 oz", 350 * Gram: "12.3 oz", Pound: "1 lb 0.0 oz", Pound - 1: "1 lb 0.0 oz",
		Pound - Ounce/10: "15.9 oz", 800 * Gram: "1 lb 12.2 oz", 5 * Pound / 2: "2 lb 8.0 oz",
	} {
		assert.Equal(t, want, m.Scales(Inches), "%d mg", int64(m))
	}
}

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

func TestUpTo(t *testing.T) {
	assert.Equal(t, 13*Millimetre, (12*Millimetre + 1).UpTo(Millimetres))
	assert.Equal(t, 12*Millimetre, (12 * Millimetre).UpTo(Millimetres))
	assert.Equal(t, Inch/2, (Inch/2 - 5).UpTo(Inches))
}

package check

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"footplank/layout"
)

// By hand: half a kilogram bumped with 5 g pulls with 0.5 x 9.80665 x 5 = 24.5
// N. Its base of 70 x 120 mm less 4 mm all round is 62 x 112 = 6944 mm2, and a
// tenth of 20 kPa on that is 13.9 N.
func TestFastenerTooWeak(t *testing.T) {
	p := tiny()
	p.Units = p.Units[:1]
	assert.Empty(t, lineup(p))
	p.Fastening.Interlock.StrengthKPa = 20
	f := only(t, lineup(p), FastenerWeak)
	assert.Equal(t, Caution, f.Level)
	assert.Equal(t, []string{"a"}, f.Units)
	assert.Equal(t, "N", f.Unit)
	assert.InDelta(t, 24.517, f.Measured, 0.001)
	assert.Less(t, f.Limit, 13.9)
	assert.Contains(t, f.Text, "Take a roll of at least ")

	// Beyond half of the published figure it is a fault.
	p.Fastening.Interlock.StrengthKPa = 4
	assert.Equal(t, Fault, only(t, lineup(p), FastenerWeak).Level)
}

// A base that is all feet and battery door has no room for a piece.
func TestFastenerWithoutRoom(t *testing.T) {
	p := tiny()
	p.Units = p.Units[:1]
	p.Units[0].OnBase = []layout.BaseSpot{{Kind: layout.BatteryDoor, At: layout.Rect{X0: 6 * mm, Y0: 6 * mm, X1: 64 * mm, Y1: 114 * mm}}}
	f := only(t, lineup(p), FastenerNone)
	assert.Equal(t, Fault, f.Level)
	assert.Contains(t, f.Text, "Clear its base")
	assert.Equal(t, Faults, Verdict(lineup(p), false))
}

// A swap unit in one line-up where a fixed one stands in another.
func TestFastenerOfTwoKindsAtOnePlace(t *testing.T) {
	p := tiny()
	p.Units[1].Mount = layout.Swap
	p.Units[1].Mass = 100 * layout.Gram
	p.Units[1].Place.At = layout.Point{X: 60 * mm, Y: 20 * mm}
	p.Slots = []layout.Slot{{Name: "s", On: layout.DeckName, At: p.Board.Rect()}}
	p.Lineups = []layout.Lineup{
		{Name: "one", Fill: map[string][]string{"s": {"a"}}},
		{Name: "two", Fill: map[string][]string{"s": {"b"}}},
	}
	for i, l := range []string{"one", "two"} {
		f := only(t, Lineup(p, &p.Lineups[i]), FastenerKinds)
		assert.Equal(t, Caution, f.Level)
		assert.Equal(t, l, f.Lineup)
		// 30 x 120 mm of both bases.
		assert.Equal(t, 3600.0, f.Measured)
		assert.Equal(t, "mm2", f.Unit)
	}
}

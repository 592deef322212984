package check

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"footplank/layout"
)

// By hand: the bare board of 4 kg has its centre of mass at x = 200 mm, the unit
// of 1 kg stands at -30 mm with its middle at 5 mm. Together (4 x 200 + 1 x 5) / 5
// = 161 mm, 141 mm inside the left feet at 20 mm. The switch is at -20 mm, 40 mm
// outside. 5 kg x 9.80665 m/s2 x 141 mm / 40 mm = 172.842 N.
func TestTippingByHand(t *testing.T) {
	p := tiny()
	p.Board.Mass, p.Board.Feet = 4*layout.Kilogram, 20*mm
	p.Board.Overhang.Left = 40 * mm
	p.Units = p.Units[:1]
	p.Units[0].Mass = layout.Kilogram
	move(&p.Units[0], -30*mm, 20*mm)
	foot(&p.Units[0], 10*mm, 60*mm, 55*mm)
	const want = 5 * 9.80665 * 141 / 40
	p.Limits.FootForce = want - 0.001
	assert.Empty(t, lineup(p))
	p.Limits.FootForce = want + 0.001
	f := only(t, lineup(p), Tips)
	assert.Equal(t, Caution, f.Level)
	assert.InDelta(t, 172.842, f.Measured, 0.001)
	assert.Equal(t, "N", f.Unit)
	assert.Equal(t, []string{"a"}, f.Units)
	assert.Contains(t, f.Text, "more than 172 N (the weight of 17 kg) tips the board over its left edge")
	assert.Contains(t, f.Text, "Move Unit a to the right")

	// No foot tips a board from inside its feet.
	p.Units[0].Switches[0].At.X = 50 * mm
	p.Limits.FootForce = 1e9
	assert.Empty(t, lineup(p))
}

// The four edges are alike: the same board turned round tips at the same force.
func TestTippingOverEachEdge(t *testing.T) {
	for _, tt := range []struct {
		edge string
		x, y layout.Length
	}{{"left", -30 * mm, 100 * mm}, {"right", 330 * mm, 100 * mm}, {"front", 100 * mm, -30 * mm}, {"back", 100 * mm, 330 * mm}} {
		p := tiny()
		p.Board.W, p.Board.D, p.Board.Mass = 400*mm, 400*mm, 4*layout.Kilogram
		p.Board.Overhang = layout.Edges{Front: 40 * mm, Back: 40 * mm, Left: 40 * mm, Right: 40 * mm}
		p.Units = p.Units[:1]
		u := &p.Units[0]
		u.Body.W, u.Body.D, u.Mass = 100*mm, 100*mm, layout.Kilogram
		move(u, tt.x, tt.y)
		foot(u, 50*mm, 50*mm, 55*mm)
		switch tt.edge {
		case "left":
			u.Switches[0].At.X = 10 * mm
		case "right":
			u.Switches[0].At.X = 90 * mm
		case "front":
			u.Switches[0].At.Y = 10 * mm
		case "back":
			u.Switches[0].At.Y = 90 * mm
		}
		// (4 x 200 + 1 x 20) / 5 = 164 mm inside; the foot 20 mm outside.
		p.Limits.FootForce = 1e6
		f := only(t, lineup(p), Tips)
		assert.InDelta(t, 5*layout.Gravity*164/20, f.Measured, 0.001, tt.edge)
		assert.Contains(t, f.Text, "over its "+tt.edge+" edge")
	}
}

// A treadle is pressed at both ends of its middle line, however it is turned.
func TestTippingByATreadle(t *testing.T) {
	p := tiny()
	p.Board.Mass, p.Board.Feet = 4*layout.Kilogram, 20*mm
	p.Limits.FootForce = 1e6
	p.Units = p.Units[:1]
	u := &p.Units[0]
	u.Treadle, u.Turns = true, []layout.Turn{0, 1, 2, 3}
	move(u, 100*mm, 0)
	f := only(t, lineup(p), Tips)
	assert.Contains(t, f.Text, "over its front edge")
	u.Place.Turn = 3
	move(u, 0, 20*mm)
	f = only(t, lineup(p), Tips)
	assert.Contains(t, f.Text, "over its left edge")
}

func TestBoardThatFallsOver(t *testing.T) {
	p := tiny()
	p.Board.Mass, p.Board.Feet = 1*layout.Kilogram, 150*mm
	p.Units = p.Units[:1]
	p.Units[0].Mass = 3 * layout.Kilogram
	move(&p.Units[0], 0, 90*mm) // middle at 35 mm, 150 mm
	// (1 x 200 + 3 x 35) / 4 = 76.25 mm, 73.75 mm past the left feet at 150 mm.
	f := only(t, lineup(p), FallsOver)
	assert.Equal(t, Fault, f.Level)
	assert.InDelta(t, 73.75, f.Measured, 1e-9)
	assert.Contains(t, f.Text, "falls over to the left by itself")
}

// The default limit is the load constant of the NIOSH lifting equation, 23 kg:
// FACTS, read at the source (Waters and others, Applications Manual).
func TestMassLimit(t *testing.T) {
	p := tiny()
	p.Board.Mass = 20 * layout.Kilogram
	p.Board.Case = &layout.Case{Inside: layout.Size{W: 1000 * mm, D: 1000 * mm, H: 1000 * mm}, Mass: 2 * layout.Kilogram}
	assert.Empty(t, lineup(p), "20 + 2 x 0.5 + 2 is 23 kg")
	p.Units[0].Mass++
	f := only(t, lineup(p), TooHeavy)
	assert.Equal(t, Caution, f.Level)
	assert.InDelta(t, 23000.001, f.Measured, 1e-6)
	assert.Equal(t, 23000.0, f.Limit)
	assert.Equal(t, "g", f.Unit)
	p.Limits.MassGiven = true
	assert.Equal(t, Fault, only(t, lineup(p), TooHeavy).Level)
	p.Units[0].Place = nil
	assert.Len(t, find(lineup(p), TooHeavy), 1, "it is carried without a place too")
}

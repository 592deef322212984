package layout

// Sizes of feet and of what they press. They are what a plan's own limits
// start from.
const (
	// FootBreadth and FootLength are the 95th percentile of men, ANSUR II
	// (n = 4082).
	FootBreadth = 111 * Millimetre
	FootLength  = 293 * Millimetre
	// ShoeAllowance is what a street shoe adds to the breadth of a foot:
	// British anthropometry.
	ShoeAllowance = 10 * Millimetre
	// ShoeBreadth is the width in front of a switch that must be low.
	ShoeBreadth = FootBreadth + ShoeAllowance
	// SwitchRadius is that of a foot switch's cap: common practice, no source.
	SwitchRadius = 6 * Millimetre
	// TreadleFront is how far behind the board's front edge a treadle's
	// front may be: further back and the heel has no floor. Common practice,
	// no source.
	TreadleFront = 40 * Millimetre
)

// SwitchHeight is the height of a switch's cap above the unit's base; one
// without a height is at the top of the body.
func (u *Unit) SwitchHeight(i int) Length {
	if h := u.Switches[i].Height; h > 0 {
		return h
	}
	return u.Body.H
}

// Treads returns the columns of air above what a foot presses, at turn t in
// the unit's frame: above each switch's cap, as far as it is over the body, and
// above a treadle's whole body. Where something reaches into one no foot gets
// at the unit.
func (u *Unit) Treads(t Turn) []Box {
	w, d := u.Body.W, u.Body.D
	body := Rect{0, 0, w, d}
	var out []Box
	if u.Treadle {
		out = append(out, t.Box(BoxOn(body, u.Height(), MaxLength), w, d))
	}
	for i, s := range u.Switches {
		button := Rect{s.At.X - SwitchRadius, s.At.Y - SwitchRadius, s.At.X + SwitchRadius, s.At.Y + SwitchRadius}
		out = append(out, t.Box(BoxOn(button.Intersect(body), u.SwitchHeight(i), MaxLength), w, d))
	}
	return out
}

// StepOver returns how much higher than a switch's cap, at p and the height z,
// the box reaches in the strip that a foot on that switch comes over: as wide
// as a shoe, as long as a foot, in front of the switch. It is 0 for a box with no
// part in the strip, and less for one that is lower than the cap.
//
//	|  switch  |
//	|    o     |
//	|   +------+---
//	|   | tall |       the heel comes from here
//	|   +------+---
//	   front
func StepOver(p Point, z Length, b Box) Length {
	strip := Rect{p.X - ShoeBreadth/2, p.Y - FootLength, p.X + ShoeBreadth/2, p.Y}
	if !b.Rect().Overlaps(strip) {
		return 0
	}
	return b.Z1 - z
}

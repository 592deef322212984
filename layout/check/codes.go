package check

import (
	"footplank/layout/mount"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Codes of findings. They are stable: scripts may rely on them. Each comment
// gives the level, what Measured and Limit are, and where the rule comes from.
const (
	// NoPlace: a unit of the line-up has no place, or one on a surface that
	// the board does not have. Fault. No measure.
	NoPlace = "no-place"
	// WrongSurface: a unit stands on a surface that it, or its slot, does
	// not allow. Fault. No measure; the plan's own rule.
	WrongSurface = "wrong-surface"
	// WrongTurn: a unit is turned as the plan does not allow. Fault.
	// Measured is the turn in degrees; the plan's own rule.
	WrongTurn = "wrong-turn"
	// OutsideSlot: a unit's body reaches out of its slot. Fault. Measured is
	// how far in mm on the worst side, Limit 0; the plan's own rule.
	OutsideSlot = "outside-slot"
	// SlotEmpty: a slot holds nothing in this line-up. Note. No measure.
	SlotEmpty = "slot-empty"

	// Collision: two units want the same room, whether bodies, plugs or a
	// treadle's sweep. Fault, one a pair. Measured is how far in mm the
	// second must move, to the side where that is least, to come clear of
	// all that it overlaps of the first; Limit 0. Geometry.
	Collision = "collision"
	// Obstacle: a unit or its plug is in a leg or platform of a riser, or in
	// a fixture. Fault, one for each obstacle. Measured as for Collision.
	Obstacle = "obstacle"
	// Headroom: a unit or its plug is too tall for the room under a riser.
	// Fault. Measured is the height in mm above the unit's surface that it
	// needs there, Limit the clear height. Geometry.
	Headroom = "headroom"
	// OwnPlugs: two plugs of one unit want the same room. Fault. Measured is
	// how far in mm they overlap along the wall, Limit 0. Geometry.
	OwnPlugs = "own-plugs"
	// PlugBelow: a plug reaches below the unit's base and into the surface.
	// Fault. Measured is how far in mm, Limit 0. Geometry.
	PlugBelow = "plug-below"

	// OffBoard: a unit's body stands further past an edge of its surface or
	// of the board than that edge's overhang. Fault. Measured is how far in
	// mm past the edge, Limit the overhang; the plan's own rule.
	OffBoard = "off-board"
	// PlugOffBoard: a plug stands further past an edge of the board than the
	// plan leaves room for. Fault. Measured and Limit as for OffBoard.
	PlugOffBoard = "plug-off-board"
	// LittleBase: too little of a unit's base bears. Fault. Measured is the
	// width or depth in mm that does, Limit what must: half, or 71 % of both
	// where it passes edges both ways. Common practice, no source;
	// layout.Surface.RestRegions decides.
	LittleBase = "little-base"
	// BetweenRails: a unit falls between the rails, or tips off them. Fault.
	// Measured is the depth in mm that bears on the second-best rail, Limit
	// layout.MinBearing; both 0 when it bears on two rails and yet not on
	// both sides of its middle. Common practice, no source;
	// layout.Surface.RestRegions decides.
	BetweenRails = "between-rails"

	// CaseBoard: the bare board is larger than the case inside. Fault.
	// Measured is the board's side in mm, Limit the case's. Geometry.
	CaseBoard = "case-board"
	// CaseWall: the board with what stands past its edges is wider or deeper
	// than the case inside. Fault. Measured is that width or depth in mm,
	// Limit the case's. Plugs of cables that leave the board are pulled out
	// for travel and do not count, nor does a treadle's sweep.
	CaseWall = "case-wall"
	// CaseLid: a unit, with knobs, or its plug, or a part of the board is
	// too tall for the lid. Fault. Measured is its top in mm above the
	// deck's top, Limit the room there.
	CaseLid = "case-lid"

	// SwitchesClose: switches of two units are closer than a shoe needs.
	// Caution; note when neither unit is worked while playing. Measured is
	// the distance of their centres seen from above in mm, Limit
	// Limits.Reach, by default half a P95 street shoe + 6 mm of switch + 5 mm
	// of margin (ANSUR II foot breadth; British anthropometry for the shoe).
	SwitchesClose = "switches-close"
	// StepOver: something in front of a switch, within a shoe's width and
	// length, is too tall to reach over. Caution; note when the unit is not
	// worked while playing. Measured is how much taller in mm than the
	// switch, Limit Limits.StepOver: common practice, no source.
	StepOver = "step-over"
	// Covered: something lies above a switch or a treadle, so that no foot
	// gets at it. Fault; caution when the unit is not worked while playing.
	// Measured is the clear height above it in mm. Geometry.
	Covered = "covered"
	// TreadleBack: a treadle's front is further than layout.TreadleFront behind the
	// board's front edge, so that the heel has no floor. Caution. Measured
	// and Limit in mm. Common practice, no source.
	TreadleBack = "treadle-back"
	// TreadleBlocked: something stands between a treadle and the board's
	// front edge. Caution. Measured is the depth in mm that it takes there,
	// Limit 0. Common practice, no source.
	TreadleBlocked = "treadle-blocked"

	// TooHeavy: the loaded board with its case is heavier than the limit.
	// Fault when the plan gives the limit; caution when it is the default,
	// the load constant of the NIOSH lifting equation, 23 kg. Grams.
	TooHeavy = "too-heavy"
	// Tips: a foot that presses a switch or treadle past the board's feet
	// lifts the other side. Caution. Measured is the force in newtons that
	// just does, Limit Limits.FootForce: common practice, no source. Statics.
	Tips = "tips"
	// FallsOver: the loaded board's centre of mass is past its feet: it
	// falls over by itself. Fault. Measured is how far in mm, Limit 0.
	// Statics.
	FallsOver = "falls-over"

	// RunsBack: the signal comes in on the side that it should leave by.
	// Note. Measured is by how much in mm, Limit 0. In at the right and out
	// at the left is the trade's habit (theelectricguitars 2010/01).
	RunsBack = "runs-back"

	// NoCable: no cable of the chain goes to a unit that has jacks for the
	// signal, one finding for all such units. Note. No measure.
	NoCable = "no-cable"

	// The codes of the power map; its package gives level, measure and source.
	AcIntoDc            = power.AcIntoDc
	DcIntoAc            = power.DcIntoAc
	OverVoltage         = power.OverVoltage
	UnderVoltage        = power.UnderVoltage
	ReversedPolarity    = power.ReversedPolarity
	Overload            = power.Overload
	LittleHeadroom      = power.LittleHeadroom
	NoOutput            = power.NoOutput
	NoSupply            = power.NoSupply
	NoLink              = power.NoLink
	ReversingLeadNeeded = power.ReversingLeadNeeded
	LongLead            = power.LongLead
	LeadNoWay           = power.LeadNoWay
	TourMains           = power.TourMains
	PowerUndecided      = power.NotDecided

	// The codes of fastener; their package gives level, measure and source.
	FastenerWeak  = mount.Weak
	FastenerNone  = mount.None
	FastenerKinds = mount.TwoKinds

	// The codes of cables, which WithCables puts in; their package gives level,
	// measure and source.
	NoWay          = wiring.NoWay
	BendTight      = wiring.BendTight
	ChainOrder     = wiring.ChainOrder
	LongUnbuffered = wiring.LongUnbuffered
	ReelShort      = wiring.ReelShort
	KitShort       = wiring.KitShort
	FeedbackLoop   = wiring.FeedbackLoop
	UsedTwice      = wiring.UsedTwice
)

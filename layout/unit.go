package layout

import "slices"

// Mount says how a unit is held to the board.
type Mount string

const (
	Fixed Mount = "fixed" // interlocking (mushroom-head) fastener, stays for years
	Swap  Mount = "swap"  // hook-and-loop, changes per gig
)

// JackKind is a family of connectors that mate with each other.
type JackKind string

const (
	Phone   JackKind = "phone"    // 1/4 in (6.35 mm) two- or three-pole phone jack
	MiniTRS JackKind = "mini-trs" // 3.5 mm
	XLR     JackKind = "xlr"      // three-pole, EN 61076-2-103
	DIN     JackKind = "din"      // five-pole, DIN 41524
	DC      JackKind = "dc"       // barrel, 5.5/2.1 mm, IEC 60130-10 type A
	Mains   JackKind = "mains"    // appliance inlet, IEC 60320
)

// Signal is what goes through a jack.
type Signal string

const (
	Audio   Signal = "audio"
	Control Signal = "control" // expression, foot switch, MIDI
	Power   Signal = "power"   // low-voltage DC or AC
	Line    Signal = "mains"   // mains
)

// Direction is which way a jack's signal goes.
type Direction string

const (
	In  Direction = "in"
	Out Direction = "out"
)

// LegSide is where the leg of a right-angle plug points: up, down, or along
// the wall towards one of the unit's sides, named as at turn 0.
type LegSide string

const (
	LegUp    LegSide = "up"
	LegDown  LegSide = "down"
	LegLeft  LegSide = "left"
	LegRight LegSide = "right"
	LegFront LegSide = "front"
	LegBack  LegSide = "back"
)

// PlugForm is the shape of a plug, with its cable's first bend.
type PlugForm struct {
	Name  string
	Kind  JackKind
	Out   Length // how far it stands out of the wall, first bend included
	Width Length // across, both along the wall and in height
	// Leg is how far a right-angle plug's leg reaches from the jack's axis;
	// zero for straight and flat plugs.
	Leg Length
}

// Jack is one connector in a wall of a unit, in the unit's frame at turn 0.
type Jack struct {
	ID     string // "in", "out", "send", "return", "dc", ...; unique in its unit
	Kind   JackKind
	Signal Signal
	Dir    Direction
	Wall   Wall
	// Along is the distance of the jack's axis from the wall's left end for
	// the front and back walls, from its front end for the side walls.
	Along  Length
	Height Length // of the axis above the unit's base
	Plug   PlugForm
	Leg    LegSide // for a plug with a leg; "" is LegUp
	// PlugGiven and LegGiven are set where the plan itself names the plug or
	// its leg; otherwise the program may choose what fits.
	PlugGiven, LegGiven bool
	// Usual is the plug of the unit's form where the program chose another
	// because that one does not seat; zero where it did not. Plug and Leg are
	// then what it chose: they follow from where the units stand, and no plan
	// file has them.
	Usual Seat
}

// CarriesSignal reports whether a cable of the chain may go into the jack: audio
// or control, not power.
func (j Jack) CarriesSignal() bool { return j.Signal == Audio || j.Signal == Control }

// Seat is how a plug sits in a jack: its form, and where its leg points.
type Seat struct {
	Plug PlugForm
	Leg  LegSide
}

// UsualSeat returns the plug that the jack has when nothing is in its way.
func (j *Jack) UsualSeat() Seat {
	s := Seat{j.Plug, j.Leg}
	if j.Usual == (Seat{}) {
		return s
	}
	// What the plan names was never chosen, and may be newer than Usual.
	if !j.PlugGiven {
		s.Plug = j.Usual.Plug
	}
	if !j.LegGiven {
		s.Leg = j.Usual.Leg
	}
	return s
}

// Asked returns the jack as the plan and its forms have it, without what the
// program chose.
func (j Jack) Asked() Jack {
	s := j.UsualSeat()
	j.Plug, j.Leg, j.Usual = s.Plug, s.Leg, Seat{}
	return j
}

// Switch is the centre of a foot switch seen from above, at turn 0.
type Switch struct {
	Name   string
	At     Point
	Height Length // of the cap above the base
}

// Sweep is the room that a treadle's rocking plate takes beyond its body.
type Sweep struct {
	Front, Back, Left, Right Length // beyond the body's edges
	From, Top                Length // heights above the base
}

// Placement is where a unit stands: the front-left corner of its turned body
// on a surface.
type Placement struct {
	On   string // name of the surface
	At   Point
	Turn Turn
}

// Unit is anything with a footprint on the board.
type Unit struct {
	ID    string
	Label string // shown to the player; never empty
	Form  string // name of its form in the catalog, "" if none

	Body     Size // outer walls, without knobs and jack nuts
	Overall  Size // with knobs and jack nuts; at least Body
	Mass     Mass
	Switches []Switch
	Jacks    []Jack
	OnBase   []BaseSpot // what fastener must keep clear of
	Sweep    *Sweep
	Treadle  bool // worked by rocking, wants the heel at the board's front
	// Buffer is set for a unit that drives the cable behind it by itself,
	// also when it is off: a buffer, a preamp, what is digital. Others pass
	// the signal through, and their cables add up.
	Buffer  bool
	Draw    *Draw
	Outputs []Output
	// Milliwatts is the most that a supply or an expander gives in all; zero
	// when only its outputs bound it.
	Milliwatts int
	Mains      *MainsInput // what its mains input is made for; nil if not known

	Mount  Mount
	Pinned bool // the arranger may not move it
	// Often is how often the unit is worked while playing: 0 never, 3 in
	// every tune. The arranger puts much-used units in front.
	Often int
	// On lists the surfaces it may stand on; empty for all.
	On []string
	// Turns lists the turns it may take; empty for turn 0 only.
	Turns []Turn
	// Uses lists jacks in use beyond those that the chain, the links and
	// power use.
	Uses []string
	// ToBuy is set for a unit that the player does not have yet.
	ToBuy bool

	// Place is where it stands in every line-up that does not say
	// otherwise; nil if not placed yet.
	Place *Placement
}

// Jack returns the jack with that ID, or nil.
func (u *Unit) Jack(id string) *Jack {
	for i := range u.Jacks {
		if u.Jacks[i].ID == id {
			return &u.Jacks[i]
		}
	}
	return nil
}

// Height is the unit's height with knobs.
func (u *Unit) Height() Length { return max(u.Body.H, u.Overall.H) }

// Worked reports whether a foot works it.
func (u *Unit) Worked() bool { return u.Treadle || len(u.Switches) > 0 }

// AllowedTurns returns the turns it may take, turn 0 if it names none.
func (u *Unit) AllowedTurns() []Turn {
	if len(u.Turns) == 0 {
		return []Turn{0}
	}
	return u.Turns
}

// MayStandOn reports whether the unit allows the surface of that name.
func (u *Unit) MayStandOn(surface string) bool {
	return len(u.On) == 0 || slices.Contains(u.On, surface)
}

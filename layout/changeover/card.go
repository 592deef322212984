package changeover

import "footplank/layout"

// Kind is what a step does.
type Kind string

const (
	Mute   Kind = "mute"   // everything quiet before anything is pulled out
	Unplug Kind = "unplug" // a cable or a lead, at one end or both
	Lift   Kind = "lift"   // a unit off the board, or aside for a while
	Move   Kind = "move"   // a unit from one place to another
	Place  Kind = "place"  // a unit onto the board
	Plug   Kind = "plug"   // a cable, at one end or both
	Power  Kind = "power"  // a lead into a unit, or an output's switch
	Check  Kind = "check"  // each unit has power, the signal comes through
)

// Kinds returns the kinds in the order in which a card counts them.
func Kinds() []Kind { return []Kind{Mute, Unplug, Lift, Move, Place, Plug, Power, Check} }

// Sort is what is plugged: it tells cables and leads apart.
type Sort string

const (
	Patch  Sort = "cable" // of the kit; Step.Cable is its ID
	Stage  Sort = "stage" // leaves the board: the instrument's, the amp's or desk's
	Lead   Sort = "lead"  // of power, known by its output
	Mains  Sort = "mains" // from the wall: a mains cable, or an adaptor's
	Beside Sort = "other" // in a jack that the plan only says is in use
)

// Step is one thing to do.
type Step struct {
	Kind Kind
	// Unit is the unit that is lifted, moved or placed, or that a lead of a
	// step feeds; "" otherwise.
	Unit string
	// From and To are where it stands and where it is to stand: From of a
	// lift, To of a placing, both of a move.
	From, To *layout.Placement
	// Aside is set for a lift when the unit is placed again later, and for
	// that placing.
	Aside bool

	// Sort, Cable and Label are of what is plugged or unplugged: Cable is
	// what it is called, Label what is written on it.
	Sort         Sort
	Cable, Label string
	// Ends are the jacks that the step pulls out of or plugs into, Stays
	// the cable's ends that stay where they are, plugged.
	Ends  []End
	Stays []layout.JackRef
	// By is set when the cable or lead is not plugged in the line-up to come:
	// it is put by. Fetched is set when it was not plugged in the one before.
	By, Fetched bool
	// Over is the unit that the cable lies over, if one of its ends is pulled
	// for that alone.
	Over string
	// Millivolts is what the output of a lead must be set to, 0 for an output
	// without a switch.
	Millivolts int
	// Clear names the cables and leads that stay plugged and lie where the
	// unit goes: they are to be laid aside first.
	Clear []string

	// Units is, for a check, the units to be looked at, in the plan's order.
	Units []string
	// out and in are how it comes out from under a riser, or goes in under one.
	out, in *passage
	// beneath is the riser that it moves under without coming out.
	beneath string
	// Text is the step in words, lengths in the plan's unit.
	Text string
}

// End is a jack that a plug goes into or comes out of. Tight names the unit that
// leaves the plug no room to go straight in or out, so that one of the two must
// be taken up with it; "" where there is room.
type End struct {
	layout.JackRef
	Tight string
}

// Card is the steps from one line-up to another. Cards are never changed.
type Card struct {
	From, To string // names of line-ups
	Steps    []Step // none when there is nothing to do
	// AsideFewest is set when it is proved that no order sets fewer units
	// aside.
	AsideFewest bool
}

// Count returns how many steps are of that kind.
func (c *Card) Count(k Kind) int {
	n := 0
	for i := range c.Steps {
		if c.Steps[i].Kind == k {
			n++
		}
	}
	return n
}

// PlacesAre says how the places in the card's words are measured; "" where it
// tells of none.
func (c *Card) PlacesAre() string {
	text := ""
	for i := range c.Steps {
		to := c.Steps[i].To
		switch {
		case to == nil:
		case to.At.X < 0 || to.At.Y < 0:
			return placesAre + " What is less than 0 is past that edge."
		default:
			text = placesAre
		}
	}
	return text
}

const placesAre = "Places are those of a unit's front left corner as it lies, from the left and front edges of the board."

// SetAside returns how many units are set aside and placed again later.
func (c *Card) SetAside() int {
	n := 0
	for i := range c.Steps {
		if s := &c.Steps[i]; s.Kind == Lift && s.Aside {
			n++
		}
	}
	return n
}

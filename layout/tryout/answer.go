package tryout

import (
	"time"

	"footplank/layout"
	"footplank/layout/check"
)

// Verdict is what a tryout comes to, by room alone.
type Verdict string

const (
	Fits       Verdict = "fits"       // where things stand, nothing else moves
	Moves      Verdict = "moves"      // if other units move
	Impossible Verdict = "impossible" // wherever anything stands, proved
	Undecided  Verdict = "undecided"  // the time or the steps were up
)

// Answer is what came of one question. A unit that fits may still lack an
// output or a way for a cable: see Works.
type Answer struct {
	Question Question
	Verdict  Verdict
	// Proved: with Moves, no fewer moves do; with Impossible always. Of Fits
	// the place is the proof.
	Proved bool
	// AllTried: what Undecided leaves open, or Moves unproved, more time would
	// not decide.
	AllTried bool
	// Lineups are those it was tried in, in the plan's order.
	Lineups []string
	// Unit is the tried unit's ID in Plan.
	Unit string
	// Plan is the plan with the unit in place and everything moved; nil unless
	// it fits.
	Plan *layout.Plan
	// Places is where the unit would stand; several only where line-ups differ.
	Places []Place
	// Moved is what moves, in the plan's order; empty unless Verdict is Moves.
	Moved []Move
	// Units and FixedUnits count the units that move, and the fixed ones among
	// them; Distance is the way they go in all, along the axes.
	Units, FixedUnits int
	Distance          layout.Length
	// Steps lists what was proved on the way, in words.
	Steps []string

	Conflict *Conflict // when Impossible
	Growth   []Growth  // what would make room, when Impossible
	Without  []string  // IDs of units of which one taken out would make room

	Power    Power
	Cables   []Cable // to add to the kit
	Blocked  []string
	Plugs    []PlugChange    // jacks in use that get another plug than they have
	Findings []check.Finding // that were not there before
	Notes    []string        // worth knowing
	Elapsed  time.Duration
}

// Room reports whether the unit fits, with or without moves.
func (a *Answer) Room() bool { return a.Verdict == Fits || a.Verdict == Moves }

// Works reports whether the unit fits, has its output, and takes no other's,
// and all cables have a way.
func (a *Answer) Works() bool { return a.Room() && a.Power.OK && len(a.Blocked) == 0 }

// Place is where the tried unit stands in some line-ups.
type Place struct {
	Lineups []string
	At      layout.Placement
}

// Move is one step: a unit to another place, in some line-ups.
type Move struct {
	Unit     string
	Lineups  []string
	From, To layout.Placement
	Fixed    bool // its interlocking fastener has to be lifted
}

// Conflict is a set of units that already cannot stand together.
type Conflict struct {
	Lineups  []string // where
	Units    []string
	Smallest bool // no smaller set is refused, proved
	Minimal  bool // without any one of them the rest fits, proved
	Why      string
}

// Growth is a larger slot or board that would make room.
type Growth struct {
	// What grows: "slot" or "board"; a board takes the slot with it.
	What string
	Side layout.Wall // the edge that goes outwards
	By   layout.Length
	// Exact: a millimetre less does not do, proved.
	Exact bool
	// Case is set when the board would no longer go into its case.
	Case bool
}

// Power is how the tried unit is fed.
type Power struct {
	OK   bool
	Text string
	// Outputs is what feeds the unit, by line-up; empty for one that needs no
	// output.
	Outputs map[string]layout.JackRef
	// Rivals are units that compete for too few outputs.
	Rivals []string
}

// Cable is one to add to the kit.
type Cable struct {
	Cut, Stock layout.Length // as in wiring.KitCable
	Plugs      [2]string
	Uses       []CableUse
}

// PlugChange is a jack with a plug of another form, by the names of both.
type PlugChange struct {
	Jack     layout.JackRef
	From, To string
}

// CableUse is where an added cable goes.
type CableUse struct {
	Lineup   string
	From, To layout.JackRef
}

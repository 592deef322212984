package boards

import (
	"footplank/layout"
	"footplank/pack"
)

// Candidate is a board to try. Board is a whole board, of the catalog, say; nil
// for the plan's own board cut or grown to W x D.
type Candidate struct {
	Name  string // shown; "" for the size alone
	W, D  layout.Length
	Board *layout.Board
	Price *layout.Price // nil when not known
	// Own is set for the plan's board as it is.
	Own bool
}

// Mounting says what of a plan's places is kept on another board.
type Mounting string

const (
	// FreeFixed: all but pinned units may move. The zero value means it.
	FreeFixed Mounting = "free"
	// KeepFixed: fixed units with a place keep it too.
	KeepFixed Mounting = "settled"
	// FreeAll: pinned units may move as well.
	FreeAll Mounting = "all free"
)

// Options steer Compare. The zero value is ready to use.
type Options struct {
	Mounting Mounting
	// Lineups names the line-ups that must fit; nil for all.
	Lineups []string
	// WithoutCase leaves the plan's case out: a board may then be larger
	// than it.
	WithoutCase bool
	Seed        int64
	// Seconds bounds the whole, shared out among the boards; zero for no
	// bound but the context's.
	Seconds float64
	// Steps bounds each search for a fit, in steps of the engine, zero for a
	// usual measure; ImproveSteps likewise the search for shorter cables
	// after it. With the same steps the answer is the same, as long as the
	// time does not run out.
	Steps, ImproveSteps int64
	Workers             int // boards tried beside each other, 0: one for each processor
	// Progress, if set, is told of each board when it is known, one call at
	// a time; done of total are, total is 0 for a staircase, which is not
	// known before.
	Progress func(done, total int, b *Board)
}

// Board is the answer for one candidate.
type Board struct {
	Candidate
	// Verdict says whether all line-ups fit: Impossible only with a proof.
	Verdict pack.Verdict
	// Why says why not, Units whom it concerns; set when Verdict is
	// Impossible.
	Why   string
	Units []string
	// AnySlots is set when the proof holds wherever the slots are, and not
	// for the places of the slots that were tried only.
	AnySlots bool
	// Works is set when all line-ups fit, nothing of it is a fault, and it
	// goes into the plan's case, if that counts. Smallest marks the one of
	// least area.
	Works, Smallest bool
	// Assumed says what the board was taken to be, a sentence each: where
	// risers and slots went, what was cut.
	Assumed []string

	// What follows is known when Verdict is Fits.

	// Plan is the plan on this board with every place set.
	Plan *layout.Plan
	// Faults says what the check finds at fault on it, beyond what is so
	// on any board; empty for nothing.
	Faults []string
	// Spare is what the units of each line-up leave free in the slots.
	Spare []Spare
	// Cable is the length of the kit that wires all line-ups, Longest that
	// of the runs of the line-up with most.
	Cable, Longest layout.Length
	// Mass is of the bare board with risers, Rig of the board with the
	// heaviest line-up on it, without a case.
	Mass, Rig layout.Mass
	// Outside is what the loaded board measures in all.
	Outside layout.Size
	// Case, CarryOn and Checked say what it goes into.
	Case, CarryOn, Checked Goes
}

// Spare is the free area in the slots of a line-up.
type Spare struct {
	Lineup string
	Area   int64 // square micrometres
}

// Goes says whether a loaded board goes into something.
type Goes string

const (
	Unasked Goes = ""       // there is none, or the board does not fit at all
	Yes     Goes = "yes"    // with the arrangement found
	No      Goes = "no"     // proved: no arrangement does
	NotSo   Goes = "not so" // not with the arrangement found; others may
)

// Result is the answer of Compare and Staircase.
type Result struct {
	Boards   []*Board // by area, then width, then name
	Mounting Mounting
	// Rules says, a sentence each, by which rules the plan was put onto
	// boards of other sizes.
	Rules []string
	// Same says what is at fault on any board, a sentence each: outputs
	// that are missing do not come with more wood.
	Same []string
	// Step is that of a staircase, zero for a list of boards; Corners are
	// then the boards that fit while none does that is smaller both ways,
	// Sure is set when that is proved between the boards not tried as well.
	Step    layout.Length
	Corners []*Board
	Sure    bool
	// Stopped is set when the context ended first: what is missing is
	// Undecided.
	Stopped bool
}

// Smallest returns the smallest board that works, or nil.
func (r *Result) Smallest() *Board {
	for _, b := range r.Boards {
		if b.Smallest {
			return b
		}
	}
	return nil
}

// LeastSpare returns the line-up that leaves least free in the slots, or false
// without slots.
func (b *Board) LeastSpare() (least Spare, ok bool) {
	for i, s := range b.Spare {
		if i == 0 || s.Area < least.Area {
			least, ok = s, true
		}
	}
	return least, ok
}

// Undecided reports whether some board is.
func (r *Result) Undecided() bool {
	for _, b := range r.Boards {
		if b.Verdict == pack.Undecided {
			return true
		}
	}
	return false
}

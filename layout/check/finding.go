package check

import (
	"cmp"
	"slices"
)

// Level says how bad a finding is.
type Level string

const (
	// Fault: the board cannot be built so, or not be played.
	Fault Level = "fault"
	// Caution: it can, and will be a nuisance or a risk.
	Caution Level = "caution"
	// Note: worth knowing.
	Note Level = "note"
)

// weight orders levels, the worst first.
func (l Level) weight() int {
	switch l {
	case Fault:
		return 0
	case Caution:
		return 1
	}
	return 2
}

// Finding is one thing wrong or worth knowing in one line-up.
type Finding struct {
	Code   string // one of the codes of this package
	Level  Level
	Lineup string   // name of the line-up
	Units  []string // IDs, the culprit first; may be empty
	Text   string   // a sentence or two, lengths in the plan's unit
	// Measured and Limit are what was found and what is allowed, in Unit:
	// "mm", "g", "N", "mA", or "" for numbers without a unit.
	Measured, Limit float64
	Unit            string
}

// Result is what a check of one line-up says.
type Result struct {
	Lineup   string
	Verdict  string
	Findings []Finding
}

// Verdicts of a line-up as far as a check can tell.
const (
	Fits     = "fits"
	Unplaced = "unplaced"
	Faults   = "faults"
)

// Verdict sums up findings: Faults when one of them is a fault, Unplaced when
// the only faults are units without a place (or unplaced is true), else Fits.
func Verdict(fs []Finding, unplaced bool) string {
	for i := range fs {
		if fs[i].Code == NoPlace {
			unplaced = true
		} else if fs[i].Level == Fault {
			return Faults
		}
	}
	if unplaced {
		return Unplaced
	}
	return Fits
}

// sortFindings puts faults first, then orders by code, units and text.
func sortFindings(fs []Finding) {
	slices.SortStableFunc(fs, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Level.weight(), b.Level.weight()),
			cmp.Compare(a.Code, b.Code),
			slices.Compare(a.Units, b.Units),
			cmp.Compare(a.Text, b.Text),
		)
	})
}

// Package wiring turns the chains of a plan's line-ups into cables: their runs,
// what to cut, the one kit that wires every line-up, and what the cables do to
// the signal.
//
// It knows plans, placements, forms of plugs, paths and cutting lists. It does
// not know plan files, searches, power or sheets.
//
//	cut = run + 2 plugs + slack
//
// where the run goes from plug to plug through free room, each plug swallows
// some cable and the slack is the larger of a tenth of the run and
// 20 mm (route.Cut). Estimate has straight lines for runs: a bound from below, fast
// enough to ask inside a search.
//
// # Plugs
//
// A jack has its usual plug, that of its form, unless that meets something where
// the units stand. Seat then gives it another: the leg elsewhere, or another
// form; as few meet something as can be, and as many as can be are usual. The
// choice is a function of the plan and its places and is put into the plan's
// jacks, as the power map's outputs are put into Feeds: whoever reads a plan or
// moves its units calls Seat, and all others find the plugs that it chose. It is
// in no plan file, so it cannot drift from the places; a plug that the plan names
// is never changed.
//
// # The kit
//
// Cables with the same two plugs can stand in for each other if they are long
// enough. So sort those of each line-up, longest first:
//
//	barn   310  240  180  120
//	pit    280  260  150
//	kit    310  260  180  120     the longest of each column
//
// No smaller kit will do: a line-up needs as many cables of a length or more as
// it has, and the kit has just as many as the line-up that needs most. Which of
// them goes where is free as long as all find one; a link that several line-ups
// have keeps its cable where that costs nothing.
//
// # Load
//
// A cable is a capacitor across what feeds it. Behind a buffer that hardly
// matters; behind a plain pickup it makes a resonance with the coil, which falls
// with each metre up to the first buffer:
//
//	f = 1 / (2 pi sqrt(L C))
//
// Load cuts each line-up's chain at its buffers and adds up the stretches.
package wiring

// Package wiring turns the chain of a line-up into cables.
//
// It knows plans and placements. It does not know plan files, searches or
// sheets. A cable's path here is the straight line between the tips of its two
// plugs: an estimate from below of what a run on the board needs.
//
//	cut = run + 2 plugs + slack
//
// where each plug swallows PlugTake of cable and the slack is the larger of a
// tenth of the run and SlackLeast.
package wiring

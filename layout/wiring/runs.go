package wiring

import "footplank/layout"

// Cables returns the line-up's cables in the order of the signal with their runs
// on the board. What is left out is as in Estimate.
func Cables(p *layout.Plan, l *layout.Lineup) []Cable {
	return Estimate(p, l)
}

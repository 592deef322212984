// Package check looks at a plan, one line-up at a time, and says what is wrong
// with it or worth knowing.
//
// It knows every rule of building and playing a board: room, bearing, reach,
// load, balance. It does not know plan files, searches, sheets or terminals;
// what it finds are values with stable codes, which text, JSON and the screen
// render each in its own way.
//
// # How
//
// A line-up is laid out once (layout.Plan.Standings) and each rule then walks
// over what stands there:
//
//	Standings -> place   slot, surface, turn, no place yet
//	          -> collide unit against unit, unit against riser and fixtures
//	          -> edges   overhang, plug room, bearing
//	          -> fit     the case
//	          -> reach   switches and treadles under a shoe
//	          -> load    mass, balance under a foot
//	          -> signal  side of the input
//	          -> power   the power map of all line-ups, made once
//	          -> mount   the fastener of all line-ups, laid once
//
// Cables are asked of layout/wiring by whoever wants them, for their runs take
// longer than all rules together; WithCables puts what is wrong with them among
// the other findings.
//
// All room is compared as exact integers; a limit itself is always allowed and
// one micrometre beyond it is not. Only statics and masses use floating point.
// Every rule looks at each pair of units or boxes at most once, so a line-up of
// n units takes time in n squared, which the editor spends at every key.
package check

// Package power shares out the outputs of a board's supplies: one map that
// holds for every line-up, the leads for it, and what the mains are on tour.
//
// It knows plans, outputs, currents, copper and the mains of countries. It does
// not know plan files, audio cables, searches for places, sheets or terminals;
// what it finds wrong are values that layout/check turns into findings.
//
// # The map
//
// A demand is a unit that needs an output: a unit that is there in every
// line-up is one demand with one output, a unit of a slot is one demand for
// each line-up that it is in.
//
//	             barn   pit   solo
//	tuner        o--------------o     one output in all three
//	squash       o      o      o      an output in each
//
// In one line-up, without more rules, the cheapest map is an assignment of
// demands to outputs, which the shortest augmenting paths find exactly. Two
// things tie the assignments together. Fixed units must have the same output in
// all: each line-up pays its share of a fixed unit's cost, and multipliers move
// those shares until the line-ups agree or cannot be brought closer (Lagrangian
// relaxation). Rules over several demands (a shared ground, the watts of a
// supply, one position for a switch) are looked at in the answer. What still
// disagrees or breaks a rule is branched on: one demand takes one output after
// the other. The sum of the line-ups' assignments bounds every branch from
// below, so the search gives up nothing, and one that ends without a map has
// proved that there is none. Outputs that are alike are tried once.
//
// Where the assignment of a single line-up fails, the path search that got
// stuck has visited a set of units whose outputs, all together, are fewer than
// they are (Hall's condition): those are the units that compete.
//
// # Which outputs, and which plug where
//
// The outputs that are used decide which plugs need room, and so where units
// fit. They must not depend on where the units stand, or moving a unit would
// move plugs elsewhere. So the map is made twice: first without places, taking
// outputs in the plan's order, which settles the outputs used in each line-up
// (Apply); then with places, among those outputs, for short leads and even
// loads (Map).
package power

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
//	squash       o . . . . . . .o     one in each, the same if that can be
//
// # Which map
//
// Of all maps that keep the rules the best is looked for, what is named first
// counting for more than all after it together:
//
//  1. As many units as can be have an output.
//  2. As few as can be share one, where sharing is allowed.
//  3. As few as can be hang on a reversing lead: on the wrong unit that one does
//     harm, so none is taken for the sake of what follows.
//  4. Units of slots keep one output in all their line-ups: each further output
//     that a unit is on is one lead more to cut, and steps in a changeover.
//  5. Leads are short, and loads even.
//
// # How it is found
//
// In one line-up, without more rules, the cheapest map is an assignment of
// demands to outputs, which the shortest augmenting paths find exactly. Three
// things tie the assignments together. Fixed units must have the same output in
// all: each line-up pays its share of a fixed unit's cost, and multipliers move
// those shares until the line-ups agree or cannot be brought closer (Lagrangian
// relaxation). The demands of one unit of a slot, its team, should be on one
// output: for each output they pay shares, none below nothing, of the price of
// one output more, and one such price is given back; so a team on one output
// pays nothing, and one on several never too much. Rules over several demands (a
// shared ground, the watts of a supply, one position for a switch) are looked at
// in the answer.
//
// What still disagrees or breaks a rule is branched on: one demand takes one
// output after the other. Where the answer is a map, but costs more than the
// bound because a team is on several outputs, either all of the team take one,
// each in turn, or they are on two at least. The sum of the line-ups'
// assignments bounds every branch from below, so the search gives up nothing,
// and one that ends without a map has proved that there is none. Outputs that
// are alike are tried once.
//
// The proof that a map is the best is beyond the steps of a search on a large
// board. So each map that is found is also made better in place (calm): units
// that change are pushed to one output, line-ups are assigned anew around them,
// and outputs are traded along the chain of all whom that moves.
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
// loads (Map). What counts before those is the same both times, and the first
// map is one of those that the second is chosen from.
//
// A search is remembered by all that it looks at. Where units stand is nothing to
// the first; so a unit that moves asks for the second alone, and whoever looks at
// the same plan again for neither.
package power

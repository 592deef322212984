// Package tryout answers whether a unit would fit into a slot: as the board
// stands, if others move, or not at all.
//
// It knows plans, forms, the packing problem of a plan, cables and outputs. It
// does not know plan files, sheets or terminals.
//
// # One step of the ladder after the other
//
//	1 nothing moves       all held where they are, the new unit free in its slot
//	2 swap units move     fewest units, each line-up by itself where it must
//	3 fixed units too     fewest of those first: their fastener has to be lifted
//	4 it does not fit     proved: by a bound, or by a search that left nothing out
//
// A unit counts as one move in however many line-ups it goes elsewhere. Where
// two answers take as few moves, the one that keeps each unit's place the same
// across line-ups comes first, then the shorter way. Each refusal on the way is
// a proof, and told of at once: whoever stops the work keeps what was proved.
//
// # Why not
//
// The plan as it stands fits, so whatever collides collides with the new unit.
// A smallest set is found in two steps: units are taken away as long as the rest
// is still refused; then smaller sets are tried, each with the new unit in it.
// Only a unit of that set can make room by going, so only those are tried.
//
// The least growth is looked for with the set alone, which is quick and bounds
// it from below; most often everything fits with that much, which is asked next.
// Where it does not, everything on the board with no more room for plugs than all
// choices need bounds it further, then with plugs to choose. The largest growth
// is asked for before those between; and an arrangement found tells by itself
// with how little of the growth it would do, the better since room that grows to
// the left or the front is looked for in a mirror (mirror.go).
//
// Questions in which only the set may move are asked before those in which all
// may (among.go): what stays is an obstacle then, and the search a small one. They
// can only find; what refuses has always left nothing out.
//
// Searches are bounded by steps, in rounds of more and more, so that the answer
// to the same question is the same on every machine unless the time is up.
package tryout

// Package edit holds what the editor can do to a plan: move, turn, slide,
// place, pin, and take it all back.
//
// It knows plans and their geometry. It does not know keys, screens, colours
// or files.
//
// # Plans as snapshots
//
// A plan in a History is never changed. Each edit works on a copy and puts
// that behind the last one, so undoing is to look at an earlier copy, work in
// the background can read a plan without a lock, and whether its result is
// still wanted is a comparison of two pointers.
//
//	plan 0 --move--> plan 1 --turn--> plan 2
//	                    ^ now            ^ redo goes here
//
// # Sliding
//
// To slide a unit until it touches, Ahead looks at every pair of a box of the
// unit and a box of what else is on the board that would meet on the way: same
// lane across, same heights. The least positive gap is how far it slides.
// Where the unit already overlaps something, the way out of that counts too:
//
//	+----+         +------+            +--+---+
//	|unit|---gap---| next |    overlap |  |   | next
//	+----+         +------+            +--+---+
package edit

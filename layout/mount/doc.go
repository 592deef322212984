// Package mount works out the pieces of fastener that hold units to the board:
// interlocking (mushroom-head) for fixed units, hook-and-loop for swapped ones.
//
// It knows plans and placements. It does not know plan files, the catalog,
// searches or sheets.
//
// A piece is a strip of a stock width. It lies where the unit's base bears on
// its surface, less a margin all round; on a rail board that is one region for
// each rail beneath the unit:
//
//	+------------+ base
//	| ---------- |
//	| ========== |  one region: two strips at its long sides, so that
//	|            |  the unit does not rock
//	| ========== |
//	| ---------- |
//	+------------+
//
// The strips are the narrowest that carry the unit: the load is its weight
// JerkG times over, and a strip carries a tenth of what its material is
// published to hold. Where no width suffices the widest that fits is taken.
//
// Each piece is given twice: on the board seen from above, and on the unit's
// base as it looks when the unit is turned over left to right, which mirrors
// it.
package mount

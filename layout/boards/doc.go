// Package boards tries other boards for a plan before wood is bought: boards of
// the catalog, boards of other sizes, or the staircase of the smallest.
//
// It knows plans, boards of the catalog, the arranger and the check. It does not
// know plan files, sheets or terminals.
//
// # A plan on another board
//
// Everything is taken along by one rule, for width and depth each by itself:
// what touches an edge goes on touching it, what reaches from edge to edge goes
// on reaching, and what lies between shares the spare room on its two sides as
// before. What is larger than the new board is cut to it.
//
//	+----------------------+        +---------------+
//	|    +============+    |        | +===========+ |   riser at the back,
//	|    |   riser    |    |   ->   | |   riser   | |   in the middle
//	|    +============+    |        | +===========+ |
//	|          ............|        |   ............|   slot in the front
//	|          :  slot    :|        |   :  slot    :|   right corner
//	+----------:..........:+        +---:..........:+
//
// So risers, slots and fixtures keep their size. Where a plan does not fit like
// that, its risers are tried at their old distance to the left and to the right.
// A slot on a riser and a unit that keeps its place on or below one go with the
// riser. Rails are made longer or shorter, and as many as there is room for at
// the same spacing. A board of the catalog is as the catalog has it, with the
// plan's risers where it has none and the plan's room past the edges.
//
// # Where slots are
//
// Places of slots are cheap to change on wood that is not cut yet. So first each
// slot is let loose over its whole surface: what is impossible then is so
// wherever the slots are. Else the slots are tried where the rule puts them, and
// then against the edges, a few ways.
//
// # Cases and bags
//
// The plan's case is first asked for and then left out, so that a board that
// fits but does not go into the case is told from one that does not fit at all.
//
// # The staircase
//
// With more depth a board may be narrower. The walk starts with the widest board
// and the least depth that does for it, then tries one step less of width, and
// where that fails one step more of depth, so that about as many boards are tried
// as there are steps both ways, and not their product:
//
//	depth
//	  |  x F F F        F fits, a corner: f
//	  |  x f F F        x does not
//	  |    x x f        empty: not tried
//	  |        x
//	  +--------------- width
//
// It takes a board not to fit where one of the same depth and more width does
// not. Without risers, fixtures, a case and units that keep their places that is
// sure, for wood can only be added to; with them it is what the rule gives.
package boards

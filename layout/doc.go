// Package layout holds what an effects board is made of: boards, units, jacks,
// slots, line-ups, plans and placements, and the exact integer geometry of a
// placed unit.
//
// It knows lengths, masses and music gear in general. It does not know plan
// files, the catalog, searches, sheets or terminals: those build on it.
//
// # Frames
//
// The board is seen from above with the player at its front edge:
//
//	   back
//	   +-----------------------+  y = depth
//	   |        +-----+        |
//	   |        | unit|        |      z up from the deck's top
//	   |        +-----+        |
//	   |        at             |
//	   +-----------------------+  y = 0
//	x = 0       front         x = width
//
// A unit has a frame of its own at turn 0: origin at the front-left corner of
// its body, its front wall towards the player. Turning is clockwise seen from
// above, and the turned body's front-left corner is the origin again, so a
// turn maps the point (x, y) of a body W wide to (y, W-x). All lengths are
// integers, so four turns are exactly the identity.
//
// # Boxes
//
// A placed unit is a set of half-open boxes: the body, a treadle's sweep, and
// one for each used jack's plug. Touching is allowed; see Boxes. Which jacks
// are used follows from the chain and from what draws power; see Used.
package layout

// Package mount works out the fastener that holds units to the board:
// interlocking (mushroom-head) for fixed units, hook-and-loop for swapped ones.
//
// It knows plans and placements, and layout/cut for the rolls. It does not know
// plan files, the catalog, searches or sheets.
//
// # Where pieces may lie
//
// A piece lies where the unit's base bears, on the board or on a rail, less a
// margin at the base's edges, and clear of feet, battery door, screws and labels
// where the plan gives them. Strips that stay on the board (BoardPiece) and
// pieces that stay on a base (BasePiece) are the same in every line-up; a Piece
// is where the one grips the other.
//
// # What pulls at a unit
//
//	carried upright, bumped        turned over, bumped      a cable pulled
//
//	|board                         =====board======         P <--o  jack,
//	|+-----+                        |## unit ##|               |     z up
//	#|  o  | centre of mass,        +----o-----+           +--##--##--+
//	||  |  | h above the board           |                 ==board======
//	#|  v  |                             v F
//	|+- F -+
//	A tilts about this edge
//
// F is the unit's weight times JerkG. Carried upright it shears all of the area
// and tilts the unit about one of its edges with the moment F h; the centre of
// mass is taken at half the body's height. Turned over it pulls straight off, and
// about each edge with the moment F c, where c is how far the centre of mass is
// inside that edge: past an overhang the board's edge is the pivot. A cable pulls
// with CablePull straight out of its wall, at the height of the highest jack
// there. A twist in the plane of the board is left out: it turns a unit and does
// not peel it off.
//
// Every bit of fastener may carry s, a tenth of what it is published to hold,
// whichever way it is pulled: only one way is published for each kind, shear for
// hook-and-loop and tension for mushroom heads. With the area A, and S the sum of
// each bit of area times its distance from the edge,
//
//	use = sqrt( (F / (s A))^2 + (M / (s S))^2 )
//
// must be 1 at most, for shear and tension stand at right angles. Both A and S
// only grow with more fastener, which the search below rests on.
//
// Worked: 0.4 kg, 70 x 122 x 50 mm, with strips of 62 x 20 mm at front and back.
// F = 0.4 x 9.80665 x 5 = 19.6 N, M = 19.6 x 25 = 490 N mm, A = 2480 mm2, about
// the left edge S = 2480 x 35 = 86800 mm3. Hook-and-loop of 69 kPa: s = 0.0069
// N/mm2, use = sqrt(1.146^2 + 0.819^2) = 1.41, too much. Mushroom heads of 207
// kPa: s = 0.0207, use = 0.47.
//
// Besides, the pieces span two thirds of where they may lie, both ways, so that
// the unit does not rock; and beneath a treadle or a unit taller than it is wide
// the half towards the toe carries F alone and has half as much again as the
// other. A treadle's toe is at its far end, a tall unit's at its front.
//
// # Which pieces
//
// Units of one kind that share a place in different line-ups, directly or by
// others, are one group, and the strips on the board run as tracks right across
// the group, along x or along y:
//
//	   small A   small B            wide C
//	  +-------+ +-------+      +----------------+
//	==|=======|=|=======|==  ==|================|==  track
//	  |       | |       |      |                |
//	==|=======|=|=======|==  ==|================|==  track
//	  +-------+ +-------+      +----------------+
//	    one line-up               another
//
// Tracks are tried along both ends of where a unit's pieces may lie, side by side
// from there, in the middle, and beside every spot. For each direction and each
// width of roll a branch and bound finds the set of tracks that holds every unit
// at the least cost: strips on the board first where units share places, else
// roll. It takes a unit that does not hold yet and tries each track that crosses
// it; sets that cost as much as the best are cut off. It is exact for the tracks
// tried unless it runs out of nodes (500), when the best so far stands. What a
// unit does not need of the tracks is left off its base.
//
// All units of a kind are cut from one width of roll if one holds all; rolls that
// the player has come first. Interlocking pieces are laid first, and hook-and-loop
// keeps clear of them, so that no two kinds ever lie over each other.
package mount

// Package route lays cables on the board: audio and power, from plug tip to
// plug tip, each on a way that is free.
//
// It knows the geometry of package layout. It does not know plan files, the
// catalog, which lengths cables are sold in, or what they cost.
//
// # Where a cable lies
//
// A cable lies on the deck, on a shelf, or on a rail board against the
// underside, its middle half its diameter from what it lies on; under a shelf
// it lies on the deck. It keeps half its diameter from every box that reaches
// into that level, and so passes below plugs that stand higher than it is
// thick. It comes down from its plugs inside the plugs' own boxes, and goes
// over the rim of a shelf, or through a gap between rails, where there is room
// all the way up. A short cable between two plugs holds itself up and need not
// come down at all; see AirLimit.
//
//	           plug
//	unit |----o=====|
//	     |          |        shelf
//	     |          |   +-------------+
//	     |          \___|  over the   |
//	     +--------------| rim         |_______ deck, also under the shelf
//
// # Bends
//
// A path is rectilinear and its corners are rounded to the bend radius r.
//
//   - Two corners in the same sense are at least 2r apart: a turn back takes
//     that much. Corners in opposite senses may be nearer, for there the two
//     bends flow into each other.
//   - The first bend at a plug has its room in the plug's box, whose length
//     counts it. It takes only r to the next corner in the same sense.
//   - What stands inside a bend keeps clear of its arc; see bendOf.
//
// # One cable
//
// Shortest finds the least rectilinear length, and of the shortest paths one
// with the fewest corners. The search runs over the crossings of the lines on
// which such a path can run: past the edges of what stands in the way by what a
// cable, a bend and a swing must keep, through the ends, and all of these moved
// by the 2r of a turn back. It goes three times, each time with more rules and
// guided by what the time before found to be the least that is to come: from
// the start over bare nodes; from the goal over node and way, with the room for
// bends; from the start again with how far back the last turn is.
//
//	  |    |           |   |
//	--+----+-----------+---+--
//	  |    |           |   |
//	--+----+-----------+---+--
//	  |    | +-------+ |   |
//	  |    | | body  | |   |
//	  |    | +-------+ |   |
//	--+----+-----------+---+--
//	  r    clear       |   |
//
// # Many cables
//
// Route first lays each cable as if alone, on fewer lines: at a side with room
// beside it only the line that is clear for a bend, so that a cable may take a
// few millimetres more than Shortest finds. Then cables pay for lying on others,
// for lying near others of the other kind, and a little for crossing. Those that
// pay most are taken up, two at a time, and laid anew among the rest, with lines
// beside the cables that they were in the way of to choose from. A change is
// kept only if the whole becomes cheaper.
//
// Audio comes first: power leads are laid around the cables that lie there
// already (Space.Around), so that where the supply feeds a unit never makes a
// patch cable longer.
//
// A Router keeps the paths. When a unit moves, only cables with an end at it or
// a bend's radius from where it was or is are laid anew, and leaving the old way
// costs a tenth of the length, so that a small move does not thread the board
// anew. What it answers depends on what it was asked before; Route does not.
//
// # What is remembered
//
// Searches on the grid are remembered by all that they look at: the lines, what
// stands in the window, the ends, and what is charged for other cables. After an
// edit, or in another line-up, those that see nothing of what changed need not be
// made again; after none, or one taken back, none. What is laid from memory is what
// would be laid anew.
package route

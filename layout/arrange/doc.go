// Package arrange places the units of a plan: all line-ups together, as one
// packing problem.
//
// It knows plans, the engine and cables. It does not know plan files, findings,
// sheets or terminals.
//
// # From plan to problem
//
// Each line-up is a group of the packing problem. A unit that stands on the
// board in every line-up is one item in every group; its plugs are there only
// in the groups that use their jacks. A unit of a slot is
//
//	together  one item in all the groups that use it: same place in each, or
//	apart     one item for each line-up, which may differ.
//
// "Together" is what the player wants and has fewer items, so it is tried
// first; only "apart" can prove that nothing fits.
//
// The places that an item may take are rectangles of origins: where its base
// rests on the surface (layout.Surface.RestRegions), inside its slot, its
// plugs within the room the plan leaves past the edges, all of it inside the
// case. What is pinned is an item with a single origin.
//
// # Comfort
//
// Some arrangements can be built and yet are bad to play: switches closer than
// a shoe, a treadle away from the front. They are not what "fits" means, so
// they never make a proof; but a first pass asks for them as if they were hard
// (switches get a square of floor each, in a layer of their own above the
// board; treadles get origins at the front only), and only when that pass
// finds nothing are they left to the cost.
//
// # Plugs
//
// Where the plan leaves the choice of a plug to the program, the first passes
// take the plugs as they are, the next give each item a few shapes: the usual
// plugs, those that stand out least, those no higher than the unit. What was
// found is seated anew by layout/wiring, which depends on the places only. Only
// a pass in which each plug takes what all that may be in its jack have in common
// can refuse: what does not fit so fits with no plugs.
//
// # Cost
//
// After something fits, the engine improves the cost, in micrometres: the
// length of each link between its plugs, bends and all but as if the board were
// empty (see runOf), added up over the line-ups;
// a part of each length that the signal runs the wrong way; the distance from
// the front of what is worked often; and penalties for crowded switches and for
// units that stand elsewhere in another line-up.
//
// In the end the cables are laid: from the best by estimates a search goes on by
// changes of one unit's place or two units', and keeps what is better with the
// real runs in place of the estimates.
package arrange

// Package shopping works out what a plan still needs: what it takes to build the
// board less what the plan says is there, with prices where the plan gives
// them.
//
// It knows plans, the kit of cables, the power map and fastener. It does not
// know plan files, nor where its lists are printed.
//
//	need  -  owned  =  buy,   buy x price = sum,   sums by currency
//
// # Names and prices
//
// A price is found by the name that the item has in the list:
//
//	ID of a unit          a unit that the plan says is not there yet
//	board                 the board with its risers
//	patch cable           by the metre, sold by whole metres
//	form of a plug        "phone-flat"
//	cable 30cm            a ready-made patch cable of that length
//	lead 60cm, lead       a power lead of that length, or of any; with
//	                      "reversed" before it one that swaps the poles, with
//	                      "dc to mini-trs" or so behind "lead" one between two
//	                      connectors
//	mains lead E          a mains lead with that plug
//	interlock 25mm, hook-and-loop 25mm
//	                      fastener of that width, by the metre
//	cable label           for the two ends of each cable and lead
//
// A length may be written otherwise, "cable 300mm"; "cable" or "lead" alone is the
// price of any length that has none of its own. Money is never converted: each
// currency has its own sum, and what has no price is named and not counted.
//
// # Cables: cut or ready-made
//
// The kit can be cut from a reel, with two plugs a cable, or bought ready-made in
// the next length. It is cut where the plan shows that the player solders: it
// owns a reel or plugs, or has a price for patch cable or for a form of plug.
// Otherwise it is bought. The list says which and why, and what the other way
// would come to; the caller may choose. A cable that is longer than any
// ready-made one is cut in any case.
//
// # Leads
//
// A lead belongs to its output, so there is one for each output and sort of
// lead, as long as the line-up asks that asks most. Owned leads are given out so
// that the longest needs are met first, as far as all of them can still be
// met (the greedy answer for a transversal matroid, which is the best one).
package shopping

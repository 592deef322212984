// Package changeover writes the card for between sets: the steps from one
// line-up to another, in an order that always works, and few of them.
//
// It knows plans, cables, leads and where units stand. It does not know plan
// files, searches for places, sheets or terminals.
//
// # What changes
//
// A line-up is three things: units at places, cables of the kit between jacks,
// leads from outputs. A unit of both line-ups at one place stays, with fastener
// and all; the others leave, come or move. What is plugged is looked at end by
// end: an end that is in the same jack before and after stays in it, unless the
// unit is taken up, or the cable lies over a unit that is. So a cable that
// changes at one end only hangs by its other end meanwhile.
//
// # The order
//
// First all that must come out is unplugged, last all that must go in is
// plugged, and in between there are only bodies. A unit cannot be put down where
// another still stands, so draw an arrow from each moving unit to those that
// stand where it goes:
//
//	A -> B -> C        C moves first, then B, then A
//
//	A -> B             nobody can begin: one of them is set aside,
//	^    |             which is one step more, and placed at the end
//	+----+
//
// Units that leave are lifted first and units that come are placed last, so
// neither is ever part of a round. The units to set aside are a set that meets
// every round of arrows, and the least one is found exactly: take a shortest
// round, one of its units must be in the set, try each in turn, and allow one
// more unit only when no set of fewer does (a minimum feedback vertex set; what
// lies in no round is dropped first).
//
// # What it does not know
//
// A unit is taken to come straight up, or out to the front from under a shelf.
// Hands need room too.
package changeover

// Package plate draws the sheets that a board is built from, at true scale: the
// placement from above, the underside, and stickers for the bases of units.
//
// It knows plans with their places, fastener, cables and leads, and package paper.
// It does not know searches, files or terminals.
//
// # Frames
//
// A view maps the board's plane onto a drawing, whose y runs down:
//
//	from above                     from below, turned over left to right
//	x = ox + X,  y = oy - Y        x = ox - X,  y = oy - Y
//
//	     back                            back
//	+------------+                 +------------+
//	|#           |                 |           #|
//	+------------+                 +------------+
//	0   front                          front    0
//
// Words are never mirrored. Coordinates count from the corner of a surface that
// is front-left from above, in both.
//
// # Sheets
//
// What never changes is printed once, so that the board is built from few pages:
//
//	base      each surface with all fastener on the board and the units that
//	          stand there in every line-up
//	line-up   an overview to fit the page, with cables and leads; then, at true
//	          scale, only the pages on which one of its own units stands, once
//	          for line-ups that have the same there
//	underside each surface seen from below, mirrored, and marked so on each page
//	stickers  each unit's base with its pieces, several on a page
//
// A drawing larger than the page is cut into tiles by package paper, before it is
// drawn: what must be on the pages is known (pieces, and bodies as far as they
// stand on the surface, and a corner of it to lay the sheet by), and a label is then
// put where one page shows all of it. Each strip on the board has a number, which
// the tables have with its coordinates.
//
// # Words beside each other
//
// A drawer keeps the rectangles that are taken. A label is set as large as fits
// into its unit without meeting one of them, else smaller; the smallest is set
// whatever it meets, for no unit may be without a name. A label that the
// embedded fonts cannot write is set with what stands in for it, and with the
// unit's ID behind, which is always plain letters.
package plate

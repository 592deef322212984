// Package paper draws on paper: lines, patterns and text at true scale, as PDF
// pages or as one SVG.
//
// It knows lengths, rectangles and sizes of paper. It does not know boards,
// units or plans, nor where its bytes go.
//
//	            Drawing.Poly, Rect, Circle, Text, Play
//	                       |
//	 Drawing (a list of marks in layers; nothing is drawn yet)
//	    |                  |                       |
//	    | SVG              | Document.Page         | Document.Tiles
//	    v                  v                       v
//	one SVG file     a page of a PDF      many pages, cut from it
//
// All lengths are micrometres. A drawing's origin is its top-left corner, x runs
// to the right and y down, as on a page. A text's y is that of its baseline.
//
// # Layers
//
// What is drawn belongs to the layer named last. Layers lie over each other in
// the order in which their names first came, so that something may be added
// beneath. A name with a slash is a layer within another. In an SVG each is a
// group with its name for an ID, in a PDF an optional content group by the last
// part of its name, one for the whole document.
//
// # Patterns
//
// Fills must be told apart on a printer without colour, so they are patterns of
// black lines. They hang on the drawing's origin, not on the shape: where two
// tiles show the same part of a shape they show the same lines.
//
// # Text
//
// A PDF has its fonts within it (the Go fonts, cut down to the runes in use).
// They have Latin, Greek and Cyrillic letters. A text is first composed (NFC:
// a letter with a combining accent becomes one rune where there is one).
// A rune without a glyph is then written as its compatibility form where that
// has glyphs, and else as Substitute, one for each rune, those above U+FFFF, combining
// marks and letters of scripts written from right to left too; none is left out
// but those that never have a shape, such as marks of direction and joiners.
// Texts that were changed come back as Replaced. An SVG keeps the text as it is:
// whoever shows it has more fonts.
//
// # The same bytes
//
// A PDF has a fixed date, its dictionaries are in order, and its ID is a sum of
// its content. An update is appended that asks printers not to scale (viewer
// preference PrintScaling, ISO 32000-1 table 150); some ask nobody, so a page
// at true scale has a bar to measure.
package paper

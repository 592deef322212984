// Package document holds text to print, as a list of blocks, and writes it as
// Markdown, as plain text and as the pages of a PDF.
//
// It knows headings, lists, tables and pages. It does not know boards, units or
// plans: package paper gives it type, paper and drawings, and what to say is
// its callers' matter.
//
//	             Heading, Para, List, Table, Figure, ...
//	                           |
//	                  Document (a list of blocks)
//	      |                    |                    |
//	      | Markdown           | Text               | PDF
//	      v                    v                    v
//	GitHub's flavour      80 characters       A4 or Letter,
//	of Markdown           a line              page x of y
//
// The texts of blocks are plain: what Markdown would take for a sign is escaped,
// and characters that have no shape or would turn the direction of writing are
// left out. The same document gives the same bytes.
//
// # Columns
//
// A table that is wider than the line gives its columns less. Each column has
// a least width, its longest word, and a wish, its longest cell. All get their
// least; what is left over is shared out so that the narrow wishes are
// granted first and the others end up equal:
//
//	wish    4  30  12  50      least  4  8  6  9      room 60
//	gets    4  22  12  22
//
// Cells that are still too long are broken into lines.
//
// # Pages
//
// Each block becomes pieces that no page may part: a line of text, a row of a
// table, a figure. Pieces go on the page until one does not fit. A piece may be
// tied to the next one, as a heading is, and then both go over together. A table
// that goes over begins with its head again. A Card has a page of its own, on
// which the type is set smaller, a twentieth at a time, until all of it fits.
package document

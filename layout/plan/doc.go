// Package plan reads and writes plan files: TOML text on one side, a
// layout.Plan on the other.
//
// It knows the file format, the catalog whose forms a plan names, and files.
// It does not judge the plan as a board (that is layout/check): it refuses
// only what cannot be understood, contradicts itself, or is beyond all
// measure. It knows no terminal.
//
// # Reading
//
//	text --grow--> tree of nodes, each with its bytes --read--> layout.Plan
//
// The tree comes from a parser that tells where every key and value stands,
// so that each complaint has a line and a column. Nothing stops at the first
// error: a part that is wrong is noted and left out, and the reader goes on;
// only checks that would complain of the same mistake again wait until the
// rest is right. A second, independent reader of TOML then confirms what the
// first took as valid.
//
// # Writing
//
// Render does not print the plan. It compares the plan as loaded with the plan
// as it is now and edits the text it came from, so that comments, order and
// the player's spelling stay:
//
//	loaded ─┐
//	        ├─ what differs ─> edits of byte ranges ─> text
//	now ────┘                  (pass 1: values changed or taken out;
//	                            pass 2, on the new text: keys put in)
//
// The new text is read again and must give exactly the plan in memory, else
// it is an error and no file is touched. What Render has no words for is an
// error too, never a silent loss.
//
// Save writes beside the file and renames over it, so that there is the old
// file or the new one and never half of one, and refuses when another program
// changed the file since it was read.
package plan

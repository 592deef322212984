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
// Render does not print the plan. It works out what the text should say, the
// reverse of reading, and edits the text it came from until it says that, so
// that comments, order and the player's spelling stay where nothing changed:
//
//	plan now --wantOf--> tree of wanted values ─┐
//	                                            ├─ edits of byte ranges ─> text
//	text --grow--> tree of nodes ───────────────┘         ^                  │
//	                                                      └── round by round ┘
//
// A value of the text that is read as the wanted one is left as it is written:
// "20 mm" says 20 as well. What is usual, by the format or by a unit's form,
// is written only where the text has the key already. First values are
// changed, tables taken out and brought into order, until nothing of that is
// left to do; then new keys and tables are put in, at the end of their kind. A
// table that goes takes the comments directly above its header with it. Tables
// are known by their names, and by most of what they say when the name is
// another.
//
// The new text is read again and must give exactly the plan in memory, else
// it is an error and no file is touched. What the format has no words for is an
// error too, never a silent loss: a form's mass taken away without another, a
// plug that no catalog has, a riser of a density that no material has.
//
// Save writes beside the file and renames over it, so that there is the old
// file or the new one and never half of one, and refuses when another program
// changed the file since it was read.
package plan

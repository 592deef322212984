// Package book makes what a board is built and played from by a person with
// paper and no computer: the build book, a gig card for each line-up, cards for
// changing over, a sheet of labels, and lists as CSV.
//
// It knows plans with their cables, power, fastener and drawings, and says what
// is to be done as blocks of a document. It does not know files or terminals.
//
// # Finding a dead cable by halves
//
// The signal passes n cables in a row, one of which is dead. With a spare cable
// that is known to be good the instrument is plugged straight into a unit in the
// middle. If it is heard there, all behind that place is sound, so the dead one
// is before; else it is behind:
//
//	instrument -1- A -2- B -3- C -4- D -5- amp
//	                     ^ spare, heard: 1 or 2, not heard: 3, 4 or 5
//
// Each patch halves what is left, so ceil(log2 n) of them find any one cable. The
// card prints the whole tree: for each place to patch, where to go on. A
// dead unit shows as the cable behind it, so the card names both.
//
// # Leads
//
// A lead belongs to its output whatever it feeds, so it is labelled with that, as
// package shopping counts them.
//
// # CSV
//
// One row an item behind a head, RFC 4180 with a line feed at the end of a line,
// lengths in mm. Cables:
//
//	kit, label        of the cable, as it is written on it
//	owned             yes or no
//	cut_mm            length before its plugs go on, of an owned one as it is
//	stock_mm          the next ready-made length, empty for none
//	plug_a, plug_b    forms of its plugs
//	lineup            where it goes: a row for each line-up that uses it
//	from_unit, from_jack, to_unit, to_jack
//	run_mm            its way on the board there
//
// Leads:
//
//	label             as it is written on it: the supply and its output
//	sort              lead, reversed lead, ...
//	cut_mm, awg       length and wire for the line-up that asks most
//	stock_mm          the next ready-made length, empty for none
//	lineup, supply, output, unit
//	volts, ac, milliamps, limit_ma
//	run_mm, drop_v    its way there and what is lost in it
//
// Fastener pieces are package sheet's, shopping is package shopping's.
package book

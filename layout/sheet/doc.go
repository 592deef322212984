// Package sheet turns a plan into what people read and build from: the
// machine-readable report, the report as text, a to-scale drawing in
// characters that the editor shows too, and the placement sheet of the
// fastener pieces.
//
// It knows plans, findings, cables and fastener pieces. It does not know plan
// files, searches, or terminals: a drawing is a grid of characters with a class
// for each, and whoever shows it chooses the colours. The one import from the
// terminal world measures how wide a character is.
//
// # The drawing
//
// A cell counts as twice as high as it is wide, so one scale serves both
// directions: a column shows `step` of the board and a row two of them. A
// rectangle covers the columns and rows between its rounded edges; as edges
// are rounded and not sizes, two units that touch get neighbouring cells and
// none in common.
//
//	■══════╗  fixed: double line   ◆━━━━━━┓ pinned: heavy line
//	║ Hall ║  mark ■               ┃ Tuner┃ mark ◆ (◇ on a swap unit)
//	╚══▾═══╝                       ┗━━▾━━━┛
//	□──────┐  swap: single line    ■═×══×═!  fault: barbs on the line
//	│ Rasp │  mark □               × Fuzz ×  and ! in the corner
//	└──▾───┘                       ╚═×▾═×═╝
//	■▀▀▀▀▀▀▜  selected: a frame    ┌┄┄┄┄┄┄┐  beneath the riser: a broken
//	▌ Loop ▐  of blocks            ┆Supply┆  line wherever it is in sight
//	▙▄▄▾▄▄▄▟                       └┄┄┄┄┄┄┘
//
// ▾ ◂ ▴ ▸ stands on the wall that is the unit's front at turn 0 and so shows
// the turn. ▒ is the room of an audio plug, ▚ of one for power or control, ○ the
// centre of a switch, a fine line of dots a cable.
//
// ≡ and ≈ are pieces of fastener, interlocking and hook-and-loop. From below
// everything is mirrored, x runs to the left, and ◉ is a foot of the board.
//
// Things are painted from the bottom up: rails, outlines of board, slots and
// risers, fixtures, units by height (the selected one last), what is beneath
// the riser where there is room left, plugs, cables, rulers. Plugs and cables
// never cover an edge or a label.
//
// # Placement sheet as CSV
//
// One row for each place where a piece of a unit grips a strip of the board, a
// swapped unit's in each of its line-ups; then, without a unit, one for each
// strip of the board. Lengths are in mm. The columns:
//
//	lineup                    name of the line-up, empty for every line-up
//	unit, label               the unit's ID and label
//	kind                      interlock or hook-and-loop
//	surface                   deck or the riser's name
//	piece                     number of the piece beneath this unit, from 1
//	board_x0_mm ... y1_mm     the piece in the board's frame: x to the right and
//	                          y to the back from the board's front-left corner
//	surface_x_mm, _y_mm       its front-left corner from that of its surface
//	under_x0_mm ... y1_mm     the piece on the unit's base, the unit turned over
//	                          left to right with its front wall towards you
//	turn                      of the unit, degrees clockwise
//	roll_mm, cut_mm           width of the roll, length to cut
//	strip                     number of the board's strip, from 1
//	board_side, unit_side     hook, loop or interlock: what each carries
package sheet

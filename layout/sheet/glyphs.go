package sheet

import (
	"slices"
	"strings"
)

// line is the characters of an outline: top, bottom, left, right, corners.
type line struct{ t, b, l, r, tl, tr, bl, br string }

// glyphs is every character that a drawing uses.
type glyphs struct {
	fixed, swap, pinFixed, pinSwap, selected, other, was, ghost line

	fixedMark, swapMark, pinFixedMark, pinSwapMark, faultMark string
	barb                                                      string

	board      line // drawn in the cells around the board
	riser      line
	slot       string
	rail       string
	fixture    string
	plug, cord string // cord: plugs of power and control
	sweep      string
	footSwitch string
	interlock  string // pieces of fastener
	hook       string
	foot       string
	turn       [4]string // by layout.Turn: where the front wall looks
	tick       string    // on the front edge, before the number
	braille    bool      // cables in dots finer than cells
	// The slopes of cables without them.
	level, rise, fall, upright string
}

var plainGlyphs = glyphs{
	fixed:     line{"=", "=", "|", "|", "+", "+", "+", "+"},
	swap:      line{"-", "-", ":", ":", "+", "+", "+", "+"},
	pinFixed:  line{"=", "=", "H", "H", "+", "+", "+", "+"},
	pinSwap:   line{"-", "-", "H", "H", "+", "+", "+", "+"},
	selected:  line{"#", "#", "#", "#", "#", "#", "#", "#"},
	other:     line{"+", "+", "+", "+", "+", "+", "+", "+"},
	was:       line{"\"", "\"", "\"", "\"", "\"", "\"", "\"", "\""},
	ghost:     line{"'", "'", "'", "'", "'", "'", "'", "'"},
	fixedMark: "F", swapMark: "S", pinFixedMark: "P", pinSwapMark: "p", faultMark: "!",
	barb:  "x",
	board: line{"_", "_", "|", "|", "", "", "", ""},
	riser: line{"~", "~", "(", "(", "~", "~", "~", "~"},
	slot:  ".",
	rail:  "_", fixture: "/", plug: "%", cord: "&", sweep: ",", footSwitch: "O",
	interlock: "=", hook: "~", foot: "0",
	turn:  [4]string{"v", "<", "^", ">"},
	tick:  "|",
	level: "-", rise: "/", fall: "\\", upright: "!",
}

var lineGlyphs = glyphs{
	fixed:     line{"═", "═", "║", "║", "╔", "╗", "╚", "╝"},
	swap:      line{"─", "─", "│", "│", "┌", "┐", "└", "┘"},
	pinFixed:  line{"━", "━", "┃", "┃", "┏", "┓", "┗", "┛"},
	pinSwap:   line{"━", "━", "│", "│", "┍", "┑", "┕", "┙"},
	selected:  line{"▀", "▄", "▌", "▐", "▛", "▜", "▙", "▟"},
	other:     line{"╍", "╍", "╏", "╏", "┏", "┓", "┗", "┛"},
	was:       line{"╴", "╴", "╷", "╷", "╭", "╮", "╰", "╯"},
	ghost:     line{"┄", "┄", "┆", "┆", "┌", "┐", "└", "┘"},
	fixedMark: "■", swapMark: "□", pinFixedMark: "◆", pinSwapMark: "◇", faultMark: "!",
	barb:  "×",
	board: line{"▁", "▔", "▕", "▏", "", "", "", ""},
	riser: line{"╌", "╌", "╎", "╎", "╭", "╮", "╰", "╯"},
	slot:  "·",
	rail:  "░", fixture: "╱", plug: "▒", cord: "▚", sweep: "˙", footSwitch: "○",
	interlock: "≡", hook: "≈", foot: "◉",
	turn:    [4]string{"▾", "◂", "▴", "▸"},
	tick:    "▏",
	braille: true,
}

// Legend explains the marks of a drawing in one line.
func Legend(ascii bool) string { return strings.Join(legend(ascii, true), "  ") }

func legend(ascii, selected bool) []string {
	out := []string{"■═ fixed", "□─ swap", "◆◇━ pinned", "×! fault", "▛ selected", "┄ beneath", "▾ front", "○ switch", "▒▚ plug"}
	if ascii {
		out = []string{"F= fixed", "S- swap", "P p pinned", "x! fault", "# selected", "' beneath", "v front", "O switch", "%& plug"}
	}
	if !selected {
		out = slices.Delete(out, 4, 5)
	}
	return out
}

package sheet

import (
	"strings"

	"footplank/layout"
)

// Picture returns the lines of a drawing that is as high as its width asks, with
// nothing empty above the board. Rows and Window of the view are not heeded: it
// shows the board, its overhang, and what of the units in any line-up stands
// past that.
func Picture(p *layout.Plan, v View) []string {
	v.Window = tight(p)
	v.Rows = rowsFor(p, v)
	drawn := Draw(p, v).Lines()
	for len(drawn) > 1 && strings.TrimSpace(drawn[0]) == "" {
		drawn = drawn[1:]
	}
	return drawn
}

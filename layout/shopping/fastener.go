package shopping

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/mount"
)

// fastener lists fastener by kind and width, in metres of tape.
func fastener(p *layout.Plan) []Item {
	type side struct {
		unit, surface string
		at            layout.Rect
	}
	type roll struct {
		kind  mount.Kind
		width layout.Length
	}
	board, units := map[roll]layout.Length{}, map[roll]layout.Length{}
	seen := map[side]bool{}
	var rolls []roll
	for _, m := range mount.All(p) {
		r := roll{m.Kind, m.Width}
		if board[r]+units[r] == 0 {
			rolls = append(rolls, r)
		}
		if at := (side{"", m.Surface, m.OnBoard}); !seen[at] {
			seen[at] = true
			board[r] += m.Length()
		}
		if at := (side{m.Unit, "", m.UnderUnit}); !seen[at] {
			seen[at] = true
			units[r] += m.Length()
		}
	}
	var out []Item
	for _, r := range rolls {
		need, what := max(board[r], units[r]), "hook and loop side, this much of each"
		if r.kind == mount.Interlock {
			need, what = board[r]+units[r], "mates with itself: board and units together"
		}
		name := fmt.Sprintf("%s %s", r.kind, r.width)
		out = append(out, Item{Group: Fastener, Name: name, What: what, Measure: Metres, Need: metres(need), Buy: metres(need)})
	}
	return out
}

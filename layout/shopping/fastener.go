package shopping

import (
	"context"
	"fmt"

	"footplank/layout"
	"footplank/layout/mount"
)

// fastener lists fastener by kind and width, in metres of tape. Hook-and-loop is
// sold as both sides, so of the two the one that is needed more counts.
func fastener(p *layout.Plan) []Item {
	type roll struct {
		kind  mount.Kind
		width layout.Length
	}
	need, there, buy := map[roll]layout.Length{}, map[roll]layout.Length{}, map[roll]int{}
	var rolls []roll
	for _, n := range mount.Lay(p).Needs(context.Background(), p) {
		r := roll{n.Kind, n.Width}
		if _, ok := need[r]; !ok {
			rolls = append(rolls, r)
		}
		if n.Length() < need[r] {
			continue
		}
		need[r], buy[r], there[r] = n.Length(), max(buy[r], n.Buy), 0
		for _, c := range n.Rolls {
			if c.Owned {
				there[r] += c.Length - c.Left
			}
		}
	}
	var out []Item
	for _, r := range rolls {
		what := "hook and loop side, this much of each"
		if r.kind == mount.Interlock {
			what = "mates with itself: board and units together"
		}
		// What is bought is rolls, so that every piece is in one.
		n := layout.Length(buy[r]) * mount.RollLength
		if n > 0 {
			what += fmt.Sprintf("; %s of %g m", layout.Plural(buy[r], "roll"), metres(mount.RollLength))
		}
		out = append(out, Item{Group: Fastener, Name: string(r.kind) + " " + mount.WidthName(r.width, p.Measure()), What: what, Measure: Metres,
			Need: metres(need[r]), Owned: metres(there[r]), Buy: metres(n)})
	}
	return out
}

package plate

import (
	"testing"

	"pgregory.net/rapid"

	"footplank/layout"
)

// Every sticker is on one page, wholly, and scissors get between any two; no page
// is there for what an earlier one had room for in a corner of its own.
func TestStickersOnPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := 198*mm, 259*mm
		units := make([]layout.Unit, rapid.IntRange(1, 30).Draw(t, "units"))
		var list []*layout.Unit
		for i := range units {
			units[i].Body.W = layout.Length(rapid.IntRange(20, 198).Draw(t, "w")) * mm
			units[i].Body.D = layout.Length(rapid.IntRange(20, 259).Draw(t, "d")) * mm
			list = append(list, &units[i])
		}
		seen := map[*layout.Unit]int{}
		pages := onPages(list, wide, high)
		for n, page := range pages {
			for i, a := range page {
				seen[a.unit]++
				r := layout.RectAt(a.at, a.unit.Body.W, a.unit.Body.D)
				if !(layout.Rect{X1: wide, Y1: high}).Contains(r) {
					t.Fatalf("page %d: %v is not on it", n+1, r)
				}
				for _, b := range page[:i] {
					if o := layout.RectAt(b.at, b.unit.Body.W, b.unit.Body.D); o.Overlaps(grow(r, stickerGap)) {
						t.Fatalf("page %d: %v and %v are too close", n+1, o, r)
					}
				}
			}
		}
		for _, u := range list {
			if seen[u] != 1 {
				t.Fatalf("a sticker is there %d times", seen[u])
			}
		}
		// A plain scan, every 2 mm: no sticker of a later page finds room before.
		for n := 1; n < len(pages); n++ {
			for _, later := range pages[n] {
				for _, page := range pages[:n] {
					if room(page, later.unit, wide, high) {
						t.Fatalf("%v goes on an earlier page", later.unit.Body)
					}
				}
			}
		}
	})
}

func room(page []laid, u *layout.Unit, wide, high layout.Length) bool {
	for y := layout.Length(0); y+u.Body.D <= high; y += 2 * mm {
		for x := layout.Length(0); x+u.Body.W <= wide; x += 2 * mm {
			r, clear := grow(layout.RectAt(layout.Point{X: x, Y: y}, u.Body.W, u.Body.D), stickerGap), true
			for _, l := range page {
				clear = clear && !r.Overlaps(layout.RectAt(l.at, l.unit.Body.W, l.unit.Body.D))
			}
			if clear {
				return true
			}
		}
	}
	return false
}

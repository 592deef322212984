package main

import (
	"fmt"
	"sort"

	"footplank/pack"
)

// The checks in this file share no code with the searches: they take an
// arrangement as it is and look at every rectangle and box once more.

// verifyRects checks that places put every rectangle inside w x h, turned only
// where it may be, and none over another.
func verifyRects(w, h int64, rects []pack.Rect, places []pack.RectPlace) error {
	if len(places) != len(rects) {
		return fmt.Errorf("%d places for %d rectangles", len(places), len(rects))
	}
	type span struct {
		i              int
		x0, y0, x1, y1 int64
	}
	all := make([]span, len(rects))
	for i, p := range places {
		rw, rh := rects[i].W, rects[i].H
		if p.Turned {
			if !rects[i].Turn {
				return fmt.Errorf("rectangle %d is turned and may not be", i)
			}
			rw, rh = rh, rw
		}
		all[i] = span{i, p.X, p.Y, p.X + rw, p.Y + rh}
		if p.X < 0 || p.Y < 0 || p.X+rw > w || p.Y+rh > h {
			return fmt.Errorf("rectangle %d at %d,%d stands out of the container", i, p.X, p.Y)
		}
	}
	sort.Slice(all, func(a, b int) bool { return all[a].x0 < all[b].x0 })
	for a := range all {
		for b := a + 1; b < len(all) && all[b].x0 < all[a].x1; b++ {
			if all[a].y0 < all[b].y1 && all[b].y0 < all[a].y1 {
				return fmt.Errorf("rectangles %d and %d overlap", all[a].i, all[b].i)
			}
		}
	}
	return nil
}

// verifyBoard checks that each item of p stands in one of its regions and
// that no two items, and no item and obstacle, share room in a group.
func verifyBoard(p *pack.Problem, places []pack.Place) error {
	if len(places) != len(p.Items) {
		return fmt.Errorf("%d places for %d items", len(places), len(p.Items))
	}
	boxes := make([][]pack.Box, 0, len(p.Items)+len(p.Obstacles))
	for i, at := range places {
		it := p.Items[i]
		if at.Region < 0 || at.Region >= len(it.Regions) {
			return fmt.Errorf("item %d names region %d of %d", i, at.Region, len(it.Regions))
		}
		r := it.Regions[at.Region]
		if at.X < r.X0 || at.X > r.X1 || at.Y < r.Y0 || at.Y > r.Y1 {
			return fmt.Errorf("item %d stands outside its region", i)
		}
		var own []pack.Box
		for _, b := range it.Shapes[r.Shape].Boxes {
			groups := it.Groups
			if b.Groups != 0 {
				groups &= b.Groups
			}
			own = append(own, pack.Box{
				X0: b.X0 + at.X, X1: b.X1 + at.X, Y0: b.Y0 + at.Y, Y1: b.Y1 + at.Y,
				Z0: b.Z0 + r.Z, Z1: b.Z1 + r.Z, Groups: groups,
			})
		}
		boxes = append(boxes, own)
	}
	for _, o := range p.Obstacles {
		if o.Box.Groups == 0 {
			o.Box.Groups = pack.AllGroups
		}
		boxes = append(boxes, []pack.Box{o.Box})
	}
	for i := range places {
		for j := range boxes {
			if j == i || j < i && j < len(places) {
				continue
			}
			for _, a := range boxes[i] {
				for _, b := range boxes[j] {
					if collide(a, b) {
						return fmt.Errorf("items or obstacles %d and %d share room", i, j)
					}
				}
			}
		}
	}
	return nil
}

func collide(a, b pack.Box) bool {
	return a.Groups&b.Groups != 0 &&
		a.X0 < b.X1 && b.X0 < a.X1 && a.Y0 < b.Y1 && b.Y0 < a.Y1 && a.Z0 < b.Z1 && b.Z0 < a.Z1 &&
		a.X0 < a.X1 && b.X0 < b.X1 && a.Y0 < a.Y1 && b.Y0 < b.Y1 && a.Z0 < a.Z1 && b.Z0 < b.Z1
}

package arrange

import (
	"footplank/layout"
	"footplank/pack"
)

// tidyCost is what a unit's whole millimetres may cost.
const tidyCost = int64(5 * layout.Millimetre)

// tidy moves units by less than a step of the tape, so that as many as can
// stand at whole millimetres, or sixteenths of an inch: nobody builds to a
// micrometre. A unit moves only where it stays free of the others, and where
// that costs next to nothing: plugs that look at each other stay so.
func (pr *problem) tidy(places []pack.Place, c *cost) {
	step := pr.step()
	// One unit's move may make room for another's, so go round until none
	// moves; each move makes one more coordinate whole, so this ends.
	for moved := true; moved; {
		moved = false
		for i := range places {
			moved = pr.tidyOne(places, i, step, c) || moved
		}
	}
}

// step is what the player's tape shows.
func (pr *problem) step() int64 {
	if pr.plan.LengthUnit == layout.Inches {
		return int64(layout.Inch) / 16
	}
	return int64(layout.Millimetre)
}

// tidyOne moves one item to the nearest free place that has more whole
// coordinates than its own.
func (pr *problem) tidyOne(places []pack.Place, i int, step int64, c *cost) bool {
	p := places[i]
	offX, offY := mod(p.X, step), mod(p.Y, step)
	best, found := p, false
	for _, dx := range nudges(offX, step) {
		for _, dy := range nudges(offY, step) {
			whole := btoi(dx != 0) + btoi(dy != 0)
			now := btoi(best.X != p.X) + btoi(best.Y != p.Y)
			q := pack.Place{Region: p.Region, X: p.X + dx, Y: p.Y + dy}
			nearer := abs(dx)+abs(dy) < abs(best.X-p.X)+abs(best.Y-p.Y)
			if whole == 0 || whole < now || whole == now && found && !nearer {
				continue
			}
			if c.Delta(places, i, q) <= tidyCost && pr.free(places, i, q) {
				best, found = q, true
			}
		}
	}
	places[i] = best
	return found
}

// nudges returns the ways to a whole coordinate from one that is off by the
// given amount, and to leave it.
func nudges(off, step int64) []int64 {
	if off == 0 {
		return []int64{0}
	}
	return []int64{0, -off, step - off}
}

// free reports whether the item could stand at p, the others as they are.
func (pr *problem) free(places []pack.Place, i int, p pack.Place) bool {
	return pr.freeBut(places, i, -1, p)
}

// freeBut is free where one other item, or none, does not count.
func (pr *problem) freeBut(places []pack.Place, i, but int, p pack.Place) bool {
	it := &pr.pack.Items[i]
	if r := it.Regions[p.Region]; p.X < r.X0 || p.X > r.X1 || p.Y < r.Y0 || p.Y > r.Y1 {
		return false
	}
	var theirs []pack.Box
	for j := range places {
		if j != i && j != but {
			theirs = pr.pack.Items[j].Boxes(theirs, places[j])
		}
	}
	for _, o := range pr.pack.Obstacles {
		b := o.Box
		if b.Groups == 0 {
			b.Groups = pack.AllGroups
		}
		theirs = append(theirs, b)
	}
	for _, b := range it.Boxes(nil, p) {
		for _, c := range theirs {
			if b.Overlaps(c) {
				return false
			}
		}
	}
	return true
}

// mod is the remainder that is never negative.
func mod(a, n int64) int64 { return (a%n + n) % n }

func abs(a int64) int64 { return max(a, -a) }

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

package tryout

import (
	"math/bits"
	"slices"

	"footplank/layout"
	"footplank/pack"
)

// standing finds sets of units that fit without any search: where all stand
// where they do, the tried unit set down somewhere goes with all that it does
// not hit. Each such set answers for all its parts, and most of the many small
// sets that have to be looked at are parts of one.
func (c *culprit) standing(p *layout.Plan, tried string) {
	at, _ := c.m.Now(p)
	problem := c.m.Problem()
	k := slices.IndexFunc(c.units, func(u *layout.Unit) bool { return u.ID == tried })
	if k < 0 || len(c.of[k]) != 1 {
		return
	}
	me := c.of[k][0]
	boxes, sound := c.standingBoxes(problem, at, k)
	for r := range problem.Items[me].Regions {
		grid(problem.Items[me].Regions[r], func(x, y int64) {
			mine := problem.Items[me].Boxes(nil, pack.Place{Region: r, X: x, Y: y})
			if hitsObstacle(problem, mine) {
				return
			}
			set := sound | 1<<k
			for j, bs := range boxes {
				if sound>>j&1 == 1 && anyOverlap(mine, bs) {
					set &^= 1 << j
				}
			}
			c.knowFits(set)
		})
	}
}

// standingBoxes returns the boxes of each unit but unit k where it stands, and the
// units that stand free of each other.
func (c *culprit) standingBoxes(p *pack.Problem, at []pack.Place, k int) (boxes [][]pack.Box, sound uint64) {
	boxes = make([][]pack.Box, len(c.units))
	for j := range c.units {
		stands := j != k
		for _, i := range c.of[j] {
			if stands = stands && at[i].Region >= 0; stands {
				boxes[j] = p.Items[i].Boxes(boxes[j], at[i])
			}
		}
		if !stands || hitsObstacle(p, boxes[j]) {
			continue
		}
		free := true
		for o := range j {
			free = free && (sound>>o&1 == 0 || !anyOverlap(boxes[o], boxes[j]))
		}
		if free {
			sound |= 1 << j
		}
	}
	return boxes, sound
}

// knowFits takes note of a set that fits, if it is no part of one that does.
func (c *culprit) knowFits(set uint64) {
	for _, f := range c.fits {
		if set&^f == 0 {
			return
		}
	}
	c.fits = slices.DeleteFunc(c.fits, func(f uint64) bool { return f&^set == 0 })
	c.fits = append(c.fits, set)
	slices.SortStableFunc(c.fits, func(a, b uint64) int { return bits.OnesCount64(b) - bits.OnesCount64(a) })
}

// grid calls f for places all over a region, its corners among them.
func grid(r pack.Region, f func(x, y int64)) {
	const parts = 8
	for i := range int64(parts + 1) {
		for j := range int64(parts + 1) {
			if i > 0 && r.X0 == r.X1 || j > 0 && r.Y0 == r.Y1 {
				continue
			}
			f(r.X0+(r.X1-r.X0)*i/parts, r.Y0+(r.Y1-r.Y0)*j/parts)
		}
	}
}

func anyOverlap(as, bs []pack.Box) bool {
	for _, a := range as {
		for _, b := range bs {
			if a.Overlaps(b) {
				return true
			}
		}
	}
	return false
}

func hitsObstacle(p *pack.Problem, bs []pack.Box) bool {
	for _, o := range p.Obstacles {
		if o.Box.Groups == 0 {
			o.Box.Groups = pack.AllGroups
		}
		if anyOverlap(bs, []pack.Box{o.Box}) {
			return true
		}
	}
	return false
}

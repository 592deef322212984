package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
)

// inputSide checks that the signal comes in on its side of the board: the
// first plug further to that side than the last one.
func (c *checker) inputSide() {
	nodes := c.p.Nodes(c.l)
	if len(nodes) < 3 {
		return
	}
	first, last := nodes[1], nodes[len(nodes)-2]
	if !layout.OffBoard(nodes[0].Unit) || !layout.OffBoard(nodes[len(nodes)-1].Unit) {
		return
	}
	in, ok1 := c.tip(first.Unit, first.In)
	out, ok2 := c.tip(last.Unit, last.Out)
	if !ok1 || !ok2 {
		return
	}
	back, start := out.X-in.X, right
	if c.p.Chain.LeftToRight {
		back, start = -back, left
	}
	if back <= 0 {
		return
	}
	ids := []string{first.Unit}
	if last.Unit != first.Unit {
		ids = append(ids, last.Unit)
	}
	c.addLength(RunsBack, Note, fmt.Sprintf("The signal comes in %s further to the %s than it leaves, though it is to come in from the %s. Cables will cross in front of you; turn the order round, or say so in the plan's chain.",
		c.atLeast(back), start.opposite(), start), back, 0, ids...)
}

func (c *checker) tip(unit, jack string) (layout.Point, bool) {
	for i := range c.stand {
		s := &c.stand[i]
		if s.Unit.ID != unit {
			continue
		}
		j := s.Unit.Jack(jack)
		if j == nil {
			return layout.Point{}, false
		}
		p, _ := s.Unit.Tip(j, s.Place.Turn)
		return p.Add(s.Place.At), true
	}
	return layout.Point{}, false
}

// tension is what outputs and units must have in common.
type tension struct {
	millivolts int
	ac         bool
}

func (t tension) String() string {
	kind := "DC"
	if t.ac {
		kind = "AC"
	}
	return fmt.Sprintf("%g V %s", float64(t.millivolts)/1000, kind)
}

// current adds up what the units draw and what the supplies give, voltage by
// voltage. It is a sum over the whole board: whether each unit finds an output
// is for the power map. Without a supply it says nothing, and nothing about a
// voltage that an expander makes of another, for that takes its current from
// elsewhere.
func (c *checker) current() {
	give, draw := map[tension]int{}, map[tension]int{}
	made := map[tension]bool{}
	for _, u := range c.units {
		if len(u.Outputs) == 0 {
			if d := u.Draw; d != nil && d.Milliamps > 0 {
				draw[tension{d.Millivolts, d.AC}] += d.Milliamps
			}
			continue
		}
		for _, o := range u.Outputs {
			t := tension{o.Millivolts, o.AC}
			switch {
			case !fedByBoard(u):
				give[t] += o.Milliamps
			case u.Draw == nil || (tension{u.Draw.Millivolts, u.Draw.AC}) != t:
				made[t] = true
			}
		}
	}
	var all []tension
	for t := range draw {
		if give[t] > 0 && !made[t] {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, func(a, b tension) int {
		return cmp.Or(cmp.Compare(a.millivolts, b.millivolts), strings.Compare(a.String(), b.String()))
	})
	for _, t := range all {
		limit := give[t] * (100 - c.p.Power.Headroom) / 100
		if draw[t] <= limit {
			continue
		}
		text := fmt.Sprintf("At %s the units draw %d mA; the supplies give %d mA, and with %d %% kept spare %d mA. Take a stronger supply, or feed something from elsewhere.",
			t, draw[t], give[t], c.p.Power.Headroom, limit)
		if draw[t] > give[t] {
			text = fmt.Sprintf("At %s the units draw %d mA, more than the %d mA that all supplies give together. Take a stronger supply, or feed something from elsewhere.",
				t, draw[t], give[t])
		}
		c.addMeasured(Current, Caution, text, float64(draw[t]), float64(limit), "mA")
	}
}

// fedByBoard reports whether a unit with outputs gets its current from another
// one on the board, as an expander does: low voltage in, and no mains inlet.
func fedByBoard(u *layout.Unit) bool {
	fed := false
	for i := range u.Jacks {
		j := &u.Jacks[i]
		if j.Signal == layout.Line {
			return false
		}
		fed = fed || j.Signal == layout.Power && j.Dir == layout.In
	}
	return fed
}

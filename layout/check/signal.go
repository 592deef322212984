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

// current adds up what the units draw and what all outputs give, voltage by
// voltage. It is a sum over the whole board, expanders included, and so the
// most that could be had: whether each unit finds an output is for the power
// map. It says nothing of a voltage that no output names, for many outputs can
// be set.
func (c *checker) current() {
	give, draw := map[tension]int{}, map[tension]int{}
	for _, u := range c.units {
		for _, o := range u.Outputs {
			give[tension{o.Millivolts, o.AC}] += o.Milliamps
		}
		if d := u.Draw; d != nil && len(u.Outputs) == 0 {
			draw[tension{d.Millivolts, d.AC}] += d.Milliamps
		}
	}
	var all []tension
	for t := range draw {
		if give[t] > 0 {
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

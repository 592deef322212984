package check

import (
	"fmt"
	"slices"

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

// plugged notes the units that the chain leaves out, once it has any: they take
// room and do nothing. A plan whose chain is still to come is not told so.
func (c *checker) plugged() {
	used := map[string]bool{}
	for _, k := range c.links {
		used[k.From.Unit], used[k.To.Unit] = true, true
	}
	var ids, labels []string
	for i := range c.stand {
		u := c.stand[i].Unit
		if !used[u.ID] && len(u.Uses) == 0 && slices.ContainsFunc(u.Jacks, layout.Jack.CarriesSignal) {
			ids, labels = append(ids, u.ID), append(labels, u.Label)
		}
	}
	switch {
	case len(c.links) < 2 || len(ids) == 0:
	case len(ids) == 1:
		c.add(NoCable, Note, labels[0]+" is on the board and no cable goes to it. Put it into the chain, or leave it at home.", ids...)
	default:
		c.add(NoCable, Note, layout.And(labels)+" are on the board and no cable goes to them. Put them into the chain, or leave them at home.", ids...)
	}
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

package changeover

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// units sorts the units into those that leave, move and come, and refuses a
// fixed one among them.
func (c *change) units() error {
	c.lifted = map[string]bool{}
	for i := range c.p.Units {
		u := &c.p.Units[i]
		a, b := c.from.at[u.ID], c.to.at[u.ID]
		switch {
		case a == nil && b == nil, a != nil && b != nil && a.Place == b.Place:
			continue
		case u.Mount == layout.Fixed:
			return c.fixed(u, a, b)
		case b == nil:
			c.leave = append(c.leave, u.ID)
		case a == nil:
			c.come = append(c.come, u.ID)
		default:
			c.move = append(c.move, u.ID)
		}
		c.lifted[u.ID] = a != nil
	}
	return nil
}

func (c *change) fixed(u *layout.Unit, a, b *layout.Standing) error {
	what, l := "stands at another place in", c.to.l.Name
	switch {
	case b == nil:
		what = "is not in"
	case a == nil:
		what, l = "is not in", c.from.l.Name
	}
	return &Refusal{l, []string{u.ID}, fmt.Sprintf("%s is fixed for good, but %s line-up %q: make it mount = \"swap\", or give it one place in all line-ups", name(c.p, u.ID), what, l)}
}

// order returns the moving units that are set aside, and the others in an order
// in which each finds its place free. fewest tells whether it is proved that no
// fewer can be set aside.
func (c *change) order() (aside, moves []string, fewest bool) {
	n := len(c.move)
	waits := make([][]int, n)
	for i, id := range c.move {
		goes := bodies(c.to.at[id])
		for k, other := range c.move {
			if i != k && meet(goes, bodies(c.from.at[other])) {
				waits[i] = append(waits[i], k)
			}
		}
	}
	out, fewest := feedback(waits)
	gone := make([]bool, n)
	for _, i := range out {
		aside = append(aside, c.move[i])
		gone[i] = true
	}
	for len(moves)+len(aside) < n {
		for i := range waits {
			if !gone[i] && !slices.ContainsFunc(waits[i], func(k int) bool { return !gone[k] }) {
				moves = append(moves, c.move[i])
				gone[i] = true
				break
			}
		}
	}
	return aside, moves, fewest
}

package plan

import (
	"fmt"
	"maps"
	"reflect"
	"slices"

	"footplank/layout"
)

// deepCopy returns a copy of the plan that shares nothing with it.
func deepCopy(p *layout.Plan) *layout.Plan {
	q := p.Clone()
	b := &q.Board
	b.Rails, b.Fixtures = slices.Clone(b.Rails), slices.Clone(b.Fixtures)
	b.Case = copyOf(b.Case)
	for i := range b.Risers {
		b.Risers[i].Legs = slices.Clone(b.Risers[i].Legs)
	}
	for i := range q.Units {
		u := &q.Units[i]
		u.Switches, u.Jacks, u.Outputs = slices.Clone(u.Switches), slices.Clone(u.Jacks), slices.Clone(u.Outputs)
		u.Sweep, u.Draw, u.Mains = copyOf(u.Sweep), copyOf(u.Draw), copyOf(u.Mains)
		for j := range u.Outputs {
			u.Outputs[j].Choices = slices.Clone(u.Outputs[j].Choices)
		}
		u.OnBase = slices.Clone(u.OnBase)
		u.On, u.Turns, u.Uses = slices.Clone(u.On), slices.Clone(u.Turns), slices.Clone(u.Uses)
	}
	q.Power.Tour = slices.Clone(q.Power.Tour)
	for _, r := range []*layout.FastenerRoll{&q.Fastening.Interlock, &q.Fastening.HookAndLoop} {
		r.Widths = slices.Clone(r.Widths)
	}
	return q
}

func copyOf[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

// difference names something in which b differs from a, or returns "".
func difference(a, b *layout.Plan) string {
	if a == b {
		return ""
	}
	switch {
	case a.Title != b.Title:
		return "the title"
	case a.LengthUnit != b.LengthUnit:
		return "the unit of length"
	case !sameBoard(a.Board, b.Board):
		return "the board"
	case !slices.Equal(a.Slots, b.Slots):
		return "the slots"
	case !slices.Equal(a.Chain.Stops, b.Chain.Stops), !slices.Equal(a.Chain.Links, b.Chain.Links), a.Chain.LeftToRight != b.Chain.LeftToRight:
		return "the chain"
	case a.Limits != b.Limits:
		return "the limits"
	case a.Cabling != b.Cabling:
		return "the cables"
	case a.Power.Sharing != b.Power.Sharing, a.Power.Headroom != b.Power.Headroom, !slices.Equal(a.Power.Tour, b.Power.Tour):
		return "the power rules"
	case !reflect.DeepEqual(a.Fastening, b.Fastening):
		return "the fastener"
	case !sameOwned(&a.Owned, &b.Owned):
		return "what is owned"
	case !maps.Equal(a.Prices, b.Prices):
		return "the prices"
	case len(a.Units) != len(b.Units):
		return "the number of units"
	case len(a.Lineups) != len(b.Lineups):
		return "the number of line-ups"
	}
	for i := range a.Units {
		if s := unitDifference(&a.Units[i], &b.Units[i]); s != "" {
			return fmt.Sprintf("unit %q: %s", a.Units[i].ID, s)
		}
	}
	for i := range a.Lineups {
		if s := lineupDifference(&a.Lineups[i], &b.Lineups[i]); s != "" {
			return fmt.Sprintf("line-up %q: %s", a.Lineups[i].Name, s)
		}
	}
	return ""
}

func unitDifference(a, b *layout.Unit) string {
	switch {
	case a.ID != b.ID:
		return "its id or the order of the units"
	case a.Label != b.Label:
		return "its label"
	case a.Form != b.Form:
		return "its form"
	case a.Body != b.Body, a.Overall != b.Overall:
		return "its size"
	case a.Mass != b.Mass:
		return "its mass"
	case a.Treadle != b.Treadle, !same(a.Sweep, b.Sweep):
		return "its treadle"
	case a.Buffer != b.Buffer:
		return "whether it is a buffer"
	case !same(a.Draw, b.Draw):
		return "its draw"
	case !slices.Equal(a.Switches, b.Switches):
		return "its switches"
	case !slices.EqualFunc(a.Jacks, b.Jacks, sameJack), !slices.Equal(a.Uses, b.Uses):
		return "its jacks"
	case !sameOutputs(a.Outputs, b.Outputs), a.Milliwatts != b.Milliwatts, !same(a.Mains, b.Mains):
		return "its outputs"
	case !slices.Equal(a.OnBase, b.OnBase):
		return "what is on its base"
	case a.ToBuy != b.ToBuy:
		return "whether it is still to buy"
	case a.Mount != b.Mount:
		return "its mount"
	case a.Pinned != b.Pinned:
		return "whether it is pinned"
	case a.Often != b.Often, !slices.Equal(a.On, b.On), !slices.Equal(a.Turns, b.Turns):
		return "where it may stand"
	case !same(a.Place, b.Place):
		return "its place"
	}
	return ""
}

// sameJack compares what the plan says of two jacks, and not the plugs that the
// program chose for them.
func sameJack(a, b layout.Jack) bool { return a.Asked() == b.Asked() }

// sameBoard takes a list without anything in it for none.
func sameBoard(a, b layout.Board) bool {
	for _, c := range []*layout.Board{&a, &b} {
		c.Rails, c.Risers, c.Fixtures = orNone(c.Rails), orNone(c.Risers), orNone(c.Fixtures)
	}
	return reflect.DeepEqual(a, b)
}

func orNone[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}

func sameOutputs(a, b []layout.Output) bool {
	return slices.EqualFunc(a, b, func(x, y layout.Output) bool {
		same := slices.Equal(x.Choices, y.Choices)
		x.Choices, y.Choices = nil, nil
		return same && reflect.DeepEqual(x, y)
	})
}

func sameOwned(a, b *layout.Owned) bool {
	return a.Board == b.Board && a.Reel == b.Reel && slices.Equal(a.Cables, b.Cables) && slices.Equal(a.Leads, b.Leads) &&
		slices.Equal(a.Plugs, b.Plugs) && slices.Equal(a.Rolls, b.Rolls)
}

func same[T comparable](a, b *T) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}

func lineupDifference(a, b *layout.Lineup) string {
	switch {
	case a.Name != b.Name:
		return "its name or the order of the line-ups"
	case !sameFill(a.Fill, b.Fill) || !sameFill(b.Fill, a.Fill):
		return "what is in its slots"
	case !maps.Equal(a.Place, b.Place):
		return "where its units stand"
	}
	return ""
}

// sameFill reports whether b has what a has; a slot without units is as good
// as none.
func sameFill(a, b map[string][]string) bool {
	for slot, ids := range a {
		if !slices.Equal(ids, b[slot]) {
			return false
		}
	}
	return true
}

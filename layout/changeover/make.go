package changeover

import (
	"context"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Make returns the card from one line-up to another. It answers the same for
// the same plan.
//
// It returns an *Unknown for a line-up that the plan does not have, and a
// *Refusal where there is no board to step from or to: units without a place,
// units that stand in each other, fixed units that would have to move.
func Make(p *layout.Plan, from, to string) (*Card, error) { return New(p).Card(from, to) }

// All returns the cards of all ordered pairs of different line-ups, in the
// plan's order.
func All(p *layout.Plan) ([]*Card, error) {
	m := New(p)
	var out []*Card
	for i := range p.Lineups {
		for k := range p.Lineups {
			if i == k {
				continue
			}
			c, err := m.Card(p.Lineups[i].Name, p.Lineups[k].Name)
			if err != nil {
				return nil, err
			}
			out = append(out, c)
		}
	}
	return out, nil
}

// Maker makes cards of one plan, whose cables and power map it works out once.
// The plan must not change meanwhile.
type Maker struct {
	p *layout.Plan
	w *wiring.Result
	m *power.Result
}

// New returns a maker of the plan's cards.
func New(p *layout.Plan) *Maker {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		panic("changeover: " + err.Error()) // the context does not end
	}
	w := wiring.Wire(p)
	m.Route(p, w.Settled)
	return With(p, w, m)
}

// With is New for a caller who has the plan's wiring and power map, leads laid.
func With(p *layout.Plan, w *wiring.Result, m *power.Result) *Maker { return &Maker{p, w, m} }

// Card returns the card from one line-up to another; its errors are those of
// Make.
func (m *Maker) Card(from, to string) (*Card, error) {
	a, err := lineup(m.p, from)
	if err != nil {
		return nil, err
	}
	b, err := lineup(m.p, to)
	if err != nil {
		return nil, err
	}
	c := &change{p: m.p, from: newSide(m, a), to: newSide(m, b)}
	for _, s := range []*side{c.from, c.to} {
		if err := s.sound(); err != nil {
			return nil, err
		}
	}
	if err := c.units(); err != nil {
		return nil, err
	}
	c.plugs()
	return c.card(), nil
}

// change is one changeover being worked out.
type change struct {
	p        *layout.Plan
	from, to *side
	// The units that are taken up, in the plan's order: those that leave,
	// that move, and those that come.
	leave, move, come []string
	lifted            map[string]bool // those that leave or move
	pairs             []pair          // what is plugged, before and after
}

package changeover

import (
	"fmt"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

// Unknown is the error for a line-up that the plan does not have.
type Unknown struct {
	Name, Near string // Near is the nearest name that it has, "" for none near
	Has        []string
}

func (e *Unknown) Error() string {
	if e.Near != "" {
		return fmt.Sprintf("no line-up %q in the plan: did you mean %q?", e.Name, e.Near)
	}
	return fmt.Sprintf("no line-up %q in the plan: it has %s", e.Name, strings.Join(e.Has, ", "))
}

// Refusal is the error for a plan that has no card: what it says of the line-up
// cannot be on the board, or not be changed between sets.
type Refusal struct {
	Lineup string
	Units  []string // IDs, whom it concerns
	Why    string   // a sentence or two
}

func (e *Refusal) Error() string { return e.Why }

func lineup(p *layout.Plan, name string) (*layout.Lineup, error) {
	if l := p.LineupNamed(name); l != nil {
		return l, nil
	}
	e := &Unknown{Name: name}
	for i := range p.Lineups {
		e.Has = append(e.Has, p.Lineups[i].Name)
	}
	e.Near = catalog.Nearest(name, e.Has)
	return nil, e
}

package tryout

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

// Kinds of candidates.
const (
	OfPlan = "unit" // of the plan
	OfForm = "form" // of the catalog
	OfSize = "size" // sizes alone
)

// Candidate is what is tried.
type Candidate struct {
	Kind string
	Name string // as asked for: an ID, a form, sizes
	// Unit is the unit as it would be in the plan. Of one that is not in it,
	// the ID is only a wish.
	Unit layout.Unit
}

// Question is a candidate for a slot.
type Question struct {
	Candidate Candidate
	Slot      string
	InsteadOf string   // ID of the unit of the slot that it replaces, "" to add it
	Lineups   []string // nil for all
}

// FromPlan returns a unit of the plan as a candidate.
func FromPlan(p *layout.Plan, id string) (Candidate, error) {
	u := p.Unit(id)
	if u == nil {
		return Candidate{}, fmt.Errorf("no unit %q in the plan: %s", id, wanted(id, unitIDs(p)))
	}
	return Candidate{OfPlan, id, *u}, nil
}

// FromForm returns a form of the catalog as a candidate.
func FromForm(c *catalog.Catalog, name string) (Candidate, error) {
	f, ok := c.Unit(name)
	if !ok {
		var names []string
		for _, f := range c.Units() {
			names = append(names, f.Name)
		}
		if n := catalog.Nearest(name, names); n != "" {
			return Candidate{}, fmt.Errorf("no form %q: did you mean %q?", name, n)
		}
		return Candidate{}, fmt.Errorf("no form %q; \"footplank forms\" lists them", name)
	}
	u := f.Template()
	u.ID, u.Label, u.Form, u.Mount = f.Name, f.Name, f.Name, layout.Swap
	return Candidate{OfForm, f.Name, u}, nil
}

// FromCatalog returns all forms of units, supplies left out, as candidates.
func FromCatalog(c *catalog.Catalog) []Candidate {
	var out []Candidate
	for _, f := range c.Units() {
		if f.Family != catalog.UnitFamily {
			continue
		}
		if x, err := FromForm(c, f.Name); err == nil {
			out = append(out, x)
		}
	}
	return out
}

// Sizes that a unit can have, generously: those of plan files.
const (
	leastSide  = 5 * layout.Millimetre
	mostSide   = 1000 * layout.Millimetre
	mostHeight = 500 * layout.Millimetre
)

// FromSize returns a unit of the sizes in text, WIDTHxDEPTHxHEIGHT in the
// player's measure, as a candidate. Where its jacks sit and what it draws are
// those of the form named by like, in proportion.
func FromSize(c *catalog.Catalog, text, like string, unit layout.LengthUnit) (Candidate, error) {
	parts := strings.Split(strings.ToLower(text), "x")
	if len(parts) != 3 {
		return Candidate{}, fmt.Errorf("size %q: want WIDTHxDEPTHxHEIGHT, like 120x95x60 or 4.7inx3.7inx2.4in", text)
	}
	var l [3]layout.Length
	for i, s := range parts {
		var err error
		most := layout.Length(mostSide)
		least := layout.Length(leastSide)
		if i == 2 {
			most, least = mostHeight, layout.Millimetre
		}
		if l[i], err = layout.ParseLength(strings.TrimSpace(s), unit); err != nil {
			return Candidate{}, fmt.Errorf("size %q: %w", text, err)
		}
		if l[i] < least || l[i] > most {
			return Candidate{}, fmt.Errorf("size %q: %s is %s, want %s to %s", text, [...]string{"the width", "the depth", "the height"}[i],
				l[i].Format(unit), least.Format(unit), most.Format(unit))
		}
	}
	f, err := FromForm(c, like)
	if err != nil {
		return Candidate{}, err
	}
	u := scaled(f.Unit, layout.Size{W: l[0], D: l[1], H: l[2]})
	u.ID, u.Label, u.Form = "tried", text, ""
	return Candidate{OfSize, text, u}, nil
}

// Turned returns the candidate with only these turns allowed, in degrees.
func (c Candidate) Turned(degrees []int) Candidate {
	c.Unit.Turns = nil
	for _, d := range degrees {
		c.Unit.Turns = append(c.Unit.Turns, layout.Turn(d/90))
	}
	return c
}

// scaled returns the unit with another body, its jacks and switches at the same
// proportions of it. Knobs stand as far out as they did.
func scaled(u layout.Unit, to layout.Size) layout.Unit {
	was := u.Body
	u.Body = to
	u.Overall = layout.Size{W: to.W + max(0, u.Overall.W-was.W), D: to.D + max(0, u.Overall.D-was.D), H: to.H}
	for i := range u.Jacks {
		j := &u.Jacks[i]
		if j.Wall == layout.Front || j.Wall == layout.Back {
			j.Along = j.Along * to.W / was.W
		} else {
			j.Along = j.Along * to.D / was.D
		}
		j.Height = j.Height * to.H / was.H
	}
	for i := range u.Switches {
		s := &u.Switches[i]
		s.At = layout.Point{X: s.At.X * to.W / was.W, Y: s.At.Y * to.D / was.D}
		s.Height = to.H
	}
	u.OnBase = nil
	return u
}

// wanted ends an error about a word that is none of words.
func wanted(found string, words []string) string {
	if n := catalog.Nearest(found, words); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	if len(words) == 0 {
		return "there is none"
	}
	return "it has " + strings.Join(words, ", ")
}

func unitIDs(p *layout.Plan) []string {
	var out []string
	for i := range p.Units {
		out = append(out, p.Units[i].ID)
	}
	return out
}

// Check reports what is wrong with a question to this plan, nil if nothing is.
func (q *Question) Check(p *layout.Plan) error {
	s := p.Slot(q.Slot)
	if s == nil {
		var names []string
		for i := range p.Slots {
			names = append(names, p.Slots[i].Name)
		}
		if len(names) == 0 {
			return errors.New("the plan has no slot to try anything in: give it a [[slot]]")
		}
		return fmt.Errorf("no slot %q in the plan: %s", q.Slot, wanted(q.Slot, names))
	}
	for _, n := range q.Lineups {
		if p.LineupNamed(n) == nil {
			var names []string
			for i := range p.Lineups {
				names = append(names, p.Lineups[i].Name)
			}
			return fmt.Errorf("no line-up %q in the plan: %s", n, wanted(n, names))
		}
	}
	if q.Candidate.Kind == OfPlan && p.Unit(q.Candidate.Name) == nil {
		return fmt.Errorf("no unit %q in the plan: %s", q.Candidate.Name, wanted(q.Candidate.Name, unitIDs(p)))
	}
	return q.checkPlaces(p)
}

// checkPlaces reports whether the question makes sense in its line-ups.
func (q *Question) checkPlaces(p *layout.Plan) error {
	id := q.Candidate.Name
	ofPlan := q.Candidate.Kind == OfPlan
	if ofPlan && !p.InSlots(id) && len(q.lineups(p)) < len(p.Lineups) {
		return fmt.Errorf("unit %q is on the board in every line-up, so it can only be tried in all of them: leave --lineup out", id)
	}
	if ofPlan && q.InsteadOf == id {
		return fmt.Errorf("unit %q cannot be tried instead of itself", id)
	}
	if q.InsteadOf != "" {
		if p.Unit(q.InsteadOf) == nil {
			return fmt.Errorf("instead of: no unit %q in the plan: %s", q.InsteadOf, wanted(q.InsteadOf, unitIDs(p)))
		}
		for _, l := range q.lineups(p) {
			in := slices.Contains(l.Fill[q.Slot], q.InsteadOf)
			if q.Lineups != nil && !in {
				return fmt.Errorf("instead of: unit %q is not in slot %q in line-up %q: that has %s", q.InsteadOf, q.Slot, l.Name, anyOf(l.Fill[q.Slot]))
			}
		}
		if len(q.changes(p)) == 0 {
			return fmt.Errorf("instead of: unit %q is not in slot %q in any line-up", q.InsteadOf, q.Slot)
		}
		return nil
	}
	if len(q.changes(p)) == 0 {
		return fmt.Errorf("unit %q is in slot %q there already: name another slot or unit, or what it should replace", id, q.Slot)
	}
	return nil
}

func anyOf(words []string) string {
	if len(words) == 0 {
		return "nothing"
	}
	return strings.Join(words, ", ")
}

// lineups returns the line-ups the question is about.
func (q *Question) lineups(p *layout.Plan) []*layout.Lineup {
	var out []*layout.Lineup
	for i := range p.Lineups {
		if q.Lineups == nil || slices.Contains(q.Lineups, p.Lineups[i].Name) {
			out = append(out, &p.Lineups[i])
		}
	}
	return out
}

// changes returns the names of the line-ups that the question changes.
func (q *Question) changes(p *layout.Plan) []string {
	var out []string
	for _, l := range q.lineups(p) {
		fill := l.Fill[q.Slot]
		switch {
		case q.InsteadOf != "" && slices.Contains(fill, q.InsteadOf):
		case q.InsteadOf == "" && !(q.Candidate.Kind == OfPlan && slices.Contains(fill, q.Candidate.Name)):
		default:
			continue
		}
		out = append(out, l.Name)
	}
	return out
}

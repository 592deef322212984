package tryout

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/power"
)

// trial is a plan with the candidate in the slot, nowhere yet.
type trial struct {
	plan    *layout.Plan
	unit    *layout.Unit // the candidate in plan
	lineups []string     // it is tried in
	touched []string     // whose units or plugs are others than before
	power   string       // verdict of the power map
	gone    string       // the note about a unit that is in no line-up any more
	notes   []string
}

// put makes the trial of a question about the bench's plan.
func (b *Bench) put(q *Question) *trial {
	in := *q
	if b.plan.Unit(q.Candidate.Name) == nil && q.Candidate.Kind == OfPlan {
		in.Candidate.Kind = OfSize // of line-ups that are not looked at
	}
	t := put(b.plan, &in)
	if t.gone != "" && b.whole != nil && elsewhere(b.whole, q) {
		t.notes = slices.DeleteFunc(t.notes, func(s string) bool { return s == t.gone })
	}
	return t
}

// elsewhere reports whether what the question replaces is in line-ups that it
// does not change.
func elsewhere(p *layout.Plan, q *Question) bool {
	changed := q.changes(p)
	return slices.ContainsFunc(p.Lineups, func(l layout.Lineup) bool {
		return !slices.Contains(changed, l.Name) && p.SlotOf(&l, q.InsteadOf) != nil
	})
}

// holds reports a question about line-ups that the bench does not look at.
func (b *Bench) holds(q *Question) error {
	for _, l := range q.changes(b.asked()) {
		if b.plan.LineupNamed(l) == nil {
			return fmt.Errorf("line-up %q is not looked at: the plan's line-ups do not go together, and only others were asked for", l)
		}
	}
	return nil
}

// put makes the trial of a question about a plan.
func put(p *layout.Plan, q *Question) *trial {
	t := &trial{plan: p.Clone(), lineups: q.changes(p)}
	id := t.enter(q)
	for _, name := range t.lineups {
		l := t.plan.LineupNamed(name)
		for s, ids := range l.Fill {
			if at := slices.Index(ids, id); at >= 0 {
				l.Fill[s] = slices.Delete(ids, at, at+1)
			}
		}
		delete(l.Place, id)
		fill := l.Fill[q.Slot]
		if at := slices.Index(fill, q.InsteadOf); at >= 0 && q.InsteadOf != "" {
			fill[at] = id
			delete(l.Place, q.InsteadOf)
		} else {
			fill = append(fill, id)
		}
		l.Fill[q.Slot] = fill
	}
	if q.InsteadOf != "" && !t.plan.InSlots(q.InsteadOf) {
		t.leave(q.InsteadOf)
		t.gone = fmt.Sprintf("%s is then in no line-up any more and leaves the plan.", p.Unit(q.InsteadOf).Label)
		t.notes = append(t.notes, t.gone)
	}
	t.unit = t.plan.Unit(id)
	t.missingJacks()
	t.power = power.Apply(t.plan)
	t.touch(p)
	return t
}

// enter makes the candidate a unit of the plan that line-ups can name, and
// returns its ID.
func (t *trial) enter(q *Question) string {
	if q.Candidate.Kind != OfPlan {
		u := q.Candidate.Unit
		u.ID, u.Place, u.Pinned, u.Mount = free(t.plan, u.ID), nil, false, layout.Swap
		t.plan.Units = append(t.plan.Units, u)
		return u.ID
	}
	u := t.plan.Unit(q.Candidate.Name)
	u.Turns = q.Candidate.Unit.Turns
	if !t.plan.InSlots(u.ID) {
		t.plan.Chain.Stops = slices.DeleteFunc(t.plan.Chain.Stops, func(s layout.Stop) bool { return s.Unit == u.ID })
		t.notes = append(t.notes, fmt.Sprintf("%s leaves its own stop in the chain for that of the slot.", u.Label))
		if u.Mount == layout.Fixed {
			u.Mount = layout.Swap
			t.notes = append(t.notes, fmt.Sprintf("%s is fixed: in a slot it wants hook-and-loop instead.", u.Label))
		}
	}
	if u.Pinned {
		u.Pinned = false
		t.notes = append(t.notes, fmt.Sprintf("%s is pinned: to try it, it is let go.", u.Label))
	}
	if u.Place != nil {
		// A place of all line-ups becomes one of each it stays in.
		for i := range t.plan.Lineups {
			l := &t.plan.Lineups[i]
			if _, own := l.Place[u.ID]; !own && t.plan.SlotOf(l, u.ID) != nil {
				l.Place[u.ID] = *u.Place
			}
		}
		u.Place = nil
	}
	return u.ID
}

// leave takes a unit that no line-up has any more out of the plan: as one in no
// slot it would be on the board for good.
func (t *trial) leave(id string) {
	t.plan.Units = slices.DeleteFunc(t.plan.Units, func(u layout.Unit) bool { return u.ID == id })
	t.plan.Chain.Links = slices.DeleteFunc(t.plan.Chain.Links, func(k layout.Link) bool { return k.From.Unit == id || k.To.Unit == id })
}

// free returns an ID like the one wished for that no unit has.
func free(p *layout.Plan, wish string) string {
	id := wish
	for n := 2; p.Unit(id) != nil; n++ {
		id = fmt.Sprintf("%s-%d", wish, n)
	}
	return id
}

// missingJacks notes a unit that the signal cannot pass through.
func (t *trial) missingJacks() {
	in, out := t.unit.Jack("in"), t.unit.Jack("out")
	if in != nil && out != nil {
		return
	}
	what := "\"in\" and no jack \"out\""
	switch {
	case in != nil:
		what = "\"out\""
	case out != nil:
		what = "\"in\""
	}
	t.notes = append(t.notes, fmt.Sprintf("%s has no jack %s: the signal cannot pass through it, so cables around it are not counted.", t.unit.Label, what))
}

// touch lists the line-ups whose units or used jacks have changed.
func (t *trial) touch(was *layout.Plan) {
	for i := range t.plan.Lineups {
		l, old := &t.plan.Lineups[i], &was.Lineups[i]
		a, b := t.plan.Used(l), was.Used(old)
		same := len(a) == len(b) && !slices.Contains(t.lineups, l.Name)
		for r := range a {
			same = same && b[r]
		}
		if !same {
			t.touched = append(t.touched, l.Name)
		}
	}
}

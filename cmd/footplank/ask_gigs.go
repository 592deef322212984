package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/plan"
)

// gigs asks whether units change from gig to gig, and if so for the slots that they
// are in, the gigs, and what is in the slots at each.
func (q *questions) gigs(a *plan.Answers) error {
	if a.Slots == nil {
		err := q.until(a, "Do units change from gig to gig? Names for their slots, as in: colour space;\nor empty if none do", "", func(text string) { a.Slots = words(text, ", ") })
		if err != nil {
			return err
		}
	}
	if len(a.Slots) == 0 {
		return nil
	}
	if a.Lineups == nil {
		err := q.until(a, "Your gigs, with commas, as in: barn, pit", plan.DefaultLineup, func(text string) { a.Lineups = gigs(words(text, ",")) })
		if err != nil {
			return err
		}
	}
	ids, err := passed(a)
	if err != nil || len(ids) == 0 {
		return err
	}
	for i := range a.Lineups {
		for _, slot := range a.Slots {
			left := slices.DeleteFunc(slices.Clone(ids), func(id string) bool {
				for _, in := range a.Lineups[i].Fill {
					if slices.Contains(in, id) {
						return true
					}
				}
				return false
			})
			if len(left) == 0 {
				break
			}
			if err := q.fill(a, &a.Lineups[i], slot, left); err != nil {
				return err
			}
		}
	}
	return nil
}

// until asks until a plan can be made with the answer.
func (q *questions) until(a *plan.Answers, question, usual string, take func(text string)) error {
	for {
		text, err := q.answer(question, usual)
		if err != nil {
			return err
		}
		take(text)
		if err = tried(*a); err == nil {
			return nil
		}
		q.explain(err)
	}
}

// inShort is the first thing that is wrong with a plan that nobody has seen as a
// text yet, without its place there.
func inShort(err error) error {
	var all plan.Errors
	if errors.As(err, &all) && len(all) > 0 {
		return errors.New(all[0].Msg)
	}
	return err
}

// words returns what stands between separators.
func words(text, separators string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(separators, r) }) {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// passed gives the units of the answers the ids that they will have, and returns
// those that the signal passes: only they can be in a slot.
func passed(a *plan.Answers) ([]string, error) {
	d, err := plan.New(*a)
	if err != nil {
		return nil, err
	}
	for i := range a.Units {
		a.Units[i].ID = d.Plan.Units[i].ID
	}
	var ids []string
	for _, s := range d.Plan.Chain.Stops {
		if s.Slot == "" && !layout.OffBoard(s.Unit) {
			ids = append(ids, s.Unit)
		}
	}
	return ids, nil
}

// fill asks for what is in a slot at a gig.
func (q *questions) fill(a *plan.Answers, l *plan.StarterLineup, slot string, ids []string) error {
	question := fmt.Sprintf("In slot %s at %s, of %s;\nor empty for none", slot, l.Name, strings.Join(ids, " "))
	return q.until(a, question, "", func(text string) { l.Fill[slot] = words(text, ", ") })
}

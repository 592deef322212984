package tui

import (
	"footplank/layout"
	"footplank/layout/sheet"
	"footplank/layout/tryout"
)

// earlier is an answer about a plan that has changed since.
type earlier struct {
	base   *layout.Plan
	answer *tryout.Answer
}

// mostEarlier is how many plans back answers to one question are kept: they are
// true again when edits are taken back.
const mostEarlier = 8

// about begins trying with the plan as it is now. Of what is known, what cannot
// have changed stays known; the rest stays as of before and is asked anew. t may
// be nil.
func (t *trial) about(p *layout.Plan) *trial {
	n := &trial{base: p, answers: map[string]*tryout.Answer{}, was: map[string][]earlier{}, wrong: map[string]string{}}
	if t == nil {
		return n
	}
	t.halt()
	n.list, n.typed, n.every = t.list, t.typed, t.every
	lasting := map[*layout.Plan]func(*tryout.Answer) bool{}
	take := func(key string, e earlier) {
		if lasting[e.base] == nil {
			lasting[e.base] = tryout.Lasting(e.base, p)
		}
		switch {
		case n.answers[key] == nil && lasting[e.base](e.answer):
			n.answers[key] = e.answer
		case len(n.was[key]) < mostEarlier:
			n.was[key] = append(n.was[key], e)
		}
	}
	for key, a := range t.answers {
		take(key, earlier{t.base, a})
	}
	for key, all := range t.was {
		for _, e := range all {
			take(key, e)
		}
	}
	return n
}

// old is the latest answer about a plan before this one, nil if there is none.
func (t *trial) old(key string) *earlier {
	if all := t.was[key]; len(all) > 0 {
		return &all[0]
	}
	return nil
}

// knows reports whether there is an answer, of the plan as it is or as it was.
func (t *trial) knows(c *try) bool {
	key := t.key(c)
	return t.answers[key] != nil || t.old(key) != nil
}

// tryBefore tells what was found about a candidate before the plan changed.
func (m *Model) tryBefore(c *try, w int) []string {
	old := m.trial.old(m.trial.key(c))
	if old == nil {
		return nil
	}
	lines := append([]string{"", "Before the plan changed:"}, sheet.TryoutLines(old.base, old.answer, w)...)
	for i := range lines {
		lines[i] = m.ascii(lines[i])
	}
	return lines
}

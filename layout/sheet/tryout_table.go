package sheet

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/tryout"
)

// tryouts writes a table, a row for each candidate.
func (t *writer) tryouts(r *Tryout) {
	if len(r.answers) == 0 {
		return
	}
	t.title(fmt.Sprintf("%d candidates %s", len(r.answers), t.where(&r.answers[0].Question, lineupsOf(r.answers))), "=")
	t.lines("")
	tab := &table{head: TryoutColumns(), flex: []int{5, 0}, wraps: true}
	for _, a := range r.answers {
		tab.add(t.row(a)...)
	}
	t.lines(tab.lines(t.page())...)
	t.lines("")
	t.lines(t.para("  ", "Room: \"moves 2+1 fixed\" moves two swap units and one fixed; * proved. Cables: how many to add to the kit. One candidate alone is told in full.")...)
	var notes []string
	for _, a := range r.answers {
		for _, n := range a.Notes {
			if !slices.Contains(notes, n) && len(r.answers) > 0 && strings.HasPrefix(n, "The ") {
				notes = append(notes, n)
			}
		}
	}
	for _, n := range notes {
		t.lines(t.para("  Note: ", n)...)
	}
}

func lineupsOf(answers []*tryout.Answer) []string {
	var out []string
	for _, a := range answers {
		for _, l := range a.Lineups {
			if !slices.Contains(out, l) {
				out = append(out, l)
			}
		}
	}
	return out
}

// row is one candidate's row.
func (t *writer) row(a *tryout.Answer) []string {
	room, at, what := "", "", ""
	proved := pickText(a.Proved, " *", "")
	switch a.Verdict {
	case tryout.Fits:
		room = "fits"
	case tryout.Moves:
		swap := a.Units - a.FixedUnits
		room = fmt.Sprintf("moves %d", swap)
		switch {
		case swap == 0:
			room = fmt.Sprintf("moves %d fixed", a.FixedUnits)
		case a.FixedUnits > 0:
			room += fmt.Sprintf("+%d fixed", a.FixedUnits)
		}
		room += proved
		what = t.movedNames(a)
	case tryout.Impossible:
		room = "no" + proved
		what = t.helps(a)
	default:
		room = "undecided"
	}
	if len(a.Places) > 0 {
		p := a.Places[0].At
		at = t.point(p.At)
		if p.Turn != 0 {
			at += fmt.Sprintf(" @%d", p.Turn.Degrees())
		}
		if len(a.Places) > 1 {
			at += " .."
		}
	}
	power, cables := pickText(a.Power.OK, "yes", "NO"), ""
	if a.Power.OK && len(a.Power.Outputs) == 0 {
		power = "-"
	}
	if a.Room() {
		cables = fmt.Sprint(len(a.Cables))
		if len(a.Blocked) > 0 {
			cables += " BLOCKED"
		}
	}
	return []string{t.candidate(a), room, at, power, cables, what}
}

func (t *writer) movedNames(a *tryout.Answer) string {
	var names []string
	for _, m := range a.Moved {
		if n := t.label(m.Unit); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ", ")
}

// helps says shortly what would make room.
func (t *writer) helps(a *tryout.Answer) string {
	var out []string
	for _, g := range a.Growth {
		how := pickText(g.Side == layout.Back || g.Side == layout.Front, "deeper", "wider")
		out = append(out, fmt.Sprintf("%s %s %s", g.What, t.length(t.upTo(g.By)), how))
	}
	for i, id := range a.Without {
		out = append(out, pickText(i == 0, "without "+t.label(id), t.label(id)))
	}
	switch {
	case len(out) > 0 || a.Conflict == nil:
		return strings.Join(out, "; or ")
	case len(a.Conflict.Units) == 1:
		return "too large for the slot"
	}
	var names []string
	for _, id := range a.Conflict.Units {
		if id != a.Unit {
			names = append(names, t.label(id))
		}
	}
	return "collides with " + strings.Join(names, ", ")
}

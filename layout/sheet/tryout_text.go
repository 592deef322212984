package sheet

import (
	"fmt"
	"io"
	"strings"

	"footplank/layout"
	"footplank/layout/tryout"
	"footplank/layout/wiring"
)

// Text writes the answers for reading in that many columns, 80 for 0: several as a table with
// a row for each, one in full.
func (t *Tryout) Text(to io.Writer, cols int) error {
	w := &writer{p: t.plan, width: cols}
	if len(t.answers) == 1 {
		w.tried(t.answers[0])
	} else {
		w.tryouts(t)
	}
	_, err := io.WriteString(to, w.b.String())
	return err
}

// TryoutLines is one answer about the plan in full, without a title, in lines of
// at most w cells.
func TryoutLines(p *layout.Plan, a *tryout.Answer, w int) []string {
	t := &writer{p: p, width: w}
	t.answer(a)
	return strings.Split(strings.TrimRight(t.b.String(), "\n"), "\n")
}

// TryoutColumns heads the rows of TryoutRow.
func TryoutColumns() []string { return []string{"Candidate", "Room", "At", "Power", "Cables", "What"} }

// TryoutRow is one answer about the plan as a row of a table.
func TryoutRow(p *layout.Plan, a *tryout.Answer) []string { return (&writer{p: p}).row(a) }

// TryoutVerdict says in a sentence or two what an answer comes to, and what it
// would take.
func TryoutVerdict(p *layout.Plan, a *tryout.Answer) string { return (&writer{p: p}).verdict(a) }

// where words slot and line-ups of a question.
func (t *writer) where(q *tryout.Question, lineups []string) string {
	s := fmt.Sprintf("in slot %s", q.Slot)
	if q.InsteadOf != "" {
		s += fmt.Sprintf(" instead of %s", t.label(q.InsteadOf))
	}
	return s + ", " + t.inLineups(lineups)
}

// inLineups names line-ups, or says that it is all.
func (t *writer) inLineups(names []string) string {
	switch {
	case len(names) == len(t.p.Lineups) && len(names) > 1:
		return "every line-up"
	case len(names) == 1:
		return "line-up " + names[0]
	}
	return "line-ups " + strings.Join(names, ", ")
}

// tried writes one answer in full.
func (t *writer) tried(a *tryout.Answer) {
	t.title(fmt.Sprintf("%s %s", t.candidate(a), t.where(&a.Question, a.Lineups)), "=")
	t.lines("")
	t.answer(a)
}

func (t *writer) answer(a *tryout.Answer) {
	t.lines(t.para("  ", t.verdict(a))...)
	t.lines("")
	for _, p := range a.Places {
		in := ""
		if len(a.Places) > 1 {
			in = t.inLineups(p.Lineups) + ": "
		}
		t.lines(t.para("  Place    ", in+t.place(p.At))...)
	}
	for i, m := range a.Moved {
		head := "           "
		if i == 0 {
			head = "  Move     "
		}
		t.lines(t.para(head, t.move(a, &m))...)
	}
	t.reasons(a)
	if a.Room() || !a.Power.OK {
		head := "  Power    "
		if !a.Power.OK {
			head = "  NO POWER "
		}
		t.lines(t.para(head, a.Power.Text)...)
	}
	if a.Room() {
		t.addedCables(a)
	}
	for _, p := range a.Plugs {
		t.lines(t.para("  Plug     ", fmt.Sprintf("%q of %s: %s instead of %s", p.Jack.Jack, t.labelIn(a, p.Jack.Unit), p.To, p.From))...)
	}
	for _, f := range a.Findings {
		t.lines(t.para(fmt.Sprintf("  %-8s ", strings.ToUpper(string(f.Level))), fmt.Sprintf("%s [%s]", f.Text, f.Code))...)
	}
	for _, n := range a.Notes {
		t.lines(t.para("  Note     ", n)...)
	}
}

// candidate names what was tried.
func (t *writer) candidate(a *tryout.Answer) string {
	c := &a.Question.Candidate
	switch c.Kind {
	case tryout.OfPlan:
		return t.label(c.Name)
	case tryout.OfSize:
		b := c.Unit.Body
		return fmt.Sprintf("%s x %s x %s", t.num(b.W), t.num(b.D), t.length(b.H))
	}
	return c.Name
}

// labelIn is the label of a unit of the answer's plan.
func (t *writer) labelIn(a *tryout.Answer, id string) string {
	if id == a.Unit {
		return t.candidate(a)
	}
	return t.label(id)
}

// verdict says in a sentence or two what came of it.
func (t *writer) verdict(a *tryout.Answer) string {
	switch a.Verdict {
	case tryout.Fits:
		if n := len(a.Plugs); n > 0 {
			return fmt.Sprintf("Fits where things stand, with %s: nothing else moves.", pickText(n == 1, "another plug", "other plugs"))
		}
		return "Fits where things stand: nothing else moves."
	case tryout.Moves:
		s := fmt.Sprintf("Fits if %d %s %s.", a.Units, plural(a.Units, "unit"), pickText(a.Units == 1, "moves", "move"))
		if a.Proved {
			s += " No fewer will do: proved."
		} else {
			s += " Whether fewer would do was not decided." + t.soFar(a)
		}
		s += fmt.Sprintf(" In all %s of way, the shortest found.", t.length(t.upTo(a.Distance)))
		if n := a.FixedUnits; n > 0 {
			which := fmt.Sprintf("%d of them %s", n, pickText(n == 1, "is", "are"))
			if n == a.Units {
				which = pickText(n == 1, "It is", "All of them are")
			}
			s += " " + which + " fixed: lift the interlocking fastener."
		}
		return s
	case tryout.Impossible:
		return "Does not fit, wherever anything stands: proved."
	}
	if a.AllTried {
		return "Undecided: neither a place nor a proof that there is none, and more time would not help." + t.soFar(a)
	}
	return "Undecided: neither a place nor a proof that there is none; give it more time." + t.soFar(a)
}

func (t *writer) soFar(a *tryout.Answer) string {
	if len(a.Steps) == 0 {
		return ""
	}
	return " Proved so far: " + strings.Join(a.Steps, " ")
}

// place words a place: deck, 20, 35 mm, turned 90.
func (t *writer) place(p layout.Placement) string {
	s := fmt.Sprintf("%s at %s %s", p.On, t.point(p.At), t.unit())
	if d := p.Turn.Degrees(); d != 0 {
		s += fmt.Sprintf(", turned %d", d)
	}
	return s
}

func (t *writer) move(a *tryout.Answer, m *tryout.Move) string {
	s := t.label(m.Unit)
	if m.Fixed {
		s += " (fixed: lift the interlocking fastener)"
	}
	s += fmt.Sprintf(" from %s to %s", t.place(m.From), t.place(m.To))
	if len(m.Lineups) < len(t.p.Lineups) {
		s += ", in " + t.inLineups(m.Lineups)
	}
	return s
}

// reasons says why it does not fit and what would help.
func (t *writer) reasons(a *tryout.Answer) {
	if c := a.Conflict; c != nil {
		var names []string
		for _, id := range c.Units {
			names = append(names, t.labelIn(a, id))
		}
		s := strings.Join(names, ", ")
		switch {
		case len(names) == 1:
			s += " has no place of its own"
		case c.Smallest:
			s += ": no smaller set collides, proved"
		case c.Minimal:
			s += ": without any one of them the rest fits"
		}
		t.lines(t.para("  Collide  ", fmt.Sprintf("in %s: %s.", t.inLineups(c.Lineups), s))...)
		t.lines(t.para("  Why      ", strings.ReplaceAll(c.Why, a.Question.Candidate.Unit.Label, t.candidate(a)))...)
	}
	if a.Verdict != tryout.Impossible || a.Conflict == nil {
		return
	}
	if len(a.Growth) == 0 {
		t.lines(t.para("  Growth   ", "Neither a larger slot nor a board up to 200 mm larger makes room.")...)
	}
	for i, g := range a.Growth {
		head := "           "
		if i == 0 {
			head = "  Growth   "
		}
		t.lines(t.para(head, t.growth(&g))...)
	}
	var names []string
	for _, id := range a.Without {
		names = append(names, t.label(id))
	}
	if len(names) > 0 {
		t.lines(t.para("  Room     ", "if one of these goes: "+strings.Join(names, ", ")+".")...)
	} else {
		t.lines(t.para("  Room     ", "No single unit that goes was found to make room.")...)
	}
}

// growth words how much more room would do.
func (t *writer) growth(g *tryout.Growth) string {
	what := map[string]string{tryout.GrowSlot: "a slot", tryout.GrowBoard: "a board and its slot"}[g.What]
	how := "wider"
	if g.Side == layout.Back || g.Side == layout.Front {
		how = "deeper"
	}
	s := fmt.Sprintf("%s %s %s, to the %s", what, t.length(t.upTo(g.By)), how, g.Side)
	if g.Exact {
		s += "; a millimetre less would not do, proved"
	} else {
		s += "; perhaps less would do"
	}
	if g.Case {
		s += "; it would need a larger case"
	}
	return s
}

// endName is an end of a cable by the label of its unit, as the rest of the answer
// names units.
func endName(a *tryout.Answer, r layout.JackRef) string {
	if a.Plan != nil && r.Jack != "" {
		if u := a.Plan.Unit(r.Unit); u != nil {
			return u.Label + " " + r.Jack
		}
	}
	return jackName(JackRef(r))
}

// addedCables says what the kit lacks.
func (t *writer) addedCables(a *tryout.Answer) {
	if len(a.Cables) == 0 {
		t.lines(t.para("  Cables   ", "The kit there is has all that it needs.")...)
	}
	for _, k := range a.Cables {
		s := fmt.Sprintf("to add: %s, %s", t.length(t.upTo(k.Cut)), wiring.BothPlugs(k.Plugs))
		if k.Stock > 0 {
			s += fmt.Sprintf(" (ready-made %s)", t.length(k.Stock))
		}
		var uses []string
		for _, u := range k.Uses {
			uses = append(uses, fmt.Sprintf("%s to %s (%s)", endName(a, u.From), endName(a, u.To), u.Lineup))
		}
		t.lines(t.para("  Cables   ", s+", for "+strings.Join(uses, ", "))...)
	}
	for _, b := range a.Blocked {
		t.lines(t.para("  BLOCKED  ", b)...)
	}
}

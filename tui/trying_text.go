package tui

import (
	"strings"

	"footplank/layout"
	"footplank/layout/sheet"
	"footplank/layout/tryout"
)

// tryRows are the list of candidates with what is known of each.
func (m *Model) tryRows() []sideRow {
	t := m.trial
	var out []sideRow
	last := ""
	l := m.edited()
	for i, k := range t.shown {
		c := &t.list[k]
		head := "Catalog"
		switch {
		case c.Kind == tryout.OfSize:
			head = "Of these sizes"
		case c.shelf:
			head = "Not on the board"
		case c.Kind == tryout.OfPlan && t.base.Present(l, c.Name):
			head = "Elsewhere on the board"
		}
		if head != last {
			out = append(out, sideRow{item: -1, text: head})
			last = head
		}
		mark, look, tail := m.tryMark(c)
		out = append(out, sideRow{item: i, mark: mark, look: look, text: c.label, tail: tail})
	}
	if len(t.shown) == 0 {
		out = append(out, sideRow{item: -1, text: "nothing like that"})
	}
	return out
}

// tryMark says in a sign and a word what is known of a candidate.
func (m *Model) tryMark(c *try) (mark string, look paint, tail string) {
	t, s := m.trial, &m.styles.sign
	key := t.key(c)
	a := t.answers[key]
	switch {
	case t.asked == key:
		return s.dot, m.styles.strong, "trying"
	case t.wrong[key] != "":
		return s.times, m.styles.quiet, "cannot be tried"
	case a == nil && t.old(key) != nil:
		_, _, tail = m.answerMark(t.old(key).answer)
		return "?", m.styles.quiet, "before: " + tail
	case a == nil:
		return " ", paint{}, ""
	}
	return m.answerMark(a)
}

func (m *Model) answerMark(a *tryout.Answer) (mark string, look paint, tail string) {
	s := &m.styles.sign
	switch {
	case a.Verdict == tryout.Impossible:
		return s.fault, m.styles.fault, "no"
	case a.Verdict == tryout.Undecided:
		return s.empty, m.styles.caution, "undecided"
	case !a.Works():
		return s.caution, m.styles.caution, "lacks something"
	case a.Verdict == tryout.Moves:
		return s.caution, m.styles.caution, "moves " + digits(a.Units)
	}
	return s.good, m.styles.good, "fits"
}

func (m *Model) trySideLines() []string {
	t := m.trial
	head := plural(len(t.shown), "unit") + " to try"
	if t.typed != "" {
		head = "like " + strings.TrimSpace(t.typed)
	}
	return m.sideLines(head, m.tryRows(), t.chosen)
}

// tryPlace says what slot it is about.
func (m *Model) tryPlace() string {
	t := m.trial
	s := "in slot " + clean(t.slot)
	if t.instead != "" {
		s += " instead of " + clean(t.base.Unit(t.instead).Label)
	}
	return s
}

// tryWhere says what is asked.
func (m *Model) tryWhere() string {
	t, s := m.trial, m.tryPlace()
	q := tryout.Question{}
	if c := t.candidate(); c != nil {
		q = t.question(c)
	}
	if q.Lineups == nil && len(t.base.Lineups) > 1 {
		return s + ", every line-up"
	}
	return s + ", line-up " + clean(t.lineup)
}

// tryFacts is the candidate itself in a line.
func (m *Model) tryFacts(c *try) string {
	u := &c.Unit
	s := c.label + ", " + m.sizeWord(u)
	if d := u.Draw; d != nil {
		s += ", " + volts(d.Millivolts) + " V " + digits(d.Milliamps) + " mA"
	}
	return s
}

// tryDetail is the chosen candidate in the place of the selected unit: two lines,
// or a panel with all there is to say.
func (m *Model) tryDetail() []string {
	t, a := m.trial, m.areas.detail
	tail := m.styles.sign.ellipsis
	c := t.candidate()
	if c == nil {
		return block([]string{" No unit of the plan and no form of the catalog is like that.", " Sizes can be tried too: width x depth x height, like 120x95x60."}, a.w, a.h, tail)
	}
	if a.h <= 2 {
		return block([]string{" " + m.styles.strong.over(m.ascii(m.tryFacts(c))), " " + m.ascii(m.tryNeeds())}, a.w, a.h, tail)
	}
	w := a.w - 4
	lines := []string{m.styles.title.over(m.ascii(c.label))}
	if c.words != "" && c.Kind == tryout.OfForm {
		lines = append(lines, wrap(m.ascii(clean(c.words)), w)...)
	}
	lines = append(lines, wrap(m.ascii(m.tryFacts(c)), w)...)
	lines = append(lines, wrap(m.ascii(m.tryWhere()), w)...)
	lines = append(lines, "")
	lines = append(lines, m.tryAnswer(w)...)
	for i := range lines {
		lines[i] = "  " + lines[i]
	}
	return block(lines, a.w, a.h, tail)
}

// tryAnswer is the answer in full, or how far it is.
func (m *Model) tryAnswer(w int) []string {
	t := m.trial
	if a := t.answer(); a != nil {
		lines := sheet.TryoutLines(t.asks(), a, w)
		for i := range lines {
			lines[i] = m.ascii(lines[i])
		}
		return lines
	}
	_, s := m.tryState()
	lines := wrap(m.ascii(s), w)
	if c := t.candidate(); c != nil {
		lines = append(lines, m.tryBefore(c, w)...)
	}
	return lines
}

// tryNeeds says what a candidate that fits would take: output and cables; of one
// that does not, what would help.
func (m *Model) tryNeeds() string {
	t := m.trial
	a := t.answer()
	if a == nil || a.Verdict == tryout.Undecided {
		return m.tryWhere()
	}
	p := t.asks()
	if a.Room() {
		s := m.powerWords(a)
		switch n := len(a.Cables); {
		case len(a.Blocked) > 0:
			s += " A cable has no way."
		case n > 0:
			s += " " + plural(n, "cable") + " to add to the kit: " + m.cableSizes(a) + "."
		default:
			s += " The kit has its cables."
		}
		return s
	}
	row := sheet.TryoutRow(p, a)
	if help := row[len(row)-1]; help != "" {
		return "It would fit with: " + clean(help) + "."
	}
	return "No larger slot or board nearby, and no single unit less, makes room."
}

// powerWords names the output, or says what is wrong with the power.
func (m *Model) powerWords(a *tryout.Answer) string {
	out, ok := a.Power.Outputs[m.lineupNow().Name]
	switch u := a.Plan.Unit(out.Unit); {
	case !a.Power.OK:
		return "NO POWER: " + clean(a.Power.Text)
	case ok && u != nil:
		return "Power from " + clean(out.Jack) + " of " + clean(u.Label) + "."
	}
	return "Needs no output."
}

func (m *Model) cableSizes(a *tryout.Answer) string {
	var out []string
	for _, c := range a.Cables {
		out = append(out, m.upTo(c.Cut))
	}
	return strings.Join(out, ", ")
}

// trySays is the editor's voice: the verdict, or how far it is.
func (m *Model) trySays() (paint, string) {
	if m.note.text != "" {
		return paint{}, m.note.text
	}
	return m.tryState()
}

func (m *Model) tryState() (paint, string) {
	t := m.trial
	c, a := t.candidate(), t.answer()
	switch {
	case c == nil:
		return paint{}, ""
	case t.failed != "":
		return m.styles.fault, "Nothing can be tried: " + t.failed + "."
	case t.wrong[t.key(c)] != "":
		return m.styles.caution, sentence(t.wrong[t.key(c)])
	case a == nil && t.ready.bench == nil:
		return m.styles.strong, "Making the plan ready to try units " + m.tryWhere() + "."
	case a == nil && t.halted && t.old(t.key(c)) != nil:
		return paint{}, "Stopped: what is known is of the plan before. x goes on."
	case a == nil && t.halted:
		return paint{}, "Stopped before it was tried. x goes on."
	case a == nil && t.old(t.key(c)) != nil:
		_, _, was := m.answerMark(t.old(t.key(c)).answer)
		return m.styles.strong, "Trying " + c.label + " with the plan as it is now (before: " + was + "). x stops."
	case a == nil:
		s := "Trying " + c.label + " " + m.tryWhere() + ". x stops."
		if t.step != "" && t.asked == t.key(c) {
			s = "Trying " + c.label + ": " + t.step + " x stops."
		}
		return m.styles.strong, s
	}
	mark, look, _ := m.tryMark(c)
	s := mark + " " + clean(sheet.TryoutVerdict(t.asks(), a))
	switch a.Verdict {
	case tryout.Moves:
		s = mark + " " + m.moveWords(a) + " " + clean(sheet.TryoutVerdict(t.asks(), a)) // what moves first: the rest may be cut
	case tryout.Impossible:
		if a.Conflict != nil {
			s += " " + sentence(clean(a.Conflict.Why))
		}
	case tryout.Undecided:
		if s = mark + " Undecided in the time. x tries for longer."; a.AllTried {
			s = mark + " Undecided, and more time would not help."
		}
		if n := len(a.Steps); n > 0 {
			s += " Proved so far: " + clean(a.Steps[n-1])
		}
	}
	return look, s
}

// moveWords names what moves, in a few words each.
func (m *Model) moveWords(a *tryout.Answer) string {
	var out []string
	for _, mv := range a.Moved {
		u := a.Plan.Unit(mv.Unit)
		if u == nil {
			continue
		}
		out = append(out, clean(u.Label)+" to "+m.length(mv.To.At.X)+", "+m.length(mv.To.At.Y))
	}
	return "Moves: " + strings.Join(out, "; ") + "."
}

// beforeTrial is where units stood that the answer on screen moves or takes away,
// in the line-up on screen.
func (m *Model) beforeTrial() []layout.Standing {
	t := m.trial
	a := t.answer()
	if a == nil || a.Plan == nil {
		return nil
	}
	was := t.asks()
	l, now := was.LineupNamed(m.lineupNow().Name), m.lineupNow()
	if l == nil {
		return nil
	}
	placed, _ := was.Standings(l)
	var out []layout.Standing
	for _, s := range placed {
		u := a.Plan.Unit(s.Unit.ID)
		if u != nil && a.Plan.Present(now, u.ID) {
			if pl, ok := a.Plan.PlaceOf(now, u); ok && pl == s.Place {
				continue
			}
		}
		out = append(out, s)
	}
	return out
}

func (m *Model) tryHints() []hint {
	s := &m.styles.sign
	out := []hint{{key: "enter", what: "take it"}, {key: s.up + s.down, what: "try others", press: "down"}, {key: "/", what: "find"}}
	t := m.trial
	switch a := t.answer(); {
	case t.asked != "" || t.all:
		out = append(out, hint{key: "x", what: "stop"})
	case t.halted:
		out = append(out, hint{key: "x", what: "go on"})
	case a != nil && a.Verdict == tryout.Undecided:
		out = append(out, hint{key: "x", what: "longer"})
	}
	return append(out, hint{key: "o", what: "instead of"}, hint{key: "w", what: "table"}, hint{key: "i", what: "in full"},
		hint{key: "a", what: "all"}, hint{key: "g", what: "line-ups"}, hint{key: "n", what: "slot"}, hint{key: "l", what: "line-up"},
		hint{key: "d", what: "view"}, hint{key: "?", what: "help"}, hint{key: "esc", what: "drop"})
}

func (m *Model) siftText() string {
	return "Try what? " + m.typedText(30) + "  a part of a name, what it does, or sizes: 120x95x60"
}

// tryCaption says over the drawing what it is of.
func (m *Model) tryCaption() string {
	if a := m.trial.answer(); a != nil && a.Plan != nil {
		if len(a.Moved) > 0 || m.trial.instead != "" {
			return "As it would be; in broken lines what moves or goes"
		}
		return "As it would be"
	}
	return "As it is"
}

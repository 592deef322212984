package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"footplank/layout"
	"footplank/layout/check"
)

func cells(s string) int { return ansi.StringWidth(s) }

// listTop is the first unit that the list shows: such that the selected one is
// in sight, with some of those around it.
func (m *Model) listTop(n int) int {
	rows := m.areas.list.h - 1
	if n <= rows {
		return 0
	}
	i := slices.IndexFunc(m.plan().UnitsIn(m.lineupNow()), func(u *layout.Unit) bool { return u.ID == m.selected })
	return min(max(i-rows/2, 0), n-rows)
}

// listed returns the unit in a line of the list, "" for none.
func (m *Model) listed(line int) string {
	units := m.plan().UnitsIn(m.lineupNow())
	i := line - 1 + m.listTop(len(units))
	if line < 1 || i >= len(units) {
		return ""
	}
	return units[i].ID
}

// listLines is the list of the line-up's units.
func (m *Model) listLines() []string {
	a := m.areas.list
	units := m.plan().UnitsIn(m.lineupNow())
	top := m.listTop(len(units))
	head := " " + plural(len(units), "unit")
	if top > 0 || len(units) > a.h-1 {
		head += ", " + digits(top+1) + " to " + digits(min(top+a.h-1, len(units)))
	}
	out := []string{m.styles.quiet.over(head)}
	for i := top; i < len(units) && len(out) < a.h; i++ {
		out = append(out, m.listLine(units[i], a.w))
	}
	return block(out, a.w, a.h, m.styles.sign.ellipsis)
}

func (m *Model) listLine(u *layout.Unit, w int) string {
	s := &m.styles.sign
	pointer, label := " ", m.ascii(clean(u.Label))
	chosen := u.ID == m.selected
	if chosen {
		pointer = s.pointer
	}
	state, p := " ", paint{}
	if _, ok := m.plan().PlaceOf(m.lineupNow(), u); !ok {
		state, p = s.empty, m.styles.fault
	} else if m.seen.faulty[m.lineup][u.ID] {
		state, p = s.fault, m.styles.fault
	}
	label = fit(label, w-6, s.ellipsis)
	if chosen {
		label = m.styles.chosen.over(label)
	}
	return m.styles.strong.over(pointer) + p.over(state) + " " + m.mountSign(u) + " " + label
}

// mountSign is the sign that the drawing has in the unit's corner.
func (m *Model) mountSign(u *layout.Unit) string {
	s := &m.styles.sign
	switch {
	case u.Pinned && u.Mount == layout.Swap:
		return s.pinSwap
	case u.Pinned:
		return s.pinFixed
	case u.Mount == layout.Swap:
		return s.swap
	}
	return s.fixed
}

// findingLines is the panel of findings, the one gone to last in sight.
func (m *Model) findingLines() []string {
	a := m.areas.findings
	if a.h == 0 {
		return nil
	}
	name := clean(m.lineupNow().Name)
	if len(m.found()) == 0 {
		return block([]string{m.rule("Nothing is wrong in line-up "+name, a.w)}, a.w, a.h, "")
	}
	rows, top := m.findingRows()
	head := plural(len(m.found()), "finding") + " in line-up " + name
	if len(rows) > a.h-1 {
		head += "; w shows all"
	}
	out := []string{m.rule(head, a.w)}
	for _, r := range rows[top:] {
		out = append(out, r.text)
	}
	return block(out, a.w, a.h, m.styles.sign.ellipsis)
}

// findingRow is one line of the panel and the finding that it belongs to.
type findingRow struct {
	finding int
	text    string
}

// findingRows returns all lines of the panel and the first to show.
func (m *Model) findingRows() (rows []findingRow, top int) {
	a, fs := m.areas.findings, m.found()
	for i := range fs {
		f := &fs[i]
		if i == m.culprit {
			top = max(len(rows)-1, 0)
		}
		p, sign := m.styles.level(f.Level)
		lead := "   "
		if i == m.culprit {
			lead = " " + m.styles.strong.over(m.styles.sign.pointer) + " "
		} else if m.concerns(f) {
			lead = " " + m.styles.sign.dot + " "
		}
		for k, s := range m.wrapped(f, a.w-6) {
			if k > 0 {
				lead, p, sign = "   ", paint{}, " "
			}
			rows = append(rows, findingRow{i, lead + p.over(sign) + " " + s})
		}
	}
	return rows, min(top, max(len(rows)-(a.h-1), 0))
}

// wrapped is the text of a finding in lines, kept while its width stays: most
// findings stay from one frame to the next.
func (m *Model) wrapped(f *check.Finding, w int) []string {
	s := &m.seen
	if s.wrapWidth != w || len(s.wraps) > mostWraps {
		s.wrapWidth, s.wraps = w, map[string][]string{}
	}
	lines, ok := s.wraps[f.Text]
	if !ok {
		lines = wrap(m.ascii(clean(f.Text)), w)
		s.wraps[f.Text] = lines
	}
	return lines
}

// mostWraps is how many texts of findings are kept in lines.
const mostWraps = 500

// findingAt returns the finding in a line of the panel, -1 for none.
func (m *Model) findingAt(line int) int {
	rows, top := m.findingRows()
	if i := line - 1 + top; line >= 1 && i < len(rows) {
		return rows[i].finding
	}
	return -1
}

// concerns reports whether a finding is about the selected unit.
func (m *Model) concerns(f *check.Finding) bool {
	return m.selected != "" && slices.Contains(f.Units, m.selected)
}

// rule is a line with a heading in it.
func (m *Model) rule(head string, w int) string {
	s := m.styles.sign.rule
	head = m.ascii(head)
	n := max(w-cells(head)-4, 0)
	return m.styles.quiet.over(fit(s+s+" "+head+" "+strings.Repeat(s, n), w, ""))
}

// saysLines is the editor's voice: a question, a line to type into, progress,
// a message, or where there is no panel for them a finding.
func (m *Model) saysLines() []string {
	a := m.areas.says
	p, text := m.says()
	lines := wrap(m.ascii(text), a.w-2)
	if len(lines) > a.h {
		rest := strings.Join(lines[a.h-1:], " ")
		lines = append(lines[:a.h-1], ansi.Truncate(rest, a.w-2, m.styles.sign.ellipsis))
	}
	for i := range lines {
		lines[i] = " " + p.over(lines[i])
	}
	return block(lines, a.w, a.h, m.styles.sign.ellipsis)
}

func (m *Model) says() (paint, string) {
	if f := m.modes[m.mode].says; f != nil {
		return f(m)
	}
	strong := m.styles.strong
	switch {
	case m.note.text != "":
		p := paint{}
		switch m.note.level {
		case check.Fault:
			p = m.styles.fault
		case check.Caution:
			p = m.styles.caution
		}
		return p, m.note.text
	case m.offer != nil:
		return strong, "An arrangement was found, but the plan was edited meanwhile. It is on screen: enter takes its places, esc drops it."
	case m.job != nil:
		return strong, m.jobText()
	}
	if m.areas.span == compact {
		return m.findingText()
	}
	return paint{}, ""
}

// findingText is the finding that the player most likely wants to see in
// words: the one gone to, else one about the selected unit, else, with none
// selected, the first.
func (m *Model) findingText() (paint, string) {
	fs := m.found()
	if len(fs) == 0 {
		if i := m.nextFaulty(); i >= 0 {
			return paint{}, "Nothing is wrong here. Line-up " + clean(m.plan().Lineups[i].Name) + " has findings: f goes there."
		}
		return m.styles.good, "Nothing is wrong in any line-up."
	}
	i := m.toldFinding()
	if u := m.unit(); i < 0 && u != nil {
		return paint{}, "Nothing is wrong with " + clean(u.Label) + ". " + plural(len(fs), "finding") + " in line-up " + clean(m.lineupNow().Name) + ": f goes to the next."
	}
	i = max(i, 0)
	p, sign := m.styles.level(fs[i].Level)
	return p, sign + " " + digits(i+1) + "/" + digits(len(fs)) + " " + clean(fs[i].Text)
}

// toldFinding is the finding to tell, -1 when there is none about the selected
// unit.
func (m *Model) toldFinding() int {
	fs := m.found()
	if i := m.culprit; i >= 0 && i < len(fs) && (m.concerns(&fs[i]) || m.selected == "") {
		return i
	}
	return slices.IndexFunc(fs, func(f check.Finding) bool { return m.selected == "" || m.concerns(&f) })
}

// inAll is said of what is counted of all line-ups, where there are several.
func (m *Model) inAll() string {
	if len(m.history.Plan().Lineups) > 1 {
		return " in all line-ups"
	}
	return ""
}

func (m *Model) jobText() string {
	switch {
	case m.job.own && m.job.best == nil:
		return "This is the built-in example; its units are being arranged."
	case m.job.best == nil:
		return "Arranging all line-ups: nothing found yet. Esc stops."
	case m.job.base != m.history.Plan():
		return "Arranging the plan as it was before your edits; found one with " + m.cable(m.job.last.Cable) + " of cable. Enter takes it, esc stops."
	}
	return "Arranging: on screen is the best so far, " + m.cable(m.job.last.Cable) + " of cable" + m.inAll() + "; what a foot reaches counts too. Enter takes it now, esc stops and drops it."
}

// questionText is the question with its answers.
func (m *Model) questionText() string {
	var b strings.Builder
	b.WriteString(m.question.text)
	for _, c := range m.question.choices {
		b.WriteString("  " + c.key + ": " + c.what + ";")
	}
	b.WriteString("  esc: stay.")
	return b.String()
}

func (m *Model) namingText() string {
	if m.note.text != "" {
		return m.note.text + "  Save as: " + m.typedText(20)
	}
	return "Save as: " + m.typedText(m.areas.says.w-12)
}

func (m *Model) lookingText() string {
	text := "Find: " + m.typedText(24)
	if strings.TrimSpace(m.input.Value()) == "" {
		return text + "  a part of a label"
	}
	hits := m.matches()
	if len(hits) == 0 {
		return text + "  no unit of this line-up is called so"
	}
	var names []string
	for _, u := range hits[:min(len(hits), 4)] {
		names = append(names, clean(u.Label))
	}
	if len(hits) > 4 {
		names = append(names, m.styles.sign.more)
	}
	return text + "  " + strings.Join(names, ", ")
}

// typedText is the line that is typed with its cursor, the part around it
// where it is long.
func (m *Model) typedText(w int) string {
	r := []rune(clean(m.input.Value()))
	at := min(m.input.Position(), len(r))
	from := max(at-w+1, 0)
	left, right := string(r[from:at]), string(r[at:min(len(r), max(from+w-1, at))])
	return left + m.styles.sign.cursor + right
}

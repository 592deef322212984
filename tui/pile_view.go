package tui

import (
	"strings"

	"footplank/layout/check"
	"footplank/tui/form"
)

// divideForm cuts a screen that has a form or a list on it. A form stands at the
// right, with the board beside it as it would be:
//
//	+------ header -------+
//	| board    | form     |
//	|          |          |
//	+------- says --------+
//	+------- hints -------+
//
// A list takes the room of both.
func divideForm(w, h int) areas {
	a := divide(w, h)
	if a.span == tooSmall {
		return a
	}
	const says = 2
	body := h - 2 - says
	side := min(44+(w-leastWidth)/4, 84)
	a.board = area{0, 1, w - side, body}
	a.detail = area{w - side, 1, side, body}
	a.list, a.findings = area{}, area{}
	a.says = area{0, h - 1 - says, w, says}
	return a
}

// pileParts is what is drawn while there are screens over the board.
func (m *Model) pileParts() []part {
	a, s := &m.areas, m.over()
	says := part{a.says, m.saysLines()}
	if s.list != nil {
		whole := area{0, a.board.y, m.w, a.board.h}
		return []part{{whole, m.drawList(s.list, whole)}, says}
	}
	return []part{{a.board, m.boardLines()}, {a.detail, m.drawForm(s, a.detail)}, says}
}

// pileSays is the editor's voice over a list or a form: a message, else what the
// field wants.
func (m *Model) pileSays() (paint, string) {
	switch s := m.over(); {
	case m.note.text != "":
		p := paint{}
		if m.note.level == check.Fault {
			p = m.styles.fault
		}
		return p, m.note.text
	case m.job != nil && !m.job.own:
		return m.styles.strong, m.jobText()
	case s != nil && s.list != nil:
		if it, ok := s.list.now(m); ok {
			return paint{}, it.more
		}
	case s != nil && s.form != nil:
		switch x := s.form.Now(); {
		case x == nil:
		case x.Kind == form.Choice && cells(x.Shown()) > longOption:
			return paint{}, x.Label + ": " + clean(x.Shown()) + "." // which its line cuts off
		case x.Want != "":
			return paint{}, x.Label + ": " + x.Want + "."
		}
	}
	return paint{}, ""
}

// listHead is the lines over a list's items.
func (m *Model) listHead(l *list, w int) []string {
	head := "  " + m.styles.title.over(m.ascii(clean(l.title(m))))
	out := []string{head}
	if l.search {
		const beside = 20 // for how many more there are below
		typed := m.styles.quiet.over("type to search: ") + m.ascii(l.typed) + m.styles.sign.cursor
		if cells(head)+3+cells(typed)+beside <= w {
			out[0] += "   " + typed
		} else {
			out = append(out, "  "+typed) // what is typed is never cut off
		}
	}
	if l.intro != nil {
		for _, s := range wrap(m.ascii(clean(l.intro(m))), min(w-4, 116)) {
			out = append(out, "  "+m.styles.quiet.over(s))
		}
	}
	return append(out, "")
}

// drawList draws a list, the chosen item in sight.
func (m *Model) drawList(l *list, a area) []string {
	it, some := l.now(m)
	all := l.shown(m, listWidth(m))
	out := m.listHead(l, a.w)
	l.itemOf = l.itemOf[:0]
	for range out {
		l.itemOf = append(l.itemOf, -1)
	}
	room := max(a.h-len(out), 1)
	l.top = min(l.top, max(len(all)-room, 0))
	if l.at < l.top {
		l.top = l.at
	}
	l.top = max(l.top, l.at-room+1)
	if l.top == 1 && len(all) > 0 && all[0].head {
		l.top = 0 // a heading above the first item comes into sight with it
		if l.at-room+1 > 0 {
			l.top = 1
		}
	}
	for i := l.top; i < min(l.top+room, len(all)); i++ {
		text, lead := m.ascii(clean(all[i].text)), "    "
		switch {
		case all[i].head:
			text, lead = m.styles.quiet.over(text), "  "
		case some && i == l.at && all[i] == it:
			lead = "  " + m.styles.strong.over(m.styles.sign.pointer) + " "
			text = m.styles.chosen.over(fit(text, min(cells(text), listWidth(m)-2), m.styles.sign.ellipsis))
		}
		out = append(out, lead+text)
		l.itemOf = append(l.itemOf, i)
	}
	if len(all) == 0 {
		why := "Nothing here yet."
		if l.typed != "" {
			why = "Nothing has to do with that. Esc clears what is typed: then choose by size, and name it."
		} else if l.add.do != nil {
			why = "Nothing here yet: a adds."
		}
		out = append(out, "    "+why)
	}
	if rest := len(all) - l.top - room; rest > 0 && len(out) > 0 {
		out[0] += m.styles.quiet.over("   " + m.ascii(digits(rest)+" more below"))
	}
	return block(out, a.w, a.h, m.styles.sign.ellipsis)
}

// longOption is from where on an option may not have room in a narrow form.
const longOption = 24

// formRow is a line of a form, the field that it belongs to and the option of it
// that it shows, -1 for none.
type formRow struct {
	field, option int
	text          string
}

// buttonRow marks the line of buttons.
const buttonRow = -2

// mostOptions is how many options of a choice are listed below it.
const mostOptions = 9

// formRows are all lines of a form.
func (m *Model) formRows(f *form.Form, w int) (rows []formRow, first, last int) {
	label := 0
	for _, x := range f.Fields {
		if x.Kind != form.Head {
			label = max(label, cells(x.Label))
		}
	}
	label = min(label, w*2/5)
	for i, x := range f.Fields {
		if x.Kind == form.Head {
			if i > 0 {
				rows = append(rows, formRow{-1, -1, ""})
			}
			rows = append(rows, formRow{-1, -1, " " + m.styles.quiet.over(m.ascii(x.Label))})
			continue
		}
		if i == f.At() {
			first = len(rows)
		}
		rows = append(rows, formRow{i, -1, m.fieldLine(f, i, label, w)})
		if why := f.ErrorOf(i); why != "" {
			lines := wrap(m.ascii(clean(why)), w-5)
			for k := range lines {
				lines[k] = m.styles.fault.over(lines[k])
			}
			for _, s := range hung("   "+m.styles.fault.over(m.styles.sign.fault)+" ", lines) {
				rows = append(rows, formRow{i, -1, s})
			}
		}
		if i == f.At() {
			rows = append(rows, m.optionRows(i, x, w)...)
			last = len(rows) - 1
		}
	}
	line, _ := m.formButtons()
	rows = append(rows, formRow{-1, -1, ""}, formRow{-1, buttonRow, line})
	return rows, first, last
}

// formButtons is the line at a form's end, for the mouse.
func (m *Model) formButtons() (line string, at []button) {
	line = "  "
	for _, b := range []struct{ text, press string }{{"[ " + m.takeWord() + " ]", "ctrl+s"}, {"[ leave ]", "esc"}} {
		at = append(at, button{cells(line), cells(b.text), b.press})
		line += b.text + "   "
	}
	return m.styles.key.over(line), at
}

// optionRows are the options of the choice that is filled in now, those around
// the chosen one where there are many.
func (m *Model) optionRows(field int, x *form.Field, w int) (rows []formRow) {
	n := len(x.Options)
	if x.Kind != form.Choice || n < 3 {
		return nil
	}
	from := min(max(x.Option()-mostOptions/2, 0), max(n-mostOptions, 0))
	for k := from; k < min(from+mostOptions, n); k++ {
		lead := "  "
		if k == x.Option() {
			lead = m.styles.strong.over(m.styles.sign.pointer) + " "
		}
		text := m.ascii(clean(x.Options[k].Text))
		rows = append(rows, formRow{field, k, "      " + lead + fit(text, min(cells(text), w-9), m.styles.sign.ellipsis)})
	}
	return rows
}

// fieldLine is a field's label and value.
func (m *Model) fieldLine(f *form.Form, i, label, w int) string {
	x, s := f.Fields[i], &m.styles.sign
	lead := " "
	if i == f.At() {
		lead = m.styles.strong.over(s.pointer)
	}
	changed := " "
	if x.Changed() {
		changed = "*"
	}
	value := m.fieldValue(f, i, w-label-5)
	return lead + changed + fit(m.ascii(x.Label), label, s.ellipsis) + "  " + value
}

func (m *Model) fieldValue(f *form.Form, i, w int) string {
	x, s := f.Fields[i], &m.styles.sign
	text := m.ascii(clean(x.Shown()))
	if i != f.At() {
		if x.Kind == form.Link {
			text += " " + s.right
		}
		if text == "" && x.None != "" {
			return m.styles.quiet.over(fit(m.ascii("("+x.None+")"), min(cells(x.None)+2, w), s.ellipsis))
		}
		return fit(text, min(cells(text), w), s.ellipsis)
	}
	switch {
	case x.Kind == form.Choice:
		return s.left + " " + m.styles.chosen.over(fit(text, min(cells(text), w-4), s.ellipsis)) + " " + s.right + m.otherOption(x, w-4-cells(text))
	case x.Kind == form.Link:
		return m.styles.chosen.over(text) + " " + s.right + " " + m.styles.quiet.over("enter opens")
	case f.Picked():
		return "[" + m.styles.chosen.over(fit(text, min(cells(text), w-2), s.ellipsis)) + "]"
	}
	return m.typedIn(x.Value(), f.Cursor(), w)
}

// otherOption is what a choice of two would be instead, where there is room: more
// options are listed below.
func (m *Model) otherOption(x *form.Field, room int) string {
	if len(x.Options) != 2 || x.Option() < 0 {
		return ""
	}
	text := "  or " + m.ascii(clean(x.Options[1-x.Option()].Text))
	if cells(text) > room {
		return ""
	}
	return m.styles.quiet.over(text)
}

// typedIn is a value with a cursor, the part around it where it is long.
func (m *Model) typedIn(value string, at, w int) string {
	r := []rune(clean(value))
	at = min(at, len(r))
	from := max(at-w+2, 0)
	text := m.ascii(string(r[from:at])) + m.styles.sign.cursor + m.ascii(string(r[at:]))
	return fit(text, min(cells(text), w), m.styles.sign.ellipsis)
}

// formHead is the lines over a form's fields.
func (m *Model) formHead(f *form.Form, w int) []string {
	out := []string{" " + m.styles.title.over(fit(m.ascii(clean(f.Title)), w-2, m.styles.sign.ellipsis))}
	if f.Intro != "" {
		for _, s := range wrap(m.ascii(clean(f.Intro)), w-2) {
			out = append(out, " "+m.styles.quiet.over(s))
		}
	}
	return append(out, "")
}

// drawForm draws a form, the field that is filled in now in sight.
func (m *Model) drawForm(s *screen, a area) []string {
	bar := m.styles.quiet.over(m.styles.sign.bar)
	w := a.w - 1
	head, rows, top := m.formLines(s, a)
	room := max(a.h-len(head), 1)
	out := head
	for i := top; i < min(top+room, len(rows)); i++ {
		out = append(out, rows[i].text)
	}
	if more := len(rows) - top - room; more > 0 {
		out[len(out)-1] = m.styles.quiet.over(" " + m.styles.sign.down + " " + digits(more+1) + " more lines")
	}
	out = block(out, w, a.h, m.styles.sign.ellipsis)
	for i := range out {
		out[i] = bar + out[i]
	}
	return out
}

// formLines returns the parts of a form and the first of its rows to show.
func (m *Model) formLines(s *screen, a area) (head []string, rows []formRow, top int) {
	w := a.w - 1
	head = m.formHead(s.form, w)
	rows, first, last := m.formRows(s.form, w)
	room := max(a.h-len(head)-1, 1) // a line less: it may tell that there is more
	s.top = min(s.top, max(len(rows)-room-1, 0), max(first-1, 0))
	if last >= s.top+room && last < len(rows)-1 || last >= s.top+room+1 {
		s.top = min(last-room+1, first)
	}
	return head, rows, s.top
}

// pad sets columns of text, each cut to its width.
func (m *Model) pad(widths []int, cols ...string) string {
	var b strings.Builder
	for i, c := range cols {
		if i > 0 {
			b.WriteString("  ")
		}
		if i < len(widths) && i < len(cols)-1 {
			c = fit(m.ascii(c), widths[i], m.styles.sign.ellipsis)
		}
		b.WriteString(c)
	}
	return b.String()
}

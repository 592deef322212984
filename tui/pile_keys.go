package tui

import (
	"cmp"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/tui/form"
)

const planning = "What the plan is made of"

// editTable is the keys on the board that open lists and forms.
func editTable() table {
	return table{
		{also(bind("P", "P"), "menu plan units board slots chain line-ups limits rules cables fastener owned prices settings riser rail case"), planning,
			mayOpen("all that the plan is made of: units, board, slots, chain, line-ups, rules, what you own"), do(func(m *Model) tea.Cmd { return m.openList(planList()) })},
		{also(bind("A", "A"), "add unit pedal new catalog form insert"), planning, mayOpen("add a unit of the catalog, found by typing"), do((*Model).addUnit)},
		{also(bind("E", "E"), "edit size measure label name mass mount draw jacks price unit card"), planning, nowCard, do((*Model).openUnitCard)},
		{also(bind("delete", "delete"), "remove erase take out unit"), planning, nowDelete, do((*Model).deleteUnit)},
		{also(bind("C", "C"), "signal order chain stops links"), planning, mayOpen("the chain: put the way of the signal in order"), do(func(m *Model) tea.Cmd { return m.openList(chainList()) })},
		{also(bind("N", "N"), "new open recent example start other plan file"), planning, mayOpen("another plan: new, recent, an example, or a file"), do((*Model).openStart)},
	}
}

// mayOpen is for what can be opened unless an arrangement waits for a yes.
func mayOpen(what string) func(*Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if m.offer != nil {
			return offerWaits, false
		}
		return what, true
	}
}

func nowCard(m *Model) (string, bool) {
	if why, ok := m.canEdit(); !ok {
		return why, false
	}
	return "the card of " + m.label() + ": its size, mass, mount, power, jacks, price", true
}

func nowDelete(m *Model) (string, bool) {
	if why, ok := m.canEdit(); !ok {
		return why, false
	}
	return "take " + m.label() + " out of the plan", true
}

// verbNow says what a verb of the list on top would do.
func verbNow(usual string, of func(l *list) *verb) func(*Model) (string, bool) {
	return func(m *Model) (string, bool) {
		s := m.over()
		if s == nil || s.list == nil {
			return usual, true
		}
		if v := of(s.list); v.do != nil {
			return v.what, true
		}
		return usual + ": not in this list", false
	}
}

func verbOpen(l *list) *verb { return &l.open }
func verbAdd(l *list) *verb  { return &l.add }
func verbCopy(l *list) *verb { return &l.copy }
func verbDrop(l *list) *verb { return &l.drop }
func verbFlip(l *list) *verb { return &l.flip }
func verbNext(l *list) *verb { return &l.next }

func doOn(of func(l *list) *verb, needsItem bool) func(*Model, string) tea.Cmd {
	return do(func(m *Model) tea.Cmd { return m.doVerb(of, needsItem) })
}

// listTable is what keys do in every list.
func listTable() table {
	const group = ""
	by := func(n func(m *Model) int) func(*Model, string) tea.Cmd {
		return do(func(m *Model) tea.Cmd { m.over().list.step(m, n(m)); return nil })
	}
	fixed := func(n int) func(*Model) int { return func(*Model) int { return n } }
	screenful := func(m *Model) int { return max(m.h-8, 1) }
	return table{
		{bind("enter", "enter"), group, verbNow("open the chosen one", verbOpen), doOn(verbOpen, true)},
		{bind("up", "up", "shift+tab"), group, always("the one above"), by(fixed(-1))},
		{bind("down", "down", "tab"), group, always("the one below"), by(fixed(1))},
		{bind("pgup", "pgup"), group, always("a screen up"), by(func(m *Model) int { return -screenful(m) })},
		{bind("pgdown", "pgdown"), group, always("a screen down"), by(screenful)},
		{bind("home", "home"), group, always("the first"), by(fixed(-1 << 20))},
		{bind("end", "end"), group, always("the last"), by(fixed(1 << 20))},
		{bind("shift+up shift+down", "shift+up", "shift+down"), group, nowMove, (*Model).moveItem},
		{bind("f1", "f1"), group, always("this help"), do((*Model).helpPage)},
		{bind("esc", "esc"), group, nowLeaveList, do((*Model).leaveList)},
	}
}

// listLetters is what letters do in a list that is not narrowed down by typing.
func listLetters() table {
	const group = ""
	return table{
		{also(bind("a", "a", "+", "insert"), "new"), group, verbNow("add another", verbAdd), doOn(verbAdd, false)},
		{also(bind("c", "c"), "duplicate twice"), group, verbNow("copy the chosen one", verbCopy), doOn(verbCopy, true)},
		{also(bind("x", "x", "delete"), "delete"), group, verbNow("remove the chosen one", verbDrop), doOn(verbDrop, true)},
		{also(bind("space", " "), "switch"), group, verbNow("put the chosen one in, or take it out", verbFlip), doOn(verbFlip, true)},
		{bind("< >", "<", ">", "K", "J"), group, nowMove, (*Model).moveItem},
		{bind("n", "n"), group, verbNow("go on to the next step", verbNext), doOn(verbNext, false)},
		{also(bind("u", "u"), "undo"), group, nowUndo, do((*Model).undo)},
		{also(bind("r", "r", "ctrl+r"), "redo"), group, nowRedo, do((*Model).redo)},
		{bind("s", "s", "ctrl+s"), group, nowSave, do((*Model).save)},
		{bind("?", "?"), group, always("this help"), do((*Model).helpPage)},
		{bind("q", "q"), group, nowLeaveAll, do((*Model).leaveAll)},
	}
}

func nowLeaveAll(m *Model) (string, bool) {
	if m.beginning() {
		return "quit", true
	}
	return "back to the board", true
}

func (m *Model) leaveAll() tea.Cmd {
	if m.beginning() {
		return m.quit()
	}
	m.clear()
	return nil
}

func nowMove(m *Model) (string, bool) {
	if s := m.over(); s != nil && s.list != nil && s.list.move == nil {
		return "move the chosen one up or down: not in this list", false
	}
	return "move the chosen one up or down", true
}

func nowLeaveList(m *Model) (string, bool) {
	switch s := m.over(); {
	case s == nil || s.list == nil:
	case s.list.typed != "":
		return "clear what is typed", true
	case len(m.ed.pile) > 1:
		return "back", true
	}
	return "back to the board", true
}

// formTable is what keys do in every form; all others are typed.
func formTable() table {
	const group = ""
	on := func(f func(x *form.Form)) func(*Model, string) tea.Cmd {
		return do(func(m *Model) tea.Cmd { f(m.over().form); m.settle(); return nil })
	}
	step := func(by int) func(m *Model, pressed string) tea.Cmd {
		return on(func(x *form.Form) { x.Step(by) })
	}
	return table{
		{bind("enter", "enter"), group, nowTakeForm, do((*Model).enterForm)},
		{bind("tab down", "tab", "down"), group, always("the next field"), (*Model).nextField},
		{bind("shift+tab up", "shift+tab", "up"), group, always("the field before"), on(func(x *form.Form) { x.Next(-1) })},
		{bind("left", "left"), group, always("in a choice the option before, else a letter back"), on(func(x *form.Form) { x.Move(-1) })},
		{bind("right", "right"), group, always("in a choice the next option, else a letter on"), on(func(x *form.Form) { x.Move(1) })},
		{bind("shift+left", "shift+left", "ctrl+left"), group, always("a length or a number: less by a step"), step(-1)},
		{bind("shift+right", "shift+right", "ctrl+right"), group, always("a length or a number: more by a step"), step(1)},
		{bind("home", "home", "ctrl+a"), group, always("to the beginning of the field"), on(func(x *form.Form) { x.Move(-1 << 20) })},
		{bind("end", "end", "ctrl+e"), group, always("to the end of the field"), on(func(x *form.Form) { x.Move(1 << 20) })},
		{bind("pgup", "pgup"), group, always("to the beginning of this part of the form, or of the one before"), on(func(x *form.Form) { x.Part(-1) })},
		{bind("pgdown", "pgdown"), group, always("to the next part of the form"), on(func(x *form.Form) { x.Part(1) })},
		{bind("ctrl+home", "ctrl+home"), group, always("to the first field"), on(func(x *form.Form) { x.First() })},
		{bind("ctrl+end", "ctrl+end"), group, always("to the last field"), on(func(x *form.Form) { x.First(); x.Next(-1) })},
		{bind("backspace", "backspace"), group, always("take away the letter before"), on(func(x *form.Form) { x.Erase(1) })},
		{bind("delete", "delete"), group, always("take away the letter behind"), on(func(x *form.Form) { x.Erase(-1) })},
		{bind("ctrl+u", "ctrl+u"), group, always("empty the field"), on(func(x *form.Form) { x.Clear() })},
		{bind("ctrl+s", "ctrl+s"), group, always("take the form, wherever in it you are"), do((*Model).takeForm)},
		{bind("f1", "f1"), group, always("this help"), do((*Model).helpPage)},
		{bind("esc", "esc"), group, nowLeaveForm, do((*Model).leaveForm)},
	}
}

func nowTakeForm(m *Model) (string, bool) {
	if s := m.over(); s != nil && s.form != nil {
		if x := s.form.Now(); x != nil && x.Kind == form.Link {
			return "open: " + x.Label, true
		}
	}
	return "take what is filled in", true
}

func nowLeaveForm(m *Model) (string, bool) {
	if s := m.over(); s != nil && s.form != nil && s.form.Changed() {
		return "leave the form; asks first, for it was filled in", true
	}
	return "leave the form", true
}

// enterForm is the enter key: it opens where a field leads, else takes the form.
func (m *Model) enterForm() tea.Cmd {
	if x := m.over().form.Now(); x != nil && x.Kind == form.Link {
		return m.followLink()
	}
	return m.takeForm()
}

// nextField goes on, but completes first what can be completed.
func (m *Model) nextField(pressed string) tea.Cmd {
	s := m.over()
	if pressed == "tab" && s.complete != nil {
		return s.complete(m)
	}
	s.form.Next(1)
	return nil
}

// typeInForm puts letters into the field.
func (m *Model) typeInForm(msg tea.KeyMsg) tea.Cmd {
	if (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt {
		m.over().form.Type(clean(string(msg.Runes)))
		m.settle()
	}
	return nil
}

// takeWord is the word for taking the form on top.
func (m *Model) takeWord() string {
	if f := m.over().form; f.Take != "" {
		return f.Take
	}
	return "take it"
}

func (m *Model) formHints() []hint {
	s := &m.styles.sign
	f := m.over().form
	x := f.Now()
	take := m.takeWord()
	if x != nil && x.Kind == form.Link {
		take = "open"
	}
	out := []hint{{key: "enter", what: take}, {key: s.up + s.down, what: "field", press: "tab"}}
	switch {
	case m.over().complete != nil:
		out = append(out, hint{key: "tab", what: "complete"})
	case x != nil && x.Kind == form.Choice:
		out = append(out, hint{key: s.left + s.right, what: "choose", press: "right"})
	case x != nil && x.Step != nil:
		out = append(out, hint{key: "shift+" + s.left + s.right, what: "less, more"})
	}
	if x != nil && x.Kind == form.Link {
		out = append(out, hint{key: "ctrl+s", what: m.takeWord()})
	}
	if slices.ContainsFunc(f.Fields, func(x *form.Field) bool { return x.Kind == form.Head }) {
		out = append(out, hint{key: "pgdown", what: "part"})
	}
	return append(out, hint{key: "f1", what: "help"}, hint{key: "esc", what: "leave"})
}

func (m *Model) listHints() []hint {
	s := &m.styles.sign
	l := m.over().list
	var out []hint
	add := func(key string, v *verb) {
		if v.do != nil {
			out = append(out, hint{key: key, what: shortVerb(v.what)})
		}
	}
	if l.open.what != l.flip.what {
		add("enter", &l.open)
	}
	if !l.search {
		add("n", &l.next)
		add("a", &l.add)
		add("space", &l.flip)
	}
	if l.move != nil {
		out = append(out, hint{key: "shift+" + s.up + s.down, what: "move"})
	}
	if !l.search {
		add("c", &l.copy)
		add("x", &l.drop)
		if undo, _ := m.history.Next(); undo != "" {
			out = append(out, hint{key: "u", what: "undo"})
		}
	}
	if l.search {
		return append(out, hint{key: s.up + s.down, what: "choose"}, hint{key: "letters", what: "search"}, hint{key: "f1", what: "help"}, hint{key: "esc", what: cmp.Or(l.leave, "back")})
	}
	if m.beginning() {
		end := hint{key: "q", what: "quit"}
		if l.first {
			return []hint{{key: s.up + s.down, what: "choose", press: "down"}, {key: "enter", what: "open"}, {key: "esc", what: "the built-in example"}, {key: "?", what: "help"}, end}
		}
		return append(out, hint{key: "esc", what: "back"}, end)
	}
	return append(out, hint{key: "?", what: "help"}, hint{key: "esc", what: "back"})
}

// shortVerb is the first word or two of what a verb does, for the line of hints.
func shortVerb(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] == ':' || s[i] == ',' {
			return s[:i]
		}
	}
	return s
}

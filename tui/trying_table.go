package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

const (
	trialGroup = "While you try units (after y)"
	siftGroup  = "While you type what to try (after y /)"
)

// tryingTable is what the keys do while units are tried in a slot.
func tryingTable() table {
	t := table{
		{bind("up down", "up", "down", "tab", "shift+tab"), trialGroup, always("try the one before or the next one; a click does too"), (*Model).browseTries},
		{bind("enter", "enter"), trialGroup, nowTakeTried, do((*Model).takeTried)},
		{bind("esc", "esc", "q"), trialGroup, always("drop it: the plan stays as it is"), do((*Model).leaveTrial)},
		{also(bind("/", "/"), "search find filter catalog"), trialGroup, always("type a part of a name, what it does, or sizes like 120x95x60"), do((*Model).startSifting)},
		{bind("o O", "o", "O"), trialGroup, nowInstead, (*Model).nextInstead},
		{bind("n", "n"), trialGroup, nowOtherSlot, do((*Model).nextSlot)},
		{bind("g", "g"), trialGroup, nowEvery, do((*Model).toggleEvery)},
		{bind("l L", "l", "L"), trialGroup, nowLineup, (*Model).nextLineup},
		{bind("a", "a"), trialGroup, nowTryAll, do((*Model).tryAll)},
		{bind("x", "x"), trialGroup, nowStopTrying, do((*Model).stopTrying)},
		{bind("w", "w"), trialGroup, nowTriesPage, do((*Model).triesPage)},
		{bind("i", "i"), trialGroup, nowTryPage, do((*Model).tryPage)},
	}
	return append(t, lookTable(trialGroup)...)
}

// lookTable is the keys of the board that only look at it, and help.
func lookTable(group string) table {
	var out table
	for _, a := range planTable() {
		switch a.keys.Help().Key {
		case "c", "+ -", "0", "pgup pgdown home end", "d D", "M", "?":
			a.group = group
			out = append(out, a)
		}
	}
	return out
}

// siftTable is what the keys do while a part of a name is typed.
func siftTable() table {
	return table{
		{bind("enter", "enter"), siftGroup, always("done typing"), do(func(m *Model) tea.Cmd { m.mode = trying; return nil })},
		{bind("up down", "up", "down", "tab", "shift+tab"), siftGroup, always("try another"), (*Model).browseTries},
		{bind("esc", "esc"), siftGroup, always("show all again"), do(func(m *Model) tea.Cmd {
			m.mode, m.trial.typed = trying, ""
			m.sift()
			return nil
		})},
	}
}

func nowTry(m *Model) (string, bool) {
	p := m.history.Plan()
	why, ok := nowAlone(m)
	switch {
	case !ok:
		return why, false
	case len(p.Slots) == 0:
		return "this plan has no slot to try a unit in", false
	}
	if u := m.unit(); u != nil {
		if s := p.SlotOf(m.edited(), u.ID); s != nil {
			return "try other units instead of " + m.label() + ": do they fit, and what moves", true
		}
	}
	return "try units in slot " + clean(p.Slots[0].Name) + ": do they fit, and what moves", true
}

// onTrialNow is for what is only asked for while units are tried; the help asks always.
func onTrialNow(f func(m *Model) (string, bool), otherwise string) func(m *Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if !m.onTrial() {
			return otherwise, false
		}
		return f(m)
	}
}

var nowTakeTried = onTrialNow(func(m *Model) (string, bool) {
	t, a := m.trial, m.trial.answer()
	switch c := t.candidate(); {
	case c == nil:
		return "nothing of that name to take", false
	case t.wrong[t.key(c)] != "":
		return t.wrong[t.key(c)], false
	case a == nil:
		return "it is being tried: a moment", false
	case t.ready.part:
		return "the line-ups of this plan do not go together, so there is no plan of them all to take it into", false
	case a.Plan == nil:
		return c.label + " does not fit, so it cannot be taken", false
	case a.Units > 0:
		return "take it: " + c.label + " comes, and " + plural(a.Units, "unit") + " moves", true
	}
	return "take it: " + t.candidate().label + " comes into the plan", true
}, "take the one on screen into the plan")

var nowInstead = onTrialNow(func(m *Model) (string, bool) {
	ids := m.insteads()
	if len(ids) == 1 {
		return "slot " + clean(m.trial.slot) + " is empty in this line-up: there is nothing to replace", false
	}
	next := ids[(slices.Index(ids, m.trial.instead)+1)%len(ids)]
	if next == "" {
		return "add it to the slot, instead of nothing", true
	}
	return "try it instead of " + clean(m.trial.base.Unit(next).Label), true
}, "what it comes instead of")

// insteads are what a candidate may replace in the slot; "" is nothing.
func (m *Model) insteads() []string {
	return append([]string{""}, m.edited().Fill[m.trial.slot]...)
}

func (m *Model) nextInstead(pressed string) tea.Cmd {
	ids, t := m.insteads(), m.trial
	n := len(ids)
	i := max(slices.Index(ids, t.instead), 0)
	if pressed == "O" {
		i += n - 2
	}
	t.instead, t.halted = ids[(i+1)%n], false
	m.listTries()
	return nil
}

var nowOtherSlot = onTrialNow(func(m *Model) (string, bool) {
	if len(m.trial.base.Slots) < 2 {
		return "this plan has one slot only", false
	}
	return "try in slot " + clean(m.slotAfter().Name), true
}, "try in another slot")

func (m *Model) slotAfter() *layout.Slot {
	ss := m.trial.base.Slots
	i := slices.IndexFunc(ss, func(s layout.Slot) bool { return s.Name == m.trial.slot })
	return &ss[(i+1)%len(ss)]
}

func (m *Model) nextSlot() tea.Cmd {
	t := m.trial
	t.slot, t.instead, t.halted = m.slotAfter().Name, "", false
	m.listTries()
	return nil
}

var nowEvery = onTrialNow(func(m *Model) (string, bool) {
	switch {
	case len(m.trial.base.Lineups) < 2:
		return "this plan has one line-up only", false
	case m.trial.every:
		return "try in line-up " + clean(m.trial.lineup) + " alone", true
	}
	return "try in every line-up at once", true
}, "try in this line-up or in every one")

func (m *Model) toggleEvery() tea.Cmd {
	m.trial.every, m.trial.halted = !m.trial.every, false
	return nil
}

var nowTryAll = onTrialNow(func(m *Model) (string, bool) {
	if m.trial.all {
		return "all that is listed is being tried; x stops", false
	}
	return "try all " + digits(len(m.trial.shown)) + " that are listed, one after the other", true
}, "try all that are listed")

func (m *Model) tryAll() tea.Cmd {
	m.trial.all, m.trial.halted = true, false
	return nil
}

var nowStopTrying = onTrialNow(func(m *Model) (string, bool) {
	t, a := m.trial, m.trial.answer()
	switch {
	case t.asked != "" || t.all:
		return "stop trying; what is known stays", true
	case unsure(a):
		return "try it once more, for longer", true
	}
	return "go on trying", t.halted
}, "stop trying; what is known stays")

var nowTriesPage = onTrialNow(func(m *Model) (string, bool) {
	if n := len(m.triedList()); n > 0 {
		return "all " + digits(n) + " that were tried like this, as a table", true
	}
	return "nothing was tried yet", false
}, "all that were tried, as a table")

var nowTryPage = onTrialNow(func(m *Model) (string, bool) {
	if m.trial.answer() == nil {
		return "it was not tried yet", false
	}
	return "what came of it in full, on a page", true
}, "what came of it in full, on a page")

// browseTries chooses another candidate.
func (m *Model) browseTries(pressed string) tea.Cmd {
	t := m.trial
	by := 1
	if pressed == "up" || pressed == "shift+tab" {
		by = -1
	}
	m.chooseTry(min(max(t.chosen+by, 0), max(len(t.shown)-1, 0)))
	return nil
}

func (m *Model) chooseTry(i int) {
	if t := m.trial; i != t.chosen {
		t.chosen, t.halted, t.seconds = i, false, 0
	}
}

func (m *Model) startSifting() tea.Cmd {
	m.mode = sifting
	m.input = newInput(m.trial.typed)
	return nil
}

// siftTyped handles a key that goes into the line.
func (m *Model) siftTyped(msg tea.KeyMsg) tea.Cmd {
	var cmd tea.Cmd
	m.input, cmd = m.input.Update(msg)
	if v := m.input.Value(); v != m.trial.typed {
		m.trial.typed, m.trial.halted = v, false
		m.sift()
	}
	return cmd
}

package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/tui/edit"
)

// The groups of the help, in its order.
const (
	choosing  = "Choose a unit"
	moving    = "Move it"
	changing  = "Change it"
	wholePlan = "The whole board"
	looks     = "Look"
	files     = "File and editor"
)

// boardTable is what the keys do on the board.
func boardTable() table {
	t := table{
		{bind("tab", "tab", "shift+tab"), choosing, always("next unit of the list; shift+tab goes back"), (*Model).nextUnit},
		{bind("arrows", "up", "down", "left", "right"), choosing, nowArrow, (*Model).arrow},
		{also(bind("/", "/"), "search"), choosing, always("find a unit by typing a part of its label"), do((*Model).startLooking)},
		{bind("esc", "esc"), choosing, nowEscape, do((*Model).escape)},
		{bind("i", "i"), choosing, needsUnit("everything about %s on a page"), do((*Model).unitPage)},

		{also(bind("space", " "), "drag grab move"), moving, nowSpace, do((*Model).pickUpOrDown)},
		{bind("enter", "enter"), moving, nowEnter, do((*Model).enter)},
		{also(bind("shift+arrows", "shift+up", "shift+down", "shift+left", "shift+right"), "nudge"), moving, nowNudge, (*Model).nudge},
		{also(bind("ctrl+arrows", "ctrl+up", "ctrl+down", "ctrl+left", "ctrl+right"), "jump neighbour"), moving, needsPlace("slide %s that way until it touches"), (*Model).slide},
		{bind("1 2 3 4", "1", "2", "3", "4"), moving, nowStride, (*Model).chooseStride},

		{also(bind("t T", "t", "T"), "rotate"), changing, nowTurn, (*Model).turn},
		{also(bind("n", "n"), "align swap exchange edges centres middles row column"), changing, nowStartPair, do((*Model).startPairing)},
		{bind("o", "o"), changing, nowOnto, do((*Model).ontoNext)},
		{also(bind("m", "m"), "hook loop interlocking fastener"), changing, nowMount, do((*Model).changeMount)},
		{also(bind("p", "p"), "lock fix keep"), changing, nowPin, do((*Model).pin)},
	}
	return slices.Concat(t, editTable(), tryTable(), planTable())
}

// planTable is the part of it that is not about one unit.
func planTable() table {
	return table{
		{also(bind("u", "u"), "undo"), wholePlan, nowUndo, do((*Model).undo)},
		{also(bind("r", "r", "ctrl+r"), "redo"), wholePlan, nowRedo, do((*Model).redo)},
		{also(bind("a", "a"), "solve place automatically"), wholePlan, nowArrange, do((*Model).arrange)},
		{bind("l L", "l", "L"), wholePlan, nowLineup, (*Model).nextLineup},

		{bind("f F", "f", "F"), looks, nowCulprit, (*Model).nextCulprit},
		{bind("w", "w"), looks, always("all that is wrong, on a page"), do((*Model).findingsPage)},
		{also(bind("c", "c"), "cables leads wires hide"), looks, nowRuns, do((*Model).nextRuns)},
		{also(bind("k K", "k", "K"), "wire lead"), looks, nowWire, (*Model).nextWire},
		{bind("e", "e"), looks, nowSums("power: who is on which output, and how full it is, on a page"), do((*Model).powerPage)},
		{bind("x", "x"), looks, nowSums("the kit of cables for all line-ups and how to cut it, on a page"), do((*Model).kitPage)},
		{also(bind("+ -", "+", "=", "-", "_"), "zoom in out larger smaller"), looks, nowZoom, (*Model).zoomKey},
		{also(bind("0", "0"), "zoom fit whole"), looks, nowWhole, do((*Model).wholeBoard)},
		{also(bind("z", "z"), "zoom near"), looks, nowCloseUp, do((*Model).closeUp)},
		{also(bind("pgup pgdown home end", "pgup", "pgdown", "home", "end", "alt+up", "alt+down", "alt+left", "alt+right"), "pan scroll"), looks, nowPan, (*Model).pan},
		{also(bind("d D", "d", "D"), "deck riser underside beneath below surface mirrored view"), looks, nowLook, (*Model).nextLook},
		{also(bind("v", "v"), "hide plugs switches slots fastener runs"), looks, always("choose what the drawing shows"), do(func(m *Model) tea.Cmd { m.mode = showing; return nil })},

		{bind("s", "s", "ctrl+s"), files, nowSave, do((*Model).save)},
		{bind("S", "S"), files, always("save under another name"), do((*Model).startNaming)},
		{also(bind("M", "M"), "copy select text clipboard"), files, nowMouseKey, do((*Model).toggleMouse)},
		{bind("?", "?", "f1"), files, always("this help"), do((*Model).helpPage)},
		{also(bind("q", "q"), "exit leave close"), files, nowQuit, do((*Model).quit)},
	}
}

// do makes an action's function of one that does not care which key it was.
func do(f func(*Model) tea.Cmd) func(*Model, string) tea.Cmd {
	return func(m *Model, _ string) tea.Cmd { return f(m) }
}

// label returns the selected unit's label for a sentence.
func (m *Model) label() string { return clean(m.unit().Label) }

const noUnit = "choose a unit first: tab, / or an arrow key, or click one"

func needsUnit(what string) func(*Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if m.unit() == nil {
			return noUnit, false
		}
		return named(what, m.label()), true
	}
}

func needsPlace(what string) func(*Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if why, ok := m.canEdit(); !ok {
			return why, false
		}
		if _, _, ok := m.place(); !ok {
			return named("%s has no place yet: space gives it one", m.label()), false
		}
		return named(what, m.label()), true
	}
}

// canEdit says why the selected unit cannot be changed.
func (m *Model) canEdit() (string, bool) {
	switch {
	case m.offer != nil:
		return offerWaits, false
	case m.unit() == nil:
		return noUnit, false
	}
	return "", true
}

func nowArrow(m *Model) (string, bool) {
	if m.held != 0 {
		return m.strideText(m.label()), true
	}
	return "choose the next unit that way", true
}

func nowNudge(m *Model) (string, bool) {
	what, ok := needsPlace("")(m)
	if !ok {
		return what, false
	}
	return m.strideText(m.label()) + " without picking it up", true
}

func (m *Model) strideText(label string) string {
	if m.stride == touching {
		return "slide " + label + " until it touches"
	}
	return "move " + label + " by " + edit.Strides(m.plan().LengthUnit)[m.stride].Name
}

func nowStride(m *Model) (string, bool) {
	s := edit.Strides(m.plan().LengthUnit)
	what := "step of " + s[0].Name + ", " + s[1].Name + ", " + s[2].Name + ", or until it touches; now "
	if m.stride == touching {
		return what + "until it touches", true
	}
	return what + s[m.stride].Name, true
}

func nowSpace(m *Model) (string, bool) {
	why, ok := m.canEdit()
	if !ok {
		return why, false
	}
	_, _, placed := m.place()
	switch {
	case m.held != 0:
		return "set " + m.label() + " down here", true
	case !placed:
		return "place " + m.label() + " and pick it up", true
	}
	return "pick " + m.label() + " up, to move it with the arrows", true
}

func nowEnter(m *Model) (string, bool) {
	if m.held == 0 && (m.offer != nil || m.job != nil) {
		return "take the best arrangement so far", true
	}
	return nowSpace(m)
}

func nowEscape(m *Model) (string, bool) {
	switch {
	case m.held != 0:
		return "put " + m.label() + " back where it was", true
	case m.offer != nil:
		return "drop this arrangement", true
	case m.job != nil:
		return "stop arranging and change nothing", true
	case m.unit() != nil:
		return "choose no unit", true
	case m.wires.chosen != "":
		return "choose no cable", true
	}
	return "nothing to leave: q quits", false
}

func nowTurn(m *Model) (string, bool) {
	what, ok := needsPlace("")(m)
	if !ok {
		return what, false
	}
	_, pl, _ := m.place()
	return "turn " + m.label() + " clockwise to " + digits(pl.Turn.Add(1).Degrees()) + ", T the other way", true
}

func nowOnto(m *Model) (string, bool) {
	what, ok := needsPlace("")(m)
	if !ok {
		return what, false
	}
	if len(m.plan().Board.Risers) == 0 {
		return "this board has no riser: the deck is its only surface", false
	}
	_, pl, _ := m.place()
	return "put " + m.label() + " on the " + clean(m.surfaceAfter(pl.On).Name), true
}

func nowMount(m *Model) (string, bool) {
	why, ok := m.canEdit()
	if !ok {
		return why, false
	}
	u := m.unit()
	switch {
	case u.Mount == layout.Fixed:
		return "change " + m.label() + " to swap: hook-and-loop", true
	case m.plan().InSlots(u.ID):
		return m.label() + " belongs to a slot and so stays swap", false
	}
	return "change " + m.label() + " to fixed: interlocking fastener", true
}

func nowPin(m *Model) (string, bool) {
	why, ok := m.canEdit()
	if !ok {
		return why, false
	}
	if m.unit().Pinned {
		return "unpin " + m.label() + ": arranging may move it", true
	}
	return "pin " + m.label() + ": arranging leaves it here", true
}

func nowUndo(m *Model) (string, bool) {
	undo, _ := m.history.Next()
	switch {
	case m.offer != nil:
		return offerWaits, false
	case undo == "":
		return "nothing to take back", false
	}
	return "take back: " + undo, true
}

func nowRedo(m *Model) (string, bool) {
	_, redo := m.history.Next()
	switch {
	case m.offer != nil:
		return offerWaits, false
	case redo == "":
		return "nothing was taken back", false
	}
	return "do again: " + redo, true
}

func nowArrange(m *Model) (string, bool) {
	switch {
	case m.job != nil:
		return jobGoesOn, false
	case m.offer != nil:
		return offerWaits, false
	}
	return "arrange what is not pinned, all line-ups together", true
}

func nowLineup(m *Model) (string, bool) {
	ls := m.plan().Lineups
	if len(ls) == 1 {
		return "this plan has one line-up only", false
	}
	return "go to line-up " + clean(ls[(m.lineup+1)%len(ls)].Name) + ", L the other way", true
}

func nowCulprit(m *Model) (string, bool) {
	m.look()
	if n := len(m.found()); n > 0 {
		return "go to the next of " + plural(n, "finding") + ", F back", true
	}
	if i := m.nextFaulty(); i >= 0 {
		return "nothing found here: go to line-up " + clean(m.plan().Lineups[i].Name), true
	}
	return "nothing is wrong in any line-up", false
}

func nowRuns(m *Model) (string, bool) {
	switch cables, leads := runsAfter(m.show.cables, m.show.leads); {
	case cables && leads:
		return "show the power leads too", true
	case cables:
		return "show the runs of the audio cables", true
	case leads:
		return "show the power leads alone", true
	}
	return "hide all runs", true
}

func nowWire(m *Model) (string, bool) {
	n := len(m.wireList())
	switch {
	case n == 0 && m.wires.sums == nil:
		return "the cables are being laid", false
	case n == 0:
		return "no cable has both its ends placed in this line-up", false
	case m.unit() != nil:
		return "choose a cable of " + m.label() + ", then the next of all; K goes back", true
	}
	return "choose the next of " + plural(n, "cable") + " and leads; K goes back", true
}

func nowSums(what string) func(*Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if m.wires.sums == nil {
			return "it is being worked out: a moment", false
		}
		return what, true
	}
}

func nowSave(m *Model) (string, bool) {
	switch {
	case m.saving:
		return "saving is going on", false
	case m.path == "":
		return "save; asks for a name first", true
	case !m.history.Dirty():
		return "nothing has changed since the plan was saved", false
	}
	return "save to " + clean(m.path), true
}

func nowQuit(m *Model) (string, bool) {
	if m.history.Dirty() {
		return "quit; asks first, for there are changes not saved", true
	}
	return "quit", true
}

// named puts a label into a phrase; fmt is spared a label with a percent sign.
func named(phrase, label string) string {
	for i := 0; i+1 < len(phrase); i++ {
		if phrase[i] == '%' && phrase[i+1] == 's' {
			return phrase[:i] + label + phrase[i+2:]
		}
	}
	return phrase
}

package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// list is things to choose from, and what can be done with each.
type list struct {
	title  func(m *Model) string
	intro  func(m *Model) string
	items  func(m *Model, w int) []item
	search bool // letters narrow the list down
	first  bool // it is what the editor begins with: q quits
	typed  string
	at     int // the chosen one
	top    int

	open, add, copy, drop, flip, next verb
	// move moves a thing up or down and returns how far the chosen line goes.
	move func(m *Model, it item, by int) int
	// tall is how many lines a thing takes that is moved, one where nil.
	tall  func(m *Model) int
	left  func(m *Model) tea.Cmd // when the list is left
	leave string                 // the word for that, "back" where empty

	itemOf []int // item of each line that was drawn last, -1 for none
}

// item is one line of a list.
type item struct {
	id   string
	n    int    // its number among those of its kind
	kind string // where a list has several
	text string
	more string // told of it while it is chosen
	also string // words that it is found by besides those on screen
	head bool   // a heading, which is not chosen
}

// verb is something that can be done with an item; without do it cannot.
type verb struct {
	what string
	do   func(m *Model, it item) tea.Cmd
}

// fixedText is a text that stays the same.
func fixedText(s string) func(*Model) string { return func(*Model) string { return s } }

// shown returns the items that match what is typed.
func (l *list) shown(m *Model, w int) []item {
	all := l.items(m, w)
	if !l.search || strings.TrimSpace(l.typed) == "" {
		return all
	}
	var out []item
	for _, it := range all {
		if !it.head && wordsIn(l.typed, it.id+" "+it.text+" "+it.kind+" "+it.also) {
			out = append(out, it)
		}
	}
	// What begins with the word is meant first: "supply" is not an expander.
	first := strings.Fields(strings.ToLower(l.typed))[0]
	begins := func(it item) bool { return strings.HasPrefix(strings.ToLower(it.id), first) }
	slices.SortStableFunc(out, func(a, b item) int {
		switch {
		case begins(a) == begins(b):
			return 0
		case begins(a):
			return -1
		}
		return 1
	})
	return out
}

// noHeading is the index of the first item from one on, going by way, that is no
// heading; where there is none, of the nearest the other way; -1 for none at all.
func noHeading(all []item, from, way int) int {
	for _, by := range [2]int{way, -way} {
		for i := from; i >= 0 && i < len(all); i += by {
			if !all[i].head {
				return i
			}
		}
	}
	return -1
}

// now returns the chosen item, ok false where there is none.
func (l *list) now(m *Model) (item, bool) {
	all := l.shown(m, listWidth(m))
	l.at = min(max(l.at, 0), max(len(all)-1, 0))
	i := noHeading(all, l.at, 1)
	if i < 0 {
		return item{}, false
	}
	l.at = i
	return all[i], true
}

// step goes by so many items; headings are passed over.
func (l *list) step(m *Model, by int) {
	l.now(m) // a heading is never what one goes on from
	all := l.shown(m, listWidth(m))
	way := 1
	if by < 0 {
		way = -1
	}
	if i := noHeading(all, min(max(l.at+by, 0), max(len(all)-1, 0)), way); i >= 0 {
		l.at = i
	}
}

// openList opens a list.
func (m *Model) openList(l *list) tea.Cmd { return m.push(screen{list: l}) }

// doVerb does something with the chosen item.
func (m *Model) doVerb(of func(l *list) *verb, needsItem bool) tea.Cmd {
	l := m.over().list
	v := of(l)
	it, ok := l.now(m)
	switch {
	case v.do == nil:
		return nil
	case needsItem && !ok:
		m.say("", "There is nothing to choose yet.")
		return nil
	}
	return v.do(m, it)
}

// leaveList leaves a list, or first what is typed in it.
func (m *Model) leaveList() tea.Cmd {
	l := m.over().list
	if l.typed != "" {
		l.typed, l.at, l.top = "", 0, 0
		return nil
	}
	if l.next.do != nil && len(m.ed.pile) == 1 {
		m.ask("There are questions left. What you said so far stays in the plan, and P leads to all of it.",
			choice{"b", "to the board", func(m *Model) tea.Cmd { m.clear(); return nil }})
		return nil
	}
	m.pop()
	if l.left != nil {
		return l.left(m)
	}
	return nil
}

// moveItem moves the chosen item up or down.
func (m *Model) moveItem(pressed string) tea.Cmd {
	l := m.over().list
	by := 1
	if pressed == "shift+up" || pressed == "K" || pressed == "<" {
		by = -1
	}
	it, ok := l.now(m)
	if !ok || l.move == nil {
		return nil
	}
	l.at = max(l.at+l.move(m, it, by), 0)
	return nil
}

// typeInList narrows a list down.
func (m *Model) typeInList(msg tea.KeyMsg) tea.Cmd {
	l := m.over().list
	switch {
	case msg.Type == tea.KeyCtrlU:
		l.typed = ""
	case msg.Type == tea.KeyBackspace:
		if r := []rune(l.typed); len(r) > 0 {
			l.typed = string(r[:len(r)-1])
		}
	case (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt && len(l.typed) < 60:
		l.typed += clean(string(msg.Runes))
	default:
		return nil
	}
	l.at, l.top = 0, 0
	return nil
}

func listWidth(m *Model) int { return min(m.w-4, 116) }

package tui

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/changeover"
	printed "footplank/layout/document"
	"footplank/layout/sheet"
	"footplank/layout/shopping"
)

// changes are what goes from one line-up to another, by labels.
type changes struct{ leave, come, move []string }

// changesOf compares where units stand in two line-ups of a plan.
func changesOf(p *layout.Plan, from, to *layout.Lineup) (c changes) {
	for i := range p.Units {
		u := &p.Units[i]
		was, is := p.Present(from, u.ID), p.Present(to, u.ID)
		a, placedA := p.PlaceOf(from, u)
		b, placedB := p.PlaceOf(to, u)
		switch label := clean(u.Label); {
		case was && !is:
			c.leave = append(c.leave, label)
		case is && !was:
			c.come = append(c.come, label)
		case was && is && placedA && placedB && a != b:
			c.move = append(c.move, label)
		}
	}
	return c
}

// text says it in a line: the first few of each by name.
func (c changes) text() string {
	var parts []string
	add := func(names []string, one, more string) {
		if len(names) == 0 {
			return
		}
		verb := more
		if len(names) == 1 {
			verb = one
		}
		parts = append(parts, someOf(names)+" "+verb)
	}
	add(c.leave, "leaves", "leave")
	add(c.come, "comes", "come")
	add(c.move, "moves", "move")
	if parts == nil {
		return "the same units at the same places"
	}
	return strings.Join(parts, "; ")
}

// someOf names a few, and how many more there are.
func someOf(names []string) string {
	const few = 3
	if len(names) > few+1 {
		return strings.Join(names[:few], ", ") + " and " + digits(len(names)-few) + " more"
	}
	return strings.Join(names, ", ")
}

// switched goes to a line-up as the player asks for it, and says what changes.
func (m *Model) switched(i int) {
	from := m.lineup
	m.showLineup(i)
	if from == i || m.mode == reading {
		return
	}
	p := m.plan()
	a, b := &p.Lineups[min(from, len(p.Lineups)-1)], m.lineupNow()
	m.cameFrom = a.Name
	m.say("", clean(a.Name)+" to "+clean(b.Name)+": "+changesOf(p, a, b).text()+". g shows the steps.")
}

// The page with the card from one line-up to another.

// changeFrom is the line-up that the card starts from: the one that was on screen
// before, else the one before in the plan.
func (m *Model) changeFrom() string {
	p := m.plan()
	if p.LineupNamed(m.cameFrom) != nil && m.cameFrom != m.lineupNow().Name {
		return m.cameFrom
	}
	n := len(p.Lineups)
	return p.Lineups[(m.lineup+n-1)%n].Name
}

func nowChangePage(m *Model) (string, bool) {
	if len(m.plan().Lineups) < 2 {
		return "this plan has one line-up only: nothing to change over", false
	}
	return "the steps from line-up " + clean(m.changeFrom()) + " to " + clean(m.lineupNow().Name) + ", on a page", true
}

func (m *Model) changePage() tea.Cmd {
	m.cameFrom = m.changeFrom()
	m.open(page{tab: "g", byLine: true, lines: (*Model).leafLines})
	m.nameChange()
	return nil
}

// nameChange says on the page from where to where it leads now.
func (m *Model) nameChange() {
	from, to := m.cameFrom, m.lineupNow().Name
	m.page.title = "From " + clean(from) + " to " + clean(to)
	m.page.leaf = "changeover\x00" + from + "\x00" + to
	m.page.make = func(p *layout.Plan) func(int) []string { return changeLines(p, from, to) }
}

// changeLines works a card out.
func changeLines(p *layout.Plan, from, to string) func(w int) []string {
	card, err := changeover.Make(p, from, to)
	if err != nil {
		text := "No card: " + clean(err.Error()) + "."
		if refusal := (*changeover.Refusal)(nil); errors.As(err, &refusal) {
			text += " Arranging (a) gives every unit a place that goes with all line-ups."
		}
		return func(w int) []string { return wrap(text, w) }
	}
	return func(w int) []string {
		lines := sheet.ChangeoverLines(p, card, w)
		if len(card.Steps) > 0 {
			lines = append([]string{"  " + plural(len(card.Steps), "step")}, lines...)
		}
		return lines
	}
}

func nowTurnChange(m *Model) (string, bool) {
	if m.mode != reading || m.page.tab != "g" {
		return "on the page of steps between line-ups: the other way round", false
	}
	return "the other way round: from " + clean(m.lineupNow().Name) + " to " + clean(m.cameFrom), true
}

func (m *Model) turnChange() tea.Cmd {
	i := m.lineupIndex(m.cameFrom)
	if i < 0 {
		return nil
	}
	m.cameFrom = m.lineupNow().Name
	m.showLineup(i)
	m.nameChange()
	return nil
}

func nowChangeStart(m *Model) (string, bool) {
	if m.mode != reading || m.page.tab != "g" {
		return "on the page of steps between line-ups: start from another one", false
	}
	return "start from another line-up", true
}

func (m *Model) nextChangeStart() tea.Cmd {
	ls := m.plan().Lineups
	i := max(m.lineupIndex(m.cameFrom), 0)
	for range ls {
		i = (i + 1) % len(ls)
		if i != m.lineup {
			break
		}
	}
	m.cameFrom = ls[i].Name
	m.nameChange()
	return nil
}

// The page with what to buy.

func (m *Model) shoppingPage() tea.Cmd {
	m.open(page{title: "What to buy", tab: "B", leaf: "shopping", make: shoppingLines, lines: (*Model).leafLines})
	return nil
}

func shoppingLines(p *layout.Plan) func(w int) []string {
	list, err := shopping.Make(p, shopping.Options{})
	if err != nil {
		text := "No list: " + clean(err.Error()) + "."
		return func(w int) []string { return wrap(text, w) }
	}
	return func(w int) []string {
		var b strings.Builder
		d := &printed.Document{Blocks: list.Blocks()}
		if err := d.Text(&b, w); err != nil {
			return []string{clean(err.Error())} // a builder takes all
		}
		return strings.Split(strings.TrimRight(b.String(), "\n"), "\n")
	}
}

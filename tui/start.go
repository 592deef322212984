package tui

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/plan"
	"footplank/tui/cards"
	"footplank/tui/edit"
	"footplank/tui/form"
	"footplank/tui/recovery"
)

// known is the plans that the player may want, as far as the program knows.
type known struct {
	recent []string
	here   []string // plans in the folder that the program was started in
	lefts  []recovery.Left
}

type knownMsg known

// openStart opens the screen to choose a plan on, and looks for plans.
func (m *Model) openStart() tea.Cmd {
	m.openList(startList())
	return m.lookForPlans()
}

// openFirst is openStart as the first thing that the player sees. The plan
// beneath is the built-in example.
func (m *Model) openFirst() tea.Cmd {
	l := startList()
	l.first = true
	l.left = (*Model).arrangeExample
	m.openList(l)
	return m.lookForPlans()
}

// beginning reports whether the player has not chosen a plan yet.
func (m *Model) beginning() bool {
	return len(m.ed.pile) > 0 && m.ed.pile[0].list != nil && m.ed.pile[0].list.first
}

func (m *Model) lookForPlans() tea.Cmd {
	d, ok := m.file.(*document)
	if !ok {
		return nil
	}
	return m.guarded("looking for plans", func() tea.Msg { return d.known() })
}

// startList is the start screen.
func startList() *list {
	return &list{
		title: fixedText("footplank: plan an effects board"),
		intro: fixedText("Choose a plan with the arrows and enter, or click it. Everything is done on screen; ? tells what the keys do."),
		items: func(m *Model, w int) []item { return m.startItems(w) },
		open:  verb{"open: the chosen one", (*Model).choosePlan},
	}
}

func (m *Model) startItems(w int) []item {
	out := []item{{kind: "new", text: "New plan: by a few questions"},
		{kind: "path", text: "Open a file by its path"}}
	if len(m.ed.known.lefts) > 0 {
		out = append(out, item{text: "Not saved when the editor ended", head: true})
		for i, l := range m.ed.known.lefts {
			where := "no file yet"
			if l.Path != "" {
				where = shortPath(l.Path, 40)
			}
			out = append(out, item{kind: "left", n: i, text: m.pad([]int{28, 20}, l.Title, l.At.Local().Format("2 January, 15:04"), where)})
		}
	}
	if len(m.ed.known.recent) > 0 {
		out = append(out, item{text: "Recent plans", head: true})
		for i, path := range m.ed.known.recent[:min(len(m.ed.known.recent), 9)] {
			out = append(out, item{kind: "recent", n: i, id: path, text: shortPath(path, w-8)})
		}
	}
	var here []item
	for i, path := range m.ed.known.here {
		if !slices.Contains(m.ed.known.recent, path) {
			here = append(here, item{kind: "here", n: i, id: path, text: filepath.Base(path)})
		}
	}
	if len(here) > 0 {
		out = append(out, item{text: "Plans in this folder", head: true})
		out = append(out, here[:min(len(here), 9)]...)
	}
	out = append(out, item{text: "Built-in examples", head: true})
	for i, e := range plan.Examples() {
		out = append(out, item{kind: "example", n: i, id: e.Name, text: e.Title})
	}
	return out
}

// shortPath leaves the front of a long path out: its end tells plans apart.
func shortPath(path string, w int) string {
	if home, err := os.UserHomeDir(); err == nil && strings.HasPrefix(path, home+string(filepath.Separator)) {
		path = "~" + path[len(home):]
	}
	r := []rune(path)
	if len(r) <= w || w < 8 {
		return path
	}
	return "..." + string(r[len(r)-w+3:])
}

func (m *Model) choosePlan(it item) tea.Cmd {
	switch it.kind {
	case "new":
		return m.openList(measureList())
	case "path":
		return m.askPath()
	}
	return m.mayLeave(func(m *Model) tea.Cmd {
		switch it.kind {
		case "left":
			return m.takeUpLeft(m.ed.known.lefts[it.n])
		case "recent", "here":
			return m.openPath(it.id)
		}
		e := plan.Examples()[it.n]
		return m.openPlan(opening{get: func(now *plan.Doc) (*plan.Doc, error) { return plan.Parse(e.Name, e.Source, now.Forms()) },
			then: (*Model).arrangeExample})
	})
}

// arrangeExample arranges an example, so that there is something to see.
func (m *Model) arrangeExample() tea.Cmd {
	if m.unplaced() == 0 {
		return nil
	}
	cmd := m.arrange()
	m.job.own = true
	return cmd
}

// mayLeave goes on to another plan, but asks first where the one on screen has
// changes that are not saved.
func (m *Model) mayLeave(then func(m *Model) tea.Cmd) tea.Cmd {
	if m.saving {
		m.say("", "Saving is going on: a moment.")
		return nil
	}
	if !m.history.Dirty() {
		return then(m)
	}
	m.ask("The plan on screen has changes that are not saved.",
		choice{"s", "save it first", func(m *Model) tea.Cmd {
			m.ed.then = then
			return m.save()
		}},
		choice{"d", "drop its changes", then})
	return nil
}

// measureList asks what the player measures in, before anything else.
func measureList() *list {
	return &list{
		title: fixedText("New plan: what do you measure in?"),
		intro: fixedText("Every field is in that measure from here on; the other one is understood too, with its unit behind it."),
		items: func(*Model, int) []item {
			return []item{{id: "mm", text: "millimetres"}, {id: "in", text: "inches"}}
		},
		open: verb{"choose: this measure", func(m *Model, it item) tea.Cmd { return m.newPlan(layout.LengthUnit(it.id)) }},
	}
}

// newPlan asks for the board of a new plan. The plan on screen stays until the
// board is settled.
func (m *Model) newPlan(unit layout.LengthUnit) tea.Cmd {
	a := plan.Answers{Title: "My board", Unit: unit, BoardW: 560 * layout.Millimetre, BoardD: 330 * layout.Millimetre, Forms: m.forms()}
	if unit == layout.Inches {
		a.BoardW, a.BoardD = 22*layout.Inch, 13*layout.Inch
	}
	doc, err := plan.New(a)
	if err != nil {
		m.say(check.Fault, sentence(clean(err.Error())))
		return nil
	}
	f := cards.Shop{Plan: doc.Plan, Forms: m.forms()}.NewPlan()
	f.Start(func(change func(p *layout.Plan) error) (*layout.Plan, error) {
		draft, err := edit.Draft(doc.Plan, change)
		if err == nil {
			err = checked(doc, draft)
		}
		return draft, err
	})
	return m.push(screen{form: f, take: func(m *Model, draft *layout.Plan) tea.Cmd {
		return m.mayLeave(func(m *Model) tea.Cmd {
			return m.openPlan(opening{fresh: true, then: (*Model).beginUnits, get: func(*plan.Doc) (*plan.Doc, error) {
				c := *doc
				c.Plan = draft.Clone()
				return &c, nil
			}})
		})
	}})
}

// beginUnits is the second step of a new plan.
func (m *Model) beginUnits() tea.Cmd {
	l := unitList()
	l.title = func(m *Model) string {
		return "New plan, 2 of 4: units (" + digits(len(m.history.Plan().Units)) + " so far)"
	}
	l.intro = fixedText("a adds more, enter opens a unit's card, c copies it. When all are here, n goes on.")
	l.next = verb{"next: what changes from gig to gig", func(m *Model, _ item) tea.Cmd { return m.beginGigs() }}
	m.openList(l)
	return m.addUnits("New plan, 2 of 4: add a unit")
}

// beginGigs is the third step: does anything change from gig to gig? What does goes
// into slots, which are filled before the chain is put in order.
func (m *Model) beginGigs() tea.Cmd {
	return m.fill(m.shop().Gigs(), func(m *Model) tea.Cmd {
		if len(m.history.Plan().Slots) == 0 {
			return m.beginChain()
		}
		l := lineupList()
		l.title = fixedText("New plan, 3 of 4: what is in the slots, gig by gig")
		l.intro = fixedText("Enter on a slot chooses its units; those in no slot are there at every gig. A slot is the whole deck until its card, under P, says where. n goes on.")
		l.next = verb{"next: the chain", func(m *Model, _ item) tea.Cmd { return m.beginChain() }}
		l.at = 1 // the first slot
		return m.openList(l)
	})
}

func (m *Model) beginChain() tea.Cmd {
	if len(edit.Unchained(m.history.Plan())) > 0 {
		m.alter("put the slots into the chain", "", func(p *layout.Plan) error {
			for _, slot := range edit.Unchained(p) {
				edit.AddStop(p, layout.Stop{Slot: slot}, len(p.Chain.Stops))
			}
			return nil
		})
	}
	l := chainList()
	l.title = fixedText("New plan, 4 of 4: the chain")
	l.intro = func(m *Model) string {
		text := "From the instrument on. Shift and an arrow, or dragging, move the chosen one. "
		if out := edit.Unpassed(m.history.Plan()); len(out) > 0 {
			text += "Not in it yet: " + names(len(out), func(i int) string { return out[i].Label }) + "; a adds. "
		}
		return text + "When the order is right, n goes on."
	}
	l.next = verb{"next: where everything stands", func(m *Model, _ item) tea.Cmd { return m.begun() }}
	return m.openList(l)
}

// begun leads from the questions of a new plan to its board.
func (m *Model) begun() tea.Cmd {
	m.clear()
	if m.unplaced() == 0 {
		return nil
	}
	m.ask("The plan is made; its units have no place yet.",
		choice{"a", "arrange them now", (*Model).arrange},
		choice{"b", "place them by hand on the board", func(m *Model) tea.Cmd { return nil }})
	return nil
}

// askPath asks for the path of a plan's file.
func (m *Model) askPath() tea.Cmd {
	x := form.Words("Path", "", "a plan file, like board.toml; tab completes it", func(*layout.Plan, string) error { return nil })
	f := &form.Form{Title: "Open a file", Name: "path", Take: "open it", Intro: "In " + shortPath(m.dir, 38) + " unless the path says otherwise.", Fields: []*form.Field{x}}
	f.Start(m.maker())
	return m.push(screen{form: f, complete: (*Model).completePath, take: func(m *Model, _ *layout.Plan) tea.Cmd {
		path := strings.TrimSpace(x.Value())
		if path == "" {
			f.Fail("want the path of a plan file")
			return nil
		}
		return m.mayLeave(func(m *Model) tea.Cmd { return m.openPath(untilde(path)) })
	}})
}

// untilde puts the player's home where a path begins with a tilde.
func untilde(path string) string {
	if home, err := os.UserHomeDir(); err == nil && (path == "~" || strings.HasPrefix(path, "~/")) {
		return home + path[1:]
	}
	return path
}

type completedMsg struct {
	typed, value string
	all          []string
}

// completePath looks up how a path can go on.
func (m *Model) completePath() tea.Cmd {
	typed := m.over().form.Value("Path")
	return m.guarded("completing a path", func() tea.Msg { return completePath(typed) })
}

func completePath(typed string) completedMsg {
	dir, start := filepath.Split(typed)
	entries, err := os.ReadDir(untilde(cmp.Or(dir, ".")))
	msg := completedMsg{typed: typed, value: typed}
	if err != nil {
		return msg
	}
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(name, start) || strings.HasPrefix(name, ".") && !strings.HasPrefix(start, ".") {
			continue
		}
		switch {
		case e.IsDir():
			msg.all = append(msg.all, name+string(filepath.Separator))
		case strings.HasSuffix(name, ".toml"):
			msg.all = append(msg.all, name)
		}
	}
	if len(msg.all) > 0 {
		msg.value = dir + common(msg.all)
	}
	return msg
}

// common is the beginning that all words have.
func common(words []string) string {
	s := words[0]
	for _, w := range words[1:] {
		for !strings.HasPrefix(w, s) {
			r := []rune(s)
			s = string(r[:len(r)-1])
		}
	}
	return s
}

func (m *Model) completed(msg completedMsg) {
	f := m.chosenForm()
	if f == nil || f.Name != "path" || f.Value("Path") != msg.typed {
		return // typed on meanwhile
	}
	f.PutAll(map[string]string{"Path": msg.value})
	f.Go(0)
	f.Move(1 << 20)
	switch {
	case len(msg.all) == 0:
		m.say("", "Nothing here begins so.")
	case len(msg.all) > 1:
		m.say("", strings.Join(msg.all[:min(len(msg.all), 12)], "  "))
	}
}

// looked takes the plans that were found.
func (m *Model) looked(msg knownMsg) {
	m.ed.known = known(msg)
	path := m.path
	if path != "" && !filepath.IsAbs(path) {
		path = filepath.Join(m.dir, path)
	}
	other := func(paths []string) []string {
		return slices.DeleteFunc(slices.Clone(paths), func(p string) bool { return p == path })
	}
	m.ed.known.recent, m.ed.known.here = other(m.ed.known.recent), other(m.ed.known.here)
}

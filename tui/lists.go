package tui

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/check"
	"footplank/tui/cards"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// planList is all that a plan is made of.
func planList() *list {
	return &list{
		title: func(m *Model) string { return "The plan: " + m.history.Plan().Title },
		intro: fixedText("Everything that the plan's file says can be changed here. Each change can be taken back."),
		items: func(m *Model, _ int) []item { return m.planItems() },
		open:  verb{"open: the chosen one", (*Model).openPart},
	}
}

func (m *Model) planItems() []item {
	p := m.history.Plan()
	b := &p.Board
	row := func(id, name, what string) item { return item{id: id, text: m.pad([]int{22}, name, what)} }
	slots := "none: a slot is a region whose units change from gig to gig"
	if len(p.Slots) > 0 {
		slots = names(len(p.Slots), func(i int) string { return p.Slots[i].Name })
	}
	sharing := "one unit per output"
	if p.Power.Sharing {
		sharing = "several units on one output"
	}
	owned := len(p.Owned.Cables) + len(p.Owned.Leads) + len(p.Owned.Plugs) + len(p.Owned.Rolls)
	return []item{
		{text: "What stands on the board", head: true},
		row("units", "Units", plural(len(p.Units), "unit")+": add, size, mount, power, jacks, remove"),
		row("chain", "Chain", plural(len(p.Chain.Stops), "stop")+": the order of the signal, and cables beside it"),
		{text: "Where it stands", head: true},
		row("board", "Board", m.lengthUnit(b.W)+" x "+m.lengthUnit(b.D)+", "+string(b.Kind)+": size, material, overhang, case"),
		row("risers", "Risers", plural(len(b.Risers), "riser")),
		row("slots", "Slots", slots),
		{text: "What is played", head: true},
		row("lineups", "Line-ups", names(len(p.Lineups), func(i int) string { return p.Lineups[i].Name })+": what is in the slots"),
		{text: "Rules", head: true},
		row("limits", "Limits", "mass, room between switches, step over"),
		row("power rules", "Power rules", sharing+", "+strconv.Itoa(p.Power.Headroom)+" percent spare, "+plural(len(p.Power.Tour), "country")+" on tour"),
		row("cables", "Cables", "reel, instrument cable, diameter"),
		row("fastener", "Fastener", "interlocking and hook-and-loop"),
		{text: "Buying", head: true},
		row("owned", "What you have", plural(owned, "kind")+" of cables, leads, plugs, fastener"),
		row("prices", "Prices", plural(len(p.Prices), "price")),
		{text: "The plan itself", head: true},
		row("title", "Name and measure", p.Title+", in "+string(p.Measure())),
		row("start", "Another plan", "new, recent, an example, or a file"),
	}
}

// names joins names, the first few of many.
func names(n int, of func(i int) string) string {
	var out []string
	for i := range min(n, 4) {
		out = append(out, of(i))
	}
	if n > 4 {
		out = append(out, "and "+plural(n-4, "more"))
		return strings.TrimSuffix(strings.Join(out, ", "), "s")
	}
	return strings.Join(out, ", ")
}

func (m *Model) openPart(it item) tea.Cmd {
	switch it.id {
	case "units":
		return m.openList(unitList())
	case "chain":
		return m.openList(chainList())
	case "board":
		return m.fill(m.shop().Board(), nil)
	case "risers":
		return m.openList(riserList())
	case "slots":
		return m.openList(slotList())
	case "lineups":
		return m.openList(lineupList())
	case "limits":
		return m.fill(m.shop().Limits(), nil)
	case "power rules":
		return m.fill(m.shop().Power(), nil)
	case "cables":
		return m.fill(m.shop().Cables(), nil)
	case "fastener":
		return m.fill(m.shop().Fastener(), nil)
	case "owned":
		return m.openList(ownedList())
	case "prices":
		return m.openList(priceList())
	case "title":
		return m.fill(m.shop().Title(), nil)
	}
	return m.openStart()
}

// unitList is the plan's units.
func unitList() *list {
	return &list{
		title: func(m *Model) string { return "Units: " + plural(len(m.history.Plan().Units), "unit") },
		intro: func(m *Model) string {
			if len(m.history.Plan().Units) == 0 {
				return "No unit yet: a adds one of the catalog, found by typing. Put in what your tape measure says."
			}
			return "Enter opens a unit's card: its size by tape measure, mount, power, jacks and plugs, price."
		},
		items: func(m *Model, _ int) []item { return m.unitItems() },
		open:  verb{"open: the card of the chosen one", func(m *Model, it item) tea.Cmd { return m.unitCard(it.id) }},
		add:   verb{"add: a unit of the catalog", func(m *Model, _ item) tea.Cmd { return m.addUnit() }},
		copy:  verb{"copy: another one of the same kind", (*Model).copyUnit},
		drop: verb{"remove: the chosen one from the plan", func(m *Model, it item) tea.Cmd {
			m.alter("remove "+m.labelOf(it.id), "", func(p *layout.Plan) error { return p.RemoveUnit(it.id) })
			return nil
		}},
		move: func(m *Model, it item, by int) int {
			if it.n+by < 0 || it.n+by >= len(m.history.Plan().Units) {
				return 0
			}
			m.alter("move "+m.labelOf(it.id)+" in the list", it.id, func(p *layout.Plan) error { return p.MoveUnit(it.id, it.n+by) })
			return by
		},
	}
}

func (m *Model) labelOf(id string) string {
	if u := m.history.Plan().Unit(id); u != nil {
		return clean(u.Label)
	}
	return id
}

func (m *Model) sizeOf(s layout.Size) string {
	u := m.history.Plan().Measure()
	return s.W.Tape(u) + " x " + s.D.Tape(u) + " x " + s.H.Tape(u) + " " + string(u)
}

// sizeColumn is how wide the sizes of units are in a list.
func (m *Model) sizeColumn() int {
	if m.history.Plan().Measure() == layout.Inches {
		return 31
	}
	return 18
}

func drawOf(u *layout.Unit) string {
	switch {
	case u.Supplies():
		return plural(len(u.Outputs), "output")
	case u.Draw == nil || u.Draw.Milliamps == 0:
		return "no draw"
	}
	return strconv.Itoa(u.Draw.Milliamps) + " mA"
}

func (m *Model) unitItems() []item {
	p := m.history.Plan()
	out := make([]item, len(p.Units))
	for i := range p.Units {
		u := &p.Units[i]
		in := ""
		switch {
		case p.InSlots(u.ID):
			in = "in a slot"
		case edit.StopAt(p, u.ID) >= 0:
			in = "in the chain"
		case passed(u):
			in = "not in the chain"
		}
		out[i] = item{id: u.ID, n: i, text: m.pad([]int{22, m.sizeColumn(), 10, 5}, u.Label, m.sizeOf(u.Body), drawOf(u), string(u.Mount), in)}
	}
	return out
}

// passed reports whether the signal could pass a unit.
func passed(u *layout.Unit) bool {
	_, ok := edit.Pass(u, nil)
	return ok
}

func (m *Model) copyUnit(it item) tea.Cmd {
	m.alter("copy "+m.labelOf(it.id), it.id, func(p *layout.Plan) error {
		_, err := edit.CopyUnit(p, it.id)
		return err
	})
	return nil
}

// unitCard opens the card of a unit.
func (m *Model) unitCard(id string) tea.Cmd {
	if m.plan().Unit(id) != nil {
		m.selectUnit(id)
	}
	return m.fill(m.shop().Unit(id), nil)
}

func (m *Model) openUnitCard() tea.Cmd { return m.unitCard(m.selected) }

func (m *Model) deleteUnit() tea.Cmd {
	id := m.selected
	if m.alter("remove "+m.label(), "", func(p *layout.Plan) error { return p.RemoveUnit(id) }) {
		m.selectUnit("")
	}
	return nil
}

// addUnit opens the catalog to add units of.
func (m *Model) addUnit() tea.Cmd { return m.addUnits("Add a unit") }

func (m *Model) addUnits(title string) tea.Cmd {
	before := len(m.history.Plan().Units)
	return m.openList(&list{
		title: func(m *Model) string {
			units := m.history.Plan().Units
			if n := len(units) - before; n > 0 {
				return title + ": " + plural(n, "unit") + " added, the last is " + units[len(units)-1].Label
			}
			return title
		},
		intro:  fixedText("Forms by size and job: choose what comes nearest, then put in what your tape measure says. When you have them all, esc: done."),
		leave:  "done",
		items:  func(m *Model, w int) []item { return m.formItems("measured whole: a box, a home-made unit", w) },
		search: true,
		open: verb{"choose: this form", func(m *Model, it item) tea.Cmd {
			f, err := m.shop().NewUnit(it.id)
			if err != nil {
				m.say(check.Fault, sentence(err.Error()))
				return nil
			}
			return m.fill(f, func(m *Model) tea.Cmd {
				m.selectUnit(f.Subject)
				if s := m.over(); s != nil && s.list != nil && s.list.search { // ready for the next one
					s.list.typed, s.list.at, s.list.top = "", 0, 0
				}
				return nil
			})
		}},
	})
}

// formItems is the forms of the catalog; none says what it is to have none.
func (m *Model) formItems(none string, _ int) []item {
	var out []item
	family, size := "", m.sizeColumn()
	for _, f := range m.forms().Units() {
		if f.Family != family {
			family = f.Family
			out = append(out, item{text: familyName(family), head: true})
		}
		out = append(out, item{id: f.Name, kind: family, also: catalog.WordsFor(f.Name), more: f.Summary + ": " + m.sizeOf(f.Unit.Body) + ", " + drawOf(&f.Unit) + ".",
			text: m.pad([]int{19, size, 10}, f.Name, m.sizeOf(f.Unit.Body), drawOf(&f.Unit), f.Summary)})
	}
	return append(out, item{text: "Of no form", head: true},
		item{id: cards.NoForm, kind: "none", text: m.pad([]int{19}, cards.NoForm, none)})
}

func familyName(family string) string {
	if family == catalog.SupplyFamily {
		return "Supplies"
	}
	return "Units"
}

// catalogFor opens the catalog to give a unit another form.
func (m *Model) catalogFor(id string) *list {
	return &list{
		title:  func(m *Model) string { return "Another form for " + m.labelOf(id) },
		intro:  fixedText("Its size, jacks, switches and power become the form's; label, mount, place and price stay."),
		items:  func(m *Model, w int) []item { return m.formItems("its figures as they are become its own", w) },
		search: true,
		open: verb{"choose: this form", func(m *Model, it item) tea.Cmd {
			base := m.ed.base
			f := m.shop().LikeForm(id, it.id, func(u *layout.Unit, name string) error {
				if name == cards.NoForm {
					edit.Unform(u, m.forms())
					return nil
				}
				d := *base
				return d.SetForm(u, name)
			})
			if f == nil {
				m.say("", goneText)
				return nil
			}
			if !m.alter(f.What, id, f.Begin) {
				return nil
			}
			left := m.over().list.left
			m.pop()
			return left(m)
		}},
	}
}

// chosenForm is the form on top, for those who go on from it.
func (m *Model) chosenForm() *form.Form {
	if s := m.over(); s != nil {
		return s.form
	}
	return nil
}

package tui

import (
	"cmp"
	"slices"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

// jackList is the jacks of a unit, then those of its form that it does not have.
func jackList(id string) *list {
	return &list{
		title: func(m *Model) string { return "Jacks and plugs of " + m.labelOf(id) },
		intro: fixedText("Where each jack sits, the switch towards you, and the plug you have there."),
		items: func(m *Model, _ int) []item { return m.jackItems(id) },
		open: verb{"open: the chosen jack", func(m *Model, it item) tea.Cmd {
			if it.kind == "missing" {
				m.alter("put jack "+it.id+" of "+m.labelOf(id)+" back", id, m.shop().RestoreJack(id, it.id))
				return nil
			}
			return m.fill(m.shop().Jack(id, it.id), nil)
		}},
		add: verb{"add: a jack", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Jack(id, ""), nil) }},
		drop: verb{"remove: a jack that is not there", func(m *Model, it item) tea.Cmd {
			if it.kind != "missing" {
				m.alter("remove jack "+it.id+" of "+m.labelOf(id), id, func(p *layout.Plan) error { return p.RemoveJack(id, it.id) })
			}
			return nil
		}},
		move: func(m *Model, it item, by int) int {
			if it.kind == "missing" {
				return 0
			}
			return moveIn(m, id, "the jacks", it, by, func(u *layout.Unit) *[]layout.Jack { return &u.Jacks })
		},
	}
}

func (m *Model) jackItems(id string) []item {
	u := m.history.Plan().Unit(id)
	if u == nil {
		return nil
	}
	out := make([]item, len(u.Jacks))
	for i := range u.Jacks {
		j := &u.Jacks[i]
		plug := "whatever fits: " + j.Plug.Name
		if j.PlugGiven {
			plug = j.Plug.Name
		}
		out[i] = item{id: j.ID, n: i, text: m.pad([]int{12, 10, 4, 24}, j.ID, string(j.Kind), string(j.Dir),
			j.Wall.String()+", "+m.lengthUnit(j.Along)+" along", plug)}
	}
	missing := m.shop().MissingJacks(u)
	if len(missing) > 0 {
		out = append(out, item{text: "Of its form, but not on yours: enter puts one back", head: true})
	}
	for i, jack := range missing {
		out = append(out, item{id: jack, n: i, kind: "missing", text: jack})
	}
	return out
}

// moveIn moves a part of a unit up or down in the list of its kind.
func moveIn[T any](m *Model, id, what string, it item, by int, of func(u *layout.Unit) *[]T) int {
	u := m.history.Plan().Unit(id)
	if u == nil || it.n+by < 0 || it.n+by >= len(*of(u)) {
		return 0
	}
	done := m.alter("order "+what+" of "+m.labelOf(id), id, func(p *layout.Plan) error {
		list := of(p.Unit(id))
		*list = swapped(*list, it.n, it.n+by)
		return nil
	})
	if !done {
		return 0
	}
	return by
}

// swapped returns a list with two of its elements exchanged.
func swapped[T any](list []T, i, k int) []T {
	list = slices.Clone(list)
	list[i], list[k] = list[k], list[i]
	return list
}

// dropIn takes a part of a unit out.
func dropIn[T any](m *Model, id, what string, it item, of func(u *layout.Unit) *[]T) tea.Cmd {
	m.alter("remove "+what+" of "+m.labelOf(id), id, func(p *layout.Plan) error {
		list := of(p.Unit(id))
		*list = without(*list, it.n)
		return nil
	})
	return nil
}

// switchList is the switches of a unit.
func switchList(id string) *list {
	of := func(u *layout.Unit) *[]layout.Switch { return &u.Switches }
	return &list{
		title: func(m *Model) string { return "Switches of " + m.labelOf(id) },
		intro: fixedText("What a foot presses: where each is on the body, the switch towards you, and how high its cap is."),
		items: func(m *Model, _ int) []item {
			u := m.history.Plan().Unit(id)
			if u == nil {
				return nil
			}
			out := make([]item, len(u.Switches))
			for i, s := range u.Switches {
				out[i] = item{n: i, text: m.pad([]int{16, 38}, cmp.Or(s.Name, "switch "+strconv.Itoa(i+1)),
					m.length(s.At.X)+" from its left, "+m.lengthUnit(s.At.Y)+" from its front", m.lengthUnit(s.Height)+" high")}
			}
			return out
		},
		open: verb{"open: the chosen switch", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Switch(id, it.n), nil) }},
		add:  verb{"add: a switch", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Switch(id, manyOf(m, id, of)), nil) }},
		drop: verb{"remove: the switch", func(m *Model, it item) tea.Cmd { return dropIn(m, id, "a switch", it, of) }},
		move: func(m *Model, it item, by int) int { return moveIn(m, id, "the switches", it, by, of) },
	}
}

// manyOf is how many parts of a kind a unit has.
func manyOf[T any](m *Model, id string, of func(u *layout.Unit) *[]T) int {
	if u := m.history.Plan().Unit(id); u != nil {
		return len(*of(u))
	}
	return 0
}

// baseList is what fastener keeps clear of on a unit's base.
func baseList(id string) *list {
	of := func(u *layout.Unit) *[]layout.BaseSpot { return &u.OnBase }
	return &list{
		title: func(m *Model) string { return "On the base of " + m.labelOf(id) },
		intro: fixedText("Feet, battery door, screws, label: no fastener is put there. As you see it with the unit turned over from left to right, its front towards you."),
		items: func(m *Model, _ int) []item {
			u := m.history.Plan().Unit(id)
			if u == nil {
				return nil
			}
			out := make([]item, len(u.OnBase))
			for i, s := range u.OnBase {
				r := u.TurnedOver(s.At)
				out[i] = item{n: i, text: m.pad([]int{16, 20}, string(s.Kind), m.length(r.W())+" x "+m.lengthUnit(r.D()),
					m.length(r.X0)+" from its left, "+m.lengthUnit(r.Y0)+" from its front")}
			}
			return out
		},
		open: verb{"open: the chosen one", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().OnBase(id, it.n), nil) }},
		add:  verb{"add: what no fastener may lie on", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().OnBase(id, manyOf(m, id, of)), nil) }},
		drop: verb{"remove: the chosen one", func(m *Model, it item) tea.Cmd { return dropIn(m, id, "a part on the base", it, of) }},
		move: func(m *Model, it item, by int) int { return moveIn(m, id, "what is on the base", it, by, of) },
	}
}

// outputList is the outputs of a supply or an expander.
func outputList(id string) *list {
	of := func(u *layout.Unit) *[]layout.Output { return &u.Outputs }
	return &list{
		title: func(m *Model) string { return "Outputs of " + m.labelOf(id) },
		intro: func(m *Model) string {
			if manyOf(m, id, of) == 0 {
				return "It feeds nothing. A unit with outputs is a supply, and an expander where it draws by itself."
			}
			return "What its label says of each. Which unit an output feeds is what the power map works out, or the unit's card says."
		},
		items: func(m *Model, _ int) []item {
			u := m.history.Plan().Unit(id)
			if u == nil {
				return nil
			}
			out := make([]item, len(u.Outputs))
			for i := range u.Outputs {
				o := &u.Outputs[i]
				out[i] = item{id: o.Jack, n: i, text: m.pad([]int{10, 19, 8, 16}, o.Jack, voltsOf(o), strconv.Itoa(o.Milliamps)+" mA", groundOf(o), wiredAs(o))}
			}
			return out
		},
		open: verb{"open: the chosen output", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Output(id, it.n), nil) }},
		add:  verb{"add: an output", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Output(id, manyOf(m, id, of)), nil) }},
		drop: verb{"remove: the output; its jack stays", func(m *Model, it item) tea.Cmd { return m.dropOutput(id, it) }},
		move: func(m *Model, it item, by int) int { return moveIn(m, id, "the outputs", it, by, of) },
	}
}

// dropOutput takes an output away; units that named it are left to the power map.
func (m *Model) dropOutput(id string, it item) tea.Cmd {
	m.alter("remove output "+it.id+" of "+m.labelOf(id), id, func(p *layout.Plan) error { return p.RemoveOutput(id, it.id) })
	return nil
}

func voltsOf(o *layout.Output) string {
	text := volts(o.Millivolts)
	if o.MaxMillivolts > 0 {
		text += " to " + volts(o.MaxMillivolts)
	}
	for _, c := range o.Choices {
		text += ", " + volts(c.Millivolts)
	}
	return text + " V"
}

func groundOf(o *layout.Output) string {
	switch {
	case o.Isolated:
		return "isolated"
	case o.Group != "":
		return "shared, group " + o.Group
	}
	return "shared ground"
}

func wiredAs(o *layout.Output) string {
	text := "centre-negative"
	switch {
	case o.AC:
		text = "AC"
	case o.CentrePositive:
		text = "centre-positive"
	}
	if o.Link {
		text = "link, " + text
	}
	return text
}

package tui

import (
	"cmp"
	"maps"
	"slices"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

// riserList is the board's risers.
func riserList() *list {
	return &list{
		title: fixedText("Risers: raised shelves over a part of the board"),
		items: func(m *Model, _ int) []item {
			b := &m.history.Plan().Board
			out := make([]item, len(b.Risers))
			for i, r := range b.Risers {
				out[i] = item{id: r.Name, n: i, text: m.pad([]int{18, 22}, r.Name, m.length(r.At.W())+" x "+m.lengthUnit(r.At.D()), m.lengthUnit(r.Height)+" high")}
			}
			return out
		},
		open: verb{"open: the chosen riser", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Riser(it.id), nil) }},
		add:  verb{"add: a riser", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Riser(""), nil) }},
		drop: verb{"remove: the riser; what stands on it has no place then", func(m *Model, it item) tea.Cmd {
			m.alter("remove riser "+it.id, "", func(p *layout.Plan) error { return p.RemoveRiser(it.id) })
			return nil
		}},
	}
}

// legList is the legs of a riser.
func legList(riser string) *list {
	now := func(p *layout.Plan) *layout.Riser { return p.Board.Riser(riser) }
	return &list{
		title: fixedText("Legs of riser " + riser),
		intro: fixedText("What carries it, from the deck up. Without any it stands on a panel at each end."),
		items: func(m *Model, _ int) []item {
			r := now(m.history.Plan())
			if r == nil {
				return nil
			}
			out := make([]item, len(r.Legs))
			for i, l := range r.Legs {
				out[i] = item{n: i, text: m.pad([]int{10, 22}, "leg "+strconv.Itoa(i+1), m.length(l.At.W())+" x "+m.lengthUnit(l.At.D()),
					"at "+m.length(l.At.X0)+", "+m.lengthUnit(l.At.Y0))}
			}
			return out
		},
		open: verb{"open: the chosen leg", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Leg(riser, it.n), nil) }},
		add: verb{"add: a leg", func(m *Model, _ item) tea.Cmd {
			if r := now(m.history.Plan()); r != nil {
				return m.fill(m.shop().Leg(riser, len(r.Legs)), nil)
			}
			return nil
		}},
		drop: verb{"remove: the leg; without any it gets its end panels back", func(m *Model, it item) tea.Cmd {
			m.alter("remove a leg of riser "+riser, "", func(p *layout.Plan) error {
				p.Board.Risers = slices.Clone(p.Board.Risers)
				r := now(p)
				if r.Legs = without(r.Legs, it.n); len(r.Legs) == 0 {
					r.Legs = r.EndPanels()
				}
				return nil
			})
			return nil
		}},
	}
}

// railList is the rails of a board of rails, from the front.
func railList() *list {
	return &list{
		title: fixedText("Rails, from the front"),
		intro: func(m *Model) string {
			if m.history.Plan().Board.Kind != layout.Rails {
				return "This board is solid: its card makes it one of rails."
			}
			return ""
		},
		items: func(m *Model, _ int) []item {
			b := &m.history.Plan().Board
			out := make([]item, len(b.Rails))
			for i, r := range b.Rails {
				out[i] = item{n: i, text: m.pad([]int{10, 28}, "rail "+strconv.Itoa(i+1), m.lengthUnit(r.At.Y0)+" from the front", m.length(r.At.W())+" x "+m.lengthUnit(r.At.D()))}
			}
			return out
		},
		open: verb{"open: the chosen rail", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Rail(it.n), nil) }},
		add: verb{"add: a rail", func(m *Model, _ item) tea.Cmd {
			return m.fill(m.shop().Rail(len(m.history.Plan().Board.Rails)), nil)
		}},
		drop: verb{"remove: the rail", func(m *Model, it item) tea.Cmd {
			m.alter("remove a rail", "", func(p *layout.Plan) error {
				p.Board.Rails = slices.Delete(slices.Clone(p.Board.Rails), it.n, it.n+1)
				return nil
			})
			return nil
		}},
	}
}

// fixtureList is what else takes room on the board.
func fixtureList() *list {
	return &list{
		title: fixedText("Handles, latches and other parts that take room"),
		items: func(m *Model, _ int) []item {
			b := &m.history.Plan().Board
			out := make([]item, len(b.Fixtures))
			for i, x := range b.Fixtures {
				r := x.Box.Rect()
				out[i] = item{n: i, text: m.pad([]int{18, 22}, x.Name, m.length(r.W())+" x "+m.lengthUnit(r.D()), m.lengthUnit(x.Box.Z1)+" high")}
			}
			return out
		},
		open: verb{"open: the chosen part", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Fixture(it.n), nil) }},
		add: verb{"add: a part", func(m *Model, _ item) tea.Cmd {
			return m.fill(m.shop().Fixture(len(m.history.Plan().Board.Fixtures)), nil)
		}},
		drop: verb{"remove: the part", func(m *Model, it item) tea.Cmd {
			m.alter("remove "+m.history.Plan().Board.Fixtures[it.n].Name, "", func(p *layout.Plan) error {
				p.Board.Fixtures = slices.Delete(slices.Clone(p.Board.Fixtures), it.n, it.n+1)
				return nil
			})
			return nil
		}},
	}
}

// ownedList is what the player has and need not buy or make.
func ownedList() *list {
	return &list{
		title: fixedText("What you have and need not buy"),
		intro: fixedText("The kit takes these first. Units and the board say on their own cards whether you have them."),
		items: func(m *Model, _ int) []item { return m.ownedItems() },
		open:  verb{"open: the chosen one", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Owned(it.kind, it.n), nil) }},
		drop: verb{"remove: the chosen one", func(m *Model, it item) tea.Cmd {
			if it.id == "new" || it.kind == "reel" {
				m.say("", "Only what is listed can be removed.")
				return nil
			}
			m.alter("remove what is owned", "", func(p *layout.Plan) error { dropOwned(&p.Owned, it.kind, it.n); return nil })
			return nil
		}},
	}
}

func dropOwned(o *layout.Owned, kind string, i int) {
	switch kind {
	case "cable":
		o.Cables = without(o.Cables, i)
	case "lead":
		o.Leads = without(o.Leads, i)
	case "plug":
		o.Plugs = without(o.Plugs, i)
	case "roll":
		o.Rolls = without(o.Rolls, i)
	}
}

// without returns a list less its ith element, nil where nothing is left.
func without[T any](list []T, i int) []T {
	if len(list) <= 1 {
		return nil
	}
	return slices.Delete(slices.Clone(list), i, i+1)
}

func (m *Model) ownedItems() []item {
	o := &m.history.Plan().Owned
	var out []item
	head := func(s string) { out = append(out, item{text: s, head: true}) }
	add := func(kind string, n int, text string) { out = append(out, item{kind: kind, n: n, text: text}) }
	more := func(kind string, n int, what string) {
		out = append(out, item{id: "new", kind: kind, n: n, text: "+ " + what})
	}
	head("Patch cables, made up")
	for i, c := range o.Cables {
		text := strconv.Itoa(c.Count) + " of " + m.lengthUnit(c.Length)
		if c.Plugs != [2]string{} {
			text += ", " + cmp.Or(c.Plugs[0], "any plug") + " to " + cmp.Or(c.Plugs[1], "any plug")
		}
		add("cable", i, text+"  "+c.Name)
	}
	more("cable", len(o.Cables), "more cables")
	reel := "none"
	if o.Reel > 0 {
		reel = m.cable(o.Reel)
	}
	add("reel", 0, "patch cable on the reel: "+reel)
	head("Power leads")
	for i, l := range o.Leads {
		text := strconv.Itoa(l.Count) + " of " + m.lengthUnit(l.Length)
		if l.Reversed {
			text += ", reversing"
		}
		add("lead", i, text)
	}
	more("lead", len(o.Leads), "more leads")
	head("Loose plugs")
	for i, p := range o.Plugs {
		add("plug", i, strconv.Itoa(p.Count)+" "+p.Form)
	}
	more("plug", len(o.Plugs), "more plugs")
	head("Fastener by the roll")
	for i, r := range o.Rolls {
		add("roll", i, r.Kind+", "+m.lengthUnit(r.Width)+" wide, "+m.lengthUnit(r.Length)+" long")
	}
	more("roll", len(o.Rolls), "another roll")
	return out
}

// priceList is what things cost.
func priceList() *list {
	return &list{
		title: fixedText("Prices"),
		intro: fixedText("By the names of the shopping list. Prices of units and of the board are on their cards too."),
		items: func(m *Model, _ int) []item {
			prices := m.history.Plan().Prices
			var out []item
			for _, name := range slices.Sorted(maps.Keys(prices)) {
				out = append(out, item{id: name, text: m.pad([]int{34}, name, prices[name].String())})
			}
			return out
		},
		open: verb{"open: the chosen price", func(m *Model, it item) tea.Cmd { return m.fill(m.shop().Price(it.id), nil) }},
		add:  verb{"add: a price", func(m *Model, _ item) tea.Cmd { return m.fill(m.shop().Price(""), nil) }},
		drop: verb{"remove: the price", func(m *Model, it item) tea.Cmd {
			m.alter("remove the price of "+it.id, "", func(p *layout.Plan) error { delete(p.Prices, it.id); return nil })
			return nil
		}},
	}
}

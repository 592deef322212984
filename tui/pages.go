package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/sheet"
)

// helpPage shows what each key does just now.
func (m *Model) helpPage() tea.Cmd {
	hand := inHand{m.held, m.selected, m.history.Plan()}
	m.open(page{title: "What the keys do now", tab: "?", search: true, lines: (*Model).helpLines, hand: hand})
	return nil
}

func (m *Model) helpLines(w int) []string {
	var out []string
	last := ""
	order := []mode{m.page.from} // what works where the player is comes first
	for i := range m.modes {
		if mode(i) != m.page.from {
			order = append(order, mode(i))
		}
	}
	for _, i := range order {
		mode := &m.modes[i]
		for _, t := range []table{mode.table, mode.letters} {
			for k := range t {
				a := &t[k]
				group := a.group
				if group == "" {
					group = mode.name
				}
				what, can := a.now(m)
				keys := m.ascii(a.keys.Help().Key)
				if !wordsIn(m.page.typed, group+" "+keys+" "+what+" "+a.keys.Help().Desc) {
					continue
				}
				if group != last {
					if len(out) > 0 {
						out = append(out, "")
					}
					last = group
					out = append(out, m.styles.quiet.over(group))
				}
				out = append(out, m.helpEntry(keys, what, can, w)...)
			}
		}
	}
	if len(out) == 0 {
		return []string{"No key has to do with that. Esc clears the search."}
	}
	if m.page.typed == "" {
		out = append(out, m.helpEnd(w)...)
	}
	return out
}

// helpEnd is what the help says beside keys.
func (m *Model) helpEnd(w int) []string {
	out := []string{"", m.styles.quiet.over("The mouse")}
	for _, s := range mouseHelp {
		out = append(out, wrap(m.ascii(s), w)...)
	}
	out = append(out, "", m.styles.quiet.over("What the signs mean"))
	out = append(out, m.legend(w)...)
	if m.opt.Version != "" {
		out = append(out, "", m.styles.quiet.over("footplank "+m.ascii(clean(m.opt.Version))))
	}
	return out
}

const keyColumn = 16

func (m *Model) helpEntry(keys, what string, can bool, w int) []string {
	lines := wrap(m.ascii(what), w-keyColumn)
	for i, s := range lines {
		if !can {
			s = m.styles.quiet.over("(" + s)
			if i > 0 {
				s = m.styles.quiet.over(lines[i])
			}
			if i == len(lines)-1 {
				s += m.styles.quiet.over(")")
			}
		}
		lead := strings.Repeat(" ", keyColumn)
		if i == 0 {
			lead = m.styles.key.over(fit(keys, keyColumn-1, m.styles.sign.ellipsis)) + " "
		}
		lines[i] = lead + s
	}
	return lines
}

// legend explains the signs of drawing, list and header in lines of w cells.
func (m *Model) legend(w int) []string {
	s := &m.styles.sign
	items := strings.Split(sheet.Legend(m.opt.ASCII), "  ")
	items = append(items, m.runSigns()...)
	items = append(items, s.empty+" no place", s.caution+" caution", s.note+" note", s.good+" nothing wrong")
	return flow(items, w)
}

// findingsPage lists what is wrong in every line-up.
func (m *Model) findingsPage() tea.Cmd {
	m.look()
	n, here := 0, 0
	for i := range m.lineup {
		here += len(m.seen.results[i].Findings)
	}
	for _, r := range m.seen.results {
		n += len(r.Findings)
	}
	if n == 0 {
		m.say("", "Nothing is wrong in any line-up.")
		return nil
	}
	m.open(page{title: "Findings in all line-ups", tab: "w", items: (*Model).findingItems,
		pick: (*Model).pickFinding, chosen: min(here+max(m.culprit, 0), n-1)})
	return nil
}

func (m *Model) findingItems(w int) [][]string {
	var out [][]string
	for _, r := range m.look().results {
		for i := range r.Findings {
			f := &r.Findings[i]
			p, sign := m.styles.level(f.Level)
			lead := fit(m.ascii(clean(f.Lineup)), 15, m.styles.sign.ellipsis) + " " + p.over(sign) + " "
			out = append(out, hung(lead, wrap(m.ascii(clean(f.Text)), w-cells(lead))))
		}
	}
	return out
}

func (m *Model) pickFinding(item int) {
	for i, r := range m.look().results {
		if item < len(r.Findings) {
			if i != m.lineup {
				m.showLineup(i)
			}
			m.goToFinding(item)
			return
		}
		item -= len(r.Findings)
	}
}

// unitPage shows everything about the selected unit.
func (m *Model) unitPage() tea.Cmd {
	m.open(page{title: clean(m.unit().Label), tab: "i", lines: func(m *Model, w int) []string {
		u := m.unit()
		if u == nil {
			return nil
		}
		out := m.unitLines(u, w)
		out = append(out, "")
		out = append(out, m.jackLines(u, w)...)
		for _, f := range m.findingsOf(u) {
			out = append(out, "")
			out = append(out, m.marked(f.Level, f.Text, w)...)
		}
		return out
	}})
	return nil
}

func (m *Model) findingsOf(u *layout.Unit) []check.Finding {
	m.look()
	var out []check.Finding
	for _, f := range m.found() {
		for _, id := range f.Units {
			if id == u.ID {
				out = append(out, f)
				break
			}
		}
	}
	return out
}

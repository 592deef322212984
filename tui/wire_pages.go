package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// kitPage shows the cables to carry and how to cut them.
func (m *Model) kitPage() tea.Cmd {
	m.open(page{title: "Kit of cables for all line-ups", tab: "x", lines: (*Model).kitLines})
	return nil
}

func (m *Model) kitLines(w int) []string {
	r := m.wires.sums.wiring
	var out []string
	var sum layout.Length
	for i := range r.Kit {
		k := &r.Kit[i]
		sum += k.Cut
		made := "no ready-made length"
		if k.Stock > 0 {
			made = "ready-made " + m.lengthUnit(k.Stock)
		}
		out = append(out, m.styles.strong.over(fit(m.ascii(k.Label), kitColumn-2, ""))+"  "+m.ascii(clean(wiring.BothPlugs(k.Plugs)))+"; "+made)
		for _, s := range m.usesOf(k) {
			for n, line := range wrap(s, w-kitColumn) {
				lead := kitColumn
				if n > 0 {
					lead += 2
				}
				out = append(out, strings.Repeat(" ", lead)+line)
			}
		}
	}
	if len(r.Kit) == 0 {
		return []string{"No cables stay on the board: the chain is empty, or its units have no place yet."}
	}
	out = append(out, "", plural(len(r.Kit), "cable")+", "+plural(2*len(r.Kit), "plug")+", "+m.cable(sum)+" of cable, cut before the plugs go on.", "")
	return append(out, m.reelLines(r, w)...)
}

const kitColumn = 14

// usesOf says where a cable of the kit goes, line-ups that put it between the
// same two jacks in one line.
func (m *Model) usesOf(k *wiring.KitCable) []string {
	var links []string
	in := map[string][]string{}
	for _, u := range k.Uses {
		at := m.wires.sums.wiring.Of(u.Lineup)
		i := slices.IndexFunc(at.Cables, func(c wiring.Cable) bool { return c.ID == u.Cable })
		c := &at.Cables[i]
		link := m.endName(c.From) + " " + m.ascii(clean(c.From.Jack)) + " to " + m.endName(c.To) + " " + m.ascii(clean(c.To.Jack))
		if in[link] == nil {
			links = append(links, link)
		}
		in[link] = append(in[link], m.ascii(clean(u.Lineup)))
	}
	for i, link := range links {
		where := strings.Join(in[link], ", ")
		if n := len(in[link]); n > 1 && n == len(m.plan().Lineups) {
			where = "every line-up"
		}
		links[i] = where + ": " + link
	}
	return links
}

// reelLines says how to cut the kit from reels.
func (m *Model) reelLines(r *wiring.Result, w int) []string {
	if len(r.List) == 0 {
		return nil
	}
	least := ", the fewest there can be"
	if !r.Proved {
		least = ", perhaps not the fewest there can be"
	}
	out := []string{m.styles.quiet.over("Cut list"), plural(len(r.List), "reel") + " of " + m.cable(r.Reel) + least + ":"}
	for i, b := range r.List {
		var parts []string
		for _, id := range b.Kit {
			if k := m.wires.sums.kit(id); k != nil {
				parts = append(parts, k.ID+" "+m.length(k.Cut))
			}
		}
		lead := "reel " + digits(i+1) + "  "
		out = append(out, hung(lead, wrap(strings.Join(parts, ", ")+"; "+m.lengthUnit(b.Left)+" left", w-cells(lead)))...)
	}
	return out
}

// powerPage shows the outputs of the line-up on screen with their loads.
func (m *Model) powerPage() tea.Cmd {
	m.open(page{title: "Power", tab: "e", lines: (*Model).powerLines, byLine: true})
	return nil
}

var verdictSays = map[string]string{
	power.Holds:      "One power map holds for every line-up.",
	power.Tight:      "One power map holds for every line-up, with less spare than the plan asks.",
	power.Impossible: "No power map holds for every line-up.",
	power.Undecided:  "No power map was found, and none ruled out.",
}

func (m *Model) powerLines(w int) []string {
	r, l := m.wires.sums.power, m.lineupNow()
	out := wrap(m.ascii(clean(strings.TrimSpace(verdictSays[r.Verdict]+" "+r.Why))), w)
	assigned := r.In(m.plan(), l.Name)
	for _, u := range m.plan().UnitsIn(l) {
		if u.Supplies() {
			out = append(out, "")
			out = append(out, m.supplyLines(u, assigned, w)...)
		}
	}
	out = append(out, "", m.styles.quiet.over("Line-up "+m.ascii(clean(l.Name))+"; * marks the same output in every line-up."))
	for _, i := range r.Issues {
		if i.Lineup == "" || i.Lineup == l.Name {
			out = append(out, m.marked(check.Level(i.Level), i.Text, w)...)
		}
	}
	for _, s := range r.Tour {
		text := s.Country.Code + ": " + s.Text
		if s.Plug != "" {
			text += " Bring " + s.Plug + "."
		}
		out = append(out, wrap(m.ascii(clean(text)), w)...)
	}
	out = append(out, "", m.styles.quiet.over("Take care"))
	for _, s := range r.Cautions {
		out = append(out, wrap(m.ascii(clean(s)), w)...)
	}
	return out
}

// supplyLines is one supply with what it gives and each of its outputs.
func (m *Model) supplyLines(u *layout.Unit, all []power.Assignment, w int) []string {
	head := m.styles.title.over(m.ascii(clean(u.Label)))
	for _, d := range m.wires.sums.power.Loads {
		if d.Lineup != m.lineupNow().Name || d.Supply != u.ID {
			continue
		}
		head += "  gives " + watts(d.Watts)
		if d.Limit > 0 {
			head += " of " + watts(d.Limit) + "  " + m.loadBar(d.Watts, d.Limit)
		}
	}
	out := []string{head}
	on := map[string][]power.Assignment{}
	jacks := make([]string, 0, len(u.Outputs))
	for _, o := range u.Outputs {
		jacks = append(jacks, o.Jack)
	}
	for _, a := range all {
		if a.Supply != u.ID {
			continue
		}
		if on[a.Output] = append(on[a.Output], a); !slices.Contains(jacks, a.Output) {
			jacks = append(jacks, a.Output) // a link without a rating of its own
		}
	}
	wide := 4
	for _, j := range jacks {
		wide = min(max(wide, cells(m.ascii(clean(j)))), 16)
	}
	for _, j := range jacks {
		out = append(out, m.outputLines(fit(m.ascii(clean(j)), wide, m.styles.sign.ellipsis), u.Output(j), on[j], w)...)
	}
	return out
}

// outputLines is one output: "  out1   9 V  [bar]   20 of 250 mA  Peg Watch".
func (m *Model) outputLines(name string, o *layout.Output, on []power.Assignment, w int) []string {
	mv, limit, load := 0, 0, 0
	who, ac := "free", false
	if o != nil {
		mv, limit, ac = o.Millivolts, o.Milliamps, o.AC
	}
	if len(on) > 0 {
		var names []string
		mv, limit, ac = on[0].Millivolts, on[0].LimitMA, on[0].AC
		for _, a := range on {
			load += a.Milliamps
			names = append(names, m.onOutput(&a))
		}
		who = strings.Join(names, ", ")
	}
	v := volts(mv) + " V"
	if ac {
		v += " AC"
	}
	sign, p := m.loadSign(load, limit)
	lead := "  " + name + "  " + atRight(v, 8) + "  " + m.loadBar(float64(load), float64(limit)) + p.over(sign) + " " +
		atRight(digits(load)+" of "+digits(limit)+" mA", 15) + "  "
	return hung(lead, wrap(who, max(w-cells(lead), 12)))
}

// onOutput names a unit on an output and what is special about it.
func (m *Model) onOutput(a *power.Assignment) string {
	s := m.endName(layout.JackRef{Unit: a.Unit})
	if a.Lineup == "" {
		s += "*"
	}
	if a.Switched {
		s += " (set to " + volts(a.Millivolts) + " V)"
	}
	if a.Reversing {
		s += " (REVERSING lead)"
	}
	return s
}

// loadSign marks an output that gives more than it can, or nearly as much.
func (m *Model) loadSign(load, limit int) (string, paint) {
	switch spare := m.plan().Power.Headroom; {
	case load > limit:
		return m.styles.sign.fault, m.styles.fault
	case load > 0 && load*100 > limit*(100-spare):
		return m.styles.sign.caution, m.styles.caution
	}
	return " ", paint{}
}

// loadBar is a load in ten cells; the numbers stand beside it.
func (m *Model) loadBar(load, limit float64) string {
	const of = 10
	n := 0
	if limit > 0 {
		n = min(of, int(load/limit*of+0.5))
	}
	if n == 0 && load > 0 {
		n = 1
	}
	return strings.Repeat(m.styles.sign.full, n) + m.styles.quiet.over(strings.Repeat(m.styles.sign.spare, of-n))
}

func watts(w float64) string { return tenths(int64(w*1000+0.5), 1000) + " W" }

// atRight sets text at the right end of w cells.
func atRight(s string, w int) string { return strings.Repeat(" ", max(w-cells(s), 0)) + s }

// marked is a text behind the sign of its level.
func (m *Model) marked(level check.Level, text string, w int) []string {
	p, sign := m.styles.level(level)
	return hung(p.over(sign)+" ", wrap(m.ascii(clean(text)), w-2))
}

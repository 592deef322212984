package tui

import (
	"strings"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/wiring"
)

// detailLines is the selected unit: two lines on a small screen, a panel on a
// large one.
func (m *Model) detailLines() []string {
	a := m.areas.detail
	u := m.unit()
	tail := m.styles.sign.ellipsis
	if c, ok := m.chosenWire(); ok {
		return block(m.wireLines(&c, a), a.w, a.h, tail)
	}
	if a.h <= 2 {
		if u == nil {
			return block(m.boardFacts(a.w, true), a.w, a.h, tail)
		}
		return block([]string{" " + m.unitFacts(u), " " + m.inOneLine(m.gaps(u, " "), a.w-2)}, a.w, a.h, tail)
	}
	w := a.w - 3
	var lines []string
	if u == nil {
		lines = append(m.boardFacts(w, false), "", m.styles.quiet.over("What the signs mean"))
		lines = append(lines, m.legend(w)...)
	} else {
		title := m.ascii(clean(u.Label))
		if m.held != 0 {
			title += ", picked up"
		}
		lines = append([]string{m.styles.title.over(title)}, m.unitLines(u, w)...)
		lines = append(lines, "")
		lines = append(lines, m.jackLines(u, w)...)
	}
	for i := range lines {
		lines[i] = "  " + lines[i]
	}
	return block(lines, a.w, a.h, tail)
}

// boardFacts is what there is to say while no unit is selected.
func (m *Model) boardFacts(w int, short bool) []string {
	p, l := m.plan(), m.lineupNow()
	placed, unplaced := p.Standings(l)
	mass := p.Board.TotalMass()
	for i := range placed {
		mass += placed[i].Unit.Mass
	}
	if p.Board.Case != nil {
		mass += p.Board.Case.Mass
	}
	t := m.styles.sign.times
	facts := []string{"Board " + m.length(p.Board.W) + " " + t + " " + m.lengthUnit(p.Board.D)}
	if len(unplaced) > 0 {
		facts = append(facts, plural(len(unplaced), "unit")+" without a place")
	}
	facts = append(facts, m.mass(mass)+" loaded", m.cable(wiring.Total(m.cables()))+" of cable")
	if short {
		return []string{" " + strings.Join(facts, ", "), " Tab, / or an arrow key chooses a unit."}
	}
	if len(p.Lineups) > 1 {
		facts = append(facts, m.cable(arrange.Cable(p))+" of cable in all line-ups together")
	}
	var out []string
	for _, f := range append(facts, "", "Tab, / or an arrow key chooses a unit.") {
		out = append(out, wrap(f, w)...)
	}
	return out
}

// unitFacts is the selected unit in one line.
func (m *Model) unitFacts(u *layout.Unit) string {
	name := m.ascii(clean(u.Label))
	if m.held != 0 {
		name += " picked up"
	}
	parts := []string{m.styles.strong.over(name), m.mountWord(u), m.placeWord(u), m.sizeWord(u), m.mass(u.Mass)}
	return strings.Join(parts, m.styles.quiet.over(" "+m.styles.sign.bar+" "))
}

func (m *Model) mountWord(u *layout.Unit) string {
	s := m.mountSign(u) + " " + string(u.Mount)
	if u.Pinned {
		s += ", pinned"
	}
	return s
}

func (m *Model) placeWord(u *layout.Unit) string {
	pl, ok := m.plan().PlaceOf(m.lineupNow(), u)
	if !ok {
		return "no place yet"
	}
	return m.ascii(clean(pl.On)) + " " + m.length(pl.At.X) + ", " + m.length(pl.At.Y) + " turn " + digits(pl.Turn.Degrees())
}

func (m *Model) sizeWord(u *layout.Unit) string {
	t := " " + m.styles.sign.times + " "
	in := m.plan().Measure() // as in its card and in the lists
	return u.Body.W.Tape(in) + t + u.Body.D.Tape(in) + t + u.Height().Tape(in) + " " + string(in)
}

func (m *Model) mass(g layout.Mass) string {
	if m.plan().Measure() == layout.Inches {
		return g.Scales(layout.Inches)
	}
	if g >= layout.Kilogram {
		return tenths(int64(g/layout.Gram), 1000) + " kg"
	}
	return digits(int(g/layout.Gram)) + " g"
}

// tenths writes n/of with one decimal, rounded.
func tenths(n, of int64) string {
	t := (n*10 + of/2) / of
	return digits(int(t/10)) + "." + digits(int(t%10))
}

// unitLines is the selected unit at length.
func (m *Model) unitLines(u *layout.Unit, w int) []string {
	lines := []string{m.mountWord(u), m.sizeWord(u) + ", " + m.mass(u.Mass), m.placeWord(u)}
	if s := m.plan().SlotOf(m.lineupNow(), u.ID); s != nil {
		lines = append(lines, "in slot "+m.ascii(clean(s.Name))+" in this line-up")
	} else {
		lines = append(lines, "in every line-up")
	}
	if pl, ok := m.plan().PlaceOf(m.lineupNow(), u); ok {
		b, board := u.Base(pl), m.plan().Board.Rect()
		lines = append(lines, "", m.styles.quiet.over("From the board's edges"),
			"left "+m.length(b.X0)+", right "+m.length(board.X1-b.X1)+", front "+m.length(b.Y0)+", back "+m.length(board.Y1-b.Y1),
			m.styles.quiet.over("Room until it touches"))
		lines = append(lines, m.gaps(u, " to ")...)
	}
	var out []string
	for _, s := range lines {
		out = append(out, wrap(s, w)...)
	}
	return out
}

// gaps says what lies in each direction and how far; to stands between the two.
func (m *Model) gaps(u *layout.Unit, to string) []string {
	if _, ok := m.plan().PlaceOf(m.lineupNow(), u); !ok {
		return []string{"Space gives it a place and picks it up; a arranges all."}
	}
	s := &m.styles.sign
	around := m.around(u)
	var out []string
	for _, d := range []struct {
		sign string
		dir  layout.Wall
	}{{s.left, layout.Left}, {s.right, layout.Right}, {s.up, layout.Back}, {s.down, layout.Front}} {
		text := "nothing ahead"
		if c := around[d.dir]; c != nil {
			name := m.ascii(clean(c.With))
			switch {
			case c.Gap == 0:
				text = "touches " + name
			case c.Out:
				text = m.length(c.Gap) + " out of " + name
			default:
				text = m.length(c.Gap) + to + name
			}
		}
		out = append(out, m.styles.strong.over(d.sign)+" "+text)
	}
	return out
}

// inOneLine joins parts; where they are too long for w cells, the long ones
// are cut so that each is seen.
func (m *Model) inOneLine(parts []string, w int) string {
	const gap = "  "
	line := strings.Join(parts, gap)
	if cells(line) <= w {
		return line
	}
	spare := w - len(gap)*(len(parts)-1)
	for i, p := range parts {
		if most := spare / (len(parts) - i); cells(p) > most {
			parts[i] = fit(p, most, m.styles.sign.ellipsis)
		}
		spare -= cells(parts[i])
	}
	return strings.Join(parts, gap)
}

// jackLines lists the jacks in use and what they are for.
func (m *Model) jackLines(u *layout.Unit, w int) []string {
	p, l := m.plan(), m.lineupNow()
	used := p.Used(l)
	links := p.ChainLinks(l)
	out := []string{m.styles.quiet.over("Jacks in use")}
	for i := range u.Jacks {
		j := &u.Jacks[i]
		ref := layout.JackRef{Unit: u.ID, Jack: j.ID}
		if !used[ref] {
			continue
		}
		text := m.ascii(clean(j.ID)) + ", " + j.Wall.String()
		for _, k := range links {
			switch ref {
			case k.From:
				text += ", to " + m.endName(k.To)
			case k.To:
				text += ", from " + m.endName(k.From)
			}
		}
		if j.Signal == layout.Power && u.Draw != nil && j.Dir == layout.In {
			text += ", " + volts(u.Draw.Millivolts) + " V " + digits(u.Draw.Milliamps) + " mA"
		}
		out = append(out, wrap(text, w)...)
	}
	if len(out) == 1 {
		out = append(out, "none in this line-up")
	}
	if unused := len(u.Jacks) - countUsed(u, used); unused > 0 {
		out = append(out, m.styles.quiet.over(plural(unused, "jack")+" not in use"))
	}
	return out
}

func countUsed(u *layout.Unit, used map[layout.JackRef]bool) int {
	n := 0
	for i := range u.Jacks {
		if used[layout.JackRef{Unit: u.ID, Jack: u.Jacks[i].ID}] {
			n++
		}
	}
	return n
}

// endName names the far end of a cable.
func (m *Model) endName(r layout.JackRef) string {
	if u := m.plan().Unit(r.Unit); u != nil {
		return m.ascii(clean(u.Label))
	}
	return r.Unit
}

func volts(mv int) string {
	if mv%1000 == 0 {
		return digits(mv / 1000)
	}
	return tenths(int64(mv), 1000)
}

package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/sheet"
	"footplank/layout/wiring"
)

// wire is an audio cable or a power lead of the line-up on screen; one of the
// two is set.
type wire struct {
	cable *wiring.Cable
	lead  *power.Lead
}

func (w *wire) id() string {
	if w.cable != nil {
		return w.cable.ID
	}
	return w.lead.ID
}

func (w *wire) path() []route.Point3 {
	if w.cable != nil {
		return w.cable.Path
	}
	return w.lead.Path
}

// ends returns the jacks at both ends, in the direction of signal or power.
func (w *wire) ends() (from, to layout.JackRef) {
	if w.cable != nil {
		return w.cable.From, w.cable.To
	}
	return layout.JackRef{Unit: w.lead.Supply, Jack: w.lead.Output}, layout.JackRef{Unit: w.lead.Unit, Jack: w.lead.Jack}
}

func (w *wire) joins(unit string) bool {
	from, to := w.ends()
	return from.Unit == unit || to.Unit == unit
}

// cables returns the audio cables of the line-up on screen, as straight lines
// until they are laid.
func (m *Model) cables() []wiring.Cable {
	if r := m.runs(); r.plan != nil {
		return r.cables
	}
	return wiring.Estimate(m.plan(), m.lineupNow())
}

// wireList is all that can be chosen: the cables in the order of the signal,
// then the leads whose ends have a place.
func (m *Model) wireList() []wire {
	r := m.runs()
	var out []wire
	for i := range r.cables {
		out = append(out, wire{cable: &r.cables[i]})
	}
	for i := range r.leads {
		if r.leads[i].Path != nil {
			out = append(out, wire{lead: &r.leads[i]})
		}
	}
	return out
}

// chosenWire returns the cable or lead that is chosen.
func (m *Model) chosenWire() (wire, bool) {
	if m.wires.chosen == "" || m.unit() != nil {
		return wire{}, false
	}
	all := m.wireList()
	i := slices.IndexFunc(all, func(w wire) bool { return w.id() == m.wires.chosen })
	if i < 0 {
		return wire{}, false
	}
	return all[i], true
}

// nextWire goes through the cables and leads, beginning with the first of the
// selected unit.
func (m *Model) nextWire(pressed string) tea.Cmd {
	all := m.wireList()
	i := slices.IndexFunc(all, func(w wire) bool { return w.id() == m.wires.chosen })
	switch u := m.unit(); {
	case u != nil:
		if i = slices.IndexFunc(all, func(w wire) bool { return w.joins(u.ID) }); i < 0 {
			m.say("", "No cable goes to "+clean(u.Label)+" in this line-up.")
			return nil
		}
	default:
		i = stepRound(i, len(all), pressed == "K")
	}
	m.chooseWire(all[i].id())
	return nil
}

func (m *Model) chooseWire(id string) {
	m.selectUnit("")
	m.wires.chosen = id
}

// clickRun chooses the run that is drawn in a cell of the board, and reports
// whether there is one.
func (m *Model) clickRun(g *sheet.Grid, c, r int) bool {
	t := m.traced(g)
	if t == nil || c < 0 || r < 0 || c >= g.W || r >= g.H {
		return false
	}
	text, _ := t.over(r*g.W+c, &g.Cells[r*g.W+c], m.styles)
	if text != "" {
		m.chooseWire(t.runAt(g, c, r))
	}
	return text != ""
}

// traced draws the runs that are shown, and the chosen one in any case; nil
// when there are none.
func (m *Model) traced(g *sheet.Grid) *trace {
	chosen, some := m.chosenWire()
	if !m.show.cables && !m.show.leads && !some || m.camera.below && !some {
		return nil
	}
	t := &m.seen.trace
	t.clear(g)
	t.close = m.camera.step != 0
	for _, w := range m.wireList() {
		switch {
		case m.camera.below: // the deck lies between: only the chosen one
		case some && w.id() == chosen.id():
		case w.lead != nil && m.show.leads:
			t.run(g, w.path(), powerStyle, w.id())
		case w.cable != nil && m.show.cables:
			t.run(g, w.path(), audioStyle, w.id())
		}
	}
	if some {
		t.run(g, chosen.path(), chosenStyle, chosen.id())
	}
	return t
}

// runSigns are the entries of the legend for runs.
func (m *Model) runSigns() []string {
	s := m.styles
	const aCorner, aLine = right | down, left | right
	return []string{
		s.audioLines[aCorner] + s.audioLines[aLine] + " audio",
		s.powerLines[aCorner] + s.powerLines[aLine] + " power",
		s.sign.end + s.chosenLines[aLine] + " chosen cable",
	}
}

// wireLines is the chosen cable: two lines on a small screen, a panel on a
// large one.
func (m *Model) wireLines(w *wire, a area) []string {
	head, from, to := m.wireWords(w)
	facts := m.wireFacts(w)
	if a.h <= 2 {
		bar := m.styles.quiet.over(" " + m.styles.sign.bar + " ")
		first := m.inOneLine([]string{m.styles.strong.over(head), from, m.styles.sign.right + " " + to}, a.w-2)
		return []string{" " + first, " " + strings.Join(facts, bar)}
	}
	width := a.w - 3
	out := []string{m.styles.title.over(head), "from " + from, "to " + to, ""}
	for _, s := range append(facts, m.wireUses(w)...) {
		out = append(out, wrap(s, width)...)
	}
	out = append(out, "", m.styles.quiet.over("K and k go to others, esc leaves"))
	for i := range out {
		out[i] = "  " + out[i]
	}
	return out
}

// wireWords names a wire and its ends.
func (m *Model) wireWords(w *wire) (head, from, to string) {
	a, b := w.ends()
	if c := w.cable; c != nil {
		head = "Cable " + c.ID
		if c.Stereo {
			head += ", one of two"
		}
		return head, m.endWords(a, c.Plugs[0]), m.endWords(b, c.Plugs[1])
	}
	return "Lead " + w.lead.ID, m.endWords(a, m.plugOf(a)), m.endWords(b, m.plugOf(b))
}

// endWords names an end: "Rasp out, phone-flat".
func (m *Model) endWords(r layout.JackRef, plug string) string {
	if layout.OffBoard(r.Unit) {
		return r.Unit + ", off the board"
	}
	text := m.endName(r) + " " + m.ascii(clean(r.Jack))
	if plug != "" {
		text += ", " + m.ascii(clean(plug))
	}
	return text
}

func (m *Model) plugOf(r layout.JackRef) string {
	if u := m.plan().Unit(r.Unit); u != nil {
		if j := u.Jack(r.Jack); j != nil {
			return j.Plug.Name
		}
	}
	return ""
}

// wireFacts says how long a wire is and what to make it of.
func (m *Model) wireFacts(w *wire) []string {
	if c := w.cable; c != nil {
		return m.cableFacts(c)
	}
	d := w.lead
	out := []string{"run " + m.upTo(d.Run), "cut " + m.upTo(d.Cut), "AWG " + digits(d.Gauge),
		volts(d.Millivolts) + " V", digits(d.Milliamps) + " of " + digits(d.LimitMA) + " mA"}
	if d.AC {
		out[3] += " AC"
	}
	if d.Reversing {
		out = append(out, "REVERSING: swaps the poles")
	}
	if d.Adaptor != "" {
		out = append(out, m.ascii(clean(d.Adaptor)))
	}
	return append(out, "loses "+millivolts(d.Drop))
}

// millivolts writes a drop in volts as what it is, next to nothing.
func millivolts(v float64) string { return digits(int(v*1000+0.5)) + " mV" }

func (m *Model) cableFacts(c *wiring.Cable) []string {
	if c.Blocked != "" {
		return []string{m.styles.fault.over(m.styles.sign.fault + " no way through"), "straight " + m.upTo(c.Run)}
	}
	out := []string{"run " + m.upTo(c.Run)}
	switch {
	case c.OffBoard():
		out = append(out, "your own cable, not of the kit")
	case c.Stock > 0:
		out = append(out, "cut "+m.upTo(c.Cut), "ready-made "+m.lengthUnit(c.Stock))
	default:
		out = append(out, "cut "+m.upTo(c.Cut), "no ready-made one")
	}
	if k := m.wires.sums.kit(c.Kit); k != nil {
		out = append(out, "kit "+m.styles.strong.over(m.ascii(k.Label)))
	}
	if c.Bend > 0 && c.Bend < c.BendRadius {
		out = append(out, m.styles.caution.over(m.styles.sign.caution+" bends to "+m.lengthUnit(c.Bend)))
	}
	return out
}

// wireUses says where else a cable of the kit goes.
func (m *Model) wireUses(w *wire) []string {
	if w.cable == nil {
		return nil
	}
	k := m.wires.sums.kit(w.cable.Kit)
	if k == nil || len(k.Uses) < 2 {
		return nil
	}
	out := []string{"", m.styles.quiet.over("Where " + k.ID + " goes")}
	return append(out, m.usesOf(k)...)
}

// upTo writes a length that is cut or bought, rounded up.
func (m *Model) upTo(l layout.Length) string { return m.lengthUnit(l.UpTo(m.plan().LengthUnit)) }

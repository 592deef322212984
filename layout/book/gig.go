package book

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// textCells is how wide drawings of characters are.
const textCells = 76

// Gig returns the gig cards of the line-ups named, or of all: a page each.
func (b *Book) Gig(lineups ...string) *document.Document {
	d := &document.Document{}
	for _, l := range b.chosen(lineups) {
		d.Add(b.gigCard(l))
	}
	return d
}

func (b *Book) gigCard(l *layout.Lineup) document.Card {
	d := &document.Document{}
	hops, besides := b.hops(l)
	if b.p.Title != "" {
		d.Para(b.p.Title)
	}
	d.Add(document.Figure{Art: b.chainArt(hops), Instead: b.chainText(hops, textCells), HighMost: 24})
	b.venue(d, l)
	units, dead := &document.Document{}, &document.Document{}
	b.played(units, l, hops, besides)
	b.fault(dead, hops)
	d.Add(document.Pair{Left: units.Blocks, Right: dead.Blocks})
	return document.Card{Title: "Gig card: " + l.Name, Blocks: d.Blocks}
}

// played lists the units in the order of the signal with their power, then those
// that the signal does not pass, and the cables besides the chain. Jacks are named where they are not in and out.
func (b *Book) played(d *document.Document, l *layout.Lineup, hops []hop, besides []wiring.Cable) {
	d.Heading(2, "Units and outputs")
	t := table("", "Unit", "In by", "Power from", "Set to", "mA")
	t.Align = []document.Align{document.Right, document.Left, document.Left, document.Left, document.Left, document.Right}
	fed := b.fed(l)
	done := map[string]bool{}
	row := func(n, id, by string, jacks ...string) {
		power := []string{"as above", "", ""}
		if !done[id] {
			power = b.powerOf(fed, id)
		}
		done[id] = true
		name := b.name(id)
		if used := strings.Join(jacks, " > "); used != "" && used != "in > out" {
			name += ", " + used
		}
		t.Add(append([]string{n, name, by}, power...)...)
	}
	n := 0
	for i, h := range hops {
		if layout.OffBoard(h.to.Unit) {
			continue
		}
		n++
		jacks := []string{h.to.Jack}
		if i+1 < len(hops) {
			jacks = append(jacks, hops[i+1].from.Jack)
		}
		if i == 0 && !layout.OffBoard(h.from.Unit) {
			row(fmt.Sprint(n), h.from.Unit, "-", h.from.Jack)
			n++
		}
		row(fmt.Sprint(n), h.to.Unit, h.called(), jacks...)
	}
	for _, u := range b.p.UnitsIn(l) {
		if !done[u.ID] {
			row("", u.ID, "-")
		}
	}
	d.Add(t)
	for i := range besides {
		d.Para(b.beside(&besides[i]))
	}
}

// fed returns what feeds each unit of a line-up.
func (b *Book) fed(l *layout.Lineup) map[string]power.Assignment {
	out := map[string]power.Assignment{}
	for _, a := range b.m.In(b.p, l.Name) {
		out[a.Unit] = a
	}
	return out
}

// powerOf says what a unit has its power from, at what voltage, and how much it
// takes.
func (b *Book) powerOf(fed map[string]power.Assignment, id string) []string {
	u := b.p.Unit(id)
	if a, ok := fed[id]; ok {
		how := volts(a.Millivolts, a.AC)
		if a.Switched {
			how = "SET " + how
		}
		if a.Reversing {
			how += ", REVERSED lead"
		}
		return []string{b.name(a.Supply) + " " + a.Output, how, fmt.Sprint(a.Milliamps)}
	}
	switch {
	case u.Draw != nil && u.Draw.Battery:
		return []string{"its battery", "", ""}
	case u.Supplies() && mainsIn(u) != "":
		return []string{"the mains", "", ""}
	case u.Supplies():
		return []string{"its own adaptor", "", ""}
	case u.Fed() && !slices.ContainsFunc(b.p.Units, func(s layout.Unit) bool { return s.Supplies() }):
		return []string{"no supply in the plan", "", ""}
	case u.Fed():
		return []string{"NOTHING: no output is left", "", ""}
	}
	return []string{"none", "", ""}
}

func volts(millivolts int, ac bool) string {
	s := fmt.Sprintf("%g V", float64(millivolts)/1000)
	if ac {
		s += " AC"
	}
	return s
}

// mainsIn returns the unit's mains inlet, "" for none.
func mainsIn(u *layout.Unit) string {
	for _, j := range u.Jacks {
		if j.Signal == layout.Line && j.Dir == layout.In {
			return j.ID
		}
	}
	return ""
}

// venue says what to plug at the venue and in which order.
func (b *Book) venue(d *document.Document, l *layout.Lineup) {
	d.Heading(2, "At the venue, in this order (common practice)")
	steps := []string{"Levels down: amp or desk channel muted, instrument's volume and volume pedals closed. Look the board over: units firm, plugs home."}
	steps = append(steps, b.outward(l)...)
	steps = append(steps, b.switches(l)...)
	steps = append(steps, b.feed(l)...)
	steps = append(steps, "Wait until every unit shows its light and the tuner reads. Then amp on or channel open, and levels up slowly.",
		"At the end the same backwards: levels down, amp off, mains out, then the cables.")
	d.List(document.Number, steps...)
}

// outward lists the cables that leave the board: those to amp and desk first, so
// that nothing is pulled in and out of an instrument that is heard.
func (b *Book) outward(l *layout.Lineup) []string {
	var to, from []string
	for _, k := range b.p.ChainLinks(l) {
		switch {
		case layout.OffBoard(k.To.Unit) && layout.OffBoard(k.From.Unit):
		case layout.OffBoard(k.To.Unit):
			to = append(to, fmt.Sprintf("Cable from %s to the %s.", b.jack(k.From), k.To.Unit))
		case k.From.Unit == layout.Instrument:
			from = append(from, fmt.Sprintf("Instrument's cable into %s.", b.jack(k.To)))
		case layout.OffBoard(k.From.Unit):
			to = append(to, fmt.Sprintf("Cable from the %s into %s.", k.From.Unit, b.jack(k.To)))
		}
	}
	for _, u := range b.p.UnitsIn(l) {
		for _, id := range u.Uses {
			if j := u.Jack(id); j != nil && j.Signal == layout.Control {
				to = append(to, fmt.Sprintf("What goes into %s %s (switch or control).", b.name(u.ID), id))
			}
		}
	}
	return append(to, from...)
}

// feed lists what brings power to the board.
func (b *Book) feed(l *layout.Lineup) (out []string) {
	for _, u := range b.p.UnitsIn(l) {
		switch {
		case !u.Supplies() || u.Expander():
		case mainsIn(u) != "":
			out = append(out, fmt.Sprintf("Mains lead into %s first, then into an outlet with an earth. Label first: volts and hertz of the house.", b.name(u.ID)))
		default:
			out = append(out, fmt.Sprintf("The adaptor of %s into it first, then into the outlet. Only the adaptor that its label asks for.", b.name(u.ID)))
		}
	}
	var own []string
	for _, u := range b.p.UnitsIn(l) {
		if u.Draw != nil && u.Draw.Battery {
			own = append(own, b.name(u.ID))
		}
	}
	switch {
	case len(own) == 1:
		out = append(out, own[0]+" plays on its battery: its input plug switches it on. A fresh one is in the case?")
	case len(own) > 1:
		out = append(out, layout.And(own)+" play on their batteries: the input plug switches each on. Fresh ones are in the case?")
	}
	return out
}

// switches names outputs that must stand at one of several positions.
func (b *Book) switches(l *layout.Lineup) []string {
	var set []string
	for _, a := range b.m.In(b.p, l.Name) {
		if a.Switched {
			set = append(set, fmt.Sprintf("%s %s at %s", b.name(a.Supply), a.Output, volts(a.Millivolts, a.AC)))
		}
	}
	if len(set) == 0 {
		return nil
	}
	return []string{"See that switched outputs stand right: " + strings.Join(set, "; ") + "."}
}

// fault prints the tree that finds a dead cable.
func (b *Book) fault(d *document.Document, hops []hop) {
	d.Heading(2, "No sound: halve the chain")
	patches := halves(hops)
	if len(patches) == 0 {
		d.Para("There is one cable: change it for a spare.")
		return
	}
	d.Para("First the lights: a whole supply dark is power, not a cable. Then a spare cable from the instrument straight into the amp or desk.")
	d.Para(fmt.Sprintf("Then plug it from the instrument into the jack below, levels down each time, and play. At most %s find one dead cable of %d.",
		patchWords(most(patches)), len(hops)))
	t := table("", "Spare into", "Heard", "Not heard")
	t.Align = []document.Align{document.Right}
	for i, p := range patches {
		t.Add(fmt.Sprint(i+1), b.jack(p.into), follows(hops, p.heard), follows(hops, p.silent))
	}
	d.Add(t)
	d.Para("Change the cable that is found. Still silent: the unit that it comes from, its power first. One side of a stereo pair: that side's cable.")
}

// follows says what comes next: another patch, or which cable is dead.
func follows(hops []hop, v verdict) string {
	if !v.found {
		return fmt.Sprintf("go to %d", v.next+1)
	}
	return "dead: " + hops[v.hop].called()
}

func patchWords(n int) string {
	if n == 1 {
		return "one patch"
	}
	return fmt.Sprintf("%d patches", n)
}

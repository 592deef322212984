package book

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/mount"
	"footplank/layout/power"
)

// buildOrder is the checklist by which the board is built.
func (b *Book) buildOrder(d *document.Document) {
	d.Heading(2, "Build order")
	d.Para("Tick as you go. Print the true-scale sheets too, at 100 %, and measure the bar on the first page before anything is cut.")
	part := func(title string, steps ...string) {
		if len(steps) > 0 {
			d.Heading(3, title)
			d.List(document.Check, steps...)
		}
	}
	part("The board", b.woodSteps()...)
	part("Dry run", "Lay the units on the board by the placement sheet, nothing stuck yet: every one in the list of units, line-up by line-up.",
		"Plug in one cable on each side of the tightest places. A plug that does not go in now never will.",
		"Put a foot on each switch as you play it: none of the others may give.")
	part("Fastener", b.fastenerSteps()...)
	part("Power", b.powerSteps()...)
	part("Cables", b.cableSteps()...)
	part("One unit at a time", b.unitSteps()...)
	part("Before the first gig", b.lastSteps()...)
}

func (b *Book) woodSteps() (out []string) {
	p := &b.p.Board
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	switch {
	case b.p.Owned.Board:
		add("Take what is on the old board off, and the old fastener with it.")
	case p.Kind == layout.Rails:
		add("Have %s ready, %s thick, ends deburred, and joined square: %s over all.", layout.Plural(len(p.Rails), "rail"), b.length(p.Thickness), b.over())
		for i, r := range p.Rails {
			add("Rail %d from the front: %s %s, its front-left corner at %s.", i+1, b.size(r.At), b.unit(), b.point(layout.Point{X: r.At.X0, Y: r.At.Y0}))
		}
	default:
		add("Saw the deck: %s %s from %s, %s thick. Check that both diagonals are equal.", b.over(), b.unit(), material(p), b.length(p.Thickness))
	}
	for _, r := range p.Risers {
		if b.p.Owned.Board {
			break
		}
		add("Saw the top of the %s: %s %s, %s thick.", r.Name, b.size(r.At), b.unit(), b.length(r.Thickness))
		for i, g := range r.Legs {
			add("Saw leg %d of the %s: foot %s %s, %s high.", i+1, r.Name, b.size(g.At), b.unit(), b.length(r.Height-r.Thickness))
		}
	}
	if !b.p.Owned.Board && p.Kind != layout.Rails {
		add("Break all edges, sand, seal with varnish or paint, and let it cure: fastener holds on a hard, smooth, dry face.")
	}
	for _, r := range p.Risers {
		for i, g := range r.Legs {
			add("Glue and screw leg %d of the %s, its front-left corner at %s.", i+1, r.Name, b.point(layout.Point{X: g.At.X0, Y: g.At.Y0}))
		}
		add("Fix the top of the %s with its front-left corner at %s; its face is then %s above the deck's.", r.Name, b.point(layout.Point{X: r.At.X0, Y: r.At.Y0}), b.length(r.Height))
	}
	if p.Feet > 0 {
		add("Four feet below, their centres %s inside the edges.", b.length(p.Feet))
	}
	for _, x := range p.Fixtures {
		at := x.Box.Rect()
		add("Fix the %s: %s %s, front-left corner at %s.", x.Name, b.size(at), b.unit(), b.point(layout.Point{X: at.X0, Y: at.Y0}))
	}
	return out
}

func (b *Book) over() string { return b.num(b.p.Board.W) + " x " + b.num(b.p.Board.D) }

func material(p *layout.Board) string {
	if p.Material == "" {
		return "sheet"
	}
	return p.Material
}

// fastenerSteps give the figures of makers' datasheets for adhesives: full bond
// after up to 72 h, pressed at 100 kPa, service limits 49 to 88 C for rubber and
// 107 to 116 C for acrylic, cleaned with 50:50 isopropyl alcohol and water.
func (b *Book) fastenerSteps() (out []string) {
	if len(b.f.Board)+len(b.f.Bases) == 0 {
		return nil
	}
	board, unit := mount.Sides(b.p, mount.HookAndLoop)
	out = append(out,
		"Cut all pieces by the two tables and number those for the board. Round the corners: they peel later.")
	if slices.ContainsFunc(b.f.Board, func(m mount.BoardPiece) bool { return m.Kind == mount.HookAndLoop }) {
		out = append(out, fmt.Sprintf("Hook-and-loop: the %s side goes on the board, the %s side on the units. Never mix.", board, unit))
	}
	press := "Press each piece hard for ten seconds: 100 kPa is a kilogram on each square centimetre, so lean on it."
	if b.unit() == layout.Inches {
		press = "Press each piece hard for ten seconds: 15 pounds on each square inch (100 kPa), so lean on it."
	}
	out = append(out,
		"Work in a warm room. Clean board and bases with isopropyl alcohol and water, half and half; window open, no flame, gloves on. Let them dry.",
		"Keep feet, battery doors, screws and type plates free, as the tables do where the plan gives them.",
		"Mark the corners on the board by the table or prick them through the placement sheet, then stick down the board's pieces.",
		"Stick the pieces on the bases: unit turned over left to right, front towards you, or by its 1:1 sticker.",
		press,
		"Leave it for 72 hours before a unit goes on. Full strength comes no sooner.",
		fmt.Sprintf("Keep the board out of hot cars: rubber adhesives let go from %s on, %s at best; acrylic ones hold to %s and more.",
			layout.Warmth(49, b.unit()), layout.Warmth(88, b.unit()), layout.Warmth(107, b.unit())))
	return out
}

func (b *Book) powerSteps() (out []string) {
	for i := range b.p.Units {
		u := &b.p.Units[i]
		if u.Supplies() {
			out = append(out, fmt.Sprintf("Mount %s%s.", b.name(u.ID), b.placeWords(b.with(u.ID), u.ID)))
		}
	}
	if len(b.leads) == 0 {
		return out
	}
	if slices.ContainsFunc(b.m.Assignments, func(a power.Assignment) bool { return a.Switched }) {
		out = append(out, "Set switched outputs as the power map says, before anything is plugged in.")
	}
	out = append(out, "Label the leads and plug each into its output, the other end free and not touching metal.",
		"Switch on, and measure each lead's plug: volts and polarity against the label of the unit that it feeds. Most want the minus in the middle; REVERSED leads are the other way round. Switch off.",
		"Lay the leads along the edges and the back. Cross audio cables at right angles, and tie nothing so tight that it cannot slide.")
	return out
}

func (b *Book) cableSteps() (out []string) {
	toMake := 0
	for _, k := range b.w.Kit {
		if !k.Owned {
			toMake++
		}
	}
	if toMake > 0 {
		out = append(out, fmt.Sprintf("Make or buy the %s of the cut list.", layout.Plural(toMake, "cable")))
	}
	if len(b.w.Kit) > 0 {
		out = append(out, "Label both ends of each.",
			"Test each with a meter while you bend it: tip to tip and sleeve to sleeve sound, tip to sleeve does not.")
	}
	return out
}

// with returns the first line-up that has the unit.
func (b *Book) with(id string) *layout.Lineup {
	for i := range b.p.Lineups {
		if l := &b.p.Lineups[i]; b.p.Present(l, id) {
			return l
		}
	}
	return &layout.Lineup{}
}

// unitSteps put the units of the first line-up on, in the order of the signal.
func (b *Book) unitSteps() (out []string) {
	if len(b.p.Lineups) == 0 {
		return nil
	}
	l := &b.p.Lineups[0]
	hops, _ := b.hops(l)
	fed := b.fed(l)
	done := map[string]bool{}
	out = append(out, "Instrument straight into the amp, level low: that is how it must sound at every step.")
	for _, h := range hops {
		id := h.to.Unit
		if layout.OffBoard(id) {
			continue
		}
		if done[id] {
			out = append(out, fmt.Sprintf("Plug %s into %s: both ways through it work.", h.words(), b.jack(h.to)))
			continue
		}
		done[id] = true
		s := fmt.Sprintf("%s on%s, %s into %s", b.name(id), b.placeWords(l, id), h.words(), h.to.Jack)
		if _, ok := fed[id]; ok {
			s += ", power from " + b.powerOf(fed, id)[0]
		}
		out = append(out, s+". Listen behind it, on and off.")
	}
	for _, u := range b.p.UnitsIn(l) {
		if !done[u.ID] && !u.Supplies() {
			out = append(out, fmt.Sprintf("%s on%s. Try it.", b.name(u.ID), b.placeWords(l, u.ID)))
		}
	}
	for i := 1; i < len(b.p.Lineups); i++ {
		out = append(out, fmt.Sprintf("Change over to %s by its card, and listen unit by unit again.", b.p.Lineups[i].Name))
	}
	return out
}

func (b *Book) placeWords(l *layout.Lineup, id string) string {
	u := b.p.Unit(id)
	pl, ok := b.p.PlaceOf(l, u)
	if !ok {
		return ""
	}
	s := fmt.Sprintf(" (%s, %s", pl.On, b.point(pl.At))
	if pl.Turn != 0 {
		s += fmt.Sprintf(", turned %d", pl.Turn.Degrees())
	}
	return s + ")"
}

func (b *Book) lastSteps() []string {
	out := []string{
		"Play it for an hour. Hum: swap outputs, lift audio away from leads, look for two grounds.",
		"Turn it upside down over a bed and shake it: nothing may move.",
	}
	if c := b.p.Board.Case; c != nil {
		out = append(out, fmt.Sprintf("Into the %s and out again, plugs in, lid closed: nothing touches the lid.", caseName(c)))
	}
	return append(out, fmt.Sprintf("Weigh it: about %s ready to carry by the plan.", b.carry(b.carried())),
		"Print the gig cards and the changeover cards; one copy in the case, one in a pocket.")
}

func caseName(c *layout.Case) string {
	if c.Name == "" {
		return "case"
	}
	return c.Name
}

// carried is the heaviest line-up with board and case.
func (b *Book) carried() layout.Mass {
	most := layout.Mass(0)
	for i := range b.p.Lineups {
		m := b.p.Board.TotalMass()
		for _, u := range b.p.UnitsIn(&b.p.Lineups[i]) {
			m += u.Mass
		}
		most = max(most, m)
	}
	if c := b.p.Board.Case; c != nil {
		most += c.Mass
	}
	return most
}

package book

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/document"
)

// liftMost is the load constant of the revised NIOSH lifting equation: the most
// for one person under the best conditions.
const liftMost = 23 * layout.Kilogram

// cautions are those that the plan gives a reason for.
func (b *Book) cautions(d *document.Document) {
	d.Heading(2, "Cautions")
	mains := []string{
		"Mains wiring, from plug to fuse to earth, is for a licensed person and by the code of the country. Nothing in this book asks you to do any.",
		"Never open a supply: it holds dangerous voltage, for a while even when it is unplugged.",
		"Pull the mains plug before you work on the board. Keep drinks off it.",
		"The label at the inlet beats this book: volts and hertz. Use an outlet with an earth, outdoors one behind a residual-current device.",
	}
	d.Add(document.Caution{Title: "Mains and supplies", Items: mains})
	d.Add(document.Caution{Title: "Low voltage", Items: []string{
		"Before a unit is plugged in, read its label: volts, AC or DC, polarity, milliamps. An AC adaptor in a DC jack, or the poles the wrong way round, kills units.",
		"A splitter gives neither more volts nor more milliamps.",
	}})
	d.Add(document.Caution{Title: "Lifting", Items: b.lifting()})
	d.Add(document.Caution{Title: "Tools, adhesive and solvent", Items: []string{
		"Saw, drill and sander: eyes, ears and lungs covered, work clamped down, battery or plug out before a blade is changed.",
		"Isopropyl alcohol burns and its vapour does harm: window open, no flame, no spark, gloves. Read the labels of glue and varnish.",
		"Soldering: fume off your face, iron in its stand, wash your hands before you eat.",
	}})
	d.Add(document.Caution{Title: "Batteries", Items: b.batteries()})
}

func (b *Book) lifting() []string {
	m := b.carried()
	out := []string{fmt.Sprintf("By the plan it weighs about %s ready to carry. Lift it by the board or the case, never by a unit, close to you and with a straight back.", b.carry(m))}
	if m > liftMost {
		return append(out, fmt.Sprintf("That is more than the %s that one person should lift at the very most (NIOSH): carry it in pairs.", b.carry(liftMost)))
	}
	return append(out, fmt.Sprintf("Above %s (NIOSH) two people carry; stairs and car boots ask for less.", b.carry(liftMost)))
}

func (b *Book) batteries() []string {
	var on []string
	for i := range b.p.Units {
		if u := &b.p.Units[i]; u.Draw != nil && u.Draw.Battery {
			on = append(on, b.name(u.ID))
		}
	}
	out := []string{
		"Take the batteries out of units that the supply feeds: they leak, and some are charged by mistake.",
		"Never short, open, heat or throw one into the fire; loose ones travel with their poles covered. Old ones go back to the shop.",
	}
	if len(on) > 0 {
		out = append(out, fmt.Sprintf("On their batteries: %s. Pull the input plug after playing, for it switches them on.", layout.And(on)))
	}
	return out
}

package book

import (
	"slices"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/paper"
)

// A label is a flag: folded about the cable it is read from both sides.
const (
	labelW    = 56 * mm
	labelH    = 14 * mm
	labelCols = 3
)

// label is what is written on one end of a cable or lead.
type label struct{ main, sub string }

// Labels returns the sheet of labels to cut, two for each cable and lead.
func (b *Book) Labels() *document.Document {
	d := &document.Document{Title: b.title("Labels")}
	d.Para("Cut along the lines, lay the dashed middle around the cable close to the plug, and stick the two halves together, clear tape over it. There are two of each, one for each end.")
	cables, leads := b.cableLabels(), b.leadLabels()
	d.Heading(2, "Cables")
	labelSheet(d, cables)
	d.Heading(2, "Power leads")
	labelSheet(d, leads)
	return d
}

// byGig stands on the label of an end that is plugged elsewhere from gig to gig.
const byGig = "see gig card"

// cableLabels returns the two labels of each cable of the kit: its name, and
// beneath it the jack where that end is the same in every line-up that uses it.
func (b *Book) cableLabels() (out [][2]label) {
	for i := range b.w.Kit {
		k := &b.w.Kit[i]
		var from, to []layout.JackRef
		for _, u := range k.Uses {
			for _, c := range b.w.Of(u.Lineup).Cables {
				if c.ID == u.Cable {
					from, to = append(from, c.From), append(to, c.To)
				}
			}
		}
		out = append(out, [2]label{{k.Label, b.same(from)}, {k.Label, b.same(to)}})
	}
	return out
}

// same names the jack if it is one for all.
func (b *Book) same(at []layout.JackRef) string {
	for _, r := range at {
		if r != at[0] {
			return byGig
		}
	}
	if len(at) == 0 {
		return ""
	}
	return b.jack(at[0])
}

func (b *Book) leadLabels() (out [][2]label) {
	for i := range b.leads {
		l := &b.leads[i]
		var set []string
		for _, a := range b.m.Assignments {
			if v := volts(a.Millivolts, a.AC); a.Supply == l.Supply && a.Output == l.Output && !slices.Contains(set, v) {
				set = append(set, v)
			}
		}
		sub := layout.And(set)
		if l.Reversing {
			sub += " REVERSED"
		}
		if feeds := fedBy(l); len(feeds) == 1 {
			sub += ", " + b.name(feeds[0])
		} else if len(feeds) > 1 {
			sub += ", " + byGig
		}
		out = append(out, [2]label{{l.Label, sub}, {l.Label, sub}})
	}
	return out
}

// labelSheet adds rows of labels at true size, and a table that stands for them
// where nothing is drawn.
func labelSheet(d *document.Document, pairs [][2]label) {
	if len(pairs) == 0 {
		d.Para("None.")
		return
	}
	var all []label
	var instead []string
	for _, p := range pairs {
		all = append(all, p[0], p[1])
		for _, l := range p {
			s := l.main
			if l.sub != "" {
				s += " | " + l.sub
			}
			instead = append(instead, s)
		}
	}
	for i := 0; i < len(all); i += labelCols {
		f := document.Figure{Art: labelRow(all[i:min(i+labelCols, len(all))]), True: true}
		if i == 0 {
			f.Instead = instead
		}
		d.Add(f)
	}
}

// labelRow draws labels side by side with lines to cut along.
func labelRow(row []label) *paper.Drawing {
	d := paper.NewDrawing(labelCols*labelW+mm, labelH+mm/4) // room for the last line
	dashed := paper.Style{Line: mm / 8, Ink: paper.Grey, Dash: []layout.Length{mm, mm}}
	for i, l := range row {
		x := mm/8 + layout.Length(i)*labelW
		d.Rect(layout.Rect{X0: x, Y0: mm / 8, X1: x + labelW, Y1: mm/8 + labelH}, paper.Style{Line: mm / 8})
		d.Line(layout.Point{X: x + labelW/2, Y: 0}, layout.Point{X: x + labelW/2, Y: labelH}, dashed)
		for half := range 2 {
			flag(d, l, x+layout.Length(half)*labelW/2)
		}
	}
	return d
}

// flag writes one half of a label.
func flag(d *paper.Drawing, l label, x layout.Length) {
	room := labelW/2 - 3*mm
	mid := x + labelW/4
	main := paper.Type{Size: 42 * mm / 10, Face: paper.Bold, Anchor: paper.Middle}
	for main.Width(l.main) > room && main.Size > 22*mm/10 {
		main.Size -= mm / 5
	}
	sub := paper.Type{Size: 24 * mm / 10, Anchor: paper.Middle}
	lines := sub.Wrap(l.sub, room)
	if len(lines) > 2 {
		lines = []string{lines[0], sub.Shorten(lines[1]+" "+lines[2], room)}
	}
	if l.sub == "" {
		d.Text(layout.Point{X: mid, Y: labelH/2 + main.Cap()/2}, main.Shorten(l.main, room), main)
		return
	}
	d.Text(layout.Point{X: mid, Y: 5 * mm}, main.Shorten(l.main, room), main)
	d.Lines(layout.Point{X: mid, Y: 9 * mm}, lines, sub)
}

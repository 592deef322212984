package book

import (
	"strings"

	"footplank/layout"
	"footplank/layout/paper"
)

// Measures of a drawn chain.
const (
	mm        = layout.Millimetre
	chainBoxW = 27 * mm
	chainBoxH = 12 * mm
	chainGap  = 10 * mm
	chainRow  = 17 * mm
	chainCols = 5
)

var (
	thin  = paper.Style{Line: mm / 4}
	thick = paper.Style{Line: mm / 2}
	ink   = paper.Style{Fill: paper.Solid}
)

// station is a box of a drawn chain.
type station struct {
	name, jacks string
	end         bool   // of the chain
	by          string // cable that leads to it
}

// stations returns the boxes of a chain.
func (b *Book) stations(hops []hop) []station {
	if len(hops) == 0 {
		return nil
	}
	out := []station{{name: b.name(hops[0].from.Unit), end: layout.OffBoard(hops[0].from.Unit)}}
	if !out[0].end {
		out[0].jacks = hops[0].from.Jack
	}
	for i, h := range hops {
		s := station{name: b.name(h.to.Unit), end: layout.OffBoard(h.to.Unit), by: h.called()}
		if len(h.cables) > 0 && h.cables[0].OffBoard() {
			s.by = "" // the player's own stage cable needs no letter
		}
		s.jacks = h.to.Jack
		if i+1 < len(hops) && hops[i+1].from.Jack != "" {
			s.jacks += " > " + hops[i+1].from.Jack
		}
		out = append(out, s)
	}
	return out
}

// chainArt draws a chain in rows from left to right, each going on in the next.
func (b *Book) chainArt(hops []hop) *paper.Drawing {
	list := b.stations(hops)
	rows := layout.Length((len(list) + chainCols - 1) / chainCols)
	d := paper.NewDrawing(chainCols*chainBoxW+(chainCols+1)*chainGap, rows*chainRow)
	for i, s := range list {
		x := chainGap + layout.Length(i%chainCols)*(chainBoxW+chainGap)
		y := layout.Length(i/chainCols)*chainRow + 3*mm
		box(d, s, x, y)
		if i == 0 {
			continue
		}
		arrow(d, layout.Point{X: x - chainGap, Y: y + chainBoxH/2}, x, s.by)
		if i%chainCols == 0 { // the same cable, where it leaves the row above
			right := layout.Length(chainCols) * (chainBoxW + chainGap)
			arrow(d, layout.Point{X: right, Y: y - chainRow + chainBoxH/2}, right+chainGap-mm, s.by)
		}
	}
	return d
}

// arrow draws the way of the signal to the right, with the cable above it.
func arrow(d *paper.Drawing, from layout.Point, x layout.Length, by string) {
	tip := layout.Point{X: x, Y: from.Y}
	d.Line(from, layout.Point{X: x - mm, Y: from.Y}, thick)
	d.Poly([]layout.Point{tip, {X: x - 2*mm, Y: from.Y - mm}, {X: x - 2*mm, Y: from.Y + mm}}, true, ink)
	t := paper.Type{Size: 32 * mm / 10, Face: paper.Bold, Anchor: paper.Middle}
	d.Text(layout.Point{X: (from.X + x) / 2, Y: from.Y - 13*mm/10}, by, t)
}

// box draws a unit, or an end of the chain with a thin edge.
func box(d *paper.Drawing, s station, x, y layout.Length) {
	edge := thick
	if s.end {
		edge = thin
	}
	d.Rect(layout.Rect{X0: x, Y0: y, X1: x + chainBoxW, Y1: y + chainBoxH}, edge)
	name := paper.Type{Size: 34 * mm / 10, Face: paper.Bold, Anchor: paper.Middle}
	jacks := paper.Type{Size: 28 * mm / 10, Anchor: paper.Middle}
	mid := x + chainBoxW/2
	room := chainBoxW - 2*mm
	lines := name.Wrap(s.name, room)
	if len(lines) > 1 {
		name.Size = 28 * mm / 10
		lines = name.Wrap(s.name, room)
	}
	if len(lines) > 2 {
		lines = []string{lines[0], name.Shorten(strings.Join(lines[1:], " "), room)}
	}
	y += chainBoxH/2 + name.Cap()/2 - name.Lead()*layout.Length(len(lines)-1)/2
	if s.jacks != "" {
		y -= 2 * mm
		d.Text(layout.Point{X: mid, Y: y + name.Lead()*layout.Length(len(lines)-1) + 43*mm/10}, jacks.Shorten(s.jacks, room), jacks)
	}
	d.Lines(layout.Point{X: mid, Y: y}, lines, name)
}

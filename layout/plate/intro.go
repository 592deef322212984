package plate

import (
	"fmt"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/paper"
)

// legendEntry explains a line or a pattern.
type legendEntry struct {
	style paper.Style
	text  string
}

func legend() []legendEntry {
	return []legendEntry{
		{stripStyle(mount.Interlock), "interlocking piece"},
		{stripStyle(mount.HookAndLoop), "hook-and-loop piece"},
		{unitLine(layout.Fixed), "fixed unit"},
		{unitLine(layout.Swap), "swap unit"},
		{plugLine, "room of a plug or a treadle"},
		{wood, "leg, rail or fixture"},
		{riserLine, "riser above"},
		{slotLine, "slot"},
		{cableLine, "cable, letter of the kit"},
		{leadLine, "power lead, name of the output"},
	}
}

// drawLegend draws the legend in columns and returns the y below it.
func drawLegend(d *paper.Drawing, at layout.Point, wide layout.Length) layout.Length {
	const cell, row = 65 * mm, 7 * mm
	cols := max(wide/cell, 1)
	t := paper.Type{Size: 3 * mm}
	n := layout.Length(0)
	for _, e := range legend() {
		p := layout.Point{X: at.X + n%cols*cell, Y: at.Y + n/cols*row}
		if e.style.Corner > 0 { // a run is a line, not a shape
			y := p.Y + 2500
			d.Line(layout.Point{X: p.X, Y: y}, layout.Point{X: p.X + 11*mm, Y: y}, e.style)
		} else {
			d.Rect(layout.RectAt(p, 11*mm, 5*mm), e.style)
		}
		d.Text(layout.Point{X: p.X + 13*mm, Y: p.Y + 3600}, e.text, t)
		n++
	}
	marks := []struct {
		draw func(c layout.Point)
		text string
	}{
		{func(c layout.Point) {
			d.Circle(c, 2200, paper.Style{Line: 300, Fill: paper.Solid, Ground: paper.White})
			d.Line(layout.Point{X: c.X - 1500, Y: c.Y}, layout.Point{X: c.X + 1500, Y: c.Y}, paper.Style{Line: 200})
			d.Line(layout.Point{X: c.X, Y: c.Y - 1500}, layout.Point{X: c.X, Y: c.Y + 1500}, paper.Style{Line: 200})
		}, "middle of a foot switch"},
		{func(c layout.Point) { d.Circle(c, 1100, paper.Style{Fill: paper.Solid, Ground: paper.Black}) }, "jack in use (white: not in use)"},
		{func(c layout.Point) { d.Circle(c, 700, paper.Style{Fill: paper.Solid, Ground: paper.Black}) }, "corner of a piece to measure from"},
		{func(c layout.Point) {
			d.Poly([]layout.Point{{X: c.X - 2*mm, Y: c.Y - 1500}, {X: c.X + 2*mm, Y: c.Y - 1500}, {X: c.X, Y: c.Y + 1500}}, true, paper.Style{Fill: paper.Solid, Ground: paper.Black})
		}, "front of a unit"},
	}
	for _, m := range marks {
		p := layout.Point{X: at.X + n%cols*cell, Y: at.Y + n/cols*row}
		m.draw(layout.Point{X: p.X + 5500, Y: p.Y + 2500})
		d.Text(layout.Point{X: p.X + 13*mm, Y: p.Y + 3600}, m.text, t)
		n++
	}
	return at.Y + (n+cols-1)/cols*row
}

// howToUse is what a builder must know before the first cut.
func howToUse(p *layout.Plan) []string {
	unit, bar := "millimetres", "100 mm long"
	if p.LengthUnit == layout.Inches {
		unit, bar = "inches", "100 mm long, which is 3 15/16 in"
	}
	return []string{
		"Print all pages at 100 % (\"actual size\") with fitting to the page switched off. Measure the bar on each page: it must be " + bar + ". If it is not, nothing on the page is true.",
		"Pages of one drawing overlap by 10 mm. Lay one on the other so that the crosses meet, then tape them; the dashed line is where to cut if you would rather have them edge to edge. The small map shows where a page belongs; crossed out pages would show nothing that others do not, and are not printed. What stands out over the edges of the board may be cut off; the overviews show it.",
		"Numbers are " + unit + ", first to the right, then to the back, from the corner of the surface that is front-left from above. Sizes are to the right × to the back. A piece's number is the same in the drawings and in the table.",
		"Lay the sheet on the board by the board's corner that is drawn on it, or by its edge and the ruler there; the rulers along the edges count from the front-left corner.",
		"Stick the board's pieces by the sheets \"in every line-up\": they stay. Stick the units' pieces by the stickers, which show each base turned over left to right, the front wall towards you.",
	}
}

// cautions are the usual ones. Adhesive: makers' datasheets for rubber and
// acrylic adhesives.
func cautions(p *layout.Plan) []string {
	out := []string{
		"Clean both faces with isopropyl alcohol and water, half and half, away from flames and with a window open, and let them dry. Press each piece down hard, and give it up to 72 hours before you play, carry or hang the board.",
	}
	for i := range p.Units {
		for _, j := range p.Units[i].Jacks {
			if j.Signal == layout.Line {
				return append(out, "Pull the mains plug before you work on the board, and never open a supply. Leave mains wiring to a licensed person and keep to the local code.")
			}
		}
	}
	return out
}

// intro sets the pages of words and tables in front of the drawings.
func (f *facts) intro(doc *paper.Document, size paper.Size) {
	fl := newFlow(doc, size, paper.Frame{Title: "Placement: " + f.p.Title, Note: "What each page is, and every place in numbers"})
	fl.heading("How to use these pages")
	for _, s := range howToUse(f.p) {
		fl.para("–", s)
	}
	fl.heading("Lines and patterns")
	fl.y = drawLegend(fl.page.Drawing, layout.Point{X: fl.body.X0, Y: fl.y + mm}, fl.body.W())
	fl.heading("Cautions")
	for _, s := range cautions(f.p) {
		fl.para("–", s)
	}
	if missing := without(f.p); len(missing) > 0 {
		var names []string
		for _, u := range missing {
			names = append(names, name(u))
		}
		fl.para("–", "Without a place, so not on these pages: "+strings.Join(names, ", ")+".")
	}
	fl.heading("Units")
	fl.table(unitColumns(fl.body.W()), f.unitRows())
	fl.heading("Pieces on the board")
	if len(f.strips) == 0 {
		fl.para("", "None.")
		return
	}
	fl.table(stripColumns(fl.body.W()), f.stripRows())
}

func unitColumns(wide layout.Length) []column {
	cols := []column{{"unit", 0, false}, {"line-ups", 42 * mm, false}, {"on", 24 * mm, false}, {"at", 30 * mm, true}, {"turn", 13 * mm, true}, {"mount", 14 * mm, false}}
	return fill(cols, 0, wide)
}

func stripColumns(wide layout.Length) []column {
	cols := []column{{"no.", 10 * mm, true}, {"kind", 32 * mm, false}, {"on", 22 * mm, false}, {"front-left corner", 30 * mm, true}, {"size", 30 * mm, true}, {"for", 0, false}}
	return fill(cols, 5, wide)
}

// fill gives one column what the others leave.
func fill(cols []column, which int, wide layout.Length) []column {
	for _, c := range cols {
		wide -= c.width
	}
	cols[which].width = wide
	return cols
}

// unitRows lists each place of each unit once, with the line-ups that have it
// there.
func (f *facts) unitRows() [][]string {
	p := f.p
	var rows [][]string
	for i := range p.Units {
		u := &p.Units[i]
		var places []layout.Placement
		lineups := map[layout.Placement][]string{}
		for j := range p.Lineups {
			l := &p.Lineups[j]
			if pl, ok := p.PlaceOf(l, u); ok && p.Present(l, u.ID) {
				if lineups[pl] == nil {
					places = append(places, pl)
				}
				lineups[pl] = append(lineups[pl], l.Name)
			}
		}
		for _, pl := range places {
			in := strings.Join(lineups[pl], ", ")
			if len(lineups[pl]) == len(p.Lineups) {
				in = "every one"
			}
			s, _ := p.Board.Surface(pl.On)
			v := view{corner: layout.Point{X: s.At.X0, Y: s.At.Y0}, unit: p.LengthUnit}
			rows = append(rows, []string{name(u), in, pl.On, v.place(pl.At), fmt.Sprintf("%d°", pl.Turn.Degrees()), string(u.Mount)})
		}
	}
	return rows
}

func (f *facts) stripRows() [][]string {
	var rows [][]string
	for _, s := range f.strips {
		on, _ := f.p.Board.Surface(s.surface)
		v := view{corner: layout.Point{X: on.At.X0, Y: on.At.Y0}, unit: f.p.LengthUnit}
		var names []string
		for _, id := range s.units {
			names = append(names, name(f.p.Unit(id)))
		}
		kind := string(s.kind)
		if s.side != "" {
			kind += ", " + s.side
		}
		rows = append(rows, []string{strconv.Itoa(s.number), kind, s.surface, v.place(layout.Point{X: s.at.X0, Y: s.at.Y0}), v.sizes(s.at), strings.Join(names, ", ")})
	}
	return rows
}

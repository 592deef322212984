package sheet

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/layout/mount"
)

// PlacementFormats are the formats of the placement sheet.
var PlacementFormats = []string{"txt", "csv", "svg"}

// Placement writes the placement sheet: which piece of fastener goes where on
// the board and under its unit. The same plan gives the same bytes.
//
// "txt" is a checklist for reading. "csv" has one row for each piece, see the
// package's description for its columns. "svg" is a drawing at true scale.
func Placement(w io.Writer, p *layout.Plan, format string) error {
	switch format {
	case "txt":
		return placementText(w, p)
	case "csv":
		return placementCSV(w, p)
	case "svg":
		return placementSVG(w, p)
	}
	return fmt.Errorf("placement sheet as %q: want %s", format, strings.Join(PlacementFormats, ", "))
}

// csvColumns are described in the package's description.
var csvColumns = []string{
	"lineup", "unit", "label", "kind", "surface", "piece",
	"board_x0_mm", "board_y0_mm", "board_x1_mm", "board_y1_mm",
	"surface_x_mm", "surface_y_mm",
	"under_x0_mm", "under_y0_mm", "under_x1_mm", "under_y1_mm",
	"turn", "roll_mm", "cut_mm",
}

func placementCSV(w io.Writer, p *layout.Plan) error {
	c := csv.NewWriter(w)
	if err := c.Write(csvColumns); err != nil {
		return err
	}
	mm := func(l layout.Length) string { return l.Number(layout.Millimetres) }
	n := 0
	last := [2]string{}
	for _, m := range mount.All(p) {
		if of := [2]string{m.Lineup, m.Unit}; of != last {
			n, last = 0, of
		}
		n++
		u := p.Unit(m.Unit)
		corner := cornerOf(&p.Board, m.Surface)
		turn := ""
		if pl, ok := p.PlaceOf(lineupOf(p, m.Lineup), u); ok {
			turn = strconv.Itoa(pl.Turn.Degrees())
		}
		b, v := m.OnBoard, m.UnderUnit
		err := c.Write([]string{m.Lineup, m.Unit, u.Label, string(m.Kind), m.Surface, strconv.Itoa(n),
			mm(b.X0), mm(b.Y0), mm(b.X1), mm(b.Y1), mm(b.X0 - corner.X), mm(b.Y0 - corner.Y),
			mm(v.X0), mm(v.Y0), mm(v.X1), mm(v.Y1), turn, mm(m.Width), mm(m.Length())})
		if err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// cornerOf returns the front-left corner of a surface.
func cornerOf(b *layout.Board, surface string) layout.Point {
	s, _ := b.Surface(surface)
	return layout.Point{X: s.At.X0, Y: s.At.Y0}
}

func placementText(w io.Writer, p *layout.Plan) error {
	t := &writer{p: p}
	t.title("Placement sheet: "+p.Title, "=")
	t.board()
	t.lines("")
	t.lines(para("", "Each piece is given twice. On the board: the front-left corner of the piece, measured from the front-left corner of the surface it lies on, and its size to the right and to the back. Under the unit: the same, on the base of the unit turned over left to right, its front wall towards you, from the front-left corner as you then see it. What is on the left seen from above is on the right there.")...)
	pieces := mount.All(p)
	t.section("In every line-up", pieces, "")
	for i := range p.Lineups {
		t.section("Line-up "+p.Lineups[i].Name, pieces, p.Lineups[i].Name)
	}
	if len(pieces) == 0 {
		t.lines("", "No unit has a place yet, so there is nothing to stick down.")
	}
	t.without(pieces)
	t.lines("")
	t.title("To cut", "-")
	t.lines("")
	for _, s := range rolls(pieces) {
		t.lines(para("  ", t.rollText(s))...)
	}
	t.lines("")
	t.title("Cautions", "-")
	t.lines("")
	for _, s := range cautions(p) {
		t.lines(para("  - ", s)...)
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// section lists the pieces of one line-up, or with "" those of all, by unit.
func (t *writer) section(title string, pieces []mount.Piece, lineup string) {
	last := ""
	for i := range pieces {
		m := &pieces[i]
		if m.Lineup != lineup {
			continue
		}
		if last == "" {
			t.lines("")
			t.title(title, "-")
		}
		if m.Unit != last {
			last = m.Unit
			if before := placedBefore(pieces[:i], m); before != "" {
				t.lines("")
				t.lines(para("      ", fmt.Sprintf("%s (%s): as in line-up %s", t.p.Unit(m.Unit).Label, m.Unit, before))...)
			} else {
				t.unitHead(m, lineup)
			}
		}
		if placedBefore(pieces[:i], m) != "" {
			continue
		}
		c := cornerOf(&t.p.Board, m.Surface)
		on := m.OnBoard.Move(layout.Point{X: -c.X, Y: -c.Y})
		t.lines(fmt.Sprintf("      board %-15s %-15s unit %-15s %s", t.corner(on), t.size(on), t.corner(m.UnderUnit), t.size(m.UnderUnit)))
	}
}

// placedBefore returns the line-up in which an earlier piece lies where m does.
func placedBefore(earlier []mount.Piece, m *mount.Piece) string {
	for _, e := range earlier {
		if e.Unit == m.Unit && e.Lineup != m.Lineup && e.OnBoard == m.OnBoard && e.UnderUnit == m.UnderUnit {
			return e.Lineup
		}
	}
	return ""
}

// unitHead writes the line above a unit's pieces.
func (t *writer) unitHead(m *mount.Piece, lineup string) {
	u := t.p.Unit(m.Unit)
	pl, _ := t.p.PlaceOf(lineupOf(t.p, lineup), u)
	c := cornerOf(&t.p.Board, m.Surface)
	at := layout.Point{X: pl.At.X - c.X, Y: pl.At.Y - c.Y}
	turn := ""
	if pl.Turn != 0 {
		turn = fmt.Sprintf(", turned %d degrees clockwise", pl.Turn.Degrees())
	}
	t.lines("")
	t.lines(para("  [ ] ", fmt.Sprintf("%s (%s): %s, roll %s wide; unit on the %s at %s%s",
		u.Label, u.ID, m.Kind, t.length(m.Width), m.Surface, t.point(at), turn))...)
}

func (t *writer) corner(r layout.Rect) string { return t.point(layout.Point{X: r.X0, Y: r.Y0}) }

func (t *writer) size(r layout.Rect) string { return t.num(r.W()) + " x " + t.num(r.D()) }

// without names the units that get no piece.
func (t *writer) without(pieces []mount.Piece) {
	var names []string
	for i := range t.p.Units {
		u := &t.p.Units[i]
		if !slices.ContainsFunc(pieces, func(m mount.Piece) bool { return m.Unit == u.ID }) {
			names = append(names, fmt.Sprintf("%s (%s)", u.Label, u.ID))
		}
	}
	if len(names) > 0 && len(pieces) > 0 {
		t.lines("")
		t.lines(para("", "Without a piece, for they have no place yet or nothing beneath them: "+strings.Join(names, ", ")+".")...)
	}
}

// cautions are the usual ones for sticking, lifting and mains work. The figures
// on adhesives are those of makers' datasheets for rubber and acrylic adhesives.
func cautions(p *layout.Plan) []string {
	out := []string{
		"Clean both faces with isopropyl alcohol and water, half and half, away from flames and with a window open, and let them dry. Press each piece down hard.",
		"The adhesive is at full strength after up to 72 hours. Do not play, carry or hang the board before.",
		"Adhesive lets go when it is warm: rubber ones from 49 °C on, which a parked car in the sun passes; acrylic ones from 107 °C.",
		"Decide once whether the hook side goes on the board or on the units, and never mix.",
	}
	heaviest := layout.Mass(0)
	for i := range p.Lineups {
		m := p.Board.TotalMass()
		for _, u := range p.UnitsIn(&p.Lineups[i]) {
			m += u.Mass
		}
		heaviest = max(heaviest, m)
	}
	if p.Board.Case != nil {
		heaviest += p.Board.Case.Mass
	}
	lift := "Loaded, this board weighs about " + kilograms(heaviest) + ". Lift it by the board, never by a unit, with a straight back."
	if heaviest > 23*layout.Kilogram {
		// The load constant of the revised NIOSH lifting equation.
		lift += " That is more than the 23 kg that one person should lift at the very most: carry it in pairs."
	}
	out = append(out, lift)
	if hasMains(p) {
		out = append(out, "Pull the mains plug before you work on the board. Leave mains wiring to a licensed person and keep to the local code.")
	}
	return out
}

func hasMains(p *layout.Plan) bool {
	for i := range p.Units {
		if slices.ContainsFunc(p.Units[i].Jacks, func(j layout.Jack) bool { return j.Signal == layout.Line }) {
			return true
		}
	}
	return false
}

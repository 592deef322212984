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
var PlacementFormats = []string{"txt", "csv"}

// Placement writes the placement sheet: which piece of fastener goes where on
// the board and under its unit. The same plan gives the same bytes.
//
// "txt" is a checklist for reading in that many columns, 80 for 0. "csv" has one row for each piece, see the
// package's description for its columns.
func Placement(w io.Writer, p *layout.Plan, format string, cols int) error {
	switch format {
	case "txt":
		return placementText(w, p, cols)
	case "csv":
		return placementCSV(w, p)
	}
	return fmt.Errorf("placement sheet as %q: want %s", format, strings.Join(PlacementFormats, " or "))
}

// csvColumns are described in the package's description.
var csvColumns = []string{
	"lineup", "unit", "label", "kind", "surface", "piece",
	"board_x0_mm", "board_y0_mm", "board_x1_mm", "board_y1_mm",
	"surface_x_mm", "surface_y_mm",
	"under_x0_mm", "under_y0_mm", "under_x1_mm", "under_y1_mm",
	"turn", "roll_mm", "cut_mm", "strip", "board_side", "unit_side",
}

// placementCSV writes where pieces of units and strips of the board grip each
// other, and then the strips of the board by themselves.
func placementCSV(w io.Writer, p *layout.Plan) error {
	c := csv.NewWriter(w)
	if err := c.Write(csvColumns); err != nil {
		return err
	}
	mm := func(l layout.Length) string { return l.Number(layout.Millimetres) }
	rect := func(r layout.Rect) []string { return []string{mm(r.X0), mm(r.Y0), mm(r.X1), mm(r.Y1)} }
	laid := mount.Lay(p)
	n := 0
	last := [2]string{}
	for _, m := range laid.Pieces {
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
		row := []string{m.Lineup, m.Unit, u.Label, string(m.Kind), m.Surface, strconv.Itoa(n)}
		row = append(row, rect(m.OnBoard)...)
		row = append(row, mm(m.OnBoard.X0-corner.X), mm(m.OnBoard.Y0-corner.Y))
		row = append(row, rect(m.UnderUnit)...)
		row = append(row, turn, mm(m.Width), mm(m.Length()), strconv.Itoa(stripOf(laid, &m)), string(m.BoardSide), string(m.UnitSide))
		if err := c.Write(row); err != nil {
			return err
		}
	}
	for i, b := range laid.Board {
		corner := cornerOf(&p.Board, b.Surface)
		row := []string{"", "", "", string(b.Kind), b.Surface, ""}
		row = append(row, rect(b.At)...)
		row = append(row, mm(b.At.X0-corner.X), mm(b.At.Y0-corner.Y), "", "", "", "", "",
			mm(b.Width), mm(b.Cut), strconv.Itoa(i+1), string(b.Side), "")
		if err := c.Write(row); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// stripOf returns the number of the board's strip that a piece lies on, from 1.
func stripOf(r *mount.Result, m *mount.Piece) int {
	return 1 + slices.IndexFunc(r.Board, func(b mount.BoardPiece) bool {
		return b.Kind == m.Kind && b.Surface == m.Surface && b.At.Contains(m.OnBoard)
	})
}

// cornerOf returns the front-left corner of a surface.
func cornerOf(b *layout.Board, surface string) layout.Point {
	s, _ := b.Surface(surface)
	return layout.Point{X: s.At.X0, Y: s.At.Y0}
}

// cautions are the usual ones for sticking, lifting and mains work. The figures
// on adhesives are those of makers' datasheets for rubber and acrylic adhesives.
func cautions(p *layout.Plan) []string {
	out := []string{
		"Clean both faces with isopropyl alcohol and water, half and half, away from flames and with a window open, and let them dry. Press each piece down hard.",
		"The adhesive is at full strength after up to 72 hours. Do not play, carry or hang the board before.",
		"Adhesive lets go when it is warm: rubber ones from " + layout.Warmth(49, p.Measure()) + " on, which a parked car in the sun passes; acrylic ones from " + layout.Warmth(107, p.Measure()) + ".",
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
	lift := "Loaded, this board weighs about " + heaviest.Carried(p.Measure()) + ". Lift it by the board, never by a unit, with a straight back."
	if heaviest > 23*layout.Kilogram {
		// The load constant of the revised NIOSH lifting equation.
		lift += " That is more than the " + (23 * layout.Kilogram).Carried(p.Measure()) + " that one person should lift at the very most: carry it in pairs."
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

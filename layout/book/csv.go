package book

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"footplank/layout"
)

var (
	cableColumns = []string{"kit", "label", "owned", "cut_mm", "stock_mm", "plug_a", "plug_b", "lineup", "from_unit", "from_jack", "to_unit", "to_jack", "run_mm"}
	leadColumns  = []string{"label", "sort", "cut_mm", "awg", "stock_mm", "lineup", "supply", "output", "unit", "volts", "ac", "milliamps", "limit_ma", "run_mm", "drop_v"}
)

// CablesCSV writes the kit with where it goes; the package's description has the
// columns.
func (b *Book) CablesCSV(w io.Writer) error {
	rows := [][]string{cableColumns}
	for i := range b.w.Kit {
		k := &b.w.Kit[i]
		for _, u := range k.Uses {
			for _, c := range b.w.Of(u.Lineup).Cables {
				if c.ID != u.Cable {
					continue
				}
				rows = append(rows, []string{k.ID, k.Label, yes(k.Owned), millimetres(k.Cut), orEmpty(k.Stock), k.Plugs[0], k.Plugs[1],
					u.Lineup, c.From.Unit, c.From.Jack, c.To.Unit, c.To.Jack, millimetres(c.Run)})
			}
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// LeadsCSV writes the leads with what they feed; the package's description has
// the columns.
func (b *Book) LeadsCSV(w io.Writer) error {
	rows := [][]string{leadColumns}
	for i := range b.leads {
		l := &b.leads[i]
		for k := range b.m.Leads {
			d := &b.m.Leads[k]
			if d.Supply != l.Supply || d.Output != l.Output || d.Reversing != l.Reversing || d.Adaptor != l.Adaptor {
				continue
			}
			rows = append(rows, []string{l.Label, l.Sort(), millimetres(l.Cut), strconv.Itoa(l.Gauge), orEmpty(l.Stock),
				d.Lineup, d.Supply, d.Output, d.Unit, fmt.Sprintf("%g", float64(d.Millivolts)/1000), yes(d.AC),
				strconv.Itoa(d.Milliamps), strconv.Itoa(d.LimitMA), millimetres(d.Run), strconv.FormatFloat(d.Drop, 'f', 3, 64)})
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func millimetres(l layout.Length) string { return l.Number(layout.Millimetres) }

func orEmpty(l layout.Length) string {
	if l == 0 {
		return ""
	}
	return millimetres(l)
}

package check

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// gig is a plan as large as a real one: a board 560 x 330 mm with a shelf, a
// supply below it and sixteen units with all plugs seated, in three line-ups.
func gig() *layout.Plan {
	p := tiny()
	p.Board.W, p.Board.D = 560*mm, 330*mm
	p.Board.PlugRoom = layout.Edges{Left: 60 * mm, Right: 60 * mm, Back: 60 * mm}
	p.Board.Case = &layout.Case{Inside: layout.Size{W: 700 * mm, D: 420 * mm, H: 200 * mm}, Below: 25 * mm, Mass: 4 * layout.Kilogram}
	r := shelf(p)
	r.At = layout.Rect{X0: 80 * mm, Y0: 150 * mm, X1: 480 * mm, Y1: 330 * mm}
	r.Legs = r.EndPanels()
	p.Units = nil
	var stops []layout.Stop
	stops = append(stops, layout.Stop{Unit: layout.Instrument})
	for i := range 16 {
		u := box(fmt.Sprint("u", i), layout.Length(i%8)*70*mm, layout.Length(i/8)*150*mm)
		if i >= 8 {
			u.Place.On = "shelf"
			u.Place.At = layout.Point{X: 80*mm + layout.Length(i%8)*50*mm, Y: 180 * mm}
		}
		u.Body.W = 48 * mm
		plug(&u, "in", layout.Right, 80*mm, 20*mm).Plug.Out = 11 * mm
		plug(&u, "out", layout.Left, 60*mm, 20*mm).Plug.Out = 11 * mm
		dc := plug(&u, "dc", layout.Back, 24*mm, 20*mm)
		dc.Kind, dc.Signal, dc.Dir, dc.Plug = layout.DC, layout.Power, layout.In, layout.PlugForm{Out: 12 * mm, Width: 11 * mm}
		u.Uses, u.Draw = nil, &layout.Draw{Millivolts: 9000, Milliamps: 50}
		foot(&u, 24*mm, 20*mm, 55*mm)
		p.Units = append(p.Units, u)
		if i < 12 {
			stops = append(stops, layout.Stop{Unit: u.ID})
		}
	}
	supply := box("supply", 100*mm, 220*mm)
	supply.Body = layout.Size{W: 172 * mm, D: 90 * mm, H: 42 * mm}
	for i := range 8 {
		o := plug(&supply, fmt.Sprint("o", i), layout.Front, layout.Length(14+20*i)*mm, 16*mm)
		o.Signal, o.Plug = layout.Power, layout.PlugForm{Out: 12 * mm, Width: 11 * mm}
		supply.Outputs = append(supply.Outputs, layout.Output{Jack: o.ID, Millivolts: 9000, Milliamps: 300})
	}
	p.Units = append(p.Units, supply)
	p.Slots = []layout.Slot{{Name: "space", On: "shelf", At: layout.Rect{X0: 80 * mm, Y0: 150 * mm, X1: 480 * mm, Y1: 330 * mm}}}
	p.Chain.Stops = append(stops, layout.Stop{Slot: "space"}, layout.Stop{Unit: layout.Desk})
	p.Lineups = []layout.Lineup{
		{Name: "barn", Fill: map[string][]string{"space": {"u12", "u13", "u14"}}},
		{Name: "pit", Fill: map[string][]string{"space": {"u13", "u15"}}},
		{Name: "solo", Fill: map[string][]string{"space": {"u12", "u13", "u14", "u15"}}},
	}
	return p
}

// BenchmarkAll checks three line-ups of up to 17 units; the editor does it at
// every key press and wants it in less than 2 ms.
func BenchmarkAll(b *testing.B) {
	p := gig()
	require.Len(b, All(p), 3)
	b.ReportAllocs()
	for b.Loop() {
		All(p)
	}
}

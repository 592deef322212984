package route_test

import (
	"fmt"
	"testing"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"
)

// runs returns all cables of the line-up.
func runs(p *layout.Plan, l *layout.Lineup) []route.Request {
	return append(route.AudioRequests(p, l), leads(p, l)...)
}

// Nothing is remembered from one time to the next.
func BenchmarkRouteExample(b *testing.B) {
	p := arranged.Example(b)
	l := &p.Lineups[0]
	reqs := runs(p, l)
	for b.Loop() {
		route.Forget()
		route.NewSpace(p, l).Route(reqs)
	}
	b.ReportMetric(float64(len(reqs)), "cables")
}

// All is laid by itself after one unit moved by a millimetre to where it was not
// before, in memory of how it lay; and when nothing moved.
func BenchmarkRouteAfterAMove(b *testing.B) {
	p := arranged.Example(b)
	l := &p.Lineups[0]
	u := p.Unit("wobble")
	pl, _ := p.PlaceOf(l, u)
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		if i%10 == 0 {
			route.Forget()
			route.NewSpace(p, l).Route(runs(p, l))
		}
		to := pl
		to.At.Y += layout.Length(i%10+1) * layout.Millimetre
		p.SetPlace(l, u, to)
		b.StartTimer()
		route.NewSpace(p, l).Route(runs(p, l))
	}
}

func BenchmarkRouteAgain(b *testing.B) {
	p := arranged.Example(b)
	l := &p.Lineups[0]
	for b.Loop() {
		route.NewSpace(p, l).Route(runs(p, l))
	}
}

// One unit goes to and fro by a millimetre, as under the editor's arrow keys, and
// only the router remembers.
func BenchmarkOneUnitMoved(b *testing.B) {
	p := arranged.Example(b)
	l := &p.Lineups[0]
	u := p.Unit("wobble")
	pl, _ := p.PlaceOf(l, u)
	var r route.Router
	r.Update(p, l, runs(p, l))
	for i := 0; b.Loop(); i++ {
		to := pl
		to.At.Y += layout.Length(i%2) * mm
		p.SetPlace(l, u, to)
		route.Forget()
		r.Update(p, l, runs(p, l))
	}
}

func BenchmarkFortyUnits(b *testing.B) {
	p := rows(40)
	l := &p.Lineups[0]
	reqs := runs(p, l)
	for b.Loop() {
		route.Forget()
		route.NewSpace(p, l).Route(reqs)
	}
	b.ReportMetric(float64(len(reqs)), "cables")
}

func BenchmarkShortest(b *testing.B) {
	p := arranged.Example(b)
	l := &p.Lineups[0]
	reqs := runs(p, l)
	s := route.NewSpace(p, l)
	for b.Loop() {
		route.Forget()
		for _, r := range reqs {
			s.Shortest(r)
		}
	}
	b.ReportMetric(float64(len(reqs)), "cables")
}

// rows returns a board with n compact units in four rows, each fed by its own
// output of a long supply at the back.
func rows(n int) *layout.Plan {
	flat := layout.PlugForm{Name: "phone-flat", Kind: layout.Phone, Out: 13 * mm, Width: 20 * mm}
	dc := layout.PlugForm{Name: "dc-right-angle", Kind: layout.DC, Out: 12 * mm, Width: 10 * mm}
	perRow := (n + 3) / 4
	p := &layout.Plan{
		Board:   layout.Board{W: layout.Length(perRow) * 105 * mm, D: 760 * mm, Thickness: 15 * mm},
		Chain:   layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}}},
		Lineups: []layout.Lineup{{Name: "all"}},
	}
	supply := layout.Unit{
		ID: "supply", Body: layout.Size{W: p.Board.W - 20*mm, D: 80 * mm, H: 45 * mm},
		Place: &layout.Placement{On: layout.DeckName, At: layout.Point{X: 10 * mm, Y: 680 * mm}},
	}
	for i := range n {
		id := fmt.Sprintf("u%d", i)
		row, column := i/perRow, i%perRow
		if row%2 == 1 {
			column = perRow - 1 - column
		}
		at := layout.Point{X: p.Board.W - layout.Length(column+1)*105*mm + 15*mm, Y: layout.Length(row)*165*mm + 5*mm}
		p.Units = append(p.Units, layout.Unit{
			ID: id, Body: layout.Size{W: 70 * mm, D: 122 * mm, H: 50 * mm}, Draw: &layout.Draw{Millivolts: 9000, Milliamps: 20},
			Jacks: []layout.Jack{
				{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: 76 * mm, Height: 20 * mm, Plug: flat},
				{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: 66 * mm, Height: 20 * mm, Plug: flat},
				{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: 35 * mm, Height: 20 * mm, Plug: dc},
			},
			Place: &layout.Placement{On: layout.DeckName, At: at},
		})
		p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: id})
		out := fmt.Sprintf("out%d", i+1)
		supply.Jacks = append(supply.Jacks, layout.Jack{
			ID: out, Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Wall: layout.Front, Plug: dc, Height: 16 * mm,
			Along: 20*mm + (supply.Body.W-40*mm)*layout.Length(i)/layout.Length(n),
		})
		supply.Outputs = append(supply.Outputs, layout.Output{Jack: out, Millivolts: 9000, Milliamps: 100, Isolated: true})
	}
	p.Units = append(p.Units, supply)
	p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: layout.Amp})
	return p
}

package wiring_test

import (
	"slices"
	"testing"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/wiring"
)

// edits are what a player does to a plan between two looks at it, each to be
// taken back again by the next.
func edits(tb testing.TB) map[string][]*layout.Plan {
	p := arranged.Example(tb)
	l := &p.Lineups[0]
	changed := func(change func(q *layout.Plan)) []*layout.Plan {
		q := p.Clone()
		change(q)
		power.Apply(q)
		wiring.Seat(q)
		return []*layout.Plan{p, q}
	}
	return map[string][]*layout.Plan{
		"move": changed(func(q *layout.Plan) {
			moveUnit(q, "wobble", func(pl *layout.Placement) { pl.At.Y += layout.Millimetre })
		}),
		"turn": changed(func(q *layout.Plan) {
			moveUnit(q, "wobble", func(pl *layout.Placement) { pl.Turn = (pl.Turn + 2) % 4 })
		}),
		"remove": changed(func(q *layout.Plan) {
			for slot, ids := range l.Fill {
				q.Lineups[0].Fill[slot] = slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return id == "wobble" })
			}
		}),
		"link": changed(func(q *layout.Plan) {
			i := slices.IndexFunc(q.Chain.Stops, func(s layout.Stop) bool { return s.Unit == "lift" })
			q.Chain.Stops[i], q.Chain.Stops[i+1] = q.Chain.Stops[i+1], q.Chain.Stops[i]
		}),
	}
}

func moveUnit(p *layout.Plan, id string, how func(pl *layout.Placement)) {
	l, u := &p.Lineups[0], p.Unit(id)
	pl, _ := p.PlaceOf(l, u)
	how(&pl)
	p.SetPlace(l, u, pl)
}

// BenchmarkEdit works out anew all that follows from an edit of the example: the
// power map, the plugs, and the cables of all line-ups. Before each edit all that
// is remembered is how the plan was; see BenchmarkEditBack.
func BenchmarkEdit(b *testing.B) {
	for _, of := range []string{"move", "turn", "remove", "link"} {
		b.Run(of, func(b *testing.B) {
			plans := edits(b)[of]
			b.ReportAllocs()
			for b.Loop() {
				b.StopTimer()
				route.Forget()
				power.Forget()
				follow(plans[0])
				b.StartTimer()
				follow(plans[1])
			}
		})
	}
}

// BenchmarkEditBack does so to and fro between two plans, as undo and redo do.
func BenchmarkEditBack(b *testing.B) {
	for _, of := range []string{"move", "turn", "remove", "link"} {
		b.Run(of, func(b *testing.B) {
			plans := edits(b)[of]
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				follow(plans[i%2])
			}
		})
	}
}

func follow(p *layout.Plan) {
	power.Apply(p)
	wiring.Seat(p)
	wiring.Wire(p)
}

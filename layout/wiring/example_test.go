package wiring_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/wiring"
)

// moved returns the plan with the nth unit that stands in all line-ups moved.
func moved(p *layout.Plan, n int, by layout.Point) *layout.Plan {
	q := p.Clone()
	for i := range q.Units {
		if u := &q.Units[i]; u.Place != nil {
			if n == 0 {
				u.Place.At = u.Place.At.Add(by)
				return q
			}
			n--
		}
	}
	return q
}

// Seating depends on the plan alone, whatever was chosen before; and however a
// unit is pushed about, no plug of it meets something that its usual one did not.
func TestSeatingFollowsFromThePlaces(t *testing.T) {
	p := arranged.Example(t)
	require.Zero(t, wiring.Misseated(p))
	before := p
	chosen := 0
	for n := range 8 {
		for x := layout.Length(-60); x <= 60; x += 15 {
			q := moved(p, n, layout.Point{X: x * layout.Millimetre})
			fresh := q.Clone()
			wiring.Seat(q)
			for i := range fresh.Units {
				fresh.Units[i].Jacks = before.Units[i].Jacks // as another edit left them
			}
			wiring.Seat(fresh)
			require.Equal(t, q.Units, fresh.Units)
			before = q

			usual := q.Clone()
			for i := range usual.Units {
				usual.Units[i].Jacks = wiring.UsualPlugs(&usual.Units[i]).Jacks
			}
			was, is := wiring.Misseated(usual), wiring.Misseated(q)
			require.LessOrEqual(t, is, was)
			if is < was {
				chosen++
			}
		}
	}
	assert.Positive(t, chosen)
}

// BenchmarkSeat chooses the plugs of the example where all of the usual ones seat.
func BenchmarkSeat(b *testing.B) {
	p := arranged.Example(b)
	b.ReportAllocs()
	for b.Loop() {
		wiring.Seat(p)
	}
}

// BenchmarkSeatPushed does so while a unit is pushed into its neighbours, as in
// the editor.
func BenchmarkSeatPushed(b *testing.B) {
	p := arranged.Example(b)
	var plans []*layout.Plan
	for n := range 8 {
		for x := layout.Length(-30); x <= 30; x += 5 {
			plans = append(plans, moved(p, n, layout.Point{X: x * layout.Millimetre}))
		}
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		wiring.Seat(plans[i%len(plans)])
	}
}

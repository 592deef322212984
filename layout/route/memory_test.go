package route_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"
)

// pushedAbout returns the example again and again, each time with one unit moved,
// turned or put back, in one of its line-ups.
func pushedAbout(tb testing.TB, random *rand.Rand) func() (*layout.Plan, *layout.Lineup) {
	p := arranged.Example(tb)
	start := p.Clone()
	return func() (*layout.Plan, *layout.Lineup) {
		l := &p.Lineups[random.IntN(len(p.Lineups))]
		units := p.UnitsIn(l)
		u := units[random.IntN(len(units))]
		pl, ok := p.PlaceOf(l, u)
		if !ok {
			return p, l
		}
		switch random.IntN(4) {
		case 0:
			pl.Turn = (pl.Turn + 1) % 4
		case 1:
			pl, _ = start.PlaceOf(start.LineupNamed(l.Name), start.Unit(u.ID))
		default:
			pl.At = pl.At.Add(layout.Point{X: layout.Length(random.IntN(41)-20) * mm, Y: layout.Length(random.IntN(41)-20) * mm})
		}
		p.SetPlace(l, u, pl)
		return p, l
	}
}

// What is laid from memory is what is laid anew: by itself, around what lies there
// already, and by a router that follows a unit.
func TestRoutesFromMemoryAreRoutesAnew(t *testing.T) {
	next := pushedAbout(t, rand.New(rand.NewPCG(3, 5)))
	type way struct{ alone, around, router []route.Path }
	var kept, anew route.Router
	lay := func(p *layout.Plan, l *layout.Lineup, r *route.Router) way {
		audio := route.AudioRequests(p, l)
		w := way{alone: route.NewSpace(p, l).Route(audio), router: r.Update(p, l, runs(p, l))}
		var lie []route.Settled
		for i, path := range w.alone {
			lie = append(lie, route.Settled{Kind: route.Audio, Diameter: audio[i].Diameter, Points: path.Points})
		}
		w.around = route.NewSpace(p, l).Around(lie).Route(leads(p, l))
		return w
	}
	for range 4 {
		p, l := next()
		warm := lay(p, l, &kept)
		route.Forget()
		require.Equal(t, lay(p, l, &anew), warm)
		q, k := next() // is laid meanwhile
		route.NewSpace(q, k).Route(runs(q, k))
	}
}

// A caller may change the paths that it gets.
func TestMemoryIsNotTheCallers(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	first := route.NewSpace(p, l).Route(runs(p, l))
	for i := range first {
		for k := range first[i].Points {
			first[i].Points[k].X = 0
		}
	}
	again := route.NewSpace(p, l).Route(runs(p, l))
	route.Forget()
	require.Equal(t, route.NewSpace(p, l).Route(runs(p, l)), again)
}

package arrange

import (
	"context"
	"math"
	"testing"

	"footplank/layout"
	"footplank/pack"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// small is a board for three units that plain loops can try every
// arrangement of, on a grid.
func small(t *rapid.T) *layout.Plan {
	size := func(lo, hi int, what string) layout.Length {
		return layout.Length(10 * rapid.IntRange(lo, hi).Draw(t, what))
	}
	p := &layout.Plan{
		Board: layout.Board{W: 300 * mm, D: 160 * mm, Kind: layout.Solid,
			PlugRoom: layout.Edges{Left: 20 * mm, Right: 20 * mm, Back: 20 * mm}},
		Chain: layout.Chain{Stops: []layout.Stop{
			{Unit: layout.Instrument}, {Unit: "a"}, {Unit: "b"}, {Unit: "c"}, {Unit: layout.Amp},
		}},
		Lineups: []layout.Lineup{{Name: "all"}},
		Limits:  layout.Limits{Reach: 72 * mm},
	}
	for _, id := range []string{"a", "b", "c"} {
		u := box(id, size(4, 10, "w"), size(9, 13, "d"), layout.Fixed)
		u.Draw = nil
		u.Often = rapid.IntRange(0, 3).Draw(t, "often")
		p.Units = append(p.Units, u)
	}
	return p
}

// cheapest tries every arrangement with origins on a grid of 20 mm.
func cheapest(pr *problem, c *cost) int64 {
	best := int64(math.MaxInt64)
	places := make([]pack.Place, len(pr.items))
	var place func(i int)
	place = func(i int) {
		if i == len(places) {
			best = min(best, c.Cost(places))
			return
		}
		for k, r := range pr.pack.Items[i].Regions {
			for x := r.X0; x <= r.X1; x += int64(20 * mm) {
				for y := r.Y0; y <= r.Y1; y += int64(20 * mm) {
					places[i] = pack.Place{Region: k, X: x, Y: y}
					if pr.free(places[:i+1], i, places[i]) {
						place(i + 1)
					}
				}
			}
		}
	}
	place(0)
	return best
}

// The arranger comes within 3 % of the best of all arrangements on small
// boards; as it is not bound to the grid it is often cheaper.
func TestNearTheBest(t *testing.T) {
	if testing.Short() {
		t.Skip("tries every arrangement")
	}
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		if tried >= 10 {
			return // each takes a while
		}
		tried++
		p := small(t)
		lineups, err := choose(p, nil)
		require.NoError(t, err)
		pr := newProblem(p, lineups, mode{}, nil)
		best := cheapest(pr, newCost(pr))
		if best == math.MaxInt64 {
			return
		}
		res, err := Arrange(context.Background(), p, Options{Seed: 1, Steps: 20_000})
		require.NoError(t, err)
		require.Equal(t, pack.Fits, res.Verdict)
		require.LessOrEqual(t, float64(res.Cost), 1.03*float64(best), "found %d, best on the grid %d", res.Cost, best)
	})
}

func TestRunOf(t *testing.T) {
	at := func(x, y, dx, dy float64) tip { return tip{x: x * 1000, y: y * 1000, dx: dx, dy: dy} }
	for _, c := range []struct {
		name string
		a, b tip
		want float64 // mm, with a bend of 20 mm
	}{
		{"straight at each other", at(100, 50, -1, 0), at(30, 50, 1, 0), 70},
		{"touching", at(100, 50, -1, 0), at(100, 50, 1, 0), 40},
		{"as near as is useful", at(100, 50, -1, 0), at(80, 50, 1, 0), 20},
		{"aside, with room for two bends", at(100, 50, -1, 0), at(50, 90, 1, 0), 90},
		{"aside, without: there and back", at(100, 50, -1, 0), at(90, 90, 1, 0), 30 + 40 + 40},
		{"a corner", at(100, 50, -1, 0), at(40, 120, 0, -1), 60 + 70},
		{"both to the same side", at(100, 50, -1, 0), at(100, 100, -1, 0), 50 + 40},
		{"back to back", at(100, 50, 1, 0), at(60, 50, -1, 0), 80 + 40},
	} {
		require.Equal(t, c.want*1000, runOf(c.a, c.b), c.name)
		require.Equal(t, c.want*1000, runOf(c.b, c.a), c.name+", from the other end")
	}
}

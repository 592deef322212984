package arrange

import (
	"context"
	"math"
	"math/rand"
	"slices"
	"testing"

	"footplank/layout"
	"footplank/pack"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// few is a board for n units that plain loops can try every arrangement of, on a
// grid. Some have their jacks at the back, and on some boards a post stands in
// the way.
func few(n int, seed int64) *layout.Plan {
	r := rand.New(rand.NewSource(seed))
	between := func(lo, hi int) layout.Length { return layout.Length(lo+r.Intn(hi-lo+1)) * mm }
	p := &layout.Plan{
		Board: layout.Board{W: 300 * mm, D: 160 * mm, Kind: layout.Solid, Thickness: 12 * mm,
			PlugRoom: layout.Edges{Left: 20 * mm, Right: 20 * mm, Back: 20 * mm}},
		Lineups: []layout.Lineup{{Name: "all"}},
		Limits:  layout.Limits{Reach: 72 * mm},
	}
	stops := []layout.Stop{{Unit: layout.Instrument}}
	for i := range n {
		u := box(string(rune('a'+i)), between(4, 8)/mm*10, between(6, 10)/mm*10, layout.Fixed)
		u.Draw, u.Often = nil, r.Intn(4)
		if r.Intn(3) == 0 {
			in, out := u.Jack("in"), u.Jack("out")
			in.Wall, in.Along = layout.Back, u.Body.W*3/4
			out.Wall, out.Along = layout.Back, u.Body.W/4
		}
		p.Units = append(p.Units, u)
		stops = append(stops, layout.Stop{Unit: u.ID})
	}
	p.Chain.Stops = append(stops, layout.Stop{Unit: layout.Amp})
	if r.Intn(2) == 0 {
		at := layout.Point{X: between(60, 200), Y: between(40, 110)}
		p.Board.Fixtures = []layout.Fixture{{Name: "post", Box: layout.BoxOn(layout.RectAt(at, 30*mm, 30*mm), 0, 60*mm)}}
	}
	return p
}

// cheapest tries every arrangement with origins on a grid and returns the least
// objective with the cables laid, all of them, on the board.
func cheapest(pr *problem, step layout.Length) int64 {
	best := int64(math.MaxInt64)
	r := &real{ctx: context.Background(), pr: pr, c: newCost(pr), left: math.MaxInt}
	places := make([]pack.Place, len(pr.items))
	var place func(i int)
	place = func(i int) {
		if i == len(places) {
			if c, ok := r.cost(places); ok {
				best = min(best, c)
			}
			return
		}
		for k, g := range pr.pack.Items[i].Regions {
			for x := g.X0; x <= g.X1; x += int64(step) {
				for y := g.Y0; y <= g.Y1; y += int64(step) {
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

// With real runs the arranger comes within 3 % of the best of all arrangements
// on a grid; as it is not bound to the grid it is mostly cheaper.
func TestNearTheBest(t *testing.T) {
	if testing.Short() {
		t.Skip("tries every arrangement")
	}
	var all []float64
	for _, b := range []struct {
		units, boards int
		step          layout.Length
	}{{2, 5, 30 * mm}, {3, 5, 50 * mm}, {4, 2, 60 * mm}} {
		for seed := range int64(b.boards) {
			p := few(b.units, seed+1)
			lineups, err := choose(p, nil)
			require.NoError(t, err)
			pr := newProblem(p, lineups, mode{}, nil)
			best := cheapest(pr, b.step)
			res, err := Arrange(context.Background(), p, Options{Seed: 1, Steps: 20_000})
			require.NoError(t, err)
			require.Equal(t, pack.Fits, res.Verdict)
			if best == math.MaxInt64 {
				continue // none of the grid fits
			}
			got, ok := (&real{pr: pr, c: newCost(pr)}).cost(pr.places(res.Plan))
			require.True(t, ok)
			all = append(all, float64(got)/float64(best))
		}
	}
	slices.Sort(all)
	t.Logf("of %d boards: median %.3f of the grid's best, worst %.3f", len(all), all[len(all)/2], all[len(all)-1])
	require.Greater(t, len(all), 9)
	assert.LessOrEqual(t, all[len(all)-1], 1.03)
	assert.LessOrEqual(t, all[len(all)/2], 1.0)
}

func TestRunOf(t *testing.T) {
	at := func(x, y, dx, dy float64) tip { return tip{x: x * 1000, y: y * 1000, dx: dx, dy: dy} }
	for _, c := range []struct {
		name string
		a, b tip
		want float64 // mm, with a bend of 20 mm
	}{
		{"straight at each other", at(100, 50, -1, 0), at(30, 50, 1, 0), 70},
		{"touching", at(100, 50, -1, 0), at(100, 50, 1, 0), 80},
		{"a bend's radius apart", at(100, 50, -1, 0), at(80, 50, 1, 0), 20},
		{"nearer", at(100, 50, -1, 0), at(90, 50, 1, 0), 10 + 4*10*10/20.},
		{"aside, with room for two bends", at(100, 50, -1, 0), at(50, 90, 1, 0), 90},
		{"aside, without: there and back", at(100, 50, -1, 0), at(90, 90, 1, 0), 30 + 40 + 40},
		{"a corner", at(100, 50, -1, 0), at(40, 120, 0, -1), 60 + 70},
		{"both to the same side", at(100, 50, -1, 0), at(100, 100, -1, 0), 50 + 40},
		{"back to back", at(100, 50, 1, 0), at(60, 50, -1, 0), 80 + 40},
	} {
		require.InDelta(t, c.want*1000, runOf(c.a, c.b), 1e-6, c.name)
		require.InDelta(t, c.want*1000, runOf(c.b, c.a), 1e-6, c.name+", from the other end")
	}
}

// When the time is up, no round of changes is begun or gone on with: on a large
// board one takes seconds.
func TestChangesEndWithTheTime(t *testing.T) {
	p := few(3, 1)
	res, err := Arrange(context.Background(), p, Options{Seed: 1, Steps: 20_000})
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	lineups, err := choose(p, nil)
	require.NoError(t, err)
	pr := newProblem(p, lineups, mode{}, nil)
	places := pr.places(res.Plan)
	ctx, cancel := context.WithCancel(context.Background())
	r := &real{ctx: ctx, pr: pr, c: newCost(pr), left: realRuns}
	require.NotEmpty(t, r.changes(places, nil))
	require.NotEmpty(t, r.pairs(places))
	cancel()
	r.left = realRuns
	assert.Empty(t, r.changes(places, nil))
	assert.Empty(t, r.changes(places, []int64{1}))
	assert.Empty(t, r.pairs(places))
	assert.Equal(t, realRuns, r.left, "nothing was looked at")
}

package wiring

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/route"
)

// TestRunsAreNoShorterThanTheirEstimate: the arranger relies on it. Stage
// cables do not count: the router lets them leave elsewhere.
func TestRunsAreNoShorterThanTheirEstimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := row("a", "b", "c", "d")
		for i := range p.Units {
			at := &p.Units[i].Place.At
			at.X += layout.Length(rapid.IntRange(-15, 15).Draw(t, "dx")) * mm
			at.Y += layout.Length(rapid.IntRange(-10, 60).Draw(t, "dy")) * mm
			p.Units[i].Place.Turn = layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
		}
		l := &p.Lineups[0]
		straight, real := Estimate(p, l), Cables(p, l)
		require.Len(t, real, len(straight))
		for i, c := range real {
			s := straight[i]
			require.Equal(t, s.ID, c.ID)
			require.Equal(t, s.From, c.From)
			require.Equal(t, s.To, c.To)
			if c.OffBoard() {
				require.Zero(t, c.Cut)
				continue
			}
			require.GreaterOrEqual(t, c.Run, s.Run)
			require.Equal(t, route.Cut(c.Run), c.Cut)
			if c.Blocked == "" {
				require.Equal(t, s.Path[0], c.Path[0])
				require.Equal(t, s.Path[1], c.Path[len(c.Path)-1])
			}
		}
	})
}

func TestNoWay(t *testing.T) {
	p := row("a", "b")
	for _, x := range []layout.Length{1180, 1287} { // walls between and around, from edge to edge
		p.Board.Fixtures = append(p.Board.Fixtures, layout.Fixture{Name: "wall",
			Box: layout.Box{X0: x * mm, Y0: -50 * mm, Z0: -50 * mm, X1: (x + 1) * mm, Y1: 300 * mm, Z1: 100 * mm}})
	}
	p.Units[1].Place.At.X = 1000 * mm
	r := Wire(p)
	found := of(r, NoWay)
	require.NotEmpty(t, found)
	assert.Equal(t, Fault, found[0].Level)
	assert.Contains(t, found[0].Text, "No way through for the cable from a to b: ")
	assert.Equal(t, []string{"a", "b"}, found[0].Units)
	c := r.Wirings[0].Cables[1]
	assert.Equal(t, Estimate(p, &p.Lineups[0])[1].Path, c.Path, "it keeps its straight line")
	assert.NotEmpty(t, c.Kit)
}

func TestBendTight(t *testing.T) {
	p := row("a", "b")
	reqs := Requests(p, &p.Lineups[0])
	cables := Estimate(p, &p.Lineups[0])
	paths := make([]route.Path, len(cables))
	for i := range paths {
		paths[i] = route.Path{ID: cables[i].ID, Points: cables[i].Path, Length: cables[i].Run, Bend: reqs[i].BendRadius, OK: true}
	}
	paths[1].Bend, paths[1].OK = 12_345, false
	Lay(cables, reqs, paths, layout.Millimetres)
	f := &finder{p: p, l: &p.Lineups[0], w: &Wiring{Lineup: "all", Cables: cables}, r: &Result{Reel: DefaultReel}}
	f.runs()
	require.Len(t, f.found, 1)
	assert.Equal(t, BendTight, f.found[0].Code)
	assert.Equal(t, Caution, f.found[0].Level)
	assert.Contains(t, f.found[0].Text, "The cable from a to b must bend to a radius of 12.3 mm, and wants 20 mm.")
	assert.Equal(t, 12.345, f.found[0].Measured)
}

func TestDiameterIsOfPatchCables(t *testing.T) {
	p := row("a", "b")
	p.Cabling.Diameter = 5 * mm
	reqs := Requests(p, &p.Lineups[0])
	require.Len(t, reqs, 3)
	assert.Equal(t, 25*mm, reqs[1].BendRadius)
	assert.Equal(t, route.StageDiameter, reqs[0].Diameter)
	assert.Equal(t, route.StageDiameter, reqs[2].Diameter)
}

// BenchmarkKitTenLineups makes up the kit of ten line-ups of 18 cables and cuts
// it.
func BenchmarkKitTenLineups(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 2))
	var need [][]layout.Length
	for range 10 {
		var list []layout.Length
		for range 18 {
			list = append(list, layout.Length(120+rnd.IntN(600))*mm)
		}
		need = append(need, list)
	}
	ws := wirings(need, func(_, i int) [2]string { return [2]string{fmt.Sprint(i % 3), "flat"} })
	for b.Loop() {
		r := Result{Wirings: ws, Reel: 3000 * mm}
		r.Kit = kit(ws, nil, layout.Millimetres)
		r.cutList(0)
		if !r.Proved {
			b.Fatal("no proof")
		}
	}
}

// BenchmarkEstimate is what a search asks again and again.
func BenchmarkEstimate(b *testing.B) {
	p := row("a", "b", "c", "d", "e", "f", "g", "h")
	for b.Loop() {
		Total(Estimate(p, &p.Lineups[0]))
	}
}

func BenchmarkWire(b *testing.B) {
	p := row("a", "b", "c", "d", "e", "f", "g", "h")
	for b.Loop() {
		Wire(p)
	}
}

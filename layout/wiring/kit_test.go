package wiring

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// wirings makes line-ups of cables with those cuts; a cable's plugs are flat
// unless plugs says otherwise.
func wirings(cuts [][]layout.Length, plugs func(lineup, cable int) [2]string) []Wiring {
	var out []Wiring
	for i, list := range cuts {
		w := Wiring{Lineup: fmt.Sprint("gig ", i)}
		for k, c := range list {
			x := Cable{ID: fmt.Sprint("c", k+1), Cut: c, Plugs: [2]string{"flat", "flat"},
				From: layout.JackRef{Unit: fmt.Sprint("u", k), Jack: "out"}, To: layout.JackRef{Unit: fmt.Sprint("u", k+1), Jack: "in"}}
			if plugs != nil {
				x.Plugs = plugs(i, k)
			}
			w.Cables = append(w.Cables, x)
		}
		out = append(out, w)
	}
	return out
}

// requireWires checks that every cable of every line-up has one of the kit to
// itself, long enough and with its plugs.
func requireWires(t require.TestingT, ws []Wiring, k []KitCable) {
	byID := map[string]KitCable{}
	for _, c := range k {
		byID[c.ID] = c
	}
	require.Len(t, byID, len(k))
	uses := 0
	for _, w := range ws {
		taken := map[string]bool{}
		for i := range w.Cables {
			c := &w.Cables[i]
			if c.OffBoard() {
				require.Empty(t, c.Kit)
				continue
			}
			n, ok := byID[c.Kit]
			require.True(t, ok, "%s of %s", c.ID, w.Lineup)
			require.False(t, taken[c.Kit])
			taken[c.Kit] = true
			require.GreaterOrEqual(t, n.Cut, c.Cut)
			require.Equal(t, plugPair(c), n.Plugs)
			require.Contains(t, n.Uses, Use{w.Lineup, c.ID})
			uses++
		}
	}
	for _, c := range k {
		require.NotEmpty(t, c.Uses)
		uses -= len(c.Uses)
	}
	require.Zero(t, uses)
}

func TestKitIsTheLongestOfEachColumn(t *testing.T) {
	ws := wirings([][]layout.Length{{310 * mm, 120 * mm, 180 * mm, 240 * mm}, {150 * mm, 280 * mm, 260 * mm}}, nil)
	k := kit(ws, nil, layout.Millimetres)
	requireWires(t, ws, k)
	var cuts []layout.Length
	for _, c := range k {
		cuts = append(cuts, c.Cut)
	}
	assert.Equal(t, []layout.Length{310 * mm, 260 * mm, 180 * mm, 120 * mm}, cuts)
	assert.Equal(t, "A 310 mm", k[0].Label)
	assert.Equal(t, 450*mm, k[0].Stock)
}

func TestKitLeavesASharedLinkItsCable(t *testing.T) {
	// The first link is the same in both; by length alone it would take the
	// second-longest cable in one and the longest in the other.
	ws := wirings([][]layout.Length{{200 * mm, 300 * mm}, {200 * mm, 100 * mm}}, nil)
	k := kit(ws, nil, layout.Millimetres)
	requireWires(t, ws, k)
	require.Len(t, k, 2)
	assert.Equal(t, ws[0].Cables[0].Kit, ws[1].Cables[0].Kit)
	assert.Equal(t, 200*mm, k[1].Cut)
}

func TestKitKeepsPlugsApartAndTurnsCablesRound(t *testing.T) {
	ws := wirings([][]layout.Length{{200 * mm}, {150 * mm}, {100 * mm}}, func(i, _ int) [2]string {
		return [][2]string{{"flat", "angle"}, {"angle", "flat"}, {"flat", "flat"}}[i]
	})
	k := kit(ws, nil, layout.Millimetres)
	requireWires(t, ws, k)
	assert.Len(t, k, 2)
}

func TestKitRoundsUpToARule(t *testing.T) {
	ws := wirings([][]layout.Length{{200*mm + 1}}, nil)
	assert.Equal(t, 201*mm, kit(ws, nil, layout.Millimetres)[0].Cut)
	k := kit(ws, nil, layout.Inches)
	assert.Equal(t, layout.Inch*63/8, k[0].Cut)
	assert.Equal(t, "A 7 7/8 in", k[0].Label)
}

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 52: "BA", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, letters(i))
	}
}

// wiresWith is the plain twin: tries every way to give the cables of a line-up
// to those of a kit.
func wiresWith(need, kit []layout.Length) bool {
	if len(need) == 0 {
		return true
	}
	for i, k := range kit {
		if k >= need[0] && wiresWith(need[1:], slices.Delete(slices.Clone(kit), i, i+1)) {
			return true
		}
	}
	return false
}

func TestKitIsTheSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.SliceOfN(rapid.SliceOfN(rapid.Map(rapid.IntRange(1, 5), func(n int) layout.Length {
			return layout.Length(n) * 50 * mm
		}), 0, 4), 1, 4).Draw(t, "need")
		ws := wirings(need, nil)
		k := kit(ws, nil, layout.Millimetres)
		requireWires(t, ws, k)
		n, total := leastToMake(need, nil)
		require.Len(t, k, n)
		var sum layout.Length
		for _, c := range k {
			sum += c.Cut
		}
		require.Equal(t, total, sum)
	})
}

func TestKitWithManyPlugsWires(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Custom(func(t *rapid.T) layout.Length { return layout.Length(rapid.IntRange(1, 900_000).Draw(t, "cut")) })
		need := rapid.SliceOfN(rapid.SliceOfN(length, 0, 12), 1, 6).Draw(t, "need")
		ws := wirings(need, func(int, int) [2]string {
			form := rapid.SampledFrom([]string{"flat", "angle", "straight"})
			return [2]string{form.Draw(t, "a"), form.Draw(t, "b")}
		})
		requireWires(t, ws, kit(ws, nil, rapid.SampledFrom([]layout.LengthUnit{"", layout.Millimetres, layout.Inches}).Draw(t, "unit")))
	})
}

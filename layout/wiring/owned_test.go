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

func has(name string, mmLong int, count int, plugs ...string) layout.OwnedCable {
	c := layout.OwnedCable{Name: name, Length: layout.Length(mmLong) * mm, Count: count}
	copy(c.Plugs[:], plugs)
	return c
}

func TestKitTakesOwnCablesFirst(t *testing.T) {
	ws := wirings([][]layout.Length{{310 * mm, 240 * mm, 180 * mm}, {200 * mm}}, nil)
	own := []layout.OwnedCable{has("blue", 400, 1, "flat", "flat"), has("", 200, 2, "flat", "flat"), has("stray", 900, 1, "angle", "flat")}
	k := kit(ws, own, layout.Millimetres)
	requireWires(t, ws, k)
	var said []string
	for _, c := range k {
		said = append(said, fmt.Sprint(c.Label, " ", c.Owned, " ", c.Name))
	}
	assert.Equal(t, []string{"A 400 mm true blue", "B 240 mm false ", "C 200 mm true "}, said)
	assert.Zero(t, k[0].Stock)
	assert.Equal(t, []layout.OwnedCable{has("", 200, 1, "flat", "flat"), own[2]}, spare(k, own))
	assert.Equal(t, 1, own[0].Count, "the plan is not changed")
}

func TestOwnCablesWithPlugsNotKnown(t *testing.T) {
	ws := wirings([][]layout.Length{{300 * mm, 100 * mm}}, func(_, c int) [2]string {
		return [][2]string{{"flat", "angle"}, {"flat", "flat"}}[c]
	})
	// The long one with any plugs must leave the short link to the one that is
	// flat for sure, though that comes first to mind for it.
	k := kit(ws, []layout.OwnedCable{has("any", 350, 1), has("half", 120, 1, "", "flat")}, layout.Millimetres)
	requireWires(t, ws, k)
	assert.True(t, k[0].Owned && k[1].Owned)
	assert.Equal(t, "any", k[0].Name)
	assert.Equal(t, [2]string{"flat", "flat"}, k[1].Plugs, "what it must have")
}

// cheapestKit tries every way to give the player's cables plugs, or leave them
// at home, with every kit to be made besides; see smallestTotal.
func cheapestKit(ws []Wiring, own []layout.OwnedCable) (n int, total layout.Length) {
	pairs := plugPairs(ws)
	have := make(map[[2]string][]layout.Length)
	n = -1
	var give func(i int)
	give = func(i int) {
		if i == len(own) {
			made, sum := 0, layout.Length(0)
			for _, p := range pairs {
				var need [][]layout.Length
				for _, w := range ws {
					var list []layout.Length
					for k := range w.Cables {
						if plugPair(&w.Cables[k]) == p {
							list = append(list, w.Cables[k].Cut)
						}
					}
					need = append(need, list)
				}
				m, s := leastToMake(need, have[p])
				made, sum = made+m, sum+s
			}
			if n < 0 || made < n || made == n && sum < total {
				n, total = made, sum
			}
			return
		}
		give(i + 1)
		for _, p := range pairs {
			if (&piece{cable: &own[i]}).fits(p) {
				have[p] = append(have[p], own[i].Length)
				give(i + 1)
				have[p] = have[p][:len(have[p])-1]
			}
		}
	}
	give(0)
	return n, total
}

// leastToMake tries every multiset of the lengths that occur besides those that
// are there, the fewest cables first, and returns the least number and the least
// total length.
func leastToMake(need [][]layout.Length, have []layout.Length) (n int, total layout.Length) {
	var lengths []layout.Length
	for _, list := range need {
		lengths = append(lengths, list...)
	}
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	for ; ; n++ {
		best := layout.Length(-1)
		var choose func(from int, kit []layout.Length, sum layout.Length)
		choose = func(from int, kit []layout.Length, sum layout.Length) {
			if len(kit) == n {
				for _, list := range need {
					if !wiresWith(list, slices.Concat(have, kit)) {
						return
					}
				}
				if best < 0 || sum < best {
					best = sum
				}
				return
			}
			for i := from; i < len(lengths); i++ {
				choose(i, append(kit, lengths[i]), sum+lengths[i])
			}
		}
		choose(0, nil, 0)
		if best >= 0 {
			return n, best
		}
	}
}

func TestKitLeavesTheLeastToMake(t *testing.T) {
	used := 0
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Custom(func(t *rapid.T) layout.Length { return layout.Length(rapid.IntRange(1, 6).Draw(t, "length")) * 50 * mm })
		form := rapid.SampledFrom([]string{"flat", "angle"})
		need := rapid.SliceOfN(rapid.SliceOfN(length, 0, 3), 1, 3).Draw(t, "need")
		ws := wirings(need, func(int, int) [2]string { return [2]string{form.Draw(t, "a"), form.Draw(t, "b")} })
		known := rapid.SampledFrom([]string{"", "flat", "angle"})
		own := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) layout.OwnedCable {
			return layout.OwnedCable{Length: length.Draw(t, "own"), Count: 1, Plugs: [2]string{known.Draw(t, "a"), known.Draw(t, "b")}}
		}), 0, 4).Draw(t, "own")
		k := kit(ws, own, layout.Millimetres)
		requireWires(t, ws, k)
		n, sum := 0, layout.Length(0)
		taken := map[int]bool{}
		for _, c := range k {
			if !c.Owned {
				n, sum = n+1, sum+c.Cut
				continue
			}
			used++
			require.False(t, taken[c.piece.of])
			taken[c.piece.of] = true
			require.Equal(t, own[c.piece.of].Length, c.Cut)
			require.True(t, c.piece.fits(c.Plugs))
		}
		wantN, wantSum := cheapestKit(ws, own)
		require.Equal(t, wantN, n, "to make")
		require.Equal(t, wantSum, sum)
	})
	assert.Positive(t, used)
}

func TestAnOwnCableThatIsTooShortIsTold(t *testing.T) {
	p := pair() // down to the deck and up again, cut to 212 mm
	p.Owned.Cables = []layout.OwnedCable{has("blue", 190, 1, "flat", "flat"), has("tiny", 60, 1, "flat", "flat")}
	r := Wire(p)
	require.Len(t, r.Kit, 1)
	assert.False(t, r.Kit[0].Owned)
	short := codesOf(r, KitShort)
	require.Len(t, short, 1, "the tiny one was never meant")
	assert.Equal(t, Issue{Code: KitShort, Level: Caution, Lineup: "all", Units: []string{"a", "b"},
		Text:     `The cable "blue" of 190 mm that you have is 22 mm too short for the way from a to b, which takes 212 mm. Bring the two closer, or make a longer one.`,
		Measured: 190, Limit: 212, Unit: "mm"}, short[0])

	p.Owned.Cables[0].Length = 212 * mm
	r = Wire(p)
	assert.Empty(t, codesOf(r, KitShort))
	assert.True(t, r.Kit[0].Owned)
	assert.Empty(t, r.List, "nothing to make")
}

func TestCutListBeginsWithTheReelThatIsThere(t *testing.T) {
	r := &Result{Reel: 1000 * mm}
	for i, l := range []layout.Length{500, 400, 350, 300, 250} {
		r.Kit = append(r.Kit, KitCable{ID: letters(i), Cut: l * mm, Owned: l == 400})
	}
	r.cutList(620 * mm)
	require.Len(t, r.List, 2)
	assert.Equal(t, Reel{Length: 620 * mm, Owned: true, Kit: []string{"C", "E"}, Left: 20 * mm}, r.List[0])
	assert.Equal(t, Reel{Length: 1000 * mm, Kit: []string{"A", "D"}, Left: 200 * mm}, r.List[1])
	assert.True(t, r.Proved)
}

// What is cut from the player's reel is the most that any choice gives.
func TestFillTakesTheMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var cables []*KitCable
		for range rapid.IntRange(0, 9).Draw(t, "cables") {
			cables = append(cables, &KitCable{ID: letters(len(cables)), Cut: layout.Length(rapid.IntRange(1, 40).Draw(t, "cut")) * 10 * mm})
		}
		reel := layout.Length(rapid.IntRange(0, 90).Draw(t, "reel")) * 10 * mm
		most := layout.Length(0)
		for set := range 1 << len(cables) {
			var sum layout.Length
			for i, k := range cables {
				if set>>i&1 == 1 {
					sum += k.Cut
				}
			}
			if sum <= reel {
				most = max(most, sum)
			}
		}
		var sum layout.Length
		got := fill(cables, reel)
		for i, k := range got {
			sum += k.Cut
			require.NotContains(t, got[:i], k)
		}
		require.Equal(t, most, sum)
	})
}

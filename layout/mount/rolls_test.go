package mount

import (
	"context"
	"testing"

	"footplank/layout"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func needOf(ns []Need, s Side) *Need {
	for i := range ns {
		if ns[i].Side == s {
			return &ns[i]
		}
	}
	return nil
}

func TestNeedsByHand(t *testing.T) {
	fixed, swap := unit("f", 70, 120, 0, 0, 0), unit("s", 70, 120, 100, 0, 0)
	swap.Mount = layout.Swap
	p := planOf(fixed, swap)
	p.Owned.Rolls = []layout.OwnedRoll{{Kind: "interlock", Width: 20 * mm, Length: 200 * mm}, {Kind: "hook-and-loop", Width: 25 * mm, Length: 2000 * mm}}
	ns := Lay(p).Needs(context.Background(), p)
	require.Len(t, ns, 3)
	// Two strips of 62 mm on the board and two on the unit: three fill 186 of
	// 200 mm, the fourth needs a new roll.
	n := needOf(ns, InterlockSide)
	assert.Equal(t, 20*mm, n.Width)
	assert.Equal(t, [2]layout.Length{124 * mm, 124 * mm}, [2]layout.Length{n.BoardLength, n.UnitLength})
	assert.Equal(t, []CutRoll{
		{200 * mm, true, []layout.Length{62 * mm, 62 * mm, 62 * mm}, 14 * mm},
		{RollLength, false, []layout.Length{62 * mm}, 938 * mm},
	}, n.Rolls)
	assert.Equal(t, 1, n.Buy)
	for _, side := range []Side{HookSide, LoopSide} {
		n := needOf(ns, side)
		assert.Equal(t, 25*mm, n.Width, "the roll that the player has")
		assert.Zero(t, n.Buy)
		assert.True(t, n.Rolls[0].Owned)
		assert.Positive(t, n.Length())
	}
	assert.Empty(t, needOf(ns, HookSide).OnUnits)
	assert.Zero(t, needOf(ns, LoopSide).OnBoard)
}

// A strip longer than a new roll is cut in one where the player's roll is long
// enough, even if other pieces would fill that roll better; else it is put
// together from two.
func TestLongPiecesStayWhole(t *testing.T) {
	for _, c := range []struct {
		pieces, have []layout.Length
		want         []CutRoll
	}{
		{[]layout.Length{700, 1200, 600}, []layout.Length{1300, 5000}, []CutRoll{
			{1300 * mm, true, []layout.Length{1200 * mm}, 100 * mm},
			{5000 * mm, true, []layout.Length{700 * mm, 600 * mm}, 3700 * mm}}},
		{[]layout.Length{700, 1200, 600}, []layout.Length{1300}, []CutRoll{
			{1300 * mm, true, []layout.Length{1200 * mm}, 100 * mm},
			{RollLength, false, []layout.Length{700 * mm}, 300 * mm},
			{RollLength, false, []layout.Length{600 * mm}, 400 * mm}}},
		{[]layout.Length{1200, 1400}, []layout.Length{2700}, []CutRoll{
			{2700 * mm, true, []layout.Length{1400 * mm, 1200 * mm}, 100 * mm}}},
		{[]layout.Length{1200}, []layout.Length{300}, []CutRoll{
			{300 * mm, true, []layout.Length{200 * mm}, 100 * mm},
			{RollLength, false, []layout.Length{1000 * mm}, 0}}},
	} {
		for _, list := range [][]layout.Length{c.pieces, c.have} {
			for i := range list {
				list[i] *= mm
			}
		}
		var n Need
		n.cut(context.Background(), c.pieces, c.have)
		assert.Equal(t, c.want, n.Rolls)
	}
}

// The fullest filling of a roll against trying every subset.
func TestFullestAgainstEverySubset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []layout.Length
		for range rapid.IntRange(0, 9).Draw(t, "count") {
			pieces = append(pieces, layout.Length(rapid.IntRange(8, 120).Draw(t, "length"))*mm)
		}
		roll := layout.Length(rapid.IntRange(0, 400).Draw(t, "roll")) * mm
		best := layout.Length(0)
		for set := range 1 << len(pieces) {
			sum := layout.Length(0)
			for i, l := range pieces {
				sum += l * layout.Length(set>>i&1)
			}
			if sum <= roll {
				best = max(best, sum)
			}
		}
		got := layout.Length(0)
		for _, l := range fullest(pieces, roll) {
			got += l
		}
		assert.Equal(t, best, got)
	})
}

// Every piece is cut once, and no roll gives more than it has.
func TestNothingIsCutTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := slotPlan(t)
		for range rapid.IntRange(0, 3).Draw(t, "rolls") {
			p.Owned.Rolls = append(p.Owned.Rolls, layout.OwnedRoll{Kind: rapid.SampledFrom([]string{"interlock", "hook-and-loop"}).Draw(t, "kind"),
				Width: rapid.SampledFrom(Widths).Draw(t, "width"), Length: layout.Length(rapid.IntRange(0, 700).Draw(t, "length")) * mm})
		}
		for _, n := range Lay(p).Needs(context.Background(), p) {
			sum := layout.Length(0)
			for _, r := range n.Rolls {
				cuts := layout.Length(0)
				for _, l := range r.Cuts {
					cuts += l
				}
				if r.Left < 0 || cuts+r.Left != r.Length {
					t.Fatalf("roll %v", r)
				}
				sum += cuts
			}
			if sum != n.Length() {
				t.Fatalf("%s %s %s: %s cut of %s", n.Kind, n.Side, n.Width, sum, n.Length())
			}
		}
	})
}

package tryout

import (
	"context"
	"fmt"
	"math/bits"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/arrange"
)

// Verdicts, counts of moves, sets of what collides, growth and what makes room
// are compared with trying every arrangement.
func TestAnswersAgreeWithExhaustiveSearch(t *testing.T) {
	seen := map[Verdict]int{}
	fixedMoved, grew, roomy := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawRow(t)
		a, err := Try(context.Background(), r.plan(), r.question(), Options{Seed: 1, Steps: 50_000, Workers: 1})
		require.NoError(t, err)
		seen[a.Verdict]++
		fixed, swap := r.fewest()
		switch {
		case fixed < 0:
			require.Equal(t, Impossible, a.Verdict)
			require.True(t, a.Proved)
			r.requireReasons(t, a)
			grew += len(a.Growth)
			roomy += len(a.Without)
			return
		case fixed+swap == 0:
			require.Equal(t, Fits, a.Verdict)
			require.Empty(t, a.Moved)
		default:
			require.Equal(t, Moves, a.Verdict)
			require.True(t, a.Proved)
			require.Equal(t, fixed, a.FixedUnits)
			require.Equal(t, fixed+swap, a.Units)
			fixedMoved += fixed
		}
		requireAnswer(t, r, a)
	})
	for _, v := range []Verdict{Fits, Moves, Impossible} {
		assert.Positive(t, seen[v], v)
	}
	assert.Zero(t, seen[Undecided])
	assert.Positive(t, fixedMoved)
	assert.Positive(t, grew)
	assert.Positive(t, roomy)
}

// requireReasons checks why something does not fit.
func (r *row) requireReasons(t *rapid.T, a *Answer) {
	require.NotNil(t, a.Conflict)
	n := len(r.units)
	all := uint(1)<<n - 1
	if r.fits(all, 0) {
		t.Fatal("the twin is at odds with itself")
	}
	// The set collides in its line-ups; no smaller one does there.
	only := *r
	only.lineups, only.tried, only.place = nil, nil, nil
	for l := range r.lineups {
		if slices.Contains(a.Conflict.Lineups, fmt.Sprintf("l%d", l)) {
			only.lineups, only.tried, only.place = append(only.lineups, r.lineups[l]), append(only.tried, r.tried[l]), append(only.place, r.place[l])
		}
	}
	set := uint(0)
	for i := range r.units {
		if slices.Contains(a.Conflict.Units, fmt.Sprintf("u%d", i)) {
			set |= 1 << i
		}
	}
	require.Contains(t, a.Conflict.Units, "new")
	require.False(t, only.fits(all, all&^set), "%v do not collide", a.Conflict.Units)
	require.True(t, a.Conflict.Smallest)
	for s := uint(0); s <= all; s++ {
		if bits.OnesCount(s) < bits.OnesCount(set) {
			require.True(t, only.fits(all, all&^s), "a smaller set collides: %b", s)
		}
	}
	for i := range r.units {
		// Out of a line-up that is not tried nothing is taken.
		one := *r
		one.lineups = nil
		for l, ids := range r.lineups {
			if r.tried[l] {
				ids = slices.DeleteFunc(slices.Clone(ids), func(j int) bool { return j == i })
			}
			one.lineups = append(one.lineups, ids)
		}
		gone := uint(0)
		if r.units[i].fixed {
			gone = 1 << i
		}
		id := fmt.Sprintf("u%d", i)
		if set>>i&1 == 1 {
			require.Equal(t, one.fits(all, gone), slices.Contains(a.Without, id), "without %s", id)
		}
	}
	r.requireGrowth(t, a, all)
}

// requireGrowth compares the growth in width; no depth helps in a row.
func (r *row) requireGrowth(t *rapid.T, a *Answer, all uint) {
	want, what := 0, ""
	for g := 1; g <= 20 && what == ""; g++ {
		left, right := *r, *r
		left.slot[0] -= g
		right.slot[1] += g
		if left.slot[0] >= 0 && left.fits(all, 0) || right.slot[1] <= r.width && right.fits(all, 0) {
			want, what = g, GrowSlot
		}
	}
	for g := 1; g <= 20 && what == ""; g++ {
		board := *r
		board.width += g
		board.slot[1] += g
		if board.fits(all, 0) {
			want, what = g, GrowBoard
		}
	}
	var across []Growth
	for _, g := range a.Growth {
		if g.Side == layout.Left || g.Side == layout.Right {
			across = append(across, g)
		}
	}
	if what == "" {
		require.Empty(t, across)
		return
	}
	require.Len(t, across, 1)
	require.Equal(t, what, across[0].What)
	require.Equal(t, layout.Length(want)*step, across[0].By)
	require.True(t, across[0].Exact)
}

// requireAnswer checks the plan and the moves of an answer that fits.
func requireAnswer(t *rapid.T, r *row, a *Answer) {
	m, err := arrange.NewModel(a.Plan, nil, arrange.Apart, arrange.PlugsAsTheyAre, nil)
	require.NoError(t, err)
	now, whole := m.Now(a.Plan)
	require.True(t, whole)
	require.True(t, arranged(context.Background(), m.Problem(), now), "what is answered collides")
	require.NotNil(t, a.Plan.Unit(a.Unit))
	listed := map[string]bool{}
	for _, mv := range a.Moved {
		listed[mv.Unit] = true
		require.NotEqual(t, mv.From, mv.To)
		require.NotEmpty(t, mv.Lineups)
	}
	require.Len(t, listed, a.Units)
	before := r.plan()
	for i := range before.Lineups {
		for _, u := range before.UnitsIn(&before.Lineups[i]) {
			now := a.Plan.Unit(u.ID)
			if now == nil || !a.Plan.Present(&a.Plan.Lineups[i], u.ID) || listed[u.ID] {
				continue
			}
			was, _ := before.PlaceOf(&before.Lineups[i], u)
			is, _ := a.Plan.PlaceOf(&a.Plan.Lineups[i], now)
			require.Equal(t, was, is, "%s moves and is not listed", u.ID)
		}
	}
}

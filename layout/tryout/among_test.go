package tryout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// What is found among few is an arrangement of all in which the others stay;
// where the whole search with the others held finds one, so does this.
func TestAmongFewIsAnArrangementOfAll(t *testing.T) {
	ctx := context.Background()
	p := read(t, club)
	opt := pack.Options{Seed: 1, Steps: 50_000, Workers: 1}
	found, none := 0, 0
	for _, n := range []string{"mini", "compact", "large-two-switch", "four-switch"} {
		for _, free := range []layout.Mount{layout.Swap, layout.Fixed} {
			tr := put(p, &Question{Candidate: form(t, n), Slot: "dirt"})
			m, err := arrange.NewModel(tr.plan, nil, arrange.Apart, arrange.PlugsToChoose, nil)
			require.NoError(t, err)
			at, _ := m.Now(tr.plan)
			may := make([]bool, len(at))
			for i, it := range m.Items() {
				may[i] = it.Unit.Mount == free
			}
			places := among(ctx, m.Problem(), at, may, opt)
			res, err := pack.Solve(ctx, hold(m.Problem(), at, may), opt)
			require.NoError(t, err)
			require.NotEqual(t, pack.Undecided, res.Verdict)
			assert.Equal(t, res.Verdict == pack.Fits, places != nil, "%s, %v free", n, free)
			if places == nil {
				none++
				continue
			}
			found++
			assert.True(t, arranged(ctx, m.Problem(), places))
			for i := range places {
				if !may[i] && at[i].Region >= 0 {
					assert.Equal(t, at[i], places[i])
				}
			}
		}
	}
	assert.Positive(t, found)
	assert.Positive(t, none)
}

// A mirror changes no verdict, and what is found in it stands on the board.
func TestMirrorsAgree(t *testing.T) {
	ctx := context.Background()
	p := read(t, club)
	opt := pack.Options{Seed: 1, Steps: 50_000, Workers: 1, Complete: true}
	seen := map[pack.Verdict]int{}
	for _, n := range []string{"mini", "compact", "large-two-switch", "four-switch"} {
		tr := put(p, &Question{Candidate: form(t, n), Slot: "dirt"})
		m, err := arrange.NewModel(tr.plan, nil, arrange.Apart, arrange.PlugsAtLeast, nil)
		require.NoError(t, err)
		want, err := pack.Solve(ctx, m.Problem(), opt)
		require.NoError(t, err)
		for _, side := range []layout.Wall{layout.Left, layout.Right, layout.Front, layout.Back} {
			q := mirrored(m.Problem(), side)
			assert.Equal(t, side == layout.Right || side == layout.Back, q == m.Problem())
			got, err := pack.Solve(ctx, q, opt)
			require.NoError(t, err)
			assert.Equal(t, want.Verdict, got.Verdict, "%s, %v", n, side)
			seen[got.Verdict]++
			if got.Verdict == pack.Fits {
				unmirrored(got.Places, side)
				assert.True(t, arranged(ctx, m.Problem(), got.Places), "%s, %v", n, side)
			}
		}
		assert.Equal(t, m.Problem().Items[0].Regions, mirrored(mirrored(m.Problem(), layout.Left), layout.Left).Items[0].Regions)
	}
	assert.Positive(t, seen[pack.Fits])
	assert.Positive(t, seen[pack.Impossible])
}

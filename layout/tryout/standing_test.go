package tryout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/arrange"
	"footplank/pack"
)

// What is said to fit without a search fits by one, and says something of the
// smaller sets.
func TestStandingSetsFit(t *testing.T) {
	p := read(t, club)
	sets := 0
	for _, n := range []string{"mini", "compact", "large-two-switch"} {
		tr := put(p, &Question{Candidate: form(t, n), Slot: "dirt", Lineups: []string{"loud"}})
		m, err := arrange.NewModel(arrange.Only(tr.plan, []string{"loud"}), nil, arrange.Apart, arrange.PlugsAtLeast, nil)
		require.NoError(t, err)
		opt := pack.Options{Seed: 1, Steps: 50_000, Workers: 1}
		c := newCulprit(context.Background(), m, opt)
		c.standing(tr.plan, tr.unit.ID)
		for _, set := range c.fits {
			q, items := c.problem(set)
			require.NotEmpty(t, items)
			res, err := pack.Solve(context.Background(), q, opt)
			require.NoError(t, err)
			assert.Equal(t, pack.Fits, res.Verdict, "%s: set %b", n, set)
			sets++
		}
	}
	assert.Greater(t, sets, 3)
}

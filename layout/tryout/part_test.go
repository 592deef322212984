package tryout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// clash is a board that one of its line-ups is too large for.
const clash = `title = "One gig too many"
[board]
size = [200, 140]
mass = "2kg"
plug_room = { left = 30, right = 30, back = 30 }
[[slot]]
name = "wide"
at = [0, 0]
size = [200, 140]
[[unit]]
id = "grit"
form = "mini"
mount = "swap"
[[unit]]
id = "broad"
form = "compact"
mount = "swap"
[[unit]]
id = "vast"
form = "four-switch"
mount = "swap"
[chain]
order = ["instrument", "slot:wide", "amp"]
[[lineup]]
name = "small"
fill = { wide = ["grit"] }
[[lineup]]
name = "middle"
fill = { wide = ["broad", "grit"] }
[[lineup]]
name = "large"
fill = { wide = ["vast"] }
`

// Where a plan's line-ups do not all fit, only those asked for are looked at.
func TestLineupsThatClash(t *testing.T) {
	p := read(t, clash)
	ctx := context.Background()
	all := try(t, p, Question{Candidate: form(t, "mini"), Slot: "wide"})
	assert.Equal(t, Impossible, all.Verdict)
	assert.Contains(t, all.Conflict.Units, "vast")

	q := Question{Candidate: form(t, "mini"), Slot: "wide", Lineups: []string{"small"}}
	b, err := Prepare(ctx, p, Options{Seed: 1, Steps: 20_000, Lineups: q.Lineups})
	require.NoError(t, err)
	require.True(t, b.Part())
	require.Len(t, b.Plan().Lineups, 1)
	a, err := b.Try(ctx, q)
	require.NoError(t, err)
	assert.Equal(t, Fits, a.Verdict)
	assert.Contains(t, a.Notes[0], "only small was looked at")

	// One of another line-up; what it replaces is in that still.
	vast := Candidate{Kind: OfPlan, Name: "vast", Unit: *p.Unit("vast")}
	a, err = b.Try(ctx, Question{Candidate: vast, Slot: "wide", InsteadOf: "grit", Lineups: []string{"small"}})
	require.NoError(t, err)
	assert.Equal(t, Impossible, a.Verdict)
	assert.Equal(t, "vast", a.Unit)
	a, err = b.Try(ctx, Question{Candidate: form(t, "compact"), Slot: "wide", InsteadOf: "grit", Lineups: []string{"small"}})
	require.NoError(t, err)
	assert.True(t, a.Room())
	assert.Len(t, a.Notes, 1, "it stays in line-up middle")

	_, err = b.Try(ctx, Question{Candidate: form(t, "mini"), Slot: "wide", Lineups: []string{"middle"}})
	assert.ErrorContains(t, err, `line-up "middle" is not looked at`)

	// A plan that fits is looked at as a whole.
	b, err = Prepare(ctx, read(t, club), Options{Seed: 1, Steps: 20_000, Lineups: []string{"quiet"}})
	require.NoError(t, err)
	assert.False(t, b.Part())
	assert.Len(t, b.Plan().Lineups, 2)
}

// A brief answer about what does not fit says who collides and who could go.
func TestBriefReasons(t *testing.T) {
	p := read(t, club)
	q := Question{Candidate: form(t, "large-two-switch"), Slot: "dirt", InsteadOf: "grit"}
	full := try(t, p, q)
	brief, err := Try(context.Background(), p, q, Options{Seed: 1, Steps: 50_000, Workers: 1, Brief: true})
	require.NoError(t, err)
	require.Equal(t, Impossible, brief.Verdict)
	assert.NotEmpty(t, brief.Conflict.Units)
	assert.Equal(t, full.Conflict, brief.Conflict)
	assert.NotEmpty(t, brief.Without)
	assert.Equal(t, full.Without, brief.Without)
	assert.NotEmpty(t, full.Growth)
	assert.Empty(t, brief.Growth)
}

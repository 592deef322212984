package tui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
	"footplank/layout/tryout"
	"footplank/tui/edit"
)

// What cannot have changed with the plan stays known; the rest is shown as of
// before and is asked again by itself.
func TestTriesOutliveEdits(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "y")
	require.Equal(t, tryout.Fits, p.verdict())
	p.keys("/").text("400x300x60").keys("enter")
	require.Equal(t, tryout.Impossible, p.verdict())
	p.keys("/", "esc", "esc", "tab", "shift+left")
	p.held = true
	p.keys("y")
	answered := p.m.trial.answers
	require.NotEmpty(t, answered, "a refusal is of no place")
	for _, a := range answered {
		assert.Equal(t, tryout.Impossible, a.Verdict)
	}
	assert.Contains(t, p.m.View(), "before: fits")
	p.keys("w")
	assert.Contains(t, p.m.View(), "before: ")
	p.keys("esc", "i")
	assert.Equal(t, trying, p.m.mode, "there is nothing of it in full yet")
	p.keys("enter")
	assert.Equal(t, trying, p.m.mode, "what was found with another plan is not taken")
	p.release()
	assert.Equal(t, tryout.Fits, p.verdict())
	assert.NotContains(t, p.m.View(), "before: ")
	now := p.m.trial.answer()
	p.keys("esc", "u", "y")
	assert.Equal(t, tryout.Fits, p.verdict())
	assert.NotSame(t, now, p.m.trial.answer())
	assert.Empty(t, p.m.trial.asked)
	p.keys("esc", "r", "y")
	assert.Same(t, now, p.m.trial.answer(), "the plan as it was then: known still")
}

// All that was tried is asked again, in the background, not only the chosen one.
func TestTriesAreAskedAgain(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "y", "down", "down", "down", "esc")
	n := len(p.m.trial.answers)
	require.Greater(t, n, 3)
	p.keys("tab", "shift+left", "y")
	assert.Len(t, p.m.trial.answers, n)
	p.keys("esc", "tab", "shift+left")
	p.held = true
	p.keys("y")
	p.hold, p.held = p.hold[1:], true
	p.send(readyMsg{p.m.trial.base, prepared{bench: deck{p.m.trial.base}}, nil})
	require.NotEmpty(t, p.m.trial.asked)
	p.keys("x")
	p.release()
	assert.Less(t, len(p.m.trial.answers), n, "stopped")
	assert.Contains(t, p.m.View(), "? Peg Watch")
	p.keys("x")
	assert.Len(t, p.m.trial.answers, n, "x goes on")
}

// gigs do not go together: only one fits with the large unit.
const gigs = `title = "One gig too many"
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
name = "large"
fill = { wide = ["vast"] }
[[lineup]]
name = "small"
fill = { wide = ["grit"] }
[[lineup]]
name = "middle"
fill = { wide = ["broad", "grit"] }
`

// Where the plan's line-ups do not go together units are tried in the one on
// screen, as the command does it.
func TestTryingWhereLineupsClash(t *testing.T) {
	doc, err := plan.Parse("board.toml", []byte(gigs), nil)
	require.NoError(t, err)
	p := settledPlayer(t, Options{NoColor: true}, 100, 30)
	p.m.history = edit.New(doc.Plan)
	p.keys("l", "y", "/").text("mini-tuner").keys("enter")
	require.Equal(t, "small", p.m.lineupNow().Name)
	require.Equal(t, tryout.Fits, p.verdict())
	require.True(t, p.m.trial.ready.part)
	require.Len(t, p.m.plan().Lineups, 3, "the others are there still")
	assert.Contains(t, p.m.View(), "mini-tuner")
	p.keys("enter")
	assert.Equal(t, trying, p.m.mode)
	assert.Contains(t, p.m.note.text, "no plan of them all")
	p.keys("l")
	require.Equal(t, "middle", p.m.lineupNow().Name)
	assert.Equal(t, []string{"middle"}, p.m.trial.ready.lines)
	assert.NotEmpty(t, p.verdict())
	p.keys("l")
	require.Equal(t, "large", p.m.lineupNow().Name)
	p.keys("g")
	assert.Equal(t, tryout.Impossible, p.verdict(), "in every line-up it does not fit")
	p.keys("L", "g")
	assert.NotEmpty(t, p.verdict())
	p.keys("esc")
	assert.Equal(t, onBoard, p.m.mode)
	assert.False(t, p.m.history.Dirty())
}

//go:build unix

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/plan"
)

// The real program, from nothing to a file: a new plan by its questions, in a
// terminal of the least size.
func TestNewPlanInATerminal(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "mine.toml")
	s := openScreen(t, 80, 24)
	for _, step := range []struct{ see, press string }{
		{"New plan: by a few questions", "\r"},
		{"what do you measure in?", "\r"},
		{"1 of 4: the board", "Mine\x1b[B\x1b[B700\r"},
		{"2 of 4: add a unit", "mini-tuner\r"},
		{"New unit: mini-tuner", "Watch\t2\r"},
		{"2 units added", "\x1b"},
		{"2 of 4: units", "n"},
		{"3 of 4: your gigs", "barn\r"},
		{"4 of 4: the chain", "n"},
		{"arrange them now", "b"},
		{"2 units", "s"},
		{"Save as", "\x15" + path + "\r"},
		{"Saved to", "q"},
	} {
		s.wait(step.see)
		s.press(step.press)
	}
	code, _ := s.end()
	require.Equal(t, exitFine, code)
	doc, err := plan.Open(path, nil)
	require.NoError(t, err)
	p := doc.Plan
	assert.Equal(t, "Mine", p.Title)
	assert.Equal(t, 700*layout.Millimetre, p.Board.W)
	assert.Equal(t, "barn", p.Lineups[0].Name)
	require.Len(t, p.Units, 2)
	assert.Equal(t, "Watch 2", p.Units[1].Label)
	assert.Len(t, p.Chain.Stops, 4)
}

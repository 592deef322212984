package tui

import (
	"context"
	"errors"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/plan"
)

func TestSaving(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("s")
	assert.Empty(t, p.disk.saves, "nothing to save")
	p.keys("tab", "p", "s")
	assert.Equal(t, []string{"save"}, p.disk.saves)
	assert.True(t, p.disk.last.Unit("tuner").Pinned)
	assert.False(t, p.m.history.Dirty())
	p.keys("u")
	assert.True(t, p.m.history.Dirty(), "taken back, it differs from the file")
	p.keys("r")
	assert.False(t, p.m.history.Dirty())
	p.keys("q")
	assert.True(t, p.left)
}

func TestSaveAsAsksBeforeItOverwrites(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("tab", "p", "S", "backspace").text("x")
	p.disk.fail = plan.ErrExists
	p.keys("enter")
	assert.Equal(t, []string{"board.tomx"}, p.disk.saves)
	assert.Equal(t, asking, p.m.mode)
	p.disk.fail = nil
	p.keys("o")
	assert.Equal(t, []string{"board.tomx", "board.tomx!"}, p.disk.saves)
	assert.Equal(t, "board.tomx", p.m.path)
	assert.False(t, p.m.history.Dirty())
}

func TestAFileChangedUnderneathIsNotOverwrittenUnasked(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("tab", "p")
	p.disk.fail = plan.ErrChanged
	p.keys("s")
	assert.Contains(t, p.m.View(), "changed by another program")
	p.keys("esc")
	assert.Len(t, p.disk.saves, 1)
	p.keys("s", "n", "backspace").text("2")
	p.disk.fail = nil
	p.keys("enter")
	assert.Equal(t, "board.tom2", p.disk.saves[2])
	assert.False(t, p.m.history.Dirty())
}

func TestFailedSavingLosesNothing(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 120, 40).keys("tab", "p")
	p.disk.fail = errors.New("no space left on device")
	p.keys("q", "s")
	assert.False(t, p.left, "not left without having saved")
	assert.Contains(t, p.m.View(), "no space left on device")
	assert.True(t, p.m.history.Dirty())
}

func TestTheExampleAsksForAName(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	p.m.path = ""
	p.keys("s")
	assert.Equal(t, naming, p.m.mode)
	p.keys("enter")
	assert.Equal(t, []string{"trial-board.toml"}, p.disk.saves)
}

func TestQuitAsks(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("tab", "p", "q", "esc")
	assert.False(t, p.left)
	p.keys("q", "s")
	assert.True(t, p.left)
	assert.Equal(t, []string{"save"}, p.disk.saves)

	p = newPlayer(t, Options{}, 80, 24).keys("tab", "p", "ctrl+c")
	assert.False(t, p.left)
	p.keys("ctrl+c")
	assert.True(t, p.left, "the second ctrl+c leaves")
	assert.Empty(t, p.disk.saves)
}

// What is worked out by itself is not worked out again and again where the program
// meets a fault in it: another plan may go better.
func TestAFaultIsNotRepeatedForOnePlan(t *testing.T) {
	n := 0
	for name, opt := range map[string]Options{
		"fastener": {fasten: func(*layout.Plan) *mount.Result { n++; panic("no bed") }},
		"sums":     {sum: func(context.Context, *layout.Plan) (*sums, error) { n++; panic("no sum") }},
	} {
		n = 0
		p := newPlayer(t, opt, 120, 40)
		assert.Contains(t, p.m.note.text, "A fault of this program", name)
		assert.Equal(t, 1, n, name)
		p.keys("tab")
		assert.Equal(t, 1, n, name)
		p.keys("p")
		assert.Equal(t, 2, n, name)
	}
}

func TestAFaultInTheBackgroundIsToldAndLosesNothing(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 120, 40).keys("tab", "p")
	p.deliver(p.m.guarded(arranging, func() tea.Msg { panic("wires crossed") })())
	assert.Contains(t, p.m.View(), "wires crossed")
	assert.True(t, p.m.history.Dirty())
}

package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

// The whole way to the disk and back, on a file of the player's own.
func TestWhatIsEditedIsInTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine.toml")
	before := strings.ReplaceAll(ownPlan, "\t", "")
	require.NoError(t, os.WriteFile(path, []byte(before), 0o600))
	doc, err := plan.Open(path, nil)
	require.NoError(t, err)
	p := &player{t: t, m: New(doc, Options{NoColor: true})}
	p.send(tea.WindowSizeMsg{Width: 80, Height: 24})

	p.keys("tab", "space", "right", "right", "up", "space", "p", "s")
	after := read(t, path)
	assert.Contains(t, after, "at = [30, 15]")
	assert.Contains(t, after, "pinned = true")
	assert.Contains(t, after, "# the loud one")
	assert.False(t, p.m.history.Dirty())

	// Only the lines of that unit differ.
	var gone []string
	for _, line := range strings.Split(before, "\n") {
		if !strings.Contains(after, line) {
			gone = append(gone, line)
		}
	}
	assert.Equal(t, []string{"place = { at = [20, 10] }"}, gone)

	// Taken back and saved, the plan is the first one again.
	p.keys("u", "u", "s")
	again, err := plan.Open(path, nil)
	require.NoError(t, err)
	first, err := plan.Parse("mine", []byte(before), nil)
	require.NoError(t, err)
	assert.Equal(t, first.Plan.Unit("loud"), again.Plan.Unit("loud"))

	// Another program writes the file: nothing is overwritten unasked.
	other := read(t, path) + "# from elsewhere\n"
	require.NoError(t, os.WriteFile(path, []byte(other), 0o600))
	p.keys("t", "s")
	require.Equal(t, asking, p.m.mode)
	assert.Equal(t, other, read(t, path))
	p.keys("n")
	for range len(p.m.input.Value()) {
		p.keys("backspace")
	}
	second := filepath.Join(filepath.Dir(path), "two.toml")
	p.text(second).keys("enter")
	assert.Equal(t, other, read(t, path))
	assert.Contains(t, read(t, second), "turn")
	assert.Equal(t, second, p.m.path)
	p.keys("T", "S", "enter")
	assert.Equal(t, asking, p.m.mode, "its own name exists too")
	p.keys("o")
	assert.False(t, p.m.history.Dirty(), p.m.note.text)
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

const ownPlan = `title = "Mine"

[board]
size = [400, 300]
mass = "2kg"
thickness = "15mm"

# the loud one
[[unit]]
id = "loud"
body = [70, 120, 50]
mass = "400g"
mount = "fixed"
place = { at = [20, 10] }

[[unit]]
id = "soft"
body = [70, 120, 50]
mass = "400g"
mount = "swap"
place = { at = [200, 10] } # by the heel
`

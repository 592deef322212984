package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
)

// Once all that a key set off is done, nothing happens by itself: no message, so
// no frame. The player runs every command to its end, with all that follows from
// it; a clock that ticks for ever would never let it come back.
func TestNothingIsDrawnWhileIdle(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 200, 60)
	for _, keys := range [][]string{{}, {"tab", "space", "left"}, {"space"}, {"a"}, {"?"}, {"esc", "/", "e"}, {"esc", "z"}, {"n"}, {"S"}} {
		p.keys(keys...)
		p.held = true
		frame := p.m.View()
		_, cmd := p.m.Update(nil) // no message of the editor's: what it would do by itself
		assert.Nil(t, cmd, "after %v", keys)
		assert.Equal(t, frame, p.m.View(), "after %v", keys)
		p.held = false
	}
	p.send(tea.WindowSizeMsg{Width: 200, Height: 60})
	_, cmd := p.m.Update(nil)
	assert.Nil(t, cmd)
}

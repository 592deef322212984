package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A unit stays under the pointer as it was grabbed, its old place is shown while
// it is dragged, and esc puts it back.
func TestDragKeepsTheGrip(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 120, 40)
	x, y := p.cellAt(365, 30) // Echo, 70 x 120 at 340, 5
	p.mouse(tea.MouseActionPress, tea.MouseButtonLeft, x, y)
	p.mouse(tea.MouseActionMotion, tea.MouseButtonLeft, x-6, y-4)
	require.NotZero(t, p.m.held)
	assert.Contains(t, p.m.View(), "picked up")
	require.NotNil(t, p.m.boardView().Was)
	step, row := p.m.drawing().Step()
	assert.InDelta(t, 340-6*step.MM(), p.at("echo")[0], 2.5, "by whole steps of 5 mm")
	assert.InDelta(t, 5+4*row.MM(), p.at("echo")[1], 2.5)
	p.keys("esc")
	assert.Equal(t, [2]float64{340, 5}, p.at("echo"))
	p.mouse(tea.MouseActionMotion, tea.MouseButtonLeft, x-20, y)
	assert.Equal(t, [2]float64{340, 5}, p.at("echo"), "the mouse has let go of it")
	p.dragFrom(tea.MouseButtonLeft, x, y, -10, 0)
	assert.Zero(t, p.m.held)
	assert.Less(t, p.at("echo")[0], 340.0)
}

func TestDraggingTheBoardMovesTheView(t *testing.T) {
	for _, button := range []tea.MouseButton{tea.MouseButtonLeft, tea.MouseButtonRight} {
		p := newPlayer(t, Options{}, 120, 40).keys("+", "+", "+")
		x, y := p.cellAt(250, 160)
		require.Empty(t, p.m.drawing().At(x-p.m.areas.board.x, y-p.m.areas.board.y).Unit)
		was := p.m.drawing().Point(x, y)
		p.dragFrom(button, x, y, 5, 3)
		assert.Equal(t, was, p.m.drawing().Point(x+5, y+3), "what was under the pointer still is")
		assert.False(t, p.m.history.Dirty())
	}
	p := newPlayer(t, Options{}, 120, 40).keys("tab")
	x, y := p.cellAt(250, 165)
	p.click(x, y)
	assert.Empty(t, p.m.selected, "a click on the bare board chooses nothing")
	assert.Zero(t, p.m.camera.step)
}

func TestButtons(t *testing.T) {
	press := func(p *player, name string) {
		_, at := p.m.hintLine()
		for _, b := range at {
			if b.press == name {
				p.click(b.x+1, p.m.areas.hints.y)
				return
			}
		}
		t.Fatalf("no button %q in %v", name, at)
	}
	p := newPlayer(t, Options{NoColor: true}, 120, 40)
	press(p, "tab")
	assert.Equal(t, "tuner", p.m.selected)
	press(p, "t")
	assert.True(t, p.m.history.Dirty())
	press(p, "?")
	assert.Equal(t, reading, p.m.mode)
	_, tabs := p.m.tabLine()
	for i, want := range []string{"Findings in all line-ups", "Power", "Kit of cables for all line-ups", "Peg Watch", "From pit to barn", "What to buy", "What the keys do now"} {
		p.click(tabs[i+1].x+1, p.m.pageArea().y)
		assert.Equal(t, want, p.m.page.title)
	}
	p.keys("left")
	assert.Equal(t, "What to buy", p.m.page.title, "the arrows go from page to page")
	p.keys("right", "right")
	assert.Equal(t, "Findings in all line-ups", p.m.page.title)
	p.keys("e")
	assert.Equal(t, "Power", p.m.page.title, "a page's key opens it from any page")
	p.click(tabs[0].x+1, p.m.pageArea().y)
	assert.Equal(t, onBoard, p.m.mode)
	press(p, "q")
	assert.Equal(t, asking, p.m.mode)
	press(p, "d")
	assert.True(t, p.left, "answers are buttons too")
}

func TestClicksOnFindings(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	p.click(10, p.m.areas.says.y)
	assert.NotEmpty(t, p.m.note.text+p.m.selected)
	p.keys("esc", "w")
	p.m.View()
	last := len(p.m.page.itemOf) - 1
	p.click(30, p.m.pageArea().y+headRows+last)
	assert.Equal(t, onBoard, p.m.mode)
	assert.Equal(t, "pit", p.m.lineupNow().Name, "the last finding is of the other line-up")
}

func TestMouseIsLeftToTheTerminal(t *testing.T) {
	p := newPlayer(t, Options{NoMouse: true}, 120, 40)
	x, y := p.cellAt(460, 240)
	p.click(x, y)
	assert.Empty(t, p.m.selected)
	p.keys("M").click(x, y)
	assert.Equal(t, "tuner", p.m.selected)
	p.keys("M", "esc").click(x, y)
	assert.Empty(t, p.m.selected)
}

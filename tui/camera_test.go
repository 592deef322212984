package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/sheet"
)

func TestZoomKeys(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	whole := p.m.wholeStep()
	p.keys("+", "+")
	assert.Less(t, p.m.camera.step, whole)
	assert.Contains(t, p.m.View(), "0 shows all")
	p.keys("-", "-")
	assert.Zero(t, p.m.camera.step, "out again is the whole board, as large as it can be")
	p.keys("-", "-", "-", "-", "-", "-", "-", "-", "-", "-", "-", "-", "-", "-")
	assert.LessOrEqual(t, p.m.camera.step, furthest*whole, "there is an end")
	p.keys("0")
	assert.Zero(t, p.m.camera.step)
	for range 60 {
		p.keys("=")
	}
	assert.GreaterOrEqual(t, p.m.camera.step, closestScale)
	requireInside(t, p.m.View(), 80, 24)
}

// The view goes with the unit that is chosen or moved, and only with it.
func TestViewFollowsTheUnit(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("rasp").keys("enter", "z")
	seen := func() bool {
		b, ok := p.m.chosenBase()
		w := p.m.drawing().Window()
		return ok && w.Contains(b)
	}
	require.True(t, seen())
	p.keys("/").text("peg").keys("enter")
	assert.True(t, seen(), "another unit is chosen")
	p.keys("space", "3")
	for range 12 {
		p.keys("left")
		require.True(t, seen(), "while it moves")
	}
	p.keys("space", "end", "end", "end", "pgdown", "pgdown")
	assert.False(t, seen(), "the view can be moved away")
	p.keys("s")
	assert.False(t, seen(), "and stays there while nothing is chosen or moved")
	p.keys("l")
	p.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	assert.True(t, seen(), "a terminal of another size looks for the unit")
}

func TestPanStaysOverTheBoard(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("pgup")
	assert.Contains(t, p.m.note.text, "All of the board")
	p.keys("+", "+", "+")
	was := p.m.drawing().Window()
	p.keys("home")
	assert.Less(t, p.m.drawing().Window().X0, was.X0)
	was = p.m.drawing().Window()
	p.keys("alt+up")
	assert.Greater(t, p.m.drawing().Window().Y0, was.Y0)
	for range 40 {
		p.keys("end", "pgdown")
	}
	w := p.m.drawing().Window()
	assert.True(t, w.Overlaps(p.m.plan().Board.Rect()), "some of the board is always in sight")
}

// In every view, at every scale, the wheel leaves the place under the pointer
// where it is, to within two cells: the ruler beside the board may become wider.
func TestWheelZoomsAtThePointer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := wildPlayer(Options{}, 120, 40)
		for range rapid.IntRange(0, 3).Draw(t, "views") {
			p.keys("d")
		}
		for range rapid.IntRange(1, 8).Draw(t, "turns") {
			board := p.m.plan().Board.Rect()
			at := layout.Point{X: layout.Length(rapid.Int64Range(0, int64(board.X1)-1).Draw(t, "x")),
				Y: layout.Length(rapid.Int64Range(0, int64(board.Y1)-1).Draw(t, "y"))}
			c, r, ok := p.m.drawing().Cell(at)
			if !ok {
				continue
			}
			button := tea.MouseButtonWheelUp
			if rapid.Bool().Draw(t, "out") {
				button = tea.MouseButtonWheelDown
			}
			was := p.m.drawing().Point(c, r)
			p.mouse(tea.MouseActionPress, button, p.m.areas.board.x+c, p.m.areas.board.y+r)
			if p.m.camera.step == 0 {
				continue // the whole board is where it is
			}
			now := p.m.drawing().Point(c, r)
			col, row := p.m.drawing().Step()
			if dx := max(now.X-was.X, was.X-now.X); dx > 2*col && !atEdge(p.m) {
				t.Fatalf("%v is under the pointer, was %v; a column shows %v", now, was, col)
			}
			if dy := max(now.Y-was.Y, was.Y-now.Y); dy > 2*row && !atEdge(p.m) {
				t.Fatalf("%v is under the pointer, was %v; a row shows %v", now, was, row)
			}
		}
	})
}

// atEdge reports whether the view was kept from leaving the board.
func atEdge(m *Model) bool {
	b, at := sheet.Whole(&m.plan().Board), m.camera.middle
	return at.X <= b.X0 || at.X >= b.X1 || at.Y <= b.Y0 || at.Y >= b.Y1
}

func TestViews(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	var seen []string
	for range 4 {
		seen = append(seen, p.m.camera.lookName())
		p.keys("d")
	}
	assert.Equal(t, []string{"from above", "deck alone", "shelf alone", "underside"}, seen)
	assert.Equal(t, camera{}, p.m.camera)
	p.keys("D")
	assert.Contains(t, p.m.View(), "mirrored")
	left, _ := p.cellAt(20, 150)
	right, _ := p.cellAt(480, 150)
	assert.Greater(t, left, right, "what is left from above is right from below")
	p.keys("d", "d")
	assert.Contains(t, p.m.View(), "Engine Shed", "the deck alone shows what lies beneath the shelf")
	p.keys("d", "f")
	assert.NotContains(t, p.m.View(), "≡")
	p.keys("d", "d", "v", "f", "esc")
	assert.Contains(t, p.m.View(), "≡", "fastener")
}

// On the underside a unit moves the way the arrow points on the board, and the
// way the mouse goes on the screen.
func TestDraggingOnTheUnderside(t *testing.T) {
	p := newPlayer(t, Options{}, 120, 40).keys("D")
	x, y := p.cellAt(460, 240)
	was := p.at("tuner")
	p.dragFrom(tea.MouseButtonLeft, x, y, 8, 0)
	assert.Equal(t, "tuner", p.m.selected)
	assert.Less(t, p.at("tuner")[0], was[0], "to the right on the screen is to the left on the board")
}

func TestDistancesWhileMoving(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 120, 40).keys("/").text("echo").keys("enter")
	frame := func() string { return strings.Join(p.m.boardLines(), "\n") }
	assert.NotContains(t, frame(), "←")
	p.keys("space", "left", "left", "left", "left", "left", "left")
	assert.Contains(t, frame(), "60", "to the slot's edge")
	assert.Contains(t, frame(), "←")
	p.keys("space")
	assert.NotContains(t, frame(), "←", "set down: no more")
	p.keys("shift+right")
	assert.Contains(t, frame(), "←", "moved without picking it up")
	p.keys("tab")
	assert.NotContains(t, frame(), "←")
}

package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func TestChoosing(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	assert.Empty(t, p.m.selected)
	p.keys("tab")
	assert.Equal(t, "tuner", p.m.selected)
	p.keys("tab", "tab", "shift+tab")
	assert.Equal(t, "hall", p.m.selected)
	p.keys("esc")
	assert.Empty(t, p.m.selected)
	p.keys("shift+tab")
	assert.Equal(t, "echo", p.m.selected, "backwards from none is the last")
	p.keys("right")
	assert.Equal(t, "rasp", p.m.selected)
	p.keys("up")
	assert.Equal(t, "tuner", p.m.selected)
	p.keys("right")
	assert.Equal(t, "tuner", p.m.selected, "nothing lies to the right")
	assert.NotEmpty(t, p.m.note.text)
}

func TestLooking(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("tab", "/").text("hall")
	assert.Equal(t, "hall", p.m.selected)
	p.keys("enter")
	assert.Equal(t, "hall", p.m.selected)
	p.keys("/").text("zzz")
	assert.Equal(t, "hall", p.m.selected, "nothing matches: what was chosen stays")
	p.keys("esc", "/").text("r").keys("esc")
	assert.Equal(t, "hall", p.m.selected, "esc goes back to what was chosen")
	p.keys("/").text("e").keys("tab")
	assert.Equal(t, "echo", p.m.selected)
}

func TestMoving(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("rasp").keys("enter", "space", "left", "up")
	assert.Equal(t, [2]float64{415, 5}, p.at("rasp"))
	p.keys("3", "up", "1", "down", "space")
	assert.Equal(t, [2]float64{415, 29}, p.at("rasp"))
	p.keys("left")
	assert.Equal(t, "echo", p.m.selected, "set down: arrows choose again")
	assert.Equal(t, [2]float64{415, 29}, p.at("rasp"))
	p.keys("u")
	assert.Equal(t, [2]float64{420, 0}, p.at("rasp"), "picked up to set down is one edit")
	assert.Equal(t, "rasp", p.m.selected, "undo shows where")
	p.keys("r")
	assert.Equal(t, [2]float64{415, 29}, p.at("rasp"))
	p.keys("shift+right", "shift+right", "u")
	assert.Equal(t, [2]float64{416, 29}, p.at("rasp"), "without picking up each step is an edit")
}

func TestEscapePutsBack(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("tab", "shift+left", "space", "left", "left", "t", "esc")
	assert.Equal(t, [2]float64{435, 200}, p.at("tuner"), "what was before it was picked up stays")
	assert.Equal(t, layout.Turn(0), p.m.history.Plan().Unit("tuner").Place.Turn)
	p.keys("space", "left", "right", "esc")
	assert.Equal(t, [2]float64{435, 200}, p.at("tuner"), "there and back is no edit: nothing to put back")
}

func TestSliding(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("step").keys("enter", "ctrl+left")
	assert.Equal(t, [2]float64{0, 120}, p.at("lift"), "to the deck's edge")
	p.keys("4", "space", "left")
	assert.Equal(t, [2]float64{-15, 120}, p.at("lift"), "to the end of the overhang")
	p.keys("left")
	assert.Equal(t, [2]float64{-15, 120}, p.at("lift"))
	assert.Contains(t, p.m.note.text, "touches")
}

func TestMoveIntoConflictIsAllowedAndShown(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	before, _, _ := counts(&p.m.look().results[0])
	p.keys("tab", "tab", "tab", "space", "3", "left", "left", "left", "left")
	after, _, _ := counts(&p.m.look().results[0])
	assert.Greater(t, after, before)
	assert.Contains(t, p.m.View(), "want the same")
}

func TestUnitsOfSlotsMoveInOneLineupOnly(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("echo").keys("enter", "shift+up")
	assert.Equal(t, [2]float64{340, 10}, p.at("echo"))
	p.keys("l")
	assert.Equal(t, [2]float64{340, 5}, p.at("echo"))
	p.keys("/").text("peg").keys("enter", "shift+up", "l")
	assert.Equal(t, [2]float64{440, 205}, p.at("tuner"), "a unit of every line-up moves in all")
	assert.Equal(t, "barn", p.m.lineupNow().Name)
}

func TestSwitchingLineupLetsGoOfWhatIsNotInIt(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("rasp").keys("enter", "space", "l")
	assert.Empty(t, p.m.selected)
	assert.Zero(t, p.m.held)
}

func TestTurnPinMountSurface(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("tab", "t")
	u := func() *layout.Unit { return p.m.history.Plan().Unit("tuner") }
	assert.Equal(t, layout.Turn(1), u().Place.Turn)
	p.keys("T", "T")
	assert.Equal(t, layout.Turn(3), u().Place.Turn)
	p.keys("p", "m")
	assert.True(t, u().Pinned)
	assert.Equal(t, layout.Swap, u().Mount)
	p.keys("m", "o")
	assert.Equal(t, layout.Fixed, u().Mount)
	assert.Equal(t, "shelf", u().Place.On)
	p.keys("o")
	assert.Equal(t, "deck", u().Place.On)

	p.keys("/").text("rasp").keys("enter", "m")
	assert.Equal(t, layout.Swap, p.m.history.Plan().Unit("rasp").Mount, "a fixed unit in a slot is no plan")
	assert.Contains(t, p.m.note.text, "slot")
}

func TestPlacingAUnit(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("late").keys("enter", "space")
	assert.NotEqual(t, [2]float64{-999, -999}, p.at("late"))
	assert.NotZero(t, p.m.held)
	p.keys("esc")
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"), "put back is without a place")
	p.keys("shift+left")
	assert.Contains(t, p.m.note.text, "no place")
	p.keys("space", "right", "space", "u")
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"))
}

func TestFindings(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("f")
	assert.Equal(t, 0, p.m.culprit)
	assert.Contains(t, []string{"rasp", "echo"}, p.m.selected)
	p.keys("f")
	assert.Equal(t, "late", p.m.selected)
	p.keys("f")
	assert.Equal(t, "long-unbuffered", p.m.found()[p.m.culprit].Code, "one of the cables is among them")
	p.keys("f")
	assert.Equal(t, 0, p.m.culprit, "round again")
	p.keys("F", "w", "end", "enter")
	assert.Equal(t, "pit", p.m.lineupNow().Name, "a finding of the other line-up leads there")
	assert.Equal(t, "tuner", p.m.selected)
}

func TestShow(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("v", "c", "p", "d", "esc")
	assert.Equal(t, onBoard, p.m.mode)
	assert.False(t, p.m.show.plugs)
	assert.False(t, p.m.show.cables)
	assert.Equal(t, "deck", p.m.camera.surface)
	p.keys("v", "d", "d")
	assert.True(t, p.m.camera.below)
	p.keys("d")
	assert.Equal(t, camera{}, p.m.camera)
}

func TestHelpIsSearched(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("tab", "?").text("clockwise")
	assert.Contains(t, p.m.View(), "turn Peg Watch clockwise to 90")
	assert.NotContains(t, p.m.View(), "shift+tab goes back")
	p.keys("esc", "esc")
	assert.Equal(t, onBoard, p.m.mode)
}

// What a player calls it is found, whatever the words on screen are.
func TestHelpIsFoundByOtherWords(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"undo", "take back"}, {"zoom", "looks closer"}, {"rotate", "clockwise"}, {"align", "in line"}, {"unders mirr", "another way"},
		{"copy text", "mouse"}, {"exit", "quit"}, {"pan", "all of the board is on screen"},
	} {
		p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("tab", "shift+right", "?").text(c.typed)
		assert.Contains(t, p.m.View(), c.want, c.typed)
	}
}

// Help names every key of the tables, and no key stands in one table twice.
func TestEveryKeyIsInTheHelpOnce(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	for i := range p.m.modes {
		mode := &p.m.modes[i]
		seen := map[string]bool{}
		name := digits(i)
		for _, a := range append(append(table(nil), mode.table...), mode.letters...) {
			assert.NotEmpty(t, mode.name+a.group)
			what, _ := a.now(p.m)
			assert.NotEmpty(t, what, a.keys.Help().Key)
			for _, k := range a.keys.Keys() {
				assert.False(t, seen[k], "%s: %q twice", name, k)
				seen[k] = true
			}
		}
	}
}

func TestMouse(t *testing.T) {
	p := newPlayer(t, Options{}, 200, 60)
	g := p.m.drawing()
	c, r, ok := g.Cell(layout.Point{X: 460 * mm, Y: 240 * mm})
	require.True(t, ok)
	b := p.m.areas.board
	press := tea.MouseMsg{X: b.x + c, Y: b.y + r, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft}
	p.send(press)
	assert.Equal(t, "tuner", p.m.selected)
	drag := press
	drag.Action, drag.X = tea.MouseActionMotion, press.X-20
	p.send(drag)
	release := drag
	release.Action = tea.MouseActionRelease
	p.send(release)
	assert.Less(t, p.at("tuner")[0], 400.0)
	assert.Zero(t, p.m.held)
	p.keys("u")
	assert.Equal(t, [2]float64{440, 200}, p.at("tuner"), "a drag is one edit")

	l := p.m.areas.list
	p.send(tea.MouseMsg{X: l.x + 3, Y: l.y + 2, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	assert.Equal(t, "hall", p.m.selected)
	f := p.m.areas.findings
	p.send(tea.MouseMsg{X: 10, Y: f.y + 2, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	assert.Equal(t, "late", p.m.selected)
	p.send(tea.MouseMsg{X: p.m.w - 4, Y: 0, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	assert.Equal(t, "pit", p.m.lineupNow().Name)
}

func TestTheBuiltInExampleArrangesItself(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	assert.Nil(t, p.m.Init(), "a plan of the player's own is left alone")
	p.m.path = ""
	p.run(p.m.Init())
	assert.Equal(t, [2]float64{10, 10}, p.at("late"))
	p.keys("q")
	assert.True(t, p.left, "nothing of the player's own is lost")
}

func TestInchPlansMoveByFractions(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	q := trialPlan()
	q.LengthUnit = layout.Inches
	p.m = newModel(p.m.ctx, p.disk, "board.toml", q, Options{NoColor: true, arrange: lineUp})
	p.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	p.keys("tab", "space", "right")
	assert.Equal(t, 440+25.4/4, p.at("tuner")[0])
	p.keys("1")
	assert.Contains(t, p.m.View(), "1/16 in")
}

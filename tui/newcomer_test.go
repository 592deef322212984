package tui

import (
	"os"
	"path/filepath"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/plan"
)

// What players call things finds forms of that size; ctrl+u begins anew.
func TestSearchByWhatAUnitDoes(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "A")
	for word, want := range map[string]string{"overdrive": "compact", "volume pedal": "treadle-small", "power supply": "supply-eight", "chorus": "compact-stereo"} {
		p.text(word)
		var ids []string
		l := p.m.over().list
		for _, it := range l.shown(p.m, listWidth(p.m)) {
			ids = append(ids, it.id)
		}
		assert.Contains(t, ids, want, word)
		p.keys("ctrl+u")
		assert.Empty(t, l.typed)
	}
	p.text("supply")
	it, ok := p.m.over().list.now(p.m)
	require.True(t, ok)
	assert.Equal(t, "supply-eight", it.id, "not an expander, whose summary has the word")
	p.keys("ctrl+u", "esc", "esc", "y", "/").text("reverb")
	require.NotEmpty(t, p.m.trial.shown)
	p.keys("ctrl+u").text("noise gate")
	require.NotEmpty(t, p.m.trial.shown)
	assert.NotContains(t, p.m.View(), "suppressor", "what it is found by is not told")
}

// Help begins with the keys that work where it was asked for.
func TestHelpBeginsWhereThePlayerIs(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "P", "?")
	assert.Contains(t, p.m.helpLines(78)[0], "In a list of the plan's things")
	p.keys("esc").press("Limits")
	p.keys("f1")
	assert.Contains(t, p.m.helpLines(78)[0], "In a form")
	p.keys("esc")
	assert.Equal(t, filling, p.m.mode)
	p.keys("esc", "esc", "?")
	assert.Contains(t, p.m.helpLines(78)[0], "Choose a unit")
}

// Who leaves the questions of a new plan early is asked, and may stay.
func TestQuestionsAreNotLeftUnsaid(t *testing.T) {
	p := begin(t, 80, 24)
	p.keys("esc")
	require.Equal(t, asking, p.m.mode)
	p.keys("esc")
	require.Equal(t, listing, p.m.mode)
	require.Contains(t, p.m.View(), "2 of 4")
	p.keys("esc", "b")
	assert.Equal(t, onBoard, p.m.mode)
	assert.Len(t, p.m.history.Plan().Units, 4)
}

// A slot's edges and corners are dragged, its middle moves it.
func TestSlotIsDrawnByTheMouse(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 200, 60)
	p.keys("esc", "esc", "P").press("Slots").keys("a")
	f := p.m.chosenForm()
	slot := func() layout.Rect { return p.m.plan().Slot(f.Subject).At }
	drag := func(at layout.Point, dx, dy int) {
		c, r, _ := p.m.drawing().Cell(at)
		p.dragFrom(tea.MouseButtonLeft, p.m.areas.board.x+c, p.m.areas.board.y+r, dx, dy)
	}
	was := slot()
	mid := layout.Point{X: (was.X0 + was.X1) / 2, Y: (was.Y0 + was.Y1) / 2}
	drag(layout.Point{X: was.X0, Y: mid.Y}, 10, 3)
	now := slot()
	assert.Greater(t, now.X0, was.X0)
	assert.Equal(t, layout.Rect{X0: now.X0, Y0: was.Y0, X1: was.X1, Y1: was.Y1}, now, "one edge, whichever way the mouse goes beside")
	was = now
	drag(layout.Point{X: was.X1 - 1, Y: was.Y0}, -10, -4)
	now = slot()
	assert.Less(t, now.X1, was.X1)
	assert.Greater(t, now.Y0, was.Y0)
	assert.Equal(t, layout.Rect{X0: was.X0, Y0: now.Y0, X1: now.X1, Y1: was.Y1}, now, "a corner")
	was = now
	drag(layout.Point{X: was.X0, Y: (was.Y0 + was.Y1) / 2}, 120, 0)
	assert.Positive(t, slot().W(), "an edge does not pass the other")
}

// A click on the arrow before a choice goes back, one behind it on.
func TestClicksOnTheArrowsOfAChoice(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 120, 40)
	p.keys("enter", "enter").press("of your own size")
	was := p.m.chosenForm().Now().Option()
	p.press("→").press("→")
	assert.Equal(t, was+2, p.m.chosenForm().Now().Option())
	y := p.rowOf("←")
	p.click(columnOf(screenLines(p.m.View())[y], "←"), y)
	assert.Equal(t, was+1, p.m.chosenForm().Now().Option())
}

// A wide screen has buttons for what is not about a unit.
func TestDoors(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 200, 60)
	p.keys("esc", "esc", "tab")
	p.press("W sheets")
	assert.Equal(t, filling, p.m.mode)
	p.keys("esc").press("B buy")
	assert.Equal(t, "What to buy", p.m.page.title)
	p.keys("esc").press("P plan")
	assert.Equal(t, listing, p.m.mode)
	assert.NotContains(t, p.m.View(), "W sheets", "only where the key does that")
	p = newcomer(t, Options{NoColor: true}, 120, 40)
	p.keys("esc", "esc").press("W sheets")
	assert.Equal(t, filling, p.m.mode, "on smaller ones those that no other button leads to")
}

// What goes out of its last slot is in every line-up: the signal passes it.
func TestOutOfTheSlotIsInTheChain(t *testing.T) {
	p := begin(t, 80, 24)
	p.keys("n").fill("barn, pit", "colour").keys("ctrl+s")
	p.keys("enter", "down", "space", "home", "space")
	assert.Empty(t, p.m.history.Plan().Lineups[0].Fill["colour"])
	p.keys("esc", "n")
	stops := p.m.history.Plan().Chain.Stops
	assert.Equal(t, []layout.Stop{{Slot: "colour"}, {Unit: "compact"}}, stops[2:4])
	p.keys("home", "down", "x", "home", "down", "down", "a") // Watch is out of it, and Squash is chosen
	require.Contains(t, p.m.View(), "It goes in behind Squash")
	p.keys("enter")
	stops = p.m.history.Plan().Chain.Stops
	assert.Equal(t, []layout.Stop{{Unit: "compact"}, {Unit: "mini-tuner"}}, stops[2:4])
}

// A plan that has no file yet is saved under its title.
func TestFileNameFromTheTitle(t *testing.T) {
	for title, want := range map[string]string{"Friday": "friday", "Ceilidh band, electric fiddle": "ceilidh-band-electric-fiddle", "../a\\b": "a-b", "": "board", "---": "board", "Ürgh 2": "ürgh-2"} {
		assert.Equal(t, want, fileName(title), title)
	}
}

// Plans of the folder are found without typing their paths.
func TestPlansOfTheFolder(t *testing.T) {
	dir := t.TempDir()
	text, err := plan.Starter(plan.Answers{Title: "Mine", BoardW: 400 * mm, BoardD: 200 * mm})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.toml"), text, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "other.toml"), []byte("[tool]\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.txt"), text, 0o600))
	t.Chdir(dir)
	here := plansHere()
	require.Len(t, here, 1)
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.send(knownMsg{here: here})
	p.press("mine.toml")
	assert.Equal(t, "Mine", p.m.history.Plan().Title)
	p.keys("N")
	p.send(knownMsg{recent: here, here: here})
	assert.NotContains(t, p.m.View(), "Plans in this folder", "one's own plan is open, and what is recent is told there")
}

// What is chosen already is dragged like anything else: it opens only where the
// mouse lets go of it where it took hold.
func TestDraggingTheChosenStop(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "C").press("Swell")
	was := p.m.history.Plan().Chain.Stops
	y := p.rowOf("Swell")
	p.dragFrom(tea.MouseButtonLeft, 8, y, 0, -2)
	require.Equal(t, listing, p.m.mode)
	assert.Equal(t, y-2, p.rowOf("Swell"))
	p.keys("u", "u")
	require.Equal(t, was, p.m.history.Plan().Chain.Stops)
	p.press("Swell").press("Swell")
	assert.Equal(t, filling, p.m.mode)
}

// A choice of two says what the other is.
func TestTheOtherOfTwoIsSaid(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 120, 40)
	p.keys("enter", "enter").press("Chain ends at")
	assert.Contains(t, p.m.View(), "or the desk")
	p.press("or the desk")
	assert.Contains(t, p.m.View(), "or the amp")
}

// A unit that the signal can pass one way only has nothing to choose in the chain.
func TestStopWithNothingToChoose(t *testing.T) {
	p := begin(t, 80, 24)
	p.keys("n", "enter", "down", "enter")
	require.Equal(t, filling, p.m.mode)
	assert.Contains(t, p.m.chosenForm().Intro, "nothing to choose")
}

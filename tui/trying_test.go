package tui

import (
	"context"
	"errors"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/tryout"
)

// settledPlan is the trial plan with everything at a place where nothing
// collides.
func settledPlan() *layout.Plan {
	p := trialPlan()
	p.Unit("echo").Place.At.X = 300 * mm
	p.Unit("late").Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 20 * mm, Y: 20 * mm}}
	return p
}

// fewSteps is the real bench with its searches bounded by steps, so that the
// answers are the same on every machine.
func fewSteps(ctx context.Context, p *layout.Plan, lineups []string, tell func(tryout.Answer)) (prepared, error) {
	return preparedWith(ctx, p, tryout.Options{Seed: 1, Steps: 3000, Workers: 1, Lineups: lineups, Progress: tell})
}

func settledPlayer(t testing.TB, opt Options, w, h int) *player {
	if opt.prepare == nil {
		opt.prepare = fewSteps
	}
	opt.sum, opt.fasten = straightSum, stick
	opt.arrange = lineUpAny
	d := &disk{}
	p := &player{t: t, m: newModel(context.Background(), d, "board.toml", settledPlan(), opt), disk: d}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	return p
}

// verdict is that of the chosen candidate, "" while there is none.
func (p *player) verdict() tryout.Verdict {
	if a := p.m.trial.answer(); a != nil {
		return a.Verdict
	}
	return ""
}

// A unit of the shelf is tried, seen in its place, and taken as one edit.
func TestTryingAUnitOfTheShelf(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "y")
	require.Equal(t, trying, p.m.mode)
	require.Equal(t, "Rasp", p.m.trial.candidate().label, "not in this line-up: on the shelf")
	require.Equal(t, tryout.Fits, p.verdict())
	assert.Contains(t, p.m.View(), "As it would be")
	assert.Contains(t, p.m.View(), "nothing else moves")
	assert.Equal(t, "rasp", p.m.selected)
	assert.False(t, p.m.history.Dirty(), "nothing has changed yet")
	p.keys("enter")
	assert.Equal(t, onBoard, p.m.mode)
	assert.Equal(t, []string{"echo", "rasp"}, p.m.history.Plan().LineupNamed("pit").Fill["colour"])
	assert.NotEqual(t, [2]float64{-999, -999}, p.at("rasp"))
	p.keys("u")
	assert.Equal(t, []string{"echo"}, p.m.history.Plan().LineupNamed("pit").Fill["colour"], "one step back")
	assert.False(t, p.m.history.Dirty())
}

// A form of the catalog is found by typing, tried instead of a unit, and comes
// into the plan.
func TestTryingAFormInsteadOfAUnit(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "/").text("echo").keys("enter", "y")
	assert.Equal(t, "echo", p.m.trial.instead)
	p.keys("/").text("buffer").keys("enter")
	require.Equal(t, "buffer", p.m.trial.candidate().label)
	require.Equal(t, tryout.Fits, p.verdict())
	assert.NotEmpty(t, p.m.stoodBefore(), "where Echo stood is shown")
	p.keys("enter")
	fill := p.m.history.Plan().LineupNamed("pit").Fill["colour"]
	require.Len(t, fill, 1)
	assert.Equal(t, "buffer", p.m.history.Plan().Unit(fill[0]).Form)
	assert.Equal(t, []string{"rasp", "echo"}, p.m.history.Plan().LineupNamed("barn").Fill["colour"], "the other line-up keeps it")
	assert.Contains(t, p.m.note.text, "instead of Echo")
}

// Sizes can be typed; what cannot fit says so and is not taken.
func TestTryingSizes(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("y", "/").text("400x300x60").keys("enter")
	require.Equal(t, tryout.Impossible, p.verdict())
	p.keys("enter")
	assert.Equal(t, trying, p.m.mode)
	assert.Contains(t, p.m.note.text, "does not fit")
	p.keys("/").text("zzz")
	assert.Nil(t, p.m.trial.candidate())
	p.keys("enter", "enter", "i", "x", "a")
	assert.Equal(t, trying, p.m.mode, "there is nothing of that name")
	p.keys("esc")
	assert.Equal(t, onBoard, p.m.mode)
	assert.False(t, p.m.history.Dirty())
}

// Browsing tries each; all that was tried stays in the table, from which one is
// chosen.
func TestTableOfWhatWasTried(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "y", "down", "down")
	n := len(p.m.triedList())
	assert.Equal(t, 3, n)
	p.keys("w")
	require.Equal(t, reading, p.m.mode)
	assert.Contains(t, p.m.View(), "Candidate")
	assert.Equal(t, 2, p.m.page.chosen)
	p.keys("home", "enter")
	assert.Equal(t, trying, p.m.mode)
	assert.Equal(t, 0, p.m.trial.chosen)
	p.keys("i")
	assert.Contains(t, p.m.View(), "Place")
	p.keys("esc", "esc", "y")
	assert.Len(t, p.m.triedList(), n, "known still when one comes back")
}

// Trying goes on in the background: the screen is used meanwhile, and leaving
// stops it.
func TestTryingIsStopped(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l")
	p.held = true
	p.keys("y")
	assert.Contains(t, p.m.View(), "Making the plan ready")
	p.keys("down", "l", "esc")
	assert.Equal(t, onBoard, p.m.mode)
	p.release()
	assert.Nil(t, p.m.trial.ready.bench, "what was stopped half way is not used")
	p.keys("y")
	assert.NotNil(t, p.m.trial.ready.bench)

	p.m.trial.answers = map[string]*tryout.Answer{}
	p.held = true
	p.keys("up")
	p.send(nil)
	require.NotEmpty(t, p.m.trial.asked)
	p.keys("x")
	assert.Contains(t, p.m.note.text, "Stopped")
	p.release()
	assert.Empty(t, p.m.trial.asked)
	p.keys("x")
	assert.NotEmpty(t, p.verdict(), "x goes on")
}

// A plan that changes forgets what was tried with the one before.
func TestTriesAreOfThePlanAsItIs(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l", "y", "esc")
	was := p.m.trial
	p.keys("tab", "p", "y")
	assert.NotSame(t, was, p.m.trial)
	assert.Same(t, p.m.history.Plan(), p.m.trial.base)
}

// A fault of the program while trying is told and leaves the editor usable.
func TestTryingBreaks(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24)
	p.m.opt.prepare = func(context.Context, *layout.Plan, []string, func(tryout.Answer)) (prepared, error) { panic("broken") }
	p.keys("y")
	assert.Contains(t, p.m.View(), "fault")
	p.keys("esc")
	p.m.trial = nil
	p.m.opt.prepare = func(context.Context, *layout.Plan, []string, func(tryout.Answer)) (prepared, error) {
		return prepared{}, errors.New("no such thing")
	}
	p.keys("y")
	assert.Contains(t, p.m.View(), "no such thing")
	p.keys("enter", "down", "esc")
	assert.Equal(t, onBoard, p.m.mode)
}

// The mouse does all of it too.
func TestTryingByMouse(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 200, 60).keys("l")
	press := func(name string) {
		_, at := p.m.hintLine()
		for _, b := range at {
			if b.press == name {
				p.click(b.x+1, p.m.areas.hints.y)
				return
			}
		}
		t.Fatalf("no button %q in %v", name, at)
	}
	p.keys("y")
	l := p.m.areas.list
	p.click(l.x+4, l.y+4)
	assert.Equal(t, 1, p.m.trial.chosen, "a heading, Rasp, a heading, the next one")
	p.mouse(tea.MouseActionPress, tea.MouseButtonWheelUp, l.x+4, l.y+4)
	assert.Equal(t, 0, p.m.trial.chosen)
	press("w")
	p.click(20, p.m.pageArea().y+headRows+1)
	assert.Equal(t, trying, p.m.mode)
	assert.Equal(t, 1, p.m.trial.chosen)
	b := p.m.areas.board
	p.dragFrom(tea.MouseButtonLeft, b.x+b.w/2, b.y+b.h/2, 10, 2)
	assert.False(t, p.m.history.Dirty(), "units are not dragged while one is tried")
	p.mouse(tea.MouseActionPress, tea.MouseButtonWheelUp, l.x+4, l.y+4)
	press("enter")
	assert.Equal(t, onBoard, p.m.mode)
	assert.True(t, p.m.history.Dirty())
}

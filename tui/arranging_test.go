package tui

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

func TestArranging(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("a")
	assert.Equal(t, [2]float64{10, 10}, p.at("late"))
	assert.Contains(t, p.m.note.text, "Arranged")
	assert.Nil(t, p.m.job)
	p.keys("u")
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"))
}

func TestArrangingIsStopped(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	p.held = true
	p.keys("a")
	require.NotNil(t, p.m.job)
	assert.Contains(t, p.m.View(), "Arranging")
	p.keys("esc")
	assert.Nil(t, p.m.job)
	p.release()
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"), "the answer of a job that was stopped is not taken")
	assert.False(t, p.m.history.Dirty())
}

func TestBestSoFarIsShownAndTaken(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	p.held = true
	p.keys("a")
	best := p.m.history.Plan().Clone()
	best.SetPlace(&best.Lineups[0], best.Unit("late"), layout.Placement{On: "deck", At: layout.Point{X: 77 * mm, Y: 7 * mm}})
	p.m.job.best = best
	assert.Same(t, best, p.m.plan(), "on screen")
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"), "not an edit yet")
	p.keys("enter")
	assert.Equal(t, [2]float64{77, 7}, p.at("late"))
	p.release()
	assert.Equal(t, [2]float64{77, 7}, p.at("late"), "what comes later is too late")
}

// Nobody asked for the built-in example's own arrangement: the first edit is of
// the board as it is shown.
func TestTheExamplesOwnArrangementIsTakenByAnEdit(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	p.held = true
	p.keys("a")
	p.m.job.own = true
	p.m.job.best = p.m.history.Plan().Clone()
	p.m.job.best.SetPlace(&p.m.job.best.Lineups[0], p.m.job.best.Unit("late"), layout.Placement{On: "deck", At: layout.Point{X: 77 * mm, Y: 7 * mm}})
	p.keys("tab")
	require.NotNil(t, p.m.job, "choosing is no edit")
	p.keys("p")
	assert.Nil(t, p.m.job)
	assert.Equal(t, [2]float64{77, 7}, p.at("late"))
	assert.True(t, p.m.history.Plan().Unit("tuner").Pinned)
}

func TestAnArrangementOfAnEditedPlanIsOffered(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	p.held = true
	p.keys("a", "tab", "p", "shift+left")
	p.release()
	require.NotNil(t, p.m.offer)
	assert.Equal(t, [2]float64{-999, -999}, p.at("late"), "not taken silently")
	assert.Contains(t, p.m.View(), "enter takes")
	p.keys("t")
	assert.Equal(t, layout.Turn(0), p.m.history.Plan().Unit("tuner").Place.Turn, "no edits of what is only offered")
	p.keys("esc")
	assert.Nil(t, p.m.offer)
	assert.Equal(t, [2]float64{435, 200}, p.at("tuner"))

	p.held = true
	p.keys("a", "shift+left")
	p.release()
	p.keys("enter")
	assert.Equal(t, [2]float64{10, 10}, p.at("late"))
	assert.True(t, p.m.history.Plan().Unit("tuner").Pinned, "the places only")
	p.keys("u")
	assert.Equal(t, [2]float64{430, 200}, p.at("tuner"))
}

func TestQuittingStopsArranging(t *testing.T) {
	for name, keys := range map[string][]string{"quit": {"q"}, "esc": {"esc"}, "ctrl+c": {"ctrl+c"}, "discard": {"tab", "p", "q", "d"}} {
		t.Run(name, func(t *testing.T) {
			ended := false
			seek := func(ctx context.Context, _ *layout.Plan, _ arrange.Options) (arrange.Result, error) {
				ended = ctx.Err() != nil
				return arrange.Result{Verdict: pack.Undecided}, nil
			}
			p := newPlayer(t, Options{arrange: seek}, 80, 24)
			p.held = true
			p.keys("a").keys(keys...)
			p.release()
			assert.True(t, ended, "the search is told to end")
			assert.Equal(t, name != "esc", p.left)
		})
	}
}

package route_test

import (
	"testing"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A unit moved by a millimetre and back leaves all cables where they were, but
// for those at the unit or right beside it, and these do not grow.
func TestSmallMovesDoNotRethreadTheBoard(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	var r route.Router
	before := r.Update(p, l, runs(p, l))
	require.Equal(t, route.NewSpace(p, l).Route(runs(p, l)), before, "the first is as Route")
	require.Equal(t, before, r.Update(p, l, runs(p, l)), "nothing moved")
	for _, id := range []string{"wobble", "grit", "verb", "freeze"} {
		u := p.Unit(id)
		home, _ := p.PlaceOf(l, u)
		away := home
		away.At.Y += mm
		last := r.Update(p, l, runs(p, l))
		p.SetPlace(l, u, away)
		reqs := runs(p, l)
		after := r.Update(p, l, reqs)
		same := 0
		for i := range after {
			require.NotNil(t, after[i].Points, "%s %s", after[i].ID, after[i].Why)
			requireFree(t, reqs[i], after[i], everything(p, l))
			if equalPoints(last[i], after[i]) {
				same++
				continue
			}
			// A cable may grow by what its end moved, and a tenth to stay where it was.
			assert.LessOrEqual(t, after[i].Square(), last[i].Square()*11/10+20*mm, "%s moved, cable %s", id, after[i].ID)
		}
		assert.GreaterOrEqual(t, same, len(after)/2, "%s moved: most cables stay", id)
		p.SetPlace(l, u, home)
	}
}

func equalPoints(a, b route.Path) bool {
	if len(a.Points) != len(b.Points) {
		return false
	}
	for i := range a.Points {
		if a.Points[i] != b.Points[i] {
			return false
		}
	}
	return true
}

// A cable stays on its way round a body when the other way becomes a little
// shorter, and leaves it when that is clearly so.
func TestRouterKeepsTheSideUntilTheOtherIsClearlyShorter(t *testing.T) {
	b := layout.Board{W: 500 * mm, D: 400 * mm, Thickness: 15 * mm}
	r := loose(tip(50*mm, 200*mm, 20*mm, layout.Right), tip(450*mm, 200*mm, 20*mm, layout.Left))
	p := planOf(b, block("x", layout.DeckName, 200*mm, 100*mm, 100*mm, 210*mm))
	l := &p.Lineups[0]
	goesInFront := func(q route.Path) bool {
		for _, c := range q.Points {
			if c.Y < 150*mm {
				return true
			}
		}
		return false
	}
	var router route.Router
	at := func(y layout.Length) route.Path {
		p.Units[0].Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 200 * mm, Y: y}}
		return router.Update(p, l, []route.Request{r})[0]
	}
	require.True(t, goesInFront(at(100*mm)), "100 in front, 110 behind")
	assert.True(t, goesInFront(at(90*mm)), "110 in front, 100 behind")
	assert.False(t, goesInFront(at(30*mm)), "170 in front, 40 behind")
	assert.False(t, goesInFront(at(90*mm)), "and stays there")
	var fresh route.Router
	assert.False(t, goesInFront(fresh.Update(p, l, []route.Request{r})[0]))
}

// Requests may come and go, and the line-up's board may change.
func TestRouterFollowsTheRequests(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	reqs := runs(p, l)
	var r route.Router
	all := r.Update(p, l, reqs)
	fewer := r.Update(p, l, reqs[3:])
	require.Len(t, fewer, len(reqs)-3)
	for i := range fewer {
		assert.Equal(t, all[i+3], fewer[i])
	}
	more := r.Update(p, l, reqs)
	require.Len(t, more, len(reqs))
	for i, q := range more {
		assert.Equal(t, reqs[i].ID, q.ID)
		assert.NotNil(t, q.Points, q.Why)
	}
	p.Board.D += 10 * mm
	assert.Equal(t, route.NewSpace(p, l).Route(reqs), r.Update(p, l, reqs))
}

// A copy goes on from where it was copied, though the other one went elsewhere.
func TestACopyOfARouterGoesOnByItself(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	move := func(id string, by layout.Length) {
		u := p.Unit(id)
		at, _ := p.PlaceOf(l, u)
		at.At.Y += by
		p.SetPlace(l, u, at)
	}
	var r, twin route.Router
	r.Update(p, l, runs(p, l))
	twin.Update(p, l, runs(p, l))
	copied := r
	move("wobble", 9*mm)
	r.Update(p, l, runs(p, l))
	move("wobble", -9*mm)
	move("grit", 5*mm)
	assert.Equal(t, twin.Update(p, l, runs(p, l)), copied.Update(p, l, runs(p, l)))
}

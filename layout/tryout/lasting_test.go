package tryout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/wiring"
)

// A refusal that is said to last is what one gets who asks again.
func TestRefusalsLastWhereverUnitsStand(t *testing.T) {
	was := read(t, club)
	q := Question{Candidate: form(t, "large-two-switch"), Slot: "dirt", InsteadOf: "grit"}
	refused := try(t, was, q)
	require.Equal(t, Impossible, refused.Verdict)
	fits := try(t, was, Question{Candidate: form(t, "mini"), Slot: "dirt", Lineups: []string{"quiet"}})
	require.Equal(t, Fits, fits.Verdict)
	move := func(p *layout.Plan, lineup, id string, x layout.Length, turn layout.Turn) {
		l, u := p.LineupNamed(lineup), p.Unit(id)
		pl, _ := p.PlaceOf(l, u)
		pl.At.X += x * layout.Millimetre
		pl.Turn = turn
		p.SetPlace(l, u, pl)
	}
	for name, change := range map[string]func(p *layout.Plan){
		"a unit of a slot": func(p *layout.Plan) { move(p, "loud", "grit", 2, 0) },
		"a fixed one":      func(p *layout.Plan) { move(p, "loud", "echo", -10, 0); p.Title = "Three" },
		"turned":           func(p *layout.Plan) { move(p, "quiet", "grit", 4, 2) },
	} {
		is := was.Clone()
		change(is)
		wiring.Seat(is)
		require.NotEqual(t, was, is, name)
		assert.True(t, Lasting(was, is)(refused), name)
		assert.False(t, Lasting(was, is)(fits), name)
		again := try(t, is, q)
		assert.Equal(t, Impossible, again.Verdict, name)
		assert.Equal(t, refused.Conflict, again.Conflict, name)
		assert.Equal(t, refused.Growth, again.Growth, name)
		assert.Equal(t, refused.Without, again.Without, name)
	}
	assert.True(t, Lasting(was, was)(fits), "the very same plan")
}

// What a refusal depends on ends it.
func TestRefusalsEnd(t *testing.T) {
	was := read(t, club)
	refused := &Answer{Verdict: Impossible, Proved: true}
	for name, change := range map[string]func(p *layout.Plan){
		"board":     func(p *layout.Plan) { p.Board.W += layout.Millimetre },
		"plug room": func(p *layout.Plan) { p.Board.PlugRoom.Back += layout.Millimetre },
		"slot":      func(p *layout.Plan) { p.Slots[0].At.X1 += layout.Millimetre },
		"unit":      func(p *layout.Plan) { p.Units[0].Body.W -= layout.Millimetre },
		"name":      func(p *layout.Plan) { p.Units[0].Label = "Another" },
		"pinned":    func(p *layout.Plan) { p.Units[0].Pinned = true },
		"turns":     func(p *layout.Plan) { p.Units[0].Turns = []layout.Turn{0} },
		"line-up":   func(p *layout.Plan) { p.Lineups[0].Fill["dirt"] = []string{"wobble"} },
		"chain":     func(p *layout.Plan) { p.Chain.Stops = p.Chain.Stops[1:] },
		"outputs":   func(p *layout.Plan) { p.Feeds = nil },
		"jack": func(p *layout.Plan) {
			u := &p.Units[0]
			u.Jacks = append([]layout.Jack(nil), u.Jacks...)
			u.Jacks[0].Along += layout.Millimetre
		},
	} {
		is := was.Clone()
		change(is)
		assert.False(t, Lasting(was, is)(refused), name)
	}
	pinned := was.Clone()
	pinned.Units[0].Pinned = true
	moved := pinned.Clone()
	moved.Units[0].Place.At.X -= layout.Millimetre
	assert.False(t, Lasting(pinned, moved)(refused), "one that may not move was moved")
	assert.False(t, Lasting(was, was.Clone())(&Answer{Verdict: Undecided}))
}

// The plan of an answer about some line-ups is told with the others as they were.
func TestWholeOfAPart(t *testing.T) {
	p := read(t, clash)
	q := Question{Candidate: form(t, "mini"), Slot: "wide", Lineups: []string{"small"}}
	b, err := Prepare(context.Background(), p, Options{Seed: 1, Steps: 20_000, Lineups: q.Lineups})
	require.NoError(t, err)
	require.True(t, b.Part())
	require.True(t, b.Stands())
	a, err := b.Try(context.Background(), q)
	require.NoError(t, err)
	whole := b.Whole(a.Plan)
	require.Len(t, whole.Lineups, 3)
	assert.Equal(t, a.Plan.Lineups[0], whole.Lineups[0])
	assert.Equal(t, p.Lineups[1], whole.Lineups[1])
	assert.Equal(t, p.Lineups[2], whole.Lineups[2])
	assert.NotNil(t, whole.Unit(a.Unit))
	assert.NotNil(t, whole.Unit("vast"))
	assert.Nil(t, b.Whole(nil))

	b, err = Prepare(context.Background(), read(t, club), Options{Seed: 1, Steps: 20_000})
	require.NoError(t, err)
	assert.Same(t, b.Plan(), b.Whole(b.Plan()))
}

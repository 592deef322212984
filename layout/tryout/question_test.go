package tryout

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
)

// club is a board with a slot of two gigs and a supply of five outputs, all of
// it at its place.
const club = `title = "Two gigs"
[board]
size = [420, 200]
mass = "2kg"
plug_room = { left = 30, right = 30, back = 30 }
[[slot]]
name = "dirt"
at = [140, 0]
size = [170, 130]
[[unit]]
id = "squash"
form = "compact"
place = { at = [325, 0] }
[[unit]]
id = "grit"
form = "mini"
mount = "swap"
[[unit]]
id = "wobble"
form = "mini"
mount = "swap"
[[unit]]
id = "echo"
form = "compact-delay"
place = { at = [30, 0] }
[[unit]]
id = "bricks"
form = "supply-slim"
mount = "fixed"
place = { at = [130, 138] }
[chain]
order = ["instrument", "squash", "slot:dirt", "echo", "amp"]
[[lineup]]
name = "quiet"
fill = { dirt = ["grit"] }
place = { grit = { at = [206, 0] } }
[[lineup]]
name = "loud"
fill = { dirt = ["grit", "wobble"] }
place = { grit = { at = [250, 0] }, wobble = { at = [180, 0] } }
`

func read(t testing.TB, src string) *layout.Plan {
	t.Helper()
	d, err := plan.Parse("club.toml", []byte(src), nil)
	require.NoError(t, err)
	return d.Plan
}

func form(t testing.TB, name string) Candidate {
	t.Helper()
	c, err := FromForm(catalog.Builtin(), name)
	require.NoError(t, err)
	return c
}

func TestQuestionsThatMakeNoSense(t *testing.T) {
	p := read(t, club)
	unit := func(id string) Candidate { return Candidate{Kind: OfPlan, Name: id} }
	for want, q := range map[string]Question{
		`no slot "dort" in the plan: did you mean "dirt"?`:                                                         {Candidate: form(t, "mini"), Slot: "dort"},
		`no line-up "lowd" in the plan: did you mean "loud"?`:                                                      {Candidate: form(t, "mini"), Slot: "dirt", Lineups: []string{"lowd"}},
		`no unit "ecko" in the plan: did you mean "echo"?`:                                                         {Candidate: unit("ecko"), Slot: "dirt"},
		`instead of: no unit "grid" in the plan: did you mean "grit"?`:                                             {Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "grid"},
		`instead of: unit "echo" is not in slot "dirt" in any line-up`:                                             {Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "echo"},
		`instead of: unit "wobble" is not in slot "dirt" in line-up "quiet": that has grit`:                        {Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "wobble", Lineups: []string{"quiet"}},
		`unit "grit" cannot be tried instead of itself`:                                                            {Candidate: unit("grit"), Slot: "dirt", InsteadOf: "grit"},
		`unit "grit" is in slot "dirt" there already: name another slot or unit, or what it should replace`:        {Candidate: unit("grit"), Slot: "dirt"},
		`unit "echo" is on the board in every line-up, so it can only be tried in all of them: leave --lineup out`: {Candidate: unit("echo"), Slot: "dirt", Lineups: []string{"loud"}},
	} {
		_, err := Try(context.Background(), p, q, Options{Steps: 10})
		assert.EqualError(t, err, want)
	}
	p.Slots = nil
	_, err := Try(context.Background(), p, Question{Candidate: form(t, "mini"), Slot: "dirt"}, Options{})
	assert.EqualError(t, err, "the plan has no slot to try anything in: give it a [[slot]]")
}

func TestCandidates(t *testing.T) {
	c := catalog.Builtin()
	_, err := FromForm(c, "compakt")
	assert.EqualError(t, err, `no form "compakt": did you mean "compact"?`)
	_, err = FromForm(c, "xyzzyxyzzy")
	assert.EqualError(t, err, `no form "xyzzyxyzzy"; "footplank forms" lists them`)
	for _, f := range FromCatalog(c) {
		assert.Empty(t, f.Unit.Outputs, "%s is a supply", f.Name)
	}

	for _, bad := range []string{"", "3x4", "3x4x5x6", "axbxc", "30x40x9000", "1x40x40", "-3x40x40"} {
		_, err := FromSize(c, bad, "compact", layout.Millimetres)
		assert.Error(t, err, bad)
	}
	s, err := FromSize(c, "4.7inx120mmX60", "compact", layout.Millimetres)
	require.NoError(t, err)
	assert.Equal(t, layout.Size{W: 119380, D: 120 * mm, H: 60 * mm}, s.Unit.Body)
	like := form(t, "compact").Unit
	assert.Equal(t, like.Jack("in").Along*s.Unit.Body.D/like.Body.D, s.Unit.Jack("in").Along)
	assert.Equal(t, like.Jack("dc").Along*s.Unit.Body.W/like.Body.W, s.Unit.Jack("dc").Along)
	assert.GreaterOrEqual(t, s.Unit.Overall.W, s.Unit.Body.W)
	again, _ := FromForm(c, "compact")
	assert.Equal(t, like, again.Unit, "the catalog's form is not changed")
	assert.Equal(t, []layout.Turn{0, 1}, s.Turned([]int{0, 90}).Unit.Turns)
}

// In the chain the unit takes the place of the one it replaces, else the last.
func TestPlaceInTheChain(t *testing.T) {
	p := read(t, club)
	added := put(p, &Question{Candidate: form(t, "compact"), Slot: "dirt"})
	assert.Equal(t, []string{"grit", "wobble", "compact"}, added.plan.LineupNamed("loud").Fill["dirt"])
	assert.Equal(t, []string{"grit", "compact"}, added.plan.LineupNamed("quiet").Fill["dirt"])
	instead := put(p, &Question{Candidate: form(t, "compact"), Slot: "dirt", InsteadOf: "grit"})
	assert.Equal(t, []string{"compact", "wobble"}, instead.plan.LineupNamed("loud").Fill["dirt"])
	assert.Nil(t, instead.plan.Unit("grit"), "in no slot it would be on the board for good")
	assert.NotEmpty(t, instead.notes)
	one := put(p, &Question{Candidate: form(t, "compact"), Slot: "dirt", InsteadOf: "grit", Lineups: []string{"loud"}})
	assert.Equal(t, []string{"grit"}, one.plan.LineupNamed("quiet").Fill["dirt"])
	assert.NotNil(t, one.plan.Unit("grit"))

	moved := put(p, &Question{Candidate: Candidate{Kind: OfPlan, Name: "echo", Unit: *p.Unit("echo")}, Slot: "dirt"})
	assert.Equal(t, []string{"grit", "echo"}, moved.plan.LineupNamed("quiet").Fill["dirt"])
	for _, s := range moved.plan.Chain.Stops {
		assert.NotEqual(t, "echo", s.Unit, "it passes through its slot only")
	}
	assert.Equal(t, layout.Swap, moved.unit.Mount)

	same := put(p, &Question{Candidate: form(t, "compact"), Slot: "dirt"})
	same.plan.Units = append(same.plan.Units, layout.Unit{ID: "mini"})
	assert.Equal(t, "mini-2", put(same.plan, &Question{Candidate: form(t, "mini"), Slot: "dirt"}).unit.ID)
}

func try(t *testing.T, p *layout.Plan, q Question) *Answer {
	t.Helper()
	a, err := Try(context.Background(), p, q, Options{Seed: 1, Steps: 50_000, Workers: 1})
	require.NoError(t, err)
	return a
}

// One output of the supply is left in line-up loud: the next unit has none.
func TestPower(t *testing.T) {
	p := read(t, club)
	a := try(t, p, Question{Candidate: form(t, "mini"), Slot: "dirt"})
	require.True(t, a.Room())
	assert.True(t, a.Power.OK, a.Power.Text)
	assert.Equal(t, "bricks", a.Power.Outputs["loud"].Unit)

	full := read(t, club)
	full.Unit("bricks").Outputs = full.Unit("bricks").Outputs[:4]
	a = try(t, full, Question{Candidate: form(t, "mini"), Slot: "dirt"})
	require.True(t, a.Room())
	assert.False(t, a.Power.OK)
	assert.False(t, a.Works())
	assert.Contains(t, a.Power.Text, "No output is left")
	assert.Contains(t, a.Power.Rivals, "squash")

	a = try(t, full, Question{Candidate: form(t, "line-selector"), Slot: "dirt", InsteadOf: "wobble"})
	assert.True(t, a.Power.OK)
	assert.Equal(t, "It needs no output.", a.Power.Text)
	a = try(t, full, Question{Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "wobble"})
	assert.True(t, a.Power.OK, "it takes the other's output")
}

// A unit in the place of another of the same form needs nothing new; one more
// needs one cable more.
func TestCables(t *testing.T) {
	p := read(t, club)
	twin := form(t, "mini")
	twin.Unit.Turns = nil
	a := try(t, p, Question{Candidate: twin, Slot: "dirt", InsteadOf: "wobble", Lineups: []string{"loud"}})
	require.Equal(t, Fits, a.Verdict)
	a.Plan.LineupNamed("loud").Place[a.Unit] = p.LineupNamed("loud").Place["wobble"]
	b, err := Prepare(context.Background(), p, Options{Seed: 1})
	require.NoError(t, err)
	f := &finder{b: b, a: &Answer{Plan: a.Plan, Unit: a.Unit, Lineups: []string{"loud"}}}
	f.cables()
	assert.Empty(t, f.a.Cables, "where the other stood, its cables do")

	a = try(t, p, Question{Candidate: twin, Slot: "dirt", Lineups: []string{"loud"}})
	require.True(t, a.Room())
	assert.NotEmpty(t, a.Cables)
	for _, c := range a.Cables {
		assert.Positive(t, c.Cut)
		assert.NotEmpty(t, c.Plugs[0])
		require.NotEmpty(t, c.Uses)
		assert.Equal(t, "loud", c.Uses[0].Lineup)
	}
}

// A plan without places is arranged first, one with some keeps them.
func TestPlanWithoutPlaces(t *testing.T) {
	p := read(t, club)
	for i := range p.Lineups {
		p.Lineups[i].Place = nil
	}
	a := try(t, p, Question{Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "wobble"})
	require.True(t, a.Room())
	assert.Contains(t, a.Notes[0], "Some had no place and were given one first: ")
	assert.Equal(t, p.Unit("squash").Place, a.Plan.Unit("squash").Place)

	for i := range p.Units {
		p.Units[i].Place = nil
	}
	a = try(t, p, Question{Candidate: form(t, "mini"), Slot: "dirt", InsteadOf: "wobble"})
	require.True(t, a.Room())
	assert.Contains(t, a.Notes[0], "arranged first")
}

// Whoever stops the work has what was proved until then, and no claim besides.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, err := Try(ctx, read(t, club), Question{Candidate: form(t, "three-switch"), Slot: "dirt"}, Options{Seed: 1})
	require.NoError(t, err)
	assert.Equal(t, Undecided, a.Verdict)
	assert.False(t, a.Proved)

	var told []Answer
	a, err = Try(context.Background(), read(t, club), Question{Candidate: form(t, "compact"), Slot: "dirt", Lineups: []string{"quiet"}},
		Options{Seed: 1, Steps: 50_000, Progress: func(a Answer) { told = append(told, a) }})
	require.NoError(t, err)
	require.Equal(t, Moves, a.Verdict)
	require.NotEmpty(t, told)
	assert.NotEmpty(t, told[0].Steps)
	assert.Equal(t, Moves, told[len(told)-1].Verdict)
	assert.Positive(t, a.Elapsed)
}

// The same question has the same answer, alone or among others, whatever the
// number of workers.
func TestAnswersAreTheSame(t *testing.T) {
	p := read(t, club)
	var qs []Question
	for _, n := range []string{"mini", "compact", "three-switch", "die-cast-wide"} {
		qs = append(qs, Question{Candidate: form(t, n), Slot: "dirt", InsteadOf: "wobble"})
	}
	b, err := Prepare(context.Background(), p, Options{Seed: 1, Steps: 20_000, Workers: 3})
	require.NoError(t, err)
	told := 0
	many, err := b.TryAll(context.Background(), qs, func(int, *Answer) { told++ })
	require.NoError(t, err)
	assert.Equal(t, len(qs), told)
	for i, q := range qs {
		a, err := Try(context.Background(), p, q, Options{Seed: 1, Steps: 20_000, Workers: 1})
		require.NoError(t, err)
		a.Elapsed, many[i].Elapsed = time.Duration(0), 0
		assert.Equal(t, a, many[i], q.Candidate.Name)
	}
}

// A unit that only a plug of another form makes room for stands where things
// stand: nothing moves, and the answer says which plug changes.
func TestAnotherPlugMakesRoom(t *testing.T) {
	p := read(t, `
board = { size = [300, 130], mass = "1kg", plug_room = { back = 60, right = 90 } }
slot = [{ name = "free", on = "deck", at = [215, 0], size = [85, 125] }]
[[unit]]
id = "power"
form = "supply-eight"
pinned = true
place = { at = [0, 20] }
[chain]
order = ["instrument", "slot:free", "amp"]
`)
	require.Equal(t, "mains-straight", p.Unit("power").Jack("mains").Plug.Name)
	a := try(t, p, Question{Candidate: form(t, "compact-back"), Slot: "free"})
	assert.Equal(t, Fits, a.Verdict)
	assert.True(t, a.Proved)
	assert.Empty(t, a.Moved)
	require.Len(t, a.Plugs, 1)
	assert.Equal(t, "mains-right-angle", a.Plugs[0].To)
}

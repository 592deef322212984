package changeover

import (
	"context"
	"math/bits"
	"slices"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/layout/power"
	"footplank/pack"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const mm = layout.Millimetre

var (
	flat   = layout.PlugForm{Name: "flat", Kind: layout.Phone, Out: 12 * mm, Width: 20 * mm}
	barrel = layout.PlugForm{Name: "barrel", Kind: layout.DC, Out: 11 * mm, Width: 12 * mm}
)

// box is a swap unit w x d mm with a signal from right to left and power behind.
func box(id string, w, d layout.Length) layout.Unit {
	w, d = w*mm, d*mm
	return layout.Unit{
		ID: id, Label: "Unit " + id, Mount: layout.Swap, Body: layout.Size{W: w, D: d, H: 50 * mm}, Mass: 400 * layout.Gram,
		Jacks: []layout.Jack{
			{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: d / 2, Height: 20 * mm, Plug: flat},
			{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: d / 2, Height: 20 * mm, Plug: flat},
			{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: w / 2, Height: 30 * mm, Plug: barrel},
		},
		Draw: &layout.Draw{Millivolts: 9000, Milliamps: 20},
	}
}

// brick is a fixed supply with outputs in front.
func brick(outputs int) layout.Unit {
	u := layout.Unit{ID: "brick", Label: "Brick", Mount: layout.Fixed, Body: layout.Size{W: 300 * mm, D: 50 * mm, H: 40 * mm}}
	for i := range outputs {
		id := string(rune('1' + i))
		u.Jacks = append(u.Jacks, layout.Jack{ID: id, Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Wall: layout.Front,
			Along: layout.Length(25+40*i) * mm, Height: 20 * mm, Plug: barrel})
		u.Outputs = append(u.Outputs, layout.Output{Jack: id, Millivolts: 9000, Milliamps: 100, Isolated: true})
	}
	at := layout.Placement{On: layout.DeckName, At: layout.Point{X: 50 * mm, Y: 340 * mm}}
	u.Place = &at
	return u
}

// stage is a board with a brick at the back and one slot over the rest.
func stage() *layout.Plan {
	p := &layout.Plan{
		Title: "stage",
		Board: layout.Board{W: 460 * mm, D: 400 * mm, Kind: layout.Solid, PlugRoom: layout.Edges{Left: 40 * mm, Right: 40 * mm, Back: 40 * mm}},
		Slots: []layout.Slot{{Name: "all", On: layout.DeckName, At: layout.Rect{X1: 460 * mm, Y1: 300 * mm}}},
		Units: []layout.Unit{brick(7)},
		Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Slot: "all"}, {Unit: layout.Amp}}},
	}
	return p
}

// play adds a line-up with its units at x, y in mm.
func play(p *layout.Plan, name string, at map[string][2]int, order ...string) {
	l := layout.Lineup{Name: name, Fill: map[string][]string{"all": order}, Place: map[string]layout.Placement{}}
	for id, xy := range at {
		l.Place[id] = layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(xy[0]) * mm, Y: layout.Length(xy[1]) * mm}}
	}
	p.Lineups = append(p.Lineups, l)
}

func make2(t require.TestingT, p *layout.Plan, from, to string) *Card {
	power.Apply(p)
	c, err := Make(p, from, to)
	require.NoError(t, err)
	requireWorks(t, p, c)
	return c
}

func TestTwoUnitsSwapPlaces(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100))
	play(p, "one", map[string][2]int{"a": {300, 50}, "b": {150, 50}}, "a", "b")
	play(p, "two", map[string][2]int{"a": {150, 50}, "b": {300, 50}}, "b", "a")
	c := make2(t, p, "one", "two")
	assert.Equal(t, 1, c.SetAside(), "a ring of two wants one set aside")
	assert.True(t, c.AsideFewest)
	assert.Equal(t, 1, c.Count(Lift))
	assert.Equal(t, 1, c.Count(Move))
	assert.Equal(t, 1, c.Count(Place))
}

func TestAChainOfMovesSetsNothingAside(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100), box("c", 60, 100))
	play(p, "one", map[string][2]int{"a": {20, 50}, "b": {130, 50}, "c": {240, 50}}, "c", "b", "a")
	play(p, "two", map[string][2]int{"a": {130, 50}, "b": {240, 50}, "c": {350, 50}}, "c", "b", "a")
	c := make2(t, p, "one", "two")
	assert.Zero(t, c.SetAside())
	var order []string
	for i := range c.Steps {
		if c.Steps[i].Kind == Move {
			order = append(order, c.Steps[i].Unit)
		}
	}
	assert.Equal(t, []string{"c", "b", "a"}, order)
}

func TestWhatStaysPluggedIsLeftAlone(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100), box("c", 60, 100))
	at := map[string][2]int{"a": {350, 50}, "b": {220, 50}, "c": {90, 50}}
	play(p, "three", at, "a", "b", "c")
	play(p, "two", map[string][2]int{"a": {350, 50}, "b": {220, 50}}, "a", "b")
	for i := range p.Units {
		p.Units[i].Draw = nil
	}
	c := make2(t, p, "three", "two")
	for i := range c.Steps {
		for _, e := range c.Steps[i].Ends {
			assert.NotEqual(t, "a", e.Unit, "nothing of a changes")
			assert.NotEqual(t, layout.JackRef{Unit: "b", Jack: "in"}, e.JackRef)
		}
	}
}

func TestTheSameLineupTwice(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100))
	play(p, "one", map[string][2]int{"a": {300, 50}}, "a")
	play(p, "copy", map[string][2]int{"a": {300, 50}}, "a")
	assert.Empty(t, make2(t, p, "one", "one").Steps)
	assert.Empty(t, make2(t, p, "one", "copy").Steps, "another name is no step")
}

func TestRefusals(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100))
	play(p, "one", map[string][2]int{"a": {300, 50}, "b": {100, 50}}, "a", "b")
	play(p, "bare", map[string][2]int{"a": {300, 50}}, "a", "b")
	play(p, "heap", map[string][2]int{"a": {300, 50}, "b": {310, 50}}, "a", "b")
	play(p, "away", map[string][2]int{"b": {100, 50}}, "b")
	play(p, "aside", map[string][2]int{"a": {200, 50}, "b": {50, 50}}, "a", "b")
	for _, c := range []struct{ from, to, why string }{
		{"one", "bare", `line-up "bare" is not on the board yet: Unit b without a place`},
		{"bare", "one", `line-up "bare" is not on the board yet: Unit b without a place`},
		{"one", "heap", `line-up "heap" cannot be built: Unit a and Unit b stand in each other or in each other's plugs`},
		{"one", "onne", `no line-up "onne" in the plan: did you mean "one"?`},
		{"quartet", "one", `no line-up "quartet" in the plan: it has one, bare, heap, away, aside`},
	} {
		_, err := Make(p, c.from, c.to)
		assert.EqualError(t, err, c.why)
	}
	p.Unit("a").Mount = layout.Fixed
	for to, why := range map[string]string{
		"away":  `Unit a is fixed for good, but is not in line-up "away": make it mount = "swap", or give it one place in all line-ups`,
		"aside": `Unit a is fixed for good, but stands at another place in line-up "aside": make it mount = "swap", or give it one place in all line-ups`,
	} {
		_, err := Make(p, "one", to)
		assert.EqualError(t, err, why)
		assert.IsType(t, &Refusal{}, err)
	}
}

// TestTightPlugs: a plug whose shank is 31.75 mm (metaglossary, "phone plug")
// does not come out of 12 mm of free room.
func TestTightPlugs(t *testing.T) {
	for gap, tight := range map[int]string{12 + 12: "b", 12 + 31: "b", 12 + 32: ""} {
		p := stage()
		p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100))
		play(p, "one", map[string][2]int{"a": {200 + gap, 50}, "b": {140, 50}}, "a", "b")
		play(p, "two", map[string][2]int{"b": {140, 50}}, "b")
		c := make2(t, p, "one", "two")
		found := false
		for i := range c.Steps {
			for _, e := range c.Steps[i].Ends {
				if c.Steps[i].Kind == Unplug && e.JackRef == (layout.JackRef{Unit: "a", Jack: "out"}) {
					assert.Equal(t, tight, e.Tight, "gap %d", gap)
					found = true
				}
			}
		}
		assert.True(t, found)
	}
}

func TestExamples(t *testing.T) {
	cat := catalog.Builtin()
	cards := 0
	for _, e := range plan.Examples() {
		doc, err := plan.Parse(e.Name, e.Source, cat)
		require.NoError(t, err)
		res, err := arrange.Arrange(context.Background(), doc.Plan, arrange.Options{Seed: 1, Steps: 2000, DecideSteps: 60_000, Workers: 1})
		require.NoError(t, err)
		if res.Verdict != pack.Fits {
			_, err := All(doc.Plan)
			assert.NoError(t, err, "one line-up has no pairs")
			continue
		}
		all, err := All(res.Plan)
		require.NoError(t, err)
		n := len(res.Plan.Lineups)
		assert.Len(t, all, n*(n-1))
		for _, c := range all {
			requireWorks(t, res.Plan, c)
			cards++
		}
	}
	assert.Equal(t, 8, cards)
}

// randomPlan has up to six units of random size in two line-ups, thrown onto the
// board until they stand.
func randomPlan(t *rapid.T) *layout.Plan {
	p := stage()
	n := rapid.IntRange(2, 6).Draw(t, "units")
	for i := range n {
		u := box(string(rune('a'+i)), rapid.SampledFrom([]layout.Length{40, 60, 90}).Draw(t, "w"), rapid.SampledFrom([]layout.Length{60, 100}).Draw(t, "d"))
		if rapid.Bool().Draw(t, "passive") {
			u.Draw = nil
		}
		p.Units = append(p.Units, u)
	}
	for _, name := range []string{"one", "two"} {
		at := map[string][2]int{}
		var order []string
		for _, i := range rapid.Permutation([]int{0, 1, 2, 3, 4, 5}).Draw(t, "order") {
			if i >= n {
				continue
			}
			id := string(rune('a' + i))
			if len(p.Lineups) == 1 && rapid.IntRange(0, 3).Draw(t, "same") == 0 {
				if pl, ok := p.Lineups[0].Place[id]; ok && stands(p, at, id, [2]int{int(pl.At.X / mm), int(pl.At.Y / mm)}) {
					at[id] = [2]int{int(pl.At.X / mm), int(pl.At.Y / mm)}
					order = append(order, id)
					continue
				}
			}
			for range 6 {
				xy := [2]int{10 * rapid.IntRange(1, 36).Draw(t, "x"), 10 * rapid.IntRange(0, 18).Draw(t, "y")}
				if len(p.Lineups) == 1 && rapid.Bool().Draw(t, "taken") {
					other := string(rune('a' + rapid.IntRange(0, n-1).Draw(t, "other")))
					if pl, ok := p.Lineups[0].Place[other]; ok {
						xy = [2]int{int(pl.At.X / mm), int(pl.At.Y / mm)}
					}
				}
				if stands(p, at, id, xy) {
					at[id] = xy
					order = append(order, id)
					break
				}
			}
		}
		play(p, name, at, order...)
	}
	// A unit in no slot would stand on the board always.
	p.Units = slices.DeleteFunc(p.Units, func(u layout.Unit) bool { return u.Mount == layout.Swap && !p.InSlots(u.ID) })
	return p
}

// stands reports whether a unit with its plugs is clear of those that stand.
func stands(p *layout.Plan, at map[string][2]int, id string, xy [2]int) bool {
	room := func(id string, xy [2]int) layout.Rect {
		u := p.Unit(id)
		return layout.RectAt(layout.Point{X: layout.Length(xy[0]) * mm, Y: layout.Length(xy[1]) * mm}, u.Body.W, u.Body.D).
			Grow(layout.Edges{Left: 12 * mm, Right: 12 * mm, Back: 11 * mm})
	}
	r := room(id, xy)
	if r.X0 < -40*mm || r.X1 > 500*mm || xy[0]*1000+int(p.Unit(id).Body.W) > 460_000 || r.Y1 > 320*mm {
		return false
	}
	for other, o := range at {
		if other != id && r.Overlaps(room(other, o)) {
			return false
		}
	}
	return true
}

func TestRandomPlans(t *testing.T) {
	rings := 0
	rapid.Check(t, func(t *rapid.T) {
		p := randomPlan(t)
		c := make2(t, p, "one", "two")
		require.True(t, c.AsideFewest)
		least := leastAside(p)
		require.Equal(t, least, c.SetAside())
		rings += least
		make2(t, p, "two", "one")
	})
	t.Logf("%d units set aside in all", rings)
}

// leastAside tries every order of lifting and placing the units of line-up one
// that stand elsewhere in line-up two, and returns how few must be set aside.
func leastAside(p *layout.Plan) int {
	one, two := &p.Lineups[0], &p.Lineups[1]
	var ids []string
	for id, pl := range one.Place {
		if to, ok := two.Place[id]; ok && to != pl {
			ids = append(ids, id)
		}
	}
	n := len(ids)
	best := n + 1
	for set := range 1 << n { // those set aside
		if bits.OnesCount(uint(set)) < best && anyOrder(p, ids, set, set) {
			best = bits.OnesCount(uint(set))
		}
	}
	return best
}

// anyOrder reports whether the others can move one after the other; gone are
// those that have.
func anyOrder(p *layout.Plan, ids []string, set, gone int) bool {
	if gone == 1<<len(ids)-1 {
		return true
	}
	for i, id := range ids {
		free := gone>>i&1 == 0
		for k, other := range ids {
			if i != k && gone>>k&1 == 0 && p.Unit(id).Base(p.Lineups[1].Place[id]).Overlaps(p.Unit(other).Base(p.Lineups[0].Place[other])) {
				free = false
			}
		}
		if free && anyOrder(p, ids, set, gone|1<<i) {
			return true
		}
	}
	return false
}

// TestFeedback compares the least set that breaks every round with all sets.
func TestFeedback(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 8).Draw(t, "n")
		next := make([][]int, n)
		for i := range next {
			for k := range n {
				if i != k && rapid.IntRange(0, 3).Draw(t, "arrow") == 0 {
					next[i] = append(next[i], k)
				}
			}
		}
		set, proved := feedback(next)
		require.True(t, proved)
		var mine int
		for _, i := range set {
			mine |= 1 << i
		}
		require.True(t, roundless(next, mine))
		for other := range 1 << n {
			if roundless(next, other) {
				require.GreaterOrEqual(t, bits.OnesCount(uint(other)), len(set))
			}
		}
	})
}

// roundless takes away nodes without arrows to others until none is left, or
// none can be taken.
func roundless(next [][]int, gone int) bool {
	for moved := true; moved; {
		moved = false
		for i := range next {
			free := gone>>i&1 == 0
			for _, k := range next[i] {
				free = free && gone>>k&1 == 1
			}
			if free {
				gone |= 1 << i
				moved = true
			}
		}
	}
	return gone == 1<<len(next)-1
}

// BenchmarkCards makes the cards of all pairs of the example's line-ups, with its
// cables laid once.
func BenchmarkCards(b *testing.B) {
	doc, err := plan.Parse("example", plan.Examples()[0].Source, catalog.Builtin())
	require.NoError(b, err)
	res, err := arrange.Arrange(context.Background(), doc.Plan, arrange.Options{Seed: 1, FirstFit: true, Workers: 1})
	require.NoError(b, err)
	for b.Loop() {
		_, err := All(res.Plan)
		require.NoError(b, err)
	}
}

package arrange

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"footplank/layout"
	"footplank/layout/cases"
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

// box returns a unit w x d mm with jacks on its sides and power at its back.
func box(id string, w, d layout.Length, mount layout.Mount) layout.Unit {
	w, d = w*mm, d*mm
	return layout.Unit{
		ID: id, Label: "Unit " + id, Mount: mount,
		Body: layout.Size{W: w, D: d, H: 50 * mm}, Mass: 400 * layout.Gram,
		Switches: []layout.Switch{{At: layout.Point{X: w / 2, Y: 20 * mm}, Height: 55 * mm}},
		Jacks: []layout.Jack{
			{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: d * 2 / 3, Height: 20 * mm, Plug: flat},
			{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: d * 2 / 3, Height: 20 * mm, Plug: flat},
			{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: w / 2, Height: 30 * mm, Plug: barrel},
		},
		Draw: &layout.Draw{Millivolts: 9000, Milliamps: 20},
	}
}

// gig is a small plan of our own: three fixed units and a slot with two fillings.
func gig() *layout.Plan {
	p := &layout.Plan{
		Title: "gig",
		Board: layout.Board{W: 420 * mm, D: 300 * mm, Kind: layout.Solid,
			PlugRoom: layout.Edges{Left: 15 * mm, Right: 15 * mm, Back: 15 * mm}},
		Slots: []layout.Slot{{Name: "colour", On: layout.DeckName, At: layout.RectAt(layout.Point{X: 120 * mm}, 300*mm, 150*mm)}},
		Units: []layout.Unit{
			box("pre", 70, 120, layout.Fixed), box("echo", 145, 120, layout.Fixed), box("tune", 60, 110, layout.Fixed),
			box("warm", 70, 120, layout.Swap), box("rasp", 70, 120, layout.Swap), box("big", 170, 130, layout.Swap),
		},
		Chain: layout.Chain{Stops: []layout.Stop{
			{Unit: layout.Instrument}, {Unit: "tune"}, {Slot: "colour"}, {Unit: "echo"}, {Unit: "pre"}, {Unit: layout.Desk},
		}},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"warm", "rasp"}}},
			{Name: "pit", Fill: map[string][]string{"colour": {"big"}}},
			{Name: "solo", Fill: map[string][]string{"colour": {"warm"}}},
		},
		Limits: layout.Limits{Reach: 72 * mm},
	}
	return p
}

// requireSound checks an arrangement with plain code that shares nothing with
// the packing problem: every unit placed, no boxes overlap, slots and the
// board's edges kept, bases resting.
func requireSound(t require.TestingT, p *layout.Plan) {
	for i := range p.Lineups {
		l := &p.Lineups[i]
		placed, missing := p.Standings(l)
		require.Empty(t, missing, "line-up %s", l.Name)
		for a := range placed {
			s := &placed[a]
			on, ok := p.Board.Surface(s.Place.On)
			require.True(t, ok)
			require.True(t, on.Rests(s.Unit, s.Place), "%s does not rest", s.Unit.ID)
			if slot := p.SlotOf(l, s.Unit.ID); slot != nil {
				require.True(t, slot.At.Contains(s.Unit.Base(s.Place)), "%s is out of its slot", s.Unit.ID)
				require.Equal(t, slot.On, s.Place.On)
			}
			for _, x := range s.Boxes {
				if x.Part == layout.PlugPart {
					require.True(t, p.Board.Rect().Grow(p.Board.PlugRoom).Contains(x.Box.Rect()), "%s %s", s.Unit.ID, x.Jack)
				}
				for _, o := range p.Board.Obstacles() {
					require.False(t, x.Box.Overlaps(o.Box), "%s against %s", s.Unit.ID, o.Name)
				}
				for b := a + 1; b < len(placed); b++ {
					for _, y := range placed[b].Boxes {
						require.False(t, x.Box.Overlaps(y.Box), "%s: %s against %s", l.Name, s.Unit.ID, placed[b].Unit.ID)
					}
				}
			}
		}
	}
}

func steps() Options { return Options{Seed: 1, Steps: 3000} }

func TestArrangeFitsEveryLineup(t *testing.T) {
	p := gig()
	before := p.Clone()
	res, err := Arrange(context.Background(), p, steps())
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	requireSound(t, res.Plan)
	assert.Equal(t, before, p.Clone(), "the plan that was given is not changed")
	for i := range res.Plan.Lineups {
		for id := range res.Plan.Lineups[i].Place {
			assert.True(t, p.InSlots(id), "%s stands in every line-up, so its place is its own", id)
		}
	}
	warm := res.Plan.Unit("warm")
	a, _ := res.Plan.PlaceOf(&res.Plan.Lineups[0], warm)
	b, _ := res.Plan.PlaceOf(&res.Plan.Lineups[2], warm)
	assert.Equal(t, a, b, "a swapped unit keeps its place where it can")
}

func TestArrangeImproves(t *testing.T) {
	first, err := Arrange(context.Background(), gig(), Options{Seed: 1, FirstFit: true})
	require.NoError(t, err)
	requireSound(t, first.Plan)
	better, err := Arrange(context.Background(), gig(), steps())
	require.NoError(t, err)
	assert.Less(t, better.Cost, first.Cost)
}

func TestArrangeIsTheSameForASeed(t *testing.T) {
	a, err := Arrange(context.Background(), gig(), steps())
	require.NoError(t, err)
	b, err := Arrange(context.Background(), gig(), steps())
	require.NoError(t, err)
	assert.Equal(t, a.Plan, b.Plan)
	assert.Equal(t, a.Cost, b.Cost)
}

func TestArrangeLeavesPinnedUnits(t *testing.T) {
	p := gig()
	at := layout.Placement{On: layout.DeckName, At: layout.Point{X: 17 * mm, Y: 3 * mm}, Turn: 0}
	p.Unit("pre").Place, p.Unit("pre").Pinned = &at, true
	res, err := Arrange(context.Background(), p, steps())
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	assert.Equal(t, at, *res.Plan.Unit("pre").Place)
	requireSound(t, res.Plan)
}

func TestArrangeOneLineupKeepsSharedUnits(t *testing.T) {
	p := gig()
	all, err := Arrange(context.Background(), p, steps())
	require.NoError(t, err)
	one, err := Arrange(context.Background(), all.Plan, Options{Seed: 9, Steps: 3000, Lineups: []string{"pit"}})
	require.NoError(t, err)
	require.Equal(t, pack.Fits, one.Verdict)
	for _, id := range []string{"pre", "echo", "tune"} {
		assert.Equal(t, all.Plan.Unit(id).Place, one.Plan.Unit(id).Place, id)
	}
	requireSound(t, one.Plan)
}

func TestArrangeRefusesUnknownLineup(t *testing.T) {
	_, err := Arrange(context.Background(), gig(), Options{Lineups: []string{"barm"}})
	assert.EqualError(t, err, `no line-up "barm" in this plan: it has "barn", "pit", "solo"`)
}

func TestArrangeProvesImpossible(t *testing.T) {
	t.Run("a unit too tall for the case", func(t *testing.T) {
		p := gig()
		p.Board.Case = &layout.Case{Inside: layout.Size{W: 440 * mm, D: 320 * mm, H: 60 * mm}, Below: 20 * mm}
		res, err := Arrange(context.Background(), p, Options{})
		require.NoError(t, err)
		require.Equal(t, pack.Impossible, res.Verdict)
		assert.Equal(t, "no-region", res.Rule)
		assert.Contains(t, res.Why, "has no place at all")
	})
	t.Run("one line-up is to blame", func(t *testing.T) {
		p := gig()
		p.Unit("big").Body.W = 299 * mm // with its plugs it cannot pass the others
		p.Unit("big").Body.D = 149 * mm
		p.Board.W, p.Board.D = 420*mm, 250*mm
		res, err := Arrange(context.Background(), p, Options{})
		require.NoError(t, err)
		require.Equal(t, pack.Impossible, res.Verdict)
		assert.NotEmpty(t, res.Why)
		assert.Equal(t, pack.Impossible, res.Alone["pit"])
		assert.Equal(t, pack.Fits, res.Alone["barn"])
	})
	t.Run("two pinned units in the same place", func(t *testing.T) {
		p := gig()
		at := layout.Placement{On: layout.DeckName}
		for _, id := range []string{"pre", "tune"} {
			at := at
			p.Unit(id).Place, p.Unit(id).Pinned = &at, true
		}
		res, err := Arrange(context.Background(), p, Options{})
		require.NoError(t, err)
		require.Equal(t, pack.Impossible, res.Verdict)
		assert.ElementsMatch(t, []string{"pre", "tune"}, res.Units, res.Why)
	})
}

// Two units that stand past opposite edges share the room beside the board.
func TestArrangeIntoACase(t *testing.T) {
	tight := func(inside layout.Length) *layout.Plan {
		p := &layout.Plan{
			Board: layout.Board{W: 200 * mm, D: 120 * mm, Kind: layout.Solid, Overhang: layout.Edges{Left: 20 * mm, Right: 20 * mm},
				Case: &layout.Case{Inside: layout.Size{W: inside, D: 150 * mm, H: 100 * mm}}},
			Units:   []layout.Unit{box("a", 118, 120, layout.Fixed), box("b", 118, 120, layout.Fixed)},
			Lineups: []layout.Lineup{{Name: "all"}},
			Limits:  layout.Limits{Reach: 72 * mm},
		}
		for i := range p.Units {
			p.Units[i].Draw = nil
		}
		return p
	}
	for _, c := range []struct {
		inside layout.Length
		want   pack.Verdict
	}{{240 * mm, pack.Fits}, {236 * mm, pack.Fits}, {219 * mm, pack.Undecided}, {210 * mm, pack.Impossible}} {
		res, err := Arrange(context.Background(), tight(c.inside), steps())
		require.NoError(t, err)
		require.Equal(t, c.want, res.Verdict, "case %v wide", c.inside)
		if res.Verdict == pack.Fits {
			requireSound(t, res.Plan)
			a, b := res.Plan.Unit("a").Base(*res.Plan.Unit("a").Place), res.Plan.Unit("b").Base(*res.Plan.Unit("b").Place)
			assert.LessOrEqual(t, a.Union(b).Union(res.Plan.Board.Rect()).W(), c.inside)
		}
	}
}

func TestArrangeUnderARiser(t *testing.T) {
	p := gig()
	p.Board.Risers = []layout.Riser{{Name: "shelf", At: layout.RectAt(layout.Point{X: 10 * mm, Y: 160 * mm}, 400*mm, 140*mm), Height: 70 * mm, Thickness: 9 * mm}}
	p.Board.Risers[0].Legs = p.Board.Risers[0].EndPanels()
	supply := box("supply", 200, 90, layout.Fixed)
	supply.On, supply.Switches, supply.Draw = []string{layout.DeckName}, nil, nil
	p.Units = append(p.Units, supply)
	res, err := Arrange(context.Background(), p, steps())
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	requireSound(t, res.Plan)
}

func TestArrangeStopsWhenTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	res, err := Arrange(ctx, gig(), Options{})
	require.NoError(t, err)
	assert.NotEqual(t, pack.Impossible, res.Verdict)

	ctx, cancel = context.WithTimeout(context.Background(), 100*time.Millisecond)
	defer cancel()
	res, err = Arrange(ctx, gig(), Options{})
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict, "what was found stays")
	requireSound(t, res.Plan)
}

func TestDeltaIsTheDifferenceOfCosts(t *testing.T) {
	p := gig()
	lineups, err := choose(p, nil)
	require.NoError(t, err)
	pr := newProblem(p, lineups, mode{apart: true}, nil)
	c := newCost(pr)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(i int) pack.Place {
			n := rapid.IntRange(0, len(pr.pack.Items[i].Regions)-1).Draw(t, "region")
			r := pr.pack.Items[i].Regions[n]
			return pack.Place{Region: n, X: rapid.Int64Range(r.X0, r.X1).Draw(t, "x"), Y: rapid.Int64Range(r.Y0, r.Y1).Draw(t, "y")}
		}
		var places []pack.Place
		for i := range pr.items {
			places = append(places, draw(i))
		}
		i := rapid.IntRange(0, len(places)-1).Draw(t, "item")
		to := draw(i)
		before, delta := c.Cost(places), c.Delta(places, i, to)
		places[i] = to
		if after := c.Cost(places); math.Abs(float64(after-before-delta)) > 2 {
			t.Fatalf("Delta = %d, costs differ by %d", delta, after-before)
		}
	})
}

// TestArrangementsAreSound arranges random plans and checks what comes out by
// requireSound; a verdict of impossible is checked by hand-placed plans that
// are known to fit.
func TestArrangementsAreSound(t *testing.T) {
	cases.Fewer(t, 40, func(t *rapid.T) {
		p := gig()
		p.Board.W = layout.Length(rapid.IntRange(330, 600).Draw(t, "width")) * mm
		p.Board.D = layout.Length(rapid.IntRange(200, 400).Draw(t, "depth")) * mm
		p.Slots[0].At = layout.RectAt(layout.Point{X: 60 * mm}, p.Board.W-60*mm, 150*mm)
		for i := range p.Units {
			p.Units[i].Turns = []layout.Turn{0, layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))}
		}
		res, err := Arrange(context.Background(), p, Options{Seed: 3, DecideSteps: 3000, Steps: 200})
		require.NoError(t, err)
		if res.Verdict == pack.Fits {
			requireSound(t, res.Plan)
		}
	})
}

func BenchmarkFirstFit(b *testing.B) {
	p := gig()
	for i := 0; b.Loop(); i++ {
		res, err := Arrange(context.Background(), p, Options{Seed: int64(i), FirstFit: true})
		if err != nil || res.Verdict != pack.Fits {
			b.Fatal(fmt.Sprint(res.Verdict, err))
		}
	}
}

// Units end at whole millimetres wherever nothing is in the way.
func TestArrangeIsTidy(t *testing.T) {
	whole := 0
	rapid.Check(t, func(t *rapid.T) {
		p := gig()
		p.Unit("echo").Body.W += layout.Length(rapid.IntRange(0, 999).Draw(t, "odd"))
		lineups, err := choose(p, nil)
		require.NoError(t, err)
		pr := newProblem(p, lineups, mode{}, nil)
		res, err := pack.Solve(context.Background(), &pr.pack, pack.Options{Seed: rapid.Int64().Draw(t, "seed"), Steps: 3000})
		require.NoError(t, err)
		if res.Verdict != pack.Fits {
			return
		}
		off := func(places []pack.Place) (n int) {
			for _, p := range places {
				n += btoi(p.X%1000 != 0) + btoi(p.Y%1000 != 0)
			}
			return n
		}
		before := off(res.Places)
		pr.tidy(res.Places, newCost(pr))
		requireSound(t, pr.placed(res.Places))
		require.LessOrEqual(t, off(res.Places), before)
		whole += before - off(res.Places)
	})
	require.Positive(t, whole, "something was tidied")
}

func TestList(t *testing.T) {
	names := []string{"A", "B", "C", "D", "E", "F", "G", "H"}
	for n, want := range map[int]string{
		1: "A", 2: "A and B", 3: "A, B and C",
		7: "A, B, C, D, E, F and G", 8: "A, B, C, D, E, F and 2 more units",
	} {
		assert.Equal(t, want, list(names[:n]))
	}
}

// The best so far may be taken as it is shown: it is sound, and as tidy as the
// answer.
func TestProgressIsTidy(t *testing.T) {
	told := 0
	_, err := Arrange(context.Background(), gig(), Options{Seed: 1, Steps: 3000, Progress: func(g Progress) {
		told++
		requireSound(t, g.Plan)
		for _, u := range []string{"pre", "echo", "tune"} {
			at := g.Plan.Unit(u).Place.At
			assert.Zero(t, at.X%mm, "%s x", u)
			assert.Zero(t, at.Y%mm, "%s y", u)
		}
	}})
	require.NoError(t, err)
	assert.Positive(t, told)
}

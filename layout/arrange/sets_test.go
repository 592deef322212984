package arrange

import (
	"context"
	"math/bits"
	"slices"
	"testing"

	"footplank/layout"
	"footplank/layout/cases"
	"footplank/pack"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// gigs is a plan of several line-ups that share a swap unit or two and a fixed
// one, on a board that may be too small for all.
func gigs(t *rapid.T) *layout.Plan {
	p := &layout.Plan{
		Board: layout.Board{W: layout.Length(rapid.IntRange(26, 44).Draw(t, "width")) * 10 * mm, D: 150 * mm, Kind: layout.Solid},
		Units: []layout.Unit{box("hall", 90, 130, layout.Fixed)},
		Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Slot: "any"}, {Unit: "hall"}, {Unit: layout.Amp}}},
	}
	p.Slots = []layout.Slot{{Name: "any", On: layout.DeckName, At: p.Board.Rect()}}
	for _, id := range []string{"a", "b", "c", "d"} {
		p.Units = append(p.Units, box(id, layout.Length(rapid.IntRange(5, 13).Draw(t, "w"))*10, 130, layout.Swap))
	}
	for i := range p.Units {
		p.Units[i].Draw = nil
	}
	for _, n := range []string{"barn", "pit", "solo", "tent"}[:rapid.IntRange(2, 4).Draw(t, "line-ups")] {
		l := layout.Lineup{Name: n, Fill: map[string][]string{}}
		for _, id := range []string{"a", "b", "c", "d"} {
			if rapid.Bool().Draw(t, n+" has "+id) {
				l.Fill["any"] = append(l.Fill["any"], id)
			}
		}
		p.Lineups = append(p.Lineups, l)
	}
	// A unit in no line-up would stand in all of them.
	p.Units = slices.DeleteFunc(p.Units, func(u layout.Unit) bool { return u.ID != "hall" && !p.InSlots(u.ID) })
	if rapid.Bool().Draw(t, "pinned") {
		at := layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(rapid.IntRange(2, 12).Draw(t, "x")) * 10 * mm}}
		p.Unit("hall").Place, p.Unit("hall").Pinned = &at, true
	}
	return p
}

// The sets are compared with those from trying every one.
func TestSortLineupsAgreesWithTryingAll(t *testing.T) {
	refused := 0
	cases.Fewer(t, 50, func(t *rapid.T) {
		p := gigs(t)
		got, err := SortLineups(context.Background(), p, nil, Options{Seed: 1, Workers: 1})
		require.NoError(t, err)
		require.True(t, got.Whole)
		n := len(p.Lineups)
		fits := make([]bool, 1<<n)
		for set := range fits {
			var names []string
			for k := range n {
				if set>>k&1 == 1 {
					names = append(names, p.Lineups[k].Name)
				}
			}
			fits[set] = set == 0 || all(t, p, names)
		}
		var fit, clash [][]string
		for set := 1; set < 1<<n; set++ {
			most, least := fits[set], !fits[set]
			for k := range n {
				most = most && (set>>k&1 == 1 || !fits[set|1<<k])
				least = least && (set>>k&1 == 0 || fits[set&^(1<<k)])
			}
			var names []string
			for b := set; b != 0; b &= b - 1 {
				names = append(names, p.Lineups[bits.TrailingZeros(uint(b))].Name)
			}
			if most {
				fit = append(fit, names)
			}
			if least {
				clash = append(clash, names)
			}
		}
		refused += len(clash)
		require.ElementsMatch(t, fit, listed(t, got.Fit))
		require.ElementsMatch(t, clash, listed(t, got.Clash))
		for _, c := range got.Clash {
			require.NotEmpty(t, c.Units)
			require.NotEmpty(t, c.Why)
		}
	})
	assert.Positive(t, refused)
}

func listed(t *rapid.T, sets []LineupSet) [][]string {
	out := [][]string{}
	for _, s := range sets {
		require.True(t, s.Proved)
		out = append(out, s.Lineups)
	}
	return out
}

// all reports whether the line-ups fit on one board, by one search for each of
// the ways that swap units may be parted: the plain one.
func all(t *rapid.T, p *layout.Plan, names []string) bool {
	q := Only(p, names)
	lineups, err := choose(q, nil)
	require.NoError(t, err)
	pr := newProblem(q, lineups, mode{apart: true}, nil)
	res, err := pack.Solve(context.Background(), &pr.pack, pack.Options{})
	require.NoError(t, err)
	require.NotEqual(t, pack.Undecided, res.Verdict)
	return res.Verdict == pack.Fits
}

// Two line-ups that each fit but need the fixed unit elsewhere.
func TestSortLineupsNamesThePair(t *testing.T) {
	p := &layout.Plan{
		Board: layout.Board{W: 300 * mm, D: 150 * mm, Kind: layout.Solid},
		Units: []layout.Unit{box("hall", 100, 130, layout.Fixed), box("west", 180, 130, layout.Swap), box("east", 180, 130, layout.Swap), box("tiny", 40, 100, layout.Swap)},
		Slots: []layout.Slot{
			{Name: "left", On: layout.DeckName, At: layout.RectAt(layout.Point{}, 190*mm, 150*mm)},
			{Name: "right", On: layout.DeckName, At: layout.RectAt(layout.Point{X: 110 * mm}, 190*mm, 150*mm)},
		},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"left": {"west"}}},
			{Name: "pit", Fill: map[string][]string{"right": {"east"}}},
			{Name: "solo", Fill: map[string][]string{"left": {"tiny"}}},
		},
	}
	for i := range p.Units {
		p.Units[i].Draw, p.Units[i].Jacks = nil, nil
	}
	res, err := Arrange(context.Background(), p, Options{Seed: 1})
	require.NoError(t, err)
	require.Equal(t, pack.Impossible, res.Verdict)
	assert.Equal(t, [][]string{{"barn", "solo"}, {"pit", "solo"}}, names(res.Sets.Fit))
	assert.Equal(t, [][]string{{"barn", "pit"}}, names(res.Sets.Clash))
	assert.ElementsMatch(t, []string{"hall", "west", "east"}, res.Sets.Clash[0].Units)
	assert.True(t, res.Sets.Whole)

	// Asked about some only, nothing is said of the others.
	sets, err := SortLineups(context.Background(), p, []string{"barn", "solo"}, Options{})
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"barn", "solo"}}, names(sets.Fit))
	assert.Empty(t, sets.Clash)
	_, err = SortLineups(context.Background(), p, []string{"bern"}, Options{})
	assert.Error(t, err)
}

func names(sets []LineupSet) [][]string {
	var out [][]string
	for _, s := range sets {
		out = append(out, s.Lineups)
	}
	return out
}

// A stopped sorting says so, and claims nothing.
func TestSortLineupsStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	sets, err := SortLineups(ctx, gig(), nil, Options{})
	require.NoError(t, err)
	assert.False(t, sets.Whole)
	assert.Empty(t, sets.Clash)
}

// Of swap units only those stand elsewhere that must.
func TestArrangePartsFewUnits(t *testing.T) {
	p := &layout.Plan{
		Board: layout.Board{W: 300 * mm, D: 100 * mm, Kind: layout.Solid},
		Slots: []layout.Slot{{Name: "row", On: layout.DeckName, At: layout.RectAt(layout.Point{}, 300*mm, 100*mm)}},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"row": {"same", "may", "left"}}},
			{Name: "pit", Fill: map[string][]string{"row": {"same", "may", "right"}}},
		},
	}
	for _, w := range []struct {
		id string
		w  layout.Length
	}{{"same", 60}, {"may", 80}, {"left", 160}, {"right", 160}} {
		u := box(w.id, w.w, 100, layout.Swap)
		u.Draw, u.Jacks, u.Switches = nil, nil, nil
		p.Units = append(p.Units, u)
	}
	pin := func(l int, id string, x layout.Length) {
		p.Unit(id).Pinned = true
		p.Lineups[l].Place = map[string]layout.Placement{id: {On: layout.DeckName, At: layout.Point{X: x * mm}}}
	}
	// What is pinned leaves 140 mm on the right in the one, on the left in the
	// other: both shared units must change over.
	pin(0, "left", 0)
	pin(1, "right", 140)
	res, err := Arrange(context.Background(), p, Options{Seed: 1, Steps: 2000})
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	assert.Equal(t, []string{"same", "may"}, res.Elsewhere)

	// With 60 mm in common one of them can stay.
	pin(1, "right", 80)
	p.Board.W, p.Slots[0].At.X1 = 300*mm, 300*mm
	res, err = Arrange(context.Background(), p, Options{Seed: 1, Steps: 2000})
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict)
	assert.Len(t, res.Elsewhere, 1)
}

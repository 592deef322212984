package check_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/arranged"
	"footplank/layout/cases"
	"footplank/layout/check"
	"footplank/layout/plan"
	"footplank/pack"
)

// The arranger and the checks are written apart, and agree: what is arranged
// has no fault in any line-up.
func TestArrangedExampleFits(t *testing.T) {
	p := arranged.Example(t)
	require.Len(t, p.Lineups, 3)
	for _, r := range check.All(p) {
		assert.Equal(t, check.Fits, r.Verdict, "%s: %+v", r.Lineup, r.Findings)
	}
}

// The same for boards that nobody tried: the example with its board, shelf,
// units, turns and allowances changed at random. Where it no longer fits there
// is nothing to check.
func TestArrangedBoardsFit(t *testing.T) {
	e := plan.Examples()[0]
	fits := 0
	cases.Fewer(t, 20, func(t *rapid.T) {
		d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
		require.NoError(t, err)
		p := d.Plan
		mm := func(lo, hi int, what string) layout.Length {
			return layout.Length(rapid.IntRange(lo, hi).Draw(t, what)) * layout.Millimetre
		}
		wider := mm(0, 120, "wider")
		p.Board.W += wider
		p.Board.Case.Inside.W += wider
		p.Board.Overhang = layout.Edges{Left: mm(0, 20, "left"), Right: mm(0, 20, "right"), Front: mm(0, 5, "front")}
		p.Board.Risers[0].Overhang.Front = mm(0, 30, "shelf's front")
		p.Board.Risers[0].Height = mm(55, 75, "shelf's height")
		for i := range p.Units {
			u := &p.Units[i]
			if !u.Pinned {
				u.Place = nil
				u.Turns = []layout.Turn{0, layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))}
				u.Often = rapid.IntRange(0, 3).Draw(t, "often")
			}
		}
		r, err := arrange.Arrange(context.Background(), p, arrange.Options{FirstFit: true, DecideSteps: 400})
		require.NoError(t, err)
		if r.Verdict != pack.Fits {
			return
		}
		fits++
		for _, res := range check.All(r.Plan) {
			require.Equal(t, check.Fits, res.Verdict, "%s: %+v", res.Lineup, res.Findings)
		}
	})
	require.Positive(t, fits)
}

// Before that, every unit that is not pinned waits for its place.
func TestExampleBeforeArranging(t *testing.T) {
	e := plan.Examples()[0]
	d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
	require.NoError(t, err)
	for i := range d.Plan.Units {
		if u := &d.Plan.Units[i]; !u.Pinned {
			u.Place = nil
		}
	}
	for i, r := range check.All(d.Plan) {
		l := &d.Plan.Lineups[i]
		l.Place = nil
		assert.Equal(t, check.Unplaced, check.Verdict(check.Lineup(d.Plan, l), false), r.Lineup)
	}
}

// No form of the catalog wants the same room for two of its own plugs, or a
// plug below its base, even with all its jacks in use.
func TestFormsOfTheCatalogCanBePlugged(t *testing.T) {
	forms := catalog.Builtin().Units()
	require.NotEmpty(t, forms)
	for _, f := range forms {
		u := f.Unit
		u.ID, u.Label = f.Name, f.Name
		for i := range u.Jacks {
			u.Uses = append(u.Uses, u.Jacks[i].ID)
		}
		u.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 500 * layout.Millimetre, Y: 500 * layout.Millimetre}}
		p := &layout.Plan{Board: layout.Board{W: layout.MaxLength, D: layout.MaxLength, Kind: layout.Solid},
			Units: []layout.Unit{u}, Lineups: []layout.Lineup{{Name: "all"}}}
		for _, found := range check.Lineup(p, &p.Lineups[0]) {
			assert.NotContains(t, []string{check.OwnPlugs, check.PlugBelow, check.Collision}, found.Code, "%s: %s", f.Name, found.Text)
		}
	}
}

// BenchmarkExample checks the three line-ups of the built-in example.
func BenchmarkExample(b *testing.B) {
	p := arranged.Example(b)
	b.ReportAllocs()
	for b.Loop() {
		check.All(p)
	}
}

// From the plan as read to the first arrangement that fits, all line-ups at
// once, a new seed each time.
func BenchmarkArrangeExample(b *testing.B) {
	e := plan.Examples()[0]
	d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
	require.NoError(b, err)
	for seed := int64(0); b.Loop(); seed++ {
		r, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{Seed: seed, FirstFit: true})
		require.NoError(b, err)
		require.Equal(b, pack.Fits, r.Verdict)
	}
}

package arrange

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/pack"
)

// tour is a plan of 20 units, 8 of them fixed, and 10 line-ups of 3 or 4 swap
// units of the other 12.
func tour() *layout.Plan {
	p := &layout.Plan{
		Board: layout.Board{W: 640 * mm, D: 340 * mm, Kind: layout.Solid, Thickness: 15 * mm,
			PlugRoom: layout.Edges{Left: 15 * mm, Right: 15 * mm, Back: 15 * mm}},
		Slots:  []layout.Slot{{Name: "front", On: layout.DeckName, At: layout.RectAt(layout.Point{X: 150 * mm}, 490*mm, 165*mm)}},
		Limits: layout.Limits{Reach: 60 * mm},
	}
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Slot: "front"}}
	for i, w := range []layout.Length{60, 60, 70, 70, 70, 95, 120, 70} {
		u := box(fmt.Sprintf("f%d", i), w, 120, layout.Fixed)
		p.Units = append(p.Units, u)
		p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: u.ID})
	}
	p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: layout.Amp})
	for i := range 12 {
		p.Units = append(p.Units, box(fmt.Sprintf("s%d", i), layout.Length(45+i%4*15), 120, layout.Swap))
	}
	for k := range 10 {
		var ids []string
		for n := range 3 + k%2 {
			ids = append(ids, fmt.Sprintf("s%d", (k+n*5)%12))
		}
		p.Lineups = append(p.Lineups, layout.Lineup{Name: fmt.Sprintf("gig %d", k), Fill: map[string][]string{"front": ids}})
	}
	return p
}

func TestOnlyLeavesOutWhatOthersHave(t *testing.T) {
	p := tour()
	q := Only(p, []string{"gig 0"})
	require.Len(t, q.Lineups, 1)
	assert.Len(t, q.Units, 8+3)
	assert.Len(t, p.Units, 20, "the plan that was given is not changed")
	assert.Len(t, p.Lineups, 10)
}

// BenchmarkTenLineups arranges ten line-ups together up to the first fit.
func BenchmarkTenLineups(b *testing.B) {
	p := tour()
	for i := 0; b.Loop(); i++ {
		res, err := Arrange(context.Background(), p, Options{Seed: int64(i), FirstFit: true})
		if err != nil || res.Verdict != pack.Fits {
			b.Fatal(fmt.Sprint(res.Verdict, res.Why, err))
		}
	}
}

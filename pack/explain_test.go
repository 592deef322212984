package pack

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func twinSubFits(p *Problem, items []int) bool {
	sub := &Problem{Obstacles: p.Obstacles}
	for _, i := range items {
		sub.Items = append(sub.Items, p.Items[i])
	}
	return twinFits(sub)
}

func TestConflictIsSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		set, err := Conflict(context.Background(), p, Options{})
		if err != nil {
			t.Fatalf("%v", err)
		}
		if (set.Verdict == Fits) != twinFits(p) || set.Verdict == Undecided {
			t.Fatalf("verdict %v", set.Verdict)
		}
		if set.Verdict == Fits {
			return
		}
		if !set.Minimal || !set.Smallest || len(set.Items) == 0 || set.Reason == nil || !slices.IsSorted(set.Items) {
			t.Fatalf("got %+v", set)
		}
		if twinSubFits(p, set.Items) {
			t.Fatalf("items %v fit by themselves", set.Items)
		}
		for size := 1; size < len(set.Items); size++ {
			for _, items := range subsets(len(p.Items), size) {
				if !twinSubFits(p, items) {
					t.Fatalf("items %v are refused as well as %v", items, set.Items)
				}
			}
		}
	})
}

func TestLeastGrowthIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		grow := Wider(p)
		if rapid.Bool().Draw(t, "deeper") {
			grow = Deeper(p)
		}
		const limit = 5
		g, err := LeastGrowth(context.Background(), grow, limit, 1, Options{})
		if err != nil {
			t.Fatalf("%v", err)
		}
		want := int64(-1)
		for k := int64(0); k <= limit; k++ {
			if twinFits(grow(k)) {
				want = k
				break
			}
		}
		if g.Enough != want {
			t.Fatalf("enough %d, want %d", g.Enough, want)
		}
		switch {
		case want >= 0:
			requireArrangement(t, grow(want), g.Places)
			if g.TooLittle != want-1 {
				t.Fatalf("too little %d, enough %d", g.TooLittle, want)
			}
		case g.TooLittle != limit:
			t.Fatalf("too little %d, want %d", g.TooLittle, limit)
		}
	})
}

// Of the millimetre too much on a planted board the reason must be the area at
// jack height, and a little less than all must fit.
func TestConflictOfPlantedBoard(t *testing.T) {
	p := Planted(3, 8, true)
	set, err := Conflict(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if set.Verdict != Impossible || len(set.Items) == 0 || len(set.Items) > 8 {
		t.Fatalf("got %+v", set)
	}
	sub := &Problem{Obstacles: p.Obstacles}
	for _, i := range set.Items {
		sub.Items = append(sub.Items, p.Items[i])
	}
	res, err := Solve(context.Background(), sub, Options{})
	if err != nil || res.Verdict != Impossible {
		t.Fatalf("the set alone: %v %v", res.Verdict, err)
	}
}

package pack

import (
	"context"
	"testing"
)

// The plan of a planted board must itself be an arrangement, and its items must
// have the promised number of boxes.
func TestPlantedPlansAreArrangements(t *testing.T) {
	for n := 4; n <= 18; n++ {
		for seed := int64(0); seed < 12; seed++ {
			p, places := planted(seed, n, false)
			requireArrangement(t, p, places)
			if len(p.Items) != n {
				t.Fatalf("%d items, want %d", len(p.Items), n)
			}
			for i, it := range p.Items {
				if k := len(it.Shapes[0].Boxes); k < 3 || k > 5 {
					t.Fatalf("seed %d, %d items: item %d has %d boxes", seed, n, i, k)
				}
			}
		}
	}
}

// Planted boards must be decided, and rightly, in a bounded number of steps.
func TestPlantedBoardsAreDecided(t *testing.T) {
	for n := 8; n <= 16; n += 2 {
		for seed := int64(1); seed <= 4; seed++ {
			for _, tooLarge := range []bool{false, true} {
				p := Planted(seed, n, tooLarge)
				res, err := Solve(context.Background(), p, Options{Seed: 1, Steps: 300_000})
				if err != nil {
					t.Fatal(err)
				}
				want := Fits
				if tooLarge {
					want = Impossible
				}
				if res.Verdict != want {
					t.Fatalf("seed %d, %d items: %v, want %v", seed, n, res.Verdict, want)
				}
				if res.Verdict == Fits {
					requireArrangement(t, p, res.Places)
				}
			}
		}
	}
}

// With some millimetres to spare nothing is tight any more and the area proves
// nothing: the learning search has to decide. What a board with the plan's
// items allows it must find.
func TestLooseBoardsAreDecided(t *testing.T) {
	for _, mm := range []int64{1, 4, 15} {
		for seed := int64(1); seed <= 4; seed++ {
			p := loosened(Planted(seed, 10, false), mm*1000)
			res, err := Solve(context.Background(), p, Options{Seed: 1, Steps: 2_000_000})
			if err != nil {
				t.Fatal(err)
			}
			if res.Verdict != Fits {
				t.Fatalf("seed %d, %d mm: %v", seed, mm, res.Verdict)
			}
			requireArrangement(t, p, res.Places)
		}
	}
}

// loosened lets everything reach further right and back by room.
func loosened(p *Problem, room int64) *Problem { return grown(p, room, room) }

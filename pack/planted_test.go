package pack

import (
	"context"
	"os"
	"sort"
	"testing"
	"time"
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

func TestPlantedProbe(t *testing.T) {
	if os.Getenv("PROBE") == "" {
		t.Skip()
	}
	for _, n := range []int{8, 10, 12, 14, 16} {
		for _, big := range []bool{false, true} {
			var ts []time.Duration
			und := 0
			boxes := 0
			for s := int64(1); s <= 15; s++ {
				p := Planted(s, n, big)
				for _, it := range p.Items {
					boxes += len(it.Shapes[0].Boxes)
				}
				ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
				t0 := time.Now()
				res, err := Solve(ctx, p, Options{Seed: 1})
				cancel()
				if err != nil {
					t.Fatal(err)
				}
				ts = append(ts, time.Since(t0))
				if res.Verdict == Undecided {
					und++
				} else if (res.Verdict == Fits) == big {
					t.Fatalf("seed %d n %d big %v: %v", s, n, big, res.Verdict)
				}
				if res.Verdict == Fits {
					requireArrangement(t, p, res.Places)
				}
			}
			sort.Slice(ts, func(i, j int) bool { return ts[i] < ts[j] })
			t.Logf("n=%d big=%v median %v max %v undecided %d boxes/item %.1f", n, big, ts[len(ts)/2], ts[len(ts)-1], und, float64(boxes)/15/float64(n))
		}
	}
}

package pack

import (
	"context"
	"math/bits"
	"testing"

	"pgregory.net/rapid"
)

// twinMoves returns the fewest moves of all arrangements, or -1.
func twinMoves(p *Problem, now []Place, movable []bool) int {
	var free []int
	for i := range now {
		if movable[i] && now[i].Region >= 0 {
			free = append(free, i)
		}
	}
	best := -1
	for s := 0; s < 1<<len(free); s++ {
		k := bits.OnesCount(uint(s))
		if best >= 0 && k >= best {
			continue
		}
		may := make([]bool, len(now))
		for b, i := range free {
			may[i] = s>>b&1 != 0
		}
		if twinFits(pinned(p, now, may)) {
			best = k
		}
	}
	return best
}

func TestFewestMovesAgreesWithTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		if len(p.Items) == 0 || len(p.Items) > 4 {
			return
		}
		now, movable := make([]Place, len(p.Items)), make([]bool, len(p.Items))
		for i, it := range p.Items {
			movable[i] = rapid.IntRange(0, 3).Draw(t, "movable") > 0
			r := rapid.IntRange(-1, len(it.Regions)-1).Draw(t, "region")
			now[i].Region = r
			if r >= 0 {
				now[i].X = rapid.Int64Range(it.Regions[r].X0, it.Regions[r].X1).Draw(t, "x")
				now[i].Y = rapid.Int64Range(it.Regions[r].Y0, it.Regions[r].Y1).Draw(t, "y")
			}
		}
		m, err := FewestMoves(context.Background(), p, now, movable, Options{ImproveSteps: 300})
		if err != nil {
			t.Fatalf("%v", err)
		}
		want := twinMoves(p, now, movable)
		if want < 0 {
			if m.Verdict != Impossible {
				t.Fatalf("verdict %v for what cannot be", m.Verdict)
			}
			return
		}
		if m.Verdict != Fits || !m.Proved || len(m.Moved) != want {
			t.Fatalf("%v, moved %v, proved %v; want %d moves", m.Verdict, m.Moved, m.Proved, want)
		}
		requireArrangement(t, p, m.Places)
		for i := range now {
			if now[i].Region >= 0 && !movable[i] && m.Places[i] != now[i] {
				t.Fatalf("item %d may not move from %v to %v", i, now[i], m.Places[i])
			}
		}
	})
}

// A new item on a full board needs exactly the one that stands in its way moved,
// and that no further than it must.
func TestFewestMovesGoesNoFurtherThanNeeded(t *testing.T) {
	square := Shape{Boxes: []Box{{X1: 10, Y1: 10, Z1: 5}}}
	row := Region{X0: 0, X1: 90, Y1: 0}
	p := &Problem{}
	now := []Place{{0, 0, 0}, {0, 15, 0}, {0, 60, 0}, {NoPlace, 0, 0}}
	for range now {
		p.Items = append(p.Items, Item{Groups: 1, Shapes: []Shape{square}, Regions: []Region{row}})
	}
	p.Items[3].Regions = []Region{{X0: 20, X1: 22}}
	m, err := FewestMoves(context.Background(), p, now, []bool{true, true, true, true}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if m.Verdict != Fits || !m.Proved || len(m.Moved) != 1 || m.Moved[0] != 1 || m.Distance != 3 {
		t.Fatalf("got %+v", m)
	}
}

func TestFewestMovesRefusesBadInput(t *testing.T) {
	p := &Problem{Items: []Item{{Groups: 1, Regions: []Region{{}}, Shapes: []Shape{{}}}}}
	if _, err := FewestMoves(context.Background(), p, nil, nil, Options{}); err == nil {
		t.Fatal("no error for missing places")
	}
	if _, err := FewestMoves(context.Background(), p, []Place{{Region: 3}}, []bool{true}, Options{}); err == nil {
		t.Fatal("no error for a region that is not there")
	}
}

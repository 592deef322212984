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

// Of a group that must move, the items that need not stay.
func TestFewestMovesOfLeavesTheRest(t *testing.T) {
	square := Shape{Boxes: []Box{{X1: 10, Y1: 10, Z1: 5}}}
	row := Region{X1: 90}
	p := &Problem{Items: []Item{
		{Groups: 1, Shapes: []Shape{square}, Regions: []Region{row}},
		{Groups: 2, Shapes: []Shape{square}, Regions: []Region{row}},
		{Groups: 1, Shapes: []Shape{square}, Regions: []Region{{X0: 20, X1: 22}}},
	}}
	now := []Place{{0, 15, 0}, {0, 47, 0}, {NoPlace, 0, 0}}
	rules := MoveRules{Movable: []bool{true, true, true}, Group: []int{0, 0, 2}}
	m, err := FewestMovesOf(context.Background(), p, now, rules, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Moved) != 1 || m.Moved[0] != 0 || m.Distance != 3 || m.Cheap != 1 {
		t.Fatalf("got %+v", m)
	}
}

// twinMovesOf returns the fewest dear moves of all arrangements and with them
// the fewest others, or -1.
func twinMovesOf(p *Problem, now []Place, rules MoveRules) (dear, cheap int) {
	best := -1
	for s := 0; s < 1<<len(now); s++ {
		may := make([]bool, len(now))
		var dears, cheaps uint
		for i := range now {
			if s>>i&1 == 0 {
				continue
			}
			if may[i] = true; !rules.Movable[i] || now[i].Region < 0 {
				continue
			}
			if rules.Dear[i] {
				dears |= 1 << rules.Group[i]
			} else {
				cheaps |= 1 << rules.Group[i]
			}
		}
		for i := range may {
			may[i] = may[i] && rules.Movable[i]
		}
		cost := 100*bits.OnesCount(dears) + bits.OnesCount(cheaps)
		if (best < 0 || cost < best) && twinFits(pinned(p, now, may)) {
			best = cost
		}
	}
	if best < 0 {
		return -1, -1
	}
	return best / 100, best % 100
}

// Items of one group are one move, and dear ones move only where nothing else
// does.
func TestFewestMovesOfAgreesWithTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		if len(p.Items) == 0 || len(p.Items) > 4 {
			return
		}
		n := len(p.Items)
		now := make([]Place, n)
		rules := MoveRules{Movable: make([]bool, n), Group: make([]int, n), Dear: make([]bool, n)}
		for i, it := range p.Items {
			rules.Movable[i] = rapid.IntRange(0, 3).Draw(t, "movable") > 0
			rules.Group[i] = rapid.IntRange(0, n-1).Draw(t, "group")
			rules.Dear[i] = rules.Group[i] == 0
			r := rapid.IntRange(-1, len(it.Regions)-1).Draw(t, "region")
			now[i].Region = r
			if r >= 0 {
				now[i].X = rapid.Int64Range(it.Regions[r].X0, it.Regions[r].X1).Draw(t, "x")
				now[i].Y = rapid.Int64Range(it.Regions[r].Y0, it.Regions[r].Y1).Draw(t, "y")
			}
		}
		m, err := FewestMovesOf(context.Background(), p, now, rules, Options{ImproveSteps: 300})
		if err != nil {
			t.Fatalf("%v", err)
		}
		dear, cheap := twinMovesOf(p, now, rules)
		if dear < 0 {
			if m.Verdict != Impossible {
				t.Fatalf("verdict %v for what cannot be", m.Verdict)
			}
			return
		}
		if m.Verdict != Fits || !m.Proved || m.Dear != dear || m.Cheap != cheap {
			t.Fatalf("%v, %d dear and %d others, proved %v; want %d and %d", m.Verdict, m.Dear, m.Cheap, m.Proved, dear, cheap)
		}
		requireArrangement(t, p, m.Places)
	})
}

func TestFewestMovesRefusesBadInput(t *testing.T) {
	p := &Problem{Items: []Item{{Groups: 1, Regions: []Region{{}}, Shapes: []Shape{{}}}}}
	if _, err := FewestMoves(context.Background(), p, nil, nil, Options{}); err == nil {
		t.Fatal("no error for missing places")
	}
	if _, err := FewestMoves(context.Background(), p, []Place{{Region: 3}}, []bool{true}, Options{}); err == nil {
		t.Fatal("no error for a region that is not there")
	}
	for _, r := range []MoveRules{{Movable: []bool{true}, Group: []int{1}}, {Movable: []bool{true}, Group: []int{0, 0}}, {Movable: []bool{true}, Dear: []bool{}}} {
		if _, err := FewestMovesOf(context.Background(), p, []Place{{}}, r, Options{}); err == nil {
			t.Fatalf("no error for %+v", r)
		}
	}
}

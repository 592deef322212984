package pack

import (
	"context"
	"encoding/json"
	"os"
	"runtime"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// block is an item of one box with the given sides that may stand where it
// keeps inside [0,w) x [0,d).
func block(x, y, w, d int64) Item {
	it := Item{Groups: 1, Shapes: []Shape{{Boxes: []Box{{X1: x, Y1: y, Z1: 10}}}}}
	if x <= w && y <= d {
		it.Regions = []Region{{X1: w - x, Y1: d - y}}
	}
	return it
}

// plug gives an item a second box beside the first, so that it is not a plain
// rectangle.
func plug(it Item, b Box) Item {
	it.Shapes = []Shape{{Boxes: append([]Box{b}, it.Shapes[0].Boxes...)}}
	return it
}

func TestEdgesOfTheProblem(t *testing.T) {
	full := block(100, 50, 100, 50)
	pin := func(x, y int64) Item {
		it := plug(block(10, 10, 10, 10), Box{X1: 3, Y1: 3, Z0: 10, Z1: 12})
		it.Regions = []Region{{X0: x, X1: x, Y0: y, Y1: y}}
		return it
	}
	flat := Item{Groups: 1, Shapes: []Shape{{Boxes: []Box{{X1: 100, Y1: 50}, {X0: 3, X1: 3, Y1: 50, Z1: 10}}}}, Regions: []Region{{}}}
	empty := Item{Groups: 1, Shapes: []Shape{{}}, Regions: []Region{{X1: 5}}}
	other := plug(full, Box{X1: 1, Y1: 1, Z0: 10, Z1: 11})
	other.Groups = 2
	inPart := plug(full, Box{X1: 1, Y1: 1, Z0: 10, Z1: 11})
	inPart.Groups = 3
	inPart.Shapes[0].Boxes[1].Groups = 2 // its body is there in group 2 only
	for _, c := range []struct {
		name  string
		items []Item
		obst  []Obstacle
		want  Verdict
		rule  string
	}{
		{"nothing", nil, nil, Fits, ""},
		{"nothing but an obstacle", nil, []Obstacle{{Box: Box{X1: 9, Y1: 9, Z1: 9}}}, Fits, ""},
		{"exactly full", []Item{full}, nil, Fits, ""},
		{"larger than everything", []Item{full, block(101, 50, 100, 50)}, nil, Impossible, "no-region"},
		{"full twice", []Item{full, plug(full, Box{X1: 1, Y1: 1, Z0: 10, Z1: 11})}, nil, Impossible, "area"},
		{"full twice in two groups", []Item{full, other}, nil, Fits, ""},
		{"full twice, the body in the other group", []Item{full, inPart}, nil, Fits, ""},
		{"boxes without volume", []Item{full, flat, flat, empty}, nil, Fits, ""},
		{"pinned side by side", []Item{pin(0, 0), pin(10, 0), pin(0, 10)}, nil, Fits, ""},
		{"pinned into each other", []Item{pin(0, 0), pin(9, 9)}, nil, Impossible, ""},
		{"a floating obstacle above", []Item{full}, []Obstacle{{Box: Box{X1: 100, Y1: 50, Z0: 10, Z1: 20}}}, Fits, ""},
		{"a thread through the middle", []Item{full}, []Obstacle{{Box: Box{X0: 50, X1: 51, Y1: 50, Z0: 9, Z1: 20}}}, Impossible, "no-region"},
		{"an obstacle of another group", []Item{full}, []Obstacle{{Box: Box{X0: 50, X1: 51, Y1: 50, Z1: 20, Groups: 2}}}, Fits, ""},
	} {
		p := &Problem{Items: c.items, Obstacles: c.obst}
		res, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if res.Verdict != c.want {
			t.Errorf("%s: %v, want %v", c.name, res.Verdict, c.want)
			continue
		}
		if res.Verdict == Fits {
			requireArrangement(t, p, res.Places)
		} else if c.rule != "" && res.Reason.Rule != c.rule {
			t.Errorf("%s: rule %q, want %q", c.name, res.Reason.Rule, c.rule)
		}
	}
}

// One equal item more than there is room for: without regard to their being
// equal that is 7! times the work.
func TestEqualItems(t *testing.T) {
	for _, c := range []struct {
		n    int
		want Verdict
	}{{6, Fits}, {7, Impossible}} {
		p := &Problem{}
		for range c.n {
			// Three in a row and two rows, and room left over that
			// is no use; the plug makes it more than a rectangle.
			it := plug(block(100_000, 70_000, 360_000, 190_000), Box{X0: 20_000, X1: 30_000, Y0: 70_000, Y1: 70_200, Z1: 5})
			p.Items = append(p.Items, it)
		}
		res, err := Solve(context.Background(), p, Options{Steps: 3_000_000})
		if err != nil {
			t.Fatal(err)
		}
		if res.Verdict != c.want {
			t.Fatalf("%d equal items: %v, want %v", c.n, res.Verdict, c.want)
		}
	}
}

// Coordinates may be huge and fit to the last unit.
func TestHugeCoordinates(t *testing.T) {
	const big = int64(1) << 38
	p := &Problem{Items: []Item{
		plug(block(big, big/2+1, 2*big+1, big), Box{X1: 1, Y1: 1, Z0: 10, Z1: 11}),
		plug(block(big+1, big/2+1, 2*big+1, big), Box{X1: 1, Y1: 1, Z0: 10, Z1: 11}),
		plug(block(2*big+1, big/2-1, 2*big+1, big), Box{X1: 1, Y1: 1, Z0: 10, Z1: 11}),
	}}
	for _, grow := range []int64{0, 1} {
		p.Items[0].Shapes[0].Boxes[1].X1 = big + grow
		p.Items[0].Regions[0].X1 = big + 1 - grow
		res, err := Solve(context.Background(), p, Options{Steps: 1_000_000})
		if err != nil {
			t.Fatal(err)
		}
		if (grow == 0) != (res.Verdict == Fits) || res.Verdict == Undecided {
			t.Fatalf("grown by %d: %v", grow, res.Verdict)
		}
		if res.Verdict == Fits {
			requireArrangement(t, p, res.Places)
		}
	}
}

// hard is a problem that no search here decides soon: sixteen items and some
// millimetres too little or too much.
func hard() *Problem { return loosened(Planted(7, 22, true), 12_000) }

func TestOutOfTimeSaysUndecided(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for name, solve := range map[string]func() (Result, error){
		"cancelled": func() (Result, error) { return Solve(ctx, hard(), Options{}) },
		"no steps":  func() (Result, error) { return Solve(context.Background(), hard(), Options{Steps: 1}) },
	} {
		res, err := solve()
		if err != nil {
			t.Fatal(err)
		}
		if res.Verdict != Undecided || res.Reason != nil || res.Places != nil {
			t.Errorf("%s: %+v", name, res)
		}
	}
}

func TestCancelEndsImprovementWithTheBest(t *testing.T) {
	p, home := planted(4, 8, false)
	p = loosened(p, 50_000)
	o := pullTo(p, func(i int) [2]int64 { return [2]int64{home[i].X, home[i].Y} })
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	calls := 0
	res, err := Solve(ctx, p, Options{Objective: o, ImproveSteps: 1 << 40, Progress: func(Progress) {
		if calls++; calls == 2 {
			cancel()
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if res.Verdict != Fits || res.Cost != o.Cost(res.Places) {
		t.Fatalf("got %+v", res)
	}
	requireArrangement(t, p, res.Places)
}

// A start that is an arrangement is the answer, also when there is no time.
func TestStartThatFits(t *testing.T) {
	p, home := planted(2, 14, false)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	res, err := Solve(ctx, p, Options{Start: home})
	if err != nil || res.Verdict != Fits {
		t.Fatalf("%v %v", res.Verdict, err)
	}
	requireArrangement(t, p, res.Places)
}

// Whatever is allowed on a board is allowed on a larger one, and what is refused
// stays refused with one more item.
func TestVerdictsAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		res, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatalf("%v", err)
		}
		q := grown(p, 1, 0)
		if res.Verdict == Impossible {
			q = &Problem{Items: append(append([]Item{}, p.Items...), block(1, 1, 2, 2)), Obstacles: p.Obstacles}
		}
		again, err := Solve(context.Background(), q, Options{Seed: 4})
		if err != nil || again.Verdict != res.Verdict {
			t.Fatalf("%v, then %v (%v)", res.Verdict, again.Verdict, err)
		}
	})
}

// The memory of an undecided search is bounded by what its learned clauses may
// hold. The long run, with PACK_LONG set, goes on for a minute.
func TestMemoryIsBounded(t *testing.T) {
	limit, steps := uint64(256<<20), int64(30_000)
	ctx := context.Background()
	if os.Getenv("PACK_LONG") != "" {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, time.Minute)
		defer cancel()
		limit, steps = 512<<20, 0
	}
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	if _, err := Solve(ctx, hard(), Options{Steps: steps}); err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	t.Logf("memory taken from the system: %d MB", after.Sys>>20)
	if after.Sys > before.Sys+limit {
		t.Fatalf("memory taken from the system grew from %d to %d bytes", before.Sys, after.Sys)
	}
}

// board17 is the built-in example of 17 units in three line-ups, as the layout
// hands it over.
func board17(t testing.TB) *Problem {
	b, err := os.ReadFile("testdata/board17.json")
	if err != nil {
		t.Fatal(err)
	}
	p := new(Problem)
	if err := json.Unmarshal(b, p); err != nil {
		t.Fatal(err)
	}
	return p
}

func TestRealBoardFits(t *testing.T) {
	p := board17(t)
	for seed := int64(0); seed < 5; seed++ {
		res, err := Solve(context.Background(), p, Options{Seed: seed, Steps: 100_000})
		if err != nil || res.Verdict != Fits {
			t.Fatalf("seed %d: %v %v", seed, res.Verdict, err)
		}
		requireArrangement(t, p, res.Places)
	}
}

package pack

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// pull is an objective for tests: each item is drawn to a point of its own.
type pull struct{ to [][2]int64 }

func (o pull) one(i int, p Place) int64 {
	return max(p.X-o.to[i][0], o.to[i][0]-p.X) + max(p.Y-o.to[i][1], o.to[i][1]-p.Y)
}

func (o pull) Cost(ps []Place) int64 {
	c := int64(0)
	for i, p := range ps {
		c += o.one(i, p)
	}
	return c
}

// pullMove is pull that tells changes and bounds.
type pullMove struct{ pull }

func (o pullMove) Delta(ps []Place, i int, to Place) int64 { return o.one(i, to) - o.one(i, ps[i]) }

func (o pullMove) Bound(ps []Place, set []bool) int64 {
	c := int64(0)
	for i := range ps {
		if set[i] {
			c += o.one(i, ps[i])
		}
	}
	return c
}

func pullTo(p *Problem, at func(i int) [2]int64) pull {
	var o pull
	for i := range p.Items {
		o.to = append(o.to, at(i))
	}
	return o
}

// Items drawn to where a known arrangement has them must come close to it, and
// the result must be sound, the cost right, progress falling.
func TestImprovementComesCheaperAndStaysSound(t *testing.T) {
	for seed := int64(1); seed <= 3; seed++ {
		p, home := planted(seed, 9, false)
		for i := range p.Items {
			for r := range p.Items[i].Regions {
				p.Items[i].Regions[r].X1 += 60_000
				p.Items[i].Regions[r].Y1 += 60_000
			}
		}
		o := pullMove{pullTo(p, func(i int) [2]int64 { return [2]int64{home[i].X, home[i].Y} })}
		var costs []int64
		opt := Options{Seed: seed, ImproveSteps: 6000, Objective: o, Progress: func(pr Progress) {
			costs = append(costs, pr.Cost)
			requireArrangement(t, p, pr.Places)
			if pr.Verdict != Fits || pr.Cost != o.Cost(pr.Places) {
				t.Errorf("progress says %v at %d, the places cost %d", pr.Verdict, pr.Cost, o.Cost(pr.Places))
			}
		}}
		res, err := Solve(context.Background(), p, opt)
		if err != nil {
			t.Fatal(err)
		}
		requireArrangement(t, p, res.Places)
		if res.Cost != o.Cost(res.Places) {
			t.Fatalf("cost %d, the places cost %d", res.Cost, o.Cost(res.Places))
		}
		if len(costs) < 2 || !slices.IsSortedFunc(costs, func(a, b int64) int { return int(b - a) }) {
			t.Fatalf("progress %v must fall", costs)
		}
		if res.Cost > costs[0]/2 {
			t.Errorf("seed %d: from %d only to %d", seed, costs[0], res.Cost)
		}
	}
}

// The same seed and steps give the same answer, on one worker or two, with
// and without the help of Delta.
func TestSameSeedSameAnswer(t *testing.T) {
	p, home := planted(5, 10, false)
	for i := range p.Items {
		for r := range p.Items[i].Regions {
			p.Items[i].Regions[r].X1 += 25_000
			p.Items[i].Regions[r].Y1 += 25_000
		}
	}
	o := pullTo(p, func(i int) [2]int64 { return [2]int64{home[i].Y, home[i].X} })
	var first Result
	for k, opt := range []Options{
		{Workers: 1, Objective: o}, {Workers: 2, Objective: o}, {Workers: 2, Objective: o}, {Workers: 2, Objective: pullMove{o}},
	} {
		opt.Seed, opt.Steps, opt.ImproveSteps = 3, 400_000, 3000
		res, err := Solve(context.Background(), p, opt)
		if err != nil {
			t.Fatal(err)
		}
		if k == 0 {
			first = res
			continue
		}
		if res.Verdict != first.Verdict || res.Cost != first.Cost || !slices.Equal(res.Places, first.Places) || res.Nodes != first.Nodes {
			t.Fatalf("run %d: %v cost %d nodes %d, first %v cost %d nodes %d", k, res.Verdict, res.Cost, res.Nodes, first.Verdict, first.Cost, first.Nodes)
		}
	}
}

// A bound that is met ends the work and is reported as a proof.
func TestOptimalWhenTheBoundIsMet(t *testing.T) {
	p := &Problem{Items: []Item{{Groups: 1, Shapes: []Shape{{Boxes: []Box{{X1: 3, Y1: 3, Z1: 1}}}}, Regions: []Region{{X1: 10, Y1: 10}}}}}
	res, err := Solve(context.Background(), p, Options{Objective: pullMove{pull{[][2]int64{{7, 4}}}}})
	if err != nil {
		t.Fatal(err)
	}
	if !res.Optimal || res.Cost != 0 || res.Places[0] != (Place{0, 7, 4}) {
		t.Fatalf("got %+v", res)
	}
}

// On tiny boards improvement must not end above the best of all arrangements
// by much: it has thousands of steps for a handful of places.
func TestImprovementFindsTheBestOfTinyBoards(t *testing.T) {
	missed, seen := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		if len(p.Items) > 3 || len(p.Items) == 0 {
			return
		}
		o := pullMove{pullTo(p, func(i int) [2]int64 { return [2]int64{int64(i * 2 % 5), int64(i * 3 % 4)} })}
		res, err := Solve(context.Background(), p, Options{ImproveSteps: 4000, Objective: o})
		if err != nil {
			t.Fatalf("%v", err)
		}
		if res.Verdict != Fits {
			return
		}
		requireArrangement(t, p, res.Places)
		best := twinBest(p, nil, o)
		if res.Cost < best || res.Optimal && res.Cost != best {
			t.Fatalf("cost %d optimal %v, the best is %d", res.Cost, res.Optimal, best)
		}
		seen++
		if res.Cost > best {
			missed++
		}
	})
	if missed*20 > seen {
		t.Fatalf("missed the best on %d of %d", missed, seen)
	}
}

// twinBest is the least cost of all arrangements.
func twinBest(p *Problem, done []Place, o Objective) int64 {
	i := len(done)
	if i == len(p.Items) {
		return o.Cost(done)
	}
	best := int64(1) << 60
	for r, reg := range p.Items[i].Regions {
		for x := reg.X0; x <= reg.X1; x++ {
			for y := reg.Y0; y <= reg.Y1; y++ {
				next := append(done[:i:i], Place{r, x, y})
				if faultOf(p, next, i) == "" {
					best = min(best, twinBest(p, next, o))
				}
			}
		}
	}
	return best
}

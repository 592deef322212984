package pack

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// The plain twin: tries each whole-number origin of each region for each item
// in turn. It shares no code with the search, not even the overlap test.

func twinFits(p *Problem) bool {
	return twinPlace(p, nil)
}

func twinPlace(p *Problem, done []Place) bool {
	i := len(done)
	if i == len(p.Items) {
		return true
	}
	for r, reg := range p.Items[i].Regions {
		for x := reg.X0; x <= reg.X1; x++ {
			for y := reg.Y0; y <= reg.Y1; y++ {
				next := append(done[:i:i], Place{r, x, y})
				if faultOf(p, next, i) == "" && twinPlace(p, next) {
					return true
				}
			}
		}
	}
	return false
}

// faultOf says what is wrong with item last at its place, given those before.
func faultOf(p *Problem, places []Place, last int) string {
	it, pl := p.Items[last], places[last]
	if pl.Region < 0 || pl.Region >= len(it.Regions) {
		return fmt.Sprintf("item %d: no region %d", last, pl.Region)
	}
	reg := it.Regions[pl.Region]
	if pl.X < reg.X0 || pl.X > reg.X1 || pl.Y < reg.Y0 || pl.Y > reg.Y1 {
		return fmt.Sprintf("item %d at %d,%d is outside region %v", last, pl.X, pl.Y, reg)
	}
	for _, a := range it.Shapes[reg.Shape].Boxes {
		ga := it.Groups
		if a.Groups != 0 {
			ga &= a.Groups
		}
		for k, o := range p.Obstacles {
			og := o.Box.Groups
			if og == 0 {
				og = AllGroups
			}
			if ga&og != 0 && common(a, pl.X, pl.Y, reg.Z, o.Box, 0, 0, 0) {
				return fmt.Sprintf("item %d hits obstacle %d", last, k)
			}
		}
		for j := 0; j < last; j++ {
			jt, jr := p.Items[j], p.Items[j].Regions[places[j].Region]
			for _, b := range jt.Shapes[jr.Shape].Boxes {
				gb := jt.Groups
				if b.Groups != 0 {
					gb &= b.Groups
				}
				if ga&gb != 0 && common(a, pl.X, pl.Y, reg.Z, b, places[j].X, places[j].Y, jr.Z) {
					return fmt.Sprintf("items %d and %d overlap", j, last)
				}
			}
		}
	}
	return ""
}

// common tells whether two boxes at their offsets share volume, by the length
// of their common stretch on each axis.
func common(a Box, ax, ay, az int64, b Box, bx, by, bz int64) bool {
	stretch := func(a0, a1, b0, b1 int64) int64 {
		lo, hi := a0, a1
		if b0 > lo {
			lo = b0
		}
		if b1 < hi {
			hi = b1
		}
		return hi - lo
	}
	return stretch(a.X0+ax, a.X1+ax, b.X0+bx, b.X1+bx) > 0 &&
		stretch(a.Y0+ay, a.Y1+ay, b.Y0+by, b.Y1+by) > 0 &&
		stretch(a.Z0+az, a.Z1+az, b.Z0+bz, b.Z1+bz) > 0
}

// failer is what the checks need of a test, plain or drawn.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// requireArrangement checks a whole arrangement with the twin's rules.
func requireArrangement(t failer, p *Problem, places []Place) {
	t.Helper()
	if len(places) != len(p.Items) {
		t.Fatalf("%d places for %d items", len(places), len(p.Items))
	}
	for i := range places {
		if f := faultOf(p, places[:i+1], i); f != "" {
			t.Fatalf("%s", f)
		}
	}
}

// drawProblem makes a small problem on a whole-number grid, often near the
// border between what fits and what does not.
func drawProblem(t *rapid.T) *Problem {
	side := rapid.Int64Range(2, 6).Draw(t, "side")
	groups := rapid.IntRange(1, 3).Draw(t, "groups")
	mask := func(name string) Mask {
		return Mask(rapid.Uint64Range(1, 1<<groups-1).Draw(t, name))
	}
	box := func(maxSide int64) Box {
		x, y, z := rapid.Int64Range(-1, 2).Draw(t, "x"), rapid.Int64Range(-1, 2).Draw(t, "y"), rapid.Int64Range(0, 1).Draw(t, "z")
		return Box{X0: x, Y0: y, Z0: z,
			X1: x + rapid.Int64Range(0, maxSide).Draw(t, "w"), Y1: y + rapid.Int64Range(1, maxSide).Draw(t, "d"),
			Z1: z + rapid.Int64Range(1, 2).Draw(t, "h")}
	}
	p := &Problem{}
	n := rapid.IntRange(0, 5).Draw(t, "items")
	for i := 0; i < n; i++ {
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "again") == 0 {
			p.Items = append(p.Items, p.Items[i-1])
			continue
		}
		it := Item{Groups: AllGroups}
		if rapid.Bool().Draw(t, "grouped") {
			it.Groups = mask("item groups")
		}
		for s := rapid.IntRange(1, 2).Draw(t, "shapes"); s > 0; s-- {
			sh := Shape{Boxes: []Box{box(side)}}
			for b := rapid.IntRange(0, 2).Draw(t, "more boxes"); b > 0; b-- {
				extra := box(2)
				if rapid.Bool().Draw(t, "box grouped") {
					extra.Groups = mask("box groups")
				}
				sh.Boxes = append(sh.Boxes, extra)
			}
			it.Shapes = append(it.Shapes, sh)
		}
		for r := rapid.IntRange(1, 2).Draw(t, "regions"); r > 0; r-- {
			x, y := rapid.Int64Range(0, 2).Draw(t, "rx"), rapid.Int64Range(0, 2).Draw(t, "ry")
			it.Regions = append(it.Regions, Region{Shape: rapid.IntRange(0, len(it.Shapes)-1).Draw(t, "shape"),
				X0: x, Y0: y, X1: x + rapid.Int64Range(0, 3).Draw(t, "rw"), Y1: y + rapid.Int64Range(0, 3).Draw(t, "rd"),
				Z: rapid.Int64Range(0, 2).Draw(t, "rz")})
		}
		p.Items = append(p.Items, it)
	}
	for o := rapid.IntRange(0, 2).Draw(t, "obstacles"); o > 0; o-- {
		b := box(3)
		if rapid.Bool().Draw(t, "obstacle grouped") {
			b.Groups = mask("obstacle groups")
		}
		p.Obstacles = append(p.Obstacles, Obstacle{Box: b})
	}
	return p
}

// checkAgainstTwin compares an answer with the twin's.
func checkAgainstTwin(t failer, p *Problem, res Result) {
	t.Helper()
	switch res.Verdict {
	case Fits:
		requireArrangement(t, p, res.Places)
	case Impossible:
		if res.Reason == nil {
			t.Fatalf("refused without a reason")
		}
		if twinFits(p) {
			t.Fatalf("refused by %q, but it fits", res.Reason.Rule)
		}
	default:
		t.Fatalf("undecided: a problem this small must be decided")
	}
}

func TestSameVerdictAsTwin(t *testing.T) { rapid.Check(t, sameVerdictAsTwin) }

func FuzzSameVerdictAsTwin(f *testing.F) { f.Fuzz(rapid.MakeFuzz(sameVerdictAsTwin)) }

func sameVerdictAsTwin(t *rapid.T) {
	p := drawProblem(t)
	res, err := Solve(context.Background(), p, Options{Seed: 1})
	if err != nil {
		t.Fatalf("%v", err)
	}
	checkAgainstTwin(t, p, res)
}

// The complete search alone must agree with the twin too: in a race the
// repairing search would hide one that misses arrangements.
func TestLearningSearchAloneAgreesWithTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		m := compile(p, false)
		if m.noRegion() != nil {
			return
		}
		reason, _, loads := m.bounds()
		if reason != nil {
			if twinFits(p) {
				t.Fatalf("refused by %+v, but it fits", reason)
			}
			return
		}
		out, _ := race(context.Background(), 1, 0, []searcher{{run: newLearner(m, loads).run, share: 1000}})
		checkAgainstTwin(t, p, Result{Verdict: out.verdict, Places: out.places, Reason: out.reason})
	})
}

package pack

import (
	"context"
	"fmt"
	"testing"
)

// Each benchmark goes through seeds, so that its figure is a mean over boards;
// what was not decided is reported beside the time.
func benchmarkBoards(b *testing.B, items int, make func(seed int64) *Problem, steps int64) {
	undecided, nodes := 0, int64(0)
	for k := 0; k < b.N; k++ {
		p := make(int64(k%50) + 1)
		res, err := Solve(context.Background(), p, Options{Seed: 1, Steps: steps})
		if err != nil {
			b.Fatal(err)
		}
		if res.Verdict == Undecided {
			undecided++
		}
		nodes += res.Nodes
	}
	b.ReportMetric(float64(undecided)/float64(b.N), "undecided/op")
	b.ReportMetric(float64(nodes)/float64(b.N), "steps/op")
}

func BenchmarkPlanted(b *testing.B) {
	for _, items := range []int{8, 12, 16} {
		for _, tooLarge := range []bool{false, true} {
			b.Run(fmt.Sprintf("items=%d/tooLarge=%v", items, tooLarge), func(b *testing.B) {
				benchmarkBoards(b, items, func(s int64) *Problem { return Planted(s, items, tooLarge) }, 2_000_000)
			})
		}
	}
}

// BenchmarkLoose is the same with some millimetres to spare each way, where the
// area decides nothing; the last two lines have one item too large beside.
func BenchmarkLoose(b *testing.B) {
	for _, c := range []struct {
		items, mm int
		tooLarge  bool
	}{{12, 1, false}, {12, 10, false}, {16, 1, false}, {16, 10, false}, {16, 50, false}, {12, 1, true}, {16, 1, true}} {
		b.Run(fmt.Sprintf("items=%d/mm=%d/tooLarge=%v", c.items, c.mm, c.tooLarge), func(b *testing.B) {
			benchmarkBoards(b, c.items, func(s int64) *Problem {
				return loosened(Planted(s, c.items, c.tooLarge), int64(c.mm)*1000)
			}, 1_000_000)
		})
	}
}

func BenchmarkRealBoard(b *testing.B) {
	p := board17(b)
	for k := 0; b.Loop(); k++ {
		res, err := Solve(context.Background(), p, Options{Seed: int64(k)})
		if err != nil || res.Verdict != Fits {
			b.Fatal(res.Verdict, err)
		}
	}
}

// BenchmarkImprove counts steps of improvement on the real board.
func BenchmarkImprove(b *testing.B) {
	p := board17(b)
	o := pullMove{pullTo(p, func(i int) [2]int64 { return [2]int64{int64(i) * 30_000, int64(i%4) * 60_000} })}
	first, err := Solve(context.Background(), p, Options{})
	if err != nil || first.Verdict != Fits {
		b.Fatal(first.Verdict, err)
	}
	b.ResetTimer()
	if _, err := Solve(context.Background(), p, Options{Objective: o, Start: first.Places, ImproveSteps: int64(max(b.N, 1))}); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkFewestMoves adds a unit to a board of ten that has to make room.
func BenchmarkFewestMoves(b *testing.B) {
	for k := 0; b.Loop(); k++ {
		p, now := planted(int64(k%20)+1, 10, false)
		p = loosened(p, 30_000)
		movable := make([]bool, len(now))
		for i := range movable {
			movable[i] = true
		}
		now[k%len(now)].Region = NoPlace
		if _, err := FewestMoves(context.Background(), p, now, movable, Options{Steps: 200_000, ImproveSteps: 2000}); err != nil {
			b.Fatal(err)
		}
	}
}

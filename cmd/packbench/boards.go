package main

import (
	"context"
	"fmt"
	"io"
	"sort"
	"time"

	"footplank/pack"
)

// Planted boards have from leastItems to mostItems items.
const (
	leastItems = 8
	mostItems  = 16
)

// runBoards solves planted boards and, of each, the twin with one item too
// large, and prints a line each and the medians of the times at the end.
func runBoards(ctx context.Context, cfg config, out, errs io.Writer) int {
	times := map[bool][]float64{}
	right := map[bool]int{}
	for i := range cfg.boards {
		for _, tooLarge := range []bool{false, true} {
			if ctx.Err() != nil {
				return exitInterrupted
			}
			items := leastItems + i%(mostItems-leastItems+1)
			b := board{seed: cfg.seed + int64(i), items: items, tooLarge: tooLarge}
			ok, seconds, err := b.solve(ctx, cfg, out)
			if err != nil {
				fmt.Fprintf(errs, "packbench: %s: %v\n", b.name(), err)
				return exitWrong
			}
			times[tooLarge] = append(times[tooLarge], seconds)
			if ok {
				right[tooLarge]++
			}
		}
	}
	for _, tooLarge := range []bool{false, true} {
		fmt.Fprintf(out, "median\t%s\t%d\t%d decided\t-\t-\t-\t%.3f\n",
			kindOf(tooLarge), cfg.boards, right[tooLarge], median(times[tooLarge]))
	}
	return exitFine
}

func kindOf(tooLarge bool) string {
	if tooLarge {
		return "board-too-large"
	}
	return "board"
}

type board struct {
	seed     int64
	items    int
	tooLarge bool
}

func (b board) name() string { return fmt.Sprintf("planted-%d-%d", b.seed, b.items) }

// solve decides the board, checks and prints the answer, and reports whether
// it is decided. An answer that contradicts the plan is an error.
func (b board) solve(ctx context.Context, cfg config, out io.Writer) (bool, float64, error) {
	p := pack.Planted(b.seed, b.items, b.tooLarge)
	ctx, cancel := context.WithTimeout(ctx, cfg.limit())
	defer cancel()
	start := time.Now()
	res, err := pack.Solve(ctx, p, pack.Options{Seed: cfg.seed})
	seconds := time.Since(start).Seconds()
	if err != nil {
		return false, seconds, err
	}
	known := pack.Fits
	if b.tooLarge {
		known = pack.Impossible
	}
	if res.Verdict == pack.Fits {
		if err := verifyBoard(p, res.Places); err != nil {
			return false, seconds, fmt.Errorf("the arrangement found is wrong: %w", err)
		}
	}
	proved := "yes"
	if res.Verdict == pack.Undecided {
		proved = "no"
	} else if res.Verdict != known {
		return false, seconds, fmt.Errorf("answer %v, planted %v", res.Verdict, known)
	}
	_, err = fmt.Fprintf(out, "%s\t%s\t%d\t%v\t%s\t%v\t-\t%.3f\n",
		b.name(), kindOf(b.tooLarge), len(p.Items), res.Verdict, proved, known, seconds)
	return res.Verdict != pack.Undecided, seconds, err
}

func median(v []float64) float64 {
	v = append([]float64(nil), v...)
	sort.Float64s(v)
	if n := len(v); n%2 == 1 {
		return v[n/2]
	}
	return (v[len(v)/2-1] + v[len(v)/2]) / 2
}

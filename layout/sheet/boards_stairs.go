package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/pack"
)

// StairLines draws which boards of a staircase fit, in lines of at most w cells;
// none for a list of boards.
func StairLines(p *layout.Plan, r *boards.Result, w int) []string {
	t := &writer{p: p, width: w}
	if r.Step == 0 {
		return nil
	}
	t.stairs(r)
	return strings.Split(strings.TrimRight(t.b.String(), "\n"), "\n")
}

// withOwn is the corners of a staircase and, to compare them with, the player's
// board, by area.
func withOwn(r *boards.Result) []*boards.Board {
	var out []*boards.Board
	for _, b := range r.Boards {
		if b.Own || slices.Contains(r.Corners, b) {
			out = append(out, b)
		}
	}
	return out
}

// signs are what stands for the boards of a staircase.
func signs(r *boards.Result) map[layout.Point]string {
	sign := map[layout.Point]string{}
	for _, b := range r.Boards {
		if b.W%r.Step != 0 || b.D%r.Step != 0 {
			continue // the player's own, between the steps
		}
		s := "+"
		switch {
		case slices.Contains(r.Corners, b):
			s = "#"
		case b.Verdict == pack.Impossible:
			s = "."
		case b.Verdict == pack.Undecided:
			s = "?"
		}
		sign[layout.Point{X: b.W, Y: b.D}] = s
	}
	return sign
}

// stairs draws which boards of a staircase fit: depth upwards, width to the
// right, a sign for each step, under each its width where there is room.
func (t *writer) stairs(r *boards.Result) {
	sign := signs(r)
	if len(sign) == 0 {
		return
	}
	first := true
	var lo, hi, low, top layout.Length
	for p := range sign {
		if first {
			lo, hi, low, top, first = p.X, p.X, p.Y, p.Y, false
		}
		lo, hi, low, top = min(lo, p.X), max(hi, p.X), min(low, p.Y), max(top, p.Y)
	}
	room, each := t.page()-12, 1
	for w := lo; w <= hi; w += r.Step {
		each = max(each, len(t.num(w))+1)
	}
	cols := int((hi-lo)/r.Step) + 1
	if cols*each > room {
		each = 1
	}
	cols = min(cols, room)
	lo = hi - layout.Length(cols-1)*r.Step
	for d := top; d >= low; d -= r.Step {
		line := ""
		for w := lo; w <= hi; w += r.Step {
			line += fmt.Sprintf("%*s", each, cmp.Or(sign[layout.Point{X: w, Y: d}], " "))
		}
		t.lines(fmt.Sprintf("  %7s |%s", t.num(d), line))
	}
	t.lines(fmt.Sprintf("  %7s +%s", t.unit(), strings.Repeat("-", cols*each)))
	t.lines(fmt.Sprintf("  %7s  %s", "", t.widths(lo, hi, r.Step, each)))
	t.lines("")
	t.lines(t.para("  ", fmt.Sprintf("Depth upwards, width to the right, in steps of %s. # fits, and none tried that is smaller both ways does; + fits; . does not; ? undecided; blank: not tried.", t.length(r.Step)))...)
	t.lines("")
}

// widths are the numbers beneath the columns: all, or only the outer ones.
func (t *writer) widths(lo, hi, step layout.Length, each int) string {
	if each > 1 {
		line := ""
		for w := lo; w <= hi; w += step {
			line += fmt.Sprintf("%*s", each, t.num(w))
		}
		return line
	}
	left := t.num(lo)
	if hi > lo {
		cols := int((hi-lo)/step) + 1
		left += fmt.Sprintf("%*s", max(1+len(t.num(hi)), cols-len(left)), t.num(hi))
	}
	return left
}

package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/pack"
)

// stair makes the result of a walk: boards in steps, and one's own between them.
func stair(step layout.Length, fits map[[2]int]pack.Verdict, corner [2]int) *boards.Result {
	r := &boards.Result{Step: step}
	for at, v := range fits {
		b := &boards.Board{Candidate: boards.Candidate{W: layout.Length(at[0]) * step, D: layout.Length(at[1]) * step}, Verdict: v}
		if r.Boards = append(r.Boards, b); at == corner {
			r.Corners = append(r.Corners, b)
		}
	}
	r.Boards = append(r.Boards, &boards.Board{Candidate: boards.Candidate{Name: "yours", W: 9*step + step/2, D: 9 * step, Own: true}, Verdict: pack.Fits})
	return r
}

// Each sign stands over its width and beside its depth; one's own board, between
// the steps, is no part of the drawing.
func TestStaircaseIsDrawn(t *testing.T) {
	p := &layout.Plan{LengthUnit: layout.Millimetres}
	fits := map[[2]int]pack.Verdict{{25, 15}: pack.Impossible, {26, 15}: pack.Fits, {27, 15}: pack.Fits, {27, 14}: pack.Impossible, {25, 16}: pack.Undecided}
	lines := StairLines(p, stair(20*layout.Millimetre, fits, [2]int{26, 15}), 80)
	require.Greater(t, len(lines), 6)
	assert.Equal(t, []string{
		"      320 |   ?",
		"      300 |   .   #   +",
		"      280 |           .",
		"       mm +------------",
		"            500 520 540",
		"",
	}, lines[:6])

	narrow := StairLines(p, stair(20*layout.Millimetre, fits, [2]int{26, 15}), 22)
	assert.Equal(t, []string{"      320 |?", "      300 |.#+", "      280 |  .", "       mm +---", "           500 540"}, narrow[:5], "no room for all numbers")

	inches := StairLines(&layout.Plan{LengthUnit: layout.Inches}, stair(layout.Inch/2, fits, [2]int{26, 15}), 80)
	assert.Equal(t, []string{"    7 1/2 |      .      #      +"}, inches[1:2])
	assert.True(t, strings.HasSuffix(inches[4], "12 1/2     13 13 1/2"), inches[4])

	assert.Empty(t, StairLines(p, &boards.Result{}, 80), "a list of boards has no steps")
}

package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Error is one thing wrong in a catalog file. Line and Col count from 1, Col in
// bytes; both are 0 for an error about the file as a whole.
type Error struct {
	File      string
	Line, Col int
	Msg       string
}

func (e Error) Error() string {
	if e.Line == 0 {
		return e.File + ": " + e.Msg
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Col, e.Msg)
}

// Errors is everything wrong in the catalog files, by file and place.
type Errors []Error

func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

func (es Errors) sort() {
	slices.SortStableFunc(es, func(a, b Error) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}

// Nearest returns the word that is spelled most like the one found, or "" if
// none is near: at most a third of its letters, and at least one, differ.
// Swapped neighbours count as one difference.
func Nearest(found string, words []string) string {
	best, at := "", max(1, len(found)/3)+1
	if len(found) > 64 {
		return ""
	}
	for _, w := range slices.Sorted(slices.Values(words)) {
		if d := distance(strings.ToLower(found), strings.ToLower(w)); d < at {
			best, at = w, d
		}
	}
	return best
}

// distance counts the letters to add, drop, change or swap with a neighbour.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(x)][len(y)]
}

// wanted words the end of an error about a word that is not one of words.
func wanted(found string, words []string) string {
	if n := Nearest(found, words); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	if len(words) > 12 {
		return fmt.Sprintf("there is none of that name among %d", len(words))
	}
	if len(words) == 0 {
		return "there is none"
	}
	return "want " + oneOf(words)
}

func oneOf(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = fmt.Sprintf("%q", w)
	}
	if len(q) == 1 {
		return q[0]
	}
	return strings.Join(q[:len(q)-1], ", ") + " or " + q[len(q)-1]
}

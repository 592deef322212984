package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Error is one thing wrong in a catalog file. Line and Col count from 1, Col in
// characters; both are 0 for an error about the file as a whole.
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

// Nearest returns the word that is spelled most like the one found, of several
// the first, or "" when none is near enough to have been meant: at most a third
// of its letters, and always one, may differ. Swapped neighbours count as one
// difference.
func Nearest(found string, words []string) string {
	if len(found) > 64 {
		return ""
	}
	best, least := "", 1+max(1, utf8.RuneCountInString(found)/3)
	for _, w := range words {
		if d := distance(strings.ToLower(found), strings.ToLower(w), least); d < least {
			best, least = w, d
		}
	}
	return best
}

// distance counts the single letters to add, drop, change or swap with their
// neighbour that turn a into b, or returns limit if there are as many or more.
func distance(a, b string, limit int) int {
	r, s := []rune(a), []rune(b)
	if d := len(r) - len(s); d >= limit || -d >= limit {
		return limit
	}
	before, last, row := make([]int, len(s)+1), make([]int, len(s)+1), make([]int, len(s)+1)
	for j := range last {
		last[j] = j
	}
	for i := range r {
		row[0] = i + 1
		for j := range s {
			cost := 1
			if r[i] == s[j] {
				cost = 0
			}
			row[j+1] = min(last[j]+cost, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && r[i] == s[j-1] && r[i-1] == s[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(s)], limit)
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

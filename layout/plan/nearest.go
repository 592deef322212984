package plan

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// nearest returns the word nearest to what was written, or "" when none is
// near enough to have been meant: at most a third of its letters may differ,
// and always one.
func nearest(written string, words []string) string {
	if len(written) > 64 {
		return ""
	}
	best, least := "", 1+max(1, utf8.RuneCountInString(written)/3)
	for _, w := range words {
		if d := distance(strings.ToLower(written), strings.ToLower(w), least); d < least {
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

// wanted says which of the words was wanted: the nearest when one is near,
// else all of them when they are few.
func wanted(written string, words []string) string {
	if n := nearest(written, words); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	if len(words) == 0 {
		return "there are none"
	}
	return "want " + anyOf(words)
}

// anyOf lists words: `"a", "b" or "c"`, at most a dozen of them.
func anyOf(words []string) string {
	const most = 12
	var b strings.Builder
	for i, w := range words {
		switch {
		case i == most:
			fmt.Fprintf(&b, " or %d others", len(words)-most)
			return b.String()
		case i > 0 && i == len(words)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%q", w)
	}
	return b.String()
}

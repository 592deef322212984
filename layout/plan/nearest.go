package plan

import (
	"fmt"
	"strings"

	"footplank/catalog"
)

// wanted says which of the words was wanted: the nearest when one is near,
// else all of them when they are few.
func wanted(written string, words []string) string {
	if n := catalog.Nearest(written, words); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	if len(words) == 0 {
		return "there are none"
	}
	return "want " + anyOf(words)
}

// anyOf lists words: `"a", "b" or "c"`, at most sixteen of them.
func anyOf(words []string) string {
	const most = 16
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

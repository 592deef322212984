package layout

import (
	"fmt"
	"strings"
)

// And joins names: "A", "A and B", "A, B and C".
func And(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// Plural counts things: "1 cable", "3 cables".
func Plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// Shortened cuts what a player wrote to a length that an error can show.
func Shortened(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

package plate

import "strings"

// wordWise reports whether a line holds whole words of the text only.
func wordWise(text, line string) bool {
	words := strings.Fields(text)
	for _, w := range strings.Fields(line) {
		found := false
		for _, have := range words {
			found = found || have == w
		}
		if !found {
			return false
		}
	}
	return true
}

package plan

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"footplank/layout"
)

const (
	maxID   = layout.MaxID
	maxText = 80 // of a title, a label, a name
)

// printable notes text that is not fit to be shown in one line: too long, or
// with characters that steer a terminal or turn its direction of writing.
func (v view) printable(n *node, key string) bool {
	if utf8.RuneCountInString(n.text) > maxText {
		v.errorf(n.off, "%s: found %s, want at most %d characters", key, n.found(), maxText)
		return false
	}
	if !showable(n.text) {
		v.errorf(n.off, "%s: found %s, want one line without control characters", key, n.found())
		return false
	}
	return true
}

func showable(s string) bool {
	for _, r := range s {
		if unicode.IsControl(r) || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x2028 || r == 0x2029 {
			return false
		}
	}
	return utf8.ValidString(s)
}

// newID makes an id of a label or of a form's name, unlike all that are taken.
func newID(from string, taken func(id string) bool) string {
	words := strings.FieldsFunc(strings.ToLower(from), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	base := strings.Join(words, "-")
	if r := []rune(base); len(r) > maxID-5 {
		base = string(r[:maxID-5])
	}
	if !layout.ValidUnitID(base) {
		base = "unit"
	}
	id := base
	for n := 2; taken(id); n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

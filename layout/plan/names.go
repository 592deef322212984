package plan

import (
	"unicode"
	"unicode/utf8"
)

const (
	maxID   = 40 // characters of an id
	maxText = 80 // of a title, a label, a name
)

// validID reports whether s can be an id: it must stand in the chain's entries
// ("unit/in>out") without quotes of its own.
func validID(s string) bool {
	if s == "" || utf8.RuneCountInString(s) > maxID {
		return false
	}
	for _, r := range s {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && r != '-' && r != '_' {
			return false
		}
	}
	return true
}

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

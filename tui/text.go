package tui

import (
	"regexp"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// fit makes s exactly w cells wide: cut with a tail, or padded. It may hold
// styles.
func fit(s string, w int, tail string) string {
	if w <= 0 {
		return ""
	}
	n := ansi.StringWidth(s)
	if n > w {
		if ansi.StringWidth(tail) > w {
			tail = ""
		}
		s = ansi.Truncate(s, w, tail)
		n = ansi.StringWidth(s) // one less where a wide character did not fit
	}
	if n < w {
		s += strings.Repeat(" ", w-n)
	}
	return s
}

// clean makes text of a plan fit for one line of the screen: no control
// characters and none that turn the direction of writing.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case unicode.IsControl(r) || r >= 0x200e && r <= 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069:
			return -1
		}
		return r
	}, s)
}

// plainText replaces what is not ASCII, for the plainest terminals.
func plainText(s string) string {
	ascii := true
	for i := 0; i < len(s) && ascii; i++ {
		ascii = s[i] < 0x80
	}
	if ascii {
		return s
	}
	s = plainWords.Replace(s)
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < 0x80:
			b.WriteRune(r)
		default:
			b.WriteString(strings.Repeat("?", ansi.StringWidth(string(r))))
		}
	}
	return b.String()
}

var plainWords = strings.NewReplacer("×", "x", "–", "-", "…", "...", "≥", ">=", "≤", "<=", "°", " deg", "·", "-", "²", "2",
	"←", "<", "→", ">", "↑", "^", "↓", "v", "’", "'", "“", `"`, "”", `"`)

// wrap breaks s into lines of at most w cells.
func wrap(s string, w int) []string {
	if w <= 0 {
		return nil
	}
	if !strings.Contains(s, "/") {
		return strings.Split(ansi.Wrap(s, w, ""), "\n")
	}
	s = mixed.ReplaceAllString(s, "${1}\u00a0${2}")
	return strings.Split(strings.ReplaceAll(ansi.Wrap(s, w, ""), "\u00a0", " "), "\n")
}

// mixed is the room within a mixed number, 3 1/4, which no line ends in.
var mixed = regexp.MustCompile(`(\d) (\d+/\d)`)

// wordsIn reports whether all words of what is typed are in the text.
func wordsIn(typed, text string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(typed)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// hung puts a lead before the first of lines and room as wide before the others.
func hung(lead string, lines []string) []string {
	room := strings.Repeat(" ", cells(lead))
	for i := range lines {
		lines[i] = lead + lines[i]
		lead = room
	}
	return lines
}

// block makes lines exactly h lines of w cells.
func block(lines []string, w, h int, tail string) []string {
	out := make([]string, h)
	for i := range out {
		s := ""
		if i < len(lines) {
			s = lines[i]
		}
		out[i] = fit(s, w, tail)
	}
	return out
}

// stepRound is the index behind i among n, or with back the one before it, round the
// ends; from none, which is -1, the first or the last.
func stepRound(i, n int, back bool) int {
	if back {
		return (max(i, 0) + n - 1) % n
	}
	return (i + 1) % n
}

// plural is "1 fault", "2 faults".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	if stem, ok := strings.CutSuffix(one, "ry"); ok { // country
		return digits(n) + " " + stem + "ries"
	}
	return digits(n) + " " + one + "s"
}

// flow sets items, each kept whole where it fits, into lines of at most w cells.
func flow(items []string, w int) []string {
	var out []string
	used := 0
	for _, s := range items {
		n := cells(s)
		switch {
		case len(out) > 0 && used+2+n <= w:
			out[len(out)-1] += "  " + s
			used += 2 + n
		case n > w:
			out = append(out, wrap(s, w)...)
			used = w
		default:
			out = append(out, s)
			used = n
		}
	}
	return out
}

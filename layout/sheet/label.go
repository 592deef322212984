package sheet

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"footplank/layout/document"
)

// eachGrapheme calls f with each grapheme of s and its width in cells until f
// returns false.
func eachGrapheme(s string, f func(grapheme string, width int) bool) {
	for s != "" {
		// ASCII is the usual case and needs no segmentation, unless a
		// combining character follows.
		if s[0] >= ' ' && s[0] < 0x7f && (len(s) == 1 || s[1] < 0x80) {
			if !f(s[:1], 1) {
				return
			}
			s = s[1:]
			continue
		}
		g, w := ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
		if g == "" {
			return
		}
		if !f(g, w) {
			return
		}
		s = s[len(g):]
	}
}

// width returns how many cells s takes.
func width(s string) int {
	n := 0
	eachGrapheme(s, func(_ string, w int) bool { n += w; return true })
	return n
}

// clean makes a label fit to be drawn.
func clean(s string) string { return document.Clean(s) }

// plain replaces every grapheme that is not printable ASCII by a question mark
// for each cell it takes.
func plain(s string) string {
	var b strings.Builder
	eachGrapheme(s, func(g string, w int) bool {
		if len(g) == 1 {
			b.WriteString(g)
		} else {
			b.WriteString(strings.Repeat("?", w))
		}
		return true
	})
	return b.String()
}

// shorten returns the label in at most h lines of at most w cells, as much of
// it as is readable: whole words, then words without their vowels, then the
// first words alone, then initials or the beginning. It returns nil where
// nothing fits.
func shorten(label string, w, h int) []string {
	words := strings.Fields(label)
	if w < 1 || h < 1 || len(words) == 0 {
		return nil
	}
	if lines := squeeze(words, w, h); lines != nil {
		return lines
	}
	if w >= 3 || len(words) == 1 {
		for n := len(words) - 1; n > 0; n-- {
			first := append([]string(nil), words[:n]...)
			first[n-1] = strings.TrimRight(first[n-1], ",;:-–/&+")
			if lines := squeeze(first, w, h); lines != nil {
				return lines
			}
		}
		if s := cut(words[0], w); s != "" {
			return []string{s}
		}
		return nil
	}
	var initials strings.Builder
	for _, s := range words {
		initials.WriteString(firstGrapheme(s))
	}
	if s := cut(initials.String(), w); s != "" {
		return []string{s}
	}
	return nil
}

// squeeze sets all the words into lines, without the vowels of the longest
// ones where that is needed, or returns nil.
func squeeze(words []string, w, h int) []string {
	longest := 0
	for _, s := range words {
		longest = max(longest, width(s))
	}
	short := make([]string, len(words))
	for k := longest; k >= 3 || k == longest; k-- {
		for i, s := range words {
			short[i] = abbreviate(s, k)
		}
		if lines := wrap(short, w); lines != nil && len(lines) <= h {
			return lines
		}
	}
	return nil
}

func firstGrapheme(s string) (first string) {
	eachGrapheme(s, func(g string, _ int) bool { first = g; return false })
	return first
}

// cut returns as many whole graphemes of s as fit into w cells.
func cut(s string, w int) string {
	n, used := 0, 0
	eachGrapheme(s, func(g string, gw int) bool {
		if used+gw > w {
			return false
		}
		used += gw
		n += len(g)
		return true
	})
	return s[:n]
}

// abbreviate returns a word of more than w cells without the vowels after its
// first letter, if at least three letters are left.
func abbreviate(word string, w int) string {
	if width(word) <= w {
		return word
	}
	var b strings.Builder
	eachGrapheme(word, func(g string, _ int) bool {
		// By graphemes: a vowel takes its accents along.
		if b.Len() == 0 || !strings.Contains("aeiouAEIOU", g[:1]) {
			b.WriteString(g)
		}
		return true
	})
	if s := b.String(); width(s) >= 3 {
		return s
	}
	return word
}

// wrap sets words into lines of at most w cells, or returns nil when a word is
// wider.
func wrap(words []string, w int) []string {
	var lines []string
	used := 0
	for _, s := range words {
		sw := width(s)
		switch {
		case sw > w || sw == 0:
			return nil
		case len(lines) > 0 && used+1+sw <= w:
			lines[len(lines)-1] += " " + s
			used += 1 + sw
		default:
			lines = append(lines, s)
			used = sw
		}
	}
	return lines
}

package document

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// Clean makes a text fit to be printed or drawn: no control characters, no
// invisible ones that turn the direction of writing, single spaces.
func Clean(s string) string {
	plain := true
	for i := 0; i < len(s) && plain; i++ {
		plain = s[i] >= ' ' && s[i] < 0x7f
	}
	if !plain {
		s = strings.Map(func(r rune) rune {
			switch {
			case unicode.IsSpace(r):
				return ' '
			case unicode.IsControl(r), r == unicode.ReplacementChar,
				r >= 0x200e && r <= 0x200f, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
				return -1
			}
			return r
		}, s)
	}
	return strings.Join(strings.Fields(s), " ")
}

// cells returns how many cells a text takes where all characters are equally
// wide, or twice as wide, or nothing as combining ones.
func cells(s string) int { return ansi.StringWidth(s) }

// wrap breaks a clean text into lines of at most w cells, between words, and
// within a word that is longer than a line. There is always a line.
func wrap(s string, w int) []string {
	w = max(w, 1)
	lines := []string{""}
	used := 0
	put := func(word string, n int) {
		if used > 0 && used+1+n <= w {
			lines[len(lines)-1] += " " + word
			used += 1 + n
			return
		}
		if used > 0 {
			lines = append(lines, "")
		}
		lines[len(lines)-1] = word
		used = n
	}
	for _, word := range strings.Fields(s) {
		for cells(word) > w {
			head := headOf(word, w)
			put(head, cells(head))
			word = word[len(head):]
		}
		put(word, cells(word))
	}
	return lines
}

// headOf returns as many whole graphemes of a word as fit into w cells, at
// least one.
func headOf(word string, w int) string {
	n, used := 0, 0
	for n < len(word) {
		g, gw := ansi.FirstGraphemeCluster(word[n:], ansi.GraphemeWidth)
		if g == "" || n > 0 && used+gw > w {
			break
		}
		n, used = n+len(g), used+gw
	}
	return word[:max(n, 1)]
}

// set puts a text into w cells.
func set(s string, w int, a Align) string {
	room := max(w-cells(s), 0)
	left := 0
	switch a {
	case Right:
		left = room
	case Centre:
		left = room / 2
	}
	return strings.Repeat(" ", left) + s + strings.Repeat(" ", room-left)
}

// columns shares room out among columns, as the package's description tells.
// Where not even the least widths fit, all give way in proportion; no column
// gets less than one.
func columns[N ~int | ~int64](least, wish []N, room N) []N {
	out := make([]N, len(wish))
	var sumLeast, sumWish N
	for i := range wish {
		out[i] = min(least[i], wish[i])
		sumLeast += out[i]
		sumWish += wish[i]
	}
	switch {
	case sumWish <= room:
		copy(out, wish)
		return out
	case sumLeast >= room:
		for i := range out {
			out[i] = max(out[i]*room/max(sumLeast, 1), 1)
		}
		return out
	}
	level(out, wish, room-sumLeast)
	return out
}

// level raises the lowest of the columns that want more, all of them to the same
// height, until nothing is left.
func level[N ~int | ~int64](out, wish []N, left N) {
	for left > 0 {
		low, next, n := N(-1), N(-1), N(0)
		for i := range out {
			if out[i] < wish[i] && (low < 0 || out[i] < low) {
				low = out[i]
			}
		}
		if low < 0 {
			return
		}
		for i := range out { // how high the lowest may go together
			if out[i] == low && out[i] < wish[i] {
				n++
				if next < 0 || wish[i] < next {
					next = wish[i]
				}
			} else if out[i] > low && out[i] < wish[i] && (next < 0 || out[i] < next) {
				next = out[i]
			}
		}
		by := min(next-low, left/n)
		for i := range out {
			if out[i] == low && out[i] < wish[i] && left > 0 {
				give := max(by, 1)
				out[i] += give
				left -= give
			}
		}
	}
}

// longestWord measures the widest word of a text.
func longestWord[N ~int | ~int64](s string, measure func(string) N) N {
	var most N
	for _, word := range strings.Fields(s) {
		most = max(most, measure(word))
	}
	return most
}

// widths returns the columns of a table in room, gap apart.
func widths[N ~int | ~int64](head []string, rows [][]string, room, gap N, measure func(string) N) []N {
	least, wish := make([]N, len(head)), make([]N, len(head))
	for _, row := range append([][]string{head}, rows...) {
		for i, s := range row {
			least[i] = max(least[i], longestWord(s, measure), 1)
			wish[i] = max(wish[i], measure(s), 1)
		}
	}
	return columns(least, wish, room-gap*N(len(head)-1))
}

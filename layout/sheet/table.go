package sheet

import (
	"cmp"
	"strings"
)

// PageWidth is how wide text sheets are where nothing else is said, in characters.
const PageWidth = 80

// page is how wide the writer's lines are.
func (t *writer) page() int { return cmp.Or(t.width, PageWidth) }

// wrapLeast is what a column that wraps keeps before others are clipped.
const wrapLeast = 24

// table sets rows in columns two spaces apart, indented by two. Columns named
// in flex give way, the widest first, when a row is wider than the page; they
// keep at least six characters, and three once the columns are one space apart.
type table struct {
	head  []string
	right []bool // columns set flush right
	flex  []int
	wraps bool // the last column goes on below where it is too long, clipped nowhere
	rows  [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

func (t *table) lines(page int) []string {
	all := append([][]string{t.head}, t.rows...)
	w := make([]int, len(t.head))
	total := 0
	for i := range w {
		for _, r := range all {
			w[i] = max(w[i], width(r[i]))
		}
		total += w[i] + 2
	}
	gap, least := 2, 6
	for total > page {
		widest := -1
		if last := len(w) - 1; t.wraps && w[last] > wrapLeast {
			w[last]--
			total--
			continue
		}
		for _, i := range t.flex {
			if w[i] > least && (widest < 0 || w[i] > w[widest]) {
				widest = i
			}
		}
		switch {
		case widest >= 0:
			w[widest]--
			total--
		case gap == 2:
			gap, least, total = 1, 3, total-len(w)
		default:
			total = page // no way: the terminal folds it
		}
	}
	out := make([]string, 0, len(all))
	for _, r := range all {
		var b strings.Builder
		var more []string
		for i, s := range r {
			if i == len(r)-1 && t.wraps {
				more = paraWidth("", s, w[i])
				s = strings.Join(more[:min(1, len(more))], "")
			}
			s = clip(s, w[i])
			pad := strings.Repeat(" ", w[i]-width(s))
			b.WriteString(strings.Repeat(" ", gap))
			if i < len(t.right) && t.right[i] {
				b.WriteString(pad + s)
			} else {
				b.WriteString(s + pad)
			}
		}
		out = append(out, strings.TrimRight(b.String(), " "))
		indent := strings.Repeat(" ", width(b.String())-w[len(r)-1])
		for _, s := range more[min(1, len(more)):] {
			out = append(out, indent+s)
		}
	}
	return out
}

// clip returns s in at most w cells, with a full stop where something is left
// out.
func clip(s string, w int) string {
	if width(s) <= w {
		return s
	}
	return strings.TrimRight(cut(s, w-1), " ") + "."
}

// para sets a text in lines of the page's width: first before the first line,
// as many spaces before the others. A word wider than a line is cut.
func (t *writer) para(first, text string) []string { return paraWidth(first, text, t.page()) }

// paraWidth is para with lines of that width.
func paraWidth(first, text string, w int) []string {
	room := w - width(first)
	var words []string
	for _, s := range strings.Fields(clean(text)) {
		for width(s) > room {
			head := cut(s, room)
			if head == "" {
				break
			}
			words = append(words, head)
			s = s[len(head):]
		}
		words = append(words, s)
	}
	lines := []string{}
	used := 0
	for _, s := range words {
		if n := len(lines); n > 0 && used+1+width(s) <= room {
			lines[n-1] += " " + s
			used += 1 + width(s)
			continue
		}
		lines = append(lines, s)
		used = width(s)
	}
	indent := strings.Repeat(" ", width(first))
	for i := range lines {
		if i == 0 {
			lines[i] = first + lines[i]
		} else {
			lines[i] = indent + lines[i]
		}
	}
	return lines
}

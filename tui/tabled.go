package tui

import "strings"

// tabled sets rows under a head for a page with items: the head is the first
// line of the first item. The last column takes what is left of the width, on
// more than one line if need be.
func (m *Model) tabled(head []string, rows [][]string, w int) [][]string {
	n := len(head)
	wide := make([]int, n)
	for _, r := range append([][]string{head}, rows...) {
		for i := range n - 1 {
			wide[i] = max(wide[i], cells(m.ascii(clean(r[i]))))
		}
	}
	const least = 8 // of the last column
	gap, used := 2, 0
	for i := range n - 1 {
		wide[i] = min(wide[i], max(w/3, 8))
		used += wide[i]
	}
	if used+(n-1)*gap+least > w {
		gap = 1
	}
	wide[n-1] = max(w-used-(n-1)*gap, least)
	set := func(r []string) []string {
		rest := wrap(m.ascii(clean(r[n-1])), wide[n-1])
		if len(rest) == 0 {
			rest = []string{""}
		}
		out := make([]string, len(rest))
		for k := range rest {
			var b strings.Builder
			for i := range n - 1 {
				s := ""
				if k == 0 {
					s = m.ascii(clean(r[i]))
				}
				b.WriteString(fit(s, wide[i], m.styles.sign.ellipsis) + strings.Repeat(" ", gap))
			}
			out[k] = b.String() + rest[k]
		}
		return out
	}
	out := make([][]string, len(rows))
	for i := range rows {
		out[i] = set(rows[i])
	}
	m.page.head = nil
	for _, s := range set(head) {
		m.page.head = append(m.page.head, m.styles.quiet.over(s))
	}
	return out
}

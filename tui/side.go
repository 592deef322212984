package tui

// sideRow is a line of the list beside the board while something else than its
// units is listed there: what can be tried, other boards.
type sideRow struct {
	item int // -1 for a heading
	mark string
	look paint // of the mark
	text string
	tail string // at the right end, where there is room
}

// sideTop is the first row that the list shows, so that the chosen one is in
// sight.
func (m *Model) sideTop(rows []sideRow, chosen int) int {
	room := m.areas.list.h - 1
	if len(rows) <= room {
		return 0
	}
	at := 0
	for i := range rows {
		if rows[i].item == chosen {
			at = i
		}
	}
	return min(max(at-room/2, 0), len(rows)-room)
}

// sideLines draws the list under a heading.
func (m *Model) sideLines(head string, rows []sideRow, chosen int) []string {
	a := m.areas.list
	out := []string{m.styles.quiet.over(" " + m.ascii(head))}
	for _, r := range rows[m.sideTop(rows, chosen):] {
		if len(out) == a.h {
			break
		}
		out = append(out, m.sideLine(r, r.item == chosen, a.w))
	}
	return block(out, a.w, a.h, m.styles.sign.ellipsis)
}

func (m *Model) sideLine(r sideRow, chosen bool, w int) string {
	tail := m.styles.sign.ellipsis
	if r.item < 0 {
		return " " + m.styles.quiet.over(fit(m.ascii(r.text), w-1, tail))
	}
	pointer, mark := " ", r.mark
	if chosen {
		pointer = m.styles.sign.pointer
	}
	mark = fit(mark, cells(m.styles.sign.good), "") // the widest
	text, end := m.ascii(r.text), m.ascii(r.tail)
	room := w - 2 - cells(mark)
	if end != "" && room-cells(end)-1 >= min(cells(text), 12) {
		room -= cells(end) + 1
	} else {
		end = ""
	}
	text = fit(text, room, tail)
	if chosen {
		text = m.styles.chosen.over(text)
	}
	line := m.styles.strong.over(pointer) + r.look.over(mark) + " " + text
	if end != "" {
		line += " " + m.styles.quiet.over(end)
	}
	return line
}

// sideAt returns the item in a line of the list, -1 for none.
func (m *Model) sideAt(rows []sideRow, chosen, line int) int {
	i := line - 1 + m.sideTop(rows, chosen)
	if line < 1 || i >= len(rows) {
		return -1
	}
	return rows[i].item
}

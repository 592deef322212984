package tui

// hint is a key and what it does, in a word or two.
type hint struct{ key, what string }

// hints is the last line: the keys that matter most now, as many as fit. The
// last two of the list always do.
func (m *Model) hints() string {
	list := m.hintList()
	width := func(h hint) int { return cells(m.ascii(h.key)) + 1 + cells(m.ascii(h.what)) + 2 }
	last := max(len(list)-2, 0)
	room := m.areas.hints.w + 1
	for _, h := range list[last:] {
		room -= width(h)
	}
	line := ""
	add := func(h hint) {
		line += " " + m.styles.key.over(m.ascii(h.key)) + " " + m.styles.quiet.over(m.ascii(h.what)) + " "
	}
	for _, h := range list[:last] {
		if room -= width(h); room < 0 {
			break
		}
		add(h)
	}
	for _, h := range list[last:] {
		add(h)
	}
	return fit(line, m.areas.hints.w, "")
}

func (m *Model) hintList() []hint {
	s := &m.styles.sign
	arrows := s.left + s.up + s.down + s.right
	switch m.mode {
	case asking:
		var out []hint
		for _, c := range m.question.choices {
			out = append(out, hint{c.key, c.what})
		}
		return append(out, hint{"esc", "stay"})
	case looking:
		return []hint{{"enter", "choose"}, {"tab", "next match"}, {"esc", "back"}}
	case naming:
		return []hint{{"enter", "save"}, {"esc", "do not save"}}
	case reading:
		out := []hint{{"esc", "back to the board"}, {s.up + s.down + " pgup pgdown", "scroll"}}
		if m.page.items != nil {
			out = []hint{{"enter", "go there"}, {s.up + s.down, "choose"}, {"esc", "back to the board"}}
		}
		if m.page.byLine && len(m.plan().Lineups) > 1 {
			out = append([]hint{{"l", "next line-up"}}, out...)
		}
		return out
	case showing:
		return []hint{{"c e p w s d m", "switch on and off"}, {"esc", "done"}}
	}
	end := []hint{{"?", "help"}, {"q", "quit"}}
	_, onWire := m.chosenWire()
	switch {
	case m.held != 0:
		move := "slide until it touches"
		if m.stride != touching {
			move = "move " + m.strideName()
		}
		return append([]hint{{arrows, move}, {"space", "set down"}, {"esc", "put back"}, {"1234", "step"}, {"t", "turn"}}, end...)
	case m.offer != nil, m.job != nil:
		return append([]hint{{"enter", "take this"}, {"esc", "drop it"}}, end...)
	case onWire:
		return append([]hint{{"k", "next cable"}, {"K", "back"}, {"x", "kit"}, {"e", "power"}, {"c", "runs"}, {"l", "line-up"}, {"esc", "leave"}}, end...)
	case m.unit() != nil:
		return append([]hint{{"space", "pick up"}, {"t", "turn"}, {"p", "pin"}, {"m", "mount"}, {"f", "next finding"},
			{"a", "arrange"}, {"u", "undo"}, {"s", "save"}, {"i", "about it"}, {"l", "line-up"}, {"v", "show"}, {"c", "runs"},
			{"k", "its cables"}, {"e", "power"}, {"x", "kit"}, {"o", "surface"}, {"1234", "step"}, {"/", "find"}}, end...)
	}
	return append([]hint{{"tab", "choose"}, {"/", "find"}, {"a", "arrange"}, {"l", "line-up"}, {"f", "findings"}, {"v", "show"},
		{"u", "undo"}, {"s", "save"}, {"c", "runs"}, {"k", "cables"}, {"e", "power"}, {"x", "kit"}, {"w", "all findings"}}, end...)
}

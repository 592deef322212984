package tui

import tea "github.com/charmbracelet/bubbletea"

// doors are buttons in the header, as many as there is room for, to what is not about
// the chosen unit: a player with a mouse need not know their keys. The first are those
// that no other button leads to.
var doors = []hint{
	{key: "P", what: "plan"}, {key: "W", what: "sheets"}, {key: "y", what: "try"}, {key: "b", what: "boards"}, {key: "g", what: "changeover"},
	{key: "B", what: "buy"}, {key: "e", what: "power"}, {key: "x", what: "kit"}, {key: "A", what: "add"}, {key: "N", what: "new, open"},
}

// doorGap is between title and doors.
const doorGap = 4

// doorLine sets the doors into the header between two columns, as many as fit, where
// their keys mean that.
func (m *Model) doorLine(from, to int) (line string, at []button) {
	if m.areas.span == compact || m.areas.span == tooSmall || m.mode != onBoard || m.held != 0 || m.job != nil || m.offer != nil {
		return "", nil
	}
	x := from
	for _, h := range doors {
		text, w := m.hintText(h)
		if x+w > to {
			break
		}
		line += text
		at = append(at, button{x, w, h.pressed()})
		x += w
	}
	return line, at
}

// clickDoor presses the key of the door in a column of the header.
func (m *Model) clickDoor(x int) tea.Cmd {
	_, start := m.tabs()
	_, at := m.doorLine(cells(m.headTitle())+doorGap, start)
	return m.clickButton(at, x)
}

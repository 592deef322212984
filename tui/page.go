package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// page is a text over the board, to scroll through. A page with items has one
// of them chosen; a page with a search keeps what matches it.
type page struct {
	title  string
	text   []string                         // paragraphs, wrapped when drawn
	lines  func(m *Model, w int) []string   // instead of text: made for a width
	items  func(m *Model, w int) [][]string // instead: items of some lines each
	pick   func(m *Model, item int)         // enter on an item
	search bool
	byLine bool // of the line-up on screen: l and L go to others
	typed  string
	chosen int
	top    int
	full   int // lines that the last drawing had in all and could show
	room   int
}

func (m *Model) open(p page) {
	m.mode, m.page, m.held = reading, p, 0
}

// turnPage handles a key while a page is open.
func (m *Model) turnPage(msg tea.KeyMsg) tea.Cmd {
	p := &m.page
	m.measurePage()
	switch msg.String() {
	case "esc":
		if p.typed != "" {
			p.typed, p.top = "", 0
			return nil
		}
		m.mode = onBoard
	case "enter":
		m.mode = onBoard
		if p.pick != nil {
			p.pick(m, p.chosen)
		}
	case "up", "shift+tab":
		p.scroll(m, -1)
	case "down", "tab":
		p.scroll(m, 1)
	case "pgup":
		p.scroll(m, -max(p.room-1, 1))
	case "pgdown":
		p.scroll(m, max(p.room-1, 1))
	case "home":
		p.scroll(m, -1<<20)
	case "end":
		p.scroll(m, 1<<20)
	case "backspace":
		if n := len([]rune(p.typed)); p.search && n > 0 {
			p.typed, p.top = string([]rune(p.typed)[:n-1]), 0
		}
	default:
		return m.pageLetter(msg)
	}
	return nil
}

// pageLetter is any other key: a letter to search for, or a way out.
func (m *Model) pageLetter(msg tea.KeyMsg) tea.Cmd {
	p := &m.page
	if p.search && (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt {
		p.typed, p.top = p.typed+clean(string(msg.Runes)), 0
		return nil
	}
	switch msg.String() {
	case "l", "L":
		if p.byLine {
			return m.nextLineup(msg.String())
		}
	case "q", "i", "w", "?", "e", "x", " ":
		m.mode = onBoard
	}
	return nil
}

// scroll goes on, or chooses another item.
func (p *page) scroll(m *Model, by int) {
	if p.items == nil {
		p.top = min(max(p.top+by, 0), max(p.full-p.room, 0))
		return
	}
	p.chosen = min(max(p.chosen+by, 0), max(len(p.items(m, 80))-1, 0))
}

// pageArea is where a page stands: the whole screen between header and hints.
func (m *Model) pageArea() area { return area{0, 1, m.w, m.h - 2} }

// measurePage works out how far the page can scroll on this screen.
func (m *Model) measurePage() { m.pageLines() }

// pageLines returns the page's lines to show.
func (m *Model) pageLines() []string {
	p := &m.page
	at := m.pageArea()
	w := min(at.w-4, 116)
	var lines []string
	first, last := 0, 0 // lines of the chosen item
	switch {
	case p.items != nil:
		for i, item := range p.items(m, w-2) {
			if i == p.chosen {
				first, last = len(lines), len(lines)+len(item)
			}
			for k, s := range item {
				lead := "  "
				if i == p.chosen && k == 0 {
					lead = m.styles.strong.over(m.styles.sign.pointer) + " "
				}
				lines = append(lines, lead+s)
			}
		}
	case p.lines != nil:
		lines = p.lines(m, w)
	default:
		for _, s := range p.text {
			lines = append(lines, wrap(m.ascii(s), w)...)
		}
	}
	p.full, p.room = len(lines), max(at.h-2, 1)
	p.top = min(p.top, max(p.full-p.room, 0))
	if p.items != nil {
		p.top = min(p.top, first)
		p.top = max(p.top, min(last-p.room, first))
	}
	return lines
}

// drawPage draws the page that is open.
func (m *Model) drawPage() []string {
	lines := m.pageLines()
	p, at := &m.page, m.pageArea()
	out := make([]string, 0, at.h)
	title := "  " + m.styles.title.over(m.ascii(p.title))
	if p.search {
		title += m.styles.quiet.over("   type to search: ") + m.ascii(p.typed) + m.styles.sign.cursor
	}
	if p.full > p.room {
		title += m.styles.quiet.over("   lines " + digits(p.top+1) + " to " + digits(min(p.top+p.room, p.full)) + " of " + digits(p.full))
	}
	out = append(out, title, "")
	for i := p.top; i < min(p.top+p.room, p.full); i++ {
		out = append(out, "  "+lines[i])
	}
	return block(out, at.w, at.h, m.styles.sign.ellipsis)
}

// ascii makes text plain where the terminal wants it so.
func (m *Model) ascii(s string) string {
	if m.opt.ASCII {
		return plainText(s)
	}
	return s
}

// matching reports whether a line has what is searched for.
func (p *page) matching(s string) bool {
	return p.typed == "" || strings.Contains(strings.ToLower(s), strings.ToLower(strings.TrimSpace(p.typed)))
}

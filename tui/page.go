package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
)

// page is a text over the board, to scroll through. A page with items has one
// of them chosen; a page with a search keeps what matches it.
type page struct {
	title  string
	tab    string                           // key of its entry in pageTabs, "" for none
	text   []string                         // paragraphs, wrapped when drawn
	lines  func(m *Model, w int) []string   // instead of text: made for a width
	items  func(m *Model, w int) [][]string // instead: items of some lines each
	pick   func(m *Model, item int)         // enter on an item
	search bool
	// head stands over the items, set by them.
	head []string
	// leaf names what is made up in the background by make, for leafLines.
	leaf   string
	make   maker
	back   mode // that the page leads back to
	from   mode // that the player was in, whose keys the help tells first
	hand   inHand
	byLine bool // of the line-up on screen: l and L go to others
	typed  string
	chosen int
	top    int
	// What the last drawing was like: its lines in all, those that could be shown,
	// and the item of each where there are items.
	full, room int
	itemOf     []int
}

// inHand is a unit that is in hand while help is read, and is so again behind it.
type inHand struct {
	held int
	unit string
	plan *layout.Plan
}

// pageTabs are the pages that have a tab above every page, by the key that opens
// them on the board. A new page is an entry here and an action of that key.
var pageTabs = []struct{ key, name string }{
	{"w", "findings"}, {"e", "power"}, {"x", "kit"}, {"i", "unit"}, {"g", "changeover"}, {"B", "buy"}, {"?", "help"},
}

func (m *Model) open(p page) {
	p.from = m.mode
	switch {
	case m.mode == reading:
		p.back, p.from = m.page.back, m.page.from
	case m.onTrial():
		p.back = trying
	case m.onBoards():
		p.back = comparing
	}
	m.mode, m.page, m.held = reading, p, 0
}

const linesOfWheel = 3

// pageTable is what keys do on every page.
func pageTable() table {
	const group = ""
	scroll := func(by func(p *page) int) func(m *Model, pressed string) tea.Cmd {
		return func(m *Model, _ string) tea.Cmd {
			m.pageLines() // measures it
			m.page.scroll(by(&m.page))
			return nil
		}
	}
	return table{
		{bind("esc", "esc"), group, nowLeavePage, do((*Model).leavePage)},
		{bind("enter", "enter"), group, nowPick, do((*Model).pickItem)},
		{bind("up", "up", "shift+tab"), group, always("a line up, or the item before"), scroll(func(*page) int { return -1 })},
		{bind("down", "down", "tab"), group, always("a line down, or the next item"), scroll(func(*page) int { return 1 })},
		{bind("pgup", "pgup"), group, always("a screen up"), scroll(func(p *page) int { return -max(p.room-1, 1) })},
		{bind("pgdown", "pgdown"), group, always("a screen down"), scroll(func(p *page) int { return max(p.room-1, 1) })},
		{bind("home", "home"), group, always("to the beginning"), scroll(func(*page) int { return -1 << 20 })},
		{bind("end", "end"), group, always("to the end"), scroll(func(*page) int { return 1 << 20 })},
		{bind("left right", "left", "right"), group, always("the page before, the next page: findings, power, kit, unit, changeover, what to buy, help"), (*Model).nextPage},
	}
}

// pageLetters is what letters do where they are not a search.
func pageLetters() table {
	const group = ""
	t := table{
		{bind("l L", "l", "L"), group, nowPageLineup, (*Model).nextLineup},
		{bind("r", "r"), group, nowTurnChange, do((*Model).turnChange)},
		{bind("f", "f"), group, nowChangeStart, do((*Model).nextChangeStart)},
		{bind("q space", "q", " "), group, always("back to the board"), do((*Model).closePage)},
	}
	for _, tab := range pageTabs {
		key := tab.key
		t = append(t, action{bind(key, key), group, always("the page: " + tab.name), func(m *Model, _ string) tea.Cmd {
			if m.page.tab == key {
				return m.closePage()
			}
			return m.openTab(key)
		}})
	}
	return t
}

func nowLeavePage(m *Model) (string, bool) {
	if m.mode == reading && m.page.typed != "" {
		return "clear the search", true
	}
	if m.mode == reading && m.page.back != onBoard {
		return "back to what is tried", true
	}
	return "back to the board", true
}

func nowPick(m *Model) (string, bool) {
	if m.mode == reading && m.page.pick != nil {
		return "go to the chosen one", true
	}
	return "back to the board", true
}

func nowPageLineup(m *Model) (string, bool) {
	if m.mode != reading || !m.page.byLine {
		return "where a page is about one line-up: the next one", false
	}
	return nowLineup(m)
}

func (m *Model) closePage() tea.Cmd {
	m.mode = m.page.back
	if h := m.page.hand; h.held != 0 && h.unit == m.selected && h.plan == m.history.Plan() && m.mode == onBoard {
		m.held = h.held
	}
	return nil
}

func (m *Model) leavePage() tea.Cmd {
	if p := &m.page; p.typed != "" {
		p.typed, p.top = "", 0
		return nil
	}
	return m.closePage()
}

func (m *Model) pickItem() tea.Cmd {
	m.mode = m.page.back
	if p := &m.page; p.pick != nil {
		if m.over() != nil {
			m.clear() // what is picked is on the board
		}
		p.pick(m, p.chosen)
	}
	return nil
}

// openTab opens a page as its key does on the board; where that cannot be done
// now the page that is open stays.
func (m *Model) openTab(key string) tea.Cmd {
	a := m.modes[onBoard].table.find(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)})
	if why, can := a.now(m); !can {
		m.say("", sentence(why))
		return nil
	}
	return a.do(m, key)
}

// nextPage goes through the tabs, past those that cannot be opened now.
func (m *Model) nextPage(pressed string) tea.Cmd {
	n, at := len(pageTabs), -1
	for i := range pageTabs {
		if pageTabs[i].key == m.page.tab {
			at = i
		}
	}
	by := 1
	if pressed == "left" {
		by = n - 1
		at = max(at, 0)
	}
	was := m.page.title
	for k := 1; k <= n; k++ {
		cmd := m.openTab(pageTabs[(at+k*by)%n].key)
		if m.page.title != was {
			m.note = note{}
			return cmd
		}
	}
	return nil
}

// pageLetter is any other key: a letter to search for.
func (m *Model) pageLetter(msg tea.KeyMsg) tea.Cmd {
	p := &m.page
	switch {
	case !p.search:
	case msg.Type == tea.KeyCtrlU:
		p.typed, p.top = "", 0
	case msg.Type == tea.KeyBackspace:
		if r := []rune(p.typed); len(r) > 0 {
			p.typed, p.top = string(r[:len(r)-1]), 0
		}
	case (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt:
		p.typed, p.top = p.typed+clean(string(msg.Runes)), 0
	}
	return nil
}

// scroll goes on, or chooses another item, of a page that was measured.
func (p *page) scroll(by int) {
	if p.items == nil {
		p.top = min(max(p.top+by, 0), max(p.full-p.room, 0))
		return
	}
	last := 0
	if n := len(p.itemOf); n > 0 {
		last = p.itemOf[n-1]
	}
	p.chosen = min(max(p.chosen+by, 0), last)
}

func (m *Model) pageHints() []hint {
	s := &m.styles.sign
	out := []hint{{key: "esc", what: "back to the board"}, {key: s.up + s.down + " pgup pgdown", what: "scroll", press: "pgdown"}}
	if m.page.items != nil {
		out = []hint{{key: "enter", what: "go there"}, {key: s.up + s.down, what: "choose"}, {key: "esc", what: "back to the board"}}
	}
	out = append([]hint{{key: s.left + s.right, what: "other pages", press: "right"}}, out...)
	if m.page.byLine && len(m.plan().Lineups) > 1 {
		out = append([]hint{{key: "l", what: "next line-up"}}, out...)
		if m.page.tab == "g" {
			out = append([]hint{{key: "r", what: "the other way round"}}, out...)
		}
	}
	return out
}

// pageArea is where a page stands: the whole screen between header and hints.
func (m *Model) pageArea() area { return area{0, 1, m.w, m.h - 2} }

// headRows is how many rows of a page are not its text.
const headRows = 3

// pageLines returns the page's lines, and works out how far it can scroll on
// this screen.
func (m *Model) pageLines() []string {
	p := &m.page
	at := m.pageArea()
	w := min(at.w-4, 116)
	var lines []string
	first, last := 0, 0 // lines of the chosen item
	p.itemOf = p.itemOf[:0]
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
				p.itemOf = append(p.itemOf, i)
			}
		}
	case p.lines != nil:
		lines = p.lines(m, w)
	default:
		for _, s := range p.text {
			lines = append(lines, wrap(m.ascii(s), w)...)
		}
	}
	p.full, p.room = len(lines), max(at.h-headRows, 1)
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
	second := ""
	if m.note.text != "" {
		second = "  " + m.ascii(m.note.text)
	} else if len(p.head) > 0 {
		second = "    " + p.head[0]
	}
	tabs, _ := m.tabLine()
	out = append(out, tabs, title, second)
	for i := p.top; i < min(p.top+p.room, p.full); i++ {
		out = append(out, "  "+lines[i])
	}
	return block(out, at.w, at.h, m.styles.sign.ellipsis)
}

// tabLine is the tabs of the pages as buttons, the open one marked.
func (m *Model) tabLine() (line string, at []button) {
	x, gap := 1, " "
	wide := 1 + cells(" esc board ")
	for _, t := range pageTabs {
		wide += cells(" "+t.key+" "+t.name+" ") + 1
	}
	if wide > m.w {
		gap = "" // they have a space on either side
	}
	line = " "
	add := func(key, name string, chosen bool) {
		text, look := m.ascii(" "+key+" "+name+" "), m.styles.quiet
		if chosen {
			text, look = "["+key+" "+name+"]", m.styles.chosen
		}
		line += look.over(text)
		at = append(at, button{x, cells(text), key})
		line += gap
		x += cells(text) + len(gap)
	}
	if m.page.back == onBoard {
		add("esc", "board", false)
	} else {
		add("esc", "back", false)
	}
	for _, t := range pageTabs {
		add(t.key, t.name, t.key == m.page.tab)
	}
	return line, at
}

// clickPage chooses a tab or goes to an item of a page.
func (m *Model) clickPage(x, y int) tea.Cmd {
	p, row := &m.page, y-m.pageArea().y
	if row == 0 {
		_, at := m.tabLine()
		b := buttonAt(at, x)
		if b == nil {
			return nil
		}
		m.note = note{}
		if b.press == "esc" {
			return m.closePage()
		}
		return m.openTab(b.press)
	}
	m.pageLines()
	if i := p.top + row - headRows; row >= headRows && i < len(p.itemOf) {
		p.chosen = p.itemOf[i]
		return m.pickItem()
	}
	return nil
}

// ascii makes text plain where the terminal wants it so.
func (m *Model) ascii(s string) string {
	if m.opt.ASCII {
		return plainText(s)
	}
	return s
}

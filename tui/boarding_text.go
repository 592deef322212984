package tui

import (
	"cmp"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/layout/sheet"
	"footplank/pack"
)

func (m *Model) boardRows() []sideRow {
	b, s := m.boards, &m.styles.sign
	small := b.smallest()
	var out []sideRow
	for i, x := range b.known {
		r := sideRow{item: i, text: m.length(x.W) + "×" + m.length(x.D)}
		if x.Name != "" {
			r.text += " " + clean(x.Name)
		}
		switch {
		case x.Works:
			r.mark, r.look, r.tail = s.good, m.styles.good, "works"
			switch {
			case i == small:
				r.tail = "smallest"
			case b.corner(x):
				r.tail = "least"
			}
		case x.Verdict == pack.Impossible:
			r.mark, r.look, r.tail = s.fault, m.styles.fault, "too small"
		case x.Verdict == pack.Undecided:
			r.mark, r.look, r.tail = s.empty, m.styles.caution, "undecided"
		default:
			r.mark, r.look, r.tail = s.caution, m.styles.caution, sheet.BoardRow(b.base, x)[1] // faults, or no case
		}
		out = append(out, r)
	}
	if rest := b.total - len(b.known); b.running {
		text := "more to come"
		if rest > 0 {
			text = digits(rest) + " to come"
		}
		out = append(out, sideRow{item: -1, text: text + s.more})
	}
	return out
}

// corner reports whether no board smaller both ways does, of a staircase that is
// known.
func (b *boarding) corner(x *boards.Board) bool {
	return b.result != nil && slices.Contains(b.result.Corners, x)
}

func (m *Model) boardSideLines() []string {
	b := m.boards
	head := plural(len(b.known), "board")
	if i := b.smallest(); i >= 0 {
		head += ", smallest " + m.length(b.known[i].W) + "×" + m.length(b.known[i].D)
	}
	return m.sideLines(head, m.boardRows(), b.chosen)
}

// boardFigures is what the chosen board measures, weighs and takes.
func (m *Model) boardFigures(x *boards.Board) string {
	if x.Plan == nil {
		return "Not everything has a place on it."
	}
	parts := []string{"board " + m.mass(x.Mass), "loaded " + m.mass(x.Rig), m.cable(x.Cable) + " of cable in the kit"}
	if s, ok := x.LeastSpare(); ok {
		parts = append(parts, m.surface(s.Area)+" free in the slots")
	}
	if x.Case != boards.Unasked {
		parts = append(parts, "case: "+goesWords[x.Case])
	}
	if x.Price != nil {
		parts = append(parts, clean(x.Price.String()))
	}
	return sentence(strings.Join(parts, ", "))
}

var goesWords = map[boards.Goes]string{boards.Yes: "it goes in", boards.No: "it does not go in", boards.NotSo: "not as arranged here"}

// surface writes an area in cm² or in².
func (m *Model) surface(a int64) string {
	if m.plan().LengthUnit == layout.Inches {
		in := int64(layout.Inch)
		return digits(int((a+in*in/2)/(in*in))) + " in²"
	}
	cm := int64(layout.Centimetre)
	return digits(int((a+cm*cm/2)/(cm*cm))) + " cm²"
}

func (m *Model) boardDetail() []string {
	a, x := m.areas.detail, m.boards.board()
	tail := m.styles.sign.ellipsis
	if x == nil {
		return block([]string{" " + m.ascii(m.boardHow())}, a.w, a.h, tail)
	}
	if a.h <= 2 {
		return block([]string{" " + m.styles.strong.over(m.ascii(m.boardSize(x))) + m.ascii(". "+m.boardHow()), " " + m.ascii(m.boardFigures(x))}, a.w, a.h, tail)
	}
	lines := m.boardLinesOf(a.w - 4)
	for i := range lines {
		lines[i] = "  " + lines[i]
	}
	return block(lines, a.w, a.h, tail)
}

// boardHow says which boards are tried and by which rules.
func (m *Model) boardHow() string {
	b := m.boards
	what := "Boards of the catalog"
	switch {
	case b.step > 0:
		what = "The smallest in steps of " + m.lengthUnit(b.step)
	case b.sizes != "":
		what = "Boards of your sizes"
	}
	s := what + "; " + mountWords[b.mount]
	if b.noCase {
		s += "; the case does not count"
	}
	return s + "."
}

// boardLinesOf is all there is to say of the chosen board.
func (m *Model) boardLinesOf(w int) []string {
	x := m.boards.board()
	if x == nil {
		return nil
	}
	lines := []string{m.styles.title.over(m.ascii(m.boardSize(x)))}
	add := func(s string) {
		if s != "" {
			lines = append(lines, "")
			lines = append(lines, wrap(m.ascii(s), w)...)
		}
	}
	_, said := m.boardState()
	add(said)
	add(m.boardFigures(x))
	if r := m.boards.result; r != nil && r.Step > 0 {
		lines = append(lines, "")
		for _, s := range sheet.StairLines(m.boards.base, r, w) {
			lines = append(lines, m.ascii(s))
		}
	}
	if x.Plan != nil {
		add("Cabin bag of 56 × 36 × 23 cm: " + cmp.Or(goesWords[x.CarryOn], "not known") + ". Bag for the hold: " + cmp.Or(goesWords[x.Checked], "not known") + ". Carriers differ.")
	}
	add(m.boardHow())
	if r := m.boards.result; r != nil {
		for _, s := range r.Rules {
			add(clean(s))
		}
		for _, s := range r.Same {
			add("On any board: " + clean(s))
		}
	}
	return lines
}

func (m *Model) boardSays() (paint, string) {
	if m.note.text != "" {
		return paint{}, m.note.text
	}
	return m.boardState()
}

// boardState is the verdict on the chosen board, or how far the work is.
func (m *Model) boardState() (paint, string) {
	b := m.boards
	x, going := b.board(), ""
	if b.running {
		going = " " + digits(len(b.known)) + " known so far; x stops."
		if b.total > 0 {
			going = " " + digits(len(b.known)) + " of " + digits(b.total) + " known; x stops."
		}
	}
	switch {
	case b.failed != "":
		return m.styles.fault, "Nothing was tried: " + sentence(b.failed)
	case x == nil && b.running:
		return m.styles.strong, "Trying boards: do all line-ups fit, arranged anew?" + going
	case x == nil:
		return paint{}, "No board is known. x tries them, 2 takes sizes that you type."
	case m.stale():
		return m.styles.caution, "Of the plan as it was before your edits; x tries anew."
	}
	look, s := m.styles.good, m.styles.sign.good+" All line-ups fit. "
	switch words := clean(sheet.BoardAnswer(x)); {
	case x.Works:
		if b.chosen == b.smallest() {
			s = m.styles.sign.good + " The smallest that is known to work. "
		} else if b.corner(x) {
			s = m.styles.sign.good + " All line-ups fit, and on none tried that is smaller both ways. "
		}
		s += words
	case x.Verdict == pack.Impossible:
		look, s = m.styles.fault, m.styles.sign.fault+" "+sentence(words)
	case x.Verdict == pack.Undecided:
		look, s = m.styles.caution, m.styles.sign.empty+" "+sentence(words)
	default:
		look, s = m.styles.caution, m.styles.sign.caution+" "+sentence(words)
	}
	return look, strings.TrimSpace(s) + going
}

func (m *Model) boardCaption() string {
	b := m.boards
	if x := b.board(); x != nil && x.Plan != nil {
		return "As it would be on " + m.length(x.W) + " × " + m.lengthUnit(x.D)
	}
	return "Your board as it is"
}

// boardsPage is a table of all boards that are known.
func (m *Model) boardsPage() tea.Cmd {
	m.open(page{title: "Boards; the smallest that works has a *", items: (*Model).boardItems, pick: func(m *Model, i int) { m.boards.chosen, m.boards.looked = i, true }, chosen: m.boards.chosen})
	return nil
}

func (m *Model) boardItems(w int) [][]string {
	b, small := m.boards, m.boards.smallest()
	var rows [][]string
	for i, x := range b.known {
		row := sheet.BoardRow(b.base, x)
		if i == small {
			row[0] = "* " + row[0]
		}
		rows = append(rows, row)
	}
	return m.tabled(sheet.BoardColumns(b.base), rows, w)
}

func (m *Model) boardPage() tea.Cmd {
	m.open(page{title: "This board", lines: (*Model).boardLinesOf})
	return nil
}

func (m *Model) boardsHints() []hint {
	s := &m.styles.sign
	stop := "anew"
	if m.boards.running {
		stop = "stop"
	}
	return []hint{{key: "enter", what: "take it"}, {key: s.up + s.down, what: "others", press: "down"}, {key: "2", what: "sizes"}, {key: "3", what: "smallest"},
		{key: "x", what: stop}, {key: "w", what: "table"}, {key: "i", what: "about"}, {key: "m", what: "mounting"}, {key: "k", what: "case"}, {key: "1", what: "catalog"},
		{key: "l", what: "line-up"}, {key: "d", what: "view"}, {key: "?", what: "help"}, {key: "esc", what: "back"}}
}

func (m *Model) sizingText() string {
	b := m.boards
	text := "Sizes of boards: " + m.typedText(34) + "  width x depth, like 560x330, 24x12in"
	if b.asking == stairStep {
		text = "In steps of: " + m.typedText(12) + "  a length, like 20mm or 1/2in"
	}
	if b.wrong != "" {
		text += "  " + sentence(b.wrong)
	}
	return text
}

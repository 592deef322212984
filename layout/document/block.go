package document

import "footplank/layout/paper"

// Document is text to print. Title stands at its head and, in a PDF, at the foot
// of each page.
type Document struct {
	Title  string
	Blocks []Block
}

// Block is a part of a document: one of the types of this package that say so.
type Block interface{ block() }

// Heading is a heading of level 2 to 4; the title is level 1.
type Heading struct {
	Level int
	Text  string
}

// Para is a paragraph.
type Para struct{ Text string }

// Mark is what stands before the items of a list.
type Mark uint8

const (
	Bullet Mark = iota
	Number      // 1. 2. 3.
	Check       // a box to tick
)

// List is a list of items.
type List struct {
	Mark  Mark
	Items []string
}

// Align is how a column is set.
type Align uint8

const (
	Left Align = iota
	Right
	Centre
)

// Table is a table with a head. A row that is shorter than the head ends in
// empty cells.
type Table struct {
	Head  []string
	Align []Align // of the columns; those it does not name are set left
	Rows  [][]string
}

// Add adds a row.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, cells) }

// Drawing is lines of characters that keep their places.
type Drawing struct{ Lines []string }

// Figure is a drawing on paper, and in Markdown and text the lines that stand
// in for it. A PDF scales it down to the page's width and to HighMost of the
// page's height, but never up.
type Figure struct {
	Art      *paper.Drawing
	Instead  []string
	Caption  string
	HighMost int  // percent of the page, 0 for all of it
	True     bool // never scaled
}

// Caution is a box with a title of one or two words and what to mind.
type Caution struct {
	Title string
	Items []string
}

// PageBreak begins a new page.
type PageBreak struct{}

// Keep is blocks that stay together on one page if that can be.
type Keep struct{ Blocks []Block }

// Pair is blocks that stand side by side on a page if they fit there; in Markdown
// and text the right ones follow the left ones.
type Pair struct{ Left, Right []Block }

// Card is blocks that have one page for themselves, under a title of level 1.
type Card struct {
	Title  string
	Blocks []Block
}

func (Heading) block()   {}
func (Para) block()      {}
func (List) block()      {}
func (*Table) block()    {}
func (Drawing) block()   {}
func (Figure) block()    {}
func (Caution) block()   {}
func (PageBreak) block() {}
func (Keep) block()      {}
func (Pair) block()      {}
func (Card) block()      {}

// Add adds blocks.
func (d *Document) Add(bs ...Block) { d.Blocks = append(d.Blocks, bs...) }

// Heading adds a heading of that level.
func (d *Document) Heading(level int, text string) { d.Add(Heading{level, text}) }

// Para adds a paragraph.
func (d *Document) Para(text string) { d.Add(Para{text}) }

// List adds a list; one without items adds nothing.
func (d *Document) List(m Mark, items ...string) {
	if len(items) > 0 {
		d.Add(List{m, items})
	}
}

// align returns how the column is set.
func (t *Table) align(column int) Align {
	if column < len(t.Align) {
		return t.Align[column]
	}
	return Left
}

// grid returns the rows, all as long as the head and cleaned.
func (t *Table) grid() (head []string, rows [][]string) {
	fit := func(row []string) []string {
		out := make([]string, len(t.Head))
		for i := range out {
			if i < len(row) {
				out[i] = Clean(row[i])
			}
		}
		return out
	}
	for _, r := range t.Rows {
		rows = append(rows, fit(r))
	}
	return fit(t.Head), rows
}

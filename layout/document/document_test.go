package document

import (
	"bytes"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/paper"
)

// sample has a block of every kind.
func sample() *Document {
	art := paper.NewDrawing(300*layout.Millimetre, 60*layout.Millimetre)
	art.Rect(layout.Rect{X1: art.W, Y1: art.H}, paper.Style{Line: layout.Millimetre})
	d := &Document{Title: "Board for *all* weathers"}
	d.Para("A first paragraph that is long enough to be broken: plywood, glue, a saw, a drill, two hands, a free afternoon and patience.")
	d.Heading(2, "What to do #1")
	d.List(Check, "Saw the wood", "Sand the edges, all of them, those below too, until nothing catches on a sleeve or on a cable")
	d.List(Number, "First", "Second")
	d.Heading(3, "Parts")
	t := &Table{Head: []string{"Part", "Length", "What it is"}, Align: []Align{Left, Right}}
	t.Add("A|B", "310", "a cable with a label that goes on and on, so that the column has to be broken into several lines")
	t.Add("日本語", "7", "wide")
	t.Add("e\u0301", "12")
	d.Add(t, Drawing{[]string{"+--+", "|``|", "+--+"}},
		Figure{Art: art, Instead: []string{"[====]"}, Caption: "The board from above"},
		Caution{"Mains", []string{"Leave mains wiring to a licensed person and keep to the local code, whatever the neighbour says about it.", "Never open a supply."}},
		Keep{[]Block{Heading{2, "Kept"}, Para{"Together."}}},
		PageBreak{}, Para{"After the break."},
		Card{Title: "A card", Blocks: []Block{Para{"On a page of its own."}}})
	return d
}

func TestMarkdown(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().Markdown(&b))
	golden.RequireEqual(t, b.String())
}

func TestText(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().Text(&b, 60))
	golden.RequireEqual(t, b.String())
}

// Lines of text are no wider than asked, and no word is lost.
func TestTextKeepsItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z日é]{1,12}`)
		words := rapid.SliceOfN(word, 1, 30).Draw(t, "words")
		tab := &Table{Head: []string{"One", "Two"}}
		tab.Add(strings.Join(words, " "), strings.Join(words, " "))
		d := &Document{Title: strings.Join(words, " ")}
		d.Para(strings.Join(words, " "))
		d.List(Number, words...)
		d.Add(tab, Caution{"Mind", words})
		w := rapid.IntRange(30, 90).Draw(t, "width")
		var b bytes.Buffer
		require.NoError(t, d.Text(&b, w))
		for line := range strings.SplitSeq(b.String(), "\n") {
			assert.LessOrEqual(t, cells(line), w, line)
		}
		letters := func(s string) int { return strings.Count(s, "a") + strings.Count(s, "日") }
		of := letters(strings.Join(words, ""))
		assert.Equal(t, 6*of+letters("MIND"), letters(b.String()))
	})
}

// columns against sharing out one cell after the other.
func TestColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		least := rapid.SliceOfN(rapid.IntRange(1, 12), n, n).Draw(t, "least")
		wish := rapid.SliceOfN(rapid.IntRange(1, 40), n, n).Draw(t, "wish")
		room := rapid.IntRange(n, 120).Draw(t, "room")
		got := columns(least, wish, room)
		slow, left := make([]int, n), room
		for i := range slow {
			slow[i] = min(least[i], wish[i])
			left -= slow[i]
		}
		if left < 0 {
			sum := 0
			for i, w := range got {
				assert.Positive(t, w)
				sum += w
				assert.LessOrEqual(t, w, min(least[i], wish[i]))
			}
			assert.LessOrEqual(t, sum, room+n)
			return
		}
		for ; left > 0; left-- {
			low := -1
			for i := range slow {
				if slow[i] < wish[i] && (low < 0 || slow[i] < slow[low]) {
					low = i
				}
			}
			if low < 0 {
				break
			}
			slow[low]++
		}
		assert.Equal(t, slow, got)
	})
}

func pdf(t *testing.T, d *Document, s paper.Size) []byte {
	var b bytes.Buffer
	_, err := d.PDF(&b, s)
	require.NoError(t, err)
	return b.Bytes()
}

// pages returns the texts of a PDF's pages, as a reader of PDFs finds them.
func pages(t *testing.T, file []byte) []string {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed: the text of PDFs is not looked at")
	}
	c := exec.Command(tool, "-layout", "-", "-")
	c.Stdin = bytes.NewReader(file)
	out, err := c.Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

func TestPDFIsTheSameEachTime(t *testing.T) {
	assert.Equal(t, pdf(t, sample(), paper.A4), pdf(t, sample(), paper.A4))
	assert.NotEqual(t, pdf(t, sample(), paper.A4), pdf(t, sample(), paper.Letter))
}

func TestPDFReads(t *testing.T) {
	got := pages(t, pdf(t, sample(), paper.A4))
	require.Len(t, got, 3)
	for i, want := range [][]string{
		{"Board for *all* weathers", "1.  ", "A|B", "several lines", "The board from above", "Never open a supply.", "Page 1 of 3"},
		{"After the break.", "Page 2 of 3"}, {"A card", "On a page of its own.", "Page 3 of 3"},
	} {
		for _, s := range want {
			assert.Contains(t, got[i], strings.TrimSpace(s))
		}
	}
}

func TestPDFTellsWhatItCannotWrite(t *testing.T) {
	d := &Document{Title: "日本"}
	var b bytes.Buffer
	replaced, err := d.PDF(&b, paper.A4)
	require.NoError(t, err)
	assert.NotEmpty(t, replaced)
}

// A table over several pages has its head on each, and all its rows once.
func TestTableOverPages(t *testing.T) {
	d := &Document{Title: "Long"}
	tab := &Table{Head: []string{"Headword", "Cut"}}
	for i := range 150 {
		tab.Add(fmt.Sprintf("row%03d", i), "1")
	}
	d.Add(tab)
	got := pages(t, pdf(t, d, paper.Letter))
	require.Greater(t, len(got), 2)
	all := strings.Join(got, "")
	for i := range 150 {
		assert.Equal(t, 1, strings.Count(all, fmt.Sprintf("row%03d", i)))
	}
	for _, s := range got {
		assert.Equal(t, 1, strings.Count(s, "Headword"))
	}
}

// A card is set as small as needed for one page; a heading is never the last of
// a page.
func TestCardsAndKeeping(t *testing.T) {
	d := &Document{}
	var many []string
	for i := range 70 {
		many = append(many, fmt.Sprintf("step %d", i))
	}
	d.Add(Card{Title: "First", Blocks: []Block{List{Check, many}}}, Card{Title: "Second", Blocks: []Block{Para{"x"}}})
	assert.Len(t, pages(t, pdf(t, d, paper.A4)), 2)
	for n := range 60 {
		d := &Document{}
		for range n {
			d.Para("line")
		}
		d.Heading(2, "Heading")
		d.Para("behind it")
		d.Para("what the table is")
		d.Add(&Table{Head: []string{"A"}, Rows: [][]string{{"1"}, {"2"}, {"3"}, {"4"}, {"5"}}})
		for _, page := range pagesOf(d) {
			last := page[len(page)-1]
			assert.False(t, last.tied, "%d paragraphs", n)
		}
	}
}

// What is side by side takes the height of the higher side, at the share that makes
// that least, and loses nothing; what is longer than a page so goes on below.
func TestPair(t *testing.T) {
	long := &Table{Head: []string{"Unit", "What to do with it"}}
	for i := range 12 {
		long.Add(fmt.Sprintf("unit%03d", i), "words that take two lines in a narrow column and one in a wide one")
	}
	short := &Table{Head: []string{"A"}, Rows: [][]string{{"right1"}, {"right2"}}}
	high := func(b Block) layout.Length {
		s := &setter{size: paper.A4, percent: 100}
		s.block(b)
		return stacked(s.pieces)
	}
	beside := high(Pair{Left: []Block{long}, Right: []Block{short}})
	assert.Equal(t, high(Pair{Left: []Block{short}, Right: []Block{long}}), beside)
	assert.Less(t, beside, high(Keep{[]Block{long, short}})*2)
	even := (&setter{size: paper.A4, percent: 100}).beside(room(paper.A4).W()/2, []Block{long})
	assert.Less(t, beside, stacked(even.pieces), "the longer side gets more room")

	for n, want := range map[int]int{1: 1, 9: 3} {
		var left []Block
		for range n {
			left = append(left, long)
		}
		got := pages(t, pdf(t, &Document{Blocks: []Block{Pair{left, []Block{short}}}}, paper.A4))
		assert.Len(t, got, want)
		all := strings.Join(got, "")
		assert.Equal(t, n, strings.Count(all, "unit011"))
		assert.Equal(t, 1, strings.Count(all, "right2"))
	}
}

// A card grows as long as its tables keep a line a row, side by side or not, and
// no word of a table is broken to set two beside each other.
func TestCardsGrowUntilTheyFold(t *testing.T) {
	table := func(cell string) *Table {
		return &Table{Head: []string{"A", "B"}, Rows: [][]string{{cell, cell}, {cell, cell}}}
	}
	set := func(bs ...Block) *setter { return (&setter{size: paper.A4}).set(Card{Title: "Card", Blocks: bs}) }
	words := strings.Repeat("word ", 7)
	for what, want := range map[string]struct {
		block  Block
		least  layout.Length
		folded bool
	}{
		"narrow":         {table("word"), 135, false},
		"wide":           {table(words), 105, false},
		"too wide":       {table(strings.Repeat(words, 3)), 100, true},
		"narrow, beside": {Pair{[]Block{table("word")}, []Block{table("word")}}, 135, false},
		"wide, beside":   {Pair{[]Block{table(words)}, []Block{table(words)}}, 100, true},
	} {
		got := set(want.block)
		assert.GreaterOrEqual(t, got.percent, want.least, what)
		assert.Equal(t, want.folded, got.folded, what)
	}
	long := table(strings.Repeat("w", 25))
	assert.False(t, set(Pair{[]Block{long}, []Block{long}}).broken)
}

// pagesOf returns which pieces come on which page, found by asking paginate
// where it draws them.
func pagesOf(d *Document) [][]piece {
	s := &setter{size: paper.A4, percent: 100}
	s.blocks(d.Blocks)
	doc := paper.NewDocument("")
	var out [][]piece
	for i := range s.pieces {
		p := s.pieces[i]
		draw := p.draw
		s.pieces[i].draw = func(on *paper.Drawing, x, y layout.Length) {
			for len(out) < len(doc.Pages()) {
				out = append(out, nil)
			}
			out[len(out)-1] = append(out[len(out)-1], p)
			draw(on, x, y)
		}
	}
	paginate(doc, paper.A4, s.pieces)
	return out
}

// However far down a page a table begins, no page ends with a row or two of it or
// begins with its last alone, and what a row is of stands on the same page.
func TestRowsStayTogether(t *testing.T) {
	parted := 0
	for before := range 60 {
		d := &Document{}
		for range before {
			d.Para("words")
		}
		table := &Table{Head: []string{"Unit", "Piece"}}
		for u := range 4 {
			table.Add(fmt.Sprintf("unit %d", u), "a")
			table.Add("", "b")
			table.Add("", "c")
		}
		d.Add(table)
		at := 0 // pieces so far
		for _, page := range pagesOf(d) {
			rows := 0
			for _, p := range page {
				if p.again != nil {
					rows++
				}
			}
			if at += rows; rows > 0 && at < 12 {
				parted++
				assert.Zero(t, at%3, "%d paragraphs: the page ends within a unit", before)
				assert.NotEqual(t, 11, at)
			}
		}
	}
	assert.Greater(t, parted, 2)
}

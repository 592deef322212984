package plate

import (
	"strings"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/paper"
	"footplank/layout/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wide is a board on which little stands, at places of each test.
func wide(t *testing.T, units string) *layout.Plan {
	d, err := plan.Parse("wide.toml", []byte(`
[board]
size = [1200, 300]
material = "birch-plywood"
thickness = 15
`+units), catalog.Builtin())
	require.NoError(t, err)
	return d.Plan
}

func pagesTitled(pages []pdfPage, title string) (out []pdfPage) {
	for _, p := range pages {
		if strings.HasPrefix(p.words[0], title) {
			out = append(out, p)
		}
	}
	return out
}

// Only what is needed of a large board is printed: what stands there, and a corner
// to lay the sheet by. 222 x 142 mm and the corner go on one page across.
func TestEmptyPagesAreLeftOut(t *testing.T) {
	p := wide(t, `
[[unit]]
id = "a"
form = "compact"
place = { on = "deck", at = [20, 20] }
[[unit]]
id = "b"
form = "compact"
place = { on = "deck", at = [150, 20] }
`)
	pages := readPDF(t, pdfOf(t, p, paper.A4))
	for _, title := range []string{"In every line-up: deck", "Underside: deck"} {
		got := pagesTitled(pages, title)
		require.Len(t, got, 1, title)
		board, ok := boardAt(p, &got[0])
		require.True(t, ok)
		corner := board.x0
		if title[0] == 'U' {
			corner = board.x1 // mirrored
		}
		assert.True(t, corner >= 6 && corner <= 291 && board.y1 <= 210-6-15, "%s: the front-left corner is not on the page: %v", title, board)
	}
}

// What stands far apart is printed on pages that can be taped to each other, and
// what is in the middle of a board on a page with an edge of it.
func TestPagesFarApartHangTogether(t *testing.T) {
	far := wide(t, `
[[unit]]
id = "a"
form = "compact"
place = { on = "deck", at = [10, 20] }
[[unit]]
id = "b"
form = "compact"
place = { on = "deck", at = [1100, 20] }
`)
	got := pagesTitled(readPDF(t, pdfOf(t, far, paper.A4)), "In every line-up: deck")
	require.Len(t, got, 5, "1163 mm by pages of 285 that overlap by 10")
	for i, page := range got {
		if i > 0 {
			assert.Contains(t, strings.Join(page.words, "\n"), "left "+string(rune('A'+i-1))+"1")
		}
	}
	middle := wide(t, `
[[unit]]
id = "a"
form = "compact"
place = { on = "deck", at = [600, 90] }
`)
	got = pagesTitled(readPDF(t, pdfOf(t, middle, paper.A4)), "In every line-up: deck")
	require.Len(t, got, 1)
	board, ok := boardAt(middle, &got[0])
	require.True(t, ok)
	body := paper.Body(paper.Size{W: layout.Length(got[0].w * 1000), H: layout.Length(got[0].h * 1000)})
	seen := board.y1 <= body.Y1.MM()+0.01 || board.y0 >= body.Y0.MM()-0.01
	assert.True(t, seen, "neither edge is on the page: %v", board)
}

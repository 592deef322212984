package plate

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/paper"
	"footplank/layout/sheet"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tolerance is how far off a printed edge may be, in mm.
const tolerance = 0.2

// made keeps what was drawn of an example: drawing the same again is tested once.
var made = map[string][]byte{}

// examplePDF is pdfOf of an example.
func examplePDF(t testing.TB, name string, size paper.Size) []byte {
	key := name + size.Name
	if made[key] == nil {
		made[key] = pdfOf(t, example(t, name), size)
	}
	return made[key]
}

// exampleSVG is svgOf of an example.
func exampleSVG(t testing.TB, name, of string) []byte {
	key := name + of
	if made[key] == nil {
		draw := map[string]func(io.Writer, *layout.Plan, Options) error{"placement": SVG, "underside": UndersideSVG, "stickers": StickersSVG}[of]
		made[key] = svgOf(t, example(t, name), draw)
	}
	return made[key]
}

func pdfOf(t testing.TB, p *layout.Plan, size paper.Size) []byte {
	t.Helper()
	var b bytes.Buffer
	replaced, err := PDF(&b, p, Options{Paper: size})
	require.NoError(t, err)
	assert.Empty(t, replaced)
	return b.Bytes()
}

func svgOf(t testing.TB, p *layout.Plan, draw func(io.Writer, *layout.Plan, Options) error) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, draw(&b, p, Options{}))
	return b.Bytes()
}

func close2(a, b mmBox, by float64) bool {
	return math.Abs(a.x0-b.x0) <= by && math.Abs(a.y0-b.y0) <= by && math.Abs(a.x1-b.x1) <= by && math.Abs(a.y1-b.y1) <= by
}

func has(list []mmBox, want mmBox, by float64) bool {
	for _, r := range list {
		if close2(r, want, by) {
			return true
		}
	}
	return false
}

// boardAt returns where the board's deck lies on a page: its outline as
// rectangle, even where it reaches past the page.
func boardAt(p *layout.Plan, page *pdfPage) (mmBox, bool) {
	for _, r := range page.rects {
		if math.Abs(r.x1-r.x0-p.Board.W.MM()) < 0.02 && math.Abs(r.y1-r.y0-p.Board.D.MM()) < 0.02 {
			return r, true
		}
	}
	return mmBox{}, false
}

func TestBarOnEveryPage(t *testing.T) {
	for _, name := range examples {
		for _, size := range paper.Sizes() {
			pages := readPDF(t, examplePDF(t, name, size))
			for i, page := range pages {
				found := 0
				for _, l := range page.lines {
					if l.y0 == l.y1 && math.Abs(l.x1-l.x0-100) < 0.01 {
						found++
					}
				}
				assert.Equal(t, 1, found, "%s on %s, page %d", name, size.Name, i+1)
				assert.Contains(t, page.words, paper.BarWords)
				assert.Contains(t, page.words, fmt.Sprintf("page %d of %d", i+1, len(pages)))
				short, long := min(page.w, page.h), max(page.w, page.h)
				assert.InDelta(t, size.W.MM(), short, 0.01)
				assert.InDelta(t, size.H.MM(), long, 0.01)
			}
		}
	}
}

// Every piece is drawn where the report says, on some page of the base sheets
// wholly, and the board's outline has its true size on every page of the deck.
func TestPiecesWhereTheReportSays(t *testing.T) {
	for _, name := range examples {
		p := example(t, name)
		pages := readPDF(t, examplePDF(t, name, paper.A4))
		held := mount.Lay(p)
		require.NotEmpty(t, held.Board)
		decks := 0
		for _, m := range held.Board {
			if m.Surface != layout.DeckName {
				continue
			}
			seen := false
			for i := range pages {
				page := &pages[i]
				if !strings.HasPrefix(page.words[0], "In every line-up: "+layout.DeckName) {
					continue
				}
				board, ok := boardAt(p, page)
				require.True(t, ok, "%s page %d: no outline %v x %v", name, i+1, p.Board.W, p.Board.D)
				decks++
				seen = seen || has(page.rects, onPage(board, m.At), 0.02)
			}
			assert.True(t, seen, "%s: piece at %v", name, m.At)
		}
		assert.Positive(t, decks)
		// What the report says of a unit lies on one of the strips drawn.
		for _, m := range sheet.NewReport(p).Fasteners {
			on := false
			for _, s := range held.Board {
				b := s.At
				on = on || string(s.Kind) == m.Kind && b.X0.MM() <= m.OnBoard[0] && b.Y0.MM() <= m.OnBoard[1] && b.X1.MM() >= m.OnBoard[2] && b.Y1.MM() >= m.OnBoard[3]
			}
			assert.True(t, on, "%s: %v", name, m)
		}
	}
}

// onPage maps a rectangle of the board by where the board's outline is.
func onPage(board mmBox, r layout.Rect) mmBox {
	return mmBox{board.x0 + r.X0.MM(), board.y1 - r.Y1.MM(), board.x0 + r.X1.MM(), board.y1 - r.Y0.MM()}
}

// The stickers show the pieces where the report says they are on each base.
func TestStickersShowThePieces(t *testing.T) {
	for _, name := range examples {
		p := example(t, name)
		rects, texts := readSVG(t, exampleSVG(t, name, "stickers"))
		for _, m := range mount.Lay(p).Bases {
			u := p.Unit(m.Unit)
			group := "sticker-" + u.ID
			var base *mmBox
			var pieces []mmBox
			for i := range rects {
				if r := &rects[i]; r.in(group) {
					switch r.class {
					case "base":
						base = &r.at
					case "piece":
						pieces = append(pieces, r.at)
					}
				}
			}
			require.NotNil(t, base, "%s: no sticker for %s", name, u.ID)
			assert.InDelta(t, u.Body.W.MM(), base.x1-base.x0, 0.001)
			assert.InDelta(t, u.Body.D.MM(), base.y1-base.y0, 0.001)
			assert.True(t, has(pieces, onPage(*base, m.At), 0.001), "%s: %s at %v", name, u.ID, m.At)
			assert.Contains(t, strings.Join(texts, " "), strings.Fields(u.Label)[0])
		}
		for _, m := range sheet.NewReport(p).Fasteners {
			u := p.Unit(m.Unit)
			whole := mmBox{0, 0, u.Body.W.MM(), u.Body.D.MM()}
			assert.True(t, m.UnderUnit[0] >= whole.x0 && m.UnderUnit[1] >= whole.y0 && m.UnderUnit[2] <= whole.x1 && m.UnderUnit[3] <= whole.y1)
		}
	}
}

// The underside has each piece as far from the left edge as the placement has
// it from the right, and as far from the front.
func TestUndersideMirrors(t *testing.T) {
	for _, name := range examples {
		p := example(t, name)
		above, _ := readSVG(t, exampleSVG(t, name, "placement"))
		beneath, words := readSVG(t, exampleSVG(t, name, "underside"))
		assert.Contains(t, strings.Join(words, "\n"), "SEEN FROM BELOW, MIRRORED")
		for _, s := range p.Board.Surfaces() {
			a, aPieces := surfaceIn(above, "base-"+s.Name)
			b, bPieces := surfaceIn(beneath, "underside-"+s.Name)
			assert.Len(t, bPieces, len(aPieces))
			for _, r := range aPieces {
				want := mmBox{b.x0 + a.x1 - r.x1, b.y0 + r.y0 - a.y0, b.x0 + a.x1 - r.x0, b.y0 + r.y1 - a.y0}
				assert.True(t, has(bPieces, want, 0.001), "%s, %s: %v", name, s.Name, r)
			}
		}
	}
	for i, page := range readPDF(t, undersideOf(t, example(t, "pocket"))) {
		assert.Contains(t, page.words, belowNote, "page %d", i+1)
	}
}

func undersideOf(t *testing.T, p *layout.Plan) []byte {
	var b bytes.Buffer
	_, err := UndersidePDF(&b, p, Options{})
	require.NoError(t, err)
	return b.Bytes()
}

// surfaceIn returns a surface's outline and its pieces in a group of an SVG.
func surfaceIn(rects []svgRect, group string) (surface mmBox, pieces []mmBox) {
	for i := range rects {
		if r := &rects[i]; r.in(group) {
			switch r.class {
			case "surface":
				surface = r.at
			case "piece":
				pieces = append(pieces, r.at)
			}
		}
	}
	return surface, pieces
}

// Where two tiles overlap they show the same: each rectangle that reaches into
// the overlap is on both, a step apart.
func TestTilesOverlapExactly(t *testing.T) {
	pages := readPDF(t, examplePDF(t, "ceilidh", paper.A4))
	tiles := map[string]*pdfPage{}
	for i := range pages {
		if pg := &pages[i]; pg.words[0] == "In every line-up: "+layout.DeckName {
			tiles[pg.words[1]] = pg
		}
	}
	require.Len(t, tiles, 4, "560 x 330 mm go on two by two pages across, of 285 x 172 mm each and 10 mm of overlap")
	body := paper.Body(paper.A4.Across())
	across, down := (body.W() - paper.Overlap).MM(), (body.D() - paper.Overlap).MM()
	compared := 0
	for _, pair := range []struct {
		a, b   string
		dx, dy float64
	}{{"A1", "B1", across, 0}, {"A2", "B2", across, 0}, {"A1", "A2", 0, down}, {"B1", "B2", 0, down}} {
		a, b := tiles[pair.a], tiles[pair.b]
		require.NotNil(t, a, pair.a)
		require.NotNil(t, b, pair.b)
		for _, r := range a.rects {
			inBody := r.y1 < body.Y1.MM()+100 && r.x1-r.x0 < 200 && r.y0 < body.Y1.MM()
			on := mmBox{r.x0 - pair.dx, r.y0 - pair.dy, r.x1 - pair.dx, r.y1 - pair.dy}
			reaches := on.x1 > body.X0.MM()+1 && on.y1 > body.Y0.MM()+1 && on.x0 < body.X1.MM()-1 && on.y0 < body.Y1.MM()-1
			if inBody && reaches {
				assert.True(t, has(b.rects, on, 0.02), "%s, %s: %v", pair.a, pair.b, r)
				compared++
			}
		}
	}
	assert.Greater(t, compared, 20)
}

func TestEveryLabelIsThere(t *testing.T) {
	for _, name := range examples {
		p := example(t, name)
		text := spoken(readPDF(t, examplePDF(t, name, paper.Letter)))
		_, drawn := readSVG(t, exampleSVG(t, name, "placement"))
		_, missing := p.Standings(&p.Lineups[0])
		for i := range p.Units {
			assert.Contains(t, text, p.Units[i].Label, name)
			for _, w := range strings.Fields(p.Units[i].Label) {
				if len(missing) == 0 {
					assert.Contains(t, strings.Join(drawn, "\n"), w, name)
				}
			}
		}
	}
}

// Labels in any script are drawn or replaced with a warning, and the unit can
// be told by its ID then.
func TestLabelsInManyScripts(t *testing.T) {
	p := example(t, "pocket")
	labels := map[int]string{0: "日本の音", 1: "שלום", 2: "😀 fuzz", 3: "e\u0301cho", 4: "Жар-птица Ωμέγα", 5: "الصدى"}
	replaced := []string{"日本の音", "שלום", "😀 fuzz", "الصدى"}
	for i, l := range labels {
		p.Units[i].Label = l
	}
	var b bytes.Buffer
	got, err := PDF(&b, p, Options{})
	require.NoError(t, err)
	var texts []string
	for _, r := range got {
		texts = append(texts, r.Text)
	}
	all := strings.Join(texts, "\n")
	for _, l := range replaced {
		assert.Contains(t, all, l)
	}
	assert.NotContains(t, all, "cho")
	assert.NotContains(t, all, "Жар")
	text := spoken(readPDF(t, b.Bytes()))
	assert.Contains(t, text, "écho", "composed")
	assert.Contains(t, text, "Жар-птица Ωμέγα")
	for _, i := range []int{0, 1, 2, 5} {
		written, whole := paper.Drawable(p.Units[i].Label, paper.Bold)
		assert.False(t, whole)
		assert.Contains(t, text, written+" ("+p.Units[i].ID+")")
	}
	_, drawn := readSVG(t, svgOf(t, p, SVG))
	assert.Contains(t, strings.Join(drawn, "\n"), "שלום", "an SVG keeps the text")
}

func TestSameTwice(t *testing.T) {
	p := example(t, "pocket")
	assert.True(t, bytes.Equal(examplePDF(t, "pocket", paper.A4), pdfOf(t, p, paper.A4)))
	assert.True(t, bytes.Equal(exampleSVG(t, "pocket", "placement"), svgOf(t, p, SVG)))
	assert.True(t, bytes.Equal(exampleSVG(t, "pocket", "underside"), svgOf(t, p, UndersideSVG)))
	assert.True(t, bytes.Equal(exampleSVG(t, "pocket", "stickers"), svgOf(t, p, StickersSVG)))
}

func TestUnknownLineup(t *testing.T) {
	p := example(t, "pocket")
	_, err := PDF(io.Discard, p, Options{Lineup: "nosuch"})
	assert.ErrorContains(t, err, `line-up "nosuch": the plan has `+p.Lineups[0].Name)
	assert.Error(t, SVG(io.Discard, p, Options{Lineup: "nosuch"}))
}

// A plan without places, and one with a single line-up, have sheets too.
func TestPlansWithLittle(t *testing.T) {
	p := &layout.Plan{Title: "Bare", LengthUnit: layout.Inches, Board: layout.Board{W: 24 * layout.Inch, D: 12 * layout.Inch, Thickness: 12 * mm},
		Units: []layout.Unit{{ID: "a", Label: "Alone", Body: layout.Size{W: 70 * mm, D: 120 * mm, H: 50 * mm}}}, Lineups: []layout.Lineup{{Name: "only"}}}
	text := spoken(readPDF(t, pdfOf(t, p, paper.Letter)))
	assert.Contains(t, text, "Without a place, so not on these pages: Alone.")
	svgOf(t, p, SVG)
	svgOf(t, p, StickersSVG)
}

// The drawings as they are, and the words of the pages in their order: what a
// reviewer can read of a PDF.
func TestSheets(t *testing.T) {
	for _, name := range examples {
		for _, of := range []string{"placement", "underside", "stickers"} {
			t.Run(name+"-"+of+".svg", func(t *testing.T) { golden.RequireEqual(t, exampleSVG(t, name, of)) })
		}
		for _, size := range paper.Sizes() {
			t.Run(name+"-"+size.Name, func(t *testing.T) {
				golden.RequireEqual(t, []byte(listing(readPDF(t, examplePDF(t, name, size)))))
			})
		}
	}
}

// listing says of each page its size, its words in order and how much is drawn.
func listing(pages []pdfPage) string {
	var b strings.Builder
	for i, p := range pages {
		fmt.Fprintf(&b, "page %d: %.1f x %.1f mm, %d rectangles, %d lines\n", i+1, p.w, p.h, len(p.rects), len(p.lines))
		for _, w := range p.words {
			fmt.Fprintf(&b, "  %s\n", w)
		}
	}
	return b.String()
}

package paper

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// Sizes as ISO 216 and ANSI/ASME Y14.1 have them: A4 210 x 297 mm, Letter
// 8 1/2 x 11 in, which are 215.9 x 279.4 mm.
func TestSizes(t *testing.T) {
	assert.Equal(t, Size{"A4", 210 * mm, 297 * mm}, A4)
	assert.Equal(t, "215.9mm", Letter.W.String())
	assert.Equal(t, "279.4mm", Letter.H.String())
	got, ok := SizeNamed("letter")
	assert.True(t, ok)
	assert.Equal(t, Letter, got)
	_, ok = SizeNamed("a5")
	assert.False(t, ok)
	assert.Equal(t, Size{"A4", 297 * mm, 210 * mm}, A4.Across())
	assert.Equal(t, rect(6, 6, 204, 291), A4.Inner())
}

// Tiles cover the drawing, those side by side share just the overlap, and no
// column or row is there for nothing.
func TestTilesCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewDrawing(layout.Length(rapid.IntRange(1, 2_000_000).Draw(t, "w")), layout.Length(rapid.IntRange(1, 2_000_000).Draw(t, "h")))
		size := rapid.SampledFrom(Sizes()).Draw(t, "paper")
		g := Tiling{Paper: size}.Cut(d.W, d.H)
		var all layout.Rect
		for i := range g.Tiles {
			tile := &g.Tiles[i]
			all = all.Union(tile.Window)
			if tile.Window.W() != Body(g.Paper).W() || tile.Window.D() != Body(g.Paper).D() {
				t.Fatalf("%v is no body of a page", tile)
			}
			if o := g.at(tile.Col+1, tile.Row); o != nil && tile.Window.X1-o.Window.X0 != Overlap {
				t.Fatalf("%v and %v share something else", tile, o)
			}
			if o := g.at(tile.Col, tile.Row+1); o != nil && tile.Window.Y1-o.Window.Y0 != Overlap {
				t.Fatalf("%v and %v share something else", tile, o)
			}
		}
		if !all.Contains(layout.Rect{X1: d.W, Y1: d.H}) {
			t.Fatalf("%v does not cover %v x %v", all, d.W, d.H)
		}
		if span(g.Cols-1, Body(g.Paper).W()) >= d.W && g.Cols > 1 || span(g.Rows-1, Body(g.Paper).D()) >= d.H && g.Rows > 1 {
			t.Fatalf("%d x %d tiles are too many", g.Cols, g.Rows)
		}
	})
}

func TestTileNames(t *testing.T) {
	for _, c := range []struct {
		col, row int
		want     string
	}{{0, 0, "A1"}, {25, 2, "Z3"}, {26, 0, "AA1"}, {27, 9, "AB10"}, {701, 0, "ZZ1"}, {702, 0, "AAA1"}} {
		assert.Equal(t, c.want, tileName(c.col, c.row))
	}
}

func TestTilesLeftOut(t *testing.T) {
	d := NewDrawing(500*mm, 400*mm)
	d.Rect(rect(0, 0, 500, 400), Style{Line: 500})
	whole, part := NewDocument("x"), NewDocument("x")
	g := whole.Tiles(d, Tiling{Paper: A4, Title: "t"})
	require.Len(t, whole.Pages(), len(g.Tiles))
	first := g.Tiles[0].Window
	last := g.Tiles[len(g.Tiles)-1].Window
	h := part.Tiles(d, Tiling{Paper: A4, Title: "t", Need: []layout.Rect{
		layout.RectAt(layout.Point{X: first.X0, Y: first.Y0}, 50*mm, 50*mm),
		layout.RectAt(layout.Point{X: last.X0 + 50*mm, Y: first.Y0}, 50*mm, 50*mm),
		layout.RectAt(layout.Point{X: last.X1 - 50*mm, Y: last.Y1 - 50*mm}, 50*mm, 50*mm),
	}})
	assert.Len(t, part.Pages(), h.Pages())
	assert.Less(t, h.Pages(), len(h.Tiles))
	assert.Equal(t, "overlap 10 mm: right B1, below A2", g.neighbours(&g.Tiles[0]))
}

// What is needed is on the pages wherever it lies, no page could be left out
// besides, and all that are printed can be taped to each other.
func TestTilesWithWhatIsNeeded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const wide, high = 900, 700
		var need []layout.Rect
		for range rapid.IntRange(1, 6).Draw(t, "needs") {
			x, y := rapid.IntRange(0, wide-1).Draw(t, "x"), rapid.IntRange(0, high-1).Draw(t, "y")
			need = append(need, rect(layout.Length(x), layout.Length(y),
				layout.Length(rapid.IntRange(x+1, min(x+250, wide)).Draw(t, "x1")), layout.Length(rapid.IntRange(y+1, min(y+250, high)).Draw(t, "y1"))))
		}
		size := rapid.SampledFrom(Sizes()).Draw(t, "paper")
		g := Tiling{Paper: size, Need: need}.Cut(wide*mm, high*mm)
		if !coversAll(g.Windows(), need) {
			t.Fatalf("%v do not show all of %v", g.Windows(), need)
		}
		if !touch(g.Windows()) {
			t.Fatalf("%v do not hang together", g.Windows())
		}
		for i := range g.Windows() {
			if rest := slices.Delete(slices.Clone(g.Windows()), i, i+1); coversAll(rest, need) && touch(rest) {
				t.Fatalf("%v are enough of %v for %v", rest, g.Windows(), need)
			}
		}
	})
}

// coversAll looks at the middles of what the windows' edges cut each thing into.
func coversAll(windows, need []layout.Rect) bool {
	for _, r := range need {
		xs, ys := []layout.Length{r.X0, r.X1}, []layout.Length{r.Y0, r.Y1}
		for _, w := range windows {
			xs, ys = append(xs, w.X0, w.X1), append(ys, w.Y0, w.Y1)
		}
		slices.Sort(xs)
		slices.Sort(ys)
		for i := 1; i < len(xs); i++ {
			for j := 1; j < len(ys); j++ {
				c := layout.Rect{X0: xs[i-1], Y0: ys[j-1], X1: xs[i], Y1: ys[j]}
				if r.Contains(c) && !c.Empty() && !slices.ContainsFunc(windows, func(w layout.Rect) bool { return w.Contains(c) }) {
					return false
				}
			}
		}
	}
	return true
}

// touch reports whether windows that share a whole edge's overlap join all.
func touch(windows []layout.Rect) bool {
	if len(windows) == 0 {
		return false
	}
	group := []int{0}
	for i := 0; i < len(group); i++ {
		a := windows[group[i]]
		for k, b := range windows {
			beside := a.Y0 == b.Y0 && abs(a.X0-b.X0) == a.W()-Overlap || a.X0 == b.X0 && abs(a.Y0-b.Y0) == a.D()-Overlap
			if beside && !slices.Contains(group, k) {
				group = append(group, k)
			}
		}
	}
	return len(group) == len(windows)
}

// Of two ways to lay the pages with as many of them, the one that cuts less.
func TestTilesCutLittle(t *testing.T) {
	need := []layout.Rect{rect(0, 0, 100, 50), rect(150, 0, 240, 50), rect(250, 0, 300, 50)}
	g := Tiling{Paper: A4, Need: need}.Cut(300*mm, 50*mm)
	require.Equal(t, 2, g.Pages())
	for _, r := range need {
		assert.True(t, slices.ContainsFunc(g.Windows(), func(w layout.Rect) bool { return w.Contains(r) }), "%v is cut by %v", r, g.Windows())
	}
}

// What lies wholly outside of the window is not on the page, what reaches in
// is, and patterns keep to the drawing.
func TestPlay(t *testing.T) {
	src := NewDrawing(300*mm, 300*mm)
	src.Layer("a/b")
	src.Rect(rect(10, 10, 20, 20), Style{Line: 100, Fill: Hatch})
	src.Rect(rect(200, 200, 220, 220), Style{Line: 100})
	dst := NewDrawing(100*mm, 100*mm)
	dst.Layer("mine")
	dst.Play(src, rect(5, 5, 100, 100), at(50, 50), 1, 2)
	assert.Equal(t, "mine", dst.LayerName())
	require.Len(t, dst.layers, 2)
	got := dst.layers[1]
	assert.Equal(t, "a/b", got.name)
	require.Len(t, got.marks, 1)
	m := got.marks[0]
	assert.Equal(t, []layout.Point{{X: 52500, Y: 52500}, {X: 57500, Y: 57500}}, m.points)
	assert.Equal(t, layout.Length(50), m.style.Line)
	assert.Equal(t, layout.Point{X: 47500, Y: 47500}, m.origin)
	assert.Equal(t, layout.Rect{X0: 50 * mm, Y0: 50 * mm, X1: 97500, Y1: 97500}, *m.clip)
	assert.Equal(t, []layout.Point{{X: 10 * mm, Y: 10 * mm}, {X: 20 * mm, Y: 20 * mm}}, src.layers[0].marks[0].points, "the source is as it was")
}

package paper

import (
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
		g := Tiling{Paper: size}.Cut(d)
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
	h := part.Tiles(d, Tiling{Paper: g.Paper, Title: "t", Skip: func(w layout.Rect) bool { return w == first }})
	assert.True(t, h.Tiles[0].Skipped)
	assert.Len(t, part.Pages(), len(h.Tiles)-1)
	assert.Equal(t, "overlap 10 mm: right B1, below A2", g.neighbours(&g.Tiles[0]))
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

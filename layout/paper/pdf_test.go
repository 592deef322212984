package paper

import (
	"bytes"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

const mm = layout.Millimetre

func at(x, y layout.Length) layout.Point { return layout.Point{X: x * mm, Y: y * mm} }

func rect(x0, y0, x1, y1 layout.Length) layout.Rect {
	return layout.Rect{X0: x0 * mm, Y0: y0 * mm, X1: x1 * mm, Y1: y1 * mm}
}

// sample has something of everything.
func sample() *Document {
	d := NewDocument("A board: Übung 日本 𝄞 (one)")
	for _, size := range []Size{A4.Across(), Letter} {
		p := d.Page(size)
		p.Layer("board")
		p.Rect(rect(20, 20, 120, 60), Style{Line: 300, Fill: Hatch})
		p.Layer("plate/units")
		p.Circle(at(60, 100), 20*mm, Style{Line: 200, Fill: Dots, Dash: []layout.Length{2 * mm, mm}})
		p.Poly([]layout.Point{at(20, 150), at(60, 150), at(60, 180)}, false, Style{Line: 500, Corner: 5 * mm})
		p.Poly([]layout.Point{at(80, 150), at(120, 150), at(100, 180)}, true, Style{Line: 500, Fill: Grain})
		p.Clip(rect(0, 0, 50, 50))
		p.Text(at(40, 40), "cut off here", Type{Size: 4 * mm, Face: Bold})
		p.Unclip()
		p.Text(at(40, 70), "straight 𝄞", Type{Size: 4 * mm, Boxed: true})
		p.Text(at(140, 70), "upwards", Type{Size: 4 * mm, Face: Mono, Turn: 3, Anchor: Middle})
	}
	return d
}

func pdfOf(t *testing.T, d *Document) []byte {
	t.Helper()
	var b bytes.Buffer
	_, err := d.PDF(&b)
	require.NoError(t, err)
	return b.Bytes()
}

func TestPDFIsTheSameTwice(t *testing.T) {
	first := pdfOf(t, sample())
	for range 5 {
		require.True(t, bytes.Equal(first, pdfOf(t, sample())), "other bytes for the same pages")
	}
	other := sample()
	other.Pages()[0].Text(at(10, 10), "more", Type{Size: 3 * mm})
	more := pdfOf(t, other)
	assert.False(t, bytes.Equal(first, more))
	id := func(b []byte) string { return string(b[bytes.LastIndex(b, []byte("/ID [<")):][:40]) }
	assert.NotEqual(t, id(first), id(more), "another file has another ID")
}

// The appended update must be found the way a reader goes: from the end to the
// table, from there to the catalog, and by /Prev to the first table.
func TestUpdateAsksForNoScaling(t *testing.T) {
	b := pdfOf(t, sample())
	number := func(where []byte, before string) int {
		i := bytes.LastIndex(where, []byte(before))
		require.GreaterOrEqual(t, i, 0, before)
		n, err := strconv.Atoi(string(bytes.Fields(where[i+len(before):])[0]))
		require.NoError(t, err)
		return n
	}
	xref := number(b, "startxref\n")
	require.True(t, bytes.HasPrefix(b[xref:], []byte("xref\n0 1\n0000000000 65535 f \n")), "a table where startxref says")
	prev := number(b, "/Prev ")
	require.True(t, bytes.HasPrefix(b[prev:], []byte("xref\n0 ")), "the first table where /Prev says")
	root := number(b[xref:], "/Root ")
	row := bytes.Split(b[xref:], []byte("\n"))
	require.Equal(t, strconv.Itoa(root)+" 1", string(row[3]))
	require.Len(t, row[4], 19, "a row of the table is 20 bytes with its line end")
	object, err := strconv.Atoi(string(row[4][:10]))
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(b[object:], []byte(strconv.Itoa(root)+" 0 obj\n")), "the catalog where the table says")
	catalog := string(b[object:xref])
	assert.Contains(t, catalog, "/ViewerPreferences <</PrintScaling /None")
	assert.Contains(t, catalog, "/Pages 1 0 R")
	assert.Contains(t, catalog, "/OCProperties")
}

func TestUpdateRefusesWhatIsNoPDF(t *testing.T) {
	for _, s := range []string{"", "%PDF", "x\nstartxref\n99\n%%EOF\n", "xref\ntrailer\nstartxref\n0\n%%EOF\n"} {
		_, err := withPreferences([]byte(s))
		assert.Error(t, err, "%q", s)
	}
}

func TestPDFWithoutPages(t *testing.T) {
	assert.True(t, bytes.HasPrefix(pdfOf(t, NewDocument("")), []byte("%PDF-")))
}

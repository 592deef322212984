package plate

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"io"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"

	"github.com/stretchr/testify/require"
)

// examples are the plans that come with the program, arranged.
var examples = []string{"ceilidh", "pocket", "toomuch"}

func example(t testing.TB, name string) *layout.Plan {
	t.Helper()
	src, err := os.ReadFile("testdata/" + name + ".toml")
	require.NoError(t, err)
	d, err := plan.Parse(name+".toml", src, catalog.Builtin())
	require.NoError(t, err)
	return d.Plan
}

// mmBox is a rectangle in millimetres, y down from the page's top.
type mmBox struct{ x0, y0, x1, y1 float64 }

// pdfPage is what the tests read of a page: by the numbers of its content
// stream, without any other program.
type pdfPage struct {
	w, h  float64 // mm
	rects []mmBox
	lines []mmBox // straight ones alone in their path: from, to
	words []string
}

var (
	pageObject = regexp.MustCompile(`(?s)<</Type /Page\n.*?/Contents (\d+) 0 R>>`)
	mediaBox   = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	aRect      = regexp.MustCompile(`^(-?[\d.]+) (-?[\d.]+) (-?[\d.]+) (-?[\d.]+) re (S|f|B)$`)
	aLine      = regexp.MustCompile(`(?m)^(-?[\d.]+) (-?[\d.]+) m\n(-?[\d.]+) (-?[\d.]+) l\nS$`)
	aText      = regexp.MustCompile(`(?s)BT -?[\d.]+ -?[\d.]+ Td \((.*?)\) Tj ET`)
)

const pt = 25.4 / 72

// readPDF reads the pages of a PDF as this program writes it.
func readPDF(t testing.TB, file []byte) []pdfPage {
	t.Helper()
	all := mediaBox.FindAllSubmatch(file, -1)
	require.NotEmpty(t, all)
	usual := all[len(all)-1] // of the tree of pages
	var pages []pdfPage
	for _, m := range pageObject.FindAllSubmatch(file, -1) {
		own := mediaBox.FindSubmatch(m[0])
		if own == nil {
			own = usual
		}
		p := pdfPage{w: float(t, own[1]) * pt, h: float(t, own[2]) * pt}
		p.read(t, stream(t, file, string(m[1])))
		pages = append(pages, p)
	}
	return pages
}

func float(t testing.TB, b []byte) float64 {
	f, err := strconv.ParseFloat(string(b), 64)
	require.NoError(t, err)
	return f
}

// stream returns the content of an object.
func stream(t testing.TB, file []byte, object string) []byte {
	head := regexp.MustCompile(`\n` + object + ` 0 obj\n<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	at := head.FindSubmatchIndex(file)
	require.NotNil(t, at, "object %s", object)
	n, err := strconv.Atoi(string(file[at[2]:at[3]]))
	require.NoError(t, err)
	z, err := zlib.NewReader(bytes.NewReader(file[at[1] : at[1]+n]))
	require.NoError(t, err)
	out, err := io.ReadAll(z)
	require.NoError(t, err)
	return out
}

func (p *pdfPage) read(t testing.TB, content []byte) {
	for _, m := range aText.FindAllSubmatch(content, -1) {
		p.words = append(p.words, textOf(m[1]))
	}
	for raw := range bytes.SplitSeq(content, []byte("\n")) {
		l := bytes.TrimPrefix(bytes.TrimSpace(raw), []byte("q "))
		if m := aRect.FindSubmatch(l); m != nil {
			x, y, w, h := float(t, m[1])*pt, p.h-float(t, m[2])*pt, float(t, m[3])*pt, -float(t, m[4])*pt
			r := mmBox{x, y, x + w, y + h}
			p.rects = append(p.rects, r)
		}
	}
	for _, m := range aLine.FindAllSubmatch(content, -1) {
		p.lines = append(p.lines, mmBox{float(t, m[1]) * pt, p.h - float(t, m[2])*pt, float(t, m[3]) * pt, p.h - float(t, m[4])*pt})
	}
}

// textOf undoes the escapes of a string and reads its UTF-16.
func textOf(b []byte) string {
	var plain []byte
	for i := 0; i < len(b); i++ {
		if b[i] == '\\' && i+1 < len(b) {
			i++
			if b[i] == 'r' {
				plain = append(plain, '\r')
				continue
			}
		}
		plain = append(plain, b[i])
	}
	var u []uint16
	for i := 0; i+1 < len(plain); i += 2 {
		u = append(u, uint16(plain[i])<<8|uint16(plain[i+1]))
	}
	return string(utf16.Decode(u))
}

// svgRect is a rectangle of an SVG with the IDs of the groups around it.
type svgRect struct {
	groups []string
	class  string
	at     mmBox
}

func (r *svgRect) in(group string) bool {
	for _, g := range r.groups {
		if g == group {
			return true
		}
	}
	return false
}

// readSVG returns the rectangles of an SVG, and its texts.
func readSVG(t testing.TB, file []byte) (rects []svgRect, texts []string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(file))
	var groups []string
	inText := false
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return rects, texts
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, x := range e.Attr {
				a[x.Name.Local] = x.Value
			}
			switch e.Name.Local {
			case "g":
				groups = append(groups, a["id"])
			case "rect":
				f := func(k string) float64 { v, _ := strconv.ParseFloat(a[k], 64); return v }
				rects = append(rects, svgRect{append([]string(nil), groups...), a["class"],
					mmBox{f("x"), f("y"), f("x") + f("width"), f("y") + f("height")}})
			case "text":
				inText = true
			}
		case xml.EndElement:
			if e.Name.Local == "g" {
				groups = groups[:len(groups)-1]
			}
			inText = false
		case xml.CharData:
			if inText {
				texts = append(texts, string(e))
			}
		}
	}
}

// spoken is all words of the pages, each text on a line.
func spoken(pages []pdfPage) string {
	var b strings.Builder
	for _, p := range pages {
		b.WriteString(strings.Join(p.words, "\n") + "\n")
	}
	return b.String()
}

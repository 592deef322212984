package paper

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"footplank/layout"
)

// Substitute stands for a rune that the embedded fonts have no glyph for.
const Substitute = '□'

// fontFiles are the fonts, and fontNames what an SVG asks for, by Face.
var (
	fontFiles = [faces][]byte{goregular.TTF, gobold.TTF, goitalic.TTF, gomono.TTF}
	fontNames = [faces]string{"goregular", "gobold", "goitalic", "gomono"}
)

// metrics are the widths of a face's glyphs in parts of its em.
type metrics struct {
	em    int64
	width map[rune]int64
}

// load reads the runes that a face has and their widths, once.
var load = sync.OnceValue(func() (all [faces]metrics) {
	for i, file := range fontFiles {
		f, err := sfnt.Parse(file)
		if err != nil {
			panic("paper: an embedded font is broken: " + err.Error())
		}
		em := int64(f.UnitsPerEm())
		m := metrics{em, map[rune]int64{}}
		var buf sfnt.Buffer
		for r := rune(' '); r <= 0xffff; r++ {
			g, err := f.GlyphIndex(&buf, r)
			if err != nil || g == 0 {
				continue
			}
			// At as many pixels as an em has parts the advance is in those.
			w, err := f.GlyphAdvance(&buf, g, fixed.I(int(em)), font.HintingNone)
			if err != nil {
				continue
			}
			m.width[r] = int64(w.Round())
		}
		all[i] = m
	}
	return all
})

// Replaced is a text that could not be written as it is.
type Replaced struct{ Text, Written string }

func (r Replaced) String() string {
	return fmt.Sprintf("%q has characters that the fonts in the PDF do not: it is written as %q", r.Text, r.Written)
}

// Drawable returns the text as a PDF writes it in that face, and whether
// nothing visible was replaced.
func Drawable(text string, f Face) (written string, whole bool) {
	has := load()[f].width
	whole = true
	var b strings.Builder
	for _, r := range norm.NFC.String(strings.ToValidUTF8(text, "\ufffd")) {
		_, ok := has[r]
		switch {
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case shapeless(r):
		case ok:
			b.WriteRune(r)
		default:
			whole = false
			b.WriteString(standIn(r, has))
		}
	}
	return b.String(), whole
}

// standIn returns what is written for a rune without a glyph.
func standIn(r rune, has map[rune]int64) string {
	plain := norm.NFKC.String(string(r))
	for _, c := range plain {
		if _, ok := has[c]; !ok {
			return string(Substitute)
		}
	}
	if plain == "" {
		return string(Substitute)
	}
	return plain
}

// shapeless reports whether a rune is one of those that text is steered by and
// that have no shape of their own: controls, joiners, marks of direction,
// variation selectors, tags.
func shapeless(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector)
}

// Width returns how wide a text is set.
func (t Type) Width(text string) layout.Length {
	m := load()[t.Face]
	written, _ := Drawable(text, t.Face)
	var parts int64
	for _, r := range written {
		parts += m.width[r]
	}
	return layout.Length((parts*int64(t.Size) + m.em - 1) / m.em)
}

// Bounds returns the room of a text whose baseline begins, has its middle or
// ends at that point.
func (t Type) Bounds(at layout.Point, text string) layout.Rect {
	w := t.Width(text)
	left := layout.Length(0)
	switch t.Anchor {
	case Middle:
		left = -w / 2
	case End:
		left = -w
	}
	pad := t.Size / 6
	r := layout.Rect{X0: left - pad, Y0: -t.Size * 82 / 100, X1: left + w + pad, Y1: t.Size * 26 / 100}
	for range t.Turn & 3 { // with y down a clockwise quarter maps (x, y) to (-y, x)
		r = layout.Rect{X0: -r.Y1, Y0: r.X0, X1: -r.Y0, Y1: r.X1}
	}
	return r.Move(at)
}

// Wrap breaks a text into lines no wider than that, between words and, where a
// word alone is wider, within it. It keeps what a line break parts in the text.
func (t Type) Wrap(text string, width layout.Length) []string {
	width = max(width, 0)
	var lines []string
	for part := range strings.SplitSeq(text, "\n") {
		lines = append(lines, t.wrapLine(part, width)...)
	}
	return lines
}

func (t Type) wrapLine(text string, width layout.Length) []string {
	var lines []string
	now := ""
	for _, word := range strings.Fields(text) {
		try := word
		if now != "" {
			try = now + " " + word
		}
		if t.Width(try) <= width {
			now = try
			continue
		}
		if now != "" {
			lines = append(lines, now)
		}
		for t.Width(word) > width {
			head := t.head(word, width)
			lines = append(lines, head)
			word = word[len(head):]
		}
		now = word
	}
	return append(lines, now)
}

// head returns the longest beginning of a word that fits, at least a rune with
// the marks behind it.
func (t Type) head(word string, width layout.Length) string {
	end := 0
	for i := range word {
		if i > 0 && !norm.NFC.PropertiesString(word[i:]).BoundaryBefore() {
			continue
		}
		if end > 0 && t.Width(word[:i]) > width {
			break
		}
		if i > 0 {
			end = i
		}
	}
	if end == 0 || t.Width(word) <= width {
		return word
	}
	return word[:end]
}

// Shorten returns the text if it is no wider than that, else its beginning
// with an ellipsis.
func (t Type) Shorten(text string, width layout.Length) string {
	if t.Width(text) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && t.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

func TestDrawable(t *testing.T) {
	for _, c := range []struct {
		text, want string
		whole      bool
	}{
		{"", "", true},
		{"Überdrive – 10 kΩ, ½ × €3", "Überdrive – 10 kΩ, ½ × €3", true},
		{"Жар-птица Ωμέγα", "Жар-птица Ωμέγα", true},
		{"e\u0301cho", "écho", true},                    // composed
		{"a\u0330", "a□", false},                        // no composed form
		{"日本", "□□", false},                             // no glyphs
		{"שלום", "□□□□", false},                         // right to left
		{"\u200fab\u200e", "ab", true},                  // marks of direction have no shape
		{"a\tb\nc", "a b c", true},                      // space of any kind
		{"😀!", "□!", false},                             // above U+FFFF
		{"👩\u200d🎤", "□□", false},                       // joined by what has no shape
		{"ﬁsh ①", "fish 1", false},                      // compatibility forms, and said so
		{"\xffx", "\ufffdx", true},                      // not UTF-8: the font has a glyph for that
		{"\U000e0041x", "x", true},                      // a tag
		{strings.Repeat("好", 3) + " a", "□□□ a", false}, // one for each
	} {
		for face := range Face(faces) {
			got, whole := Drawable(c.text, face)
			if c.want == "fish 1" && got == "ﬁsh 1" {
				continue // a face may have the ligature
			}
			assert.Equal(t, c.want, got, "%q in face %d", c.text, face)
			assert.Equal(t, c.whole, whole, "%q in face %d", c.text, face)
		}
	}
}

// Whatever the text, what is written has a glyph for each rune, and nothing
// that has a shape vanishes.
func TestDrawableIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		face := Face(rapid.IntRange(0, faces-1).Draw(t, "face"))
		written, whole := Drawable(text, face)
		for _, r := range written {
			if _, ok := load()[face].width[r]; !ok {
				t.Fatalf("%q: %q of %q has no glyph", text, r, written)
			}
		}
		again, _ := Drawable(written, face)
		if again != written {
			t.Fatalf("%q became %q, and that %q", text, written, again)
		}
		if whole && strings.Count(written, string(Substitute)) > strings.Count(text, string(Substitute)) {
			t.Fatalf("%q became %q without a word", text, written)
		}
	})
}

// The widths of the fonts' own tables: the Go fonts have 2048 parts to an em;
// those of the monospaced one are all 1229 (read from its hmtx table).
func TestWidth(t *testing.T) {
	assert.Equal(t, layout.Length(0), Type{Size: 10 * mm}.Width(""))
	assert.Equal(t, (4*1229*10*mm+2047)/2048, Type{Size: 10 * mm, Face: Mono}.Width("i—Wé"))
	narrow, wide := Type{Size: 10 * mm}.Width("iii"), Type{Size: 10 * mm}.Width("WWW")
	assert.Less(t, narrow*2, wide)
}

func TestWrap(t *testing.T) {
	ty := Type{Size: 4 * mm}
	text := "Lay one on the other so that the crosses meet, then tape them"
	lines := ty.Wrap(text, 50*mm)
	assert.Greater(t, len(lines), 1)
	assert.Equal(t, text, strings.Join(lines, " "))
	for _, l := range lines {
		assert.LessOrEqual(t, ty.Width(l), 50*mm)
	}
	assert.Equal(t, []string{"a", "", "b"}, ty.Wrap("a\n\nb", 50*mm))
	assert.Equal(t, []string{""}, ty.Wrap("", 50*mm))
	assert.Equal(t, "Lay one…", ty.Shorten(text, ty.Width("Lay one…")))
}

// Wrapping loses no letter and ends, however narrow the column.
func TestWrapKeepsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zé日 ]{0,40}`).Draw(t, "text")
		width := layout.Length(rapid.IntRange(-1, 40_000).Draw(t, "width"))
		lines := Type{Size: 4 * mm}.Wrap(text, width)
		plain := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got := plain(strings.Join(lines, "")); got != plain(text) {
			t.Fatalf("%q became %q", text, lines)
		}
	})
}

func TestReplacedAreReturnedOnce(t *testing.T) {
	d := NewDocument("x")
	for range 2 {
		d.Page(A4).Text(at(10, 10), "日本", Type{Size: 4 * mm})
	}
	d.Page(A4).Text(at(10, 10), "plain", Type{Size: 4 * mm})
	var b strings.Builder
	got, err := d.PDF(&b)
	require.NoError(t, err)
	assert.Equal(t, []Replaced{{"日本", "□□"}}, got)
	assert.Equal(t, `"日本" has characters that the fonts in the PDF do not: it is written as "□□"`, got[0].String())
}

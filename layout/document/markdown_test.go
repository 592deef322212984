package document

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// read is an independent, strict reader of the part of GitHub's Markdown that a
// line of plain text may have: it returns the text as a reader shows it, and
// what in it would be a sign. Rules from memory of the GFM specification 0.29:
// backslash escapes 6.1, entities 6.2, code spans 6.3, emphasis 6.4,
// strikethrough 6.5, links 6.6, autolinks 6.8 and 6.9, raw HTML 6.10, block
// starts 4 and 5. "$" is a sign of mathematics at some hosts.
func read(line string) (text string, signs []string) {
	const punctuation = "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"
	var b strings.Builder
	var live []bool // per byte of text: not escaped
	for i := 0; i < len(line); i++ {
		if line[i] == '\\' && i+1 < len(line) && strings.IndexByte(punctuation, line[i+1]) >= 0 {
			i++
			b.WriteByte(line[i])
			live = append(live, false)
			continue
		}
		b.WriteByte(line[i])
		live = append(live, true)
	}
	text = b.String()
	sign := func(i int) { signs = append(signs, text[i:min(i+3, len(text))]) }
	for i := range live {
		if !live[i] {
			continue
		}
		switch c := text[i]; {
		case strings.IndexByte("\\`*[]<&~|$@", c) >= 0:
			sign(i)
		case c == '_' && (i == 0 || i+1 == len(text) || !letter(text[i-1]) || !letter(text[i+1])):
			sign(i)
		case c == ':' && strings.HasPrefix(text[i:], "://"):
			sign(i)
		case c == '.' && i >= 3 && strings.EqualFold(text[i-3:i], "www"):
			sign(i)
		}
	}
	if start := regexp.MustCompile(`^(#|>|[-+=]|[0-9]+[.)])`).FindString(text); start != "" && live[len(start)-1] {
		signs = append(signs, start)
	}
	return text, signs
}

func letter(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// The reader itself, by examples of the specification (0.29, from memory).
func TestReaderOfMarkdown(t *testing.T) {
	text, signs := read(`\*not emphasized*`)
	assert.Equal(t, "*not emphasized*", text)
	assert.NotEmpty(t, signs)
	text, signs = read(`1\. not a list`)
	assert.Equal(t, "1. not a list", text)
	assert.Empty(t, signs)
	for _, s := range []string{"1) list", "# heading", "- item", "> quote", "www.commonmark.org", "http://a", "&copy;", "<a>", "a|b", "foo@bar.baz", "_a_", "~~a~~"} {
		_, signs := read(s)
		assert.NotEmpty(t, signs, s)
	}
}

func TestEscapedTextReadsAsItStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOfN(rapid.SampledFrom(strings.Split(
			`a B 7 é 日 _ * ~ # + - = . ) ( [ ] ! < > & | \ $ @ : / ' " www. http:// 1. 12) space tab ![ copy;`, " ")), 0, 12).Draw(t, "parts"), "")
		s = strings.NewReplacer("space", " ", "tab", "\t").Replace(s)
		text, signs := read(escape(s))
		assert.Equal(t, Clean(s), text)
		assert.Empty(t, signs, "%q", escape(s))
	})
}

// A table's row has as many cells as the head, whatever is in them (4.10).
func TestCellsStayInTheirTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringMatching("[a|\\\\` *é\n-]{0,6}")
		tab := &Table{Head: []string{"A", "B", "C"}, Align: []Align{Left, Right, Centre}}
		tab.Add(cell.Draw(t, "a"), cell.Draw(t, "b"), cell.Draw(t, "c"))
		var b bytes.Buffer
		require.NoError(t, (&Document{Blocks: []Block{tab}}).Markdown(&b))
		lines := strings.Split(b.String(), "\n")
		require.Len(t, lines, 4)
		assert.Equal(t, "| --- | ---: | :---: |", lines[1])
		row := strings.ReplaceAll(lines[2], `\\`, "")
		assert.Len(t, regexp.MustCompile(`(^|[^\\])\|`).FindAllString(row, -1), 4, lines[2])
	})
}

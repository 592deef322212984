package document

import (
	"fmt"
	"io"
	"strings"
)

// Markdown writes the document in GitHub's flavour of Markdown. A paragraph, an
// item and a row of a table are one line each.
func (d *Document) Markdown(w io.Writer) error {
	m := &marked{}
	if d.Title != "" {
		m.part("# " + escape(d.Title))
	}
	m.blocks(d.Blocks)
	_, err := io.WriteString(w, m.b.String())
	return err
}

type marked struct {
	b     strings.Builder
	lists bool // the last part was a list
}

// part writes lines with an empty line between them and what is before.
func (m *marked) part(lines ...string) {
	if m.b.Len() > 0 {
		m.b.WriteByte('\n')
	}
	for _, s := range lines {
		m.b.WriteString(s + "\n")
	}
	m.lists = false
}

func (m *marked) blocks(bs []Block) {
	for _, b := range bs {
		m.block(b)
	}
}

func (m *marked) block(b Block) {
	switch b := b.(type) {
	case Heading:
		m.part(strings.Repeat("#", min(max(b.Level, 1), 6)) + " " + escape(b.Text))
	case Para:
		m.part(escape(b.Text))
	case List:
		m.list(b)
	case *Table:
		m.table(b)
	case Drawing:
		m.fenced(b.Lines)
	case Figure:
		if len(b.Instead) > 0 {
			m.fenced(b.Instead)
		}
		if b.Caption != "" {
			m.part(escape(b.Caption))
		}
	case Caution:
		m.caution(b)
	case PageBreak:
		m.part("---")
	case Keep:
		m.blocks(b.Blocks)
	case Pair:
		m.blocks(b.Left)
		m.blocks(b.Right)
	case Card:
		if m.b.Len() > 0 {
			m.part("---")
		}
		m.part("# " + escape(b.Title))
		m.blocks(b.Blocks)
	}
}

func (m *marked) list(l List) {
	if m.lists {
		// Two lists with nothing between them would be one; a comment parts
		// them (GFM specification, section 5.3).
		m.part("<!-- -->")
	}
	var lines []string
	for i, s := range l.Items {
		mark := "- "
		switch l.Mark {
		case Number:
			mark = fmt.Sprintf("%d. ", i+1)
		case Check:
			mark = "- [ ] "
		}
		lines = append(lines, mark+escape(s))
	}
	m.part(lines...)
	m.lists = true
}

func (m *marked) table(t *Table) {
	head, rows := t.grid()
	if len(head) == 0 {
		return
	}
	row := func(cells []string) string {
		var b strings.Builder
		for _, s := range cells {
			b.WriteString("| " + escapeInline(s) + " ")
		}
		return b.String() + "|"
	}
	rule := ""
	for i := range head {
		rule += "| " + map[Align]string{Left: "---", Right: "---:", Centre: ":---:"}[t.align(i)] + " "
	}
	lines := []string{row(head), rule + "|"}
	for _, r := range rows {
		lines = append(lines, row(r))
	}
	m.part(lines...)
}

// fenced writes lines as they are, in a fence longer than any within.
func (m *marked) fenced(lines []string) {
	fence := "```"
	for _, s := range lines {
		for strings.Contains(s, fence) {
			fence += "`"
		}
	}
	all := append([]string{fence + "text"}, lines...)
	m.part(append(all, fence)...)
}

func (m *marked) caution(c Caution) {
	lines := []string{"> **" + escape(c.Title) + "**", ">"}
	for _, s := range c.Items {
		lines = append(lines, "> - "+escape(s))
	}
	m.part(lines...)
}

// escape makes a text one line of Markdown that reads as it stands, wherever a
// paragraph may begin.
func escape(s string) string {
	s = Clean(s)
	out := escapeInline(s)
	if out == "" {
		return out
	}
	switch c := s[0]; {
	case strings.IndexByte("#+-=:", c) >= 0:
		return `\` + out
	case c >= '0' && c <= '9':
		// A number with a full stop or a bracket begins a list.
		n := 0
		for n < len(s) && s[n] >= '0' && s[n] <= '9' {
			n++
		}
		if n < len(s) && (s[n] == '.' || s[n] == ')') {
			return s[:n] + `\` + out[n:]
		}
	}
	return out
}

// escapeInline escapes what is a sign within a line: any ASCII punctuation may
// have a backslash before it (GFM specification, section 6.1). The colon
// before a double slash, the at sign and the point behind www would make links
// of their own (section 6.9).
func escapeInline(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case strings.IndexByte("\\`*[]<>&|~$@", c) >= 0,
			c == '_' && !within(s, i),
			c == ':' && strings.HasPrefix(s[i:], "://"),
			c == '.' && i >= 3 && strings.EqualFold(s[i-3:i], "www"),
			c == '!' && strings.HasPrefix(s[i:], "!["):
			b.WriteByte('\\')
		}
		b.WriteByte(c)
	}
	return b.String()
}

// within reports whether the byte stands between two letters or digits, where
// an underscore is no emphasis.
func within(s string, i int) bool {
	plain := func(c byte) bool {
		return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
	}
	return i > 0 && i+1 < len(s) && plain(s[i-1]) && plain(s[i+1])
}

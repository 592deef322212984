package plan

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// edit puts a text in the place of a range of bytes.
type edit struct {
	from, to int
	with     string
	late     bool // behind other edits of the same place
}

// editor gathers edits of a text whose tree it has. What is put in depends on
// what is there, so values are changed and taken out in one pass, and put in
// in a second one, over the text that the first left.
type editor struct {
	text    []byte
	root    *node
	putting bool // the second pass
	edits   []edit
	puts    map[*node]int      // entries put into an inline table
	gone    map[*node][][2]int // expressions taken out of an inline table
	inline  []*node            // the keys of gone, in order
}

func newEditor(text []byte, root *node, putting bool) *editor {
	return &editor{text: text, root: root, putting: putting, puts: map[*node]int{}, gone: map[*node][][2]int{}}
}

// result returns the text with the edits made.
func (e *editor) result() ([]byte, error) {
	for _, t := range e.inline {
		e.cut(t, e.gone[t])
	}
	slices.SortStableFunc(e.edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		switch {
		case a.late == b.late:
			return 0
		case a.late:
			return 1
		}
		return -1
	})
	var out bytes.Buffer
	at := 0
	for _, d := range e.edits {
		if d.from < at {
			return nil, errors.New("two changes meet in the text")
		}
		out.Write(e.text[at:d.from])
		out.WriteString(d.with)
		at = d.to
	}
	out.Write(e.text[at:])
	return out.Bytes(), nil
}

// replace gives a value another spelling.
func (e *editor) replace(n *node, with string) {
	if !e.putting && string(e.text[n.off:n.end]) != with {
		e.edits = append(e.edits, edit{from: n.off, to: n.end, with: with})
	}
}

// set gives a key of a table a value, putting the key in if it is not there.
func (e *editor) set(t *node, key, with string) {
	if old := t.get(key); old != nil {
		e.replace(old.value, with)
	} else {
		e.put(t, key, with)
	}
}

// put adds a key behind the last of a table, in the manner of the table.
func (e *editor) put(t *node, key, with string) {
	if !e.putting {
		return
	}
	key = spellKey(key)
	switch {
	case t.style == inlineStyle:
		e.putInline(t, key, with)
	case t.style == dottedStyle:
		// What stands before this table's part of the key, in the
		// expression that made its first entry: "place." of "place.at".
		all := expressions(t)
		start, stop := all[0].start, all[len(all)-1].stop
		line := string(e.text[start:t.keys[0].off]) + key + " = " + with
		if t.holder != nil {
			e.edits = append(e.edits, edit{from: stop, to: stop, with: ", " + line})
			return
		}
		e.putLine(stop, e.indent(start)+line)
	default:
		e.putLine(t.last, e.lead(t, key)+"= "+with)
	}
}

func (e *editor) putInline(t *node, key, with string) {
	all := expressions(t)
	if len(all) == 0 {
		with = " " + key + " = " + with
		if e.puts[t] > 0 {
			with = "," + with
		} else if e.text[t.off+1] == '}' {
			e.edits = append(e.edits, edit{from: t.off + 1, to: t.off + 1, with: " ", late: true})
		}
		e.puts[t]++
		e.edits = append(e.edits, edit{from: t.off + 1, to: t.off + 1, with: with})
		return
	}
	at := all[len(all)-1].stop
	e.edits = append(e.edits, edit{from: at, to: at, with: ", " + key + " = " + with})
}

// putLine adds a line behind the one that an offset is in, with the line
// ending that the text has there.
func (e *editor) putLine(off int, line string) {
	eol := e.eol(off)
	if n := bytes.IndexByte(e.text[off:], '\n'); n >= 0 {
		at := off + n + 1
		e.edits = append(e.edits, edit{from: at, to: at, with: line + eol})
		return
	}
	at := len(e.text)
	e.edits = append(e.edits, edit{from: at, to: at, with: eol + line})
}

// eol returns the line ending at an offset, or at the end of the text's first
// line.
func (e *editor) eol(off int) string {
	n := bytes.IndexByte(e.text[off:], '\n')
	if n < 0 {
		off, n = 0, bytes.IndexByte(e.text, '\n')
	}
	if n > 0 && e.text[off+n-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// indent returns the space before an offset, if there is only space before it
// in its line.
func (e *editor) indent(off int) string {
	start := bytes.LastIndexByte(e.text[:off], '\n') + 1
	if space := e.text[start:off]; len(bytes.TrimLeft(space, " \t")) == 0 {
		return string(space)
	}
	return ""
}

// lead returns what stands before the equals sign of a new line of a table:
// the key, indented and aligned as the table's other lines are.
func (e *editor) lead(t *node, key string) string {
	indent, column := "", -1
	for _, x := range expressions(t) {
		indent = e.indent(x.start)
		at := bytes.IndexByte(e.text[x.keyEnd:], '=') + x.keyEnd - x.start
		if column >= 0 && column != at {
			return indent + key + " "
		}
		column = at
	}
	if column < 0 {
		indent = e.indent(t.off)
	}
	return indent + fmt.Sprintf("%-*s", max(column, len(key)+1), key)
}

// expression is one "key = value" of a text.
type expression struct {
	start, stop int
	keyEnd      int
}

// expressions returns a table's own expressions in the text's order, those of
// dotted keys too, but not those under headers below it.
func expressions(t *node) []expression {
	var out []expression
	for _, x := range t.keys {
		switch {
		case x.stop > 0:
			out = append(out, expression{x.start, x.stop, x.end})
		case x.value.kind == tableKind && x.value.style == dottedStyle:
			out = append(out, expressions(x.value)...)
		}
	}
	slices.SortFunc(out, func(a, b expression) int { return a.start - b.start })
	return out
}

// remove takes a key out of a table, with all that is under it.
func (e *editor) remove(t *node, key string) {
	x := t.get(key)
	if x == nil || e.putting {
		return
	}
	holder := t.holder
	if t.style == inlineStyle {
		holder = t
	}
	switch {
	case x.stop > 0 && holder != nil:
		if e.gone[holder] == nil {
			e.inline = append(e.inline, holder)
		}
		e.gone[holder] = append(e.gone[holder], [2]int{x.start, x.stop})
	case x.stop > 0:
		e.cutLine(x.start, x.stop)
	default:
		if x.value.style == headerStyle {
			e.cutLine(x.value.off, x.value.end)
		}
		for _, sub := range x.value.keys {
			e.remove(x.value, sub.name)
		}
	}
}

// cutLine takes out the line or lines of an expression or a header; comments
// in it and behind it stay.
func (e *editor) cutLine(start, stop int) {
	from := bytes.LastIndexByte(e.text[:start], '\n') + 1
	to := len(e.text)
	if n := bytes.IndexByte(e.text[stop:], '\n'); n >= 0 {
		to = stop + n + 1
	}
	rest := bytes.TrimLeft(e.text[stop:to], " \t")
	if bytes.HasPrefix(rest, []byte("#")) {
		from, to = start, to-len(rest)
	}
	with := e.comments(start, stop)
	if from == start {
		with = strings.TrimPrefix(with, e.indent(start))
		if with != "" {
			with += e.indent(start)
		}
	}
	e.edits = append(e.edits, edit{from: from, to: to, with: with})
}

// comments returns the comments within an expression, each in a line of its
// own, indented as the expression is.
func (e *editor) comments(start, stop int) string {
	var out strings.Builder
	quote := byte(0)
	for i := start; i < stop; i++ {
		switch c := e.text[i]; {
		case quote == '"' && c == '\\':
			i++
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '#':
			line := e.text[i : i+bytes.IndexByte(e.text[i:], '\n')]
			out.WriteString(e.indent(start) + strings.TrimRight(string(line), "\r") + e.eol(i))
			i += len(line)
		}
	}
	return out.String()
}

// cut takes expressions out of an inline table, each with its comma; comments
// between them stay.
func (e *editor) cut(t *node, gone [][2]int) {
	all := expressions(t)
	isGone := func(i int) bool { return slices.Contains(gone, [2]int{all[i].start, all[i].stop}) }
	kept := -1
	for i := range all {
		if !isGone(i) {
			kept = i
		}
	}
	cut := 0 // where the last one that was taken out ended
	for i, x := range all {
		comma := e.comma(x.stop)
		switch {
		case i == kept && i < len(all)-1 && comma > 0 && e.comma(all[len(all)-1].stop) == 0:
			// It is last now; the last had no comma behind it.
			e.edits = append(e.edits, edit{from: comma - 1, to: comma})
		case i != kept && isGone(i):
			from, to := x.start, x.stop
			if comma > 0 && len(bytes.TrimLeft(e.text[to:comma-1], " \t")) == 0 {
				to = comma
			} else if comma > 0 {
				e.edits = append(e.edits, edit{from: comma - 1, to: comma})
			}
			if i < kept {
				for e.text[to] == ' ' || e.text[to] == '\t' {
					to++
				}
			} else {
				if space := bytes.TrimRight(e.text[:from], " \t"); space[len(space)-1] != '\n' {
					from = len(space)
				} else { // an indent stays
					to += len(e.text[to:]) - len(bytes.TrimLeft(e.text[to:], " \t"))
				}
			}
			from = max(from, cut)
			cut = to
			e.edits = append(e.edits, edit{from: from, to: to, with: strings.TrimPrefix(e.comments(x.start, x.stop), e.indent(x.start))})
		}
	}
}

// comma returns where the comma behind an expression of an inline table ends,
// or 0 if there is none.
func (e *editor) comma(stop int) int {
	if i := skipFiller(e.text, stop, false); i < len(e.text) && e.text[i] == ',' {
		return i + 1
	}
	return 0
}

// spellKey writes a key, in quotes if it must be.
func spellKey(key string) string {
	bare := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_'
	}
	if key != "" && strings.IndexFunc(key, func(r rune) bool { return !bare(r) }) < 0 {
		return key
	}
	return quoted(key)
}

// quoted writes a string as TOML does.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

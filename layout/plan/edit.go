package plan

import (
	"bytes"
	"cmp"
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
	gone     bool // blocks that are taken out: others may reach into the blank lines
}

// editor gathers edits of a text whose tree it has. What is put in depends on
// what is there, so edits are made in phases: first values are changed and
// taken out, until there is nothing left to change, and then others put in.
type editor struct {
	text     []byte
	root     *node
	spell    speller
	putting  bool // the second phase
	edits    []edit
	puts     map[*node]int      // entries put into an inline table
	gone     map[*node][][2]int // expressions taken out of an inline table
	inline   []*node            // the keys of gone, in order
	heads    []head             // the text's headers, in order
	paths    map[*node]string   // of tables and lists, as headers write them
	blocksIn []insertion
}

func newEditor(text []byte, root *node, spell speller, putting bool) *editor {
	e := &editor{text: text, root: root, spell: spell, putting: putting, puts: map[*node]int{}, gone: map[*node][][2]int{}}
	e.survey()
	return e
}

// result returns the text with the edits made.
func (e *editor) result() ([]byte, error) {
	for _, t := range e.inline {
		e.cut(t, e.gone[t])
	}
	e.insertBlocks()
	slices.SortStableFunc(e.edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return cmp.Or(later(a.to > a.from, b.to > b.from), later(a.late, b.late))
	})
	var out bytes.Buffer
	at := 0
	for _, d := range e.edits {
		if d.from < at && d.gone {
			d.from = min(at, d.to)
		}
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

func later(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// replace gives a value another spelling.
func (e *editor) replace(n *node, with string) {
	if !e.putting && string(e.text[n.off:n.end]) != with {
		e.edits = append(e.edits, edit{from: n.off, to: n.end, with: with})
	}
}

// add puts a wanted key into a table, under a header of its own or in the manner
// of the table.
func (e *editor) add(t *node, k wantKey, all *want) {
	path := e.paths[t]
	switch {
	case t.style == inlineStyle, t.style == dottedStyle, !k.block():
		if t.style == impliedStyle {
			e.addImplied(t, k)
			return
		}
		e.put(t, k.name, e.spell.inline(k.v))
		return
	case path != "":
		path += "."
	}
	path += spellKey(k.name)
	indent := e.indent(t.off)
	var blocks []string
	switch v := k.v.(type) {
	case *want:
		blocks = []string{e.block(path, v, false, indent)}
	case *wantList:
		blocks = e.list(path, v, indent)
	}
	at := e.placeFor(t, k.name, all)
	for i, b := range blocks {
		e.insert(at, b, t == e.root || e.paths[t] == "board" && i == 0)
	}
}

// placeFor returns where a new table under a header goes: at the end of the one
// that it is part of; at the top, behind what usually stands before it.
func (e *editor) placeFor(t *node, name string, all *want) int {
	if t != e.root {
		return e.endOf(t)
	}
	at := 0
	if own := expressions(t); len(own) > 0 {
		at = e.lineEnd(own[len(own)-1].stop)
	} else if len(e.heads) > 0 {
		at = e.heads[0].start
	}
	for _, k := range all.keys {
		if k.name == name {
			break
		}
		if x := t.get(k.name); x != nil && (x.value.kind == tableKind || x.value.kind == listKind) {
			if b := e.blocks(x.value); len(b) > 0 {
				at = b[len(b)-1].behind
			}
		}
	}
	return at
}

// addImplied puts keys into a table that has no header yet, by way of one.
func (e *editor) addImplied(t *node, k wantKey) {
	at := e.blocks(t)[0].from
	line := spellKey(k.name) + " = " + e.spell.inline(k.v)
	indent := e.indent(t.off)
	if i := slices.IndexFunc(e.blocksIn, func(in insertion) bool { return in.header == t }); i >= 0 {
		e.blocksIn[i].block += e.eol(at) + indent + line
		return
	}
	e.blocksIn = append(e.blocksIn, insertion{at: at, block: indent + "[" + e.paths[t] + "]" + e.eol(at) + indent + line, header: t})
}

// put adds a key behind the last of a table, in the manner of the table.
func (e *editor) put(t *node, key, with string) {
	if !e.putting {
		return
	}
	key = spellKey(key)
	switch {
	case t == e.root && len(expressions(t)) == 0:
		at := 0
		if len(e.heads) > 0 {
			at = e.heads[0].start
		}
		e.insert(at, key+" = "+with, true)
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

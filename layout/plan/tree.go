package plan

import (
	"bytes"
	"strconv"

	"github.com/pelletier/go-toml/v2/unstable"

	"footplank/layout"
)

// kind is what a value of the text is.
type kind uint8

const (
	tableKind kind = iota
	listKind
	stringKind
	integerKind
	floatKind
	boolKind
	dateKind
)

// style is how a table or a list of tables is written.
type style uint8

const (
	inlineStyle  style = iota // { a = 1 } or [ ... ]
	headerStyle               // [a] or [[a]]
	dottedStyle               // a.b = 1 makes a
	impliedStyle              // [a.b] makes a
)

// node is a value of the text with the range of bytes that it takes.
type node struct {
	kind     kind
	style    style
	off, end int    // of the value; of the header, for a table that has one
	text     string // strings decoded; other scalars as written
	items    []*node
	keys     []*entry // in the text's order
	index    map[string]*entry
	// last is, for a table with a header and for the whole text, where the
	// last of its own lines of key and value ends, else its header: new
	// lines go behind it.
	last int
	// holder is, for a table that dotted keys make inside an inline table,
	// that inline table.
	holder *node
}

// entry is a key of a table with its value.
type entry struct {
	name     string
	off, end int // of the key, of its last part when dotted
	// start and stop enclose the whole expression, from the first part of
	// the key to the end of the value. They are 0 for what a header makes.
	start, stop int
	value       *node
}

func (n *node) get(key string) *entry { return n.index[key] }

func (n *node) add(e *entry) {
	if n.index == nil {
		n.index = map[string]*entry{}
	}
	n.keys = append(n.keys, e)
	n.index[e.name] = e
}

// found says what a value is, for a message.
func (n *node) found() string {
	switch n.kind {
	case tableKind:
		return "a table"
	case listKind:
		return "a list"
	case stringKind:
		return strconv.Quote(layout.Shortened(n.text))
	}
	return layout.Shortened(n.text)
}

// Limits on nesting, far beyond what a plan needs.
const (
	maxNesting  = 16
	maxKeyParts = 8
)

// builder makes the tree of a text from the expressions in it.
type builder struct {
	src  []byte
	base int // offset in src of the parser's text
	root *node
	here *node // the table that lines of key and value go to
	*problems
}

// offset returns where a range that the parser gave starts in the text.
func (b *builder) offset(r unstable.Range) int { return b.base + int(r.Offset) }

func (b *builder) expression(e *unstable.Node) {
	switch e.Kind {
	case unstable.Table, unstable.ArrayTable:
		b.header(e)
	case unstable.KeyValue:
		if stop := b.keyValue(b.here, e, 0); stop > 0 && b.here.style != inlineStyle {
			b.here.last = stop
		}
	}
}

type keyPart struct {
	name     string
	off, end int
}

func (b *builder) key(e *unstable.Node) []keyPart {
	var parts []keyPart
	for it := e.Key(); it.Next(); {
		k := it.Node()
		off := b.offset(k.Raw)
		parts = append(parts, keyPart{string(k.Data), off, off + int(k.Raw.Length)})
	}
	if len(parts) > maxKeyParts {
		b.add(parts[0].off, "a key of %d parts: want at most %d", len(parts), maxKeyParts)
		return nil
	}
	return parts
}

// header enters the table that a [header] or a [[header]] names.
func (b *builder) header(e *unstable.Node) {
	// What follows a bad header goes to a table of its own that is dropped.
	b.here = &node{style: headerStyle}
	parts := b.key(e)
	if parts == nil {
		return
	}
	leaf := parts[len(parts)-1]
	off := bytes.LastIndexByte(b.src[:parts[0].off], '[')
	end := leaf.end + bytes.IndexByte(b.src[leaf.end:], ']') + 1
	if e.Kind == unstable.ArrayTable {
		off, end = off-1, end+1
	}
	t := b.root
	for _, p := range parts[:len(parts)-1] {
		if t = b.step(t, p, impliedStyle, off); t == nil {
			return
		}
	}
	fresh := &node{style: headerStyle, off: off, end: end, last: end}
	old := t.get(leaf.name)
	if e.Kind == unstable.ArrayTable {
		if old == nil {
			old = &entry{name: leaf.name, off: leaf.off, end: leaf.end, value: &node{kind: listKind, style: headerStyle, off: off, end: end}}
			t.add(old)
		}
		if old.value.kind != listKind || old.value.style != headerStyle {
			b.add(leaf.off, "[[%s]]: %q is already given as something else", leaf.name, leaf.name)
			return
		}
		old.value.items = append(old.value.items, fresh)
		b.here = fresh
		return
	}
	switch {
	case old == nil:
		t.add(&entry{name: leaf.name, off: leaf.off, end: leaf.end, value: fresh})
	case old.value.kind == tableKind && old.value.style == impliedStyle:
		fresh.keys, fresh.index = old.value.keys, old.value.index
		*old.value = *fresh
		fresh = old.value
	default:
		b.add(leaf.off, "table [%s] is given twice", leaf.name)
		return
	}
	b.here = fresh
}

// step goes down to the table of that name, making it when there is none.
func (b *builder) step(t *node, p keyPart, s style, start int) *node {
	e := t.get(p.name)
	if e == nil {
		e = &entry{name: p.name, off: p.off, end: p.end, value: &node{style: s, off: start, end: p.end, holder: t.holder}}
		if t.style == inlineStyle {
			e.value.holder = t
		}
		t.add(e)
	}
	v := e.value
	if v.kind == listKind && v.style == headerStyle && s == impliedStyle {
		return v.items[len(v.items)-1]
	}
	if v.kind != tableKind || v.style == inlineStyle {
		b.add(p.off, "%q is already given as something else", p.name)
		return nil
	}
	return v
}

// keyValue adds an expression to a table and returns where it ends, or 0 if
// it is wrong.
func (b *builder) keyValue(t *node, e *unstable.Node, depth int) int {
	parts := b.key(e)
	if parts == nil {
		return 0
	}
	start := parts[0].off
	for _, p := range parts[:len(parts)-1] {
		if t = b.step(t, p, dottedStyle, start); t == nil {
			return 0
		}
	}
	leaf := parts[len(parts)-1]
	at := leaf.end + bytes.IndexByte(b.src[leaf.end:], '=') + 1
	v := b.value(e.Value(), b.skip(at, " \t"), depth)
	if v == nil {
		return 0
	}
	if t.get(leaf.name) != nil {
		b.add(leaf.off, "key %q is given twice", leaf.name)
		return 0
	}
	t.add(&entry{name: leaf.name, off: leaf.off, end: leaf.end, start: start, stop: v.end, value: v})
	return v.end
}

var scalars = map[unstable.Kind]kind{
	unstable.String: stringKind, unstable.Bool: boolKind, unstable.Float: floatKind, unstable.Integer: integerKind,
	unstable.LocalDate: dateKind, unstable.LocalTime: dateKind, unstable.LocalDateTime: dateKind, unstable.DateTime: dateKind,
}

// value makes the node of a value that starts at off. The parser tells the
// range of scalars only; those of lists and inline tables follow from what
// they hold.
func (b *builder) value(v *unstable.Node, off, depth int) *node {
	if depth > maxNesting {
		b.add(off, "nested more than %d deep", maxNesting)
		return nil
	}
	if k, ok := scalars[v.Kind]; ok {
		off = b.offset(v.Raw)
		return &node{kind: k, off: off, end: off + int(v.Raw.Length), text: string(v.Data)}
	}
	n := &node{off: off, end: off + 1}
	if v.Kind == unstable.Array {
		n.kind = listKind
	}
	for it := v.Children(); it.Next(); {
		c := it.Node()
		if c.Kind == unstable.KeyValue {
			end := b.keyValue(n, c, depth+1)
			if end == 0 {
				return nil
			}
			n.end = end
			continue
		}
		item := b.value(c, b.filler(n.end), depth+1)
		if item == nil {
			return nil
		}
		n.items = append(n.items, item)
		n.end = item.end
	}
	n.end = b.filler(n.end) + 1
	return n
}

// skip returns the first offset from i on whose byte is none of those.
func (b *builder) skip(i int, set string) int {
	for i < len(b.src) && bytes.IndexByte([]byte(set), b.src[i]) >= 0 {
		i++
	}
	return i
}

// filler skips what may stand between the values of a list or of an inline
// table: spaces, line ends, commas and comments.
func (b *builder) filler(i int) int { return skipFiller(b.src, i, true) }

func skipFiller(src []byte, i int, commas bool) int {
	for ; i < len(src); i++ {
		switch c := src[i]; {
		case c == '#':
			n := bytes.IndexByte(src[i:], '\n')
			if n < 0 {
				return len(src)
			}
			i += n
		case c == ',' && commas, c == ' ', c == '\t', c == '\r', c == '\n':
		default:
			return i
		}
	}
	return i
}

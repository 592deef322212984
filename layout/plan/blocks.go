package plan

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// head is a header of the text with its block: the comments directly above it
// and its own lines. What is put in behind it goes behind comments directly
// below it, too.
//
//	# The octave, on loan.        <- start
//	[[unit]]
//	id = "octave"
//	# it hums                     <- stop
//	                              <- behind
//	[unit.place]
type head struct {
	n                   *node
	start, stop, behind int
}

// survey finds all headers of the text, and the path of each table and list.
func (e *editor) survey() {
	e.paths = map[*node]string{}
	e.walk(e.root, "")
	slices.SortFunc(e.heads, func(a, b head) int { return a.n.off - b.n.off })
	for i := range e.heads {
		h := &e.heads[i]
		h.start = e.lineStart(h.n.off)
		floor := 0
		if i > 0 {
			floor = e.lineEnd(e.heads[i-1].n.last)
		} else if own := expressions(e.root); len(own) > 0 {
			floor = e.lineEnd(own[len(own)-1].stop)
		}
		for h.start > floor && e.isComment(e.lineStart(h.start-1)) {
			h.start = e.lineStart(h.start - 1)
		}
	}
	for i := range e.heads {
		h, limit := &e.heads[i], len(e.text)
		if i+1 < len(e.heads) {
			limit = e.heads[i+1].start
		}
		h.stop = e.lineEnd(h.n.last)
		h.behind = h.stop
		for h.behind < limit && e.isComment(h.behind) {
			h.behind = e.lineEnd(h.behind)
		}
	}
}

func (e *editor) walk(n *node, path string) {
	e.paths[n] = path
	if n.kind == tableKind && n.style == headerStyle && n != e.root {
		e.heads = append(e.heads, head{n: n})
	}
	for _, x := range n.keys {
		below := spellKey(x.name)
		if path != "" {
			below = path + "." + below
		}
		e.walk(x.value, below)
	}
	for _, item := range n.items {
		e.walk(item, path)
	}
}

// lineStart returns where the line that an offset is in starts, lineEnd where
// the next one does.
func (e *editor) lineStart(off int) int { return bytes.LastIndexByte(e.text[:off], '\n') + 1 }

func (e *editor) lineEnd(off int) int {
	if n := bytes.IndexByte(e.text[off:], '\n'); n >= 0 {
		return off + n + 1
	}
	return len(e.text)
}

func (e *editor) line(off int) []byte { return bytes.TrimSpace(e.text[off:e.lineEnd(off)]) }

func (e *editor) isComment(off int) bool { return bytes.HasPrefix(e.line(off), []byte("#")) }

func (e *editor) isBlank(off int) bool { return len(e.line(off)) == 0 }

// stretch is a range of the text's lines.
type stretch struct{ from, to, behind int }

// blocks returns the blocks of a table or a list and of all that is under it;
// those that follow each other are one stretch, with what is between them.
func (e *editor) blocks(n *node) []stretch {
	mine := map[*node]bool{}
	var mark func(n *node)
	mark = func(n *node) {
		mine[n] = true
		for _, x := range n.keys {
			mark(x.value)
		}
		for _, item := range n.items {
			mark(item)
		}
	}
	mark(n)
	var out []stretch
	joined := false
	for _, h := range e.heads {
		switch {
		case !mine[h.n]:
			joined = false
		case joined:
			out[len(out)-1].to, out[len(out)-1].behind = h.stop, h.behind
		default:
			out, joined = append(out, stretch{h.start, h.stop, h.behind}), true
		}
	}
	return out
}

// cutBlocks takes out the blocks of a table or a list, each with the blank lines
// behind it, or at the end of the text those before it.
func (e *editor) cutBlocks(n *node) {
	if e.putting {
		return
	}
	for _, s := range e.blocks(n) {
		after := s.to
		for after < len(e.text) && e.isBlank(after) {
			after = e.lineEnd(after)
		}
		switch {
		case after == len(e.text):
			for s.from > 0 && e.isBlank(e.lineStart(s.from-1)) {
				s.from = e.lineStart(s.from - 1)
			}
			s.to = after
		case s.from == 0 || e.isBlank(e.lineStart(s.from-1)):
			s.to = after
		}
		e.edits = append(e.edits, edit{from: s.from, to: s.to, gone: true})
	}
}

// moveBlocks moves the ith table of a list behind the one before the given
// index, or before the first that is kept.
func (e *editor) moveBlocks(n *node, i, at int, keep []bool) {
	if e.putting {
		return
	}
	var text strings.Builder
	for _, s := range e.blocks(n.items[i]) {
		text.Write(e.text[s.from:s.to])
	}
	e.cutBlocks(n.items[i])
	block := strings.TrimRight(text.String(), "\r\n")
	if at > 0 {
		e.insert(e.endOf(n.items[at-1]), block, e.apart(n))
		return
	}
	e.insert(e.blocks(n.items[slices.Index(keep, true)])[0].from, block, e.apart(n))
}

// endOf returns where the last block of a table or a list ends.
func (e *editor) endOf(n *node) int {
	b := e.blocks(n)
	if len(b) == 0 {
		return e.lineEnd(n.last)
	}
	return b[len(b)-1].behind
}

// putBlock puts a block into a list of tables with headers, behind the first so
// many of them.
func (e *editor) putBlock(n *node, behind int, block string) {
	if behind == 0 {
		e.insert(e.blocks(n.items[0])[0].from, block, e.apart(n))
		return
	}
	e.insert(e.endOf(n.items[behind-1]), block, e.apart(n))
}

// apart reports whether the tables of a list have blank lines between them, or
// would have.
func (e *editor) apart(n *node) bool {
	if len(n.items) < 2 && !strings.Contains(e.paths[n], ".") {
		return true
	}
	from := e.blocks(n.items[len(n.items)-1])[0].from
	return from > 0 && e.isBlank(e.lineStart(from-1))
}

// insertion is a block of lines, without the last line end, to be put in.
type insertion struct {
	at    int // the start of a line, or the end of the text
	block string
	apart bool // with blank lines around it
	// header is, for a header that a table gets now, that table.
	header *node
}

func (e *editor) insert(at int, block string, apart bool) {
	e.blocksIn = append(e.blocksIn, insertion{at: at, block: block, apart: apart})
}

// insertBlocks makes edits of the insertions, those of one place together.
func (e *editor) insertBlocks() {
	slices.SortStableFunc(e.blocksIn, func(a, b insertion) int { return a.at - b.at })
	for i, in := range e.blocksIn {
		eol := e.eol(in.at)
		first := i == 0 || e.blocksIn[i-1].at != in.at
		last := i+1 == len(e.blocksIn) || e.blocksIn[i+1].at != in.at
		with := in.block + eol
		if first && in.at == len(e.text) && in.at > 0 && e.text[in.at-1] != '\n' {
			with = eol + with
			if in.apart {
				with = eol + with
			}
		} else if in.apart && in.at > 0 && (!first || !e.isBlank(e.lineStart(in.at-1))) {
			with = eol + with
		}
		if last && in.apart && in.at < len(e.text) && !e.isBlank(in.at) {
			with += eol
		}
		e.edits = append(e.edits, edit{from: in.at, to: in.at, with: with})
	}
	e.blocksIn = nil
}

// block writes a new table with its header, and what is under it.
func (e *editor) block(path string, w *want, item bool, indent string) string {
	keys := w.whole()
	eol := e.eol(0)
	brackets := "[%s]"
	if item {
		brackets = "[[%s]]"
	}
	lines := []string{fmt.Sprintf(brackets, path)}
	width := 0
	for _, k := range keys {
		if !k.block() {
			width = max(width, utf8.RuneCountInString(spellKey(k.name)))
		}
	}
	for _, k := range keys {
		if !k.block() {
			lines = append(lines, fmt.Sprintf("%-*s = %s", width, spellKey(k.name), e.spell.inline(k.v)))
		}
	}
	for i := range lines {
		lines[i] = indent + lines[i]
	}
	for _, k := range keys {
		below := path + "." + spellKey(k.name)
		switch v := k.v.(type) {
		case *want:
			if k.block() {
				lines = append(lines, e.block(below, v, false, indent))
			}
		case *wantList:
			if k.block() {
				lines = append(lines, e.list(below, v, indent)...)
			}
		}
	}
	return strings.Join(lines, eol)
}

// list writes the tables of a new list.
func (e *editor) list(path string, l *wantList, indent string) []string {
	var out []string
	for _, w := range l.items {
		if l.puts(w) {
			out = append(out, e.block(path, w, true, indent))
		}
	}
	return out
}

// block reports whether a key is written under headers of its own; a list without
// tables cannot be.
func (k wantKey) block() bool {
	l, ok := k.v.(*wantList)
	return k.headed && (!ok || len(l.items) > 0)
}

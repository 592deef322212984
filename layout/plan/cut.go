package plan

import (
	"bytes"
	"slices"
	"strings"
)

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
	case x.value.style != dottedStyle:
		e.cutBlocks(x.value)
	default:
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

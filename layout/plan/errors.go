package plan

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"
)

// Error is one thing wrong in a text: a plan file or a table of units.
type Error struct {
	File string
	// Line and Col count from 1, Col in characters. Both are 0 when the
	// error is about the file as a whole.
	Line, Col int
	Msg       string
}

func (e Error) Error() string {
	if e.Line == 0 {
		return fmt.Sprintf("%s: %s", e.File, e.Msg)
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Col, e.Msg)
}

// Errors is everything wrong in a text, in the text's order.
type Errors []Error

const (
	// shownErrors is how many errors a message lists.
	shownErrors = 50
	// keptErrors is how many are worked out at all: a file that is not a
	// plan could hold as many as it has lines.
	keptErrors = 1000
)

// Error lists the errors one to a line: the first 50, and how many more.
func (es Errors) Error() string {
	var b strings.Builder
	for i, e := range es {
		if i == shownErrors {
			fmt.Fprintf(&b, "\nand %d more", len(es)-shownErrors)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.Error())
	}
	return b.String()
}

// Unwrap gives errors.As and errors.Is the single errors.
func (es Errors) Unwrap() []error {
	out := make([]error, len(es))
	for i, e := range es {
		out[i] = e
	}
	return out
}

// problems gathers errors by their offset in a text.
type problems struct {
	file  string
	text  []byte
	lines []int // offsets at which lines start
	list  []problem
}

type problem struct {
	off int
	msg string
}

func newProblems(file string, text []byte) *problems {
	p := &problems{file: file, text: text, lines: []int{0}}
	for i, c := range text {
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	return p
}

func (p *problems) add(off int, format string, args ...any) {
	if !p.full() {
		p.list = append(p.list, problem{off, fmt.Sprintf(format, args...)})
	}
}

// full reports that enough is known to be wrong.
func (p *problems) full() bool { return len(p.list) >= keptErrors }

// position returns the line and the column, in characters, of an offset.
func (p *problems) position(off int) (line, col int) {
	off = min(max(off, 0), len(p.text))
	line = sort.Search(len(p.lines), func(i int) bool { return p.lines[i] > off })
	return line, utf8.RuneCount(p.text[p.lines[line-1]:off]) + 1
}

// err returns the errors in the text's order, each once, or nil.
func (p *problems) err() error {
	if len(p.list) == 0 {
		return nil
	}
	slices.SortStableFunc(p.list, func(a, b problem) int { return a.off - b.off })
	var out Errors
	for i, q := range p.list {
		if i > 0 && q == p.list[i-1] {
			continue
		}
		line, col := p.position(q.off)
		out = append(out, Error{p.file, line, col, q.msg})
	}
	return out
}

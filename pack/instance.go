package pack

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// InstanceKind is the question an instance file asks.
type InstanceKind string

const (
	ContainerKind InstanceKind = "container"  // do all fit into W x H?
	SquareKind    InstanceKind = "min-square" // what is the least square?
	StripKind     InstanceKind = "strip"      // what is the least height at width W?
)

// Instance is one question about plain rectangles, read from a file:
//
//	# comment lines, kept
//	container 20 20
//	3 7
//	13 4
//
// The first line that is no comment says the kind: "container W H",
// "min-square S" with S the least side known, or "strip W H" with H the least
// height known; "-" where it is not known. Then comes one rectangle a line,
// width and height.
type Instance struct {
	Kind     InstanceKind
	W, H     int64 // the container, or W the strip's width; else 0
	Known    int64 // the least side or height known; 0 if not
	Rects    []Rect
	Comments []string // without the leading #
}

// Limits of an instance file.
const (
	MaxInstanceSide  = maxPlain // the longest side read
	maxInstanceRects = 10000
	maxInstanceLine  = 1 << 16
)

// ReadInstance reads an instance. name is what its errors call it; they are
// of the form "name:line: what is wrong and what to do".
func ReadInstance(r io.Reader, name string) (*Instance, error) {
	in := &Instance{}
	sc := bufio.NewScanner(r)
	sc.Buffer(make([]byte, 0, 4096), maxInstanceLine)
	line := 0
	for sc.Scan() {
		line++
		if err := in.readLine(sc.Bytes(), line == 1); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
	switch err := sc.Err(); {
	case err == bufio.ErrTooLong:
		return nil, fmt.Errorf("%s:%d: line longer than %d bytes: want one rectangle a line", name, line+1, maxInstanceLine)
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	case in.Kind == "":
		return nil, fmt.Errorf("%s: no instance in it: want a line \"container W H\", \"min-square S\" or \"strip W H\"", name)
	case len(in.Rects) == 0:
		return nil, fmt.Errorf("%s: no rectangles after the %q line: want one \"width height\" a line", name, in.Kind)
	}
	return in, nil
}

func (in *Instance) readLine(b []byte, first bool) error {
	if first {
		b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	}
	if bytes.IndexByte(b, 0) >= 0 || !utf8.Valid(b) {
		return fmt.Errorf("not a text file")
	}
	text := strings.TrimSpace(string(b))
	switch {
	case text == "":
		return nil
	case text[0] == '#':
		in.Comments = append(in.Comments, strings.TrimSpace(text[1:]))
		return nil
	case in.Kind == "":
		return in.readHead(strings.Fields(text))
	}
	return in.readRect(strings.Fields(text))
}

func (in *Instance) readHead(words []string) error {
	kind, want := InstanceKind(words[0]), 3
	switch kind {
	case ContainerKind, StripKind:
	case SquareKind:
		want = 2
	default:
		return fmt.Errorf("%.40q is no kind of instance: want container, min-square or strip", words[0])
	}
	if len(words) != want {
		return fmt.Errorf("%q wants %d numbers after it, there are %d", kind, want-1, len(words)-1)
	}
	var err error
	side := func(word string, may bool) int64 {
		if may && word == "-" || err != nil {
			return 0
		}
		var v int64
		v, err = readSide(word)
		return v
	}
	switch kind {
	case ContainerKind:
		in.W, in.H = side(words[1], false), side(words[2], false)
	case SquareKind:
		in.Known = side(words[1], true)
	case StripKind:
		in.W, in.Known = side(words[1], false), side(words[2], true)
	}
	if err == nil {
		in.Kind = kind
	}
	return err
}

func (in *Instance) readRect(words []string) error {
	if len(words) != 2 {
		return fmt.Errorf("a rectangle is two numbers, width and height; there are %d words", len(words))
	}
	if len(in.Rects) == maxInstanceRects {
		return fmt.Errorf("more than %d rectangles", maxInstanceRects)
	}
	w, err := readSide(words[0])
	if err != nil {
		return err
	}
	h, err := readSide(words[1])
	if err != nil {
		return err
	}
	in.Rects = append(in.Rects, Rect{W: w, H: h})
	return nil
}

func readSide(word string) (int64, error) {
	v, err := strconv.ParseInt(word, 10, 64)
	if err != nil || v < 1 || v > MaxInstanceSide {
		return 0, fmt.Errorf("%.40q: want a whole number from 1 to %d", word, MaxInstanceSide)
	}
	return v, nil
}

// KnownAnswer returns the answer that the comments of a container instance
// name, or Undecided. A perfect tiling and a box known as the least one both
// fit.
func (in *Instance) KnownAnswer() Verdict {
	if in.Kind != ContainerKind {
		return Undecided
	}
	for _, c := range in.Comments {
		switch {
		case strings.Contains(c, "known answer: INFEASIBLE"):
			return Impossible
		case strings.Contains(c, "known answer: FEASIBLE"),
			strings.Contains(c, "perfect tiling"),
			strings.Contains(c, "known optimum area"),
			strings.Contains(c, "minimum box area"):
			return Fits
		}
	}
	return Undecided
}

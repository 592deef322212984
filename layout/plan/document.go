package plan

import (
	"bytes"
	"fmt"
	"io"
	"os"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Doc is a plan with the text that it was read from.
type Doc struct {
	// Name is what messages call the text: the path, or the name given to
	// Parse.
	Name string
	// Path is the plan's file, "" when it has none yet.
	Path string
	// Plan is the plan as it is now. It may be edited freely, or replaced.
	Plan *layout.Plan

	text   source
	loaded *layout.Plan // as the text has it; shares nothing with Plan
	forms  *catalog.Catalog
}

// source is a text without its byte order mark, if it had one.
type source struct {
	mark bool
	text []byte
}

func newSource(src []byte) source {
	rest, mark := bytes.CutPrefix(src, bom)
	return source{mark, rest}
}

func (s source) bytes() []byte {
	if s.mark {
		return append(bytes.Clone(bom), s.text...)
	}
	return bytes.Clone(s.text)
}

// Parse reads a plan's text with the forms of the catalog, or of the built-in
// one if it is nil. The name is for the messages. Everything wrong in the text
// is in the error, which is then an Errors.
func Parse(name string, src []byte, c *catalog.Catalog) (*Doc, error) {
	if c == nil {
		c = catalog.Builtin()
	}
	if len(src) > MaxSize {
		return nil, tooLarge(name)
	}
	text := newSource(bytes.Clone(src))
	q, err := readText(name, text.text, c)
	if err != nil {
		return nil, err
	}
	for _, f := range c.Plugs() {
		q.PlugForms = append(q.PlugForms, f.PlugForm)
	}
	power.Apply(q) // which outputs are used decides which plugs need room
	wiring.Seat(q) // and which plugs seat where the units stand
	return &Doc{Name: name, Plan: q, text: text, loaded: deepCopy(q), forms: c}, nil
}

func readText(name string, text []byte, c *catalog.Catalog) (*layout.Plan, error) {
	p := newProblems(name, text)
	root := grow(p, text)
	if root != nil {
		secondOpinion(p, text)
	}
	if err := p.err(); err != nil {
		return nil, err
	}
	q := read(p, root, c)
	if err := p.err(); err != nil {
		return nil, err
	}
	return q, nil
}

// Open reads a plan's file. A file that is too large is not read to its end.
func Open(path string, c *catalog.Catalog) (*Doc, error) {
	src, err := readFile(path)
	if err != nil {
		return nil, err
	}
	d, err := Parse(path, src, c)
	if err != nil {
		return nil, err
	}
	d.Path = path
	return d, nil
}

func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, Refused(ToRead, path, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil {
		switch {
		case info.IsDir():
			return nil, fmt.Errorf("%s: is a folder, want a plan file", path)
		case info.Size() > MaxSize:
			return nil, tooLarge(path)
		}
	}
	src, err := io.ReadAll(io.LimitReader(f, MaxSize+1))
	if err != nil {
		return nil, Refused(ToRead, path, err)
	}
	if len(src) > MaxSize {
		return nil, tooLarge(path)
	}
	return src, nil
}

// Dirty reports whether the plan differs from its text.
func (d *Doc) Dirty() bool { return difference(d.loaded, d.Plan) != "" }

package catalog

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Bounds of what is read. They are far beyond any real catalog, and keep
// hostile text from eating stack or time.
const (
	maxFile     = 1 << 20 // bytes
	maxKeyParts = 8       // of a dotted key
	maxNesting  = 8       // of arrays and inline tables
)

// text is one decoded file and where its keys and values stand.
type text struct {
	file string
	src  []byte
	root map[string]any
	keys map[string]int // path -> offset of the key
	vals map[string]int // path -> offset of the value, where it is known
	errs Errors
}

// readText decodes a file. What is wrong with it as TOML is in errs, and then
// root is empty.
func readText(file string, src []byte) *text {
	t := &text{file: file, src: src, keys: map[string]int{}, vals: map[string]int{}}
	if len(src) > maxFile {
		t.errs = append(t.errs, Error{file, 0, 0, fmt.Sprintf("larger than %d kB: not a catalog, so take it out of the folder", maxFile>>10)})
		return t
	}
	if !t.locate() {
		return t
	}
	if _, err := toml.Decode(string(src), &t.root); err != nil {
		t.root = nil
		var pe toml.ParseError
		if errors.As(err, &pe) {
			t.errAt(pe.Position.Start, "%s", pe.Message)
		} else {
			t.errs = append(t.errs, Error{file, 1, 1, err.Error()})
		}
	}
	return t
}

// locate walks over the text and notes where keys and values stand. It reports
// whether the text may be decoded.
func (t *text) locate() bool {
	var p unstable.Parser
	p.Reset(t.src)
	counts := map[string]int{} // of arrays of tables, by their path
	table := ""
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			var ok bool
			if table, ok = t.key("", e.Key(), counts, e.Kind == unstable.ArrayTable); !ok {
				return false
			}
		case unstable.KeyValue:
			if !t.keyValue(table, e, counts, 0) {
				return false
			}
		}
	}
	if err := p.Error(); err != nil {
		at := 0
		var pe *unstable.ParserError
		if errors.As(err, &pe) && pe.Highlight != nil {
			at = cap(t.src) - cap(pe.Highlight)
		}
		t.errAt(at, "%s", err)
		return false
	}
	return true
}

// key follows a dotted key from a path, notes where it stands, and returns the
// path it leads to. Parts that are arrays of tables lead into their last table.
func (t *text) key(path string, it unstable.Iterator, counts map[string]int, array bool) (string, bool) {
	for n := 0; it.Next(); n++ {
		k := it.Node()
		if n >= maxKeyParts {
			t.errAt(int(k.Raw.Offset), "key of more than %d parts", maxKeyParts)
			return "", false
		}
		path = join(path, string(k.Data))
		if _, seen := t.keys[path]; !seen {
			t.keys[path] = int(k.Raw.Offset)
		}
		if last := it.IsLast(); last && array {
			counts[path]++
		}
		if c := counts[path]; c > 0 {
			path = join(path, strconv.Itoa(c-1))
			if _, seen := t.keys[path]; !seen {
				t.keys[path] = int(k.Raw.Offset)
			}
		}
	}
	return path, true
}

func (t *text) keyValue(table string, e *unstable.Node, counts map[string]int, depth int) bool {
	path, ok := t.key(table, e.Key(), counts, false)
	return ok && t.value(path, e.Value(), depth)
}

// value notes where a value and all that is in it stand.
func (t *text) value(path string, v *unstable.Node, depth int) bool {
	if v.Raw.Length > 0 {
		t.vals[path] = int(v.Raw.Offset)
	}
	if depth > maxNesting {
		t.errAt(t.offset(path), "nested more than %d deep", maxNesting)
		return false
	}
	it := v.Children()
	switch v.Kind {
	case unstable.Array:
		for i := 0; it.Next(); i++ {
			if !t.value(join(path, strconv.Itoa(i)), it.Node(), depth+1) {
				return false
			}
		}
	case unstable.InlineTable:
		for it.Next() {
			if !t.keyValue(path, it.Node(), nil, depth+1) {
				return false
			}
		}
	}
	return true
}

func join(path, part string) string {
	if path == "" {
		return part
	}
	return path + "\x00" + part
}

// offset returns where the value at the path stands, or its key, or the nearest
// thing around it.
func (t *text) offset(path string) int {
	for {
		if at, ok := t.vals[path]; ok {
			return at
		}
		if at, ok := t.keys[path]; ok {
			return at
		}
		i := strings.LastIndexByte(path, 0)
		if i < 0 {
			return 0
		}
		path = path[:i]
	}
}

func (t *text) errAt(offset int, format string, args ...any) {
	offset = min(max(offset, 0), len(t.src))
	before := t.src[:offset]
	t.errs = append(t.errs, Error{
		File: t.file,
		Line: bytes.Count(before, []byte("\n")) + 1,
		Col:  utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1,
		Msg:  fmt.Sprintf(format, args...),
	})
}

package plan

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"footplank/layout"
)

// view is a table of the text being read. Its methods note what is wrong, with
// the view's name before it, and then report false.
type view struct {
	*reader
	n    *node
	name string // `unit "squash"`, or "" for the whole text
	off  int    // where what is missing is missed
}

// table looks at a value as a table that may have those keys and no others.
// What is not a table is seen as an empty one.
func (r *reader) table(n *node, name string, off int, keys ...string) view {
	v := view{r, n, name, off}
	if n.kind != tableKind {
		v.errorf(n.off, "found %s, want a table", n.found())
		v.n = &node{}
		return v
	}
	for _, e := range n.keys {
		if !slices.Contains(keys, e.name) && !r.full() {
			v.errorf(e.off, "unknown key %q: %s", layout.Shortened(e.name), wanted(e.name, keys))
		}
	}
	return v
}

func (v view) errorf(off int, format string, args ...any) {
	if v.name != "" {
		format = strings.ReplaceAll(v.name, "%", "%%") + ": " + format
	}
	v.add(off, format, args...)
}

// value returns the value of a key, or nil.
func (v view) value(key string) *node {
	if e := v.n.get(key); e != nil {
		return e.value
	}
	return nil
}

func (v view) has(key string) bool { return v.n.get(key) != nil }

// offset returns where the value of a key stands, else where it is missed.
func (v view) offset(key string) int {
	if n := v.value(key); n != nil {
		return n.off
	}
	return v.off
}

// need notes that a key is missing.
func (v view) need(key, want string) bool {
	if v.has(key) {
		return true
	}
	v.errorf(v.off, "no %s: want %s", key, want)
	return false
}

// text reads a string for the player's eyes: one line, no control characters,
// which a terminal would obey.
func (v view) text(key string) (string, bool) {
	n := v.value(key)
	if n == nil {
		return "", false
	}
	if n.kind != stringKind {
		v.errorf(n.off, "%s: found %s, want text in quotes", key, n.found())
		return "", false
	}
	return n.text, v.printable(n, key)
}

// id reads a name that other places of the plan refer to. One that cannot be
// is returned too, so that those places are not wrong as well.
func (v view) id(n *node, key string) (string, bool) {
	if n.kind != stringKind {
		v.errorf(n.off, "%s: found %s, want text in quotes", key, n.found())
		return "", false
	}
	if !layout.ValidID(n.text) {
		v.errorf(n.off, "%s %q: want letters, digits, \"-\" and \"_\", at most %d of them", key, layout.Shortened(n.text), maxID)
		if utf8.RuneCountInString(n.text) > maxID {
			return "", false // messages will quote it
		}
		return n.text, false
	}
	return n.text, true
}

// word reads one of a few words.
func (v view) word(key string, words ...string) (string, bool) {
	n := v.value(key)
	if n == nil {
		return "", false
	}
	if n.kind != stringKind || !slices.Contains(words, n.text) {
		v.errorf(n.off, "%s: found %s: %s", key, n.found(), wanted(n.text, words))
		return "", false
	}
	return n.text, true
}

// none reports whether a key says that there is no such thing: draw = false.
func (v view) none(key string) bool {
	n := v.value(key)
	return n != nil && n.kind == boolKind && n.text == "false"
}

func (v view) flag(key string) (bool, bool) {
	n := v.value(key)
	if n == nil {
		return false, false
	}
	if n.kind != boolKind {
		v.errorf(n.off, "%s: found %s, want true or false", key, n.found())
		return false, false
	}
	return n.text == "true", true
}

// list reads the values of a list, n of them if n is not zero.
func (v view) list(key string, count int, what string) ([]*node, bool) {
	n := v.value(key)
	if n == nil {
		return nil, false
	}
	switch {
	case n.kind != listKind || n.style == headerStyle:
		v.errorf(n.off, "%s: found %s, want a list of %s", key, n.found(), what)
		return nil, false
	case count > 0 && len(n.items) != count:
		v.errorf(n.off, "%s: found %d in the list, want %d: %s", key, len(n.items), count, what)
		return nil, false
	}
	return n.items, true
}

// tables reads a list of tables, headed or inline, at most so many.
func (v view) tables(key string, most int) []*node {
	n := v.value(key)
	if n == nil {
		return nil
	}
	if n.kind != listKind {
		v.errorf(n.off, "%s: found %s, want a list of tables, each under [[...%s]]", key, n.found(), key)
		return nil
	}
	if len(n.items) > most {
		v.errorf(n.items[most].off, "%s: number %d, want at most %d", key, most+1, most)
		return n.items[:most]
	}
	return n.items
}

// sub looks at the table under a key. ok is false without the key.
func (v view) sub(key string, keys ...string) (view, bool) {
	e := v.n.get(key)
	if e == nil {
		return view{}, false
	}
	name := key
	if v.name != "" {
		name = v.name + ": " + key
	}
	return v.reader.table(e.value, name, e.value.off, keys...), e.value.kind == tableKind
}

// decimal writes a number of the text in plain decimals. ok is false for what
// is no number, or not a finite one.
func (n *node) decimal() (s string, f float64, ok bool) {
	switch n.kind {
	case integerKind:
		i, err := strconv.ParseInt(n.text, 0, 64)
		if err != nil {
			return "", 0, false
		}
		return strconv.FormatInt(i, 10), float64(i), true
	case floatKind:
		f, err := strconv.ParseFloat(strings.ReplaceAll(n.text, "_", ""), 64)
		if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
			return "", 0, false
		}
		return strconv.FormatFloat(f, 'f', -1, 64), f, true
	}
	return "", 0, false
}

// number reads a number from lo to hi.
func (v view) number(key string, lo, hi float64) (float64, bool) {
	n := v.value(key)
	if n == nil {
		return 0, false
	}
	_, f, ok := n.decimal()
	if !ok || f < lo || f > hi {
		v.errorf(n.off, "%s: found %s, want a number from %g to %g", key, n.found(), lo, hi)
		return 0, false
	}
	return f, true
}

// whole reads a whole number from lo to hi.
func (v view) whole(key string, lo, hi int) (int, bool) {
	n := v.value(key)
	if n == nil {
		return 0, false
	}
	return v.wholeOf(n, key, lo, hi)
}

func (v view) wholeOf(n *node, key string, lo, hi int) (int, bool) {
	_, f, ok := n.decimal()
	if !ok || f < float64(lo) || f > float64(hi) || f != math.Trunc(f) {
		v.errorf(n.off, "%s: found %s, want a whole number from %d to %d", key, n.found(), lo, hi)
		return 0, false
	}
	return int(f), true
}

// span is the lengths that make sense somewhere, both ends included.
type span struct{ lo, hi layout.Length }

var anywhere = span{-layout.MaxLength, layout.MaxLength}

// upTo is every length from zero up to that.
func upTo(hi layout.Length) span { return span{0, hi} }

func (v view) length(key string, s span) (layout.Length, bool) {
	n := v.value(key)
	if n == nil {
		return 0, false
	}
	return v.lengthOf(n, key, s)
}

func (v view) lengthOf(n *node, key string, s span) (layout.Length, bool) {
	outside := func() {
		v.errorf(n.off, "%s: found %s, want from %s to %s", key, n.found(), s.lo.Format(v.unit), s.hi.Format(v.unit))
	}
	written := n.text
	if n.kind != stringKind {
		text, _, ok := n.decimal()
		if !ok {
			v.errorf(n.off, "%s: found %s, want a length, like 305 or \"305mm\" or \"7 1/2in\"", key, n.found())
			return 0, false
		}
		written = text
	}
	l, err := layout.ParseLength(written, v.unit)
	if err != nil && n.kind != stringKind { // too large to be a length at all
		outside()
		return 0, false
	}
	if err != nil {
		v.errorf(n.off, "%s: %s", key, cutShort(err.Error()))
		return 0, false
	}
	if l < s.lo || l > s.hi {
		outside()
		return 0, false
	}
	return l, true
}

// cutShort bounds a message that quotes what was written.
func cutShort(s string) string {
	const most = 200
	if len(s) > most {
		return strings.ToValidUTF8(s[:most], "") + "..."
	}
	return s
}

// lengths reads a list with a length for each span.
func (v view) lengths(key, what string, spans ...span) ([]layout.Length, bool) {
	items, ok := v.list(key, len(spans), what)
	if !ok {
		return nil, false
	}
	out := make([]layout.Length, len(items))
	for i, n := range items {
		l, good := v.lengthOf(n, key, spans[i])
		out[i], ok = l, ok && good
	}
	return out, ok
}

func (v view) point(key string, s span) (layout.Point, bool) {
	l, ok := v.lengths(key, "from the left, from the front", s, s)
	if !ok {
		return layout.Point{}, false
	}
	return layout.Point{X: l[0], Y: l[1]}, true
}

// rect reads the keys at and size, both needed.
func (v view) rect(side span) (layout.Rect, bool) {
	hasAt := v.need("at", "[from the left, from the front]")
	hasSize := v.need("size", "[width, depth]")
	at, ok1 := v.point("at", anywhere)
	size, ok2 := v.lengths("size", "width, depth", side, side)
	if !hasAt || !hasSize || !ok1 || !ok2 {
		return layout.Rect{}, false
	}
	return layout.RectAt(at, size[0], size[1]), true
}

var edgeKeys = []string{"front", "back", "left", "right"}

// edges reads a table with a length for each edge.
func (v view) edges(key string, s span) layout.Edges {
	t, _ := v.sub(key, edgeKeys...)
	if t.n == nil {
		return layout.Edges{}
	}
	var e layout.Edges
	for i, l := range []*layout.Length{&e.Front, &e.Back, &e.Left, &e.Right} {
		*l, _ = t.length(edgeKeys[i], s)
	}
	return e
}

func (v view) mass(key string) (layout.Mass, bool) {
	n := v.value(key)
	if n == nil {
		return 0, false
	}
	written := n.text
	if n.kind != stringKind {
		var ok bool
		if written, _, ok = n.decimal(); !ok {
			v.errorf(n.off, "%s: found %s, want a mass in g, like 350, or \"350g\", \"2.6kg\", \"12oz\"", key, n.found())
			return 0, false
		}
	}
	m, err := layout.ParseMass(written)
	if err == nil && m <= 0 {
		v.errorf(n.off, "%s: found %s, want more than nothing", key, n.found())
		return 0, false
	}
	if err != nil {
		msg := err.Error()
		if key == "mass" {
			msg = strings.TrimPrefix(msg, "mass ")
			v.errorf(n.off, "mass %s", cutShort(msg))
		} else {
			v.errorf(n.off, "%s: %s", key, cutShort(msg))
		}
		return 0, false
	}
	return m, true
}

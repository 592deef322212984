package catalog

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"footplank/layout"
)

// table is one table of a file being taken apart. Each key is asked for once;
// end then complains of the keys that nobody asked for.
type table struct {
	t     *text
	path  string
	what  string // begins its errors: `form "mini": jack "in"`
	m     map[string]any
	asked []string
}

func (t *text) table(path, what string, v any) (*table, bool) {
	m, ok := v.(map[string]any)
	if !ok {
		t.errAt(t.offset(path), "%s: found %s, want a table", what, found(v))
		return nil, false
	}
	return &table{t: t, path: path, what: what, m: m}, true
}

// tables returns the tables of an array of tables.
func (t *text) tables(path, what string, v any) []*table {
	var list []any
	switch v := v.(type) {
	case []map[string]any:
		for _, m := range v {
			list = append(list, m)
		}
	case []any:
		list = v
	default:
		t.errAt(t.offset(path), "%s: found %s, want tables, each headed [[...]]", what, found(v))
	}
	var out []*table
	for i, v := range list {
		if tb, ok := t.table(join(path, strconv.Itoa(i)), what, v); ok {
			out = append(out, tb)
		}
	}
	return out
}

// found words a value for an error.
func found(v any) string {
	switch v := v.(type) {
	case string:
		return fmt.Sprintf("%q", layout.Shortened(v))
	case int64, float64, bool:
		return fmt.Sprint(v)
	case []any, []map[string]any:
		return "a list"
	case map[string]any:
		return "a table"
	}
	return "a date"
}

// get returns the value of a key, if it is there.
func (tb *table) get(key string) (any, bool) {
	tb.asked = append(tb.asked, key)
	v, ok := tb.m[key]
	return v, ok
}

func (tb *table) has(key string) bool { _, ok := tb.m[key]; return ok }

// errKey notes an error about a key's value, or about the table if the key is
// not there.
func (tb *table) errKey(key, format string, args ...any) {
	path := tb.path
	if tb.has(key) {
		path = join(path, key)
	}
	tb.t.errAt(tb.t.offset(path), "%s: %s", tb.what, fmt.Sprintf(format, args...))
}

// end notes an error for each key that was not asked for.
func (tb *table) end() {
	for k := range tb.m {
		if !slices.Contains(tb.asked, k) {
			at, ok := tb.t.keys[join(tb.path, k)]
			if !ok {
				at = tb.t.offset(tb.path)
			}
			tb.t.errAt(at, "%s: unknown key %q, %s", tb.what, k, wanted(k, tb.asked))
		}
	}
}

func (tb *table) need(key string) bool {
	if !tb.has(key) {
		tb.asked = append(tb.asked, key)
		tb.errKey(key, "no %q given", key)
		return false
	}
	return true
}

func (tb *table) str(key string) string {
	v, ok := tb.get(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		tb.errKey(key, "%s: found %s, want text in quotes", key, found(v))
	}
	return s
}

// word reads one of a few words; without the key it is the first of them.
func (tb *table) word(key string, words ...string) string {
	if !tb.has(key) {
		tb.asked = append(tb.asked, key)
		return words[0]
	}
	s := tb.str(key)
	if s != "" && !slices.Contains(words, s) {
		tb.errKey(key, "%s: found %q, %s", key, s, wanted(s, words))
		return words[0]
	}
	return s
}

func (tb *table) flag(key string) bool {
	v, ok := tb.get(key)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		tb.errKey(key, "%s: found %s, want true or false", key, found(v))
	}
	return b
}

// number reads a number from lo to hi.
func (tb *table) number(key string, def, lo, hi float64) float64 {
	v, ok := tb.get(key)
	if !ok {
		return def
	}
	var f float64
	switch v := v.(type) {
	case int64:
		f = float64(v)
	case float64:
		f = v
	default:
		tb.errKey(key, "%s: found %s, want a number", key, found(v))
		return def
	}
	if math.IsNaN(f) || f < lo || f > hi {
		tb.errKey(key, "%s: found %s, want %s to %s", key, found(v), plain(lo), plain(hi))
		return def
	}
	return f
}

func plain(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// whole is number for values without decimals.
func (tb *table) whole(key string, def, lo, hi int) int {
	f := tb.number(key, float64(def), float64(lo), float64(hi))
	if f != math.Trunc(f) {
		tb.errKey(key, "%s: found %s, want a whole number", key, plain(f))
	}
	return int(f)
}

// quantity turns a number or a text into what layout's parsers read.
func quantity(v any) (string, bool) {
	switch v := v.(type) {
	case string:
		return v, true
	case int64:
		return strconv.FormatInt(v, 10), true
	case float64:
		return plain(v), true
	}
	return "", false
}

// lengthOf reads a length from lo to hi. key names it in the error.
func (tb *table) lengthOf(path, key string, v any, lo, hi layout.Length) layout.Length {
	s, ok := quantity(v)
	if !ok {
		tb.t.errAt(tb.t.offset(path), "%s: %s: found %s, want a length like 305 or \"305mm\"", tb.what, key, found(v))
		return lo
	}
	l, err := layout.ParseLength(s, layout.Millimetres)
	if err != nil {
		tb.t.errAt(tb.t.offset(path), "%s: %s: %s", tb.what, key, err)
		return lo
	}
	if l < lo || l > hi {
		tb.t.errAt(tb.t.offset(path), "%s: %s: found %s, want %s to %s", tb.what, key, l, lo, hi)
		return lo
	}
	return l
}

// length reads a length from lo to hi; without the key it is def.
func (tb *table) length(key string, def, lo, hi layout.Length) layout.Length {
	v, ok := tb.get(key)
	if !ok {
		return def
	}
	return tb.lengthOf(join(tb.path, key), key, v, lo, hi)
}

// lengths reads a list of n lengths, or of any number but none if n is 0. ok is
// false without the key, or when it is not such a list.
func (tb *table) lengths(key string, n int, lo, hi layout.Length) (out []layout.Length, ok bool) {
	v, ok := tb.get(key)
	if !ok {
		return nil, false
	}
	list, ok := v.([]any)
	if !ok || n > 0 && len(list) != n || len(list) == 0 {
		want := "a list of lengths"
		if n > 0 {
			want = fmt.Sprintf("a list of %d lengths", n)
		}
		got := found(v)
		if ok {
			got = fmt.Sprintf("%d of them", len(list))
		}
		tb.errKey(key, "%s: found %s, want %s", key, got, want)
		return nil, false
	}
	for i, e := range list {
		out = append(out, tb.lengthOf(join(join(tb.path, key), strconv.Itoa(i)), key, e, lo, hi))
	}
	return out, true
}

func (tb *table) mass(key string) layout.Mass {
	v, ok := tb.get(key)
	if !ok {
		return 0
	}
	s, ok := quantity(v)
	if !ok {
		tb.errKey(key, "%s: found %s, want a mass like 350 or \"350g\"", key, found(v))
		return 0
	}
	m, err := layout.ParseMass(s)
	if err != nil {
		tb.errKey(key, "%s", err)
		return 0
	}
	if m < 0 {
		tb.errKey(key, "%s: found %q, want no less than 0", key, s)
		return 0
	}
	return m
}

// price reads what something costs; without the key it is nil.
func (tb *table) price(key string) *layout.Price {
	v, ok := tb.get(key)
	if !ok {
		return nil
	}
	s, ok := v.(string)
	if !ok {
		tb.errKey(key, "%s: found %s, want text with its currency, like \"€60\" or \"600 kr\"", key, found(v))
		return nil
	}
	p, err := layout.ParsePrice(s)
	if err != nil {
		tb.errKey(key, "%s", err)
		return nil
	}
	return &p
}

// sub returns the table under a key.
func (tb *table) sub(key string) (*table, bool) {
	v, ok := tb.get(key)
	if !ok {
		return nil, false
	}
	return tb.t.table(join(tb.path, key), tb.what+": "+key, v)
}

// subs returns the tables under a key.
func (tb *table) subs(key string) []*table {
	v, ok := tb.get(key)
	if !ok {
		return nil
	}
	return tb.t.tables(join(tb.path, key), tb.what+": "+key, v)
}

// values reads the status and source tables.
func (tb *table) values() []Value {
	var out []Value
	sources, _ := tb.sub("source")
	status, ok := tb.sub("status")
	if ok {
		words := make([]string, 0, 4)
		for _, s := range Statuses() {
			words = append(words, string(s))
		}
		for _, k := range names(status.m) {
			if !tb.has(k) {
				status.errKey(k, "%q is not given here, so it has no status", k)
			}
			out = append(out, Value{Key: k, Status: Status(status.word(k, words...))})
		}
	}
	if sources == nil {
		return out
	}
	for _, k := range names(sources.m) {
		i := slices.IndexFunc(out, func(v Value) bool { return v.Key == k })
		if i < 0 {
			sources.errKey(k, "%q has a source but no status", k)
			continue
		}
		out[i].Source = sources.str(k)
	}
	return out
}

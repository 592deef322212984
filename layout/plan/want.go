package plan

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

// value is what a text should say somewhere: one value, or a list of them.
type value interface {
	// says reports whether the text's value is read as this one, however
	// it is written.
	says(n *node, s speller) bool
	spell(s speller) string
}

// need is how much a key wants to be in the text.
type need uint8

const (
	usual need = iota // what is read without it: left out
	shown             // as usual, but written where all of a table is
	must
)

// want is a table that a text should have. What it has no key for, or a key
// without a value, should not be in the text.
type want struct {
	keys []wantKey
}

type wantKey struct {
	name   string
	v      any // value, *want or *wantList; nil for none
	need   need
	headed bool // under a header of its own where there is a choice
}

// wantList is a list of tables.
type wantList struct {
	id    string   // the key that names an item, "" if none does
	soft  []string // keys by which an item is not known under another name
	loose bool     // half of the others will do for that
	// form is set for what a form has too: an item that says nothing but its
	// name is as the form has it, and can be left out.
	form  bool
	items []*want
}

func (w *want) add(k wantKey) { w.keys = append(w.keys, k) }

func (w *want) must(name string, v any) { w.add(wantKey{name: name, v: v, need: must}) }

// usual adds a key that is left out when what it says is usual.
func (w *want) usual(is bool, name string, v any) {
	n := must
	if is {
		n = usual
	}
	w.add(wantKey{name: name, v: v, need: n})
}

// some adds a key that is there only if something is given.
func (w *want) some(is bool, name string, v any) {
	if is {
		w.must(name, v)
	}
}

// under adds a table, or a list of tables, with headers of its own; it is put in
// if it has something to say.
func (w *want) under(name string, v any) {
	n := usual
	switch v := v.(type) {
	case *want:
		if !v.silent("") {
			n = must
		}
	case *wantList:
		if slices.ContainsFunc(v.items, v.puts) {
			n = must
		}
	}
	w.add(wantKey{name: name, v: v, need: n, headed: true})
}

// get returns a key that should be in the table, or nil.
func (w *want) get(name string) *wantKey {
	for i := range w.keys {
		if k := &w.keys[i]; k.name == name && k.v != nil {
			return k
		}
	}
	return nil
}

// silent reports that the table says nothing but its id: it can be left out.
func (w *want) silent(id string) bool {
	return !slices.ContainsFunc(w.keys, func(k wantKey) bool { return k.need == must && k.name != id && k.v != nil })
}

// puts reports whether an item is to be in the text.
func (l *wantList) puts(w *want) bool { return !l.form || !w.silent(l.id) }

// whole returns the keys to write where the table is new.
func (w *want) whole() []wantKey {
	return slices.DeleteFunc(slices.Clone(w.keys), func(k wantKey) bool { return k.v == nil || k.need == usual })
}

// says reports whether a table or a list of the text is read as what is wanted.
func says(n *node, v any, s speller) bool {
	switch v := v.(type) {
	case value:
		return v.says(n, s)
	case *want:
		if n.kind != tableKind {
			return false
		}
		for _, x := range n.keys {
			if k := v.get(x.name); k == nil || !says(x.value, k.v, s) {
				return false
			}
		}
		return !slices.ContainsFunc(v.keys, func(k wantKey) bool { return k.need == must && k.v != nil && n.get(k.name) == nil })
	case *wantList:
		if n.kind != listKind || len(n.items) != len(v.items) {
			return false
		}
		for i := range n.items {
			if !says(n.items[i], v.items[i], s) {
				return false
			}
		}
		return true
	}
	return false
}

// speller writes values in the plan's own unit.
type speller struct {
	unit  layout.LengthUnit
	forms *catalog.Catalog
}

// length writes a length as a number, or as text: a fraction of an inch, or
// millimetres where inches would need more than two decimals.
func (s speller) length(l layout.Length) string {
	n := l.Number(s.unit)
	_, decimals, _ := strings.Cut(n, ".")
	if back, err := layout.ParseLength(n, s.unit); err != nil || back != l || s.unit == layout.Inches && len(decimals) > 2 {
		return quoted(l.Format(layout.Millimetres))
	}
	if strings.Contains(n, "/") {
		return quoted(n + string(s.unit))
	}
	return n
}

// inline writes anything in one line.
func (s speller) inline(v any) string {
	switch v := v.(type) {
	case value:
		return v.spell(s)
	case *want:
		keys := v.whole()
		if len(keys) == 0 {
			return "{}"
		}
		parts := make([]string, len(keys))
		for i, k := range keys {
			parts[i] = spellKey(k.name) + " = " + s.inline(k.v)
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	case *wantList:
		var parts []string
		for _, w := range v.items {
			if v.puts(w) {
				parts = append(parts, s.inline(w))
			}
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return ""
}

type word string

func (w word) says(n *node, _ speller) bool { return n.kind == stringKind && n.text == string(w) }
func (w word) spell(speller) string         { return quoted(string(w)) }

type flag bool

func (f flag) says(n *node, _ speller) bool {
	return n.kind == boolKind && n.text == fmt.Sprint(bool(f))
}
func (f flag) spell(speller) string { return fmt.Sprint(bool(f)) }

type number float64

func (f number) says(n *node, _ speller) bool {
	_, is, ok := n.decimal()
	return ok && is == float64(f)
}
func (f number) spell(speller) string { return strconv.FormatFloat(float64(f), 'f', -1, 64) }

// milli is a number with its thousandths: volts, watts.
type milli int

func (m milli) says(n *node, _ speller) bool {
	_, is, ok := n.decimal()
	return ok && int(is*1000+0.5) == int(m)
}
func (m milli) spell(s speller) string { return number(float64(m) / 1000).spell(s) }

type length layout.Length

func (l length) says(n *node, s speller) bool {
	text, ok := n.text, n.kind == stringKind
	if !ok {
		text, _, ok = n.decimal()
	}
	is, err := layout.ParseLength(text, s.unit)
	return ok && err == nil && is == layout.Length(l)
}
func (l length) spell(s speller) string { return s.length(layout.Length(l)) }

type mass layout.Mass

func (m mass) says(n *node, _ speller) bool {
	text, ok := n.text, n.kind == stringKind
	if !ok {
		text, _, ok = n.decimal()
	}
	is, err := layout.ParseMass(text)
	return ok && err == nil && is == layout.Mass(m)
}

// spell writes kilograms from one on, else grams.
func (m mass) spell(speller) string {
	unit, name := layout.Gram, "g"
	if layout.Mass(m) >= layout.Kilogram && m%1000 == 0 {
		unit, name = layout.Kilogram, "kg"
	}
	digits := strconv.FormatFloat(float64(m)/float64(unit), 'f', 3, 64)
	return quoted(strings.TrimRight(strings.TrimRight(digits, "0"), ".") + name)
}

type price layout.Price

func (p price) says(n *node, _ speller) bool {
	is, err := layout.ParsePrice(n.text)
	return n.kind == stringKind && err == nil && is == layout.Price(p)
}
func (p price) spell(speller) string { return quoted(layout.Price(p).String()) }

// density is a material, of which a plan in memory has only that.
type density float64

func (d density) says(n *node, s speller) bool {
	m, ok := s.forms.Material(n.text)
	return n.kind == stringKind && ok && m.Density == float64(d)
}

func (d density) spell(s speller) string {
	for _, m := range s.forms.Materials() {
		if m.Density == float64(d) {
			return quoted(m.Name)
		}
	}
	return quoted("a material of " + number(d).spell(s) + " kg/m3") // which reads as no material
}

// pair is the two plugs of a cable, written as one where they are the same.
type pair [2]string

func (p pair) says(n *node, s speller) bool {
	if n.kind == stringKind {
		return p[0] == n.text && p[1] == n.text
	}
	return list{word(p[0]), word(p[1])}.says(n, s)
}

func (p pair) spell(s speller) string {
	if p[0] == p[1] {
		return quoted(p[0])
	}
	return list{word(p[0]), word(p[1])}.spell(s)
}

type list []value

func (l list) says(n *node, s speller) bool {
	if n.kind != listKind || n.style == headerStyle || len(n.items) != len(l) {
		return false
	}
	for i, v := range l {
		if !v.says(n.items[i], s) {
			return false
		}
	}
	return true
}

func (l list) spell(s speller) string {
	parts := make([]string, len(l))
	for i, v := range l {
		parts[i] = v.spell(s)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

func words[S ~string](from []S) list {
	out := make(list, len(from))
	for i, s := range from {
		out[i] = word(s)
	}
	return out
}

func lengthsOf(ls ...layout.Length) list {
	out := make(list, len(ls))
	for i, l := range ls {
		out[i] = length(l)
	}
	return out
}

package plan

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"footplank/catalog"
	"footplank/layout"
)

var csvColumns = []string{"id", "label", "form", "width", "depth", "height", "mass", "mount", "milliamps", "volts"}

// ReadUnitsCSV reads a table of units as measured: a row for each, under a
// first row that names the columns: id, label, form, width, depth, height,
// mass, mount, milliamps, volts, in any order and any number of them. Fields
// are parted by commas, semicolons or tabs. Bare lengths are millimetres and
// bare masses grams; with semicolons a decimal comma is understood. Each row
// needs a form of the catalog (the built-in one if it is nil) or all of width,
// depth and height. The name is for the messages; the error is an Errors.
func ReadUnitsCSV(r io.Reader, name string, c *catalog.Catalog) ([]StarterUnit, error) {
	if c == nil {
		c = catalog.Builtin()
	}
	src, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, Refused(ToRead, name, err)
	}
	if len(src) > MaxSize {
		return nil, Errors{{File: name, Msg: fmt.Sprintf("larger than %d kB: not a table of units", MaxSize>>10)}}
	}
	src = bytes.TrimPrefix(src, bom)
	t := &unitTable{problems: newProblems(name, src), forms: c, ids: map[string]int{}}
	if readableTable(t.problems, src) {
		t.read(src)
	}
	if err := t.err(); err != nil {
		return nil, err
	}
	return t.units, nil
}

func readableTable(p *problems, src []byte) bool {
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == 0 || r == utf8.RuneError && n == 1 {
			p.add(i, "byte 0x%02x is no text: want a table saved as CSV in UTF-8", src[i])
			return false
		}
		i += n
	}
	return true
}

type unitTable struct {
	*problems
	forms  *catalog.Catalog
	comma  bool           // a decimal comma may stand
	column map[string]int // by name
	width  int            // fields of the first row
	ids    map[string]int // line of each id
	units  []StarterUnit
}

func (t *unitTable) read(src []byte) {
	in := csv.NewReader(bytes.NewReader(src))
	in.Comma = separator(src)
	in.Comment = '#'
	in.FieldsPerRecord = -1
	in.TrimLeadingSpace = in.Comma != '\t'
	t.comma = in.Comma != ','
	for {
		fields, err := in.Read()
		if err == io.EOF {
			break
		}
		var pe *csv.ParseError
		if errors.As(err, &pe) {
			t.add(t.offsetOf(pe.Line, pe.Column), "not a table: %s", pe.Err)
			return
		}
		if err != nil {
			t.add(0, "not a table: %s", err)
			return
		}
		at := func(i int) int { return t.offsetOf(in.FieldPos(min(i, len(fields)-1))) }
		if t.column == nil {
			t.header(fields, at)
			continue
		}
		t.row(fields, at)
		if len(t.units) > maxUnits || t.full() {
			t.add(at(0), "more than %d units", maxUnits)
			return
		}
	}
	if t.column == nil {
		t.add(0, "empty: want a first row that names its columns, of %s", anyOf(csvColumns))
	} else if len(t.units) == 0 {
		t.add(len(src), "no units under the first row")
	}
}

// separator returns what parts the fields of the first row that is no comment.
func separator(src []byte) rune {
	for _, line := range bytes.Split(src, []byte("\n")) {
		if len(bytes.TrimSpace(line)) == 0 || line[0] == '#' {
			continue
		}
		for _, c := range ",;\t" {
			if bytes.ContainsRune(line, c) {
				return c
			}
		}
		break
	}
	return ','
}

func (t *unitTable) offsetOf(line, col int) int {
	return t.lines[min(max(line, 1), len(t.lines))-1] + col - 1
}

func (t *unitTable) header(fields []string, at func(int) int) {
	t.column, t.width = map[string]int{}, len(fields)
	for i, f := range fields {
		f = strings.ToLower(strings.TrimSpace(f))
		switch _, twice := t.column[f]; {
		case f == "":
			continue
		case !slices.Contains(csvColumns, f):
			t.add(at(i), "unknown column %q: %s", layout.Shortened(f), wanted(f, csvColumns))
		case twice:
			t.add(at(i), "column %q is there twice", f)
		}
		t.column[f] = i
	}
}

// row is one row being read.
type row struct {
	*unitTable
	fields []string
	at     func(int) int
}

func (t *unitTable) row(fields []string, at func(int) int) {
	if strings.TrimSpace(strings.Join(fields, "")) == "" {
		return
	}
	r := row{t, fields, at}
	var u StarterUnit
	if len(fields) > t.width && strings.TrimSpace(strings.Join(fields[t.width:], "")) != "" {
		r.add(at(t.width), "found %d fields, want the %d of the first row", len(fields), t.width)
	}
	u.ID = r.id()
	u.Label = r.text("label")
	if u.Form = r.text("form"); u.Form != "" {
		if _, ok := t.forms.Unit(u.Form); !ok {
			v := view{reader: &reader{forms: t.forms}}
			r.wrong("form", "form: found %q: %s", u.Form, v.wantedForm(u.Form))
		}
	}
	u.Body = layout.Size{W: r.length("width", bodySide), D: r.length("depth", bodySide), H: r.length("height", bodyHeight)}
	if u.Form == "" {
		for _, side := range []string{"width", "depth", "height"} {
			if r.text(side) == "" {
				r.wrong(side, "no %s and no form: want one of them", side)
			}
		}
	}
	if s := r.text("mass"); s != "" {
		m, err := layout.ParseMass(r.number(s))
		if err == nil && m <= 0 {
			err = fmt.Errorf("mass %q: want more than nothing", s)
		}
		if err != nil {
			r.wrong("mass", "%s", err)
		}
		u.Mass = m
	}
	if s := r.text("mount"); s != "" {
		words := []string{string(layout.Fixed), string(layout.Swap)}
		if !slices.Contains(words, s) {
			r.wrong("mount", "mount: found %q: %s", layout.Shortened(s), wanted(s, words))
		}
		u.Mount = layout.Mount(s)
	}
	u.Draw = r.draw()
	t.units = append(t.units, u)
}

// text returns a field of the row, "" if it is not there.
func (r row) text(column string) string {
	i, ok := r.column[column]
	if !ok || i >= len(r.fields) {
		return ""
	}
	s := strings.TrimSpace(r.fields[i])
	if utf8.RuneCountInString(s) > maxText || !showable(s) {
		r.wrong(column, "%s: found %q, want one line of at most %d characters", column, layout.Shortened(s), maxText)
		return ""
	}
	return s
}

func (r row) wrong(column, format string, args ...any) {
	i, ok := r.column[column]
	if !ok {
		i = 0
	}
	r.add(r.at(i), format, args...)
}

func (r row) id() string {
	id := r.text("id")
	if id == "" {
		if r.text("label") == "" && r.text("form") == "" {
			r.wrong("id", "no id, label or form: want one of them to call the unit by")
		}
		return ""
	}
	line, _ := r.position(r.at(0))
	first, twice := r.ids[id]
	switch {
	case !layout.ValidID(id):
		r.wrong("id", "id %q: want letters, digits, \"-\" and \"_\", at most %d of them", layout.Shortened(id), maxID)
	case layout.OffBoard(id) || id == "slot" || id == layout.DeckName:
		r.wrong("id", "the id %q has a meaning of its own in a plan: want another", id)
	case twice:
		r.wrong("id", "there is a unit of the id %q already, in line %d", id, first)
	}
	r.ids[id] = line
	return id
}

// number writes a number as layout and strconv read it.
func (r row) number(s string) string {
	if r.comma {
		return strings.Replace(s, ",", ".", 1)
	}
	return s
}

func (r row) length(column string, s span) layout.Length {
	text := r.text(column)
	if text == "" {
		return 0
	}
	l, err := layout.ParseLength(r.number(text), layout.Millimetres)
	switch {
	case err != nil:
		r.wrong(column, "%s: %s", column, err)
	case l < s.lo || l > s.hi:
		r.wrong(column, "%s: found %q, want from %s to %s", column, text, s.lo, s.hi)
	}
	return l
}

// draw reads the columns milliamps and volts.
func (r row) draw() *layout.Draw {
	ma, volts := r.text("milliamps"), r.text("volts")
	if ma == "" {
		if volts != "" {
			r.wrong("volts", "volts without milliamps: want both, or 0 milliamps for none")
		}
		return nil
	}
	d := &layout.Draw{Millivolts: 9000}
	n, err := strconv.Atoi(ma)
	if err != nil || n < 0 || n > 100_000 {
		r.wrong("milliamps", "milliamps: found %q, want a whole number from 0 to 100000", layout.Shortened(ma))
	}
	d.Milliamps = n
	if volts == "" {
		return d
	}
	f, err := strconv.ParseFloat(r.number(volts), 64)
	if err != nil || !(f >= 0.1 && f <= 60) {
		r.wrong("volts", "volts: found %q, want a number from 0.1 to 60", layout.Shortened(volts))
		return d
	}
	d.Millivolts = int(f*1000 + 0.5)
	return d
}

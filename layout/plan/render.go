package plan

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"footplank/layout"
)

// Render returns the text of the plan as it is now: the text it was read from,
// with only what differs changed. It can express a unit's place, mount, label
// and whether it is pinned, and the places of a line-up; for anything else
// that differs, or a plan that could not be read back, it returns an error.
func (d *Doc) Render() ([]byte, error) {
	text, err := d.render()
	if err != nil {
		return nil, err
	}
	return source{d.text.mark, text}.bytes(), nil
}

func (d *Doc) render() ([]byte, error) {
	if !d.Dirty() {
		return d.text.text, nil
	}
	if s := difference(d.expressible(), d.Plan); s != "" {
		return nil, fmt.Errorf("%s: %s changed in a way that saving has no words for: make that change in the plan file itself", d.Name, s)
	}
	text, err := d.text.text, error(nil)
	for _, putting := range []bool{false, true} {
		p := newProblems(d.Name, text)
		root := grow(p, text)
		if err := p.err(); err != nil {
			return nil, fmt.Errorf("the plan cannot be written: %w", err)
		}
		e := newEditor(text, root, putting)
		if err := e.plan(d.loaded, d.Plan); err != nil {
			return nil, fmt.Errorf("%s: %w", d.Name, err)
		}
		if text, err = e.result(); err != nil {
			return nil, fmt.Errorf("%s: the plan cannot be written: %w", d.Name, err)
		}
	}
	if len(text) > MaxSize {
		return nil, tooLarge(d.Name)
	}
	back, err := readText(d.Name, text, d.forms)
	if err != nil {
		return nil, fmt.Errorf("the plan as it is now cannot be written: %w", err)
	}
	if s := difference(back, d.Plan); s != "" {
		return nil, fmt.Errorf("%s: the plan cannot be written: %s would be lost", d.Name, s)
	}
	return text, nil
}

// expressible returns the loaded plan with all changes of the plan as it is
// now that Render can write.
func (d *Doc) expressible() *layout.Plan {
	p := deepCopy(d.loaded)
	if len(p.Units) != len(d.Plan.Units) || len(p.Lineups) != len(d.Plan.Lineups) {
		return p
	}
	for i := range p.Units {
		u, now := &p.Units[i], &d.Plan.Units[i]
		u.Place, u.Mount, u.Pinned, u.Label = now.Place, now.Mount, now.Pinned, now.Label
	}
	for i := range p.Lineups {
		p.Lineups[i].Place = d.Plan.Lineups[i].Place
	}
	return p
}

// items returns the tables of a list of tables of the whole text.
func (e *editor) items(key string) []*node {
	if x := e.root.get(key); x != nil {
		return x.value.items
	}
	return nil
}

// plan edits the text of plan a into that of plan b.
func (e *editor) plan(a, b *layout.Plan) error {
	s := speller{b.LengthUnit}
	for i, t := range e.items("unit") {
		old, now := &a.Units[i], &b.Units[i]
		if old.Label != now.Label {
			e.set(t, "label", quoted(now.Label))
		}
		if old.Mount != now.Mount {
			e.set(t, "mount", quoted(string(now.Mount)))
		}
		if old.Pinned != now.Pinned {
			e.set(t, "pinned", fmt.Sprint(now.Pinned))
		}
		if !same(old.Place, now.Place) {
			e.place(t, "place", old.Place, now.Place, s)
		}
	}
	tables := e.items("lineup")
	if len(tables) == 0 && len(b.Lineups[0].Place) > 0 {
		return errors.New("a place in a line-up, but the plan has no [[lineup]]")
	}
	for i, t := range tables {
		e.lineup(t, a.Lineups[i].Place, b, b.Lineups[i].Place, s)
	}
	return nil
}

// place edits where a unit stands; nil is nowhere.
func (e *editor) place(parent *node, key string, old, now *layout.Placement, s speller) {
	x := parent.get(key)
	switch {
	case now == nil:
		e.remove(parent, key)
		return
	case x == nil || old == nil:
		e.set(parent, key, s.place(*now))
		return
	}
	t := x.value
	if old.On != now.On {
		e.set(t, "on", quoted(now.On))
	}
	at := t.get("at").value
	if old.At.X != now.At.X {
		e.replace(at.items[0], s.length(now.At.X))
	}
	if old.At.Y != now.At.Y {
		e.replace(at.items[1], s.length(now.At.Y))
	}
	if old.Turn != now.Turn {
		e.set(t, "turn", fmt.Sprint(now.Turn.Degrees()))
	}
}

// lineup edits where the units of a line-up stand.
func (e *editor) lineup(t *node, old map[string]layout.Placement, p *layout.Plan, now map[string]layout.Placement, s speller) {
	x := t.get("place")
	var fresh []freshPlace // for a table of places that is not there yet
	for i := range p.Units {
		id := p.Units[i].ID
		a, had := old[id]
		b, has := now[id]
		switch {
		case a == b && had == has:
		case !has:
			if x != nil {
				e.remove(x.value, id)
			}
		case x == nil || !had && x.value.style == impliedStyle:
			fresh = append(fresh, freshPlace{spellKey(id), s.place(b)})
		case had:
			e.place(x.value, id, &a, &b, s)
		default:
			e.put(x.value, id, s.place(b))
		}
	}
	if len(fresh) > 0 {
		e.freshPlaces(t, fresh)
	}
}

type freshPlace struct{ key, place string }

// freshPlaces puts a line-up's first places in: a line for each, under a
// header of their own, unless the line-up is written in one line itself.
func (e *editor) freshPlaces(t *node, list []freshPlace) {
	if t.style == inlineStyle {
		var parts []string
		for _, f := range list {
			parts = append(parts, f.key+" = "+f.place)
		}
		e.put(t, "place", "{ "+strings.Join(parts, ", ")+" }")
		return
	}
	if !e.putting {
		return
	}
	width := 0
	for _, f := range list {
		width = max(width, utf8.RuneCountInString(f.key))
	}
	indent, eol := e.indent(t.off), e.eol(t.last)
	block := indent + "[lineup.place]"
	for _, f := range list {
		block += eol + indent + fmt.Sprintf("%-*s = %s", width, f.key, f.place)
	}
	e.putLine(t.last, block)
}

// speller writes values in the plan's own unit.
type speller struct{ unit layout.LengthUnit }

// length writes a length as a number, or as text where a number is not exact:
// a fraction of an inch, or a length in inches with more than four decimals.
func (s speller) length(l layout.Length) string {
	n := l.Number(s.unit)
	if back, err := layout.ParseLength(n, s.unit); err != nil || back != l {
		return quoted(l.Format(layout.Millimetres))
	}
	if strings.Contains(n, "/") {
		return quoted(n + string(s.unit))
	}
	return n
}

func (s speller) place(p layout.Placement) string {
	return fmt.Sprintf("{ on = %s, at = [%s, %s], turn = %d }", quoted(p.On), s.length(p.At.X), s.length(p.At.Y), p.Turn.Degrees())
}

// saved makes the text that was written the one that the plan was read from.
func (d *Doc) saved(text []byte) {
	d.text.text = bytes.Clone(text)
	d.loaded = deepCopy(d.Plan)
}

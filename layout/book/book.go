package book

import (
	"context"
	"strings"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/mount"
	"footplank/layout/paper"
	"footplank/layout/power"
	"footplank/layout/shopping"
	"footplank/layout/wiring"
)

// Book is a plan with what is printed of it. It makes the same documents each
// time.
type Book struct {
	p     *layout.Plan
	w     *wiring.Result
	m     *power.Result
	leads []shopping.Lead
	f     *mount.Result
}

// New works out cables, leads and fastener of a plan, which must not change while
// the book is in use. Every unit should have a place; what has none is missing.
func New(p *layout.Plan) (*Book, error) {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil, err
	}
	w := wiring.Wire(p)
	m.Route(p, w.Settled)
	return &Book{p: p, w: w, m: m, leads: shopping.Leads(p, m), f: mount.Lay(p)}, nil
}

// Shopping returns what to buy.
func (b *Book) Shopping(opt shopping.Options) *shopping.List { return shopping.Of(b.p, b.w, b.m, opt) }

func (b *Book) unit() layout.LengthUnit { return b.p.Measure() }

// num writes a length as a tape measure shows it, length with its unit.
func (b *Book) num(l layout.Length) string    { return l.Tape(b.unit()) }
func (b *Book) length(l layout.Length) string { return b.num(l) + " " + string(b.unit()) }

// measure names the player's unit in a sentence.
func (b *Book) measure() string {
	if b.unit() == layout.Inches {
		return "inches"
	}
	return "mm"
}

func (b *Book) point(p layout.Point) string { return b.num(p.X) + ", " + b.num(p.Y) }

func (b *Book) size(r layout.Rect) string { return b.num(r.W()) + " x " + b.num(r.D()) }

// name is a unit's label, with its ID where another has the same label or the
// fonts of a PDF cannot write it; ends of the chain are their own names.
func (b *Book) name(id string) string {
	u := b.p.Unit(id)
	if u == nil {
		return id
	}
	if _, whole := paper.Drawable(u.Label, paper.Regular); !whole {
		return u.Label + " (" + id + ")"
	}
	for i := range b.p.Units {
		if v := &b.p.Units[i]; v != u && v.Label == u.Label {
			return u.Label + " (" + id + ")"
		}
	}
	return u.Label
}

func (b *Book) jack(r layout.JackRef) string {
	if r.Jack == "" {
		return b.name(r.Unit)
	}
	return b.name(r.Unit) + " " + r.Jack
}

// every says in which line-ups something is.
func (b *Book) every(lineups []string) string {
	if len(lineups) == len(b.p.Lineups) {
		return "every line-up"
	}
	return strings.Join(lineups, ", ")
}

// chosen returns the line-ups of those names, all for none.
func (b *Book) chosen(names []string) []*layout.Lineup {
	var out []*layout.Lineup
	for i := range b.p.Lineups {
		l := &b.p.Lineups[i]
		take := len(names) == 0
		for _, n := range names {
			take = take || n == l.Name
		}
		if take {
			out = append(out, l)
		}
	}
	return out
}

func (b *Book) title(what string) string {
	if b.p.Title == "" {
		return what
	}
	return what + ": " + b.p.Title
}

// carry writes a mass that is lifted.
func (b *Book) carry(m layout.Mass) string { return m.Carried(b.unit()) }

func table(head ...string) *document.Table { return &document.Table{Head: head} }

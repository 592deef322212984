package shopping

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Options say how to make a list.
type Options struct {
	Way string // ByRule, Reel or Made
}

// Make returns what to buy for the plan as it stands. The error is the power
// map's.
func Make(p *layout.Plan, opt Options) (*List, error) {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil, err
	}
	w := wiring.Wire(p)
	m.Route(p, w.Settled)
	return Of(p, w, m, opt), nil
}

// Of is Make for a plan whose cables and leads are known already.
func Of(p *layout.Plan, w *wiring.Result, m *power.Result, opt Options) *List {
	k := newKit(p, w)
	l := &List{Schema: Schema, Title: p.Title, Items: []Item{}, Unplaced: append([]string{}, p.Unplaced()...), Notes: []string{}}
	leads := Leads(p, m)
	l.add(units(p)...)
	l.add(board(p)...)
	l.Way, l.Why = k.way(opt.Way)
	l.add(k.items(l.Way)...)
	l.add(leadItems(p, leads)...)
	l.add(tour(m)...)
	l.add(fastener(p)...)
	l.add(labels(len(k.make)+len(k.have), len(leads))...)
	for i := range l.Items {
		l.Items[i].price(p.Prices)
	}
	l.Totals, l.Unpriced = totals(l.Items)
	l.other(p, k)
	l.notes(p, leads)
	return l
}

func (l *List) add(items ...Item) { l.Items = append(l.Items, items...) }

// other prices the cables the other way.
func (l *List) other(p *layout.Plan, k *kit) {
	if len(k.make) == 0 {
		return
	}
	way := Made
	if l.Way == Made {
		way = Reel
	}
	items := k.items(way)
	for i := range items {
		items[i].price(p.Prices)
	}
	sums, unpriced := totals(items)
	l.Other = &Other{way, sums, unpriced}
}

func (l *List) notes(p *layout.Plan, leads []Lead) {
	note := func(s string) { l.Notes = append(l.Notes, s) }
	if slices.ContainsFunc(leads, func(d Lead) bool { return d.Reversing }) {
		note("A reversed lead can be a plain one with a polarity adaptor. Mark it at both ends: on the wrong unit it does harm.")
	}
	if slices.ContainsFunc(leads, func(d Lead) bool { return d.Short }) {
		note("Some lead is longer than any ready-made one here: have it made, of the wire that the power map gives.")
	}
	if slices.ContainsFunc(l.Items, func(it Item) bool { return it.Group == Board && it.Buy > 0 }) && p.Board.Kind != layout.Rails {
		note("Sheet is sold in standard sizes: ask for offcuts, and have it sawn where you buy it.")
	}
	if slices.ContainsFunc(l.Items, func(it Item) bool { return it.Measure == Metres && it.Buy > 0 }) && p.Measure() == layout.Inches {
		note("1 m is 3.3 ft, or 1.1 yards.")
	}
	if names := unused(p, l.Items); len(names) > 0 {
		note("Prices in the plan that nothing in this list asks for: " + strings.Join(names, ", ") + ".")
	}
}

// unused returns the prices that nothing in the list has, whichever way its
// cables come.
func unused(p *layout.Plan, items []Item) []string {
	var out []string
	for name := range p.Prices {
		base, _ := split(name)
		known := base == "cable" || base == "patch cable" || base == "lead" || p.Unit(name) != nil || isPlug(p, name) || name == "board"
		for i := range items {
			b, _ := split(items[i].Name)
			known = known || b == base
		}
		if !known {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

// count is an item of pieces.
func count(group, name, what string, need, owned int) Item {
	owned = min(owned, need)
	return Item{Group: group, Name: name, What: what, Measure: Pieces,
		Need: float64(need), Owned: float64(owned), Buy: float64(need - owned)}
}

// metres returns a length in metres, rounded up to whole centimetres.
func metres(l layout.Length) float64 {
	return float64((l+layout.Centimetre-1)/layout.Centimetre) / 100
}

// wholeMetres is how patch cable is sold: common practice, no source.
func wholeMetres(l layout.Length) float64 {
	return math.Ceil(float64(l) / float64(1000*layout.Millimetre))
}

// units lists the units that are not there yet.
func units(p *layout.Plan) (out []Item) {
	for i := range p.Units {
		u := &p.Units[i]
		if !u.ToBuy {
			continue
		}
		what := u.Label
		if u.Form != "" {
			what += ", " + u.Form
		}
		out = append(out, count(Units, u.ID, what, 1, 0))
	}
	return out
}

// board lists the board, with its sheets of wood in words.
func board(p *layout.Plan) []Item {
	b, u := &p.Board, p.Measure()
	size := func(w, d, t layout.Length) string {
		return fmt.Sprintf("%s x %s x %s %s", w.Tape(u), d.Tape(u), t.Tape(u), u)
	}
	var parts []string
	if b.Kind == layout.Rails {
		for _, r := range b.Rails {
			parts = append(parts, "rail "+size(r.At.W(), r.At.D(), b.Thickness))
		}
		parts = tally(parts)
	} else {
		parts = []string{"deck " + size(b.W, b.D, b.Thickness)}
	}
	for _, r := range b.Risers {
		parts = append(parts, fmt.Sprintf("%s %s", r.Name, size(r.At.W(), r.At.D(), r.Thickness)))
		var legs []string
		for _, g := range r.Legs {
			legs = append(legs, fmt.Sprintf("leg of %s %s", r.Name, size(g.At.W(), g.At.D(), r.Height-r.Thickness)))
		}
		parts = append(parts, tally(legs)...)
	}
	what := strings.Join(parts, "; ")
	if b.Material != "" {
		what = b.Material + ": " + what
	}
	if b.Kind != layout.Rails {
		if u == layout.Inches {
			what += fmt.Sprintf("; %.1f sq ft of sheet", area(b)/0.09290304)
		} else {
			what += fmt.Sprintf("; %.2f m² of sheet", area(b))
		}
	}
	owned := 0
	if p.Owned.Board {
		owned = 1
	}
	return []Item{count(Board, "board", what, 1, owned)}
}

// area returns the sheet that a board takes, saw cuts and waste left out, in m².
// A leg is as high as its riser less the platform, and as long as the longer side
// of its foot.
func area(b *layout.Board) float64 {
	m2 := func(w, d layout.Length) float64 { return w.MM() * d.MM() / 1e6 }
	sum := m2(b.W, b.D)
	for _, r := range b.Risers {
		sum += m2(r.At.W(), r.At.D())
		for _, g := range r.Legs {
			sum += m2(max(g.At.W(), g.At.D()), r.Height-r.Thickness)
		}
	}
	return sum
}

// tally puts equal texts together: "2 x leg".
func tally(parts []string) (out []string) {
	n := map[string]int{}
	for _, s := range parts {
		if n[s]++; n[s] == 1 {
			out = append(out, s)
		}
	}
	for i, s := range out {
		if n[s] > 1 {
			out[i] = fmt.Sprintf("%d x %s", n[s], s)
		}
	}
	return out
}

// tour lists the mains leads that supplies need abroad, and the travel plugs that
// adaptors do.
func tour(m *power.Result) []Item {
	n := map[string]map[string]bool{}
	var names []string
	for _, s := range m.Tour {
		if s.Plug == "" {
			continue
		}
		name := "mains lead "
		if s.Adaptor {
			name = "travel plug "
		}
		name += strings.Join(strings.Split(s.Country.Earthed(), ""), "/")
		if n[name] == nil {
			names = append(names, name)
			n[name] = map[string]bool{}
		}
		n[name][s.Supply] = true
	}
	var out []Item
	for _, name := range names {
		what := "for the tour, earthed; ask the venue which plug"
		if strings.HasPrefix(name, "travel") {
			what = "for a supply's adaptor on tour; ask the venue which plug"
		}
		out = append(out, count(Power, name, what, len(n[name]), 0))
	}
	return out
}

// labels lists labels for both ends of cables and leads.
func labels(cables, leads int) []Item {
	if cables+leads == 0 {
		return nil
	}
	return []Item{count(Labels, "cable label", fmt.Sprintf("for both ends of cables (%d) and leads (%d); paper and clear tape will do", cables, leads), 2*(cables+leads), 0)}
}

package plan

import (
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

const (
	maxOwned  = 200 // cables, leads, ... of different kinds
	maxPieces = 999 // of one kind
	maxPrices = 500
)

// What a player may own, generously.
var (
	cableLength = span{20 * layout.Millimetre, 50_000 * layout.Millimetre}
	rollWidth   = span{5 * layout.Millimetre, 500 * layout.Millimetre}
	rollLength  = span{10 * layout.Millimetre, layout.MaxLength}
)

// readOwned reads what the player has already.
func (r *reader) readOwned(top view) {
	v, ok := top.sub("owned", "reel", "cable", "lead", "plug", "roll")
	if !ok {
		return
	}
	o := &r.plan.Owned
	o.Reel, _ = v.length("reel", reelLength)
	each := func(key string, keys []string, read func(t view)) {
		for i, n := range v.tables(key, maxOwned) {
			read(r.table(n, fmt.Sprintf("owned: %s %d", key, i+1), n.off, keys...))
		}
	}
	each("cable", []string{"name", "length", "plugs", "count"}, func(t view) {
		c := layout.OwnedCable{Plugs: t.plugs("plugs"), Count: t.count()}
		c.Name, _ = t.text("name")
		t.need("length", "how long it is as sold")
		c.Length, _ = t.length("length", cableLength)
		o.Cables = append(o.Cables, c)
	})
	each("lead", []string{"length", "reversed", "count"}, func(t view) {
		l := layout.OwnedLead{Count: t.count()}
		t.need("length", "how long it is")
		l.Reversed, _ = t.flag("reversed")
		l.Length, _ = t.length("length", cableLength)
		o.Leads = append(o.Leads, l)
	})
	each("plug", []string{"form", "count"}, func(t view) {
		p := layout.OwnedPlug{Count: t.count()}
		if t.need("form", "the name of a plug of the catalog") {
			p.Form, _ = t.plugForm(t.value("form"), "form")
		}
		o.Plugs = append(o.Plugs, p)
	})
	each("roll", []string{"kind", "width", "length"}, func(t view) {
		var l layout.OwnedRoll
		t.need("kind", anyOf(fastenerKinds))
		l.Kind, _ = t.word("kind", fastenerKinds...)
		t.need("width", "that of the roll")
		l.Width, _ = t.length("width", rollWidth)
		t.need("length", "how much is left of it")
		l.Length, _ = t.length("length", rollLength)
		o.Rolls = append(o.Rolls, l)
	})
}

var fastenerKinds = []string{catalog.Interlock, catalog.HookAndLoop}

func (v view) count() int {
	if n, ok := v.whole("count", 1, maxPieces); ok {
		return n
	}
	return 1
}

// plugs reads a list with a cable's two plugs, or one name for both; "" is a plug
// that is not known.
func (v view) plugs(key string) (out [2]string) {
	n := v.value(key)
	if n == nil {
		return out
	}
	if n.kind == stringKind {
		out[0], _ = v.plugForm(n, key)
		out[1] = out[0]
		return out
	}
	items, _ := v.list(key, 2, "its two plugs")
	for i, n := range items {
		if n.kind != stringKind || n.text != "" {
			out[i], _ = v.plugForm(n, key)
		}
	}
	return out
}

// plugForm reads the name of a plug of the catalog.
func (v view) plugForm(n *node, key string) (string, bool) {
	if n.kind == stringKind {
		if _, ok := v.forms.Plug(n.text); ok {
			return n.text, true
		}
	}
	var names []string
	for _, p := range v.forms.Plugs() {
		names = append(names, p.Name)
	}
	v.errorf(n.off, "%s: found %s, which is no plug: %s", key, n.found(), wanted(n.text, names))
	return "", false
}

// readPrices reads what things cost. The names are those of a shopping list; one
// that is nearly the name of something is taken for a slip.
func (r *reader) readPrices(top view) {
	e := top.n.get("prices")
	if e == nil {
		return
	}
	if e.value.kind != tableKind {
		top.errorf(e.value.off, "prices: found %s, want a table like { \"phone-flat\" = \"€4.10\" }", e.value.found())
		return
	}
	v := view{r, e.value, "prices", e.value.off}
	if len(v.n.keys) > maxPrices {
		v.errorf(v.n.keys[maxPrices].off, "number %d, want at most %d", maxPrices+1, maxPrices)
		return
	}
	words := r.pricedWords()
	for _, k := range v.n.keys {
		name := k.name
		switch {
		case name == "" || !showable(name) || len(name) > maxText:
			v.errorf(k.off, "found %q, want the name of something on a shopping list", layout.Shortened(name))
			continue
		case r.priceAt[name] > 0:
			v.errorf(k.off, "the price of %q is given already, in %s", name, r.line(r.priceAt[name]))
			continue
		}
		if first, _, _ := strings.Cut(name, " "); !slices.Contains(words, name) && !slices.Contains(words, first) {
			if near := catalog.Nearest(name, words); near != "" {
				v.errorf(k.off, "there is nothing called %q: did you mean %q?", name, near)
				continue
			}
		}
		if p, ok := v.priceOf(k.value, name); ok {
			r.setPrice(name, p)
		}
	}
}

// pricedWords returns the names in a shopping list, or the first word of those
// that go on with a length.
func (r *reader) pricedWords() []string {
	words := append([]string{"board", "patch cable", "cable", "lead"}, fastenerKinds...)
	for _, p := range r.forms.Plugs() {
		words = append(words, p.Name)
	}
	return append(words, r.unitIDs()...)
}

func (r *reader) setPrice(name string, p layout.Price) {
	if r.plan.Prices == nil {
		r.plan.Prices = map[string]layout.Price{}
	}
	r.plan.Prices[name] = p
}

// ownPrice reads the price of the board or of a unit in its own table.
func (v view) ownPrice(name string) {
	n := v.value("price")
	if n == nil {
		return
	}
	if at, twice := v.priceAt[name]; twice {
		v.errorf(n.off, "price: that of %q is given already, in %s: want the unit called something else", name, v.line(at))
		return
	}
	if p, ok := v.priceOf(n, "price"); ok {
		v.setPrice(name, p)
		v.priceAt[name] = n.off
	}
}

func (v view) priceOf(n *node, key string) (layout.Price, bool) {
	if n.kind != stringKind {
		v.errorf(n.off, "%s: found %s, want text with its currency, like \"€4.10\" or \"12 kr\"", key, n.found())
		return layout.Price{}, false
	}
	p, err := layout.ParsePrice(n.text)
	if err != nil {
		v.errorf(n.off, "%s: %s", key, strings.TrimPrefix(err.Error(), "price "))
		return layout.Price{}, false
	}
	return p, true
}

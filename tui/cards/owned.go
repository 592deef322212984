package cards

import (
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
	"footplank/tui/form"
)

// Owned is the card of one kind of what the player has: a cable, a lead, a plug
// or a roll by its index, a new one behind the last.
func (s Shop) Owned(kind string, i int) *form.Form {
	f := &form.Form{Title: "What you have: " + kind, Name: "owned", Subject: kind, What: "change what is owned"}
	switch kind {
	case "cable":
		s.ownCable(f, i)
	case "lead":
		s.ownLead(f, i)
	case "plug":
		s.ownPlug(f, i)
	case "roll":
		s.ownRoll(f, i)
	case "reel":
		f.Fields = []*form.Field{form.LengthOrNone("Patch cable left", s.Plan.Owned.Reel, s.unit(), "none", func(p *layout.Plan, l layout.Length) error {
			p.Owned.Reel = l
			return nil
		})}
	}
	return f
}

// own binds a card to the ith of a list of what is owned; the one behind the last
// is put there first.
func own[T any](f *form.Form, of func(o *layout.Owned) *[]T, now *layout.Owned, i int, fresh T) (T, func(do func(x *T)) func(p *layout.Plan) error) {
	x := fresh
	if list := *of(now); i < len(list) {
		x = list[i]
	} else {
		f.Fresh, f.What = true, "add to what is owned"
		f.Begin = func(p *layout.Plan) error {
			*of(&p.Owned) = append(slices.Clip(*of(&p.Owned)), fresh)
			return nil
		}
	}
	return x, func(do func(x *T)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error {
			list := slices.Clone(*of(&p.Owned))
			if i >= len(list) {
				return fmt.Errorf("it is not there any more")
			}
			do(&list[i])
			*of(&p.Owned) = list
			return nil
		}
	}
}

func count(n int, set func(n int) func(p *layout.Plan) error) *form.Field {
	return form.Whole("How many", n, 1, 999, "of that kind", func(p *layout.Plan, n int) error { return set(n)(p) })
}

func (s Shop) length(l layout.Length, set func(l layout.Length) func(p *layout.Plan) error) *form.Field {
	return form.Length("Length", l, s.unit(), func(p *layout.Plan, l layout.Length) error { return set(l)(p) })
}

func (s Shop) plugs(first form.Option, kinds ...layout.JackKind) []form.Option {
	var out []form.Option
	if first.Text != "" {
		out = append(out, first)
	}
	for _, f := range s.Forms.Plugs() {
		if len(kinds) == 0 || slices.Contains(kinds, f.Kind) {
			out = append(out, form.Option{Value: f.Name, Text: f.Name})
		}
	}
	return out
}

func (s Shop) ownCable(f *form.Form, i int) {
	c, on := own(f, func(o *layout.Owned) *[]layout.OwnedCable { return &o.Cables }, &s.Plan.Owned, i,
		layout.OwnedCable{Length: 150 * layout.Millimetre, Count: 1})
	whichever := form.Option{Value: "", Text: "any that fits"}
	kinds := []layout.JackKind{layout.Phone, layout.MiniTRS, layout.XLR, layout.DIN}
	end := func(label string, k int) *form.Field {
		return form.OneOf(label, c.Plugs[k], "the plug on that end", s.plugs(whichever, kinds...), func(p *layout.Plan, v string) error {
			return on(func(c *layout.OwnedCable) { c.Plugs[k] = v })(p)
		})
	}
	f.Fields = []*form.Field{
		s.length(c.Length, func(l layout.Length) func(p *layout.Plan) error {
			return on(func(c *layout.OwnedCable) { c.Length = l })
		}),
		count(c.Count, func(n int) func(p *layout.Plan) error { return on(func(c *layout.OwnedCable) { c.Count = n }) }),
		end("One end", 0), end("Other end", 1),
		form.Words("What you call them", c.Name, "may stay empty", func(p *layout.Plan, v string) error {
			return on(func(c *layout.OwnedCable) { c.Name = strings.TrimSpace(v) })(p)
		}),
	}
}

func (s Shop) ownLead(f *form.Form, i int) {
	x, on := own(f, func(o *layout.Owned) *[]layout.OwnedLead { return &o.Leads }, &s.Plan.Owned, i,
		layout.OwnedLead{Length: 500 * layout.Millimetre, Count: 1})
	f.Fields = []*form.Field{
		s.length(x.Length, func(l layout.Length) func(p *layout.Plan) error {
			return on(func(x *layout.OwnedLead) { x.Length = l })
		}),
		count(x.Count, func(n int) func(p *layout.Plan) error { return on(func(x *layout.OwnedLead) { x.Count = n }) }),
		form.YesNo("Reversing", x.Reversed, "yes: for centre-positive units", func(p *layout.Plan, is bool) error {
			return on(func(x *layout.OwnedLead) { x.Reversed = is })(p)
		}),
	}
}

func (s Shop) ownPlug(f *form.Form, i int) {
	all := s.plugs(form.Option{})
	x, on := own(f, func(o *layout.Owned) *[]layout.OwnedPlug { return &o.Plugs }, &s.Plan.Owned, i,
		layout.OwnedPlug{Form: "phone-right-angle", Count: 1})
	f.Fields = []*form.Field{
		form.OneOf("Plug", x.Form, "loose plugs of a form", all, func(p *layout.Plan, v string) error {
			return on(func(x *layout.OwnedPlug) { x.Form = v })(p)
		}),
		count(x.Count, func(n int) func(p *layout.Plan) error { return on(func(x *layout.OwnedPlug) { x.Count = n }) }),
	}
}

func (s Shop) ownRoll(f *form.Form, i int) {
	x, on := own(f, func(o *layout.Owned) *[]layout.OwnedRoll { return &o.Rolls }, &s.Plan.Owned, i,
		layout.OwnedRoll{Kind: catalog.Interlock, Width: 25 * layout.Millimetre, Length: 1000 * layout.Millimetre})
	f.Fields = []*form.Field{
		form.OneOf("Kind", x.Kind, "of fastener", []form.Option{{Value: catalog.Interlock, Text: catalog.Interlock}, {Value: catalog.HookAndLoop, Text: catalog.HookAndLoop}},
			func(p *layout.Plan, v string) error { return on(func(x *layout.OwnedRoll) { x.Kind = v })(p) }),
		form.Length("Width", x.Width, s.unit(), func(p *layout.Plan, l layout.Length) error {
			return on(func(x *layout.OwnedRoll) { x.Width = l })(p)
		}),
		s.length(x.Length, func(l layout.Length) func(p *layout.Plan) error {
			return on(func(x *layout.OwnedRoll) { x.Length = l })
		}),
	}
}

// Price is the card of what something on the shopping list costs.
func (s Shop) Price(what string) *form.Form {
	f := &form.Form{Title: "What it costs", Name: "price", Subject: what, What: "change a price"}
	price, known := s.Plan.Prices[what]
	name := what
	if what == "" {
		f.Title, f.What, f.Fresh = "A new price", "add a price", true
		f.Intro = "By the name that the shopping list gives the thing: phone-flat, birch-plywood, interlock 25mm."
	}
	f.Begin = func(*layout.Plan) error { name = what; return nil }
	thing := form.Words("What", what, "a name of the shopping list", func(p *layout.Plan, v string) error {
		if v == "" {
			return fmt.Errorf("want the name of the thing")
		}
		name = v
		return nil
	})
	thing.Always = what == ""
	cost := form.Money("Price", price, known, func(p *layout.Plan, v layout.Price, known bool) error {
		if !known {
			return fmt.Errorf("want a price; x in the list takes it away")
		}
		if name != what {
			delete(p.Prices, what)
		}
		return setPrice(p, name, v, true)
	})
	cost.Always = true
	f.Fields = []*form.Field{thing, cost}
	return f
}

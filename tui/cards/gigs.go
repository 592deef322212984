package cards

import (
	"cmp"
	"fmt"
	"strings"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Slot is the card of a slot, or with "" of a new one.
func (s Shop) Slot(old string) *form.Form {
	const mm = layout.Millimetre
	b := &s.Plan.Board
	slot := layout.Slot{On: layout.DeckName, At: layout.RectAt(layout.Point{X: b.W / 2 / mm * mm}, b.W-b.W/2/mm*mm, max(b.D/2/mm*mm, mm))}
	f := &form.Form{Title: "Slot " + old, Name: "slot", Subject: old, What: "change slot " + old,
		Intro: "On the board, drag it by its middle, or by an edge or a corner."}
	is, chain := old, false
	f.Begin = func(*layout.Plan) error { is, chain = old, false; return nil }
	if x := s.Plan.Slot(old); x != nil {
		slot = *x
	} else {
		old = edit.FreeName("colour", func(n string) bool { return s.Plan.Slot(n) != nil })
		slot.Name = old
		f.Title, f.Subject, f.What, f.Fresh = "A new slot", old, "add a slot", true
		f.Intro = "A region of the board whose units change from gig to gig. On the board, drag it by its middle, or by an edge or a corner."
		fresh := slot
		f.Begin = func(p *layout.Plan) error { is, chain = old, false; return p.AddSlot(fresh) }
	}
	surface := form.OneOf("Surface", slot.On, "what it lies on", s.surfaces(), func(p *layout.Plan, v string) error {
		return onSlot(old, func(x *layout.Slot) { x.On = v })(p)
	})
	place := s.spot(slot.At, func(p *layout.Plan, change func(r layout.Rect) layout.Rect) error {
		return onSlot(old, func(x *layout.Slot) { x.At = change(x.At) })(p)
	})
	f.Fields = append([]*form.Field{name("Name", old, &is), surface}, place...)
	if f.Fresh {
		surface.Then = s.follow(slot.At, place)
		in := form.YesNo("In the chain", true, "yes: the signal passes what is in it", func(_ *layout.Plan, is bool) error { chain = is; return nil })
		in.Always = true
		f.Fields = append(f.Fields, in)
	}
	f.Finish = func(p *layout.Plan) error {
		if chain {
			edit.AddStop(p, layout.Stop{Slot: old}, len(p.Chain.Stops))
		}
		return p.RenameSlot(old, is)
	}
	return f
}

// onSlot makes a change of the slot of that name one of a plan.
func onSlot(name string, do func(x *layout.Slot)) func(p *layout.Plan) error {
	return func(p *layout.Plan) error {
		x := p.Slot(name)
		if x == nil {
			return fmt.Errorf("there is no slot %q any more", name)
		}
		do(x)
		return nil
	}
}

// surfaces are the surfaces of the board to choose from.
func (s Shop) surfaces() (out []form.Option) {
	for _, x := range s.Plan.Board.Surfaces() {
		out = append(out, form.Option{Value: x.Name, Text: x.Name})
	}
	return out
}

// follow lets the place of a new slot, as long as nobody typed one, become all of the
// surface that is chosen, and the usual part of the deck again.
func (s Shop) follow(deck layout.Rect, place []*form.Field) func(f *form.Form, surface string) {
	shown := func(r layout.Rect) (out []string) {
		for _, x := range s.spot(r, nil) {
			out = append(out, x.Value())
		}
		return out
	}
	given := shown(deck)
	return func(_ *form.Form, surface string) {
		at := deck
		if x, ok := s.Plan.Board.Surface(surface); ok && surface != layout.DeckName {
			at = x.At
		}
		for i, x := range place {
			if x.Value() != given[i] {
				return
			}
		}
		given = shown(at)
		for i, x := range place {
			x.With(given[i])
		}
	}
}

// Lineup is the card of a line-up, or with "" of a new one, like another or empty.
func (s Shop) Lineup(old, like string) *form.Form {
	f := &form.Form{Title: "Line-up " + old, Name: "lineup", Subject: old, What: "rename line-up " + old}
	if old == "" {
		f.Title, f.What, f.Fresh = "A new line-up", "add a line-up", true
		f.Intro = "One gig's choice of units for the slots."
		if like != "" {
			f.Intro = "It begins with the units and the places of " + like + "."
		}
	}
	fresh := old
	if old == "" {
		fresh = edit.FreeName(cmp.Or(like, "gig"), func(n string) bool { return s.Plan.LineupNamed(n) != nil })
	}
	x := form.Words("Name", fresh, "the gig: barn, pit, church", func(p *layout.Plan, v string) error {
		switch {
		case strings.TrimSpace(v) == "":
			return fmt.Errorf("want a name")
		case old == "":
			return p.AddLineup(v, like)
		}
		return p.RenameLineup(old, v)
	})
	x.Always = old == ""
	f.Fields = []*form.Field{x}
	return f
}

// Gigs is the card that begins what changes from gig to gig: the names of the
// line-ups and of the slots.
func (s Shop) Gigs() *form.Form {
	p := s.Plan
	lineups, slots := make([]string, len(p.Lineups)), make([]string, len(p.Slots))
	for i := range p.Lineups {
		lineups[i] = p.Lineups[i].Name
	}
	for i := range p.Slots {
		slots[i] = p.Slots[i].Name
	}
	f := &form.Form{Title: "New plan, 3 of 4: your gigs", Name: "gigs", What: "name gigs and slots", Take: "next",
		Intro: "Nothing changes from gig to gig? Then enter goes on. Else name your gigs, and a slot for the units that change: a part of the board."}
	f.Fields = []*form.Field{
		form.Words("Gigs", strings.Join(lineups, ", "), "names with commas: barn, pit, church; all: the same units at each", func(p *layout.Plan, v string) error {
			names := split(v, ",")
			if len(names) == 0 {
				return fmt.Errorf("want at least one name: all, if you need no other")
			}
			return edit.NameLineups(p, names)
		}),
		unless(form.Words("Slots", strings.Join(slots, ", "), "names with commas, like: colour, space; empty: no unit changes", func(p *layout.Plan, v string) error {
			return edit.NameSlots(p, split(v, ", "))
		}), "no unit changes"),
	}
	return f
}

// split returns what stands between separators, without what is empty.
func split(s, separators string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(separators, r) }) {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// Stop is the card of a stop of the chain: the jacks that the signal takes.
func (s Shop) Stop(i int) *form.Form {
	if i < 0 || i >= len(s.Plan.Chain.Stops) {
		return nil
	}
	stop := s.Plan.Chain.Stops[i]
	u := s.Plan.Unit(stop.Unit)
	if u == nil {
		return nil
	}
	f := &form.Form{Title: u.Label + " in the chain", Name: "stop", What: "change the jacks of " + u.Label + " in the chain",
		Intro: "By other jacks than in and out a unit can stand in the chain twice: preamp in>send, then preamp return>out."}
	options := func(dir layout.Direction) (all []form.Option) {
		for _, j := range u.Jacks {
			if j.Dir == dir && j.CarriesSignal() {
				all = append(all, form.Option{Value: j.ID, Text: j.ID})
			}
		}
		return all
	}
	side := func(label string, dir layout.Direction, now string, set func(p *layout.Plan, v string) error) *form.Field {
		return form.OneOf(label, now, "the jack on its side", options(dir), set)
	}
	in, out := cmp.Or(stop.In, "in"), cmp.Or(stop.Out, "out")
	if one := func(dir layout.Direction) bool { return len(options(dir)) < 2 }; one(layout.In) && one(layout.Out) {
		f.Intro = "It has one jack for the signal to come in by and one to leave by: there is nothing to choose here."
	}
	f.Fields = []*form.Field{
		side("Comes in by", layout.In, in, func(p *layout.Plan, v string) error {
			return edit.SetStop(p, i, v, cmp.Or(p.Chain.Stops[i].Out, "out"))
		}),
		side("Leaves by", layout.Out, out, func(p *layout.Plan, v string) error {
			return edit.SetStop(p, i, cmp.Or(p.Chain.Stops[i].In, "in"), v)
		}),
	}
	return f
}

// Link is the card of a cable beside the chain, of a new one behind the last.
func (s Shop) Link(i int) *form.Form {
	f := &form.Form{Title: "A cable beside the chain", Name: "link", What: "change a cable beside the chain",
		Intro: "Such as from a tuner output to the tuner, or from a DI to the desk."}
	from, to := s.ends(layout.Out), s.ends(layout.In)
	if len(from) == 0 || len(to) == 0 {
		return nil
	}
	k := layout.Link{From: refOf(from[0].Value), To: refOf(to[len(to)-1].Value)}
	if i < len(s.Plan.Chain.Links) {
		k = s.Plan.Chain.Links[i]
	} else {
		f.Title, f.What, f.Fresh = "A new cable beside the chain", "add a cable beside the chain", true
		fresh := k
		f.Begin = func(p *layout.Plan) error { edit.SetLink(p, len(p.Chain.Links), fresh); return nil }
	}
	set := func(do func(k *layout.Link, r layout.JackRef)) func(p *layout.Plan, v string) error {
		return func(p *layout.Plan, v string) error {
			if i >= len(p.Chain.Links) {
				return fmt.Errorf("there is no such cable any more")
			}
			k := p.Chain.Links[i]
			do(&k, refOf(v))
			edit.SetLink(p, i, k)
			return nil
		}
	}
	f.Fields = []*form.Field{
		form.OneOf("From", refText(k.From), "an output", from, set(func(k *layout.Link, r layout.JackRef) { k.From = r })),
		form.OneOf("To", refText(k.To), "an input, or off the board", to, set(func(k *layout.Link, r layout.JackRef) { k.To = r })),
	}
	return f
}

// ends are the jacks of a direction that a cable can go to, then what is off the
// board.
func (s Shop) ends(dir layout.Direction) (out []form.Option) {
	for i := range s.Plan.Units {
		u := &s.Plan.Units[i]
		for _, j := range u.Jacks {
			if j.Dir == dir && j.CarriesSignal() {
				out = append(out, form.Option{Value: u.ID + "/" + j.ID, Text: u.Label + ", " + j.ID})
			}
		}
	}
	if dir == layout.Out {
		return append(append(out, form.Option{Value: layout.Instrument, Text: "the instrument"}), ends...)
	}
	return append(out, ends...)
}

func refOf(s string) layout.JackRef {
	u, j, _ := strings.Cut(s, "/")
	return layout.JackRef{Unit: u, Jack: j}
}

func refText(r layout.JackRef) string {
	if r.Jack == "" {
		return r.Unit
	}
	return r.Unit + "/" + r.Jack
}

package cards

import (
	"fmt"
	"strconv"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Place is the card of where a unit stands: in every line-up, or, of a unit that
// is in slots, in the one of that name.
func (s Shop) Place(id, lineup string) *form.Form {
	u, l := s.Plan.Unit(id), s.Plan.LineupNamed(lineup)
	if u == nil || l == nil {
		return nil
	}
	b := unitCard{s, id, u}
	pl, stands := s.Plan.PlaceOf(l, u)
	f := &form.Form{Title: "Where " + u.Label + " stands", Name: "place", Subject: id, Unit: id, What: "place " + u.Label,
		Intro: "The front-left corner of its turned body. The mouse drags it on the board, too."}
	if s.Plan.InSlots(id) {
		f.Title += " in line-up " + lineup
	}
	surface := ""
	if stands {
		surface = pl.On
	}
	options := append([]form.Option{{Value: "", Text: "nowhere yet"}}, s.surfaces()...)
	var turns []form.Option
	for t := range layout.Turn(4) {
		n := strconv.Itoa(t.Degrees())
		turns = append(turns, form.Option{Value: n, Text: n + " degrees"})
	}
	at := func(do func(pl *layout.Placement)) func(p *layout.Plan) error {
		return func(p *layout.Plan) error { return b.place(p, lineup, do) }
	}
	f.Fields = []*form.Field{
		form.OneOf("Stands on", surface, "the surface that it stands on", options, func(p *layout.Plan, v string) error {
			return b.standOn(p, lineup, v)
		}),
		about(form.Length(FromLeft, pl.At.X, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return at(func(pl *layout.Placement) { pl.At.X = l })(p)
		}), "of its left edge, from the board's"),
		about(form.Length(FromFront, pl.At.Y, b.unit(), func(p *layout.Plan, l layout.Length) error {
			return at(func(pl *layout.Placement) { pl.At.Y = l })(p)
		}), "of its front edge, from the board's"),
		form.OneOf("Turned", strconv.Itoa(pl.Turn.Degrees()), "clockwise, seen from above", turns, func(p *layout.Plan, v string) error {
			n, _ := strconv.Atoi(v)
			t, err := layout.TurnOf(n)
			if err != nil {
				return err
			}
			return at(func(pl *layout.Placement) { pl.Turn = t })(p)
		}),
	}
	return f
}

// place changes where the unit stands in a line-up.
func (b unitCard) place(p *layout.Plan, lineup string, do func(pl *layout.Placement)) error {
	u, l := p.Unit(b.id), p.LineupNamed(lineup)
	if u == nil || l == nil {
		return fmt.Errorf("it is not there any more")
	}
	pl, ok := p.PlaceOf(l, u)
	if !ok {
		return fmt.Errorf("first say above what it stands on")
	}
	do(&pl)
	p.SetPlace(l, u, pl)
	return nil
}

// standOn puts the unit onto a surface, or with "" takes it off the board.
func (b unitCard) standOn(p *layout.Plan, lineup, surface string) error {
	u, l := p.Unit(b.id), p.LineupNamed(lineup)
	if u == nil || l == nil {
		return fmt.Errorf("it is not there any more")
	}
	if surface == "" {
		for i := range p.Lineups { // the others keep the place that it has where they say nothing
			o := &p.Lineups[i]
			if _, told := o.Place[u.ID]; !told && u.Place != nil && p.SlotOf(o, u.ID) != nil {
				p.SetPlace(o, u, *u.Place)
			}
		}
		delete(l.Place, u.ID)
		u.Place = nil
		return nil
	}
	pl, ok := p.PlaceOf(l, u)
	if !ok {
		pl = layout.Placement{Turn: u.AllowedTurns()[0]}
	}
	if s, known := p.Board.Surface(surface); known {
		pl = edit.Onto(u, pl, s)
	}
	p.SetPlace(l, u, pl)
	return nil
}

// placeText tells where the unit stands, in a few words.
func (b unitCard) placeText(lineup string) string {
	l := b.Plan.LineupNamed(lineup)
	if l == nil {
		return "nowhere"
	}
	pl, ok := b.Plan.PlaceOf(l, b.u)
	if !ok {
		return "nowhere yet"
	}
	text := pl.On + ", " + pl.At.X.Tape(b.unit()) + ", " + pl.At.Y.Tape(b.unit()) + string(b.unit())
	if pl.Turn != 0 {
		text += ", turned " + strconv.Itoa(pl.Turn.Degrees())
	}
	return text
}

package wiring

import (
	"fmt"

	"footplank/catalog"
	"footplank/layout"
)

// seats reports plugs of cables that cannot seat where they are, with what else
// would: the leg to another side, or another form of plug.
func (f *finder) seats() {
	placed, _ := f.p.Standings(f.l)
	s := &seating{f: f, placed: placed, obstacles: f.p.Board.Obstacles()}
	for _, box := range f.p.Board.DeckSlabs() {
		s.obstacles = append(s.obstacles, layout.Fixture{Name: "board below it", Box: box})
	}
	seen := map[layout.JackRef]bool{}
	for _, k := range f.p.ChainLinks(f.l) {
		for _, r := range []layout.JackRef{k.From, k.To} {
			if !seen[r] {
				seen[r] = true
				s.check(r)
			}
		}
	}
}

// seating is what plugs of one line-up can meet.
type seating struct {
	f         *finder
	placed    []layout.Standing
	obstacles []layout.Fixture // the board itself too
}

func (s *seating) check(r layout.JackRef) {
	for i := range s.placed {
		st := &s.placed[i]
		if st.Unit.ID != r.Unit || st.Unit.Jack(r.Jack) == nil {
			continue
		}
		j := *st.Unit.Jack(r.Jack)
		in := s.inTheWay(st, j)
		if in == "" {
			return
		}
		s.f.add(Issue{Code: PlugSeat, Level: Fault, Units: []string{r.Unit},
			Text: fmt.Sprintf("The plug (%s) in %q of %s cannot seat: %s is in its way. %s",
				j.Plug.Name, j.ID, st.Unit.Label, in, s.instead(st, j))})
		return
	}
}

// instead says what would seat: the same plug with its leg elsewhere, or
// another form.
func (s *seating) instead(st *layout.Standing, j layout.Jack) string {
	for _, leg := range legs(&j) {
		k := j
		k.Leg = leg
		if leg != j.Leg && s.inTheWay(st, k) == "" {
			return fmt.Sprintf("It seats with its leg %s.", legWords[leg])
		}
	}
	for _, p := range catalog.Builtin().Plugs() {
		if p.Kind != j.Kind || p.Name == j.Plug.Name {
			continue
		}
		k := j
		k.Plug = p.PlugForm
		for _, leg := range legs(&k) {
			if k.Leg = leg; s.inTheWay(st, k) == "" {
				return fmt.Sprintf("A plug of the form %s seats there.", p.Name)
			}
		}
	}
	return "No other form of plug would: move the unit, or what is in the way."
}

var legWords = map[layout.LegSide]string{layout.LegUp: "up", layout.LegDown: "down", layout.LegLeft: "to the unit's left",
	layout.LegRight: "to the unit's right", layout.LegFront: "to the unit's front", layout.LegBack: "to the unit's back"}

// legs returns the sides that the leg of a plug can point to; "" alone for one
// without a leg.
func legs(j *layout.Jack) []layout.LegSide {
	switch {
	case j.Plug.Leg == 0:
		return []layout.LegSide{""}
	case j.Wall == layout.Left || j.Wall == layout.Right:
		return []layout.LegSide{layout.LegUp, layout.LegFront, layout.LegBack, layout.LegDown}
	}
	return []layout.LegSide{layout.LegUp, layout.LegLeft, layout.LegRight, layout.LegDown}
}

// inTheWay names what a plug in the unit's jack j meets, or returns "".
func (s *seating) inTheWay(st *layout.Standing, j layout.Jack) string {
	u := layout.Unit{Body: st.Unit.Body, Overall: st.Unit.Overall, Jacks: []layout.Jack{j}}
	box := u.Boxes(st.Place.Turn, func(string) bool { return true })[1].Box.Move(st.Place.At, st.Z)
	for i := range s.placed {
		o := &s.placed[i]
		for _, b := range o.Boxes {
			if o.Unit == st.Unit && (b.Part != layout.PlugPart || b.Jack == j.ID) || !b.Box.Overlaps(box) {
				continue
			}
			if b.Part == layout.PlugPart {
				return fmt.Sprintf("the plug in %q of %s", b.Jack, o.Unit.Label)
			}
			return o.Unit.Label
		}
	}
	for _, o := range s.obstacles {
		if o.Box.Overlaps(box) {
			return "the " + o.Name
		}
	}
	return ""
}

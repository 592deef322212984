package plan

import (
	"fmt"
	"slices"

	"footplank/layout"
)

func (t wantedText) board() *want {
	b := &t.p.Board
	w := &want{}
	w.must("size", lengthsOf(b.W, b.D))
	w.usual(b.Kind == layout.Solid, "surface", word(b.Kind))
	w.some(b.Material != "", "material", word(b.Material))
	w.some(b.Mass != 0, "mass", mass(b.Mass))
	w.usual(b.Thickness == defaultThickness, "thickness", length(b.Thickness))
	w.edges("overhang", b.Overhang)
	w.edges("plug_room", b.PlugRoom)
	w.usual(b.Feet == 0, "feet", length(b.Feet))
	t.homePrice(w, "board")
	w.usual(!t.p.Owned.Board, "owned", flag(t.p.Owned.Board))
	rails := &wantList{}
	for _, r := range b.Rails {
		rail := &want{}
		rail.rect(r.At)
		rails.items = append(rails.items, rail)
	}
	w.under("rail", rails)
	if b.Case != nil {
		w.add(wantKey{name: "case", v: t.caseOf(b), need: must, headed: true})
	}
	risers := &wantList{id: "name"}
	for i := range b.Risers {
		risers.items = append(risers.items, t.riser(b, &b.Risers[i]))
	}
	w.under("riser", risers)
	fixtures := &wantList{}
	for i, f := range b.Fixtures {
		x := &want{}
		x.usual(f.Name == fmt.Sprintf("fixture %d", i+1), "name", word(f.Name))
		x.rect(f.Box.Rect())
		x.must("height", length(f.Box.Z1))
		x.usual(f.Box.Z0 == 0, "from", length(f.Box.Z0))
		fixtures.items = append(fixtures.items, x)
	}
	w.under("fixture", fixtures)
	return w
}

func (t wantedText) caseOf(b *layout.Board) *want {
	c := b.Case
	w := &want{}
	w.usual(c.Name == "case", "name", word(c.Name))
	w.must("inside", lengthsOf(c.Inside.W, c.Inside.D, c.Inside.H))
	w.usual(c.Below == b.Thickness+defaultFeet, "below", length(c.Below))
	w.some(c.Mass != 0, "mass", mass(c.Mass))
	return w
}

func (t wantedText) riser(b *layout.Board, s *layout.Riser) *want {
	w := &want{}
	w.must("name", word(s.Name))
	w.rect(s.At)
	w.must("height", length(s.Height))
	w.usual(s.Thickness == b.Thickness, "thickness", length(s.Thickness))
	w.usual(s.Density == b.Density, "material", density(s.Density))
	w.edges("overhang", s.Overhang)
	legs := &wantList{}
	for _, l := range s.Legs {
		leg := &want{}
		leg.rect(l.At)
		legs.items = append(legs.items, leg)
	}
	n := must
	if slices.Equal(s.Legs, s.EndPanels()) {
		n = usual
	}
	w.add(wantKey{name: "leg", v: legs, need: n, headed: true})
	return w
}

package mount

import (
	"slices"

	"footplank/layout"
)

// stand is a unit at one of its places, in the line-ups where it is there.
type stand struct {
	unit    *layout.Unit
	place   layout.Placement
	lineups []int
	kind    Kind
	base    layout.Rect
	bears   []layout.Rect // parts of the base that bear
	free    []layout.Rect // where pieces may lie: those less the margin
	spots   []layout.Rect // of free, where they may not
	parts   []layout.Rect // of the surface: itself, or its rails
	statics *statics
	slack   float64 // by how much more than its loads it is to hold
}

// stands returns the units of the plan at their places: by kind, then in the
// plan's order, for each by line-up.
func stands(p *layout.Plan) []*stand {
	var out []*stand
	surfaces := map[string]layout.Surface{}
	for _, s := range p.Board.Surfaces() {
		surfaces[s.Name] = s
	}
	here := make([]map[string]bool, len(p.Lineups))
	for i := range p.Lineups {
		here[i] = map[string]bool{}
		for _, u := range p.UnitsIn(&p.Lineups[i]) {
			here[i][u.ID] = true
		}
	}
	for _, kind := range Kinds {
		roll := RollOf(p, kind)
		for i := range p.Units {
			u := &p.Units[i]
			if KindOf(u.Mount) != kind {
				continue
			}
			from := len(out)
			for l := range p.Lineups {
				pl, ok := p.PlaceOf(&p.Lineups[l], u)
				surface, on := surfaces[pl.On]
				if !ok || !on || !here[l][u.ID] {
					continue
				}
				if k := slices.IndexFunc(out[from:], func(s *stand) bool { return s.place == pl }); k >= 0 {
					out[from+k].lineups = append(out[from+k].lineups, l)
					continue
				}
				s := newStand(p, u, pl, &surface, &roll)
				s.lineups = []int{l}
				out = append(out, s)
			}
		}
	}
	return out
}

// newStand works out where a unit bears and where its pieces may lie: its base
// less the margin, on the surface or its rails less Clear. Where a rail bears so
// little of the base's edge that the margin would leave no piece, Clear must do.
func newStand(p *layout.Plan, u *layout.Unit, pl layout.Placement, surface *layout.Surface, roll *Roll) *stand {
	s := &stand{unit: u, place: pl, kind: roll.Kind, base: u.Base(pl), slack: 1, parts: []layout.Rect{surface.At}}
	if surface.Rails != nil {
		s.parts = nil
		for _, r := range surface.Rails {
			if at := r.At.Intersect(surface.At); !at.Empty() {
				s.parts = append(s.parts, at)
			}
		}
	}
	margin := p.Fastening.Margin
	if margin <= 0 {
		margin = Margin
	}
	inner := inset(s.base, margin)
	var around, free layout.Rect
	for _, part := range s.parts {
		bears := part.Intersect(s.base)
		if bears.Empty() {
			continue
		}
		s.bears = append(s.bears, bears)
		around = around.Union(bears)
		r := inset(part, Clear)
		for _, within := range []layout.Rect{inner, inset(s.base, Clear)} {
			if r := r.Intersect(within); r.W() >= Least && r.D() >= Least {
				s.free = append(s.free, r)
				free = free.Union(r)
				break
			}
		}
	}
	slices.SortStableFunc(s.free, func(a, b layout.Rect) int {
		return cmpPoint(layout.Point{X: a.X0, Y: a.Y0}, layout.Point{X: b.X0, Y: b.Y0})
	})
	for _, spot := range u.OnBase {
		r := onBoard(u, pl, spot.At)
		s.spots = append(s.spots, r.Grow(layout.Edges{Front: Clear, Back: Clear, Left: Clear, Right: Clear}))
	}
	s.statics = newStatics(u, pl, around, free, p.Fastening.JerkG, roll.design())
	return s
}

// inset returns r less a margin all round. Where too little for a piece would
// be left, the margin is what leaves half of the width.
func inset(r layout.Rect, margin layout.Length) layout.Rect {
	x, y := margin, margin
	if r.W() < 2*margin+Least {
		x = min(margin, r.W()/4)
	}
	if r.D() < 2*margin+Least {
		y = min(margin, r.D()/4)
	}
	return layout.Rect{X0: r.X0 + x, Y0: r.Y0 + y, X1: r.X1 - x, Y1: r.Y1 - y}
}

// keepClear adds what lies on the board as something to keep clear of.
func (s *stand) keepClear(of layout.Rect) {
	of = of.Grow(layout.Edges{Front: Clear, Back: Clear, Left: Clear, Right: Clear})
	if of.Overlaps(s.base) {
		s.spots = append(s.spots, of)
	}
}

// share reports whether two units stand at least partly at one place.
func (s *stand) share(t *stand) bool {
	return s.place.On == t.place.On && s.base.Overlaps(t.base)
}

func cmpPoint(a, b layout.Point) int {
	if a.Y != b.Y {
		return int(min(max(a.Y-b.Y, -1), 1))
	}
	return int(min(max(a.X-b.X, -1), 1))
}

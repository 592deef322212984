package boards

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// loose returns the plan with each slot as large as its surface, so that what
// does not fit then does not fit wherever the slots are.
func loose(p *layout.Plan) *layout.Plan {
	q := p.Clone()
	for i := range q.Slots {
		if s, ok := q.Board.Surface(q.Slots[i].On); ok {
			q.Slots[i].At = s.At.Grow(s.Overhang)
		}
	}
	return q
}

// variants returns the plan with its slots at the places worth trying: as they
// are first, then with fewer of them moved before more.
func variants(p *layout.Plan) []*layout.Plan {
	type way struct {
		at    []layout.Rect
		moved int
	}
	ways := []way{{}}
	for i := range p.Slots {
		var next []way
		for k, at := range places(p, &p.Slots[i]) {
			for _, w := range ways {
				moved := w.moved
				if k > 0 {
					moved++
				}
				next = append(next, way{append(slices.Clone(w.at), at), moved})
			}
		}
		slices.SortStableFunc(next, func(a, b way) int { return a.moved - b.moved })
		ways = next[:min(len(next), 4*most)]
	}
	var out []*layout.Plan
	for _, w := range ways[:min(len(ways), most)] {
		q := p.Clone()
		for i := range q.Slots {
			q.Slots[i].At = w.at[i]
		}
		out = append(out, q)
	}
	return out
}

// places returns where a slot may be: where it is, and against the edges of its
// surface.
func places(p *layout.Plan, slot *layout.Slot) []layout.Rect {
	out := []layout.Rect{slot.At}
	s, ok := p.Board.Surface(slot.On)
	if !ok {
		return out
	}
	w, d := slot.At.W(), slot.At.D()
	for _, at := range []layout.Point{
		{X: s.At.X1 - w, Y: slot.At.Y0}, {X: s.At.X0, Y: slot.At.Y0},
		{X: slot.At.X0, Y: s.At.Y0}, {X: slot.At.X0, Y: s.At.Y1 - d},
	} {
		if r := layout.RectAt(at, w, d); !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// moved says which slots q has elsewhere than p.
func moved(p, q *layout.Plan) []string {
	var out []string
	for i := range p.Slots {
		a, b := &p.Slots[i], &q.Slots[i]
		if a.At != b.At {
			u := p.Measure()
			out = append(out, fmt.Sprintf("Slot %s has its front-left corner at %s, %s %s.", b.Name, b.At.X0.Number(u), b.At.Y0.Number(u), u))
		}
	}
	return out
}

// spare returns what each line-up leaves free in the slots.
func spare(p *layout.Plan) []Spare {
	if len(p.Slots) == 0 {
		return nil
	}
	var out []Spare
	for i := range p.Lineups {
		placed, _ := p.Standings(&p.Lineups[i])
		s := Spare{Lineup: p.Lineups[i].Name}
		for k := range p.Slots {
			slot := &p.Slots[k]
			var taken []layout.Rect
			for n := range placed {
				if placed[n].Place.On != slot.On {
					continue
				}
				for _, b := range placed[n].Boxes {
					if r := b.Box.Rect().Intersect(slot.At); !r.Empty() {
						taken = append(taken, r)
					}
				}
			}
			s.Area += int64(slot.At.W())*int64(slot.At.D()) - covered(taken)
		}
		out = append(out, s)
	}
	return out
}

// covered returns the area that rectangles cover together, by the strips between
// their sides.
func covered(rs []layout.Rect) int64 {
	var xs []layout.Length
	for _, r := range rs {
		xs = append(xs, r.X0, r.X1)
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	slices.SortFunc(rs, func(a, b layout.Rect) int { return int(a.Y0 - b.Y0) })
	var sum int64
	for i := 1; i < len(xs); i++ {
		deep, top := layout.Length(0), -layout.MaxLength
		for _, r := range rs {
			if r.X0 <= xs[i-1] && r.X1 >= xs[i] {
				deep += max(0, r.Y1-max(r.Y0, top))
				top = max(top, r.Y1)
			}
		}
		sum += int64(xs[i]-xs[i-1]) * int64(deep)
	}
	return sum
}

package tryout

import (
	"slices"

	"footplank/layout"
)

// adopt makes the plan the answer's, and lists what moves in it.
func (f *finder) adopt(p *layout.Plan) {
	a := f.a
	a.Plan, a.Places, a.Moved, a.Units, a.FixedUnits, a.Distance = p, nil, nil, 0, 0, 0
	for _, name := range a.Lineups {
		pl, ok := p.PlaceOf(p.LineupNamed(name), p.Unit(a.Unit))
		if !ok {
			continue
		}
		at := slices.IndexFunc(a.Places, func(x Place) bool { return x.At == pl })
		if at < 0 {
			at = len(a.Places)
			a.Places = append(a.Places, Place{At: pl})
		}
		a.Places[at].Lineups = append(a.Places[at].Lineups, name)
	}
	f.plugs(p)
	if a.Verdict != Moves {
		return
	}
	for i := range p.Units {
		f.moves(p, &p.Units[i])
	}
}

// moves lists the moves of a unit from where it stands in the bench's plan.
func (f *finder) moves(p *layout.Plan, u *layout.Unit) {
	old := f.b.plan.Unit(u.ID)
	if old == nil || u.ID == f.a.Unit {
		return
	}
	first := len(f.a.Moved)
	for i := range p.Lineups {
		l, was := &p.Lineups[i], &f.b.plan.Lineups[i]
		from, had := f.b.plan.PlaceOf(was, old)
		to, has := p.PlaceOf(l, u)
		if !p.Present(l, u.ID) || !had || !has || from == to {
			continue
		}
		same := func(m Move) bool { return m.Unit == u.ID && m.From == from && m.To == to }
		at := slices.IndexFunc(f.a.Moved, same)
		if at < 0 {
			at = len(f.a.Moved)
			f.a.Moved = append(f.a.Moved, Move{Unit: u.ID, From: from, To: to, Fixed: u.Mount == layout.Fixed})
			f.a.Distance += way(p, from, to)
		}
		f.a.Moved[at].Lineups = append(f.a.Moved[at].Lineups, l.Name)
	}
	if len(f.a.Moved) > first {
		f.a.Units++
		if u.Mount == layout.Fixed {
			f.a.FixedUnits++
		}
	}
}

// way is how far apart two places are along the axes, from surface to surface
// too.
func way(p *layout.Plan, a, b layout.Placement) layout.Length {
	s, _ := p.Board.Surface(a.On)
	t, _ := p.Board.Surface(b.On)
	abs := func(l layout.Length) layout.Length { return max(l, -l) }
	return abs(a.At.X-b.At.X) + abs(a.At.Y-b.At.Y) + abs(s.Z-t.Z)
}

// plugs lists the jacks in use before and after that get a plug of another form.
func (f *finder) plugs(p *layout.Plan) {
	f.a.Plugs = nil
	seen := map[layout.JackRef]bool{}
	for i := range p.Lineups {
		was, is := f.b.plan.Used(&f.b.plan.Lineups[i]), p.Used(&p.Lineups[i])
		for r := range is {
			seen[r] = seen[r] || was[r]
		}
	}
	for i := range p.Units {
		u, old := &p.Units[i], f.b.plan.Unit(p.Units[i].ID)
		for k := range u.Jacks {
			j := &u.Jacks[k]
			r := layout.JackRef{Unit: u.ID, Jack: j.ID}
			if !seen[r] || old == nil || u.ID == f.a.Unit {
				continue
			}
			if o := old.Jack(j.ID); o != nil && o.Plug.Name != j.Plug.Name {
				f.a.Plugs = append(f.a.Plugs, PlugChange{r, o.Plug.Name, j.Plug.Name})
			}
		}
	}
}

package changeover

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"

	"github.com/stretchr/testify/require"
)

// table is a plain model of a board between sets: which units stand where, and
// what is plugged into which jack. It knows nothing of how cards are made; it
// carries out one step after the other and fails at the first that cannot be.
type table struct {
	p       *layout.Plan
	at      map[string]layout.Placement
	plugged []string // "cable A@squash/in", one for each plug
	paths   map[string][]wiring.Point3
	aside   map[string]bool
}

func jackOf(r layout.JackRef) string { return r.Unit + "/" + r.Jack }

// setUp is the board as the line-up says.
func setUp(p *layout.Plan, name string) *table {
	t := &table{p: p, at: map[string]layout.Placement{}, paths: map[string][]wiring.Point3{}, aside: map[string]bool{}}
	l := p.LineupNamed(name)
	for _, u := range p.UnitsIn(l) {
		pl, ok := p.PlaceOf(l, u)
		if !ok {
			panic("no place for " + u.ID)
		}
		t.at[u.ID] = pl
	}
	seen := map[string]bool{}
	put := func(what string, path []wiring.Point3, refs ...layout.JackRef) {
		for i := 1; i < len(path); i++ {
			if path[i].X != path[i-1].X && path[i].Y != path[i-1].Y {
				path = nil // a straight line is no way
			}
		}
		for _, r := range refs {
			if !layout.OffBoard(r.Unit) {
				t.plugged = append(t.plugged, what+"@"+jackOf(r))
				seen[jackOf(r)] = true
			}
		}
		t.paths[what] = path
	}
	w := wiring.Wire(p)
	for _, c := range w.Of(name).Cables {
		switch {
		case layout.OffBoard(c.From.Unit):
			put("stage "+c.From.Unit, nil, c.To)
		case layout.OffBoard(c.To.Unit):
			put("stage "+c.To.Unit, nil, c.From)
		default:
			put("cable "+c.Kit, c.Path, c.From, c.To)
		}
	}
	m, err := power.Map(context.Background(), p)
	if err != nil {
		panic(err)
	}
	m.Route(p, w.Settled)
	for _, d := range m.Leads {
		if d.Lineup != name {
			continue
		}
		what := "lead " + d.Supply + "/" + d.Output
		if d.Reversing {
			what += " reversing"
		}
		if d.Adaptor != "" {
			what += " " + d.Adaptor
		}
		var path []wiring.Point3
		for _, at := range d.Path {
			path = append(path, wiring.Point3(at))
		}
		put(what, path, layout.JackRef{Unit: d.Supply, Jack: d.Output}, layout.JackRef{Unit: d.Unit, Jack: d.Jack})
	}
	used := p.Used(l)
	for _, u := range p.UnitsIn(l) {
		for _, j := range u.Jacks {
			r := layout.JackRef{Unit: u.ID, Jack: j.ID}
			if !used[r] || seen[jackOf(r)] {
				continue
			}
			what := "other " + jackOf(r)
			if j.Signal == layout.Line || j.Signal == layout.Power && j.Dir == layout.In && len(u.Outputs) > 0 && u.Draw == nil {
				what = "mains " + jackOf(r)
			}
			t.plugged = append(t.plugged, what+"@"+jackOf(r))
		}
	}
	return t
}

// boxes returns what a unit takes up now, its plugs as they are in.
func (t *table) boxes(id string, pl layout.Placement) []layout.Box {
	s, ok := t.p.Board.Stand(t.p.Unit(id), pl, func(j string) bool { return t.at[id] == pl && t.holds(id+"/"+j) })
	if !ok {
		panic("no surface " + pl.On)
	}
	var out []layout.Box
	for _, b := range s.Boxes {
		out = append(out, b.Box)
	}
	return out
}

func (t *table) holds(jack string) bool {
	return slices.ContainsFunc(t.plugged, func(s string) bool { return strings.HasSuffix(s, "@"+jack) })
}

// do carries out a step, or says why it cannot be.
func (t *table) do(s *Step) error {
	switch s.Kind {
	case Mute, Check:
		return nil
	case Unplug:
		return t.pull(s)
	case Plug, Power:
		return t.plug(s)
	case Lift:
		if s.Aside {
			t.aside[s.Unit] = true
		}
		return t.take(s.Unit, *s.From)
	case Place:
		if s.Aside != t.aside[s.Unit] {
			return fmt.Errorf("%s was set aside: %v, and the step says %v", s.Unit, t.aside[s.Unit], s.Aside)
		}
		delete(t.aside, s.Unit)
		return t.put(s.Unit, *s.To)
	case Move:
		if err := t.take(s.Unit, *s.From); err != nil {
			return err
		}
		return t.put(s.Unit, *s.To)
	}
	return fmt.Errorf("no kind %q", s.Kind)
}

func (t *table) pull(s *Step) error {
	what := string(s.Sort) + " " + s.Cable
	for _, e := range s.Ends {
		i := slices.Index(t.plugged, what+"@"+jackOf(e.JackRef))
		if i < 0 {
			return fmt.Errorf("%s is not in %s", what, jackOf(e.JackRef))
		}
		t.plugged = slices.Delete(t.plugged, i, i+1)
	}
	return t.stay(what, s.Stays)
}

func (t *table) stay(what string, refs []layout.JackRef) error {
	for _, r := range refs {
		if !slices.Contains(t.plugged, what+"@"+jackOf(r)) {
			return fmt.Errorf("%s does not stay in %s", what, jackOf(r))
		}
	}
	return nil
}

func (t *table) plug(s *Step) error {
	what := string(s.Sort) + " " + s.Cable
	for _, e := range s.Ends {
		if _, here := t.at[e.Unit]; !here {
			return fmt.Errorf("%s is not on the board", e.Unit)
		}
		shared := s.Sort == Lead && t.p.Power.Sharing && t.p.Unit(e.Unit).Supplies()
		if t.holds(jackOf(e.JackRef)) && !shared {
			return fmt.Errorf("%s is taken", jackOf(e.JackRef))
		}
		t.plugged = append(t.plugged, what+"@"+jackOf(e.JackRef))
		if err := t.free(e.Unit); err != nil {
			return err
		}
	}
	return t.stay(what, s.Stays)
}

func (t *table) take(id string, from layout.Placement) error {
	if pl, here := t.at[id]; !here || pl != from {
		return fmt.Errorf("%s does not stand at %v", id, from)
	}
	for _, s := range t.plugged {
		if strings.Contains(s, "@"+id+"/") {
			return fmt.Errorf("%s is lifted with %s in it", id, s)
		}
	}
	base := t.p.Unit(id).Base(from)
	on, _ := t.p.Board.Surface(from.On)
	for what, path := range t.paths {
		both := 0
		for _, s := range t.plugged {
			if strings.HasPrefix(s, what+"@") {
				both++
			}
		}
		for i := 1; both == 2 && i < len(path); i++ {
			a, b := path[i-1], path[i]
			if max(a.Z, b.Z) > on.Z && max(a.X, b.X) > base.X0 && min(a.X, b.X) < base.X1 && max(a.Y, b.Y) > base.Y0 && min(a.Y, b.Y) < base.Y1 {
				return fmt.Errorf("%s is held down by %s", id, what)
			}
		}
	}
	delete(t.at, id)
	return nil
}

func (t *table) put(id string, to layout.Placement) error {
	if _, here := t.at[id]; here {
		return fmt.Errorf("%s stands there already", id)
	}
	t.at[id] = to
	return t.free(id)
}

// free looks that nothing of the unit is in anything of another.
func (t *table) free(id string) error {
	mine := t.boxes(id, t.at[id])
	for other, pl := range t.at {
		if other == id {
			continue
		}
		for _, a := range mine {
			for _, b := range t.boxes(other, pl) {
				if a.Overlaps(b) {
					return fmt.Errorf("%s is put into %s", id, other)
				}
			}
		}
	}
	return nil
}

// requireWorks plays a card through and requires the board to be exactly what
// the line-up behind it says, without a needless pull.
func requireWorks(t require.TestingT, p *layout.Plan, c *Card) {
	now, want := setUp(p, c.From), setUp(p, c.To)
	start := setUp(p, c.From)
	up := map[string]bool{}
	pulled := map[string]bool{}
	for i := range c.Steps {
		s := &c.Steps[i]
		require.NotEmpty(t, s.Text)
		require.Equal(t, i == 0, s.Kind == Mute, "step %d", i+1)
		require.NoError(t, now.do(s), "%s to %s, step %d: %s", c.From, c.To, i+1, s.Text)
		switch s.Kind {
		case Lift, Move:
			up[s.Unit] = true
		case Unplug:
			for _, e := range s.Ends {
				pulled[string(s.Sort)+" "+s.Cable+"@"+jackOf(e.JackRef)] = true
			}
		}
	}
	require.Equal(t, want.at, now.at)
	slices.Sort(now.plugged)
	slices.Sort(want.plugged)
	require.Equal(t, want.plugged, now.plugged)
	require.Empty(t, now.aside)
	if n := len(c.Steps); n > 0 {
		require.Equal(t, Check, c.Steps[n-1].Kind)
	}
	for plug := range pulled {
		unit, _, _ := strings.Cut(plug[strings.Index(plug, "@")+1:], "/")
		same := slices.Contains(start.plugged, plug) && slices.Contains(want.plugged, plug)
		require.False(t, same && !up[unit] && !start.overLifted(strings.Split(plug, "@")[0], up), "%s is pulled and plugged again for nothing", plug)
	}
	for id := range up {
		require.NotEqual(t, layout.Fixed, p.Unit(id).Mount)
		after, stays := want.at[id]
		require.False(t, stays && after == start.at[id], "%s is taken up for nothing", id)
	}
}

// overLifted reports whether the cable lies over a unit that was taken up.
func (t *table) overLifted(what string, up map[string]bool) bool {
	for id := range up {
		base := t.p.Unit(id).Base(t.at[id])
		for i, path := 1, t.paths[what]; i < len(path); i++ {
			r := layout.Rect{X0: min(path[i-1].X, path[i].X) - 3000, Y0: min(path[i-1].Y, path[i].Y) - 3000,
				X1: max(path[i-1].X, path[i].X) + 3000, Y1: max(path[i-1].Y, path[i].Y) + 3000}
			if r.Overlaps(base) {
				return true
			}
		}
	}
	return false
}

package wiring

import (
	"slices"

	"footplank/layout"
)

// Costs of a choice of plugs. What counts first is how often plugs meet what is
// beside their unit, then how often they meet what is of it, then how far they
// are from the usual ones.
const (
	crossCost = int64(1) << 40
	ownCost   = int64(1) << 20
)

// stance is a unit at one place, in the line-ups of the mask.
type stance struct {
	unit  *layout.Unit
	place layout.Placement
	z     layout.Length
	on    layout.Surface
	mask  uint64
}

// hard is a box that no plug may reach into, in the line-ups of the mask. A
// body does not mind the plugs of its own unit.
type hard struct {
	box  layout.Box
	unit *layout.Unit // nil for a part of the board
	mask uint64
}

// plugUse is where a jack's plug is: with its unit at a stance, in the line-ups
// of the mask.
type plugUse struct {
	stance int
	mask   uint64
	inCase bool
}

// plugVar is a jack in use and what may be plugged into it.
type plugVar struct {
	unit, index int // of the jack
	of          *layout.Unit
	uses        []plugUse
	choices     []layout.Seat
	ranks       []int64
	boxes       [][]layout.Box // by choice and use; nil until asked for
	costs       []int64        // of each choice alone; -1 until asked for
	reach       []layout.Box   // about the boxes of all choices, by use
	near        []int          // variables whose plugs may meet this one's
	known       bool           // near is
	cur         int            // the choice as it is now
}

func (v *plugVar) jack() *layout.Jack { return &v.of.Jacks[v.index] }

// seats is the choice of plugs of one plan.
type seats struct {
	p       *layout.Plan
	stances []stance
	solids  []hard
	vars    []*plugVar
	edges   layout.Rect // that plugs keep within
	room    layout.Box  // in the case
	cased   bool
	budget  int
	far     map[layout.JackKind]layout.Length // that a plug may reach from its axis
}

func newSeats(p *layout.Plan, budget int) *seats {
	s := &seats{p: p, budget: budget, edges: p.Board.Rect().Grow(p.Board.PlugRoom)}
	s.room, s.cased = p.Board.CaseRoom()
	s.far = make(map[layout.JackKind]layout.Length, 8)
	for _, f := range p.PlugForms {
		s.far[f.Kind] = max(s.far[f.Kind], f.Out, f.Leg, f.Width)
	}
	s.vars = make([]*plugVar, 0, 4*len(p.Units))
	for _, b := range p.Board.DeckSlabs() {
		s.solids = append(s.solids, hard{b, nil, ^uint64(0)})
	}
	for _, o := range p.Board.Obstacles() {
		s.solids = append(s.solids, hard{o.Box, nil, ^uint64(0)})
	}
	s.stand()
	return s
}

// stand gathers where units stand, which of their jacks are in use there, and
// what their bodies take.
func (s *seats) stand() {
	p := s.p
	surfaces := p.Board.Surfaces()
	used := make([]map[layout.JackRef]bool, len(p.Lineups))
	links := make([][]layout.Link, len(p.Lineups))
	for k := range p.Lineups {
		used[k], links[k] = p.Used(&p.Lineups[k]), p.ChainLinks(&p.Lineups[k])
	}
	silent := !slices.ContainsFunc(p.Units, func(u layout.Unit) bool { return u.Often > 0 })
	for i := range p.Units {
		u := &p.Units[i]
		from := len(s.stances)
		for k := range p.Lineups {
			if l := &p.Lineups[k]; p.Present(l, u.ID) {
				if pl, ok := p.PlaceOf(l, u); ok {
					s.addStance(u, pl, surfaces, from, 1<<k)
				}
			}
		}
		for n := from; n < len(s.stances); n++ {
			s.body(&s.stances[n], silent || u.Often > 0)
		}
		for j := range u.Jacks {
			s.addJack(i, j, from, used, links)
		}
	}
}

func (s *seats) addStance(u *layout.Unit, pl layout.Placement, surfaces []layout.Surface, from int, mask uint64) {
	for n := from; n < len(s.stances); n++ {
		if s.stances[n].place == pl {
			s.stances[n].mask |= mask
			return
		}
	}
	for _, on := range surfaces {
		if on.Name == pl.On {
			s.stances = append(s.stances, stance{u, pl, on.Z, on, mask})
			return
		}
	}
}

// body adds what a standing unit takes besides its plugs: body, sweep, and the
// air above what a foot must get at.
func (s *seats) body(t *stance, pressed bool) {
	u := t.unit
	for _, b := range u.Boxes(t.place.Turn, func(string) bool { return false }) {
		s.solids = append(s.solids, hard{b.Box.Move(t.place.At, t.z), u, t.mask})
	}
	if pressed {
		for _, b := range u.Treads(t.place.Turn) {
			s.solids = append(s.solids, hard{b.Move(t.place.At, t.z), u, t.mask})
		}
	}
}

func (s *seats) addJack(unit, index, from int, used []map[layout.JackRef]bool, links [][]layout.Link) {
	u := &s.p.Units[unit]
	j := &u.Jacks[index]
	v := &plugVar{unit: unit, index: index, of: u}
	for n := from; n < len(s.stances); n++ {
		use := plugUse{stance: n}
		for k := range used {
			if s.stances[n].mask&(1<<k) != 0 && used[k][layout.JackRef{Unit: u.ID, Jack: j.ID}] {
				use.mask |= 1 << k
				use.inCase = use.inCase || s.cased && !layout.PulledOut(links[k], u, j.ID)
			}
		}
		if use.mask != 0 {
			v.uses = append(v.uses, use)
		}
	}
	if len(v.uses) > 0 {
		v.choices = []layout.Seat{j.UsualSeat()} // the others when they are asked for
		s.vars = append(s.vars, v)
	}
}

// open gives the variable all its choices; only the usual one where none of them
// seats, so that the player is told of the plug that was meant.
func (s *seats) open(v *plugVar) {
	if v.ranks != nil {
		return
	}
	v.choices = Choices(v.jack(), s.p.PlugForms)
	seats := false
	for n := range v.choices {
		seats = seats || s.alone(v, n) < crossCost
	}
	if !seats {
		v.choices = v.choices[:1]
	}
	v.ranks = make([]int64, len(v.choices))
	for n := range v.choices {
		v.ranks[n] = rankOf(v.choices, n)
	}
}

// box returns where the plug is with a choice, in the nth use.
func (s *seats) box(v *plugVar, choice, n int) layout.Box {
	for len(v.boxes) < len(v.choices) {
		v.boxes = append(v.boxes, nil)
	}
	if v.boxes[choice] == nil {
		k := *v.jack()
		k.Plug, k.Leg = v.choices[choice].Plug, v.choices[choice].Leg
		out := make([]layout.Box, len(v.uses))
		for i, use := range v.uses {
			t := &s.stances[use.stance]
			out[i] = v.of.PlugBox(&k, t.place.Turn).Move(t.place.At, t.z)
		}
		v.boxes[choice] = out
	}
	return v.boxes[choice][n]
}

// alone returns what a choice costs for what stands there besides plugs.
func (s *seats) alone(v *plugVar, choice int) int64 {
	for len(v.costs) < len(v.choices) {
		v.costs = append(v.costs, -1)
	}
	if v.costs[choice] >= 0 {
		return v.costs[choice]
	}
	var cost int64
	for n, use := range v.uses {
		b := s.box(v, choice, n)
		if !s.within(b, use) {
			cost += crossCost
		}
		s.budget -= len(s.solids) / 4 // most are far away
		for i := range s.solids {
			o := &s.solids[i]
			switch {
			case o.mask&use.mask == 0 || !o.box.Overlaps(b):
			case o.unit == v.of:
				cost += ownCost
			default:
				cost += crossCost
			}
		}
	}
	v.costs[choice] = cost
	return cost
}

// within reports whether a plug keeps within the room past the edges, within
// the case, and above what its unit stands on.
func (s *seats) within(b layout.Box, use plugUse) bool {
	r := b.Rect()
	if !s.edges.Contains(r) {
		return false
	}
	if use.inCase && (b.Z1 > s.room.Z1 || !s.room.Rect().Contains(r)) {
		return false
	}
	t := &s.stances[use.stance]
	if b.Z0 >= t.z {
		return true
	}
	if t.on.Rails == nil {
		return !t.on.At.Overlaps(r)
	}
	return !slices.ContainsFunc(t.on.Rails, func(rail layout.Rail) bool { return rail.At.Overlaps(r) })
}

// pair returns what two plugs cost that meet each other.
func (s *seats) pair(v *plugVar, a int, w *plugVar, b int) int64 {
	var cost int64
	for n, use := range v.uses {
		for m, other := range w.uses {
			if use.mask&other.mask == 0 {
				continue
			}
			s.budget--
			if !s.box(v, a, n).Overlaps(s.box(w, b, m)) {
				continue
			}
			if v.of == w.of {
				cost += ownCost
			} else {
				cost += crossCost
			}
		}
	}
	return cost
}

// apply puts what was chosen into the plan.
func (s *seats) apply() {
	chosen := map[int][]*plugVar{}
	for _, v := range s.vars {
		chosen[v.unit] = append(chosen[v.unit], v)
	}
	for i := range s.p.Units {
		u := &s.p.Units[i]
		want := func(n int) layout.Jack {
			j := u.Jacks[n].Asked()
			for _, v := range chosen[i] {
				if v.index == n && v.cur > 0 {
					j.Usual = layout.Seat{Plug: j.Plug, Leg: j.Leg}
					j.Plug, j.Leg = v.choices[v.cur].Plug, v.choices[v.cur].Leg
				}
			}
			return j
		}
		fresh := false
		for n := range u.Jacks {
			now := want(n)
			if now == u.Jacks[n] {
				continue
			}
			if !fresh {
				u.Jacks, fresh = slices.Clone(u.Jacks), true
			}
			u.Jacks[n] = now
		}
	}
}

package wiring

import (
	"cmp"
	"slices"

	"footplank/layout"
)

// choose looks for the cheapest choice of plugs.
//
// It begins with the usual plugs. Where nothing meets anything they are the
// answer, and only jacks that something happens to are looked at further. Two
// walks, from the usual plugs and from those that stand out least, change one
// plug after the other as long as that helps; a search from the usual plugs then
// looks for better:
//
//	take a plug that meets something, of the choices made so far
//	with the others as usual; try all that may be in its jack
//
// Each choice that helps is on one of its ways: where nothing meets anything the
// jacks that are left stay as usual, which costs nothing. So it finds the best,
// if its budget lasts, and without that still what the walks found.
//
// Plugs that can never meet, not even by way of others, have nothing to do with
// each other: every such cluster is looked at by itself, so that the ways of one
// do not multiply with those of the next.
func (s *seats) choose() {
	seeds := s.seeds()
	for _, all := range s.clusters(s.touched(seeds)) {
		s.settle(all, seeds)
	}
}

// settle chooses for one cluster.
func (s *seats) settle(all, seeds []*plugVar) {
	start := s.walk(all)
	best, cost := start, s.total(all, start)
	for _, v := range all {
		v.cur = s.compact(v)
	}
	if other := s.walk(all); s.total(all, other) < cost {
		best, cost = other, s.total(all, other)
	}
	for _, v := range all {
		v.cur = 0
	}
	f := &seatSearch{s: s, all: all, best: best, cost: cost}
	for _, v := range seeds {
		if !slices.Contains(all, v) {
			continue
		}
		least := s.alone(v, 0)
		for n := range v.choices {
			least = min(least, s.alone(v, n)+v.ranks[n])
		}
		f.seeds, f.least = append(f.seeds, v), append(f.least, least)
	}
	f.down(0)
	for i, v := range all {
		v.cur = f.best[i]
	}
}

// clusters parts variables into those that may meet, by way of others too: each
// in the plan's order, and they in that of their first.
func (s *seats) clusters(all []*plugVar) (out [][]*plugVar) {
	of := make(map[*plugVar]int, len(all)) // from 1
	var join func(v *plugVar, n int)
	join = func(v *plugVar, n int) {
		of[v] = n
		for _, k := range v.near {
			if w := s.vars[k]; of[w] == 0 {
				join(w, n)
			}
		}
	}
	for _, v := range all {
		if of[v] == 0 {
			out = append(out, nil)
			join(v, len(out))
		}
		out[of[v]-1] = append(out[of[v]-1], v)
	}
	return out
}

// seeds returns the variables whose usual plugs meet something.
func (s *seats) seeds() []*plugVar {
	hit := make([]bool, len(s.vars))
	for i, v := range s.vars {
		hit[i] = hit[i] || s.alone(v, 0) > 0
		for k, w := range s.vars[:i] {
			if s.pair(v, 0, w, 0) > 0 {
				hit[i], hit[k] = true, true
			}
		}
	}
	var out []*plugVar
	for i, v := range s.vars {
		if hit[i] {
			s.open(v)
			out = append(out, v)
		}
	}
	return out
}

// touched returns the seeds and all that what is chosen for them may touch, and
// so on, in the plan's order.
func (s *seats) touched(seeds []*plugVar) []*plugVar {
	in := map[*plugVar]bool{}
	queue := slices.Clone(seeds)
	for _, v := range seeds {
		in[v] = true
	}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		s.open(v)
		s.meet(v)
		for _, n := range v.near {
			if w := s.vars[n]; !in[w] {
				in[w] = true
				queue = append(queue, w)
			}
		}
	}
	var out []*plugVar
	for _, v := range s.vars {
		if in[v] {
			out = append(out, v)
		}
	}
	return out
}

// meet finds the variables whose plugs may meet those of v.
func (s *seats) meet(v *plugVar) {
	if v.known {
		return
	}
	v.known = true
	for n, w := range s.vars {
		if w != v && s.mayMeet(v, w) {
			v.near = append(v.near, n)
		}
	}
}

// mayMeet reports whether any two choices may meet. Most jacks are too far away,
// as the usual plug of w tells, which has a place in all that it may have.
func (s *seats) mayMeet(v, w *plugVar) bool {
	far := s.far[w.jack().Kind]
	close := false
	for n, use := range v.uses {
		for m, other := range w.uses {
			b := s.box(w, 0, m)
			grown := layout.Box{X0: b.X0 - far, Y0: b.Y0 - far, Z0: b.Z0 - far, X1: b.X1 + far, Y1: b.Y1 + far, Z1: b.Z1 + far}
			close = close || use.mask&other.mask != 0 && s.around(v, n).Overlaps(grown)
		}
	}
	if !close {
		return false
	}
	s.open(w)
	for n, use := range v.uses {
		for m, other := range w.uses {
			if use.mask&other.mask != 0 && s.around(v, n).Overlaps(s.around(w, m)) {
				return true
			}
		}
	}
	return false
}

// around returns a box about all choices in one use.
func (s *seats) around(v *plugVar, n int) layout.Box {
	for len(v.reach) <= n {
		b := s.box(v, 0, len(v.reach))
		for c := range v.choices {
			o := s.box(v, c, len(v.reach))
			b = layout.Box{X0: min(b.X0, o.X0), Y0: min(b.Y0, o.Y0), Z0: min(b.Z0, o.Z0),
				X1: max(b.X1, o.X1), Y1: max(b.Y1, o.Y1), Z1: max(b.Z1, o.Z1)}
		}
		v.reach = append(v.reach, b)
	}
	return v.reach[n]
}

// compact returns the choice that stands out least of those that meet nothing
// but perhaps other units' plugs.
func (s *seats) compact(v *plugVar) int {
	best, cost := 0, s.alone(v, 0)
	for n := range v.choices {
		if c := s.alone(v, n); c < cost || c == cost && v.choices[n].Plug.Out < v.choices[best].Plug.Out {
			best, cost = n, c
		}
	}
	return best
}

// walk changes one plug after the other from the choice as it is now, as long as
// that makes the whole cheaper, and returns what it comes to.
func (s *seats) walk(all []*plugVar) []int {
	for again := true; again && s.budget > 0; {
		again = false
		for _, v := range all {
			best, cost := v.cur, s.local(v, v.cur)
			for n := range v.choices {
				if n == v.cur || cost == 0 {
					continue
				}
				if c := s.local(v, n); c < cost {
					best, cost = n, c
				}
			}
			if best != v.cur {
				v.cur, again = best, true
			}
		}
	}
	out := make([]int, len(all))
	for i, v := range all {
		out[i] = v.cur
	}
	return out
}

// local returns what a choice for v costs with the others as they are now.
func (s *seats) local(v *plugVar, choice int) int64 {
	cost := s.alone(v, choice) + v.ranks[choice]
	for _, n := range v.near {
		w := s.vars[n]
		cost += s.pair(v, choice, w, w.cur)
	}
	return cost
}

// total returns what a choice for all costs.
func (s *seats) total(all []*plugVar, choice []int) int64 {
	for i, v := range all {
		v.cur = choice[i]
	}
	var cost int64
	for i, v := range all {
		cost += s.alone(v, v.cur) + v.ranks[v.cur]
		for _, w := range all[:i] {
			cost += s.pair(v, v.cur, w, w.cur)
		}
	}
	return cost
}

// seatSearch is the search that choose describes.
type seatSearch struct {
	s     *seats
	all   []*plugVar
	seeds []*plugVar
	least []int64    // the least that each seed costs alone
	fixed []*plugVar // whose choice is made
	best  []int      // by variable of all
	cost  int64      // of best
}

// down goes on from the choices made, which cost so much among themselves.
func (f *seatSearch) down(spent int64) {
	if f.s.budget <= 0 {
		return
	}
	bound := spent
	for i, v := range f.seeds {
		if !slices.Contains(f.fixed, v) {
			bound += f.least[i]
		}
	}
	if bound >= f.cost {
		return
	}
	v := f.trouble()
	if v == nil {
		f.cost = spent
		for i, w := range f.all {
			f.best[i] = w.cur
		}
		return
	}
	type way struct {
		choice int
		cost   int64
	}
	ways := make([]way, len(v.choices))
	for n := range v.choices {
		c := f.s.alone(v, n) + v.ranks[n]
		for _, w := range f.fixed {
			c += f.s.pair(v, n, w, w.cur)
		}
		ways[n] = way{n, c}
	}
	slices.SortStableFunc(ways, func(a, b way) int { return cmp.Compare(a.cost, b.cost) })
	f.fixed = append(f.fixed, v)
	for _, w := range ways {
		v.cur = w.choice
		f.down(spent + w.cost)
	}
	v.cur = 0
	f.fixed = f.fixed[:len(f.fixed)-1]
}

// trouble returns a variable whose choice is not made and that meets something
// with its usual plug, or nil.
func (f *seatSearch) trouble() *plugVar {
	for _, v := range f.fixed {
		for _, n := range v.near {
			w := f.s.vars[n]
			if !slices.Contains(f.fixed, w) && f.s.pair(v, v.cur, w, w.cur) > 0 {
				return w
			}
		}
	}
	for _, v := range f.seeds {
		if slices.Contains(f.fixed, v) {
			continue
		}
		if f.s.alone(v, 0) > 0 {
			return v
		}
		for _, n := range v.near {
			if w := f.s.vars[n]; !slices.Contains(f.fixed, w) && f.s.pair(v, 0, w, w.cur) > 0 {
				return v
			}
		}
	}
	return nil
}

package route

import (
	"cmp"
	"slices"

	"footplank/layout"
)

// What it costs a cable to be near others; all common practice, no source. The
// rule behind the second is that audio and power never lie side by side for
// long and cross at right angles.
const (
	// OnTop is how much more a length costs where it lies on another cable.
	OnTop = 4
	// Near is how far audio and power keep apart where there is room, and
	// each two of a length nearer than that cost one more.
	Near = 15 * layout.Millimetre
	// Crossing is what it costs to cross another cable.
	Crossing = 3 * layout.Millimetre
	// rounds bounds how often cables in each other's way are laid anew.
	rounds = 3
)

// strand is one straight stretch of a cable that lies on a layer.
type strand struct {
	layer      int
	kind       Kind
	diameter   layout.Length
	alongX     bool
	at, lo, hi layout.Length // where it lies across, from and to along
}

// addStrand adds the stretch from a to b, lengthening the last where it goes on.
func addStrand(ss []strand, r *Request, layer int, a, b Point3) []strand {
	n := strand{layer: layer, kind: r.Kind, diameter: r.Diameter, alongX: a.Y == b.Y}
	if n.alongX {
		n.at, n.lo, n.hi = a.Y, min(a.X, b.X), max(a.X, b.X)
	} else {
		n.at, n.lo, n.hi = a.X, min(a.Y, b.Y), max(a.Y, b.Y)
	}
	if len(ss) > 0 {
		l := &ss[len(ss)-1]
		if l.layer == n.layer && l.alongX == n.alongX && l.at == n.at && (l.hi == n.lo || l.lo == n.hi) {
			l.lo, l.hi = min(l.lo, n.lo), max(l.hi, n.hi)
			return ss
		}
	}
	return append(ss, n)
}

// charge writes what it costs to lie on, along or across the strands.
func (g *grid) charge(r *Request, planes []plane, others []strand) {
	if len(others) == 0 {
		return
	}
	n := g.nx * g.ny
	for i := range others {
		t := &others[i]
		for p := range planes {
			if planes[p].layer != t.layer {
				continue
			}
			if t.alongX {
				g.chargeAlong(r, t, g.east[p*n:(p+1)*n], g.xs, g.ys, 1, g.nx)
				g.chargeAcross(t, g.north[p*n:(p+1)*n], g.xs, g.ys, 1, g.nx)
			} else {
				g.chargeAlong(r, t, g.north[p*n:(p+1)*n], g.ys, g.xs, g.nx, 1)
				g.chargeAcross(t, g.east[p*n:(p+1)*n], g.ys, g.xs, g.nx, 1)
			}
		}
	}
}

// chargeAlong charges the stretches parallel to the strand. along and across
// are the grid's lines in the strand's directions, da and dc the steps of the
// index in them.
func (g *grid) chargeAlong(r *Request, t *strand, cost []int32, along, across []layout.Length, da, dc int) {
	on := (r.Diameter + t.diameter) / 2
	reach := on
	if r.Kind != t.kind {
		reach = max(on, Near)
	}
	a0, a1 := max(atLeast(along, t.lo+1)-1, 0), min(atLeast(along, t.hi), len(along)-1)
	c0, c1 := within(across, t.at-reach, t.at+reach)
	for c := c0; c < c1; c++ {
		lies := abs(across[c]-t.at) < on
		for a := a0; a < a1; a++ {
			both := min(along[a+1], t.hi) - max(along[a], t.lo)
			if both <= 0 {
				continue
			}
			if k := a*da + c*dc; cost[k] != wall {
				cost[k] += sideBySide(both, lies)
			}
		}
	}
}

// sideBySide is what a length costs that lies on another cable, or near one of
// the other kind.
func sideBySide(both layout.Length, lies bool) int32 {
	if lies {
		return int32(OnTop * both)
	}
	return int32(both / 2)
}

// chargeAcross charges the stretches that cross the strand. One that starts on
// it crosses it, one that ends there does not.
func (g *grid) chargeAcross(t *strand, cost []int32, along, across []layout.Length, da, dc int) {
	c := atLeast(across, t.at+1) - 1
	if c < 0 || c+1 >= len(across) {
		return
	}
	a0, a1 := within(along, t.lo, t.hi)
	for a := a0; a < a1; a++ {
		if k := a*da + c*dc; cost[k] != wall {
			cost[k] += int32(Crossing)
		}
	}
}

// Route lays all cables, in the order given, so that they cross rather than
// lie on each other, and audio and power keep apart where there is room. The
// same requests in the same space give the same paths.
//
// The shortest are laid first. Then those that cost more than their length are
// taken up and laid anew among the others, as long as that makes the whole
// cheaper, a bounded number of times.
func (s *Space) Route(reqs []Request) []Path {
	w := takeWorker()
	defer w.release()
	b := newBundle(s, reqs)
	var all []int
	for i := range reqs {
		all = append(all, i)
	}
	b.layAll(w, all)
	b.improve(w, all)
	return b.paths()
}

// bundle is the cables of a line-up while they are laid.
type bundle struct {
	space *Space
	reqs  []Request
	laid  []laid
}

func newBundle(s *Space, reqs []Request) *bundle {
	return &bundle{s, reqs, make([]laid, len(reqs))}
}

// layAll lays the cables named, the shortest first.
func (b *bundle) layAll(w *worker, which []int) {
	order := slices.Clone(which)
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(reachOf(&b.reqs[i]), reachOf(&b.reqs[j])) })
	for _, i := range order {
		b.laid[i] = laid{}
	}
	for _, i := range order {
		b.laid[i] = b.relay(w, i, 0)
	}
}

func reachOf(r *Request) layout.Length {
	return apart(r.From.At, r.To.At) + abs(r.From.Z-r.To.Z)
}

// relay lays cable i among the others. Where it would lie on some it is laid
// again with lines beside them to choose from.
func (b *bundle) relay(w *worker, i int, radius layout.Length) laid {
	others := b.others(i)
	l := b.space.lay(w, &b.reqs[i], layOptions{others: others, radius: radius})
	if l.toll <= int64(Crossing) {
		return l
	}
	var tracks []strand
	for _, t := range others {
		if slices.ContainsFunc(l.strands, func(m strand) bool { return m.beyond(&t) }) {
			tracks = append(tracks, t)
		}
	}
	if len(tracks) == 0 {
		return l
	}
	again := b.space.lay(w, &b.reqs[i], layOptions{others: others, tracks: tracks, radius: l.path.Bend})
	if again.placed() && again.path.Bend >= l.path.Bend && again.cost() < l.cost() {
		return again
	}
	return l
}

// beyond reports whether the strands are parallel and nearer than they should.
func (t *strand) beyond(u *strand) bool {
	if t.layer != u.layer || t.alongX != u.alongX || t.hi <= u.lo || u.hi <= t.lo {
		return false
	}
	d := abs(t.at - u.at)
	return d < (t.diameter+u.diameter)/2 || t.kind != u.kind && d < Near
}

// others returns the strands of all cables but i.
func (b *bundle) others(i int) []strand {
	var out []strand
	for k := range b.laid {
		if k != i {
			out = append(out, b.laid[k].strands...)
		}
	}
	return out
}

// improve takes up the cables named, one after the other, that cost more than
// their length, and keeps what makes the whole cheaper.
func (b *bundle) improve(w *worker, which []int) {
	for range rounds {
		changed := false
		for _, i := range which {
			old := &b.laid[i]
			if !old.placed() {
				continue
			}
			old.toll = b.toll(i)
			if old.toll <= int64(Crossing) {
				continue
			}
			if l := b.relay(w, i, old.path.Bend); l.placed() && l.path.Bend >= old.path.Bend && l.cost() < old.cost() {
				*old, changed = l, true
			}
		}
		if !changed {
			return
		}
	}
}

// toll returns what cable i pays for lying where it does among the others.
func (b *bundle) toll(i int) int64 {
	var sum int64
	for _, m := range b.laid[i].strands {
		for k := range b.laid {
			if k == i {
				continue
			}
			for j := range b.laid[k].strands {
				sum += m.tollOf(&b.laid[k].strands[j])
			}
		}
	}
	return sum
}

// tollOf is what one strand pays for another.
func (t *strand) tollOf(u *strand) int64 {
	switch {
	case t.layer != u.layer:
	case t.alongX != u.alongX:
		if t.lo <= u.at && u.at < t.hi && u.lo < t.at && t.at < u.hi {
			return int64(Crossing)
		}
	case t.beyond(u):
		lies := abs(t.at-u.at) < (t.diameter+u.diameter)/2
		return int64(sideBySide(min(t.hi, u.hi)-max(t.lo, u.lo), lies))
	}
	return 0
}

func (b *bundle) paths() []Path {
	out := make([]Path, len(b.laid))
	for i := range b.laid {
		out[i] = b.laid[i].path
	}
	return out
}

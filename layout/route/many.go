package route

import (
	"cmp"
	"runtime"
	"slices"
	"sync/atomic"

	"footplank/layout"
	"footplank/pack/crew"
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
	rounds = 2
	// A length astray from a cable's old way costs a part of 1 in loyalty more.
	loyalty = 10
	astray  = 15 * layout.Millimetre
	// asideRoom is how far a cable that is laid anew may leave the rectangle
	// about its old way.
	asideRoom = 60 * layout.Millimetre
	// bearable is what a cable may pay for others before it is laid anew.
	bearable = int64(30 * layout.Millimetre)
)

// strand is one straight stretch of a cable that lies on a layer.
type strand struct {
	layer      int
	kind       Kind
	diameter   layout.Length
	alongX     bool
	at, lo, hi layout.Length // where it lies across, from and to along
}

// rect is the strand seen from above, its middle only.
func (t *strand) rect() layout.Rect {
	if t.alongX {
		return layout.Rect{X0: t.lo, X1: t.hi, Y0: t.at, Y1: t.at}
	}
	return layout.Rect{X0: t.at, X1: t.at, Y0: t.lo, Y1: t.hi}
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
		if !g.concerns(t.rect(), Near+r.Diameter+t.diameter) {
			continue
		}
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

// loyal charges a little for every stretch that is off the cable's old way, so
// that it is left only for one that is clearly shorter.
func (g *grid) loyal(planes []plane, old []strand) {
	if len(old) == 0 {
		return
	}
	n := g.nx * g.ny
	g.near = zeroed(g.near, n*len(planes))
	for i := range old {
		t := &old[i]
		for p := range planes {
			if planes[p].layer != t.layer {
				continue
			}
			r := layout.Rect{X0: t.lo - astray, X1: t.hi + astray, Y0: t.at - astray, Y1: t.at + astray}
			if !t.alongX {
				r = layout.Rect{X0: r.Y0, X1: r.Y1, Y0: r.X0, Y1: r.X1}
			}
			i0, i1 := within(g.xs, r.X0, r.X1)
			j0, j1 := within(g.ys, r.Y0, r.Y1)
			for j := j0; j < j1; j++ {
				for k := p*n + j*g.nx + i0; k < p*n+j*g.nx+i1; k++ {
					g.near[k] = true
				}
			}
		}
	}
	for k, near := range g.near {
		if near {
			continue
		}
		if g.east[k] != wall {
			g.east[k] += g.east[k] / loyalty
		}
		if g.north[k] != wall {
			g.north[k] += g.north[k] / loyalty
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
	return int32(both)
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
// Each is laid as if alone at first. Then those that lie on others for long, or
// along others of the other kind, are taken up and laid anew among the rest, as
// long as that makes the whole cheaper, a bounded number of times.
func (s *Space) Route(reqs []Request) []Path {
	b := newBundle(s, reqs)
	s.routeAll(b)
	return b.paths()
}

func (s *Space) routeAll(b *bundle) {
	b.layAlone()
	all := make([]int, len(b.reqs))
	for i := range b.reqs {
		all[i] = i
	}
	b.improve(all)
}

// layAlone lays each cable as if it were alone. None of them looks at another,
// so they are laid beside each other, on as many processors as there are.
func (b *bundle) layAlone() {
	var next atomic.Int64
	var laying crew.Crew
	for range min(runtime.GOMAXPROCS(0), len(b.reqs)) {
		laying.Go(func() {
			w := takeWorker()
			defer w.release()
			for i := int(next.Add(1)) - 1; i < len(b.reqs); i = int(next.Add(1)) - 1 {
				b.laid[i] = b.space.lay(w, &b.reqs[i], layOptions{})
			}
		})
	}
	laying.Wait()
}

// bundle is the cables of a line-up while they are laid.
type bundle struct {
	space *Space
	reqs  []Request
	laid  []laid
	// tried is the count of changes when a cable was last taken up in vain.
	tried   []int
	changes int
}

func newBundle(s *Space, reqs []Request) *bundle {
	return &bundle{space: s, reqs: reqs, laid: make([]laid, len(reqs)), tried: make([]int, len(reqs)), changes: 1}
}

// abreast is how many cables are laid anew beside each other. It is a number of
// its own, not that of processors, for it matters to the paths.
const abreast = 2

// improve takes up the cables named that are in the way of others, and keeps
// what makes the whole cheaper.
func (b *bundle) improve(which []int) {
	for range rounds {
		for _, i := range which {
			b.laid[i].toll = b.toll(i, &b.laid[i])
		}
		slices.SortStableFunc(which, func(i, k int) int { return cmp.Compare(b.laid[k].toll, b.laid[i].toll) })
		before := b.changes
		for rest := which; len(rest) > 0; {
			var some []int
			for len(rest) > 0 && len(some) < abreast {
				if i := rest[0]; b.laid[i].placed() && b.tried[i] != b.changes {
					some = append(some, i)
				}
				rest = rest[1:]
			}
			b.takeUp(some)
		}
		if b.changes == before {
			return
		}
	}
}

// takeUp looks for better ways for some cables, each among the others as they
// lie, and takes one after the other as long as it makes the whole cheaper.
func (b *bundle) takeUp(some []int) {
	ways := make([]laid, len(some))
	var laying crew.Crew
	for k, i := range some {
		b.laid[i].toll = b.toll(i, &b.laid[i])
		b.tried[i] = b.changes
		laying.Go(func() {
			w := takeWorker()
			defer w.release()
			ways[k] = b.relay(w, i)
		})
	}
	laying.Wait()
	for k, i := range some {
		way, old := &ways[k], &b.laid[i]
		if !way.placed() {
			continue
		}
		if b.tried[i] != b.changes { // another one moved meanwhile
			old.toll, way.toll = b.toll(i, old), b.toll(i, way)
		}
		if way.cost() < old.cost() {
			way.path.OK = old.path.OK
			*old = *way
			b.changes++
			b.tried[i] = b.changes
		}
	}
}

// others returns the strands of all cables but i, in the worker's memory.
func (b *bundle) others(w *worker, i int) []strand {
	w.others = append(w.others[:0], b.space.settled...)
	for k := range b.laid {
		if k != i {
			w.others = append(w.others, b.laid[k].strands...)
		}
	}
	return w.others
}

// relay looks for a way for cable i among the others, with lines to choose from
// beside those that it lies on or near. The way is not placed when the cable is
// better left where it is.
func (b *bundle) relay(w *worker, i int) laid {
	old := &b.laid[i]
	others := b.others(w, i)
	w.tracks = w.tracks[:0]
	var worst int64
	for _, t := range others {
		for k := range old.strands {
			if m := &old.strands[k]; m.beside(&t) {
				w.tracks = append(w.tracks, t)
				worst += m.tollOf(&t)
				break
			}
		}
	}
	if worst < bearable {
		return laid{}
	}
	l, ok := b.space.attempt(w, &b.reqs[i], old.path.Bend, layOptions{
		others: others, tracks: w.tracks, limit: old.cost(), win: old.path.spread(),
	})
	if !ok {
		return laid{}
	}
	return l
}

// beside reports whether the strands are parallel and nearer than they should.
func (t *strand) beside(u *strand) bool {
	if t.layer != u.layer || t.alongX != u.alongX || t.hi <= u.lo || u.hi <= t.lo {
		return false
	}
	d := abs(t.at - u.at)
	return d < (t.diameter+u.diameter)/2 || t.kind != u.kind && d < Near
}

// toll returns what cable i pays among the others for lying that way.
func (b *bundle) toll(i int, l *laid) int64 {
	var sum int64
	for m := range l.strands {
		for k := range b.space.settled {
			sum += l.strands[m].tollOf(&b.space.settled[k])
		}
		for k := range b.laid {
			if k == i {
				continue
			}
			for j := range b.laid[k].strands {
				sum += l.strands[m].tollOf(&b.laid[k].strands[j])
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
	case t.beside(u):
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

// reachOf is how far the ends of a request are apart along the three axes.
func reachOf(r *Request) layout.Length {
	return apart(r.From.At, r.To.At) + abs(r.From.Z-r.To.Z)
}

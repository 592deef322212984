package route

import (
	"maps"
	"slices"

	"footplank/layout"
)

// Router lays the cables of one line-up again and again while its units are
// moved. It keeps where they lie: a cable is laid anew only when its ends move
// or something moves near it, and then leaves its old way only for one that is
// clearly shorter. The zero value is ready to use, by one goroutine at a time.
// A copy of a Router goes on from where it was copied, whatever becomes of the
// other.
type Router struct {
	space *Space
	kept  map[string]kept // by the ID of the request
}

type kept struct {
	req Request
	laid
}

// Update returns the paths of the requests, in their order, in the line-up as
// it is now. IDs tell which cable is which from one call to the next; two
// requests of the same ID are laid but not kept. The first call, and one after
// a change of the board, is as Space.Route.
//
// Cables that are settled, if any, lie there already and stay; see
// Space.Around. Where they lie does not make a cable of the router's own leave
// its old way.
func (r *Router) Update(p *layout.Plan, l *layout.Lineup, reqs []Request, settled ...Settled) []Path {
	old, space := r.space, NewSpace(p, l).Around(settled)
	b := newBundle(space, reqs)
	if old == nil || old.board != space.board || !slices.Equal(old.layers, space.layers) || len(r.kept) == 0 {
		space.routeAll(b)
	} else {
		r.follow(b, moved(old.solids, space.solids))
	}
	r.space, r.kept = space, make(map[string]kept, len(reqs))
	for i := range reqs {
		r.kept[reqs[i].ID] = kept{reqs[i], b.laid[i]}
	}
	return b.paths()
}

// follow keeps what it can of the old paths and lays the rest, each among all
// others.
func (r *Router) follow(b *bundle, changed []solid) {
	w := takeWorker()
	defer w.release()
	var fresh []int
	was := maps.Clone(r.kept)
	for i := range b.reqs {
		k, ok := was[b.reqs[i].ID]
		delete(was, b.reqs[i].ID)
		if ok && k.req == b.reqs[i] && k.placed() && !k.touched(changed) {
			b.laid[i] = k.laid
			continue
		}
		fresh = append(fresh, i)
	}
	var unknown []int
	for _, i := range fresh {
		opt := layOptions{others: b.others(w, i)}
		if k, ok := r.kept[b.reqs[i].ID]; ok && k.placed() {
			opt.old, opt.win = k.strands, k.path.spread()
		} else {
			unknown = append(unknown, i)
		}
		b.laid[i] = b.space.lay(w, &b.reqs[i], opt)
	}
	b.improve(unknown) // the others stay where they were
}

// touched reports whether something that moved is or was so near the path that
// it matters: within its bend radius.
func (k *kept) touched(changed []solid) bool {
	near := k.req.BendRadius
	for i := 1; i < len(k.path.Points); i++ {
		a, c := k.path.Points[i-1], k.path.Points[i]
		box := layout.Box{
			X0: min(a.X, c.X) - near, Y0: min(a.Y, c.Y) - near, Z0: min(a.Z, c.Z) - k.req.Diameter,
			X1: max(a.X, c.X) + near, Y1: max(a.Y, c.Y) + near, Z1: max(a.Z, c.Z) + k.req.Diameter,
		}
		if slices.ContainsFunc(changed, func(o solid) bool { return o.box.Overlaps(box) && !k.req.owns(&o) }) {
			return true
		}
	}
	return false
}

// moved returns the solids that are in only one of the two.
func moved(a, b []solid) []solid {
	count := make(map[solid]int, len(a))
	for _, o := range a {
		count[o]++
	}
	var out []solid
	for _, o := range b {
		if count[o] == 0 {
			out = append(out, o)
			continue
		}
		count[o]--
	}
	for _, o := range a { // in its order, as a map has none
		if count[o] > 0 {
			out = append(out, o)
			count[o]--
		}
	}
	return out
}

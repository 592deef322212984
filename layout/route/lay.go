package route

import (
	"fmt"
	"math"
	"sync"

	"footplank/layout"
	"footplank/pack/recall"
)

// worker holds the memory of searches, to be used again.
type worker struct {
	grid   grid
	search search
	rects  []layout.Rect
	planes []plane
	others []strand
	tracks []strand

	question recall.Question
}

var workers = sync.Pool{New: func() any { return new(worker) }}

func takeWorker() *worker    { return workers.Get().(*worker) }
func (w *worker) release()   { workers.Put(w) }
func (l *laid) cost() int64  { return l.toll + int64(l.path.Square()) }
func (l *laid) placed() bool { return len(l.path.Points) > 0 }
func tooTight(r *Request, found layout.Length) string {
	return fmt.Sprintf("bend too tight: the room allows a radius of %s, the cable wants %s", found, r.BendRadius)
}

// layOptions say how a cable is to be laid.
type layOptions struct {
	exact  bool
	others []strand    // of the cables that lie there already
	tracks []strand    // of those, the ones to try to lie beside
	limit  int64       // ways that cost as much or more are of no use; 0 for none
	win    layout.Rect // to look in first, if not empty; with a limit nowhere else
	old    []strand    // where the cable lay before; it should stay there
}

// laid is a cable on the board.
type laid struct {
	path    Path
	strands []strand
	toll    int64 // what lying on and along others costs, in micrometres
}

// Windows of the search, as room around the ends: most cables find their way
// in the first. A way found costs less than any that leaves the window, or the
// next window is tried.
var windows = [...]layout.Length{35 * layout.Millimetre, 140 * layout.Millimetre}

// lay finds the way of one cable. Where the radius it wants has no way it is
// laid with the largest that has one, to an eighth.
func (s *Space) lay(w *worker, r *Request, opt layOptions) laid {
	want := r.BendRadius
	if l, ok := s.attempt(w, r, want, opt); ok {
		return l
	}
	best, ok := s.attempt(w, r, 0, opt)
	if !ok {
		return laid{path: Path{ID: r.ID, Why: s.noWay(w, r)}}
	}
	const parts = 8
	for lo, hi := layout.Length(0), layout.Length(parts); hi-lo > 1; {
		mid := (lo + hi) / 2
		if l, ok := s.attempt(w, r, want*mid/parts, opt); ok {
			best, lo = l, mid
		} else {
			hi = mid
		}
	}
	return best
}

// noWay says why no path was found at all.
func (s *Space) noWay(w *worker, r *Request) string {
	planes := s.planes(w, r)
	for _, e := range []*End{&r.From, &r.To} {
		if len(s.docks(w, r, e, planes)) == 0 {
			if e.Edge {
				return fmt.Sprintf("the board's %s edge has no free place", e.Dir)
			}
			return fmt.Sprintf("no room before the plug of %s at %s", e.Unit, e.Jack)
		}
	}
	return fmt.Sprintf("all that lies between %s and %s is taken", r.From.name(), r.To.name())
}

func (e *End) name() string {
	if e.Edge {
		return fmt.Sprintf("the board's %s edge", e.Dir)
	}
	return fmt.Sprintf("%s at %s", e.Unit, e.Jack)
}

// attempt finds the way with bends of the radius: through the air if that is
// short enough and shorter, else lying down.
func (s *Space) attempt(w *worker, r *Request, radius layout.Length, opt layOptions) (laid, bool) {
	air, hangs := s.throughAir(w, r, radius, opt)
	planes := s.planes(w, r)
	docks := [2][]dock{s.docks(w, r, &r.From, planes), s.docks(w, r, &r.To, planes)}
	if len(docks[0]) == 0 || len(docks[1]) == 0 {
		return air, hangs
	}
	least := leastOf(planes, docks)
	if hangs && air.cost() <= int64(least) {
		return air, true
	}
	down, lies := s.lieDown(w, r, planes, docks, radius, opt)
	if hangs && (!lies || air.cost() <= down.cost()) {
		return air, true
	}
	return down, lies
}

// throughAir finds the way of a short cable that holds itself up.
func (s *Space) throughAir(w *worker, r *Request, radius layout.Length, opt layOptions) (laid, bool) {
	if r.From.Edge || r.To.Edge {
		return laid{}, false
	}
	if reachOf(r) > AirLimit {
		return laid{}, false
	}
	half := r.Diameter / 2
	w.rects = w.rects[:0]
	reach := layout.Edges{Front: AirLimit, Back: AirLimit, Left: AirLimit, Right: AirLimit}
	ends := layout.Rect{X0: r.From.At.X, Y0: r.From.At.Y, X1: r.From.At.X, Y1: r.From.At.Y}
	pl := plane{layer: inAir, z: r.From.Z, domain: reachTo(ends, r.To.At).Grow(reach)}
	pl.solids = s.between(w, r, min(r.From.Z, r.To.Z)-half, max(r.From.Z, r.To.Z)+half)
	planes := []plane{pl}
	docks := [2][]dock{s.docks(w, r, &r.From, planes), s.docks(w, r, &r.To, planes)}
	l, ok := s.lieDown(w, r, planes, docks, radius, opt)
	return l, ok && l.path.Square() <= AirLimit
}

// lieDown searches window after window, until the way found is shorter than
// any that leaves the window.
func (s *Space) lieDown(w *worker, r *Request, planes []plane, docks [2][]dock, radius layout.Length, opt layOptions) (laid, bool) {
	b := bendOf(r.Diameter, radius)
	least := leastOf(planes, docks)
	box := around(docks)
	all := box
	for i := range planes {
		all = all.Union(planes[i].domain)
	}
	all = all.Grow(layout.Edges{Front: b.radius, Back: b.radius, Left: b.radius, Right: b.radius})
	if !opt.win.Empty() {
		win := reachTo(reachTo(opt.win, layout.Point{X: box.X0, Y: box.Y0}), layout.Point{X: box.X1, Y: box.Y1})
		if l, ok := s.find(w, r, planes, docks, b, win, false, opt); ok || opt.limit > 0 {
			return l, ok
		}
	}
	var out laid
	var ok bool
	for i := 0; i <= len(windows); i++ {
		win, room := all, layout.MaxLength
		if i < len(windows) {
			room = windows[i]
			win = box.Grow(layout.Edges{Front: room, Back: room, Left: room, Right: room})
		}
		if out, ok = s.find(w, r, planes, docks, b, win, false, opt); ok && out.path.Square() <= least+2*room {
			break
		}
	}
	if !opt.exact || ok && out.cost() == int64(least) {
		return out, ok
	}
	if ok {
		room := layout.Length(out.cost()-int64(least))/2 + 1
		all = box.Grow(layout.Edges{Front: room, Back: room, Left: room, Right: room})
	}
	return s.find(w, r, planes, docks, b, all, true, opt)
}

// find runs one search in a window, or remembers it.
func (s *Space) find(w *worker, r *Request, planes []plane, docks [2][]dock, b bend, win layout.Rect, closed bool, opt layOptions) (laid, bool) {
	w.grid.lines(planes, docks, b, win, r, opt.tracks, opt.old, closed)
	w.question = w.grid.question(w.question[:0], r, planes, docks, b, closed, &opt)
	d := w.question.Digest()
	f, ok := finds.Recall(d)
	if !ok {
		f.laid, f.ok = w.seek(r, planes, docks, b, closed, opt)
		finds.Keep(d, f)
	}
	f = f.copied(r.ID)
	return f.laid, f.ok
}

// seek searches on the grid, which has its lines.
func (w *worker) seek(r *Request, planes []plane, docks [2][]dock, b bend, closed bool, opt layOptions) (laid, bool) {
	w.grid.fill(planes, b)
	if !closed {
		w.grid.prune(len(planes))
	}
	w.grid.loyal(planes, opt.old)
	w.grid.charge(r, planes, opt.others)
	w.search.limit = math.MaxInt64
	if opt.limit > 0 {
		w.search.limit = opt.limit * scale
	}
	w.search.grid, w.search.planes, w.search.docks, w.search.bend = &w.grid, planes, docks, b
	cost, way, ok := w.search.run()
	if !ok {
		return laid{}, false
	}
	return w.search.lay(r, way, cost), true
}

// lay makes the path of the way that was found.
func (s *search) lay(r *Request, way []int32, cost int64) laid {
	l := laid{path: Path{ID: r.ID, Bend: s.bend.radius, OK: s.bend.radius >= r.BendRadius}}
	pts := []Point3{s.startDock().end}
	var last Point3
	for i, n := range way {
		plane, p := s.place(n)
		at := Point3{p.X, p.Y, s.planes[plane].z}
		if i == 0 {
			// The cable first goes back along its plug, then down.
			pts = join(pts, Point3{p.X, p.Y, pts[0].Z})
		}
		if i > 0 && s.planes[plane].layer != inAir && at.Z == last.Z {
			l.strands = addStrand(l.strands, r, s.planes[plane].layer, last, at)
		}
		pts = join(pts, at)
		last = at
	}
	end := s.docks[1][s.goal.stamp].end
	pts = join(pts, Point3{last.X, last.Y, end.Z})
	l.path.Points = join(pts, end)
	l.path.Length = rounded(l.path.Points, s.bend.radius)
	l.toll = cost/scale - int64(l.path.Square())
	if !l.path.OK {
		l.path.Why = tooTight(r, s.bend.radius)
	}
	return l
}

// join adds a point to a path, and drops the last where it is on the straight
// way to the new one.
func join(pts []Point3, p Point3) []Point3 {
	n := len(pts)
	if pts[n-1] == p {
		return pts
	}
	if n > 1 && span(pts[n-2], pts[n-1])+span(pts[n-1], p) == span(pts[n-2], p) && aligned(pts[n-2], p) {
		pts[n-1] = p
		return pts
	}
	return append(pts, p)
}

// aligned reports whether the points differ along one axis at most.
func aligned(a, b Point3) bool {
	differ := 0
	for _, d := range [3]layout.Length{a.X - b.X, a.Y - b.Y, a.Z - b.Z} {
		if d != 0 {
			differ++
		}
	}
	return differ <= 1
}

// leastOf returns the least length between two docks with nothing in between.
func leastOf(planes []plane, docks [2][]dock) layout.Length {
	least := layout.MaxLength
	for _, a := range docks[0] {
		for _, b := range docks[1] {
			up := abs(planes[a.plane].z - planes[b.plane].z)
			least = min(least, apart(a.at, b.at)+up+a.extra+b.extra)
		}
	}
	return least
}

// spread is the rectangle that the path is seen in from above, and what a cable
// laid anew may leave it by.
func (p *Path) spread() layout.Rect {
	out := layout.Rect{X0: p.Points[0].X, Y0: p.Points[0].Y, X1: p.Points[0].X, Y1: p.Points[0].Y}
	for _, q := range p.Points {
		out = reachTo(out, layout.Point{X: q.X, Y: q.Y})
	}
	return out.Grow(layout.Edges{Front: asideRoom, Back: asideRoom, Left: asideRoom, Right: asideRoom})
}

// around returns the smallest rectangle with all docks.
func around(docks [2][]dock) layout.Rect {
	p := docks[0][0].at
	out := layout.Rect{X0: p.X, Y0: p.Y, X1: p.X, Y1: p.Y}
	for _, side := range docks {
		for _, d := range side {
			out = reachTo(out, d.at)
		}
	}
	return out
}

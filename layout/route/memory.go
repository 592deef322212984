package route

import (
	"slices"

	"footplank/layout"
	"footplank/pack/recall"
)

// found is the answer of one search on the grid; ok is false where there is no
// way.
type found struct {
	laid laid
	ok   bool
}

// finds remembers searches on the grid, by all that they look at. An edit leaves
// most of a board as it was, and most searches ask then what was asked before. One
// answer takes about a kilobyte.
var finds = recall.Memory[found]{Most: 4096}

// copied is the answer with a path that the caller may change.
func (f found) copied(id string) found {
	f.laid.path.ID = id
	f.laid.path.Points = slices.Clone(f.laid.path.Points)
	return f
}

// question writes down a search on the grid, which has its lines: what these come
// from, what stands in the window, and what else is charged for or asked for. What
// is too far away to matter is not in it; see fill and charge.
func (g *grid) question(q recall.Question, r *Request, planes []plane, docks [2][]dock, b bend, closed bool, opt *layOptions) recall.Question {
	recall.Add(&q, g.win.X0, g.win.Y0, g.win.X1, g.win.Y1, b.half, b.clear, b.radius, r.Diameter, r.BendRadius)
	recall.Add(&q, opt.limit, int64(len(g.sources)), int64(len(planes)))
	q.Text(string(r.Kind))
	q.Yes(closed)
	for i := range g.sources {
		t := &g.sources[i]
		recall.Add(&q, t.at, t.lo, t.hi)
		q.Yes(t.north)
	}
	for i := range planes {
		pl := &planes[i]
		recall.Add(&q, layout.Length(pl.layer), pl.z)
		recall.Add(&q, pl.domain.X0, pl.domain.Y0, pl.domain.X1, pl.domain.Y1)
		q.Yes(pl.linked)
		g.inTheWay(&q, pl.solids, b.radius)
		g.inTheWay(&q, pl.shaft, b.half)
	}
	for _, side := range docks {
		for _, d := range side {
			recall.Add(&q, d.plane, d.way)
			recall.Add(&q, d.at.X, d.at.Y, d.extra, d.end.X, d.end.Y, d.end.Z)
		}
		recall.Add(&q, len(side))
	}
	for i := range opt.others {
		if t := &opt.others[i]; g.concerns(t.rect(), Near+r.Diameter+t.diameter) {
			t.question(&q)
		}
	}
	recall.Add(&q, len(opt.old))
	for i := range opt.old {
		opt.old[i].question(&q)
	}
	return q
}

// inTheWay adds what reaches to within near of the window.
func (g *grid) inTheWay(q *recall.Question, rects []layout.Rect, near layout.Length) {
	n := 0
	for _, o := range rects {
		if g.concerns(o, near) {
			recall.Add(q, o.X0, o.Y0, o.X1, o.Y1)
			n++
		}
	}
	recall.Add(q, n)
}

func (t *strand) question(q *recall.Question) {
	recall.Add(q, layout.Length(t.layer), t.diameter, t.at, t.lo, t.hi)
	q.Text(string(t.kind))
	q.Yes(t.alongX)
}

// Forget forgets all searches, so that a benchmark can make them anew.
func Forget() { finds.Forget() }

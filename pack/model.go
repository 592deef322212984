package pack

import (
	"cmp"
	"encoding/binary"
	"slices"
	"sort"
	"sync/atomic"
)

// forbid is an open rectangle of differences: two things collide when the
// origin of the second less that of the first lies strictly inside.
type forbid struct{ x0, y0, x1, y1 int64 }

// holds reports whether the difference (dx, dy) lies strictly inside f.
func (f forbid) holds(dx, dy int64) bool {
	return f.x0 < dx && dx < f.x1 && f.y0 < dy && dy < f.y1
}

// within reports whether each point of f is a point of g.
func (f forbid) within(g forbid) bool {
	return f.x0 >= g.x0 && f.x1 <= g.x1 && f.y0 >= g.y0 && f.y1 <= g.y1
}

// cell is a closed rectangle of origins of one item that no obstacle forbids.
// It may be a line or a point.
type cell struct {
	region         int
	kind           int
	x0, y0, x1, y1 int64
}

func (c cell) has(x, y int64) bool {
	return c.x0 <= x && x <= c.x1 && c.y0 <= y && y <= c.y1
}

func (c cell) within(d cell) bool {
	return c.x0 >= d.x0 && c.x1 <= d.x1 && c.y0 >= d.y0 && c.y1 <= d.y1
}

// meets reports whether some origin of c lies strictly inside f.
func (f forbid) meets(c cell) bool {
	return c.x0 < f.x1 && c.x1 > f.x0 && c.y0 < f.y1 && c.y1 > f.y0
}

// kindOf holds the boxes of a shape at a height, masks explicit, without those
// that cannot overlap anything. All equal ones of a problem are one kind, so
// that they share their tables.
type kindOf struct {
	boxes []Box
	z     int64   // height of the origin
	area  float64 // of the boxes, summed: a measure of how hard it is to place
}

// model is a problem made ready for search: obstacles are gone into the cells,
// heights and boxes into the tables of forbidden differences.
type model struct {
	p     *Problem
	cells [][]cell // by item
	kinds []kindOf
	pairs []atomic.Pointer[[]forbid] // by kind and kind, made when first asked for
	// same[i] is the nearest item before i that is equal to i in every way,
	// or -1.
	same []int
	// fromObstacles holds by kind the origins that obstacles forbid.
	fromObstacles [][]forbid
	// gone marks cells that a bound has ruled out, by item and cell.
	gone [][]bool
}

func (m *model) dropped(i, k int) bool { return m.gone != nil && m.gone[i] != nil && m.gone[i][k] }

func (m *model) drop(i, k int) {
	if m.gone == nil {
		m.gone = make([][]bool, len(m.cells))
	}
	if m.gone[i] == nil {
		m.gone[i] = make([]bool, len(m.cells[i]))
	}
	m.gone[i][k] = true
}

// sweep removes the cells that were dropped.
func (m *model) sweep() {
	for i := range m.gone {
		if m.gone[i] == nil {
			continue
		}
		var left []cell
		for k, c := range m.cells[i] {
			if !m.gone[i][k] {
				left = append(left, c)
			}
		}
		m.cells[i] = left
	}
	m.gone = nil
	m.findSame()
}

// compile makes the model of p. With keep, cells that lie inside another of the
// same kind stay, so that an objective may tell their regions apart.
func compile(p *Problem, keep bool) *model {
	m := &model{p: p, cells: make([][]cell, len(p.Items))}
	index := map[string]int{}
	for i := range p.Items {
		it := &p.Items[i]
		for r := range it.Regions {
			k := m.intern(index, it, r)
			m.cells[i] = append(m.cells[i], m.freeCells(it.Regions[r], r, k)...)
		}
		if !keep {
			m.cells[i] = dropInner(m.cells[i])
		}
	}
	m.pairs = make([]atomic.Pointer[[]forbid], len(m.kinds)*len(m.kinds))
	m.findSame()
	return m
}

// intern returns the kind of item it in region r.
func (m *model) intern(index map[string]int, it *Item, r int) int {
	var boxes []Box
	for _, b := range it.Boxes(nil, Place{Region: r}) {
		if b.X0 < b.X1 && b.Y0 < b.Y1 && b.Z0 < b.Z1 && b.Groups != 0 {
			boxes = append(boxes, b)
		}
	}
	boxes = dropInnerBoxes(boxes)
	key := binary.LittleEndian.AppendUint64(nil, uint64(it.Regions[r].Z))
	area := 0.0
	for _, b := range boxes {
		for _, v := range [...]int64{b.X0, b.Y0, b.Z0, b.X1, b.Y1, b.Z1, int64(b.Groups)} {
			key = binary.LittleEndian.AppendUint64(key, uint64(v))
		}
		area += float64(b.X1-b.X0) * float64(b.Y1-b.Y0)
	}
	if k, ok := index[string(key)]; ok {
		return k
	}
	m.kinds = append(m.kinds, kindOf{boxes: boxes, z: it.Regions[r].Z, area: area})
	index[string(key)] = len(m.kinds) - 1
	return len(m.kinds) - 1
}

// dropInnerBoxes leaves out boxes that lie inside another which is there in at
// least the same groups.
func dropInnerBoxes(bs []Box) []Box {
	var out []Box
	for i, b := range bs {
		inner := false
		for j, c := range bs {
			if i == j || b.Groups&^c.Groups != 0 ||
				b.X0 < c.X0 || b.X1 > c.X1 || b.Y0 < c.Y0 || b.Y1 > c.Y1 || b.Z0 < c.Z0 || b.Z1 > c.Z1 {
				continue
			}
			if b != c || j < i {
				inner = true
				break
			}
		}
		if !inner {
			out = append(out, b)
		}
	}
	sort.Slice(out, func(i, j int) bool { return boxLess(out[i], out[j]) })
	return out
}

func boxLess(a, b Box) bool {
	x := [...]int64{a.X0, a.Y0, a.Z0, a.X1, a.Y1, a.Z1}
	y := [...]int64{b.X0, b.Y0, b.Z0, b.X1, b.Y1, b.Z1}
	for i := range x {
		if x[i] != y[i] {
			return x[i] < y[i]
		}
	}
	return a.Groups < b.Groups
}

// between returns the forbidden differences of kind b's origin less kind a's.
func (m *model) between(a, b int) []forbid {
	slot := &m.pairs[a*len(m.kinds)+b]
	if t := slot.Load(); t != nil {
		return *t
	}
	t := forbidden(m.kinds[a].boxes, m.kinds[b].boxes)
	slot.Store(&t)
	return t
}

// forbidden compiles two lists of boxes into the open rectangles of origin
// differences that make some box of the first overlap some box of the second.
func forbidden(as, bs []Box) []forbid {
	out := make([]forbid, 0, len(as)*len(bs))
	for _, a := range as {
		for _, b := range bs {
			if a.Groups&b.Groups == 0 || max(a.Z0, b.Z0) >= min(a.Z1, b.Z1) {
				continue
			}
			out = append(out, forbid{a.X0 - b.X1, a.Y0 - b.Y1, a.X1 - b.X0, a.Y1 - b.Y0})
		}
	}
	return mergeForbids(out)
}

// mergeForbids joins rectangles that overlap and share both ends of one axis,
// and drops those inside another. Open rectangles that only touch leave a line
// of allowed differences between them and are not joined.
func mergeForbids(fs []forbid) []forbid {
	for again := true; again; {
		again = false
		for i := 0; i < len(fs); i++ {
			for j := 0; j < len(fs); j++ {
				if i == j {
					continue
				}
				g, ok := join(fs[i], fs[j])
				if !ok {
					continue
				}
				fs[i] = g
				fs = append(fs[:j], fs[j+1:]...)
				again = true
				if j < i {
					i--
				}
				j--
			}
		}
	}
	slices.SortFunc(fs, func(a, b forbid) int {
		sa, sb := (a.x1-a.x0)+(a.y1-a.y0), (b.x1-b.x0)+(b.y1-b.y0)
		return cmp.Or(cmp.Compare(sb, sa), cmp.Compare(a.x0, b.x0), cmp.Compare(a.y0, b.y0), cmp.Compare(a.x1, b.x1))
	})
	return fs
}

// join returns the union of f and g where that is a single open rectangle.
func join(f, g forbid) (forbid, bool) {
	switch {
	case g.within(f):
		return f, true
	case f.within(g):
		return g, true
	case f.x0 == g.x0 && f.x1 == g.x1 && max(f.y0, g.y0) < min(f.y1, g.y1):
		return forbid{f.x0, min(f.y0, g.y0), f.x1, max(f.y1, g.y1)}, true
	case f.y0 == g.y0 && f.y1 == g.y1 && max(f.x0, g.x0) < min(f.x1, g.x1):
		return forbid{min(f.x0, g.x0), f.y0, max(f.x1, g.x1), f.y1}, true
	}
	return f, false
}

// freeCells cuts region r of kind k into the largest closed rectangles of
// origins at which no obstacle is hit. They overlap each other and together
// hold each free origin.
func (m *model) freeCells(reg Region, r, k int) []cell {
	cells := []cell{{region: r, kind: k, x0: reg.X0, y0: reg.Y0, x1: reg.X1, y1: reg.Y1}}
	// An obstacle stands at the origin of its own, so that the difference
	// is the item's origin itself.
	for _, f := range m.kept(k) {
		cells = cut(cells, f)
	}
	return cells
}

// kept returns the origins that the obstacles forbid to kind k.
func (m *model) kept(k int) []forbid {
	for len(m.fromObstacles) <= k {
		m.fromObstacles = append(m.fromObstacles, nil)
	}
	if m.fromObstacles[k] != nil {
		return m.fromObstacles[k]
	}
	var obs []Box
	for _, o := range m.p.Obstacles {
		b := o.Box
		if b.Groups == 0 {
			b.Groups = AllGroups
		}
		if b.X0 < b.X1 && b.Y0 < b.Y1 && b.Z0 < b.Z1 {
			obs = append(obs, b)
		}
	}
	m.fromObstacles[k] = forbidden(obs, m.kinds[k].boxes)
	return m.fromObstacles[k]
}

// cut takes the open rectangle f out of each cell.
func cut(cells []cell, f forbid) []cell {
	var out []cell
	hit := false
	for _, c := range cells {
		if !f.meets(c) {
			out = append(out, c)
			continue
		}
		hit = true
		if c.x0 <= f.x0 {
			d := c
			d.x1 = f.x0
			out = append(out, d)
		}
		if f.x1 <= c.x1 {
			d := c
			d.x0 = f.x1
			out = append(out, d)
		}
		if c.y0 <= f.y0 {
			d := c
			d.y1 = f.y0
			out = append(out, d)
		}
		if f.y1 <= c.y1 {
			d := c
			d.y0 = f.y1
			out = append(out, d)
		}
	}
	if hit {
		out = dropInner(out)
	}
	return out
}

// dropInner leaves out cells inside another of the same kind; of equal cells
// the first stays.
func dropInner(cells []cell) []cell {
	var out []cell
	for i, c := range cells {
		inner := false
		for j, d := range cells {
			if i != j && c.kind == d.kind && c.within(d) && (j < i || !d.within(c)) {
				inner = true
				break
			}
		}
		if !inner {
			out = append(out, c)
		}
	}
	return out
}

// findSame fills same: items with equal cells may be exchanged freely.
func (m *model) findSame() {
	m.same = make([]int, len(m.cells))
	for i := range m.cells {
		m.same[i] = -1
		for j := i - 1; j >= 0; j-- {
			if sameCells(m.cells[i], m.cells[j]) {
				m.same[i] = j
				break
			}
		}
	}
}

func sameCells(a, b []cell) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		c, d := a[i], b[i]
		c.region, d.region = 0, 0
		if c != d {
			return false
		}
	}
	return true
}

// clash reports whether a at (ax, ay) and b at (bx, by) collide.
func (m *model) clash(a int, ax, ay int64, b int, bx, by int64) bool {
	dx, dy := bx-ax, by-ay
	for _, f := range m.between(a, b) {
		if f.holds(dx, dy) {
			return true
		}
	}
	return false
}

func allItems(n int) []int {
	v := make([]int, n)
	for i := range v {
		v[i] = i
	}
	return v
}

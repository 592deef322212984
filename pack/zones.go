package pack

import (
	"slices"
	"sort"
)

// zoneSpan bounds the sides of the zones looked at, and with them the sums of
// areas: 2^27 micrometres are 134 m.
const zoneSpan = int64(1) << 27

// zone is a flat slab of space that things compete for: the rectangle r at the
// heights [z0, z1), in one group. Obstacles are holes in its floor.
//
//	z1 ---------------   the slab cuts bodies and plugs to rectangles;
//	z0 ---------------   what they cover cannot be more than the floor
//	   |<---- r ---->|
type zone struct {
	z0, z1 int64
	group  Mask
	r      forbid // [x0,x1) x [y0,y1)
	holes  []forbid
	room   int64
	covers [][]cover  // by item and cell
	clean  bool       // each box is always inside r or always outside
	inSlab []slabKind // by kind
}

// slabKind is what a kind has in the slab of a zone.
type slabKind struct {
	known bool
	boxes []Box
	hull  forbid // of the boxes, about the origin
	whole *cover // of cells in which all the boxes are inside the zone
}

// cover is what an item in a cell takes of a zone wherever its origin is: the
// rectangles, relative to the origin, and the area of their union.
type cover struct {
	rects []forbid
	area  int64
}

// level holds the zones of one group at the heights above one level at which
// origins may lie.
type level struct {
	group Mask
	z     int64
	zones []*zone
}

// levels lists the zones worth looking at. The rectangle of a level's zones is
// the hull of all boxes of things whose origin may lie on it, the slabs lie
// between the heights at which those begin and end.
func (m *model) levels() []level {
	var zs []int64
	for k := range m.kinds {
		zs = append(zs, m.kinds[k].z)
	}
	zs = distinct(zs)
	var out []level
	for _, g := range m.groups() {
		for _, z := range zs {
			if lv := m.levelOf(g, z); len(lv.zones) > 0 {
				out = append(out, lv)
			}
		}
	}
	return out
}

// groups returns one bit for each set of boxes that some group has, without
// the groups whose boxes all are in another as well.
func (m *model) groups() []Mask {
	var bits []Mask
	var sigs [][]uint64
	for b := 0; b < 64; b++ {
		g := Mask(1) << b
		var sig []uint64
		n, any := 0, false
		for k := range m.kinds {
			for _, x := range m.kinds[k].boxes {
				if n%64 == 0 {
					sig = append(sig, 0)
				}
				if x.Groups&g != 0 {
					sig[n/64] |= 1 << (n % 64)
					any = true
				}
				n++
			}
		}
		if any {
			bits, sigs = append(bits, g), append(sigs, sig)
		}
	}
	var out []Mask
	for i := range bits {
		inner := false
		for j := range bits {
			if i == j || !subset(sigs[i], sigs[j]) {
				continue
			}
			if j < i || !subset(sigs[j], sigs[i]) {
				inner = m.obstaclesIn(bits[i], bits[j])
			}
			if inner {
				break
			}
		}
		if !inner {
			out = append(out, bits[i])
		}
	}
	return out
}

// obstaclesIn reports whether each obstacle of group g is in group h too.
func (m *model) obstaclesIn(g, h Mask) bool {
	for _, o := range m.p.Obstacles {
		if o.Box.Groups != 0 && o.Box.Groups&g != 0 && o.Box.Groups&h == 0 {
			return false
		}
	}
	return true
}

func subset(a, b []uint64) bool {
	for i := range a {
		if a[i]&^b[i] != 0 {
			return false
		}
	}
	return true
}

// levelOf makes the zones of a level, one a slab that is not outdone by another.
func (m *model) levelOf(g Mask, z int64) level {
	lv := level{group: g, z: z}
	ends, hull := m.spanOf(g, z)
	slabs, on := m.slabs(ends, g), m.kindsOn(z)
	for _, s := range slabs {
		if !m.outdone(s, slabs, on) {
			lv.zones = append(lv.zones, m.newZone(g, hull, s.z0, s.z1))
		}
	}
	lv.zones = dropLesser(lv.zones)
	return lv
}

// spanOf returns the rectangle of a level's zones and the heights that part its
// slabs; none for a level that has nothing, or too much.
func (m *model) spanOf(g Mask, z int64) (ends []int64, hull forbid) {
	first := true
	for i := range m.cells {
		for _, c := range m.cells[i] {
			if m.kinds[c.kind].z != z {
				continue
			}
			for _, b := range m.kinds[c.kind].boxes {
				if b.Groups&g == 0 {
					continue
				}
				ends = append(ends, b.Z0, b.Z1)
				h := forbid{c.x0 + b.X0, c.y0 + b.Y0, c.x1 + b.X1, c.y1 + b.Y1}
				if first {
					hull, first = h, false
				}
				hull = forbid{min(hull.x0, h.x0), min(hull.y0, h.y0), max(hull.x1, h.x1), max(hull.y1, h.y1)}
			}
		}
	}
	if first || hull.x1-hull.x0 > zoneSpan || hull.y1-hull.y0 > zoneSpan {
		return nil, hull
	}
	return m.cutsWithin(ends, g), hull
}

// cutsWithin adds to ends all heights between them at which something of group
// g begins or ends, so that no box and no obstacle fills a part of a slab only.
func (m *model) cutsWithin(ends []int64, g Mask) []int64 {
	lo, hi := slices.Min(ends), slices.Max(ends)
	add := func(v int64) {
		if lo < v && v < hi {
			ends = append(ends, v)
		}
	}
	for k := range m.kinds {
		for _, b := range m.kinds[k].boxes {
			if b.Groups&g != 0 {
				add(b.Z0)
				add(b.Z1)
			}
		}
	}
	for _, o := range m.p.Obstacles {
		add(o.Box.Z0)
		add(o.Box.Z1)
	}
	return distinct(ends)
}

func (m *model) newZone(g Mask, r forbid, z0, z1 int64) *zone {
	zn := &zone{z0: z0, z1: z1, group: g, r: r, clean: true}
	for _, o := range m.p.Obstacles {
		b := o.Box
		if (b.Groups == 0 || b.Groups&g != 0) && b.Z0 < z1 && z0 < b.Z1 {
			h := forbid{max(b.X0, r.x0), max(b.Y0, r.y0), min(b.X1, r.x1), min(b.Y1, r.y1)}
			if h.x0 < h.x1 && h.y0 < h.y1 {
				zn.holes = append(zn.holes, h)
			}
		}
	}
	zn.room = (r.x1-r.x0)*(r.y1-r.y0) - unionArea(zn.holes)
	zn.covers = make([][]cover, len(m.cells))
	zn.inSlab = make([]slabKind, len(m.kinds))
	n := 0
	for _, cs := range m.cells {
		n += len(cs)
	}
	all := make([]cover, n)
	for i, cs := range m.cells {
		zn.covers[i], all = all[:len(cs):len(cs)], all[len(cs):]
		for k, c := range cs {
			zn.covers[i][k] = zn.coverOf(m, c)
		}
	}
	return zn
}

// kindIn returns what a kind has in the zone's slab.
func (zn *zone) kindIn(m *model, kind int) *slabKind {
	sk := &zn.inSlab[kind]
	if sk.known {
		return sk
	}
	sk.known = true
	for _, b := range m.kinds[kind].boxes {
		if b.Groups&zn.group == 0 || b.Z0 >= zn.z1 || zn.z0 >= b.Z1 {
			continue
		}
		h := forbid{b.X0, b.Y0, b.X1, b.Y1}
		if len(sk.boxes) == 0 {
			sk.hull = h
		}
		sk.hull = forbid{min(sk.hull.x0, h.x0), min(sk.hull.y0, h.y0), max(sk.hull.x1, h.x1), max(sk.hull.y1, h.y1)}
		sk.boxes = append(sk.boxes, b)
	}
	return sk
}

// inside reports whether the rectangle about the origin is in the zone wherever
// in the cell the origin is.
func (zn *zone) inside(c cell, f forbid) bool {
	return c.x0+f.x0 >= zn.r.x0 && c.x1+f.x1 <= zn.r.x1 && c.y0+f.y0 >= zn.r.y0 && c.y1+f.y1 <= zn.r.y1
}

func (zn *zone) coverOf(m *model, c cell) cover {
	sk := zn.kindIn(m, c.kind)
	if len(sk.boxes) == 0 {
		return cover{}
	}
	// Cells in which all boxes count cover the same.
	whole := zn.inside(c, sk.hull)
	if whole && sk.whole != nil {
		return *sk.whole
	}
	var cv cover
	for _, b := range sk.boxes {
		f := forbid{b.X0, b.Y0, b.X1, b.Y1}
		switch {
		case whole || zn.inside(c, f):
			cv.rects = append(cv.rects, f)
		case c.x1+b.X1 > zn.r.x0 && c.x0+b.X0 < zn.r.x1 && c.y1+b.Y1 > zn.r.y0 && c.y0+b.Y0 < zn.r.y1:
			zn.clean = false
		}
	}
	cv.area = unionArea(cv.rects)
	if whole {
		sk.whole = &cv
	}
	return cv
}

// dropLesser leaves out zones that another of the same rectangle covers: one
// in which each cell takes at least as much and there is no more room.
func dropLesser(zs []*zone) []*zone {
	var out []*zone
	for i, a := range zs {
		lesser := false
		for j, b := range zs {
			if i != j && a.lessThan(b) && (j < i || !b.lessThan(a)) {
				lesser = true
				break
			}
		}
		if !lesser {
			out = append(out, a)
		}
	}
	return out
}

func (zn *zone) lessThan(o *zone) bool {
	if zn.room < o.room {
		return false
	}
	for i := range zn.covers {
		for k := range zn.covers[i] {
			if zn.covers[i][k].area > o.covers[i][k].area {
				return false
			}
		}
	}
	return true
}

// apartArea is the area of rectangles of which no two overlap; ok is false where
// some do, or where there are too many to look at each two.
func apartArea(rs []forbid) (area int64, ok bool) {
	const few = 16
	if len(rs) > few {
		return 0, false
	}
	for i, r := range rs {
		for _, s := range rs[:i] {
			if r.x0 < s.x1 && s.x0 < r.x1 && r.y0 < s.y1 && s.y0 < r.y1 {
				return 0, false
			}
		}
		area += (r.x1 - r.x0) * (r.y1 - r.y0)
	}
	return area, true
}

// unionArea is the area that the rectangles cover together.
func unionArea(rs []forbid) int64 {
	if sum, ok := apartArea(rs); ok {
		return sum
	}
	var xs []int64
	for _, r := range rs {
		xs = append(xs, r.x0, r.x1)
	}
	xs = distinct(xs)
	sorted := slices.Clone(rs)
	sort.Slice(sorted, func(i, j int) bool { return sorted[i].y0 < sorted[j].y0 })
	total := int64(0)
	for k := 0; k+1 < len(xs); k++ {
		length, end, begun := int64(0), int64(0), false
		for _, r := range sorted {
			if r.x0 > xs[k] || r.x1 < xs[k+1] {
				continue
			}
			from := r.y0
			if begun {
				from = max(from, end)
			}
			if r.y1 > from {
				length += r.y1 - from
				end, begun = r.y1, true
			}
		}
		total += length * (xs[k+1] - xs[k])
	}
	return total
}

package pack

// slab is what there is between two heights, in one group: the boxes of the kinds
// and the obstacles, as bits.
type slab struct {
	z0, z1       int64
	boxes, stops []uint64
}

// slabs lists those between heights that follow each other.
func (m *model) slabs(ends []int64, g Mask) []slab {
	var out []slab
	for k := 0; k+1 < len(ends); k++ {
		s := slab{z0: ends[k], z1: ends[k+1]}
		n := 0
		for k := range m.kinds {
			for _, b := range m.kinds[k].boxes {
				s.boxes = withBit(s.boxes, n, b.Groups&g != 0 && b.Z0 < s.z1 && s.z0 < b.Z1)
				n++
			}
		}
		for i, o := range m.p.Obstacles {
			s.stops = withBit(s.stops, i, (o.Box.Groups == 0 || o.Box.Groups&g != 0) && o.Box.Z0 < s.z1 && s.z0 < o.Box.Z1)
		}
		out = append(out, s)
	}
	return out
}

func withBit(bits []uint64, n int, set bool) []uint64 {
	if n%64 == 0 {
		bits = append(bits, 0)
	}
	if set {
		bits[n/64] |= 1 << (n % 64)
	}
	return bits
}

// outdone reports whether another slab has all that this one has, and more than
// that of a kind on the level, the origins of which are all in the zone. Its zone
// is then left out by dropLesser whatever else there is, so that it need not be
// made: most of a level's slabs have only some of the boxes of another.
func (m *model) outdone(s slab, all []slab, on []bool) bool {
	for _, o := range all {
		if s.z0 != o.z0 && subset(s.boxes, o.boxes) && subset(s.stops, o.stops) && m.coversLess(s, o, on) {
			return true
		}
	}
	return false
}

// kindsOn tells of each kind whether an origin of it may lie at height z.
func (m *model) kindsOn(z int64) []bool {
	on := make([]bool, len(m.kinds))
	for _, cs := range m.cells {
		for _, c := range cs {
			on[c.kind] = m.kinds[c.kind].z == z
		}
	}
	return on
}

// coversLess reports whether some of the kinds on a level covers less of s than of o.
func (m *model) coversLess(s, o slab, on []bool) bool {
	var mine, theirs []forbid
	n := 0
	for k := range m.kinds {
		boxes := m.kinds[k].boxes
		first := n
		n += len(boxes)
		if !on[k] {
			continue
		}
		mine, theirs = mine[:0], theirs[:0]
		for i, b := range boxes {
			f := forbid{b.X0, b.Y0, b.X1, b.Y1}
			if hasBit(s.boxes, first+i) {
				mine = append(mine, f)
			}
			if hasBit(o.boxes, first+i) {
				theirs = append(theirs, f)
			}
		}
		if len(mine) < len(theirs) && unionArea(mine) < unionArea(theirs) {
			return true
		}
	}
	return false
}

func hasBit(bits []uint64, n int) bool { return bits[n/64]>>(n%64)&1 == 1 }

package pack

import "slices"

// branchGaps tries rectangles on the niche's floor away from its left corner.
func (s *skyline) branchGaps(d, at int, hl int64) Verdict {
	niche := s.levels[d].segs[at]
	most := min(s.budget/hl, niche.w)
	for _, x := range s.gapEnds(d, at, niche.x+most) {
		gap := x - niche.x
		for f := range s.forms {
			fm := &s.forms[f]
			if s.left[fm.kind] == 0 || fm.h <= hl || gap+fm.w > niche.w || niche.y+fm.h > s.H {
				continue
			}
			if verdict := s.try(d, at, f, gap, hl); verdict != Impossible {
				return verdict
			}
		}
	}
	return Impossible
}

// gapEnds lists the x inside the niche, up to end, at which the right side of
// a rectangle could stand that rests left of it: a step down of the outline,
// or the wall, plus a sum of widths left.
func (s *skyline) gapEnds(d, at int, end int64) []int64 {
	l := &s.levels[d]
	from := append(l.from[:0], 0)
	for i := 1; i <= at; i++ {
		if l.segs[i].y < l.segs[i-1].y {
			from = append(from, l.segs[i].x)
		}
	}
	l.from = from
	if l.places.bits == nil {
		return s.farGapEnds(l, at, end)
	}
	l.places.clear()
	for _, x := range from {
		l.places.set(x)
	}
	for k := range s.kinds {
		kd := &s.kinds[k]
		for range s.left[k] {
			l.places.shiftOr(kd.w, kd.turn, kd.h)
		}
	}
	l.ends = l.ends[:0]
	for x := l.places.next(l.segs[at].x + 1); x >= 0 && x <= end; x = l.places.next(x + 1) {
		l.ends = append(l.ends, x)
	}
	return l.ends
}

// maxGapEnds bounds the sums listed for one niche.
const maxGapEnds = 1 << 13

// farGapEnds is gapEnds for a container of many steps. Where there are too
// many sums it lists none, and the search can then prove nothing any more.
func (s *skyline) farGapEnds(l *skyLevel, at int, end int64) []int64 {
	var lengths [][2]int64
	for k := range s.kinds {
		kd := &s.kinds[k]
		v := [2]int64{kd.w, kd.w}
		if kd.turn {
			v[1] = kd.h
		}
		for range s.left[k] {
			lengths = append(lengths, v)
		}
	}
	list, ok := sumList(l.from, lengths, end, maxGapEnds)
	s.partial = s.partial || !ok
	i, _ := slices.BinarySearch(list, l.segs[at].x+1)
	return list[i:]
}

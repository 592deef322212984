package cut

import "slices"

// bestFit cuts each piece, the longest first, from the bar that it fills best.
func (s *solver) bestFit() []pattern {
	var bars []pattern
	var room []int64
	for i, n := range s.count {
		for ; n > 0; n-- {
			at := -1
			for b, r := range room {
				if r >= s.size[i] && (at < 0 || r < room[at]) {
					at = b
				}
			}
			if at < 0 {
				at = len(bars)
				bars = append(bars, make(pattern, len(s.size)))
				room = append(room, s.room)
			}
			bars[at][i]++
			room[at] -= s.size[i]
		}
	}
	return bars
}

// repair swaps single pieces between bars, and moves them, as long as that makes
// full bars fuller: the sum of the squares of the fills rises with each, so that
// it ends. A bar that comes out empty is gone.
func (s *solver) repair(list []pattern) []pattern {
	bars := make([]pattern, len(list))
	room := make([]int64, len(list))
	for b, p := range list {
		bars[b] = slices.Clone(p)
		room[b] = s.room - s.fill(p)
	}
	for again := true; again; {
		again = false
		for a := range bars {
			for b := range bars {
				if !s.spend(len(s.size)) {
					return list
				}
				// a is to be the fuller one.
				for a != b && room[a] <= room[b] && s.trade(bars[a], bars[b], room[a]) {
					room[a], room[b] = s.room-s.fill(bars[a]), s.room-s.fill(bars[b])
					again = true
				}
			}
		}
	}
	return slices.DeleteFunc(bars, func(p pattern) bool { return s.fill(p) == 0 })
}

// trade moves a piece from b to a, or swaps one of b's for a shorter one of a's,
// so that a gains the most that its room allows. It reports whether it gained.
func (s *solver) trade(a, b pattern, room int64) bool {
	best := int64(0)
	give, take := -1, -1
	for i, n := range b {
		if n == 0 {
			continue
		}
		if g := s.size[i]; g <= room && g > best {
			best, give, take = g, -1, i
		}
		for j := i + 1; j < len(a); j++ {
			if g := s.size[i] - s.size[j]; a[j] > 0 && g <= room && g > best {
				best, give, take = g, j, i
			}
		}
	}
	if best == 0 {
		return false
	}
	a[take]++
	b[take]--
	if give >= 0 {
		a[give]--
		b[give]++
	}
	return true
}

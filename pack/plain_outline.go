package pack

import "sort"

// hopeless reports whether no completion of the outline in l can exist,
// because more area is lost than the budget allows or a rectangle has no room
// left.
func (s *skyline) hopeless(l *skyLevel) bool {
	if s.noRoom(l) {
		return true
	}
	l.sumsW.clear()
	l.sumsW.set(0)
	l.sumsH.clear()
	l.sumsH.set(0)
	for k := range s.kinds {
		kd := &s.kinds[k]
		for range s.left[k] {
			l.sumsW.shiftOr(kd.w, kd.turn, kd.h)
			l.sumsH.shiftOr(kd.h, kd.turn, kd.w)
		}
	}
	return s.lostRows(l) > s.budget || s.lostColumns(l) > s.budget
}

// narrow is a supply of free cells in stretches of one length.
type narrow struct{ length, cells, lost int64 }

// lostNarrow bounds what is lost of the given cells: those of a stretch can
// only be covered by rectangles not longer than it. From short to long, the
// area of the rectangles that fit is spent on the cells that are there, and
// cells without are lost. A stretch's own loss, lengths no sum reaches, is
// lost in any case and takes no rectangle.
func (s *skyline) lostNarrow(cells []narrow, up bool) int64 {
	var lost, spare, own int64
	k := 0
	order := s.byWidth
	if up {
		order = s.byHeight
	}
	for i := range cells {
		for k < len(order) && s.least(order[k], up) <= cells[i].length {
			kd := order[k]
			spare += s.kinds[kd].w * s.kinds[kd].h * int64(s.left[kd])
			k++
		}
		own += cells[i].lost
		spare -= cells[i].cells - cells[i].lost
		if spare < 0 {
			lost -= spare
			spare = 0
		}
	}
	return lost + own
}

// least is a kind's smallest width, or height.
func (s *skyline) least(kind int, up bool) int64 {
	kd := &s.kinds[kind]
	if kd.turn {
		return min(kd.w, kd.h)
	}
	if up {
		return kd.h
	}
	return kd.w
}

// sortKinds orders the kinds by least width and by least height.
func (s *skyline) sortKinds() {
	for _, up := range []bool{false, true} {
		order := make([]int, len(s.kinds))
		for i := range order {
			order[i] = i
		}
		sort.SliceStable(order, func(i, j int) bool { return s.least(order[i], up) < s.least(order[j], up) })
		if up {
			s.byHeight = order
		} else {
			s.byWidth = order
		}
	}
}

// gather adds a stretch to cells, kept by rising length.
func gather(cells []narrow, add narrow) []narrow {
	i := len(cells)
	for i > 0 && cells[i-1].length > add.length {
		i--
	}
	if i > 0 && cells[i-1].length == add.length {
		cells[i-1].cells += add.cells
		cells[i-1].lost += add.lost
		return cells
	}
	cells = append(cells, add)
	copy(cells[i+1:], cells[i:])
	cells[i] = add
	return cells
}

// lostColumns bounds what is lost above the outline, column by column.
func (s *skyline) lostColumns(l *skyLevel) int64 {
	l.cells = l.cells[:0]
	for _, sg := range l.segs {
		free := s.H - sg.y
		l.cells = gather(l.cells, narrow{free, free * sg.w, (free - l.sumsH.below(free)) * sg.w})
	}
	return s.lostNarrow(l.cells, true)
}

// lostRows bounds what is lost above the outline, row by row. Rows between
// two heights of the outline all have the same free stretches.
func (s *skyline) lostRows(l *skyLevel) int64 {
	l.cells = l.cells[:0]
	low := s.H
	for _, sg := range l.segs {
		low = min(low, sg.y)
	}
	for y := low; y < s.H; {
		up := s.H
		for _, sg := range l.segs {
			if sg.y > y {
				up = min(up, sg.y)
			}
		}
		var stretch int64
		for i, sg := range l.segs {
			if sg.y <= y {
				stretch += sg.w
				if i+1 < len(l.segs) {
					continue
				}
			}
			if stretch > 0 {
				l.cells = gather(l.cells, narrow{stretch, stretch * (up - y), (stretch - l.sumsW.below(stretch)) * (up - y)})
				stretch = 0
			}
		}
		y = up
	}
	return s.lostNarrow(l.cells, false)
}

// noRoom reports whether a kind that is left fits into none of the largest
// empty rectangles above the outline.
func (s *skyline) noRoom(l *skyLevel) bool {
	for k := range s.kinds {
		kd := &s.kinds[k]
		if s.left[k] == 0 {
			continue
		}
		if k == s.corner {
			if !s.hasCornerRoom(l, kd.w, kd.h) && !(kd.turn && s.hasCornerRoom(l, kd.h, kd.w)) {
				return true
			}
			continue
		}
		if !s.hasRoom(l, kd.w, kd.h) && !(kd.turn && s.hasRoom(l, kd.h, kd.w)) {
			return true
		}
	}
	return false
}

// hasRoom reports whether somewhere w x h fits above the outline.
func (s *skyline) hasRoom(l *skyLevel, w, h int64) bool {
	var run int64
	for _, sg := range l.segs {
		if sg.y+h > s.H {
			run = 0
			continue
		}
		run += sg.w
		if run >= w {
			return true
		}
	}
	return false
}

// hasCornerRoom is hasRoom for the rectangle whose centre is to stay in the
// lower left quarter.
func (s *skyline) hasCornerRoom(l *skyLevel, w, h int64) bool {
	var run int64
	for _, sg := range l.segs {
		if 2*sg.y+h > s.H {
			run = 0
			continue
		}
		if 2*(sg.x-run)+w > s.W {
			return false
		}
		run += sg.w
		if run >= w {
			return true
		}
	}
	return false
}

// skyOrder is the order in which a skyline search tries rectangles.
type skyOrder int

const (
	byArea skyOrder = iota
	byWidth
	byHeight
)

func (o skyOrder) sort(forms []skyForm) {
	sort.SliceStable(forms, func(i, j int) bool {
		a, b := forms[i], forms[j]
		switch {
		case o == byWidth && a.w != b.w:
			return a.w > b.w
		case o == byHeight && a.h != b.h:
			return a.h > b.h
		}
		return a.w*a.h > b.w*b.h
	})
}

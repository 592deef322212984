package pack

import "sort"

// hopeless reports whether no completion of the outline in l can exist,
// because more area is lost than the budget allows or a rectangle has no room
// left. at is the lowest niche.
func (s *skyline) hopeless(l *skyLevel, at int) bool {
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
	return s.lostColumns(l) > s.budget || s.lostRows(l) > s.budget || s.noRoom(l)
}

// lostColumns bounds what is lost above the outline, column by column.
func (s *skyline) lostColumns(l *skyLevel) int64 {
	var lost int64
	for _, sg := range l.segs {
		free := s.H - sg.y
		lost += (free - l.sumsH.below(free)) * sg.w
	}
	return lost
}

// lostRows bounds what is lost above the outline, row by row. Rows between
// two heights of the outline all have the same free stretches.
func (s *skyline) lostRows(l *skyLevel) int64 {
	var lost int64
	low := s.H
	for _, sg := range l.segs {
		low = min(low, sg.y)
	}
	for y := low; y < s.H; {
		up := s.H
		var row, stretch int64
		for _, sg := range l.segs {
			if sg.y > y {
				up = min(up, sg.y)
				if stretch > 0 {
					row += stretch - l.sumsW.below(stretch)
					stretch = 0
				}
				continue
			}
			stretch += sg.w
		}
		if stretch > 0 {
			row += stretch - l.sumsW.below(stretch)
		}
		lost += row * (up - y)
		if lost > s.budget {
			return lost
		}
		y = up
	}
	return lost
}

// noRoom reports whether a kind that is left fits into none of the largest
// empty rectangles above the outline.
func (s *skyline) noRoom(l *skyLevel) bool {
	for k := range s.kinds {
		kd := &s.kinds[k]
		if s.left[k] == 0 {
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

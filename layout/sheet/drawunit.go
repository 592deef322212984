package sheet

import "footplank/layout"

// unit draws a unit's body: its cells emptied, its outline, the marks in its
// corners and on its front.
func (a *artist) unit(s *layout.Standing, n int16) {
	u := s.Unit
	at := a.f.area(u.Base(s.Place))
	in := at.clip(a.f.shown())
	for r := in.r0; r < in.r1; r++ {
		for c := in.c0; c < in.c1; c++ {
			a.g.put(c, r, " ", Blank, u.ID)
			a.own[r*a.g.W+c] = n
		}
	}
	l, mark, m := a.style(u)
	a.outline(at, l, m, u.ID)
	put := func(c, r int, text string, m Mark) {
		if in.has(c, r) {
			a.g.put(c, r, text, m, u.ID)
		}
	}
	if a.v.Faulty[u.ID] {
		for c := max(at.c0+2, in.c0); c < min(at.c1-1, in.c1); c++ {
			if (c-at.c0)%3 == 2 {
				put(c, at.r0, a.gl.barb, m)
				put(c, at.r1-1, a.gl.barb, m)
			}
		}
		for r := max(at.r0+1, in.r0); r < min(at.r1-1, in.r1); r++ {
			if (r-at.r0)%2 == 1 {
				put(at.c0, r, a.gl.barb, m)
				put(at.c1-1, r, a.gl.barb, m)
			}
		}
	}
	if at.w() > 2 && at.h() > 1 {
		c, r := a.front(at, s.Place.Turn)
		put(c, r, a.gl.turn[s.Place.Turn&3], TurnMark)
	}
	if a.v.Faulty[u.ID] && at.w() > 1 {
		put(at.c1-1, at.r0, a.gl.faultMark, m)
	}
	put(at.c0, at.r0, mark, m)
}

// style returns a unit's line, the mark of its mount and its class.
func (a *artist) style(u *layout.Unit) (l *line, mark string, m Mark) {
	switch {
	case u.Pinned && u.Mount == layout.Fixed:
		l, mark, m = &a.gl.pinFixed, a.gl.pinFixedMark, PinnedEdge
	case u.Pinned:
		l, mark, m = &a.gl.pinSwap, a.gl.pinSwapMark, PinnedEdge
	case u.Mount == layout.Fixed:
		l, mark, m = &a.gl.fixed, a.gl.fixedMark, FixedEdge
	default:
		l, mark, m = &a.gl.swap, a.gl.swapMark, SwapEdge
	}
	if a.v.Faulty[u.ID] {
		m = FaultEdge
	}
	switch u.ID {
	case a.v.Selected:
		l, m = &a.gl.selected, SelectedEdge
	case a.v.Other:
		l, m = &a.gl.other, OtherEdge
	}
	return l, mark, m
}

// front returns the cell in the middle of the wall that is the front at turn 0.
func (a *artist) front(at area, t layout.Turn) (c, r int) {
	c, r = at.c0+at.w()/2, at.r0+at.h()/2
	switch layout.Front.Turned(t) {
	case layout.Front:
		r = at.r1 - 1
	case layout.Back:
		r = at.r0
	case layout.Left:
		c = at.c0
	default:
		c = at.c1 - 1
	}
	return c, r
}

// inside draws what is in a unit's outline: its label, clear of its switches
// where there is room, and then those.
func (a *artist) inside(s *layout.Standing, n int16) {
	at := a.f.area(s.Unit.Base(s.Place))
	taken := make([][2]int, 0, 4)
	if a.v.Switches {
		for i := range s.Unit.Switches {
			p, _ := s.SwitchAt(i)
			c, r, ok := a.g.Cell(p)
			// A switch near a wall is drawn inside the outline.
			if at.w() > 2 && at.h() > 2 {
				c, r = min(max(c, at.c0+1), at.c1-2), min(max(r, at.r0+1), at.r1-2)
			}
			if ok && a.f.inside(c, r) {
				taken = append(taken, [2]int{c, r})
			}
		}
	}
	a.label(s.Unit, at, n, taken)
	for _, t := range taken {
		if a.free(t[0], t[1], n) {
			a.g.put(t[0], t[1], a.gl.footSwitch, SwitchMark, s.Unit.ID)
		}
	}
}

// free reports whether the cell is an empty one of the unit's inside.
func (a *artist) free(c, r int, n int16) bool {
	if !a.f.inside(c, r) {
		return false
	}
	i := r*a.g.W + c
	return a.own[i] == n && a.g.Cells[i].Mark == Blank
}

// label writes a unit's label in the middle of its inside, or as near to it as
// the cells taken and other units allow.
func (a *artist) label(u *layout.Unit, at area, n int16, taken [][2]int) {
	text := a.text(u.Label)
	box := area{at.c0 + 1, at.r0 + 1, at.c1 - 1, at.r1 - 1}
	onEdge := box.h() < 1
	if onEdge {
		box.r0, box.r1 = at.r0, at.r0+1
	}
	box = box.clip(a.f.shown())
	write := func(lines []string, taken [][2]int) bool {
		r, ok := a.roomFor(lines, box, n, taken, onEdge)
		for i := 0; ok && i < len(lines); i++ {
			a.g.write(box.c0+(box.w()-width(lines[i]))/2, r+i, lines[i], Label, u.ID)
		}
		return ok
	}
	// The fewer lines the shorter the label, and the sooner it is clear of
	// the switches. If no row is, the label goes before them.
	most := shorten(text, box.w(), box.h())
	for lines := most; lines != nil; lines = shorten(text, box.w(), len(lines)-1) {
		if write(lines, taken) {
			return
		}
	}
	if most != nil {
		write(most, nil)
	}
}

// roomFor returns the first row, nearest to the middle, from which lines can
// be written centred in the box.
func (a *artist) roomFor(lines []string, box area, n int16, taken [][2]int, onEdge bool) (int, bool) {
	mid := box.r0 + (box.h()-len(lines))/2
	for d := 0; d <= box.h(); d++ {
		for _, r := range [2]int{mid - d, mid + d} {
			if r >= box.r0 && r+len(lines) <= box.r1 && a.clear(lines, r, box, n, taken, onEdge) {
				return r, true
			}
		}
	}
	return 0, false
}

func (a *artist) clear(lines []string, r int, box area, n int16, taken [][2]int, onEdge bool) bool {
	for i, s := range lines {
		w := width(s)
		c0 := box.c0 + (box.w()-w)/2
		for c := c0; c < c0+w; c++ {
			if onEdge {
				if a.own[(r+i)*a.g.W+c] != n {
					return false
				}
			} else if !a.free(c, r+i, n) {
				return false
			}
			for _, t := range taken {
				if t == [2]int{c, r + i} {
					return false
				}
			}
		}
	}
	return true
}

// ghost draws a unit beneath others in broken lines, where nothing else is,
// and its label in brackets in the longest free stretch.
func (a *artist) ghost(s *layout.Standing) {
	u := s.Unit
	at := a.f.area(u.Base(s.Place))
	in := at.clip(a.f.shown())
	over := func(c, r int) bool { return a.own[r*a.g.W+c] == 0 && a.g.At(c, r).Mark <= SlotEdge }
	for r := in.r0; r < in.r1; r++ {
		for c := in.c0; c < in.c1; c++ {
			edge := c == at.c0 || c == at.c1-1 || r == at.r0 || r == at.r1-1
			switch {
			case !over(c, r):
			case edge && u.ID == a.v.Selected: // seen from below
				a.g.put(c, r, a.gl.selected.at(at, c, r), SelectedEdge, u.ID)
			case edge:
				a.g.put(c, r, a.gl.ghost.at(at, c, r), GhostEdge, u.ID)
			default:
				a.g.put(c, r, " ", Blank, u.ID)
			}
		}
	}
	bestC, bestR, best := 0, 0, 0
	for r := max(in.r0, at.r0+1); r < min(in.r1, at.r1-1); r++ {
		run := 0
		for c := max(in.c0, at.c0+1); c < min(in.c1, at.c1-1); c++ {
			if a.own[r*a.g.W+c] == 0 && a.g.At(c, r).Mark == Blank {
				if run++; run > best {
					bestC, bestR, best = c-run+1, r, run
				}
			} else {
				run = 0
			}
		}
	}
	if lines := shorten(a.text(u.Label), best-2, 1); lines != nil {
		t := "(" + lines[0] + ")"
		a.g.write(bestC+(best-width(t))/2, bestR, t, GhostLabel, u.ID)
	}
}

// plugs draws the room of plugs, and of treadles beyond their bodies, where
// there is nothing else.
func (a *artist) plugs() {
	for _, list := range [2][]layout.Standing{a.shown, a.ghosts} {
		for i := range list {
			s := &list[i]
			for _, b := range s.Boxes {
				text, m := a.gl.sweep, SweepMark
				switch b.Part {
				case layout.BodyPart:
					continue
				case layout.PlugPart:
					text, m = a.gl.plug, PlugMark
					if j := s.Unit.Jack(b.Jack); j == nil || j.Signal != layout.Audio {
						text = a.gl.cord
					}
				}
				a.wash(b.Box.Rect(), text, m, s.Unit.ID)
			}
		}
	}
}

// wash fills the empty cells of a rectangle outside all units.
func (a *artist) wash(r layout.Rect, text string, m Mark, unit string) {
	in := a.f.area(r).clip(a.f.shown())
	for row := in.r0; row < in.r1; row++ {
		for c := in.c0; c < in.c1; c++ {
			i := row*a.g.W + c
			if a.own[i] == 0 && a.g.Cells[i].Mark <= SlotEdge && a.g.Cells[i].Unit == "" {
				a.g.put(c, row, text, m, unit)
			}
		}
	}
}

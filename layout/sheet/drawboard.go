package sheet

import "footplank/layout"

// board draws what lies still: rails, outlines, slots, risers, fixtures.
func (a *artist) board() {
	b := &a.p.Board
	if b.Kind == layout.Rails {
		for _, r := range b.Rails {
			a.fill(a.f.area(r.At), a.gl.rail, RailFill)
		}
	}
	a.edge()
	for _, r := range b.Risers {
		at := a.f.area(r.At)
		a.outline(at, &a.gl.riser, RiserEdge, "")
		if a.v.Surface == layout.DeckName || a.v.Below {
			for _, leg := range r.Legs {
				a.fill(a.f.area(leg.At), a.gl.fixture, FixtureFill)
			}
		}
	}
	if a.v.Slots {
		for _, s := range a.p.Slots {
			if a.v.Surface == "" || a.v.Surface == s.On {
				a.dotted(a.f.area(s.At))
			}
		}
	}
	for _, x := range b.Fixtures {
		a.fill(a.f.area(x.Box.Rect()), a.gl.fixture, FixtureFill)
	}
	if a.v.Below {
		a.feet()
	}
}

// edge draws the board's outline in the cells around it, as far as they are in
// the window or right beside it.
func (a *artist) edge() {
	at := a.f.area(a.p.Board.Rect())
	in := a.f.shown()
	beside := area{in.c0 - 1, in.r0 - 1, in.c1 + 1, in.r1 + 1}
	put := func(c, r int, text string) {
		if beside.has(c, r) {
			a.g.put(c, r, text, BoardEdge, "")
		}
	}
	for c := max(at.c0, in.c0); c < min(at.c1, in.c1); c++ {
		put(c, at.r0-1, a.gl.board.t)
		put(c, at.r1, a.gl.board.b)
	}
	for r := max(at.r0, in.r0); r < min(at.r1, in.r1); r++ {
		put(at.c0-1, r, a.gl.board.l)
		put(at.c1, r, a.gl.board.r)
	}
}

// fill fills the cells of an area within the window.
func (a *artist) fill(at area, text string, m Mark) {
	at = at.clip(a.f.shown())
	for r := at.r0; r < at.r1; r++ {
		for c := at.c0; c < at.c1; c++ {
			a.g.put(c, r, text, m, "")
		}
	}
}

// outline draws a rectangle of lines; what is outside the window is left out.
func (a *artist) outline(at area, l *line, m Mark, unit string) {
	in := at.clip(a.f.shown())
	for c := in.c0; c < in.c1; c++ {
		for _, r := range [2]int{at.r0, at.r1 - 1} {
			if in.has(c, r) {
				a.g.put(c, r, l.at(at, c, r), m, unit)
			}
		}
	}
	for r := in.r0; r < in.r1; r++ {
		for _, c := range [2]int{at.c0, at.c1 - 1} {
			if in.has(c, r) {
				a.g.put(c, r, l.at(at, c, r), m, unit)
			}
		}
	}
}

// dotted draws the outline of a slot: a dot in every other cell.
func (a *artist) dotted(at area) {
	in := at.clip(a.f.shown())
	for r := in.r0; r < in.r1; r++ {
		for c := in.c0; c < in.c1; c++ {
			level := (r == at.r0 || r == at.r1-1) && ((c-at.c0)%2 == 0 || c == at.c1-1)
			if level || c == at.c0 || c == at.c1-1 {
				a.g.put(c, r, a.gl.slot, SlotEdge, "")
				continue
			}
			if r != at.r0 && r != at.r1-1 {
				c = max(c, min(at.c1, in.c1)-2) // nothing on the way to the right edge
			}
		}
	}
}

// at returns the character of the outline of an area in one of its cells.
func (l *line) at(at area, c, r int) string {
	left, right, top, bottom := c == at.c0, c == at.c1-1, r == at.r0, r == at.r1-1
	switch {
	case left && top:
		return l.tl
	case right && top:
		return l.tr
	case left && bottom:
		return l.bl
	case right && bottom:
		return l.br
	case top:
		return l.t
	case bottom:
		return l.b
	case left:
		return l.l
	}
	return l.r
}

// names writes the names of slots, risers and fixtures where units leave their
// edges free.
func (a *artist) names() {
	b := &a.p.Board
	if a.v.Slots {
		for _, s := range a.p.Slots {
			if a.v.Surface == "" || a.v.Surface == s.On {
				a.name(a.f.area(s.At), s.Name, false)
			}
		}
	}
	for _, r := range b.Risers {
		a.name(a.f.area(r.At), r.Name+" +"+a.raised(r.Height), true)
	}
	for _, x := range b.Fixtures {
		a.name(a.f.area(x.Box.Rect()), x.Name, false)
	}
}

// raised is how high a riser's top is, as a tape measure shows it.
func (a *artist) raised(h layout.Length) string {
	if u := a.p.Measure(); u == layout.Inches {
		return h.Tape(u) + string(u)
	}
	return h.Format(layout.Millimetres)
}

// name writes a name into the first free stretch of an area's top row or, if
// there is none, its bottom row, looking from the left or from the right. Names
// of areas that share an edge do not run together.
func (a *artist) name(at area, name string, right bool) {
	text := a.text(name)
	w := width(text)
	in := area{at.c0 + 1, at.r0, at.c1 - 1, at.r1}.clip(a.f.shown())
	if w == 0 || w > in.w() {
		return
	}
	for _, r := range [2]int{at.r0, at.r1 - 1} {
		if r < in.r0 || r >= in.r1 {
			continue
		}
		for d := 0; d+w <= in.w(); d++ {
			c := in.c0 + d
			if right {
				c = in.c1 - w - d
			}
			if a.open(c, r, w) && !a.besideName(c, r, w) {
				a.g.write(c, r, text, AreaName, "")
				return
			}
		}
	}
}

// besideName reports whether the name of another area stands right before or
// behind w cells: in the next cell or the one after it, for an edge is dotted.
func (a *artist) besideName(c, r, w int) bool {
	for _, near := range [4]int{c - 2, c - 1, c + w, c + w + 1} {
		if a.g.At(near, r).Mark == AreaName {
			return true
		}
	}
	return false
}

// open reports whether w cells hold nothing but the board.
func (a *artist) open(c, r, w int) bool {
	for i := r*a.g.W + c; w > 0; i, w = i+1, w-1 {
		if a.own[i] != 0 || a.g.Cells[i].Mark > FixtureFill || a.g.Cells[i].Unit != "" {
			return false
		}
	}
	return true
}

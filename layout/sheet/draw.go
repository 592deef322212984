package sheet

import (
	"sort"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/wiring"
)

// View says what of a plan to draw, and how large.
type View struct {
	Cols, Rows int
	Lineup     string // "" or a name the plan does not have: the first
	Selected   string // ID of a unit
	ASCII      bool
	// What to draw beside board and units.
	Plugs, Switches, Cables, Slots bool
	NoRulers                       bool
	Faulty                         map[string]bool // IDs of units with a fault
	// Surface is the surface looked at: what stands on another is drawn
	// with broken lines or, where it would be in the way, not at all. ""
	// looks from above at all of them.
	Surface string
	// Below looks at the underside instead, the board turned over left to
	// right: mirrored, with feet, rails and the legs of risers, the units of
	// the deck above in broken lines.
	Below bool
	// Fastener shows the pieces of fastener beneath the units.
	Fastener bool
	// Pieces are those to show; nil works them out.
	Pieces []mount.Piece
	// Other is the ID of a second unit to mark, Was where the selected one
	// stood before; nil to leave that out.
	Other string
	Was   *layout.Placement
	// Before are units as they stood, of which others than the selected one
	// went elsewhere or left: outlines in broken lines, with their labels.
	Before []layout.Standing
	// Caption is a line above the drawing, "" for none.
	Caption string
	// Window is the part of the board's plane to show; zero for the whole
	// board with what may stand past its edges.
	Window layout.Rect
	// Step is how much of the board a column shows: the drawing then fills
	// its cells, with Middle in the middle, and Window does not matter. 0
	// for the closest look that has all of Window.
	Step   layout.Length
	Middle layout.Point
	// Runs are the cables to draw with Cables set; nil draws straight lines.
	Runs []wiring.Cable
}

// Whole returns the window of a view that gives none: the board with its
// overhang and its plugs' room.
func Whole(b *layout.Board) layout.Rect {
	return b.Rect().Grow(layout.Edges{
		Front: max(b.Overhang.Front, b.PlugRoom.Front, 0), Back: max(b.Overhang.Back, b.PlugRoom.Back, 0),
		Left: max(b.Overhang.Left, b.PlugRoom.Left, 0), Right: max(b.Overhang.Right, b.PlugRoom.Right, 0),
	})
}

// Draw draws a plan to scale. It draws any plan at any size; sizes below 1 and
// above 2000 cells are taken as those.
func Draw(p *layout.Plan, v View) *Grid { return Redraw(nil, p, v) }

// Redraw is Draw in the memory of an earlier drawing, which is gone then; nil
// for none.
func Redraw(old *Grid, p *layout.Plan, v View) *Grid {
	g := newGrid(old, v.Cols, v.Rows)
	a := &artist{g: g, p: p, v: v, gl: &lineGlyphs}
	if v.ASCII {
		a.gl = &plainGlyphs
	}
	a.l = lineupOf(p, v.Lineup)
	rulers := a.setFrame()
	a.own = make([]int16, len(g.Cells))
	a.arrange()

	a.board()
	for i := range a.shown {
		a.unit(&a.shown[i], int16(i+1))
	}
	for i := range a.shown {
		a.inside(&a.shown[i], int16(i+1))
	}
	for i := range a.ghosts {
		a.ghost(&a.ghosts[i])
	}
	if u := p.Unit(v.Selected); u != nil && v.Was != nil {
		a.was(u, *v.Was)
	}
	for i := range v.Before {
		a.before(&v.Before[i])
	}
	if v.Fastener || v.Below {
		a.fastener()
	}
	a.names()
	if v.Plugs && !v.Below {
		a.plugs()
	}
	if v.Cables {
		if v.Runs == nil {
			v.Runs = wiring.Estimate(p, a.l)
		}
		a.cables(v.Runs)
	}
	if rulers {
		a.rulers()
	}
	if v.Caption != "" && g.H > 1 {
		a.g.write(max(a.f.col0-1, 0), 0, cut(a.text(v.Caption), g.W-max(a.f.col0-1, 0)), Caption, "")
	}
	return g
}

// Scale returns how much of the board a column of that drawing shows.
func Scale(p *layout.Plan, v View) layout.Length {
	a := &artist{g: &Grid{W: min(max(v.Cols, 1), maxCells), H: min(max(v.Rows, 1), maxCells)}, p: p, v: v}
	a.setFrame()
	return a.f.step
}

// setFrame chooses scale and margins, and reports whether there is room for
// rulers.
func (a *artist) setFrame() (rulers bool) {
	g, v := a.g, &a.v
	win := v.Window
	if win.Empty() {
		win = Whole(&a.p.Board)
	}
	rulers = !v.NoRulers && g.W >= 24 && g.H >= 8
	m := margins{1, 1, 1, 1}
	if v.Caption != "" {
		m.top = 2
	}
	if v.Step > 0 {
		win = frameAt(v.Middle, v.Step, g.W, g.H, m).win
	}
	if rulers {
		m.left = 1 + a.rulerWidth(win)
	}
	if g.W < 12 || g.H < 5 {
		m = margins{}
	}
	g.frame = newFrame(win, g.W, g.H, m)
	if v.Step > 0 {
		g.frame = frameAt(v.Middle, v.Step, g.W, g.H, m)
	}
	g.frame.mirror = v.Below
	a.f = &g.frame
	return rulers
}

func lineupOf(p *layout.Plan, name string) *layout.Lineup {
	if l := p.LineupNamed(name); l != nil {
		return l
	}
	if len(p.Lineups) > 0 {
		return &p.Lineups[0]
	}
	return &layout.Lineup{}
}

// artist is the state of one drawing.
type artist struct {
	g  *Grid
	f  *frame
	p  *layout.Plan
	l  *layout.Lineup
	v  View
	gl *glyphs
	// shown are the units drawn in full, the highest last and the selected
	// one behind it; ghosts those drawn in broken lines where there is room.
	shown, ghosts []layout.Standing
	own           []int16 // per cell: 1 + index in shown of the unit on top, 0 for none
}

// arrange sorts the units into those drawn in full and those that lie beneath.
func (a *artist) arrange() {
	placed, _ := a.p.Standings(a.l)
	for _, s := range placed {
		switch {
		case a.v.Below:
			if s.Place.On == layout.DeckName {
				a.ghosts = append(a.ghosts, s)
			}
		case a.v.Surface == "" && !a.beneath(&s), a.v.Surface == s.Place.On, s.Unit.ID == a.v.Selected:
			a.shown = append(a.shown, s)
		case a.v.Surface == layout.DeckName:
			// What stands on a riser would hide the deck beneath it.
		default:
			a.ghosts = append(a.ghosts, s)
		}
	}
	top := func(s *layout.Standing) layout.Length { return s.Z + s.Unit.Height() }
	sort.SliceStable(a.shown, func(i, j int) bool {
		s, t := &a.shown[i], &a.shown[j]
		if si, ti := s.Unit.ID == a.v.Selected, t.Unit.ID == a.v.Selected; si != ti {
			return ti
		}
		return top(s) < top(t)
	})
}

// beneath reports whether the middle of the unit is under a riser.
func (a *artist) beneath(s *layout.Standing) bool {
	m := s.Unit.Base(s.Place).Center()
	for _, r := range a.p.Board.Risers {
		if s.Z < r.Height && r.At.Touches(m) {
			return true
		}
	}
	return false
}

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
	if u := a.unitName(); u == layout.Inches {
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

// text makes a label fit for the drawing's characters.
func (a *artist) text(s string) string {
	s = clean(s)
	if a.v.ASCII {
		s = plain(s)
	}
	return s
}

func (a *artist) unitName() layout.LengthUnit {
	if a.p.LengthUnit == layout.Inches {
		return layout.Inches
	}
	return layout.Millimetres
}

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

// text makes a label fit for the drawing's characters.
func (a *artist) text(s string) string {
	s = clean(s)
	if a.v.ASCII {
		s = plain(s)
	}
	return s
}

package edit

import (
	"footplank/layout"
)

// Move returns pl moved by one stride in the direction.
func Move(pl layout.Placement, dir layout.Wall, s Stride) layout.Placement {
	at, sign := along(&pl.At, dir)
	*at = s.From(*at, sign)
	return inReach(pl)
}

// Slide returns pl moved by a distance in the direction.
func Slide(pl layout.Placement, dir layout.Wall, by layout.Length) layout.Placement {
	at, sign := along(&pl.At, dir)
	*at += layout.Length(sign) * by
	return inReach(pl)
}

// along returns the coordinate that a move in the direction changes, and whether
// it grows (1) or shrinks (-1) by it.
func along(p *layout.Point, dir layout.Wall) (at *layout.Length, sign int64) {
	switch dir {
	case layout.Left:
		return &p.X, -1
	case layout.Right:
		return &p.X, 1
	case layout.Front:
		return &p.Y, -1
	}
	return &p.Y, 1
}

// inReach keeps a place within what a plan file may state.
func inReach(pl layout.Placement) layout.Placement {
	const far = layout.MaxLength / 2
	pl.At.X = min(max(pl.At.X, -far), far)
	pl.At.Y = min(max(pl.At.Y, -far), far)
	return pl
}

// Turned returns pl turned by quarter turns about the body's middle, to the
// nearest whole millimetre (or 1/16 in) towards its old corner, so that a
// turn and its opposite cancel out exactly.
func Turned(u *layout.Unit, pl layout.Placement, by layout.Turn, unit layout.LengthUnit) layout.Placement {
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	next := pl
	next.Turn = pl.Turn.Add(by)
	nw, nd := next.Turn.Footprint(u.Body.W, u.Body.D)
	fine := Strides(unit)[0]
	next.At.X = fine.From(pl.At.X, wholes((w-nw)/2, fine))
	next.At.Y = fine.From(pl.At.Y, wholes((d-nd)/2, fine))
	return inReach(next)
}

// wholes returns how many strides fit into l, towards zero.
func wholes(l layout.Length, s Stride) int64 { return int64(l) * 2 / s.Halves }

// Onto returns pl on another surface, moved as little as need be to rest
// there; where the unit cannot rest on it at all, the place stays.
func Onto(u *layout.Unit, pl layout.Placement, s layout.Surface) layout.Placement {
	pl.On = s.Name
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	best, found := pl.At, false
	var least layout.Length
	for _, r := range s.RestRegions(w, d) {
		p := layout.Point{X: min(max(pl.At.X, r.X0), r.X1), Y: min(max(pl.At.Y, r.Y0), r.Y1)}
		far := max(p.X-pl.At.X, pl.At.X-p.X) + max(p.Y-pl.At.Y, pl.At.Y-p.Y)
		if !found || far < least {
			best, least, found = p, far, true
		}
	}
	pl.At = best
	return pl
}

// FirstPlace proposes a place for a unit that has none: free room in its slot,
// or outside all slots on the first surface it may stand on that has some,
// looking from the front. Where there is no room it is the slot's or the
// surface's corner, in conflict with what is there.
func FirstPlace(p *layout.Plan, l *layout.Lineup, u *layout.Unit) layout.Placement {
	trial := p.Clone()
	tl := trial.LineupNamed(l.Name)
	tu := trial.Unit(u.ID)
	_, others := things(p, l, u.ID)
	slot := p.SlotOf(l, u.ID)
	var fall *layout.Placement
	for _, s := range p.Board.Surfaces() {
		if slot != nil && slot.On != s.Name || slot == nil && !u.MayStandOn(s.Name) {
			continue
		}
		within, taken := s.At.Grow(s.Overhang), others
		if slot != nil {
			within = slot.At
		} else {
			taken = append(kept(p, s), others...)
		}
		for _, t := range u.AllowedTurns() {
			if fall == nil {
				fall = &layout.Placement{On: s.Name, At: layout.Point{X: within.X0, Y: within.Y0}, Turn: t}
			}
			if pl, ok := freeRoom(trial, tl, tu, s, within, t, taken); ok {
				return pl
			}
		}
	}
	if fall == nil {
		return layout.Placement{On: layout.DeckName, Turn: u.AllowedTurns()[0]}
	}
	return *fall
}

// freeRoom looks for a place on one surface at one turn, on a grid of 10 mm
// that starts at the region's front-left corner; on a huge region the grid is
// wider, for this runs between a key press and its frame.
func freeRoom(p *layout.Plan, l *layout.Lineup, u *layout.Unit, s layout.Surface, within layout.Rect,
	t layout.Turn, others []thing) (layout.Placement, bool) {
	grid := max(10*layout.Millimetre, within.W()/80, within.D()/80)
	pl := layout.Placement{On: s.Name, At: layout.Point{X: within.X0, Y: within.Y0}, Turn: t}
	p.SetPlace(l, u, pl)
	self, _ := things(p, l, u.ID)
	w, d := t.Footprint(u.Body.W, u.Body.D)
	rests := s.RestRegions(w, d)
	room, cased := p.Board.CaseRoom()
	for y := within.Y0; y+d <= within.Y1; y += grid {
		for x := within.X0; x+w <= within.X1; x += grid {
			at := layout.Point{X: x, Y: y}
			if !touchesAny(rests, at) {
				continue
			}
			by := layout.Point{X: x - within.X0, Y: y - within.Y0}
			if fits(self, by, others, room, cased) {
				pl.At = at
				return pl, true
			}
		}
	}
	return pl, false
}

// kept returns the slots on a surface as things in the way of what belongs to
// none of them. One that is the whole surface keeps nobody out.
func kept(p *layout.Plan, s layout.Surface) []thing {
	var out []thing
	for _, slot := range p.Slots {
		if slot.On == s.Name && !slot.At.Contains(s.At) {
			out = append(out, thing{boxes: []layout.Box{layout.BoxOn(slot.At, s.Z, layout.MaxLength)}})
		}
	}
	return out
}

func touchesAny(rs []layout.Rect, p layout.Point) bool {
	for _, r := range rs {
		if r.Touches(p) {
			return true
		}
	}
	return false
}

func fits(self []layout.Box, by layout.Point, others []thing, room layout.Box, cased bool) bool {
	for _, a := range self {
		a = a.Move(by, 0)
		if cased && (!room.Rect().Contains(a.Rect()) || a.Z1 > room.Z1) {
			return false
		}
		for _, o := range others {
			for _, b := range o.boxes {
				if a.Overlaps(b) {
					return false
				}
			}
		}
	}
	return true
}

// TakePlaces gives the units of p the places that they have in from, where
// they have one there. Everything else of p stays.
func TakePlaces(p, from *layout.Plan) {
	for i := range p.Units {
		u := &p.Units[i]
		f := from.Unit(u.ID)
		if f == nil {
			continue
		}
		if f.Place != nil {
			pl := *f.Place
			u.Place = &pl
		}
		for k := range p.Lineups {
			l := &p.Lineups[k]
			fl := from.LineupNamed(l.Name)
			if fl == nil {
				continue
			}
			if pl, ok := fl.Place[u.ID]; ok {
				if l.Place == nil {
					l.Place = map[string]layout.Placement{}
				}
				l.Place[u.ID] = pl
			} else if f.Place != nil {
				delete(l.Place, u.ID)
			}
		}
	}
}

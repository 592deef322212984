package layout

// Part says what a box of a unit stands for.
type Part string

const (
	BodyPart  Part = "body"
	SweepPart Part = "sweep"
	PlugPart  Part = "plug"
)

// PartBox is one box of a placed unit.
type PartBox struct {
	Part Part
	Jack string // the jack whose plug it is
	Box  Box
}

// Boxes returns the unit's boxes in its own frame at turn t: z from the unit's
// base, origin at the front-left corner of the turned body. used tells which
// jacks hold a plug; the others take no room.
func (u *Unit) Boxes(t Turn, used func(jack string) bool) []PartBox {
	w, d := u.Body.W, u.Body.D
	out := make([]PartBox, 1, 2+len(u.Jacks))
	out[0] = PartBox{Part: BodyPart, Box: t.Box(Box{0, 0, 0, w, d, u.Height()}, w, d)}
	if s := u.Sweep; s != nil {
		b := BoxOn(Rect{0, 0, w, d}.Grow(Edges{s.Front, s.Back, s.Left, s.Right}), s.From, s.Top)
		out = append(out, PartBox{Part: SweepPart, Box: t.Box(b, w, d)})
	}
	for i := range u.Jacks {
		if j := &u.Jacks[i]; used(j.ID) {
			out = append(out, PartBox{PlugPart, j.ID, t.Box(u.plugBox(j), w, d)})
		}
	}
	return out
}

// PlugBox returns the room of the plug in a jack, like the unit's own or one that
// it might have, in the unit's frame at turn t.
func (u *Unit) PlugBox(j *Jack, t Turn) Box { return t.Box(u.plugBox(j), u.Body.W, u.Body.D) }

// plugBox returns the room of the plug in a jack at turn 0. Its root is as
// wide as the plug in both directions about the jack's axis; a leg makes it
// longer on the leg's side. It may reach below the base, and then only fits
// where it hangs free past the edge of the surface.
func (u *Unit) plugBox(j *Jack) Box {
	half := j.Plug.Width / 2
	a0, a1 := j.Along-half, j.Along+j.Plug.Width-half
	z0, z1 := j.Height-half, j.Height+j.Plug.Width-half
	if leg := j.Plug.Leg; leg > 0 {
		switch j.Leg {
		case LegDown:
			z0 = min(z0, j.Height-leg)
		case LegLeft, LegFront:
			a0 = min(a0, j.Along-leg)
		case LegRight, LegBack:
			a1 = max(a1, j.Along+leg)
		default:
			z1 = max(z1, j.Height+leg)
		}
	}
	w, d, out := u.Body.W, u.Body.D, j.Plug.Out
	switch j.Wall {
	case Front:
		return Box{a0, -out, z0, a1, 0, z1}
	case Back:
		return Box{a0, d, z0, a1, d + out, z1}
	case Left:
		return Box{-out, a0, z0, 0, a1, z1}
	default:
		return Box{w, a0, z0, w + out, a1, z1}
	}
}

// Axis returns the point where the jack's axis meets its wall, and its height
// above the base, at turn t in the unit's frame.
func (u *Unit) Axis(j *Jack, t Turn) (Point, Length) {
	p := Point{j.Along, 0}
	switch j.Wall {
	case Back:
		p = Point{j.Along, u.Body.D}
	case Left:
		p = Point{0, j.Along}
	case Right:
		p = Point{u.Body.W, j.Along}
	}
	return t.Point(p, u.Body.W, u.Body.D), j.Height
}

// Tip returns the middle of the plug's far face seen from above, where the
// cable leaves, in the unit's frame at turn t.
func (u *Unit) Tip(j *Jack, t Turn) (Point, Length) {
	p, z := u.Axis(j, t)
	switch j.Wall.Turned(t) {
	case Front:
		p.Y -= j.Plug.Out
	case Back:
		p.Y += j.Plug.Out
	case Left:
		p.X -= j.Plug.Out
	default:
		p.X += j.Plug.Out
	}
	return p, z
}

// Base returns the turned body seen from above, at a placement.
func (u *Unit) Base(pl Placement) Rect {
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	return RectAt(pl.At, w, d)
}

// Standing is a unit at its place in a line-up.
type Standing struct {
	Unit  *Unit
	Place Placement
	Z     Length // height of its surface
	Boxes []PartBox
}

// Stand returns the unit's boxes at pl in the board's frame, with the plugs
// that used tells. ok is false when the board has no such surface.
func (b *Board) Stand(u *Unit, pl Placement, used func(jack string) bool) (s Standing, ok bool) {
	surface, ok := b.Surface(pl.On)
	if !ok {
		return Standing{}, false
	}
	s = Standing{Unit: u, Place: pl, Z: surface.Z, Boxes: u.Boxes(pl.Turn, used)}
	for i := range s.Boxes {
		s.Boxes[i].Box = s.Boxes[i].Box.Move(pl.At, surface.Z)
	}
	return s, true
}

// Standings returns the placed units of the line-up in the plan's order, and
// the units of the line-up that have no place, or one on a surface that the
// board does not have.
func (p *Plan) Standings(l *Lineup) (placed []Standing, unplaced []*Unit) {
	used := p.Used(l)
	for _, u := range p.UnitsIn(l) {
		pl, ok := p.PlaceOf(l, u)
		if ok {
			var s Standing
			if s, ok = p.Board.Stand(u, pl, func(j string) bool { return used[JackRef{u.ID, j}] }); ok {
				placed = append(placed, s)
			}
		}
		if !ok {
			unplaced = append(unplaced, u)
		}
	}
	return placed, unplaced
}

// Unplaced returns the labels of the units that some line-up has no place for, in
// the plan's order.
func (p *Plan) Unplaced() []string {
	missing := map[*Unit]bool{}
	for i := range p.Lineups {
		_, units := p.Standings(&p.Lineups[i])
		for _, u := range units {
			missing[u] = true
		}
	}
	var labels []string
	for i := range p.Units {
		if missing[&p.Units[i]] {
			labels = append(labels, p.Units[i].Label)
		}
	}
	return labels
}

// SwitchAt returns the centre of one of the unit's switches on the board and
// the height of its cap above the deck.
func (s *Standing) SwitchAt(i int) (Point, Length) {
	u := s.Unit
	at := s.Place.Turn.Point(u.Switches[i].At, u.Body.W, u.Body.D)
	return at.Add(s.Place.At), s.Z + u.SwitchHeight(i)
}

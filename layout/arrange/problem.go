package arrange

import (
	"slices"

	"footplank/layout"
	"footplank/layout/wiring"
	"footplank/pack"
)

// shoeLayer is where the floor that switches ask for lies: above anything that
// a board can hold, and thick enough that the height of a riser does not matter.
const (
	shoeLayer     = 2 * int64(layout.MaxLength)
	shoeThickness = int64(layout.MaxLength)
)

// spot is what a region of the packing problem means.
type spot struct {
	surface string
	z       layout.Length
	turn    layout.Turn
	unit    *layout.Unit // with the plugs that it has there
}

// item is a unit in some of the line-ups.
type item struct {
	unit    *layout.Unit
	lineups []int // into problem.lineups
	spots   []spot
	held    bool // has a single origin
}

// problem is a plan as a packing problem.
type problem struct {
	plan    *layout.Plan
	mode    mode
	lineups []*layout.Lineup
	used    []map[layout.JackRef]bool // by line-up
	links   [][]layout.Link           // by line-up
	room    layout.Box                // in the case, if there is one
	given   *layout.Rect              // a part of that room, or nil
	cased   bool
	units   []string // IDs of those that it is about; nil for all
	items   []item
	pack    pack.Problem
}

// mode is how a plan becomes a problem.
type mode struct {
	apart   bool // slot units may stand elsewhere in each line-up
	comfort bool // comfort as if it were hard
	plugs   plugs
	// standing parts a unit's line-ups by where it stands in them
	standing bool
	joined   *joints // these are not parted
}

// newProblem makes the problem of the line-ups. The room in the case is that of
// Board.CaseRoom, or the part of it that room says. Units, if any are named by ID,
// are all that it is about.
func newProblem(p *layout.Plan, lineups []*layout.Lineup, m mode, room *layout.Rect, units ...string) *problem {
	pr := &problem{plan: p, lineups: lineups, mode: m, given: room, units: units}
	pr.room, pr.cased = p.Board.CaseRoom()
	if room != nil {
		pr.room = layout.BoxOn(*room, pr.room.Z0, pr.room.Z1)
	}
	for _, l := range lineups {
		pr.used = append(pr.used, p.Used(l))
		pr.links = append(pr.links, p.ChainLinks(l))
	}
	for i := range p.Units {
		u := &p.Units[i]
		if len(units) > 0 && !slices.Contains(units, u.ID) {
			continue
		}
		var in []int
		for k, l := range lineups {
			if p.Present(l, u.ID) {
				in = append(in, k)
			}
		}
		for _, part := range pr.split(u, in) {
			pr.add(u, part)
		}
	}
	for _, s := range p.Board.DeckSlabs() {
		pr.pack.Obstacles = append(pr.pack.Obstacles, pack.Obstacle{Name: "deck", Box: packBox(s, 0)})
	}
	for _, o := range p.Board.Obstacles() {
		pr.pack.Obstacles = append(pr.pack.Obstacles, pack.Obstacle{Name: o.Name, Box: packBox(o.Box, 0)})
	}
	return pr
}

// split says which line-ups share an item. Together, a unit is parted only
// where the line-ups hold it at different places or in different slots.
func (pr *problem) split(u *layout.Unit, in []int) [][]int {
	if len(in) == 0 {
		return nil
	}
	if !pr.plan.InSlots(u.ID) {
		return [][]int{in}
	}
	var parts [][]int
	for _, k := range in {
		at := slices.IndexFunc(parts, func(q []int) bool { return pr.joins(u) && pr.together(u, q[0], k) })
		if at < 0 {
			parts = append(parts, []int{k})
		} else {
			parts[at] = append(parts[at], k)
		}
	}
	return parts
}

// joins reports whether the unit is one item wherever it can be.
func (pr *problem) joins(u *layout.Unit) bool {
	return !pr.mode.apart || pr.mode.joined != nil && (*pr.mode.joined)[u.ID]
}

func (pr *problem) together(u *layout.Unit, a, b int) bool {
	if pr.plan.SlotOf(pr.lineups[a], u.ID) != pr.plan.SlotOf(pr.lineups[b], u.ID) {
		return false
	}
	if !u.Pinned && !pr.mode.standing {
		return true
	}
	pa, aok := pr.plan.PlaceOf(pr.lineups[a], u)
	pb, bok := pr.plan.PlaceOf(pr.lineups[b], u)
	return aok == bok && pa == pb
}

func (pr *problem) add(u *layout.Unit, in []int) {
	it := item{unit: u, lineups: in}
	pi := pack.Item{Name: u.ID}
	for _, k := range in {
		pi.Groups |= 1 << k
	}
	pl, held := pr.heldAt(u, in)
	it.held = held
	for _, v := range pr.variants(u, in) {
		if held {
			s, _ := pr.plan.Board.Surface(pl.On)
			pi.Regions = append(pi.Regions, pack.Region{Shape: len(pi.Shapes), X0: int64(pl.At.X), X1: int64(pl.At.X), Y0: int64(pl.At.Y), Y1: int64(pl.At.Y), Z: int64(s.Z)})
			pi.Shapes = append(pi.Shapes, pr.shape(v.unit, pl.Turn, in, pr.boxes(v, pl.Turn, in)))
			it.spots = append(it.spots, spot{pl.On, s.Z, pl.Turn, v.unit})
			continue
		}
		for _, t := range u.AllowedTurns() {
			shape, boxes := len(pi.Shapes), pr.boxes(v, t, in)
			pi.Shapes = append(pi.Shapes, pr.shape(u, t, in, boxes))
			for _, s := range pr.plan.Board.Surfaces() {
				for _, r := range pr.origins(u, t, s, in, boxes) {
					pi.Regions = append(pi.Regions, pack.Region{Shape: shape,
						X0: int64(r.X0), Y0: int64(r.Y0), X1: int64(r.X1), Y1: int64(r.Y1), Z: int64(s.Z)})
					it.spots = append(it.spots, spot{s.Name, s.Z, t, v.unit})
				}
			}
		}
	}
	pr.items = append(pr.items, it)
	pr.pack.Items = append(pr.pack.Items, pi)
}

// heldAt returns the one place of a unit that may not move: pinned, or standing
// in a line-up that is not being arranged as well.
func (pr *problem) heldAt(u *layout.Unit, in []int) (layout.Placement, bool) {
	pl, ok := pr.plan.PlaceOf(pr.lineups[in[0]], u)
	if !ok {
		return pl, false
	}
	if _, known := pr.plan.Board.Surface(pl.On); !known {
		return pl, false
	}
	shared := len(pr.lineups) < len(pr.plan.Lineups) && !pr.plan.InSlots(u.ID)
	return pl, u.Pinned || shared
}

// shape returns the unit's boxes at a turn, each plug in the groups that use it.
func (pr *problem) shape(u *layout.Unit, t layout.Turn, in []int, boxes []layout.PartBox) pack.Shape {
	var sh pack.Shape
	for _, b := range boxes {
		g := pack.Mask(0)
		if b.Part == layout.PlugPart {
			g = pr.usedBy(u, b.Jack, in)
		}
		sh.Boxes = append(sh.Boxes, packBox(b.Box, g))
	}
	if pr.mustReach(u) || pr.mode.comfort {
		for _, b := range u.Treads(t) {
			sh.Boxes = append(sh.Boxes, packBox(b, 0))
		}
	}
	if pr.mode.comfort {
		half := int64(pr.plan.Limits.Reach) / 2
		for _, s := range u.Switches {
			c := t.Point(s.At, u.Body.W, u.Body.D)
			x, y := int64(c.X), int64(c.Y)
			sh.Boxes = append(sh.Boxes, pack.Box{X0: x - half, Y0: y - half, Z0: shoeLayer,
				X1: x + half, Y1: y + half, Z1: shoeLayer + shoeThickness})
		}
	}
	return sh
}

// mustReach reports whether it is a fault that no foot gets at the unit: it is
// worked while playing, or the plan does not say of any unit how often it is.
func (pr *problem) mustReach(u *layout.Unit) bool {
	return u.Often > 0 || !slices.ContainsFunc(pr.plan.Units, func(v layout.Unit) bool { return v.Often > 0 })
}

// usedBy returns the groups, of those in the list, that use the jack.
func (pr *problem) usedBy(u *layout.Unit, jack string, in []int) pack.Mask {
	var g pack.Mask
	for _, k := range in {
		if pr.used[k][layout.JackRef{Unit: u.ID, Jack: jack}] {
			g |= 1 << k
		}
	}
	return g
}

// travels reports whether the plug in the jack is in the case with the board,
// in one of the line-ups at least.
func (pr *problem) travels(u *layout.Unit, jack string, in []int) bool {
	for _, k := range in {
		if pr.used[k][layout.JackRef{Unit: u.ID, Jack: jack}] && !layout.PulledOut(pr.links[k], u, jack) {
			return true
		}
	}
	return false
}

// origins returns where the unit's origin may be on the surface.
func (pr *problem) origins(u *layout.Unit, t layout.Turn, s layout.Surface, in []int, boxes []layout.PartBox) []layout.Rect {
	if !u.MayStandOn(s.Name) {
		return nil
	}
	w, d := t.Footprint(u.Body.W, u.Body.D)
	limit, ok := pr.limit(u, s, in, boxes)
	if !ok {
		return nil
	}
	// Past the board's own edges nothing stands further than they allow,
	// on a riser at the edge either.
	b := &pr.plan.Board
	limit = limit.Intersect(around(layout.Rect{X1: w, Y1: d}, b.Rect().Grow(b.Overhang)))
	if slot := pr.plan.SlotOf(pr.lineups[in[0]], u.ID); slot != nil {
		if slot.On != s.Name {
			return nil
		}
		limit = limit.Intersect(layout.Rect{X0: slot.At.X0, Y0: slot.At.Y0, X1: slot.At.X1 - w, Y1: slot.At.Y1 - d})
	}
	if pr.mode.comfort && u.Treadle {
		limit.Y1 = min(limit.Y1, layout.TreadleFront)
	}
	var out []layout.Rect
	for _, r := range s.RestRegions(w, d) {
		r = r.Intersect(limit)
		if r.X0 <= r.X1 && r.Y0 <= r.Y1 && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// limit returns the closed rectangle of origins at which the plugs keep within
// the room past the edges and everything within the case.
func (pr *problem) limit(u *layout.Unit, s layout.Surface, in []int, boxes []layout.PartBox) (layout.Rect, bool) {
	b := &pr.plan.Board
	plugs := b.Rect().Grow(b.PlugRoom)
	limit := layout.Rect{X0: -layout.MaxLength, Y0: -layout.MaxLength, X1: layout.MaxLength, Y1: layout.MaxLength}
	for _, box := range boxes {
		plug := box.Part == layout.PlugPart
		if plug {
			limit = limit.Intersect(around(box.Box.Rect(), plugs))
		}
		if pr.cased && (box.Part == layout.BodyPart || plug && pr.travels(u, box.Jack, in)) {
			if box.Box.Z1+s.Z > pr.room.Z1 {
				return limit, false
			}
			limit = limit.Intersect(around(box.Box.Rect(), pr.room.Rect()))
		}
	}
	return limit, true
}

// around returns the closed rectangle of origins that keep r inside bound.
func around(r, bound layout.Rect) layout.Rect {
	return layout.Rect{X0: bound.X0 - r.X0, Y0: bound.Y0 - r.Y0, X1: bound.X1 - r.X1, Y1: bound.Y1 - r.Y1}
}

func packBox(b layout.Box, g pack.Mask) pack.Box {
	return pack.Box{X0: int64(b.X0), Y0: int64(b.Y0), Z0: int64(b.Z0), X1: int64(b.X1), Y1: int64(b.Y1), Z1: int64(b.Z1), Groups: g}
}

// placement returns what a place of the packing problem means.
func (pr *problem) placement(i int, p pack.Place) layout.Placement {
	s := pr.items[i].spots[p.Region]
	return layout.Placement{On: s.surface, At: layout.Point{X: layout.Length(p.X), Y: layout.Length(p.Y)}, Turn: s.turn}
}

// placed returns a copy of the plan with its units where the places say, and
// with the plugs that seat there.
func (pr *problem) placed(places []pack.Place) *layout.Plan {
	q := pr.moved(places)
	wiring.Seat(q)
	return q
}

// moved returns a copy of the plan with its units where the places say, and with
// the plugs that they have there in this problem.
func (pr *problem) moved(places []pack.Place) *layout.Plan {
	q := pr.plan.Clone()
	for i, it := range pr.items {
		pl := pr.placement(i, places[i])
		u := q.Unit(it.unit.ID)
		u.Jacks = it.spots[places[i].Region].unit.Jacks
		for _, k := range it.lineups {
			l := q.LineupNamed(pr.lineups[k].Name)
			if now, ok := q.PlaceOf(l, u); !ok || now != pl {
				q.SetPlace(l, u, pl)
			}
		}
	}
	return q
}

// places returns the places that the units stand at in q, this plan or a copy
// of it, or nil unless every item stands at a place of the problem.
func (pr *problem) places(q *layout.Plan) []pack.Place {
	var out []pack.Place
	for i, it := range pr.items {
		pl, ok := q.PlaceOf(q.LineupNamed(pr.lineups[it.lineups[0]].Name), q.Unit(it.unit.ID))
		at := 0
		for ok && at < len(it.spots) && !pr.means(i, at, pl) {
			at++
		}
		if !ok || at == len(it.spots) {
			return nil
		}
		out = append(out, pack.Place{Region: at, X: int64(pl.At.X), Y: int64(pl.At.Y)})
	}
	return out
}

// means reports whether the placement is an origin of the item's region.
func (pr *problem) means(i, region int, pl layout.Placement) bool {
	s, r := pr.items[i].spots[region], pr.pack.Items[i].Regions[region]
	x, y := int64(pl.At.X), int64(pl.At.Y)
	return s.surface == pl.On && s.turn == pl.Turn && r.X0 <= x && x <= r.X1 && r.Y0 <= y && y <= r.Y1
}

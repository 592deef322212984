package mount

import (
	"math"

	"footplank/layout"
)

// Load is what tries to take a unit off its board.
type Load string

const (
	// Upright: the board is carried upright by its edge and bumped. The force
	// runs along the board through the unit's centre of mass.
	Upright Load = "upright"
	// PulledOff: the board is turned over and bumped. The force runs straight
	// off the board.
	PulledOff Load = "pulled off"
	// CablePulled: somebody walks into a cable.
	CablePulled Load = "cable pulled"
	// AtToe: what the toe's half alone must carry of PulledOff beneath a
	// treadle or a tall unit.
	AtToe Load = "at the toe"
	// NoPiece: there is no room for any piece.
	NoPiece Load = "no piece"
)

const (
	// JerkG is the load that a unit puts on its fastener, as a multiple of
	// its weight, when the board is bumped: common practice, no source. The
	// plan may say another.
	JerkG = 5.0
	// CablePull is the pull in newtons at a jack, straight out of its wall: a
	// tug that takes a plug along before it draws it. Common practice, no
	// source.
	CablePull = 10.0
	// DesignShare is the share of a published dynamic figure that may be
	// used: common practice, no source.
	DesignShare = 0.1
)

// edge is one of the four edges of what a unit bears on, about which it tilts.
type edge int

const (
	leftEdge edge = iota
	rightEdge
	frontEdge
	backEdge
	edges
)

// grip sums up pieces beneath one unit. Each of its figures only grows with
// every piece, so that more fastener never holds less.
type grip struct {
	area   float64        // mm2
	lever  [edges]float64 // of the area about each edge, mm3
	toe    float64        // of the area in the toe's half, mm2
	bounds layout.Rect    // around all pieces
	n      int
}

// demand is one load: a force along or off the board and a moment about an
// edge.
type demand struct {
	load   Load
	force  float64 // N, on the whole area; on the toe's half for AtToe
	moment float64 // N mm about the edge
	about  edge
	named  float64 // the force to show, where force is 0
}

// statics is what a unit at one place asks of its fastener.
type statics struct {
	bears   layout.Rect // around what it bears on: its edges are the pivots
	free    layout.Rect // around where its pieces may lie
	toe     layout.Rect // the half where the toe is
	favours bool        // wants the toe's half to hold alone
	demands []demand
	stress  float64 // that the fastener may take, N/mm2
}

// newStatics works out the loads of a unit whose base bears within bears. The
// doc of the package derives them.
func newStatics(u *layout.Unit, pl layout.Placement, bears, free layout.Rect, jerk, stress float64) *statics {
	s := &statics{bears: bears, free: free, stress: stress}
	if jerk <= 0 {
		jerk = JerkG
	}
	base := u.Base(pl)
	f := u.Mass.Grams() / 1000 * layout.Gravity * jerk
	h := u.Body.H.MM() / 2
	cx, cy := (base.X0+base.X1).MM()/2, (base.Y0+base.Y1).MM()/2
	inside := [edges]float64{cx - bears.X0.MM(), bears.X1.MM() - cx, cy - bears.Y0.MM(), bears.Y1.MM() - cy}
	s.demands = append(s.demands, demand{load: PulledOff, force: f})
	for e := leftEdge; e < edges; e++ {
		s.demands = append(s.demands,
			demand{load: Upright, force: f, moment: f * h, about: e},
			demand{load: PulledOff, moment: f * max(inside[e], 0), about: e, named: f})
	}
	s.cables(u, pl)
	s.toeHalf(u, pl)
	if s.favours {
		s.demands = append(s.demands, demand{load: AtToe, force: f})
	}
	return s
}

// cables adds the pull at the highest jack of each wall.
func (s *statics) cables(u *layout.Unit, pl layout.Placement) {
	var height [edges]float64
	var has [edges]bool
	for i := range u.Jacks {
		j := &u.Jacks[i]
		e := [...]edge{layout.Front: frontEdge, layout.Left: leftEdge, layout.Back: backEdge, layout.Right: rightEdge}[j.Wall.Turned(pl.Turn)]
		has[e] = true
		height[e] = max(height[e], j.Height.MM())
	}
	for e := range has {
		if has[e] {
			s.demands = append(s.demands, demand{load: CablePulled, force: CablePull, moment: CablePull * height[e], about: edge(e)})
		}
	}
}

// Tall reports whether a unit is taller than its base is wide or deep.
func Tall(u *layout.Unit) bool { return u.Body.H > min(u.Body.W, u.Body.D) }

// toeHalf says where the toe presses: at the far end of a treadle, whose heel
// is at the front, and at the front of a tall unit, where its switch is.
func (s *statics) toeHalf(u *layout.Unit, pl layout.Placement) {
	s.favours = u.Treadle || Tall(u)
	wall := layout.Front
	if u.Treadle {
		wall = layout.Back
	}
	s.toe = half(s.bears, wall.Turned(pl.Turn))
}

// half returns the half of r at one of its sides.
func half(r layout.Rect, side layout.Wall) layout.Rect {
	c := r.Center()
	switch side {
	case layout.Front:
		r.Y1 = c.Y
	case layout.Back:
		r.Y0 = c.Y
	case layout.Left:
		r.X1 = c.X
	default:
		r.X0 = c.X
	}
	return r
}

// add counts a piece in.
func (g *grip) add(s *statics, r layout.Rect) {
	a := area(r)
	x, y := (r.X0+r.X1).MM()/2, (r.Y0+r.Y1).MM()/2
	g.area += a
	g.lever[leftEdge] += a * max(x-s.bears.X0.MM(), 0)
	g.lever[rightEdge] += a * max(s.bears.X1.MM()-x, 0)
	g.lever[frontEdge] += a * max(y-s.bears.Y0.MM(), 0)
	g.lever[backEdge] += a * max(s.bears.Y1.MM()-y, 0)
	if t := r.Intersect(s.toe); !t.Empty() {
		g.toe += area(t)
	}
	g.bounds = g.bounds.Union(r)
	g.n++
}

// join counts all pieces of another grip of the same unit in.
func (g *grip) join(o *grip) {
	if o.n == 0 {
		return
	}
	g.area += o.area
	g.toe += o.toe
	for e := range g.lever {
		g.lever[e] += o.lever[e]
	}
	g.bounds = g.bounds.Union(o.bounds)
	g.n += o.n
}

func area(r layout.Rect) float64 { return r.W().MM() * r.D().MM() }

// use returns what a demand takes of what the grip may give: more than 1 is too
// much. Shear and tension stand at right angles to each other, so their shares
// add as the sides of a right angle.
func (s *statics) use(d *demand, g *grip) float64 {
	on := g.area
	if d.load == AtToe {
		on = g.toe
	}
	shear, tilt := 0.0, 0.0
	if d.force > 0 {
		shear = d.force / (s.stress * on)
	}
	if d.moment > 0 {
		tilt = d.moment / (s.stress * g.lever[d.about])
	}
	return math.Hypot(shear, tilt)
}

// spans reports whether the pieces span two thirds of where they may lie, both
// ways, so that the unit does not rock: common practice, no source.
func (s *statics) spans(g *grip) bool {
	return 3*g.bounds.W() >= 2*s.free.W() && 3*g.bounds.D() >= 2*s.free.D()
}

// toeFirst reports whether a unit that favours its toe has half as much again
// there as at its other end: common practice, no source.
func (s *statics) toeFirst(g *grip) bool {
	return !s.favours || 2*g.toe >= 3*(g.area-g.toe)
}

// holds reports whether the grip carries all loads, each times a factor.
func (s *statics) holds(g *grip, factor float64) bool {
	if g.n == 0 {
		return false
	}
	k := factor / s.stress
	k *= k
	for i := range s.demands {
		d := &s.demands[i]
		on := g.area
		if d.load == AtToe {
			on = g.toe
		}
		shear, tilt := 0.0, 0.0
		if d.force > 0 {
			shear = d.force / on
		}
		if d.moment > 0 {
			tilt = d.moment / g.lever[d.about]
		}
		if k*(shear*shear+tilt*tilt) > 1 {
			return false
		}
	}
	return true
}

// worst returns the hold by the load that asks most.
func (s *statics) worst(g *grip) Hold {
	h := Hold{Load: NoPiece, Use: math.Inf(1), Area: g.area}
	for i := range s.demands {
		h.Newtons = max(h.Newtons, s.demands[i].shown())
	}
	if g.n == 0 {
		return h
	}
	h.Use = -1
	for i := range s.demands {
		d := &s.demands[i]
		if use := s.use(d, g); use > h.Use {
			h.Use, h.Load, h.Newtons = use, d.load, d.shown()
		}
	}
	if h.Use > 0 {
		h.Limit = h.Newtons / h.Use
	} else { // no mass and no jack: anything holds it
		h.Use, h.Limit = 0, s.stress*g.area
	}
	return h
}

func (d *demand) shown() float64 {
	if d.force > 0 {
		return d.force
	}
	return d.named
}

package route_test

import (
	"slices"
	"testing"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// wood is a part of the board or of a unit that a cable must keep out of.
type wood struct {
	box        layout.Box
	unit, jack string
}

// everything returns all that takes room in the line-up.
func everything(p *layout.Plan, l *layout.Lineup) []wood {
	var out []wood
	for _, b := range p.Board.DeckSlabs() {
		out = append(out, wood{box: b})
	}
	for _, f := range p.Board.Obstacles() {
		out = append(out, wood{box: f.Box})
	}
	placed, _ := p.Standings(l)
	for _, s := range placed {
		for _, b := range s.Boxes {
			out = append(out, wood{b.Box, s.Unit.ID, b.Jack})
		}
	}
	return out
}

// requireFree fails if the path leads through anything but the cable's own
// plugs, the cable taken as thick as it is to its sides.
func requireFree(t require.TestingT, r route.Request, q route.Path, all []wood) {
	half := r.Diameter / 2
	for i := 1; i < len(q.Points); i++ {
		a, b := q.Points[i-1], q.Points[i]
		box := layout.Box{X0: min(a.X, b.X), Y0: min(a.Y, b.Y), Z0: min(a.Z, b.Z), X1: max(a.X, b.X), Y1: max(a.Y, b.Y), Z1: max(a.Z, b.Z)}
		moves := 0
		for _, d := range [3]struct{ lo, hi *layout.Length }{{&box.X0, &box.X1}, {&box.Y0, &box.Y1}, {&box.Z0, &box.Z1}} {
			if *d.lo == *d.hi {
				*d.lo, *d.hi = *d.lo-half, *d.hi+half
			} else {
				moves++
			}
		}
		require.Equal(t, 1, moves, "%s: from %v to %v is not along an axis", q.ID, a, b)
		own := func(w wood) bool {
			return w.jack != "" && (w.unit == r.From.Unit && w.jack == r.From.Jack || w.unit == r.To.Unit && w.jack == r.To.Jack)
		}
		if slices.ContainsFunc(all, func(w wood) bool { return own(w) && holds(w.box, box) }) {
			continue // what runs into a plug is the unit's own trouble
		}
		for _, w := range all {
			require.False(t, !own(w) && w.box.Overlaps(box), "%s from %v to %v runs into %+v", q.ID, a, b, w)
		}
	}
}

func holds(a, b layout.Box) bool {
	return a.Rect().Contains(b.Rect()) && a.Z0 <= b.Z0 && b.Z1 <= a.Z1
}

// requireEnds fails if the path does not lead from tip to tip.
func requireEnds(t require.TestingT, r route.Request, q route.Path) {
	for i, e := range []route.End{r.From, r.To} {
		at := q.Points[i*(len(q.Points)-1)]
		if !e.Edge {
			require.Equal(t, route.Point3{X: e.At.X, Y: e.At.Y, Z: e.Z}, at)
		}
	}
}

func TestExampleHasAWayForEveryCable(t *testing.T) {
	p := arranged.Example(t)
	for i := range p.Lineups {
		l := &p.Lineups[i]
		reqs, all := runs(p, l), everything(p, l)
		paths := route.NewSpace(p, l).Route(reqs)
		for k, q := range paths {
			r := reqs[k]
			require.NotEmpty(t, q.Points, "%s %s: %s", l.Name, q.ID, q.Why)
			assert.Equal(t, q.OK, q.Why == "")
			assert.Equal(t, r.ID, q.ID)
			requireEnds(t, r, q)
			requireFree(t, r, q, all)
			for j := range k {
				on := (r.Diameter + reqs[j].Diameter) / 2
				assert.LessOrEqual(t, beside(q, paths[j], on), 40*mm, "%s: %s on %s", l.Name, q.ID, paths[j].ID)
			}
		}
	}
}

// The same for places at random, where units may stand in each other's way: a
// cable has a free way or none.
func TestPathsKeepOutOfEverything(t *testing.T) {
	base := arranged.Example(t)
	rapid.Check(t, func(t *rapid.T) {
		p := base.Clone()
		l := &p.Lineups[rapid.IntRange(0, len(p.Lineups)-1).Draw(t, "line-up")]
		for range 3 {
			u := rapid.SampledFrom(p.UnitsIn(l)).Draw(t, "unit")
			pl, _ := p.PlaceOf(l, u)
			pl.At.X += layout.Length(rapid.IntRange(-80, 80).Draw(t, "dx")) * mm
			pl.At.Y += layout.Length(rapid.IntRange(-80, 80).Draw(t, "dy")) * mm
			pl.Turn = layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
			p.SetPlace(l, u, pl)
		}
		s, all := route.NewSpace(p, l), everything(p, l)
		reqs := runs(p, l)
		first := rapid.IntRange(0, len(reqs)-6).Draw(t, "first cable")
		reqs = reqs[first : first+6]
		paths := s.Route(reqs)
		require.Equal(t, paths, s.Route(reqs), "the same twice")
		for k, q := range paths {
			if q.Points == nil {
				require.NotEmpty(t, q.Why)
				continue
			}
			requireEnds(t, reqs[k], q)
			requireFree(t, reqs[k], q, all)
			if !reqs[k].From.Edge && !reqs[k].To.Edge {
				apart := func(a, b layout.Length) layout.Length { return max(a-b, b-a) }
				f, e := reqs[k].From, reqs[k].To
				require.GreaterOrEqual(t, q.Square(), apart(f.At.X, e.At.X)+apart(f.At.Y, e.At.Y)+apart(f.Z, e.Z))
			}
		}
	})
}

// loose returns a request between two plugs that nothing else knows of.
func loose(from, to route.End) route.Request {
	return route.Request{ID: "c", Kind: route.Audio, From: from, To: to, Diameter: 4 * mm, BendRadius: 20 * mm}
}

func tip(x, y, z layout.Length, way layout.Wall) route.End {
	return route.End{Unit: "loose", Jack: "tip", At: layout.Point{X: x, Y: y}, Z: z, Dir: way}
}

// block returns a unit without jacks.
func block(id string, on string, x, y, w, d layout.Length) layout.Unit {
	return layout.Unit{ID: id, Body: layout.Size{W: w, D: d, H: 50 * mm},
		Place: &layout.Placement{On: on, At: layout.Point{X: x, Y: y}}}
}

func planOf(b layout.Board, units ...layout.Unit) *layout.Plan {
	return &layout.Plan{Board: b, Units: units, Lineups: []layout.Lineup{{Name: "all"}}}
}

func shortest(p *layout.Plan, r route.Request) route.Path {
	return route.NewSpace(p, &p.Lineups[0]).Shortest(r)
}

func TestStraightAndRoundABody(t *testing.T) {
	b := layout.Board{W: 400 * mm, D: 200 * mm, Thickness: 15 * mm}
	r := loose(tip(50*mm, 100*mm, 20*mm, layout.Right), tip(350*mm, 100*mm, 20*mm, layout.Left))
	q := shortest(planOf(b), r)
	require.True(t, q.OK, q.Why)
	assert.Equal(t, 336*mm, q.Square(), "300 along and 18 down and up")
	assert.Equal(t, q.Square(), q.Length, "nothing to round on the level")
	// Round the front of a body whose front is 30 nearer to the player: 32 off and back.
	q = shortest(planOf(b, block("x", layout.DeckName, 180*mm, 70*mm, 40*mm, 130*mm)), r)
	require.True(t, q.OK, q.Why)
	assert.Equal(t, 336*mm+2*32*mm, q.Square())
	assert.Less(t, q.Length, q.Square())
}

func TestUnderAShelf(t *testing.T) {
	b := layout.Board{W: 400 * mm, D: 200 * mm, Thickness: 15 * mm}
	shelf := layout.Riser{Name: "shelf", At: layout.Rect{X0: 100 * mm, Y0: 0, X1: 300 * mm, Y1: 200 * mm}, Height: 55 * mm, Thickness: 9 * mm}
	shelf.Legs = []layout.Leg{{At: layout.Rect{X0: 100 * mm, Y0: 0, X1: 109 * mm, Y1: 60 * mm}}, {At: layout.Rect{X0: 291 * mm, Y0: 0, X1: 300 * mm, Y1: 60 * mm}}}
	b.Risers = []layout.Riser{shelf}
	p := planOf(b, block("up", "shelf", 150*mm, 0, 100*mm, 200*mm))
	q := shortest(p, loose(tip(50*mm, 100*mm, 20*mm, layout.Right), tip(350*mm, 100*mm, 20*mm, layout.Left)))
	require.True(t, q.OK, q.Why)
	assert.Equal(t, 336*mm, q.Square(), "straight below the shelf")
	// From the shelf to the deck over the rim: 300 along, 70 up there.
	p = planOf(b)
	q = shortest(p, loose(tip(150*mm, 100*mm, 75*mm, layout.Right), tip(350*mm, 100*mm, 20*mm, layout.Left)))
	require.True(t, q.OK, q.Why)
	assert.Equal(t, 200*mm+18*mm+55*mm+18*mm, q.Square())
	requireFree(t, loose(route.End{}, route.End{}), q, everything(p, &p.Lineups[0]))
}

func TestThroughTheGapBetweenRails(t *testing.T) {
	b := layout.Board{W: 400 * mm, D: 200 * mm, Kind: layout.Rails, Thickness: 15 * mm, Rails: []layout.Rail{
		{At: layout.Rect{X0: 0, Y0: 0, X1: 400 * mm, Y1: 80 * mm}}, {At: layout.Rect{X0: 0, Y0: 120 * mm, X1: 400 * mm, Y1: 200 * mm}}}}
	// A body across the whole depth and past what may hang over the back.
	p := planOf(b, block("wall", layout.DeckName, 180*mm, -10*mm, 40*mm, 260*mm))
	r := loose(tip(50*mm, 100*mm, 20*mm, layout.Right), tip(350*mm, 100*mm, 20*mm, layout.Left))
	q := shortest(p, r)
	require.True(t, q.OK, q.Why)
	// Down from the deck's level, 2 above its top, to 2 below the rails, and up.
	assert.Equal(t, 336*mm+2*(15+4)*mm, q.Square())
	requireFree(t, r, q, everything(p, &p.Lineups[0]))
	b.Kind = layout.Solid
	p.Board = b
	q = shortest(p, r)
	assert.False(t, q.OK)
	assert.Nil(t, q.Points)
	assert.Equal(t, "all that lies between loose at tip and loose at tip is taken", q.Why)
}

func TestBendTooTight(t *testing.T) {
	b := layout.Board{W: 400 * mm, D: 200 * mm, Thickness: 15 * mm}
	// Between two walls 24 apart, off to one side: there is a way, but it has
	// to turn back twice within the room between a third body and the walls.
	p := planOf(b,
		block("front", layout.DeckName, 0, 0, 400*mm, 40*mm),
		block("back", layout.DeckName, 0, 64*mm, 300*mm, 180*mm),
		block("end", layout.DeckName, 324*mm, 40*mm, 76*mm, 200*mm))
	q := shortest(p, loose(tip(50*mm, 52*mm, 20*mm, layout.Right), tip(312*mm, 180*mm, 20*mm, layout.Front)))
	require.NotNil(t, q.Points, q.Why)
	require.True(t, q.OK, "one bend in a corner of 24 mm: %s", q.Why)
	r := loose(tip(50*mm, 52*mm, 20*mm, layout.Right), tip(312*mm, 180*mm, 20*mm, layout.Front))
	r.Diameter, r.BendRadius = 12*mm, 60*mm
	q = shortest(p, r)
	require.NotNil(t, q.Points, q.Why)
	assert.False(t, q.OK)
	assert.Contains(t, q.Why, "bend too tight: the room allows a radius of")
	assert.Less(t, q.Bend, r.BendRadius)
	tight := r
	tight.BendRadius = q.Bend
	assert.True(t, shortest(p, tight).OK, "the radius it names has a way")
	tight.BendRadius = q.Bend + r.BendRadius/8
	assert.False(t, shortest(p, tight).OK, "an eighth more has not")
}

// Two tips with nothing between them: the cable holds itself up.
func TestShortCableStaysInTheAir(t *testing.T) {
	b := layout.Board{W: 400 * mm, D: 200 * mm, Thickness: 15 * mm}
	for apart, want := range map[layout.Length]layout.Length{
		0: 0, 30 * mm: 30 * mm, 80 * mm: 80 * mm, 81 * mm: (81 + 36) * mm,
	} {
		q := shortest(planOf(b), loose(tip(50*mm, 100*mm, 20*mm, layout.Right), tip(50*mm+apart, 100*mm, 20*mm, layout.Left)))
		require.True(t, q.OK, q.Why)
		assert.Equal(t, want, q.Square(), "%v apart", apart)
	}
}

// beside returns how long two paths lie at less than the distance from each
// other on one level, both along x or both along y.
func beside(a, b route.Path, near layout.Length) layout.Length {
	var sum layout.Length
	for i := 1; i < len(a.Points); i++ {
		for k := 1; k < len(b.Points); k++ {
			p, q, r, s := a.Points[i-1], a.Points[i], b.Points[k-1], b.Points[k]
			if p.Z != q.Z || r.Z != s.Z || max(p.Z-r.Z, r.Z-p.Z) > mm {
				continue
			}
			if p.Y == q.Y && r.Y == s.Y && max(p.Y-r.Y, r.Y-p.Y) < near {
				sum += max(0, min(max(p.X, q.X), max(r.X, s.X))-max(min(p.X, q.X), min(r.X, s.X)))
			}
			if p.X == q.X && r.X == s.X && max(p.X-r.X, r.X-p.X) < near {
				sum += max(0, min(max(p.Y, q.Y), max(r.Y, s.Y))-max(min(p.Y, q.Y), min(r.Y, s.Y)))
			}
		}
	}
	return sum
}

func TestCablesDoNotLieOnEachOther(t *testing.T) {
	b := layout.Board{W: 500 * mm, D: 300 * mm, Thickness: 15 * mm}
	p := planOf(b, block("x", layout.DeckName, 200*mm, 100*mm, 100*mm, 230*mm))
	var reqs []route.Request
	for i := range layout.Length(4) {
		r := loose(tip(50*mm, (150+25*i)*mm, 20*mm, layout.Right), tip(450*mm, (150+25*i)*mm, 20*mm, layout.Left))
		r.ID = string(rune('a' + i))
		r.From.Unit, r.To.Unit = "l"+r.ID, "r"+r.ID
		reqs = append(reqs, r)
	}
	reqs[3].Kind = route.Power
	s := route.NewSpace(p, &p.Lineups[0])
	paths := s.Route(reqs)
	for i := range paths {
		require.True(t, paths[i].OK, paths[i].Why)
		for k := range i {
			assert.LessOrEqual(t, beside(paths[i], paths[k], 4*mm), 25*mm, "%s on %s", paths[i].ID, paths[k].ID)
		}
		if i < 3 {
			assert.LessOrEqual(t, beside(paths[i], paths[3], route.Near), 60*mm, "audio along power")
		}
	}
	// Alone, all of them would lie along the body's front.
	var alone []route.Path
	for _, r := range reqs {
		alone = append(alone, s.Shortest(r))
	}
	assert.Greater(t, beside(alone[0], alone[1], 4*mm), 90*mm)
	assert.True(t, slices.ContainsFunc(paths, func(q route.Path) bool { return q.Square() > 336*mm }))
}

package check

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// drawPlan makes a plan of few micrometres, so that plain loops over every
// micrometre can be the judge.
func drawPlan(t *rapid.T) *layout.Plan {
	n := func(lo, hi int, name string) layout.Length {
		return layout.Length(rapid.IntRange(lo, hi).Draw(t, name))
	}
	p := &layout.Plan{
		Board:   layout.Board{W: 16, D: 16, Kind: layout.Solid, Thickness: 1},
		Lineups: []layout.Lineup{{Name: "all"}},
		Limits:  layout.Limits{Mass: layout.Kilogram},
	}
	if rapid.Bool().Draw(t, "riser") {
		r := layout.Riser{Name: "shelf", At: layout.RectAt(layout.Point{X: n(0, 6, "rx"), Y: n(0, 6, "ry")}, n(3, 9, "rw"), n(2, 8, "rd")), Height: n(3, 6, "rh"), Thickness: n(1, 2, "rt")}
		r.Legs = r.EndPanels()
		p.Board.Risers = []layout.Riser{r}
	}
	walls := []layout.Wall{layout.Front, layout.Left, layout.Back, layout.Right}
	legs := []layout.LegSide{layout.LegUp, layout.LegDown, layout.LegLeft, layout.LegRight, layout.LegFront, layout.LegBack}
	for i := range rapid.IntRange(1, 4).Draw(t, "units") {
		u := layout.Unit{ID: fmt.Sprint(i), Label: fmt.Sprint(i), Body: layout.Size{W: n(1, 6, "w"), D: n(1, 6, "d"), H: n(1, 6, "h")}}
		if rapid.Bool().Draw(t, "sweep") {
			u.Sweep = &layout.Sweep{Front: n(0, 2, "sf"), Back: n(0, 2, "sb"), Left: n(0, 2, "sl"), Right: n(0, 2, "sr"), From: n(0, 3, "from"), Top: n(3, 8, "top")}
		}
		for k := range rapid.IntRange(0, 2).Draw(t, "jacks") {
			j := layout.Jack{ID: fmt.Sprint("j", k), Signal: layout.Audio, Wall: rapid.SampledFrom(walls).Draw(t, "wall"), Along: n(0, 5, "along"), Height: n(0, 5, "height"),
				Plug: layout.PlugForm{Out: n(1, 3, "out"), Width: n(1, 3, "width"), Leg: n(0, 4, "leg")}, Leg: rapid.SampledFrom(legs).Draw(t, "side")}
			u.Jacks = append(u.Jacks, j)
			if rapid.Bool().Draw(t, "used") {
				u.Uses = append(u.Uses, j.ID)
			}
		}
		on := layout.DeckName
		if len(p.Board.Risers) > 0 && rapid.Bool().Draw(t, "up") {
			on = "shelf"
		}
		u.Place = &layout.Placement{On: on, At: layout.Point{X: n(-2, 14, "x"), Y: n(-2, 14, "y")}, Turn: layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))}
		p.Units = append(p.Units, u)
	}
	return p
}

type voxel [3]layout.Length

// fill notes every cubic micrometre of a box.
func fill(into map[voxel]bool, b layout.Box) {
	for x := b.X0; x < b.X1; x++ {
		for y := b.Y0; y < b.Y1; y++ {
			for z := b.Z0; z < b.Z1; z++ {
				into[voxel{x, y, z}] = true
			}
		}
	}
}

func meet(a, b map[voxel]bool) bool {
	for v := range a {
		if b[v] {
			return true
		}
	}
	return false
}

// sunk reports whether one of the cubes is in the unit's own surface.
func sunk(p *layout.Plan, s *layout.Standing, cubes map[voxel]bool) bool {
	at := p.Board.Rect()
	if s.Place.On != layout.DeckName {
		at = p.Board.Risers[0].At
	}
	for v := range cubes {
		if v[2] < s.Z && v[0] >= at.X0 && v[0] < at.X1 && v[1] >= at.Y0 && v[1] < at.Y1 {
			return true
		}
	}
	return false
}

// The slow twin of every rule about room: fill the space with cubes and see
// which are wanted twice.
func TestRoomAgainstCubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		placed, _ := p.Standings(&p.Lineups[0])
		var space []map[voxel]bool
		own := map[string]bool{}
		for i := range placed {
			cubes := map[voxel]bool{}
			var plugs []map[voxel]bool
			for _, b := range placed[i].Boxes {
				fill(cubes, b.Box)
				if b.Part == layout.PlugPart {
					mine := map[voxel]bool{}
					fill(mine, b.Box)
					for _, other := range plugs {
						if meet(mine, other) {
							own[placed[i].Unit.ID] = true
						}
					}
					plugs = append(plugs, mine)
				}
			}
			space = append(space, cubes)
		}
		want := map[string]bool{}
		for i := range space {
			if own[placed[i].Unit.ID] {
				want["own "+placed[i].Unit.ID] = true
			}
			for j := range i {
				if meet(space[i], space[j]) {
					want["pair "+placed[j].Unit.ID+" "+placed[i].Unit.ID] = true
				}
			}
			if sunk(p, &placed[i], space[i]) {
				want["below "+placed[i].Unit.ID] = true
			}
			for _, o := range p.Board.Obstacles() {
				if strings.HasPrefix(o.Name, placed[i].Place.On+" ") {
					continue // its own riser, which sunk looks at
				}
				cubes := map[voxel]bool{}
				fill(cubes, o.Box)
				if meet(space[i], cubes) {
					want["board "+placed[i].Unit.ID] = true
				}
			}
		}
		got := map[string]bool{}
		for _, f := range Lineup(p, &p.Lineups[0]) {
			switch f.Code {
			case OwnPlugs:
				got["own "+f.Units[0]] = true
			case Collision:
				if f.Measured <= 0 {
					t.Fatalf("a collision of no depth: %+v", f)
				}
				got["pair "+f.Units[0]+" "+f.Units[1]] = true
			case PlugBelow:
				got["below "+f.Units[0]] = true
			case Obstacle, Headroom:
				got["board "+f.Units[0]] = true
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("found %v, want %v", got, want)
		}
	})
}

// Moving the second set by the depth found, the way found, clears every pair of
// boxes that overlapped, and no shorter move in any of the four ways does.
func TestClashDepthIsTheShortestMove(t *testing.T) {
	steps := [4]layout.Point{left: {X: -1}, right: {X: 1}, front: {Y: -1}, back: {Y: 1}}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) []layout.PartBox {
			var out []layout.PartBox
			for range rapid.IntRange(1, 3).Draw(t, name) {
				v := func() layout.Length { return layout.Length(rapid.IntRange(0, 6).Draw(t, "v")) }
				x, y, z := v(), v(), v()
				out = append(out, layout.PartBox{Box: layout.Box{X0: x, Y0: y, Z0: z, X1: x + v() + 1, Y1: y + v() + 1, Z1: z + v() + 1}})
			}
			return out
		}
		a, b := draw("a"), draw("b")
		type pair struct{ i, j int }
		var over []pair
		for i := range a {
			for j := range b {
				if a[i].Box.Overlaps(b[j].Box) {
					over = append(over, pair{i, j})
				}
			}
		}
		k, ok := clashOf(a, b)
		if ok != (len(over) > 0) {
			t.Fatalf("clashOf says %v, %d pairs overlap", ok, len(over))
		}
		if !ok {
			return
		}
		clears := func(way side, by layout.Length) bool {
			for _, q := range over {
				p := layout.Point{X: steps[way].X * by, Y: steps[way].Y * by}
				if a[q.i].Box.Overlaps(b[q.j].Box.Move(p, 0)) {
					return false
				}
			}
			return true
		}
		if !clears(k.way, k.depth) {
			t.Fatalf("%+v does not clear them", k)
		}
		for way := left; way <= back; way++ {
			if clears(way, k.depth-1) {
				t.Fatalf("%+v, but %d to the %s clears them", k, k.depth-1, way)
			}
		}
	})
}

// A collision does not depend on the order of the units in the plan.
func TestCollisionIsSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		q := p.Clone()
		for i, j := 0, len(q.Units)-1; i < j; i, j = i+1, j-1 {
			q.Units[i], q.Units[j] = q.Units[j], q.Units[i]
		}
		pairs := func(p *layout.Plan) map[string]float64 {
			out := map[string]float64{}
			for _, f := range find(Lineup(p, &p.Lineups[0]), Collision) {
				out[min(f.Units[0], f.Units[1])+" "+max(f.Units[0], f.Units[1])] = f.Measured
			}
			return out
		}
		if a, b := pairs(p), pairs(q); fmt.Sprint(a) != fmt.Sprint(b) {
			t.Fatalf("%v one way round, %v the other", a, b)
		}
	})
}

// Every finding is complete, whatever the plan, and the plan stays as it was.
func TestFindingsAreComplete(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		before, err := json.Marshal(p)
		require.NoError(t, err)
		for _, f := range Lineup(p, &p.Lineups[0]) {
			if f.Text == "" || f.Code == "" || f.Lineup != "all" || f.Level.weight() == 2 && f.Level != Note {
				t.Fatalf("incomplete: %+v", f)
			}
			if f.Unit == "" && (f.Measured != 0 || f.Limit != 0) && f.Code != WrongTurn {
				t.Fatalf("figures without a unit: %+v", f)
			}
			for _, id := range f.Units {
				if p.Unit(id) == nil {
					t.Fatalf("no unit %q: %+v", id, f)
				}
			}
		}
		now, err := json.Marshal(p)
		require.NoError(t, err)
		require.Equal(t, string(before), string(now), "a check changes nothing")
	})
}

package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func all(string) bool  { return true }
func none(string) bool { return false }

// A unit 70 x 120 x 50 with a jack at 30 along and 20 high; the plug stands 12
// out and is 10 across, its leg 25 long.
func plugged(wall Wall, leg LegSide) *Unit {
	return &Unit{ID: "u", Body: Size{70, 120, 50}, Jacks: []Jack{{ID: "j", Wall: wall, Along: 30, Height: 20, Leg: leg,
		Plug: PlugForm{Out: 12, Width: 10, Leg: 25}}}}
}

// Every wall and every way that a leg can point, by hand.
func TestPlugBoxes(t *testing.T) {
	for _, tt := range []struct {
		wall Wall
		leg  LegSide
		want Box
	}{
		{Front, LegUp, Box{25, -12, 15, 35, 0, 45}},
		{Front, "", Box{25, -12, 15, 35, 0, 45}},
		{Front, LegDown, Box{25, -12, -5, 35, 0, 25}}, // below the base: only past an edge
		{Front, LegLeft, Box{5, -12, 15, 35, 0, 25}},
		{Front, LegRight, Box{25, -12, 15, 55, 0, 25}},
		{Back, LegUp, Box{25, 120, 15, 35, 132, 45}},
		{Back, LegDown, Box{25, 120, -5, 35, 132, 25}},
		{Back, LegLeft, Box{5, 120, 15, 35, 132, 25}},
		{Back, LegRight, Box{25, 120, 15, 55, 132, 25}},
		{Left, LegUp, Box{-12, 25, 15, 0, 35, 45}},
		{Left, LegDown, Box{-12, 25, -5, 0, 35, 25}},
		{Left, LegFront, Box{-12, 5, 15, 0, 35, 25}},
		{Left, LegBack, Box{-12, 25, 15, 0, 55, 25}},
		{Right, LegUp, Box{70, 25, 15, 82, 35, 45}},
		{Right, LegDown, Box{70, 25, -5, 82, 35, 25}},
		{Right, LegFront, Box{70, 5, 15, 82, 35, 25}},
		{Right, LegBack, Box{70, 25, 15, 82, 55, 25}},
	} {
		u := plugged(tt.wall, tt.leg)
		got := u.Boxes(0, all)
		require.Len(t, got, 2)
		assert.Equal(t, PartBox{BodyPart, "", Box{0, 0, 0, 70, 120, 50}}, got[0])
		assert.Equal(t, PartBox{PlugPart, "j", tt.want}, got[1], "%v wall, leg %q", tt.wall, tt.leg)
		assert.Len(t, u.Boxes(0, none), 1, "an unused jack takes no room")
	}
	straight := plugged(Right, LegUp)
	straight.Jacks[0].Plug = PlugForm{Out: 40, Width: 15}
	assert.Equal(t, Box{70, 23, 13, 110, 38, 28}, straight.Boxes(0, all)[1].Box, "an odd width keeps its size")
}

// A leg shorter than half the plug's width changes nothing.
func TestShortLeg(t *testing.T) {
	for _, leg := range []LegSide{LegUp, LegDown, LegLeft, LegRight} {
		u := plugged(Front, leg)
		u.Jacks[0].Plug.Leg = 4
		assert.Equal(t, Box{25, -12, 15, 35, 0, 25}, u.Boxes(0, all)[1].Box, leg)
	}
}

func TestSweepAndKnobs(t *testing.T) {
	u := &Unit{Body: Size{100, 250, 70}, Overall: Size{100, 260, 75}, Sweep: &Sweep{Front: 5, Back: 20, Left: 1, Right: 2, From: 40, Top: 130}}
	assert.Equal(t, []PartBox{
		{BodyPart, "", Box{0, 0, 0, 100, 250, 75}},
		{SweepPart, "", Box{-1, -5, 40, 102, 270, 130}},
	}, u.Boxes(0, all))
	assert.Equal(t, Length(75), u.Height())
	// Turned once, the front is at the left.
	assert.Equal(t, Box{-5, -2, 40, 270, 101, 130}, u.Boxes(1, all)[1].Box)
}

func drawUnit(t *rapid.T) *Unit {
	n := func(lo, hi int, name string) Length { return drawSmall(t, lo, hi, name) }
	u := &Unit{ID: "u", Body: Size{n(1, 9, "w"), n(1, 9, "d"), n(1, 9, "h")}}
	if rapid.Bool().Draw(t, "sweep") {
		u.Sweep = &Sweep{n(0, 3, "f"), n(0, 3, "b"), n(0, 3, "l"), n(0, 3, "r"), n(0, 3, "from"), n(3, 9, "top")}
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "jacks") {
		u.Jacks = append(u.Jacks, Jack{ID: fmt.Sprint("j", i), Wall: Wall(rapid.IntRange(0, 3).Draw(t, "wall")), Along: n(0, 9, "along"), Height: n(0, 9, "height"),
			Leg:  rapid.SampledFrom([]LegSide{"", LegUp, LegDown, LegLeft, LegRight, LegFront, LegBack}).Draw(t, "leg"),
			Plug: PlugForm{Out: n(1, 5, "out"), Width: n(1, 5, "width"), Leg: n(0, 7, "reach")}})
	}
	return u
}

func volume(b Box) Length { return b.Rect().W() * b.Rect().D() * (b.Z1 - b.Z0) }

// Boxes at turn n are those at turn 0 turned n times by a quarter; four quarters
// give the first again; volumes stay; plugs touch their body and never enter it.
func TestBoxesTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := drawUnit(t)
		quarter := u.Boxes(0, all)
		w, d := u.Body.W, u.Body.D
		for turn := Turn(0); turn <= 4; turn++ {
			got := u.Boxes(turn, all)
			require.Equal(t, quarter, got, "turn %d", turn)
			first := u.Boxes(0, all)
			for i, b := range got {
				require.Equal(t, volume(first[i].Box), volume(b.Box))
				if b.Part == PlugPart {
					require.False(t, b.Box.Rect().Overlaps(got[0].Box.Rect()))
					j := u.Jack(b.Jack)
					axis, h := u.Axis(j, turn)
					tip, th := u.Tip(j, turn)
					require.Equal(t, j.Height, h)
					require.Equal(t, h, th)
					require.True(t, got[0].Box.Rect().Grow(Edges{9, 9, 9, 9}).Touches(axis))
					dx, dy := tip.X-axis.X, tip.Y-axis.Y
					require.Equal(t, j.Plug.Out, max(dx, -dx)+max(dy, -dy), "the tip is straight out")
					require.True(t, b.Box.Rect().Touches(tip), "on the box's far face")
					require.True(t, b.Box.Rect().Touches(axis), "its root at the wall")
				}
			}
			for i := range quarter {
				quarter[i].Box = Turn(1).Box(quarter[i].Box, w, d)
			}
			w, d = d, w
		}
	})
}

func testBoard() Board {
	return Board{W: 500, D: 300, Kind: Solid, Thickness: 15,
		Risers: []Riser{{Name: "shelf", At: Rect{50, 200, 450, 300}, Height: 55, Thickness: 9}}}
}

func TestStand(t *testing.T) {
	b := testBoard()
	u := plugged(Front, LegUp)
	u.Switches = []Switch{{At: Point{10, 20}, Height: 52}}
	s, ok := b.Stand(u, Placement{On: "shelf", At: Point{100, 180}, Turn: 1}, all)
	require.True(t, ok)
	assert.Equal(t, Length(55), s.Z)
	// Turned once the body is 120 wide and 70 deep, the front wall at the left:
	// x 25..35 along the front becomes y 70-35..70-25.
	assert.Equal(t, Box{100, 180, 55, 220, 250, 105}, s.Boxes[0].Box)
	assert.Equal(t, Box{88, 215, 70, 100, 225, 100}, s.Boxes[1].Box)
	p, z := s.SwitchAt(0)
	assert.Equal(t, Point{120, 240}, p, "(20, 70-10) from the corner")
	assert.Equal(t, Length(107), z)
	_, ok = b.Stand(u, Placement{On: "attic"}, all)
	assert.False(t, ok)
	assert.Equal(t, Rect{100, 180, 220, 250}, u.Base(s.Place))
}

func TestStandings(t *testing.T) {
	p := &Plan{Board: testBoard(), Lineups: []Lineup{{Name: "one"}}}
	a, b, c := plugged(Left, LegUp), plugged(Left, LegUp), plugged(Left, LegUp)
	a.ID, b.ID, c.ID = "a", "b", "c"
	a.Place = &Placement{On: DeckName, At: Point{20, 0}}
	a.Uses = []string{"j"}
	c.Place = &Placement{On: "attic"}
	p.Units = []Unit{*a, *b, *c}
	placed, unplaced := p.Standings(&p.Lineups[0])
	require.Len(t, placed, 1)
	assert.Equal(t, "a", placed[0].Unit.ID)
	assert.Len(t, placed[0].Boxes, 2, "its jack is in use")
	require.Len(t, unplaced, 2)
	assert.Equal(t, "b", unplaced[0].ID)
	assert.Equal(t, "c", unplaced[1].ID, "no surface of that name")

	p.Units[0].Uses = nil
	placed, _ = p.Standings(&p.Lineups[0])
	assert.Len(t, placed[0].Boxes, 1)
	p.Lineups[0].Place = map[string]Placement{"a": {On: "shelf", At: Point{60, 200}}}
	placed, _ = p.Standings(&p.Lineups[0])
	assert.Equal(t, Length(55), placed[0].Z, "the line-up's place goes first")
}

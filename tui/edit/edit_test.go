package edit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

const mm = layout.Millimetre

// trial is a board of 400 x 300 mm with a shelf and a slot; three units stand
// on it, a fourth waits, and the slot's two change with the line-up.
func trial() *layout.Plan {
	unit := func(id string, w, d, h layout.Length, mount layout.Mount, at *layout.Placement) layout.Unit {
		return layout.Unit{ID: id, Label: "Unit " + id, Body: layout.Size{W: w * mm, D: d * mm, H: h * mm},
			Mount: mount, Place: at, Mass: 300 * layout.Gram}
	}
	deck := func(x, y layout.Length) *layout.Placement {
		return &layout.Placement{On: layout.DeckName, At: layout.Point{X: x * mm, Y: y * mm}}
	}
	p := &layout.Plan{
		Title: "Trial", LengthUnit: layout.Millimetres,
		Board: layout.Board{W: 400 * mm, D: 300 * mm, Kind: layout.Solid, Thickness: 15 * mm,
			Overhang: layout.Edges{Left: 20 * mm},
			Risers: []layout.Riser{{Name: "shelf", At: layout.RectAt(layout.Point{X: 100 * mm, Y: 200 * mm}, 200*mm, 100*mm),
				Height: 60 * mm, Thickness: 9 * mm}}},
		Slots: []layout.Slot{{Name: "colour", On: layout.DeckName, At: layout.RectAt(layout.Point{X: 200 * mm, Y: 0}, 200*mm, 130*mm)}},
		Units: []layout.Unit{
			unit("a", 73, 122, 55, layout.Fixed, deck(0, 10)),
			unit("b", 73, 122, 55, layout.Fixed, deck(100, 10)),
			unit("c", 60, 60, 40, layout.Fixed, deck(10, 220)),
			unit("d", 120, 90, 50, layout.Fixed, nil),
			unit("e", 70, 120, 55, layout.Swap, deck(210, 0)),
			unit("f", 70, 120, 55, layout.Swap, nil),
		},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"e", "f"}}},
			{Name: "pit", Fill: map[string][]string{"colour": {"f"}}},
		},
	}
	r := &p.Board.Risers[0]
	r.Legs = r.EndPanels()
	return p
}

func barn(p *layout.Plan) *layout.Lineup { return p.LineupNamed("barn") }

func TestStrides(t *testing.T) {
	for _, c := range []struct {
		unit   layout.LengthUnit
		stride int
		from   layout.Length
		n      int64
		want   layout.Length
	}{
		{layout.Millimetres, 0, 0, 1, mm},
		{layout.Millimetres, 1, 5 * mm, -1, 0},
		{layout.Millimetres, 2, 0, -1, -25 * mm},
		{layout.Millimetres, 1, 3*mm + 1, 1, 8*mm + 1},
		{layout.Inches, 0, 0, 1, 1588},
		{layout.Inches, 0, 1588, 1, 3175},
		{layout.Inches, 0, 3175, -1, 1588},
		{layout.Inches, 1, 0, 1, 6350},
		{layout.Inches, 2, 6350, -1, -19050},
	} {
		s := Strides(c.unit)[c.stride]
		assert.Equal(t, c.want, s.From(c.from, c.n), "%s from %d, %d of them", s.Name, c.from, c.n)
	}
}

func TestSixteenStridesAreOneInch(t *testing.T) {
	s, l := Strides(layout.Inches)[0], layout.Length(0)
	for range 16 {
		l = s.From(l, 1)
	}
	assert.Equal(t, layout.Inch, l)
}

func TestAhead(t *testing.T) {
	p := trial()
	for _, c := range []struct {
		unit string
		dir  layout.Wall
		want Contact
	}{
		{"a", layout.Right, Contact{Gap: 27 * mm, With: "Unit b", Unit: "b"}},
		{"a", layout.Left, Contact{Gap: 20 * mm, With: "end of overhang"}},
		{"a", layout.Front, Contact{Gap: 10 * mm, With: "deck edge"}},
		{"a", layout.Back, Contact{Gap: 88 * mm, With: "Unit c", Unit: "c"}},
		{"b", layout.Right, Contact{Gap: 37 * mm, With: "Unit e", Unit: "e"}},
		{"b", layout.Back, Contact{Gap: 68 * mm, With: "shelf platform"}},
		{"c", layout.Right, Contact{Gap: 30 * mm, With: "shelf leg"}},
		{"e", layout.Right, Contact{Gap: 120 * mm, With: "colour slot edge"}},
		{"e", layout.Front, Contact{With: "deck edge"}},
	} {
		got, ok := Ahead(p, barn(p), p.Unit(c.unit), c.dir)
		require.True(t, ok, "%s %s", c.unit, c.dir)
		assert.Equal(t, &got, Around(p, barn(p), p.Unit(c.unit))[c.dir], "%s %s", c.unit, c.dir)
		along := got.To.X - got.From.X + got.To.Y - got.From.Y // on one of the axes only
		assert.Equal(t, c.want.Gap, max(along, -along), "%s %s: the way is as long as the gap", c.unit, c.dir)
		got.From, got.To = layout.Point{}, layout.Point{}
		assert.Equal(t, c.want, got, "%s %s", c.unit, c.dir)
	}
	assert.Equal(t, [4]*Contact{}, Around(p, barn(p), p.Unit("d")), "without a place")
}

// The way to a neighbour lies where the two face each other.
func TestAheadShowsTheWay(t *testing.T) {
	p := trial() // a: 73 x 122 at 0, 10; b: the same at 100, 10; e: 70 x 120 at 210, 0
	got, _ := Ahead(p, barn(p), p.Unit("b"), layout.Right)
	assert.Equal(t, layout.Point{X: 173 * mm, Y: 65 * mm}, got.From)
	assert.Equal(t, layout.Point{X: 210 * mm, Y: 65 * mm}, got.To)
	got, _ = Ahead(p, barn(p), p.Unit("a"), layout.Front)
	assert.Equal(t, layout.Point{X: 36500, Y: 10 * mm}, got.From)
	assert.Equal(t, layout.Point{X: 36500, Y: 0}, got.To)
}

func TestAheadLeadsOutOfAnOverlap(t *testing.T) {
	p := trial()
	p.Unit("a").Place.At.X = 90 * mm // b stands at 100 to 173
	got, ok := Ahead(p, barn(p), p.Unit("a"), layout.Left)
	require.True(t, ok)
	assert.Equal(t, Contact{Gap: 63 * mm, With: "Unit b", Unit: "b", Out: true}, got, "no way to draw")
	assert.Equal(t, []string{"Unit b"}, overlapping(p, barn(p), p.Unit("a")))
}

// Whatever a unit slides against, it ends touching and not overlapping it.
func TestSlidingNeverMakesAnOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trial()
		u := p.Unit(rapid.SampledFrom([]string{"a", "b", "c", "e"}).Draw(t, "unit"))
		u.Place.At = layout.Point{
			X: layout.Length(rapid.IntRange(-50_000, 400_000).Draw(t, "x")),
			Y: layout.Length(rapid.IntRange(-50_000, 300_000).Draw(t, "y"))}
		u.Place.Turn = layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
		dir := layout.Wall(rapid.IntRange(0, 3).Draw(t, "dir"))
		before := overlapping(p, barn(p), u)
		c, ok := Ahead(p, barn(p), u, dir)
		if !ok {
			return
		}
		p.SetPlace(barn(p), u, Slide(*u.Place, dir, c.Gap))
		for _, name := range overlapping(p, barn(p), u) {
			if c.Out && name == c.With {
				t.Fatalf("slid %v out of %s, but overlaps it still", c.Gap, name)
			}
			assert.Contains(t, before, name, "slid %v towards %s", c.Gap, c.With)
		}
	})
}

func TestBeside(t *testing.T) {
	p := trial()
	for _, c := range []struct {
		unit string
		dir  layout.Wall
		want string
	}{
		{"a", layout.Right, "b"}, {"b", layout.Left, "a"}, {"b", layout.Right, "e"},
		{"a", layout.Back, "c"}, {"c", layout.Front, "a"}, {"a", layout.Left, ""},
	} {
		got := ""
		if u := Beside(p, barn(p), p.Unit(c.unit), c.dir); u != nil {
			got = u.ID
		}
		assert.Equal(t, c.want, got, "%s of %s", c.dir, c.unit)
	}
}

func TestTurnedAboutTheMiddle(t *testing.T) {
	p := trial()
	u := p.Unit("a") // 73 x 122 at 0, 10
	got := Turned(u, *u.Place, 1, layout.Millimetres)
	assert.Equal(t, layout.Placement{On: "deck", At: layout.Point{X: -24 * mm, Y: 34 * mm}, Turn: 1}, got)
}

func TestTurningFourTimesIsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trial()
		u := &p.Units[rapid.IntRange(0, 2).Draw(t, "unit")]
		unit := rapid.SampledFrom([]layout.LengthUnit{layout.Millimetres, layout.Inches}).Draw(t, "in")
		by := layout.Turn(rapid.SampledFrom([]int{1, 3}).Draw(t, "by"))
		fine := Strides(unit)[0]
		u.Place.At.X = fine.From(0, rapid.Int64Range(-200, 200).Draw(t, "x"))
		u.Place.At.Y = fine.From(0, rapid.Int64Range(-200, 200).Draw(t, "y"))
		pl := *u.Place
		for range 4 {
			pl = Turned(u, pl, by, unit)
		}
		assert.Equal(t, *u.Place, pl)
	})
}

func TestOntoMovesAsLittleAsNeedBe(t *testing.T) {
	p := trial()
	shelf, _ := p.Board.Surface("shelf")
	c := p.Unit("c") // 60 x 60 at 10, 220
	got := Onto(c, *c.Place, shelf)
	assert.Equal(t, layout.Placement{On: "shelf", At: layout.Point{X: 100 * mm, Y: 220 * mm}}, got)
	assert.True(t, shelf.Rests(c, got))
	a := p.Unit("a")
	got = Onto(a, *a.Place, shelf)
	assert.Equal(t, layout.Placement{On: "shelf", At: a.Place.At}, got, "too deep for the shelf: the place stays")
}

func TestFirstPlaceFindsFreeRoom(t *testing.T) {
	p := trial()
	for _, id := range []string{"d", "f"} {
		u := p.Unit(id)
		pl := FirstPlace(p, barn(p), u)
		p.SetPlace(barn(p), u, pl)
		assert.Empty(t, overlapping(p, barn(p), u), id)
		s, ok := p.Board.Surface(pl.On)
		require.True(t, ok)
		assert.True(t, s.Rests(u, pl), id)
		if slot := p.SlotOf(barn(p), id); slot != nil {
			assert.True(t, slot.At.Contains(u.Base(pl)), id)
		}
	}
}

func TestFirstPlaceWithoutRoomIsStillAPlace(t *testing.T) {
	p := trial()
	u := p.Unit("d")
	u.Body = layout.Size{W: 900 * mm, D: 900 * mm, H: 20 * mm}
	assert.Equal(t, layout.DeckName, FirstPlace(p, barn(p), u).On)
}

// change makes one edit that the drawn numbers choose.
func change(t *rapid.T, h *History) {
	p := h.Plan()
	u := &p.Units[rapid.IntRange(0, len(p.Units)-1).Draw(t, "unit")]
	l := &p.Lineups[rapid.IntRange(0, len(p.Lineups)-1).Draw(t, "lineup")]
	kind := rapid.IntRange(0, 5).Draw(t, "kind")
	dir := layout.Wall(rapid.IntRange(0, 3).Draw(t, "dir"))
	h.Do(Step{What: fmt.Sprint(kind), Series: rapid.IntRange(0, 2).Draw(t, "series")}, func(q *layout.Plan) {
		u, l := q.Unit(u.ID), q.LineupNamed(l.Name)
		pl, ok := q.PlaceOf(l, u)
		switch {
		case kind == 0:
			u.Pinned = !u.Pinned
		case kind == 1:
			u.Mount = layout.Swap
		case !ok:
			q.SetPlace(l, u, FirstPlace(q, l, u))
		case kind == 2:
			q.SetPlace(l, u, Turned(u, pl, 1, q.LengthUnit))
		case kind == 3:
			q.SetPlace(l, u, Onto(u, pl, q.Board.Surfaces()[1]))
		default:
			q.SetPlace(l, u, Move(pl, dir, Strides(q.LengthUnit)[1]))
		}
	})
}

func TestUndoingAllGivesTheFirstPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := trial()
		h := New(first)
		for range rapid.IntRange(0, 40).Draw(t, "edits") {
			switch rapid.IntRange(0, 9).Draw(t, "what") {
			case 0:
				h.Undo()
			case 1:
				h.Redo()
			default:
				change(t, h)
			}
		}
		for ok := true; ok; {
			_, ok = h.Redo()
		}
		last := h.Plan()
		n := 0
		for _, ok := h.Undo(); ok; _, ok = h.Undo() {
			n++
		}
		assert.Equal(t, New(trial()).Plan(), h.Plan())
		assert.Equal(t, trial(), first, "the plan given was changed")
		assert.False(t, h.Dirty())
		for range n {
			h.Redo()
		}
		assert.Same(t, last, h.Plan())
	})
}

func TestASeriesIsTakenBackAsOne(t *testing.T) {
	h := New(trial())
	move := func(x layout.Length) func(*layout.Plan) {
		return func(p *layout.Plan) { p.Unit("a").Place.At.X = x }
	}
	h.Do(Step{What: "move", Series: 7}, move(1))
	h.Do(Step{What: "move", Series: 7}, move(2))
	assert.Equal(t, layout.Length(2), h.Plan().Unit("a").Place.At.X)
	h.Undo()
	assert.Equal(t, layout.Length(0), h.Plan().Unit("a").Place.At.X)
	_, ok := h.Undo()
	assert.False(t, ok)

	h.Do(Step{What: "move", Series: 8}, move(1))
	h.Do(Step{What: "move", Series: 8}, move(0))
	undo, redo := h.Next()
	assert.Empty(t, undo+redo, "a series that came back to its start is no edit")
}

func TestDirtyFollowsContent(t *testing.T) {
	h := New(trial())
	h.Do(Step{What: "pin"}, func(p *layout.Plan) { p.Unit("a").Pinned = true })
	assert.True(t, h.Dirty())
	saved := h.Plan()
	h.Do(Step{What: "unpin"}, func(p *layout.Plan) { p.Unit("a").Pinned = false })
	h.Saved(saved)
	assert.True(t, h.Dirty())
	h.Undo()
	assert.False(t, h.Dirty())
}

func TestHistoryIsBounded(t *testing.T) {
	h := New(trial())
	const edits = Depth + 2*slack
	for i := range edits {
		h.Do(Step{What: "move"}, func(p *layout.Plan) { p.Unit("a").Place.At.X = layout.Length(i + 1) })
	}
	n := 0
	for _, ok := h.Undo(); ok; _, ok = h.Undo() {
		n++
	}
	assert.GreaterOrEqual(t, n, Depth)
	assert.LessOrEqual(t, n, Depth+slack)
	assert.Equal(t, layout.Length(edits-n), h.Plan().Unit("a").Place.At.X)
}

// Where the body has reached an edge that nothing may pass, that is what it touches,
// though a unit lies beyond in its lane.
func TestAheadOfAnEdgeThatEndsAll(t *testing.T) {
	p := trial()
	p.Board.Overhang = layout.Edges{}
	l := barn(p)
	e, a := p.Unit("e"), p.Unit("a")
	pl, _ := p.PlaceOf(l, e)
	at, _ := p.PlaceOf(l, a)
	require.Zero(t, pl.At.Y)
	// a, which goes past the front edge now, is below e.
	at.At = layout.Point{X: pl.At.X, Y: -a.Body.D - 15*mm}
	p.SetPlace(l, a, at)
	got, ok := Ahead(p, l, e, layout.Front)
	require.True(t, ok)
	assert.Equal(t, "deck edge", got.With)
	assert.Zero(t, got.Gap)
}

// overlapping returns what the unit overlaps where it stands, in words.
func overlapping(p *layout.Plan, l *layout.Lineup, u *layout.Unit) []string {
	self, others := things(p, l, u.ID)
	var out []string
	for i := range others {
		if overlapAny(self, others[i].boxes) {
			out = append(out, others[i].name)
		}
	}
	return out
}

func overlapAny(as, bs []layout.Box) bool {
	for _, a := range as {
		for _, b := range bs {
			if a.Overlaps(b) {
				return true
			}
		}
	}
	return false
}

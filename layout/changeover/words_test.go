package changeover

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func textOf(c *Card) string {
	var out []string
	for i := range c.Steps {
		out = append(out, c.Steps[i].Text)
	}
	return strings.Join(out, "\n")
}

// What is not needed any more is put by, what is needed elsewhere is kept at
// hand, and what was not there is fetched.
func TestCablesArePutByKeptAndFetched(t *testing.T) {
	p := stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100))
	play(p, "two", map[string][2]int{"a": {350, 50}, "b": {220, 50}}, "a", "b")
	play(p, "one", map[string][2]int{"a": {350, 50}}, "a")
	for i := range p.Units {
		if p.Units[i].ID == "b" {
			p.Units[i].Draw = nil
		}
	}
	fewer := make2(t, p, "two", "one")
	assert.Regexp(t, `Unplug cable \S+ \d+ mm from Unit a out and Unit b in, and put it by\.`, textOf(fewer))
	for i := range fewer.Steps {
		s := &fewer.Steps[i]
		assert.Equal(t, s.Kind == Unplug && s.Sort == Patch, s.By, s.Text)
	}
	more := make2(t, p, "one", "two")
	assert.Regexp(t, `Take cable \S+ \d+ mm and plug it into Unit a out and Unit b in\.`, textOf(more))
	assert.Contains(t, textOf(more), "see that each still has power: Brick, Unit a.")

	p = stage()
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100), box("c", 60, 100))
	play(p, "here", map[string][2]int{"a": {350, 50}, "b": {220, 50}}, "a", "b")
	play(p, "there", map[string][2]int{"c": {350, 50}, "b": {220, 50}}, "c", "b")
	c := make2(t, p, "here", "there")
	assert.Regexp(t, `Unplug cable \S+ \d+ mm from Unit a out; its end in Unit b in stays\.`, textOf(c), "one end says enough")
	assert.NotContains(t, textOf(c), "put it by")
	assert.Contains(t, textOf(c), "see that Unit c has power, and the others still.")
}

// withShelf is a stage with a shelf 70 mm up over the middle, and b beneath it in
// one of two line-ups; others stand in front of it or beside it.
func withShelf(others ...layout.Unit) *layout.Plan {
	p := stage()
	p.Board.Risers = []layout.Riser{{Name: "balcony", At: layout.Rect{X0: 100 * mm, Y0: 120 * mm, X1: 360 * mm, Y1: 250 * mm}, Height: 80 * mm, Thickness: 9 * mm}}
	p.Units = append(p.Units, box("a", 60, 60), box("b", 60, 100))
	p.Units = append(p.Units, others...)
	play(p, "with", map[string][2]int{"a": {380, 50}, "b": {200, 130}}, "a", "b")
	play(p, "without", map[string][2]int{"a": {380, 50}}, "a")
	return p
}

func fixedAt(id string, w, d, x, y layout.Length) layout.Unit {
	u := box(id, w, d)
	u.Mount, u.Jacks, u.Draw = layout.Fixed, nil, nil
	u.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: x * mm, Y: y * mm}}
	return u
}

// A unit beneath a riser comes out where nothing stands in its way, to the front
// if it can, and goes in again there; where it cannot, the card says what is in
// the way.
func TestUnderARiser(t *testing.T) {
	front := fixedAt("front", 300, 40, 80, 0)
	back := fixedAt("back", 300, 20, 80, 270)
	left, right := fixedAt("left", 40, 100, 120, 130), fixedAt("right", 40, 100, 300, 130)
	for _, c := range []struct {
		others  []layout.Unit
		out, in string
	}{
		{nil, "Lift Unit b out from under the balcony.", "(slot all), in under the balcony."},
		{[]layout.Unit{front}, "under the balcony to the back.", "under the balcony from the back."},
		{[]layout.Unit{front, back}, "under the balcony to the left.", "under the balcony from the left."},
		{[]layout.Unit{front, back, left}, "under the balcony to the right.", "under the balcony from the right."},
		{[]layout.Unit{front, back, left, right}, "under the balcony, past Unit front (close: try it before the gig).", "under the balcony, past Unit front (close: try it before the gig)."},
	} {
		p := withShelf(c.others...)
		p.Units[0].Place.At.Y = 350 * mm
		assert.Contains(t, textOf(make2(t, p, "with", "without")), c.out)
		assert.Contains(t, textOf(make2(t, p, "without", "with")), c.in)
	}
	// A leg stands in the way like a unit.
	p := withShelf()
	p.Units[0].Place.At.Y = 350 * mm
	p.Board.Risers[0].Legs = []layout.Leg{{At: layout.Rect{X0: 100 * mm, Y0: 120 * mm, X1: 360 * mm, Y1: 125 * mm}}}
	assert.Contains(t, textOf(make2(t, p, "with", "without")), "to the back.")
}

// What stands before a unit beneath a riser goes first, and comes last.
func TestBeneathARiserLast(t *testing.T) {
	p := withShelf(box("c", 60, 60))
	p.Lineups[0].Fill["all"] = []string{"a", "b", "c"}
	p.Lineups[0].Place["c"] = layout.Placement{On: layout.DeckName, At: layout.Point{X: 200 * mm, Y: 20 * mm}}
	order := func(c *Card, k Kind) (ids []string) {
		for i := range c.Steps {
			if c.Steps[i].Kind == k {
				ids = append(ids, c.Steps[i].Unit)
			}
		}
		return ids
	}
	out, in := make2(t, p, "with", "without"), make2(t, p, "without", "with")
	require.Equal(t, []string{"c", "b"}, order(out, Lift))
	require.Equal(t, []string{"b", "c"}, order(in, Place))
	assert.Contains(t, textOf(out), "Lift Unit b out from under the balcony.")
}

// An adaptor is like the mains: out before any lead is loose, in last of all.
func TestAdaptorOutFirstAndInLast(t *testing.T) {
	p := stage()
	p.Slots = append(p.Slots, layout.Slot{Name: "juice", On: layout.DeckName, At: layout.Rect{Y0: 300 * mm, X1: 460 * mm, Y1: 400 * mm}})
	p.Units = []layout.Unit{box("a", 60, 100), box("b", 60, 100)}
	for _, id := range []string{"small", "large"} {
		u := brick(2)
		u.ID, u.Label, u.Mount, u.Place = id, id, layout.Swap, nil
		u.Jacks = append(u.Jacks, layout.Jack{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: 20 * mm, Height: 20 * mm, Plug: barrel})
		p.Units = append(p.Units, u)
	}
	play(p, "one", map[string][2]int{"a": {350, 50}, "small": {100, 320}}, "a")
	play(p, "two", map[string][2]int{"b": {350, 50}, "large": {100, 320}}, "b")
	p.Lineups[0].Fill["juice"], p.Lineups[1].Fill["juice"] = []string{"small"}, []string{"large"}
	c := make2(t, p, "one", "two")
	var unplug, power []string
	for i := range c.Steps {
		switch s := &c.Steps[i]; s.Kind {
		case Unplug:
			unplug = append(unplug, s.Text)
		case Power:
			power = append(power, s.Text)
		}
	}
	require.NotEmpty(t, unplug)
	require.NotEmpty(t, power)
	assert.Equal(t, "Unplug the adaptor from small dc.", unplug[0])
	assert.Equal(t, "Plug the adaptor into large dc.", power[len(power)-1])
}

// Beneath a riser a unit is slid along where nothing is in its way.
func TestSlidingBeneathARiser(t *testing.T) {
	p := withShelf()
	p.Lineups[1].Fill["all"] = []string{"a", "b"}
	p.Lineups[1].Place["b"] = layout.Placement{On: layout.DeckName, At: layout.Point{X: 270 * mm, Y: 130 * mm}}
	assert.Contains(t, textOf(make2(t, p, "with", "without")), "Slide Unit b 70 mm to the right, beneath the balcony, to stand on the deck at 270, 130 mm (slot all).")
	p.Units = append(p.Units, fixedAt("post", 5, 20, 264, 130))
	assert.Contains(t, textOf(make2(t, p, "with", "without")), "Move Unit b out from under the balcony, 70 mm to the right,")
	p.Lineups[1].Place["b"] = layout.Placement{On: layout.DeckName, At: layout.Point{X: 270 * mm, Y: 130 * mm}, Turn: 2}
	c := textOf(make2(t, p, "with", "without"))
	assert.Contains(t, c, ", 70 mm to the right, to stand on the deck at 270, 130 mm, turned 180 degrees")
	assert.NotContains(t, c, "clockwise", "once is enough")
}

// Places past the left or front edge are less than 0, which is told; a card
// without any placing tells nothing of places.
func TestPlacesAreExplained(t *testing.T) {
	p := stage()
	p.Board.Overhang = layout.Edges{Left: 30 * mm}
	p.Units = append(p.Units, box("a", 60, 100), box("b", 60, 100))
	play(p, "one", map[string][2]int{"a": {300, 50}, "b": {100, 50}}, "a", "b")
	play(p, "over", map[string][2]int{"a": {300, 50}, "b": {-20, 50}}, "a", "b")
	play(p, "gone", map[string][2]int{"a": {300, 50}}, "a")
	assert.Contains(t, make2(t, p, "one", "over").PlacesAre(), "less than 0")
	back := make2(t, p, "over", "one").PlacesAre()
	assert.NotContains(t, back, "less than 0")
	assert.Contains(t, back, "front left corner")
	assert.Empty(t, make2(t, p, "one", "gone").PlacesAre())
}

// What is in a jack that no supply and no chain says anything of is named by the
// jack alone.
func TestWhatIsInAJack(t *testing.T) {
	p := stage()
	p.Units = []layout.Unit{box("a", 60, 100)}
	play(p, "one", map[string][2]int{"a": {300, 50}}, "a")
	play(p, "two", map[string][2]int{"a": {200, 50}}, "a")
	text := textOf(make2(t, p, "one", "two"))
	assert.Contains(t, text, "Unplug what is in Unit a dc.")
	assert.Contains(t, text, "Plug what belongs there into Unit a dc.")
}

package wiring

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
)

// forms are the catalog's plugs, as a plan that is read has them.
func forms() []layout.PlugForm {
	var out []layout.PlugForm
	for _, f := range catalog.Builtin().Plugs() {
		out = append(out, f.PlugForm)
	}
	return out
}

// shop is a board of two units, each with the plugs that the catalog gives by
// default, a on the right of b with so much between their walls.
func shop(t require.TestingT, gap layout.Length) *layout.Plan {
	usual, ok := catalog.Builtin().DefaultPlug(layout.Phone)
	require.True(t, ok)
	p := pair()
	p.PlugForms = forms()
	p.Board.Thickness = 15 * mm
	p.Board.PlugRoom = layout.Edges{Left: 70 * mm, Right: 70 * mm, Back: 70 * mm}
	for i := range p.Units {
		for k := range p.Units[i].Jacks {
			p.Units[i].Jacks[k].Plug = usual
		}
	}
	p.Units[0].Place.At = layout.Point{X: 170*mm + gap, Y: 10 * mm}
	p.Units[1].Place.At = layout.Point{X: 100 * mm, Y: 10 * mm}
	return p
}

// seatOf returns the name of a jack's plug and its leg.
func seatOf(p *layout.Plan, unit, jack string) string {
	j := p.Unit(unit).Jack(jack)
	s := j.Plug.Name
	if j.Plug.Leg > 0 && j.Leg != "" && j.Leg != layout.LegUp {
		s += " " + string(j.Leg)
	}
	return s
}

func TestUsualPlugsStayWhereTheySeat(t *testing.T) {
	p := shop(t, 36*mm) // two right-angle plugs of 18 mm
	before := p.Clone()
	Seat(p)
	assert.Equal(t, before.Units, p.Units)
	assert.Zero(t, Misseated(p))
}

// Out of the wall a right-angle plug takes 18 mm and a flat one 13: with 26 mm
// between the two units only flat ones go nose to nose.
func TestOnlyFlatSeats(t *testing.T) {
	p := shop(t, 26*mm)
	for _, u := range []string{"a", "b"} {
		for k := range p.Unit(u).Jacks {
			p.Unit(u).Jacks[k].LegGiven = true // or a leg could turn aside
		}
	}
	assert.Equal(t, 2, len(p.Units))
	assert.Positive(t, Misseated(p))
	Seat(p)
	assert.Equal(t, "phone-flat", seatOf(p, "a", "out"))
	assert.Equal(t, "phone-flat", seatOf(p, "b", "in"))
	assert.Equal(t, "phone-right-angle", seatOf(p, "a", "in"), "nothing is in its way")
	assert.Zero(t, Misseated(p))
	assert.Empty(t, codesOf(Wire(p), PlugSeat))

	cs := Cables(p, &p.Lineups[0])
	assert.Equal(t, [2]string{"phone-flat", "phone-flat"}, cs[1].Plugs)
	assert.Equal(t, [2]string{"", "phone-right-angle"}, cs[0].Plugs)

	t.Run("and back when there is room", func(t *testing.T) {
		q := p.Clone()
		q.Unit("a").Place.At.X += 40 * mm
		Seat(q)
		assert.Equal(t, "phone-right-angle", seatOf(q, "a", "out"))
		assert.Equal(t, layout.Seat{}, q.Unit("a").Jack("out").Usual)
		assert.Equal(t, "phone-flat", seatOf(p, "a", "out"), "clones share no jacks")
	})
}

// A jack 8 mm above the deck: flat plugs are 20 mm wide and would reach below
// it, straight ones too long for what is between; a leg along the wall hits the
// posts on both sides. Only a right-angle plug with its leg up is left.
func TestOnlyRightAngleWithItsLegUpSeats(t *testing.T) {
	p := shop(t, 40*mm)
	a := p.Unit("a").Jack("out")
	a.Height, a.Leg = 8*mm, layout.LegLeft // the form's leg is along the wall
	a.Leg = layout.LegFront
	x := p.Units[0].Place.At.X
	y := 70 * mm // of the jack's axis
	for _, at := range []layout.Length{y - 20*mm, y + 12*mm} {
		p.Board.Fixtures = append(p.Board.Fixtures, layout.Fixture{Name: "post",
			Box: layout.BoxOn(layout.RectAt(layout.Point{X: x - 15*mm, Y: at}, 10*mm, 8*mm), 0, 60*mm)})
	}
	Seat(p)
	assert.Equal(t, "phone-right-angle", seatOf(p, "a", "out"))
	assert.Equal(t, layout.LegUp, p.Unit("a").Jack("out").Leg)
	assert.Equal(t, layout.LegFront, p.Unit("a").Jack("out").Usual.Leg)
	assert.Zero(t, Misseated(p))
	cs := Cables(p, &p.Lineups[0])
	assert.Equal(t, layout.LegUp, cs[1].Legs[0])
}

// What the plan itself says stays, though it does not seat, and is told.
func TestAPlugThatThePlanGivesStays(t *testing.T) {
	p := shop(t, 40*mm)
	straight, ok := catalog.Builtin().Plug("phone-straight")
	require.True(t, ok)
	j := p.Unit("a").Jack("out")
	j.Plug, j.PlugGiven = straight.PlugForm, true
	Seat(p)
	assert.Equal(t, "phone-straight", seatOf(p, "a", "out"))
	issues := codesOf(Wire(p), PlugSeat)
	require.NotEmpty(t, issues)
	assert.Contains(t, issues[0].Text, "phone-straight")
	assert.Contains(t, issues[0].Text, "A plug of the form phone-flat seats there.")
}

func codesOf(r *Result, code string) (out []Issue) {
	for _, i := range r.Issues {
		if i.Code == code {
			out = append(out, i)
		}
	}
	return out
}

// crowd is two small units with plugs and a third without, close together on a
// small board, in one line-up or in two.
func crowd(t *rapid.T) *layout.Plan {
	mmOf := func(lo, hi int, what string) layout.Length {
		return layout.Length(rapid.IntRange(lo, hi).Draw(t, what)) * mm
	}
	p := &layout.Plan{
		Board:     layout.Board{W: 260 * mm, D: 150 * mm, Thickness: 12 * mm, PlugRoom: layout.Edges{Left: 15 * mm, Right: 15 * mm, Back: 15 * mm}},
		Lineups:   []layout.Lineup{{Name: "barn"}, {Name: "pit"}},
		PlugForms: forms(),
	}
	stops := []layout.Stop{{Unit: layout.Instrument}}
	usual, _ := catalog.Builtin().DefaultPlug(layout.Phone)
	for i, id := range []string{"a", "b", "c"} {
		u := unit(id, 0)
		u.Body = layout.Size{W: 50 * mm, D: 60 * mm, H: 45 * mm}
		for k := range u.Jacks {
			j := &u.Jacks[k]
			j.Plug, j.Along, j.Height = usual, mmOf(5, 55, "along"), mmOf(6, 30, "height")
			j.LegGiven = rapid.IntRange(0, 3).Draw(t, "leg given") == 0
		}
		at := layout.Point{X: mmOf(0, 20, "x") + layout.Length(i)*mmOf(60, 80, "step"), Y: mmOf(0, 40, "y")}
		u.Place = &layout.Placement{On: layout.DeckName, Turn: layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn")), At: at}
		p.Units = append(p.Units, u)
		if id != "c" {
			stops = append(stops, layout.Stop{Unit: id})
		}
	}
	p.Chain.Stops = append(stops, layout.Stop{Unit: layout.Amp})
	if rapid.Bool().Draw(t, "two line-ups") {
		p.Slots = []layout.Slot{{Name: "s", On: layout.DeckName, At: p.Board.Rect()}}
		p.Chain.Stops[2] = layout.Stop{Slot: "s"}
		p.Lineups[0].Fill = map[string][]string{"s": {"b"}}
		p.Lineups[1].Fill = map[string][]string{"s": {"b"}}
		other := *p.Units[1].Place
		other.At.Y += mmOf(1, 40, "moved")
		p.Lineups[1].Place = map[string]layout.Placement{"b": other}
	}
	return p
}

// plainCost adds up, line-up by line-up, what plugs meet as the plan has them
// now; a thing met in two line-ups at the same places counts once.
func plainCost(p *layout.Plan) (cross, own int) {
	seen := map[string]bool{}
	meet := func(same bool, what ...any) {
		if k := fmt.Sprint(what...); !seen[k] {
			seen[k] = true
			if same {
				own++
			} else {
				cross++
			}
		}
	}
	for i := range p.Lineups {
		placed, _ := p.Standings(&p.Lineups[i])
		for a := range placed {
			s := &placed[a]
			for n, x := range s.Boxes {
				if x.Part != layout.PlugPart {
					continue
				}
				if !p.Board.Rect().Grow(p.Board.PlugRoom).Contains(x.Box.Rect()) || x.Box.Z0 < 0 && x.Box.Rect().Overlaps(p.Board.Rect()) {
					meet(false, s.Unit.ID, x.Jack, s.Place, "edge")
				}
				for _, d := range p.Board.DeckSlabs() {
					if d.Overlaps(x.Box) {
						meet(false, s.Unit.ID, x.Jack, s.Place, "deck")
					}
				}
				for m, y := range s.Boxes[:n] {
					if y.Part == layout.PlugPart && x.Box.Overlaps(y.Box) {
						meet(true, s.Unit.ID, x.Jack, s.Place, m)
					}
				}
				for b := range placed {
					o := &placed[b]
					for m, y := range o.Boxes {
						if b != a && (y.Part != layout.PlugPart || b < a) && x.Box.Overlaps(y.Box) {
							meet(false, s.Unit.ID, x.Jack, s.Place, o.Unit.ID, m, o.Place)
						}
					}
					for m, y := range o.Unit.Treads(o.Place.Turn) {
						if x.Box.Overlaps(y.Move(o.Place.At, o.Z)) {
							meet(a == b, s.Unit.ID, x.Jack, s.Place, o.Unit.ID, "tread", m, o.Place)
						}
					}
				}
			}
		}
	}
	return cross, own
}

// The choice is the best of all: every choice is tried here, and its cost added
// up from the plan's own boxes.
func TestSeatIsTheBestOfAllChoices(t *testing.T) {
	better, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		if tried >= 40 {
			return // each takes a while
		}
		tried++
		p := crowd(t)
		s := newSeats(p, 1<<40)
		s.choose()
		// What choose may take: where nothing seats it keeps what is usual.
		var jacks []*layout.Jack
		var choices [][]layout.Seat
		got := int64(0)
		for _, v := range s.vars {
			s.open(v)
			jacks = append(jacks, v.jack())
			choices = append(choices, v.choices)
		}
		set := func(n, c int) int64 {
			jacks[n].Plug, jacks[n].Leg = choices[n][c].Plug, choices[n][c].Leg
			return rankOf(choices[n], c)
		}
		cost := func(rank int64) int64 {
			cross, own := plainCost(p)
			return int64(cross)*crossCost + int64(own)*ownCost + rank
		}
		usual := cost(0)
		for n, v := range s.vars {
			got += set(n, v.cur)
		}
		got = cost(got)
		least := int64(math.MaxInt64)
		var vary func(n int, rank int64)
		vary = func(n int, rank int64) {
			if n == len(jacks) {
				least = min(least, cost(rank))
				return
			}
			for c := range choices[n] {
				vary(n+1, rank+set(n, c))
			}
		}
		vary(0, 0)
		require.Equal(t, least, got, "as usual %d", usual)
		if got < usual {
			better++
		}
	})
	assert.Positive(t, better, "some boards need other plugs than the usual")
}

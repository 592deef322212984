package mount

import (
	"testing"

	"footplank/layout"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const mm = layout.Millimetre

func rect(x0, y0, x1, y1 layout.Length) layout.Rect {
	return layout.Rect{X0: x0 * mm, Y0: y0 * mm, X1: x1 * mm, Y1: y1 * mm}
}

func planOf(units ...layout.Unit) *layout.Plan {
	return &layout.Plan{
		Board:   layout.Board{W: 400 * mm, D: 300 * mm, Thickness: 15 * mm},
		Units:   units,
		Lineups: []layout.Lineup{{Name: "one"}, {Name: "two"}},
	}
}

func unit(id string, w, d, x, y layout.Length, turn layout.Turn) layout.Unit {
	return layout.Unit{ID: id, Mount: layout.Fixed, Mass: 400 * layout.Gram,
		Body:  layout.Size{W: w * mm, D: d * mm, H: 50 * mm},
		Place: &layout.Placement{On: layout.DeckName, At: layout.Point{X: x * mm, Y: y * mm}, Turn: turn}}
}

func TestKindsAndLineups(t *testing.T) {
	fixed, swap := unit("f", 70, 120, 0, 0, 0), unit("s", 70, 120, 100, 0, 0)
	swap.Mount = layout.Swap
	p := planOf(fixed, swap)
	p.Slots = []layout.Slot{{Name: "slot", On: layout.DeckName, At: rect(100, 0, 300, 200)}}
	p.Lineups[0].Fill = map[string][]string{"slot": {"s"}}
	p.Lineups[1].Fill = map[string][]string{"slot": {"s"}}
	p.Lineups[1].Place = map[string]layout.Placement{"s": {On: layout.DeckName, At: layout.Point{X: 200 * mm}}}
	all := Lay(p).Pieces
	require.Len(t, all, 8)
	for _, c := range []struct {
		i            int
		unit, lineup string
		kind         Kind
	}{{0, "f", "", Interlock}, {1, "f", "", Interlock}, {2, "s", "one", HookAndLoop}, {5, "s", "two", HookAndLoop}} {
		assert.Equal(t, c.unit, all[c.i].Unit)
		assert.Equal(t, c.lineup, all[c.i].Lineup)
		assert.Equal(t, c.kind, all[c.i].Kind)
	}
	assert.Equal(t, 100*mm, all[5].OnBoard.X0-all[2].OnBoard.X0)
	assert.Equal(t, all[2].UnderUnit, all[5].UnderUnit)
}

// The classic mistake is to forget that a base seen from below is mirrored: a
// strip at the left of a unit, looked at from above, is at the right of its
// base.
func TestUnderIsMirrored(t *testing.T) {
	u := unit("a", 70, 120, 100, 50, 0)
	assert.Equal(t, rect(50, 4, 66, 24), Under(&u, *u.Place, rect(104, 54, 120, 74)))
	// Turned clockwise by a quarter the front wall looks left: what is at
	// the board's left is at the unit's front, what is in front on the board
	// is at the unit's right, and at its left when it is turned over.
	u.Place.Turn = 1
	assert.Equal(t, rect(4, 4, 24, 14), Under(&u, *u.Place, rect(104, 54, 114, 74)))
}

func anyPlan(t *rapid.T) *layout.Plan {
	l := func(lo, hi int64, name string) layout.Length {
		return layout.Length(rapid.Int64Range(lo*1000, hi*1000).Draw(t, name))
	}
	u := unit("a", 0, 0, 0, 0, layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn")))
	u.Body.W, u.Body.D = l(1, 300, "w"), l(1, 300, "d")
	u.Place.At = layout.Point{X: l(-150, 450, "x"), Y: l(-150, 350, "y")}
	u.Mass = layout.Mass(rapid.Int64Range(0, 3_000_000).Draw(t, "mass"))
	if rapid.Bool().Draw(t, "swap") {
		u.Mount = layout.Swap
	}
	p := planOf(u)
	switch rapid.IntRange(0, 2).Draw(t, "board") {
	case 1:
		p.Board.Kind = layout.Rails
		for y := l(-20, 40, "first"); y < 350*mm; y += l(30, 120, "pitch") {
			r := rect(0, 0, 400, 0)
			r.Y0, r.Y1 = y, y+l(5, 29, "depth")
			p.Board.Rails = append(p.Board.Rails, layout.Rail{At: r})
		}
	case 2:
		p.Board.Risers = []layout.Riser{{Name: "shelf", At: rect(50, 150, 350, 290), Height: 50 * mm, Thickness: 9 * mm}}
		p.Units[0].Place.On = "shelf"
	}
	return p
}

// Every piece lies on its unit's base, on the surface and on a rail where there
// are rails; it is no wider than its stock; no two overlap; both frames show
// the same strip; and a base that bears at all gets one.
func TestPiecesLieWhereTheyHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		u := &p.Units[0]
		base := u.Base(*u.Place)
		s, _ := p.Board.Surface(u.Place.On)
		pieces := Lay(p).Pieces
		for i, a := range pieces {
			if a.OnBoard.Empty() || !base.Contains(a.OnBoard) || !s.At.Contains(a.OnBoard) {
				t.Fatalf("piece %v is not on the base %v and the surface %v", a.OnBoard, base, s.At)
			}
			on := len(s.Rails) == 0
			for _, r := range s.Rails {
				on = on || r.At.Contains(a.OnBoard)
			}
			if !on {
				t.Fatalf("piece %v is on no rail", a.OnBoard)
			}
			if min(a.OnBoard.W(), a.OnBoard.D()) > a.Width {
				t.Fatalf("piece %v is wider than its stock, %v", a.OnBoard, a.Width)
			}
			for _, b := range pieces[:i] {
				if a.OnBoard.Overlaps(b.OnBoard) {
					t.Fatalf("pieces %v and %v overlap", a.OnBoard, b.OnBoard)
				}
			}
			if back := above(u, *u.Place, a.UnderUnit); back != a.OnBoard {
				t.Fatalf("piece %v comes back from below as %v", a.OnBoard, back)
			}
		}
		if bears := base.Intersect(s.At); s.Rails == nil && bears.W() >= 20*mm && bears.D() >= 20*mm && len(pieces) == 0 {
			t.Fatalf("a base that bears on %v has no piece", bears)
		}
	})
}

// above is the way back from the base to the board, written apart from Under:
// corner by corner, mirrored and then turned as the unit's own points are.
func above(u *layout.Unit, pl layout.Placement, r layout.Rect) layout.Rect {
	a := pl.Turn.Point(layout.Point{X: u.Body.W - r.X0, Y: r.Y0}, u.Body.W, u.Body.D).Add(pl.At)
	b := pl.Turn.Point(layout.Point{X: u.Body.W - r.X1, Y: r.Y1}, u.Body.W, u.Body.D).Add(pl.At)
	return layout.Rect{X0: min(a.X, b.X), Y0: min(a.Y, b.Y), X1: max(a.X, b.X), Y1: max(a.Y, b.Y)}
}

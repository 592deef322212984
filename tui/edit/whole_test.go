package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
)

func form(name string) (layout.Unit, *layout.Unit) {
	f, ok := catalog.Builtin().Unit(name)
	if !ok {
		panic(name)
	}
	u := f.Template()
	u.ID, u.Label, u.Form, u.Mount = name, name, name, layout.Fixed
	return u, &f.Unit
}

// Whatever a tape measure says, what is in the walls and on the base stays there,
// and measuring the form's own size again gives the form.
func TestResizeKeepsAllOnTheBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := catalog.Builtin().Units()
		u, f := form(all[rapid.IntRange(0, len(all)-1).Draw(t, "form")].Name)
		side := func(name string, low, high int) layout.Length {
			return layout.Length(rapid.IntRange(low, high).Draw(t, name)) * mm
		}
		to := layout.Size{W: side("w", 20, 400), D: side("d", 20, 400), H: side("h", 10, 200)}
		Resize(&u, to, f)
		if u.Body != to || u.Overall.W < to.W || u.Overall.D < to.D || u.Overall.H < to.H {
			t.Fatalf("body %v, overall %v, want %v", u.Body, u.Overall, to)
		}
		for _, j := range u.Jacks {
			long := to.W
			if j.Wall == layout.Left || j.Wall == layout.Right {
				long = to.D
			}
			if j.Along > long || j.Height > u.Height() {
				t.Fatalf("jack %s is at %v, %v on a body of %v", j.ID, j.Along, j.Height, to)
			}
		}
		for _, s := range u.Switches {
			if s.At.X > to.W || s.At.Y > to.D {
				t.Fatalf("switch at %v on a body of %v", s.At, to)
			}
		}
		for _, s := range u.OnBase {
			if !(layout.Rect{X1: to.W, Y1: to.D}).Contains(s.At) {
				t.Fatalf("%s at %v under a body of %v", s.Kind, s.At, to)
			}
		}
		for i := range f.Jacks {
			if f.Jacks[i].Along > f.Body.W && f.Jacks[i].Along > f.Body.D {
				t.Fatal("the form itself was changed")
			}
		}
	})
}

func TestResizeAsTheFormIs(t *testing.T) {
	u, f := form("compact")
	was := u
	Resize(&u, u.Body, f)
	assert.Equal(t, was, u)
}

func TestCopyUnit(t *testing.T) {
	p := trial()
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Slot: "colour"}, {Unit: layout.Amp}}
	id, err := CopyUnit(p, "f")
	require.NoError(t, err)
	assert.Equal(t, "f-2", id)
	assert.Equal(t, "Unit f 2", p.Unit(id).Label)
	assert.Equal(t, []string{"e", "f", "f-2"}, p.Lineups[0].Fill["colour"])
	assert.Equal(t, []string{"f", "f-2"}, p.Lineups[1].Fill["colour"])
	_, err = CopyUnit(p, "f")
	require.NoError(t, err)
	assert.Equal(t, "Unit f 3", p.Unit("f-3").Label)
	_, err = CopyUnit(p, "nobody")
	assert.Error(t, err)
}

func chained() *layout.Plan {
	p := trial()
	for i := range p.Units {
		p.Units[i].Jacks = []layout.Jack{{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In},
			{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out}}
	}
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "a"}, {Slot: "colour"}, {Unit: layout.Amp}}
	return p
}

func order(p *layout.Plan) (out []string) {
	for _, s := range p.Chain.Stops {
		out = append(out, s.Unit+s.Slot)
	}
	return out
}

func TestChain(t *testing.T) {
	p := chained()
	require.NoError(t, Join(p, "b"))
	assert.Equal(t, []string{"instrument", "a", "colour", "b", "amp"}, order(p))
	require.NoError(t, Join(p, "b"), "once is enough")
	assert.Error(t, Join(p, "f"), "through its slot")
	at, err := MoveStop(p, 3, -2)
	require.NoError(t, err)
	assert.Equal(t, 1, at)
	assert.Equal(t, []string{"instrument", "b", "a", "colour", "amp"}, order(p))
	_, err = MoveStop(p, 1, -1)
	assert.ErrorContains(t, err, "first")
	_, err = MoveStop(p, 3, 1)
	assert.ErrorContains(t, err, "last")
	_, err = MoveStop(p, 0, 1)
	assert.Error(t, err)
	SetEnd(p, layout.Desk)
	require.NoError(t, RemoveStop(p, 2))
	assert.Equal(t, []string{"instrument", "b", "colour", "desk"}, order(p))
	var left []string
	for _, u := range Unpassed(p) {
		left = append(left, u.ID)
	}
	assert.Equal(t, []string{"a", "c", "d"}, left)
	require.NoError(t, SetStop(p, 1, "in", "send"))
	assert.Equal(t, layout.Stop{Unit: "b", In: "in", Out: "send"}, p.Chain.Stops[1])
	require.NoError(t, SetStop(p, 1, "in", "out"))
	assert.Equal(t, layout.Stop{Unit: "b"}, p.Chain.Stops[1], "the usual jacks need no words")
	Leave(p, "b")
	assert.Equal(t, []string{"instrument", "colour", "desk"}, order(p))
}

func TestFillIsInOrder(t *testing.T) {
	p := chained()
	require.NoError(t, Fill(p, "pit", "colour", "e", true, 0))
	assert.Equal(t, []string{"e", "f"}, p.Lineups[1].Fill["colour"])
	require.NoError(t, Fill(p, "pit", "colour", "e", true, 1))
	assert.Equal(t, []string{"f", "e"}, p.Lineups[1].Fill["colour"])
	require.NoError(t, Fill(p, "pit", "colour", "f", false, 0))
	assert.Equal(t, []string{"e"}, p.Lineups[1].Fill["colour"])
	assert.Error(t, Fill(p, "nowhere", "colour", "f", true, 0))
}

// Whatever size the board gets, all that is on it stays on it.
func TestBoardSizeKeepsItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trial()
		if rapid.Bool().Draw(t, "rails") {
			SetKind(p, layout.Rails)
		}
		w := layout.Length(rapid.IntRange(50, 900).Draw(t, "w")) * mm
		d := layout.Length(rapid.IntRange(50, 900).Draw(t, "d")) * mm
		SetBoardSize(p, w, d)
		board := p.Board.Rect()
		for i, r := range p.Board.Rails {
			if !board.Contains(r.At) || r.At.W() != w {
				t.Fatalf("rail %v on a board of %v", r.At, board)
			}
			for _, o := range p.Board.Rails[:i] {
				if o.At.Overlaps(r.At) {
					t.Fatalf("rails %v and %v", o.At, r.At)
				}
			}
		}
		for _, r := range p.Board.Risers {
			if !board.Contains(r.At) {
				t.Fatalf("riser %v on a board of %v", r.At, board)
			}
		}
		for _, s := range p.Slots {
			f, _ := p.Board.Surface(s.On)
			if !f.At.Grow(f.Overhang).Contains(s.At) {
				t.Fatalf("slot %v on a board of %v", s.At, board)
			}
		}
	})
}

func TestTakeBoard(t *testing.T) {
	p := trial()
	p.Unit("c").Place.On = "shelf"
	b, ok := catalog.Builtin().Board("solid-small")
	require.True(t, ok)
	require.NoError(t, TakeBoard(p, b.Board))
	assert.Empty(t, p.Board.Risers)
	assert.Nil(t, p.Unit("c").Place, "what stood on the riser stands nowhere")
	assert.True(t, p.Board.Rect().Grow(p.Board.Overhang).Contains(p.Slots[0].At))
	b, _ = catalog.Builtin().Board("solid-riser")
	require.NoError(t, TakeBoard(p, b.Board))
	require.NotEmpty(t, p.Board.Risers[0].Legs)
	p.Board.Risers[0].Legs[0].At.X0++
	again, _ := catalog.Builtin().Board("solid-riser")
	assert.NotEqual(t, p.Board.Risers[0].Legs, again.Board.Risers[0].Legs, "the catalog's own board stays as it is")
}

func TestPlugsGivenAndLeft(t *testing.T) {
	c := catalog.Builtin()
	u, f := form("compact")
	was := *u.Jack("in")
	require.NoError(t, SetPlug(&u, "in", "phone-straight", f, c))
	assert.True(t, u.Jack("in").PlugGiven)
	assert.False(t, f.Jack("in").PlugGiven, "the form's jacks are not touched")
	require.NoError(t, SetLeg(&u, "in", layout.LegDown, f))
	require.NoError(t, SetLeg(&u, "in", "", f))
	require.NoError(t, SetPlug(&u, "in", "", f, c))
	assert.Equal(t, was, *u.Jack("in"))
	assert.Error(t, SetPlug(&u, "in", "dc-straight", f, c), "a plug of another kind")
}

func TestCurrentNeedsAJack(t *testing.T) {
	u, _ := form("loop-box")
	u.Draw = nil
	u.Jacks = u.Jacks[:2]
	SetCurrent(&u, 25, catalog.Builtin())
	require.NotNil(t, u.PowerIn())
	assert.Equal(t, layout.Back, u.PowerIn().Wall)
	SetCurrent(&u, 0, catalog.Builtin())
	assert.Nil(t, u.Draw)
}

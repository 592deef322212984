package arrange

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/wiring"
	"footplank/pack"
)

// bench is a board that two units stand on beside each other, with the catalog's
// plugs to choose from and so much width to spare.
func bench(t require.TestingT, spare layout.Length) *layout.Plan {
	p := sideBySide()
	for _, f := range catalog.Builtin().Plugs() {
		p.PlugForms = append(p.PlugForms, f.PlugForm)
	}
	usual, ok := catalog.Builtin().DefaultPlug(layout.Phone)
	require.True(t, ok)
	for i := range p.Units {
		for k := range p.Units[i].Jacks {
			p.Units[i].Jacks[k].Plug = usual
			p.Units[i].Jacks[k].LegGiven = true
		}
	}
	p.Board.W = 140*mm + spare
	return p
}

// sideBySide is two units 70 mm wide whose plugs must go nose to nose, for the board
// is only as deep as they are. The outer plugs stand past its edges.
func sideBySide() *layout.Plan {
	p := &layout.Plan{
		Board: layout.Board{D: 120 * mm, Kind: layout.Solid, Thickness: 15 * mm,
			PlugRoom: layout.Edges{Left: 20 * mm, Right: 20 * mm, Back: 20 * mm}},
		Chain:   layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Unit: "a"}, {Unit: "b"}, {Unit: layout.Amp}}},
		Lineups: []layout.Lineup{{Name: "all"}},
		Limits:  layout.Limits{Reach: 60 * mm},
	}
	for _, id := range []string{"a", "b"} {
		u := box(id, 70, 120, layout.Fixed)
		u.Draw, u.Jacks = nil, u.Jacks[:2]
		p.Units = append(p.Units, u)
	}
	return p
}

func TestArrangeChoosesPlugs(t *testing.T) {
	for _, c := range []struct {
		name   string
		spare  layout.Length
		change func(p *layout.Plan)
		want   pack.Verdict
		plugs  string // between the two
	}{
		{"usual", 36 * mm, nil, pack.Fits, "phone-right-angle"},
		{"only flat ones", 26 * mm, nil, pack.Fits, "phone-flat"},
		{"no plug is so flat", 26*mm - 1, nil, pack.Impossible, ""},
		{"the plan forces straight ones", 100 * mm, force, pack.Impossible, ""},
		{"and there is room for them", 124 * mm, force, pack.Fits, "phone-straight"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := bench(t, c.spare)
			if c.change != nil {
				c.change(p)
			}
			res, err := Arrange(context.Background(), p, steps())
			require.NoError(t, err)
			require.Equal(t, c.want, res.Verdict, res.Why)
			if c.want != pack.Fits {
				assert.NotEmpty(t, res.Why)
				return
			}
			requireSound(t, res.Plan)
			out, in := res.Plan.Unit("a").Jack("out"), res.Plan.Unit("b").Jack("in")
			if res.Plan.Unit("a").Place.At.X < res.Plan.Unit("b").Place.At.X {
				out, in = res.Plan.Unit("b").Jack("out"), res.Plan.Unit("a").Jack("in")
			}
			assert.Equal(t, c.plugs, out.Plug.Name)
			assert.Equal(t, c.plugs, in.Plug.Name)

			again := res.Plan.Clone()
			wiring.Seat(again)
			assert.Equal(t, res.Plan.Units, again.Units, "read again it has the same plugs")
		})
	}
}

// force makes the plan ask for straight plugs between the two units.
func force(p *layout.Plan) {
	straight, _ := catalog.Builtin().Plug("phone-straight")
	for _, j := range []*layout.Jack{p.Unit("a").Jack("out"), p.Unit("b").Jack("in")} {
		j.Plug, j.PlugGiven = straight.PlugForm, true
	}
}

// Under a shelf 60 mm high the plugs of a unit 50 mm high must not stand up, and
// flat ones would meet the post beside them: the legs go along the wall.
func TestArrangeTurnsLegsUnderAShelf(t *testing.T) {
	p := bench(t, 36*mm)
	for i := range p.Units {
		for k := range p.Units[i].Jacks {
			j := &p.Units[i].Jacks[k]
			j.LegGiven, j.PlugGiven, j.Height = false, true, 35*mm // up to 63 mm
		}
	}
	p.Board.Risers = []layout.Riser{{Name: "shelf", At: p.Board.Rect().Grow(layout.Edges{Left: 20 * mm, Right: 20 * mm}), Height: 70 * mm, Thickness: 10 * mm}}
	for i := range p.Units {
		p.Units[i].On, p.Units[i].Switches = []string{layout.DeckName}, nil
	}
	res, err := Arrange(context.Background(), p, steps())
	require.NoError(t, err)
	require.Equal(t, pack.Fits, res.Verdict, res.Why)
	requireSound(t, res.Plan)
	for _, u := range res.Plan.Units {
		for _, j := range u.Jacks {
			assert.Contains(t, []layout.LegSide{layout.LegFront, layout.LegBack}, j.Leg, u.ID)
		}
	}
}

// What Arrange refuses has no arrangement with any plugs, and where a coarse
// search over places with the best plugs for each finds one, Arrange does too.
func TestImpossibleWithAnyPlugs(t *testing.T) {
	verdicts := map[pack.Verdict]int{}
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		mmOf := func(lo, hi int, what string) layout.Length {
			return layout.Length(rapid.IntRange(lo, hi).Draw(t, what)) * mm
		}
		p := bench(t, mmOf(10, 80, "spare"))
		p.Board.D = mmOf(110, 130, "depth")
		p.Board.PlugRoom = layout.Edges{Left: mmOf(0, 25, "left"), Right: mmOf(0, 25, "right"), Back: 20 * mm}
		for i := range p.Units {
			u := &p.Units[i]
			u.Body.D, u.Body.H = mmOf(80, 100, "d"), 40*mm
			for k := range u.Jacks {
				u.Jacks[k].Along, u.Jacks[k].Height = mmOf(8, 70, "along"), mmOf(8, 30, "height")
				u.Jacks[k].LegGiven = rapid.Bool().Draw(t, "leg given")
			}
		}
		res, err := Arrange(context.Background(), p, Options{Seed: 1, FirstFit: true, DecideSteps: 20_000})
		require.NoError(t, err)
		verdicts[res.Verdict]++
		if res.Verdict == pack.Fits {
			requireSound(t, res.Plan)
			return
		}
		if tried++; tried > 4 {
			return // each takes a while
		}
		const step = 6 * mm
		for x := layout.Length(0); x <= p.Board.W-70*mm; x += step {
			for y := layout.Length(0); y <= p.Board.D-p.Units[0].Body.D; y += step {
				for v := layout.Length(0); v <= p.Board.W-70*mm; v += step {
					for w := layout.Length(0); w <= p.Board.D-p.Units[1].Body.D; w += step {
						q := p.Clone()
						q.Units[0].Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: x, Y: y}}
						q.Units[1].Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: v, Y: w}}
						if q.Units[0].Base(*q.Units[0].Place).Overlaps(q.Units[1].Base(*q.Units[1].Place)) {
							continue
						}
						wiring.Seat(q)
						if wiring.Misseated(q) == 0 {
							require.Fail(t, "it fits", "Arrange says %s, and it fits at %v, %v", res.Verdict, q.Units[0].Place, q.Units[1].Place)
						}
					}
				}
			}
		}
	})
	assert.Positive(t, verdicts[pack.Fits])
	assert.Positive(t, verdicts[pack.Impossible])
}

package pack

import (
	"context"
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// freePace lets a search run to its end.
func freePace() *pace {
	r := &plainRace{ctx: context.Background(), slots: make(chan struct{}, 1)}
	r.slots <- struct{}{}
	r.finish.Store(math.MaxInt64)
	return &pace{race: r}
}

// TestClausesAgreeWithTrying decides random clauses by learning and by trying
// all assignments.
func TestClausesAgreeWithTrying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		vars := rapid.IntRange(1, 10).Draw(t, "vars")
		lit := rapid.Uint32Range(0, uint32(2*vars-1))
		clauses := rapid.SliceOfN(rapid.SliceOfNDistinct(lit, 1, 4, func(l uint32) uint32 { return l >> 1 }), 1, 60).Draw(t, "clauses")
		s := &cdcl{pace: freePace(), fade: 0.95}
		for range vars {
			s.newVar(false)
		}
		for _, c := range clauses {
			s.add(c...)
		}
		holds := func(m func(l uint32) bool) bool {
			for _, c := range clauses {
				any := false
				for _, l := range c {
					any = any || m(l)
				}
				if !any {
					return false
				}
			}
			return true
		}
		want := Impossible
		for m := 0; m < 1<<vars; m++ {
			if holds(func(l uint32) bool { return m>>(l>>1)&1 == int(l&1)^1 }) {
				want = Fits
			}
		}
		require.Equal(t, want, s.solve())
		if want == Fits {
			require.True(t, holds(func(l uint32) bool { return s.value[l] > 0 }))
		}
	})
}

// TestForgettingKeepsTheVerdict makes the learning search forget all the time.
func TestForgettingKeepsTheVerdict(t *testing.T) {
	core, _ := corePlain(plainProblem{W: 20, H: 20, Rects: plainRects(consecutive(10))})
	o := &ordered{c: core, s: &cdcl{pace: freePace(), fade: 0.95}}
	require.True(t, o.state())
	for run := 0; ; run++ {
		v := o.s.descend(30)
		if v != Undecided {
			assert.Equal(t, Impossible, v) // OEIS A005842: ten squares need 21
			return
		}
		o.s.back(0)
		drop := map[uint32]bool{}
		for i, c := range o.s.learnts {
			drop[c] = i%2 == 0 && run%3 != 0
		}
		o.s.rebuild(drop)
	}
}

func plainRects(rects []Rect) []plainRect {
	var out []plainRect
	for _, r := range rects {
		out = append(out, plainRect(r))
	}
	return out
}

func TestSumsAgreeWithASet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(0, 300).Draw(t, "size")
		s := newSums(size)
		s.set(0)
		set := map[int64]bool{0: true}
		for range rapid.IntRange(0, 6).Draw(t, "n") {
			v, u := rapid.Int64Range(1, 320).Draw(t, "v"), rapid.Int64Range(1, 320).Draw(t, "u")
			both := rapid.Bool().Draw(t, "both")
			s.shiftOr(v, both, u)
			next := map[int64]bool{}
			for m := range set {
				next[m], next[m+v] = true, true
				if both {
					next[m+u] = true
				}
			}
			set = next
		}
		var members []int64
		for m := range set {
			if m <= size {
				members = append(members, m)
			}
		}
		sort.Slice(members, func(i, j int) bool { return members[i] < members[j] })
		for v := int64(0); v <= size; v++ {
			require.Equal(t, set[v], s.has(v), v)
			i := sort.Search(len(members), func(i int) bool { return members[i] >= v })
			want := int64(-1)
			if i < len(members) {
				want = members[i]
			}
			require.Equal(t, want, s.next(v), v)
			j := sort.Search(len(members), func(i int) bool { return members[i] > v })
			require.Equal(t, members[j-1], s.below(v), v)
		}
	})
}

// TestWeighingsAreDualFeasible checks the defining property: lengths that fit
// side by side still do when weighed.
func TestWeighingsAreDualFeasible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(2, 60).Draw(t, "size")
		k := rapid.Int64Range(1, size).Draw(t, "k")
		type weighing struct {
			f     func(int64) int64
			whole int64
		}
		all := map[string]weighing{"steps": {steps(size, k), size * k}}
		if 2*k <= size {
			all["lift"] = weighing{lift(size, k), size}
			all["halves"] = weighing{halves(size, k), 2 * (size / k)}
		}
		var lengths []int64
		for rest := size; rest > 0; {
			v := rapid.Int64Range(1, rest).Draw(t, "v")
			lengths = append(lengths, v)
			rest -= v
		}
		for name, w := range all {
			var sum int64
			for _, v := range lengths {
				sum += w.f(v)
			}
			require.LessOrEqual(t, sum, w.whole, name)
			require.Equal(t, w.whole, w.f(size), name)
		}
	})
}

func TestMemoGrowsAndForgets(t *testing.T) {
	m := newMemo()
	m.cap = 1 << 14
	rng := splitmix(1)
	for range 1 << 16 {
		k := rng.key()
		require.False(t, m.has(k))
		m.put(k)
		require.True(t, m.has(k))
	}
	assert.Equal(t, 1<<14, len(m.slots))
}

// plainItem is an item of the public interface: w x h in a container at
// x, y, its origin off its corner.
func plainItem(w, h, x, y, cw, ch int64, turn bool) Item {
	it := Item{Groups: 1}
	forms := [][2]int64{{w, h}}
	if turn {
		forms = append(forms, [2]int64{h, w})
	}
	for i, f := range forms {
		it.Shapes = append(it.Shapes, Shape{Boxes: []Box{{X0: -3, Y0: 2, Z0: 0, X1: f[0] - 3, Y1: f[1] + 2, Z1: 5}}})
		it.Regions = append(it.Regions, Region{Shape: i, X0: x + 3, Y0: y - 2, X1: x + cw - f[0] + 3, Y1: y + ch - f[1] - 2})
	}
	return it
}

func TestSolveTakesThePlainWay(t *testing.T) {
	p := &Problem{}
	for _, r := range published(t, "perfect/MORON*.txt")["MORON_33x32"].Rects {
		p.Items = append(p.Items, plainItem(r.W, r.H, -100, 40, 33, 32, r.W%2 == 0))
	}
	pp, ok := plainOf(p)
	require.True(t, ok)
	assert.Equal(t, int64(33), pp.W)
	assert.Equal(t, int64(32), pp.H)
	res, err := Solve(context.Background(), p, Options{})
	require.NoError(t, err)
	require.Equal(t, Fits, res.Verdict)
	requireArrangement(t, p, res.Places)
}

func TestTurnedPlacesComeBack(t *testing.T) {
	p := &Problem{Items: []Item{
		plainItem(4, 7, 10, 10, 9, 4, true), // fits on its side only: one region is empty
		plainItem(2, 4, 10, 10, 9, 4, false),
	}}
	p.Items[0].Regions = p.Items[0].Regions[1:]
	pp, ok := plainOf(p)
	require.True(t, ok)
	a := solvePlain(context.Background(), pp, Options{})
	require.Equal(t, Fits, a.Verdict)
	requireArrangement(t, p, a.placesOf(p))
}

func TestNotPlain(t *testing.T) {
	make2 := func() *Problem {
		return &Problem{Items: []Item{plainItem(4, 7, 0, 0, 9, 9, true), plainItem(2, 4, 0, 0, 9, 9, false)}}
	}
	_, ok := plainOf(make2())
	require.True(t, ok)
	for name, spoil := range map[string]func(p *Problem){
		"obstacle":       func(p *Problem) { p.Obstacles = []Obstacle{{}} },
		"no items":       func(p *Problem) { p.Items = nil },
		"two boxes":      func(p *Problem) { s := &p.Items[0].Shapes[0]; s.Boxes = append(s.Boxes, s.Boxes[0]) },
		"other groups":   func(p *Problem) { p.Items[1].Groups = 2 },
		"box in a group": func(p *Problem) { p.Items[0].Groups = 3; p.Items[0].Shapes[0].Boxes[0].Groups = 1 },
		"other height":   func(p *Problem) { p.Items[1].Regions[0].Z = 5 },
		"less room":      func(p *Problem) { p.Items[1].Regions[0].X1-- },
		"other corner":   func(p *Problem) { p.Items[1].Regions[0].X0++; p.Items[1].Regions[0].X1++ },
		"no region":      func(p *Problem) { p.Items[1].Regions = nil },
		"flat box":       func(p *Problem) { p.Items[1].Shapes[0].Boxes[0].Z1 = 0 },
		"other shape": func(p *Problem) {
			p.Items[0].Shapes[1].Boxes[0].X1--
			p.Items[0].Regions[1].X1++
		},
	} {
		p := make2()
		spoil(p)
		_, ok := plainOf(p)
		assert.False(t, ok, name)
	}
}

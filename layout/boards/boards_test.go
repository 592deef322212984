package boards

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/cases"
	"footplank/layout/check"
	"footplank/pack"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// cell is the measure of the small plans that are tried exhaustively.
const cell = 20 * mm

func brick(id string, w, d layout.Length, mount layout.Mount) layout.Unit {
	return layout.Unit{ID: id, Label: "Unit " + id, Mount: mount, Mass: 300 * layout.Gram,
		Body: layout.Size{W: w * cell, D: d * cell, H: 40 * mm}}
}

// small has bricks of whole cells: fixed ones and, in one slot over the whole
// board, one or two for each of two line-ups.
func small(t *rapid.T) *layout.Plan {
	p := &layout.Plan{Title: "small", Board: layout.Board{W: 6 * cell, D: 6 * cell, Kind: layout.Solid, Thickness: 12 * mm, Mass: layout.Kilogram}}
	p.Slots = []layout.Slot{{Name: "all", On: layout.DeckName, At: p.Board.Rect()}}
	side := func(what string) layout.Length { return layout.Length(rapid.IntRange(2, 4).Draw(t, what)) }
	for i := range rapid.IntRange(1, 2).Draw(t, "fixed") {
		u := brick(fmt.Sprint("f", i), side("w"), side("d"), layout.Fixed)
		if rapid.Bool().Draw(t, "turns") {
			u.Turns = []layout.Turn{0, 1}
		}
		p.Units = append(p.Units, u)
	}
	for _, l := range []string{"one", "two"} {
		line := layout.Lineup{Name: l, Fill: map[string][]string{}, Place: map[string]layout.Placement{}}
		for i := range rapid.IntRange(1, 2).Draw(t, l) {
			id := fmt.Sprint(l, i)
			p.Units = append(p.Units, brick(id, side("w"), side("d"), layout.Swap))
			line.Fill["all"] = append(line.Fill["all"], id)
		}
		p.Lineups = append(p.Lineups, line)
	}
	return p
}

// goes tries every place on a grid of cells: of whole cells, without room past
// the edges, units fit there if they fit anywhere. Fixed units are placed once,
// then each line-up by itself.
func goes(p *layout.Plan, w, d int) bool {
	grid := make([]bool, w*d)
	var fixed []*layout.Unit
	for i := range p.Units {
		if p.Units[i].Mount == layout.Fixed {
			fixed = append(fixed, &p.Units[i])
		}
	}
	return puts(grid, w, d, fixed, func() bool {
		for i := range p.Lineups {
			var swap []*layout.Unit
			for _, id := range p.Lineups[i].Fill["all"] {
				swap = append(swap, p.Unit(id))
			}
			if !puts(grid, w, d, swap, func() bool { return true }) {
				return false
			}
		}
		return true
	})
}

func puts(grid []bool, w, d int, us []*layout.Unit, then func() bool) bool {
	if len(us) == 0 {
		return then()
	}
	for _, t := range us[0].AllowedTurns() {
		fw, fd := t.Footprint(us[0].Body.W/cell, us[0].Body.D/cell)
		uw, ud := int(fw), int(fd)
		for x := 0; x+uw <= w; x++ {
			for y := 0; y+ud <= d; y++ {
				if !fill(grid, w, x, y, uw, ud, false) {
					continue
				}
				fill(grid, w, x, y, uw, ud, true)
				ok := puts(grid, w, d, us[1:], then)
				for i := range ud {
					clear(grid[(y+i)*w+x : (y+i)*w+x+uw])
				}
				if ok {
					return true
				}
			}
		}
	}
	return false
}

// fill reports whether the cells are free, and takes them if asked to.
func fill(grid []bool, w, x, y, uw, ud int, take bool) bool {
	for i := range ud {
		for k := range uw {
			if at := (y+i)*w + x + k; take {
				grid[at] = true
			} else if grid[at] {
				return false
			}
		}
	}
	return true
}

func TestVerdictsAgainstEveryArrangement(t *testing.T) {
	yes, no := 0, 0
	cases.Fewer(t, 50, func(t *rapid.T) {
		p := small(t)
		var list []Candidate
		for range 4 {
			list = append(list, Candidate{W: layout.Length(rapid.IntRange(3, 8).Draw(t, "W")) * cell, D: layout.Length(rapid.IntRange(3, 8).Draw(t, "D")) * cell})
		}
		r, err := Compare(context.Background(), p, list, Options{Seed: 1})
		require.NoError(t, err)
		for _, b := range r.Boards {
			want := pack.Impossible
			if goes(p, int(b.W/cell), int(b.D/cell)) {
				want = pack.Fits
				yes++
			} else {
				no++
				require.NotEmpty(t, b.Why)
			}
			require.Equal(t, want, b.Verdict, "%v x %v", b.W, b.D)
			if want == pack.Fits {
				requireSound(t, b)
			}
		}
	})
	assert.Positive(t, yes)
	assert.Positive(t, no)
}

// requireSound asks the check about the plan on its board.
func requireSound(t require.TestingT, b *Board) {
	require.Equal(t, [2]layout.Length{b.W, b.D}, [2]layout.Length{b.Plan.Board.W, b.Plan.Board.D})
	for _, r := range check.All(b.Plan) {
		for _, f := range r.Findings {
			if b.Works {
				require.NotEqual(t, check.Fault, f.Level, f.Text)
			}
			require.NotContains(t, []string{check.NoPlace, check.Collision, check.Obstacle, check.OffBoard, check.PlugOffBoard, check.OutsideSlot, check.LittleBase}, f.Code, f.Text)
		}
	}
}

func TestStaircaseAgainstEveryBoard(t *testing.T) {
	cases.Fewer(t, 40, func(t *rapid.T) {
		p := small(t)
		const most = 7
		r, err := Staircase(context.Background(), p, cell, layout.Size{W: most * cell, D: most * cell}, Options{Seed: 1})
		require.NoError(t, err)
		var want, got [][2]int
		for w := 3; w <= most; w++ {
			for d := 3; d <= most; d++ {
				// No board is less than 50 mm each way, so 3 cells.
				if goes(p, w, d) && (w == 3 || !goes(p, w-1, d)) && (d == 3 || !goes(p, w, d-1)) {
					want = append(want, [2]int{w, d})
				}
			}
		}
		for _, b := range r.Corners {
			got = append(got, [2]int{int(b.W / cell), int(b.D / cell)})
		}
		require.ElementsMatch(t, want, got)
		require.True(t, r.Sure)
		if len(want) > 0 {
			require.NotNil(t, r.Smallest())
		}
	})
}

func TestExampleBoards(t *testing.T) {
	p := example(t, "ceilidh")
	before, err := json.Marshal(p)
	require.NoError(t, err)
	list := append(Sizes(layout.Size{W: 500 * mm, D: 330 * mm}, layout.Size{W: 700 * mm, D: 400 * mm}), Own(p))
	for _, c := range OfCatalog(catalog.Builtin()) {
		if c.Name == "rails-mini" || c.Name == "solid-medium" {
			list = append(list, c)
		}
	}
	calls := 0
	r, err := Compare(context.Background(), p, list, Options{Seed: 1, ImproveSteps: 300, Progress: func(done, total int, _ *Board) {
		calls++
		assert.Equal(t, calls, done)
		assert.Equal(t, len(list), total)
	}})
	require.NoError(t, err)
	assert.Equal(t, len(list), calls)
	after, err := json.Marshal(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after), "the plan that was given is not changed")
	at := map[string]*Board{}
	for i, b := range r.Boards {
		at[fmt.Sprintf("%s%d", b.Name, b.W/mm)] = b
		if i > 0 {
			assert.LessOrEqual(t, r.Boards[i-1].W*r.Boards[i-1].D, b.W*b.D)
		}
		if b.Plan != nil {
			requireSound(t, b)
			assert.Positive(t, b.Cable)
			assert.Positive(t, b.Longest)
			assert.Greater(t, b.Rig, b.Mass)
			assert.Len(t, b.Spare, 3)
		}
	}
	assert.Equal(t, pack.Impossible, at["500"].Verdict)
	assert.True(t, at["yours560"].Works)
	assert.Equal(t, Yes, at["yours560"].Case)
	big := at["700"]
	assert.Equal(t, pack.Fits, big.Verdict)
	assert.Equal(t, No, big.Case, "the case is 640 x 372 inside")
	assert.False(t, big.Works)
	assert.Equal(t, pack.Impossible, at["rails-mini450"].Verdict)
	assert.True(t, r.Smallest().Works)

	free, err := Compare(context.Background(), p, Sizes(layout.Size{W: 700 * mm, D: 400 * mm}), Options{Seed: 1, ImproveSteps: 300, WithoutCase: true})
	require.NoError(t, err)
	assert.True(t, free.Boards[0].Works)
	assert.Equal(t, Unasked, free.Boards[0].Case)
}

func TestTheSameForAnyNumberOfWorkers(t *testing.T) {
	p := example(t, "pocket")
	list := Sizes(layout.Size{W: 300 * mm, D: 200 * mm}, layout.Size{W: 330 * mm, D: 220 * mm}, layout.Size{W: 420 * mm, D: 180 * mm})
	var first string
	for _, n := range []int{1, 3} {
		r, err := Compare(context.Background(), p, list, Options{Seed: 7, ImproveSteps: 300, Workers: n})
		require.NoError(t, err)
		text, err := json.Marshal(r)
		require.NoError(t, err)
		if first == "" {
			first = string(text)
		}
		assert.Equal(t, first, string(text), "%d workers", n)
	}
}

func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	p := example(t, "ceilidh")
	r, err := Compare(ctx, p, Sizes(layout.Size{W: 100 * mm, D: 100 * mm}, layout.Size{W: 560 * mm, D: 330 * mm}),
		Options{Seed: 1, Workers: 1, Progress: func(done, _ int, _ *Board) { cancel() }})
	require.NoError(t, err)
	assert.True(t, r.Stopped)
	assert.Equal(t, pack.Impossible, r.Boards[0].Verdict, "what was proved stays")
	assert.Equal(t, pack.Undecided, r.Boards[1].Verdict)
	assert.Nil(t, r.Smallest())
}

func TestMounting(t *testing.T) {
	p := &layout.Plan{Title: "mounting", Board: layout.Board{W: 300 * mm, D: 150 * mm, Kind: layout.Solid, Thickness: 12 * mm, Mass: layout.Kilogram},
		Units: []layout.Unit{brick("a", 5, 5, layout.Fixed), brick("b", 5, 5, layout.Fixed)}, Lineups: []layout.Lineup{{Name: "all"}}}
	p.Units[0].Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 60 * mm, Y: 50 * mm}}
	p.Units[1].Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: 200 * mm, Y: 50 * mm}}
	// 220 wide, a's share of the spare room puts it at 60 * 120/200 = 36, and
	// b touches the right edge at 120: they overlap. Free, 200 is enough.
	verdict := func(w layout.Length, how Mounting) *Board {
		r, err := Compare(context.Background(), p, Sizes(layout.Size{W: w * mm, D: 150 * mm}), Options{Seed: 1, Mounting: how})
		require.NoError(t, err)
		return r.Boards[0]
	}
	assert.Equal(t, pack.Impossible, verdict(220, KeepFixed).Verdict)
	assert.Equal(t, pack.Fits, verdict(260, KeepFixed).Verdict)
	assert.Equal(t, layout.Point{X: 48 * mm, Y: 50 * mm}, verdict(260, KeepFixed).Plan.Units[0].Place.At)
	assert.Equal(t, pack.Fits, verdict(220, FreeFixed).Verdict)
	assert.Equal(t, pack.Impossible, verdict(199, FreeFixed).Verdict)
	p.Units[0].Pinned, p.Units[1].Pinned = true, true
	assert.Equal(t, pack.Impossible, verdict(220, FreeFixed).Verdict)
	assert.Equal(t, pack.Fits, verdict(220, FreeAll).Verdict)
	small := verdict(80, FreeFixed)
	assert.Equal(t, "Unit a keeps its place, and there it does not rest on this board.", small.Why)
	assert.Equal(t, []string{"a"}, small.Units)
}

// TestBags: a carry-on of 56 x 36 x 23 cm, a checked bag of 158 cm in all and
// 23 kg, as many carriers have them; carriers differ.
func TestBags(t *testing.T) {
	p := &layout.Plan{Title: "bags", Board: layout.Board{Kind: layout.Solid, Thickness: 10 * mm, Mass: 2 * layout.Kilogram},
		Units: []layout.Unit{brick("a", 5, 5, layout.Fixed)}, Lineups: []layout.Lineup{{Name: "all"}}}
	p.Board.W, p.Board.D = 300*mm, 200*mm
	// Loaded it is 10 + 10 + 40 = 60 high, so that 1520 are left for a bag of 158.
	for _, c := range []struct {
		w, d           layout.Length
		kilos          layout.Mass
		cabin, checked Goes
	}{
		{560, 360, 2, Yes, Yes}, {561, 360, 2, No, Yes}, {360, 560, 2, Yes, Yes},
		{1000, 520, 2, No, Yes}, {1000, 521, 2, No, NotSo}, {1000, 561, 2, No, No}, {300, 200, 22, Yes, Yes}, {300, 200, 23, Yes, No},
	} {
		p.Board.Mass = 0
		p.Board.Density = float64(c.kilos*layout.Kilogram) / (float64(c.w*mm) * float64(c.d*mm) * float64(10*mm) * 1e-12)
		r, err := Compare(context.Background(), p, Sizes(layout.Size{W: c.w * mm, D: c.d * mm}), Options{Seed: 1})
		require.NoError(t, err)
		b := r.Boards[0]
		assert.Equal(t, c.cabin, b.CarryOn, "%v", c)
		assert.Equal(t, c.checked, b.Checked, "%v %v", c, b.Outside)
	}
}

// A fault in a worker is met by whoever asked, whatever the others do meanwhile.
func TestFaultIsMetByWhoAsked(t *testing.T) {
	sizes := Sizes(layout.Size{W: 50 * mm, D: 50 * mm}, layout.Size{W: 51 * mm, D: 50 * mm}, layout.Size{W: 52 * mm, D: 50 * mm})
	opt := Options{Workers: 2, Progress: func(int, int, *Board) { panic("fell over") }}
	assert.Panics(t, func() { _, _ = Compare(context.Background(), example(t, "pocket"), sizes, opt) })
}

func TestErrors(t *testing.T) {
	p := example(t, "pocket")
	_, err := Compare(context.Background(), p, Sizes(layout.Size{W: 20 * mm, D: 300 * mm}), Options{})
	assert.EqualError(t, err, "board 20 x 300 mm: want from 50mm to 3000mm each way")
	_, err = Compare(context.Background(), p, nil, Options{Lineups: []string{"lod"}})
	assert.EqualError(t, err, `no line-up "lod" in the plan: did you mean "loud"?`)
	_, err = Staircase(context.Background(), p, mm, layout.Size{}, Options{})
	assert.EqualError(t, err, "steps of 1mm: want at least 5mm")
	_, err = Staircase(context.Background(), p, 20*mm, layout.Size{W: 400 * mm, D: 40 * mm}, Options{})
	assert.ErrorContains(t, err, "boards up to 400mm x 40mm: the largest unit needs sides of ")
}

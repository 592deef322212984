package cut

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// read reads an instance; its lengths become micrometres, whatever they were.
func read(t testing.TB, name string) (stock layout.Length, pieces []Piece, head string) {
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "cut1d", name+".txt"))
	require.NoError(t, err)
	for lines := bufio.NewScanner(bytes.NewReader(src)); lines.Scan(); {
		line := lines.Text()
		var a, b int
		switch {
		case strings.HasPrefix(line, "#"):
			head = line
		case strings.HasPrefix(line, "stock "):
			_, err = fmt.Sscanf(line, "stock %d", &a)
			stock = layout.Length(a)
		default:
			_, err = fmt.Sscanf(line, "%d %d", &a, &b)
			pieces = append(pieces, Piece{layout.Length(a), b})
		}
		require.NoError(t, err, "%s: %q", name, line)
	}
	return stock, pieces, head
}

// published instances with their optimum. Sources as in the first line of each
// file, of which word is a part.
var published = []struct {
	name    string
	optimum int
	source  string
}{
	// GAMS model library CUTSTOCK after Gilmore and Gomory 1961; optimum from memory.
	{"gams_cutstock", 453, "GAMS model library CUTSTOCK"},
	// OR-Library binpack1, Falkenauer's uniform class: best known equals the area bound.
	{"orlib_u120_00", 48, "OR-Library binpack1"},
	{"orlib_u120_01", 49, "OR-Library binpack1"},
	{"orlib_u120_02", 46, "OR-Library binpack1"},
	// Wikipedia "Cutting stock problem"; optimum from memory, area bound 72.7.
	{"paper_5600", 73, "Cutting stock problem"},
	// Woodco, Winston's textbook (data from memory); optimum by an integer
	// program over all maximal patterns, linear program 18.33.
	{"woodco_17ft", 19, "Winston textbook Woodco"},
}

func TestPublishedInstances(t *testing.T) {
	for _, c := range published {
		t.Run(c.name, func(t *testing.T) {
			stock, pieces, head := read(t, c.name)
			require.Contains(t, head, c.source)
			r, err := Cut(context.Background(), stock, pieces)
			require.NoError(t, err)
			requireList(t, stock, pieces, r)
			assert.Len(t, r.Bars, c.optimum)
			assert.True(t, r.Proved)
		})
	}
}

// TestBoundsAlone shows what each part of the solver does by itself, so that
// none hides behind another. The linear programs' values are those of the files'
// first lines: 18.33 and area 72.7; 452.25 is an exact sum of Gilmore and
// Gomory's patterns (from memory).
func TestBoundsAlone(t *testing.T) {
	for name, want := range map[string]struct{ program int }{
		"gams_cutstock": {453}, "woodco_17ft": {19}, "paper_5600": {73}, "orlib_u120_00": {48},
	} {
		stock, pieces, _ := read(t, name)
		in, err := newInstance(stock, pieces)
		require.NoError(t, err)
		s := &solver{instance: in, ctx: context.Background(), left: Steps}
		x, ok := s.relax(in.count)
		require.True(t, ok)
		assert.Equal(t, want.program, s.priced(x.dual), name)
		sum := 0.0
		for _, v := range x.value {
			sum += v
		}
		if name == "gams_cutstock" {
			assert.InDelta(t, 452.25, sum, 1e-6)
		}
		if name == "woodco_17ft" {
			assert.InDelta(t, 18.33, sum, 0.005)
		}
	}
}

// requireList checks that a list is what it says.
func requireList(t require.TestingT, stock layout.Length, pieces []Piece, r Result) {
	want, got := map[layout.Length]int{}, map[layout.Length]int{}
	for _, p := range pieces {
		want[p.Length] += p.Count
	}
	for _, b := range r.Bars {
		left := stock
		for _, c := range b.Cuts {
			got[c]++
			left -= c
		}
		require.GreaterOrEqual(t, left, layout.Length(0))
		require.Equal(t, left, b.Waste)
		require.NotEmpty(t, b.Cuts)
	}
	require.Equal(t, want, got)
	require.LessOrEqual(t, r.Bound, len(r.Bars))
	require.Equal(t, r.Bound == len(r.Bars), r.Proved)
}

// fewest is the plain twin: every piece into every bar that it fits into.
func fewest(stock layout.Length, pieces []Piece) int {
	var all []layout.Length
	for _, p := range pieces {
		for range p.Count {
			all = append(all, p.Length)
		}
	}
	best := len(all)
	var room []layout.Length
	var place func(i int)
	place = func(i int) {
		if len(room) >= best && i < len(all) || len(room) > best {
			return
		}
		if i == len(all) {
			best = len(room)
			return
		}
		for b := range room {
			if room[b] >= all[i] {
				room[b] -= all[i]
				place(i + 1)
				room[b] += all[i]
			}
		}
		room = append(room, stock-all[i])
		place(i + 1)
		room = room[:len(room)-1]
	}
	place(0)
	return best
}

func drawPieces(t *rapid.T) (layout.Length, []Piece) {
	stock := layout.Length(rapid.IntRange(8, 60).Draw(t, "stock"))
	left := 9
	var pieces []Piece
	for left > 0 && rapid.IntRange(0, 7).Draw(t, "more") > 0 {
		n := rapid.IntRange(1, min(3, left)).Draw(t, "count")
		left -= n
		pieces = append(pieces, Piece{layout.Length(rapid.IntRange(int(stock)/8, int(stock)).Draw(t, "length")), n})
	}
	return stock, pieces
}

func TestCutIsAsGoodAsTryingEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock, pieces := drawPieces(t)
		r, err := Cut(context.Background(), stock, pieces)
		require.NoError(t, err)
		requireList(t, stock, pieces, r)
		require.True(t, r.Proved)
		require.Len(t, r.Bars, fewest(stock, pieces))
	})
}

// TestPartsAgainstTryingEverything takes the search and the program by
// themselves: no bound may pass the best, and the search alone must find it.
func TestPartsAgainstTryingEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock, pieces := drawPieces(t)
		in, err := newInstance(stock, pieces)
		require.NoError(t, err)
		best := fewest(stock, pieces)
		s := &solver{instance: in, ctx: context.Background(), left: Steps}
		require.LessOrEqual(t, s.lowerBound(), best)
		require.LessOrEqual(t, in.halves(in.count), best)
		s.best = s.bestFit()
		require.GreaterOrEqual(t, len(s.repair(s.best)), best)
		if len(pieces) > 0 {
			s.program()
			require.LessOrEqual(t, s.bound, best)
			require.GreaterOrEqual(t, len(s.best), best)
		}
		for n := 0; n < best; n++ {
			require.True(t, s.complete(n, Steps))
			require.Equal(t, max(s.bound, n+1), s.bound)
		}
		s.best = make([]pattern, best+1)
		require.True(t, s.complete(best, Steps))
		require.Len(t, s.best, best)
	})
}

// TestPlanted cuts what was made by filling bars without waste, three pieces to
// each: the number of bars is known, and hard to reach again.
func TestPlanted(t *testing.T) {
	const stock, bars = 1000, 20
	for seed := range uint64(6) {
		rnd := rand.New(rand.NewPCG(seed, 7))
		var pieces []Piece
		for range bars {
			a := 250 + rnd.IntN(130)
			b := 250 + rnd.IntN(stock-a-500)
			for _, l := range []int{a, b, stock - a - b} {
				pieces = append(pieces, Piece{layout.Length(l), 1})
			}
		}
		r, err := Cut(context.Background(), stock, pieces)
		require.NoError(t, err)
		requireList(t, stock, pieces, r)
		assert.Len(t, r.Bars, bars, "seed %d", seed)
		assert.True(t, r.Proved)
	}
}

func TestCutSaysWhenItGaveUp(t *testing.T) {
	stock, pieces, _ := read(t, "orlib_u120_00")
	r, err := Within(context.Background(), stock, pieces, 1)
	require.NoError(t, err)
	requireList(t, stock, pieces, r)
	assert.False(t, r.Proved)
	assert.Equal(t, 48, r.Bound)

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r, err = Cut(ctx, stock, pieces)
	require.NoError(t, err)
	requireList(t, stock, pieces, r)
}

func TestCutIsTheSameEachTime(t *testing.T) {
	stock, pieces, _ := read(t, "orlib_u120_02")
	a, err := Cut(context.Background(), stock, pieces)
	require.NoError(t, err)
	slices.Reverse(pieces)
	b, err := Cut(context.Background(), stock, pieces)
	require.NoError(t, err)
	assert.Equal(t, a, b)
}

func TestCutRefuses(t *testing.T) {
	const mm = layout.Millimetre
	for _, c := range []struct {
		stock  layout.Length
		pieces []Piece
		words  string
	}{
		{0, nil, "stock of 0mm"},
		{mm, []Piece{{2 * mm, 1}}, "a piece of 2mm is longer than the stock of 1mm"},
		{mm, []Piece{{mm, 0}}, "0 pieces of 1mm"},
		{mm, []Piece{{-mm, 1}}, "1 pieces of -1mm"},
		{mm, []Piece{{mm, maxPieces}, {mm, 1}}, "more than 10000 pieces"},
	} {
		_, err := Cut(context.Background(), c.stock, c.pieces)
		assert.ErrorContains(t, err, c.words)
	}
	r, err := Cut(context.Background(), mm, nil)
	require.NoError(t, err)
	assert.Empty(t, r.Bars)
	assert.True(t, r.Proved)
}

func BenchmarkPublished(b *testing.B) {
	for _, c := range published {
		b.Run(c.name, func(b *testing.B) {
			stock, pieces, _ := read(b, c.name)
			for b.Loop() {
				r, err := Cut(context.Background(), stock, pieces)
				if err != nil || !r.Proved {
					b.Fatal(err, r.Bound, len(r.Bars))
				}
			}
		})
	}
}

// BenchmarkKit cuts 40 patch cables from reels of 5 m.
func BenchmarkKit(b *testing.B) {
	var pieces []Piece
	for i := range layout.Length(40) {
		pieces = append(pieces, Piece{(150 + i*i*37%400) * layout.Millimetre, 1})
	}
	for b.Loop() {
		r, err := Cut(context.Background(), 5000*layout.Millimetre, pieces)
		if err != nil || !r.Proved {
			b.Fatal(err, r.Bound, len(r.Bars))
		}
	}
}

package pack

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// long runs the instances that take from seconds to minutes:
//
//	go test ./pack -long -timeout 30m
var long = flag.Bool("long", false, "also run the slow published instances")

// published reads the instances that match pattern below testdata/pack. The
// first line of each file names its source and its known answer.
func published(t testing.TB, pattern string) map[string]*Instance {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("..", "testdata", "pack", pattern))
	require.NoError(t, err)
	require.NotEmpty(t, paths, pattern)
	list := map[string]*Instance{}
	for _, path := range paths {
		f, err := os.Open(path)
		require.NoError(t, err)
		in, err := ReadInstance(f, path)
		f.Close()
		require.NoError(t, err)
		list[strings.TrimSuffix(filepath.Base(path), ".txt")] = in
	}
	return list
}

// faultOfRects says what is wrong with an arrangement, or "". It looks at
// every pair.
func faultOfRects(w, h int64, rects []Rect, at []RectPlace) string {
	if len(at) != len(rects) {
		return fmt.Sprintf("%d places for %d rectangles", len(at), len(rects))
	}
	for i, p := range at {
		a := turnedRect(rects[i], p.Turned)
		if p.Turned && !rects[i].Turn {
			return fmt.Sprintf("%d turned", i)
		}
		if p.X < 0 || p.Y < 0 || p.X+a.W > w || p.Y+a.H > h {
			return fmt.Sprintf("%d outside: %v %v", i, p, a)
		}
		for j, q := range at[:i] {
			b := turnedRect(rects[j], q.Turned)
			if p.X < q.X+b.W && q.X < p.X+a.W && p.Y < q.Y+b.H && q.Y < p.Y+a.H {
				return fmt.Sprintf("%d and %d overlap: %v %v, %v %v", j, i, q, b, p, a)
			}
		}
	}
	return ""
}

func turnedRect(r Rect, turned bool) Rect {
	if turned {
		r.W, r.H = r.H, r.W
	}
	return r
}

// Containers that take long are left to -long.
var slowContainers = map[string]bool{
	"CJCM_E00N23": true, "KORF_SQ_16": true, "KORF_SQ_18": true, "KORF_SQ_19": true, "KORF_SQ_20": true,
	"KORF_SQ_22": true, "KORF_SQ_23": true, "KORF_SQ_24": true, "SPSS_23_332": true, "SPSS_25_147": true,
}

// Beyond reach in reasonable time; the README's table says so.
var openContainers = map[string]bool{"KORF_SQ_22": true, "KORF_SQ_23": true, "KORF_SQ_24": true}

func TestPublishedContainers(t *testing.T) {
	for _, dir := range []string{"feas", "perfect", "minbox"} {
		for name, in := range published(t, dir+"/*.txt") {
			if slowContainers[name] && !*long || openContainers[name] {
				continue
			}
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				require.NotEqual(t, Undecided, in.KnownAnswer())
				a, err := FitRects(context.Background(), in.W, in.H, in.Rects, Options{})
				require.NoError(t, err)
				require.Equal(t, in.KnownAnswer(), a.Verdict)
				if a.Verdict == Fits {
					require.Empty(t, faultOfRects(in.W, in.H, in.Rects, a.Places))
				} else {
					require.NotNil(t, a.Reason)
				}
			})
		}
	}
}

// rectTwin is the slow, plain solver: it tries every whole place for one
// rectangle after the other.
func rectTwin(w, h int64, rects []Rect, at []RectPlace) bool {
	if len(at) == len(rects) {
		return true
	}
	r := rects[len(at)]
	for _, turned := range []bool{false, true} {
		if turned && !r.Turn {
			continue
		}
		a := turnedRect(r, turned)
		for x := int64(0); x+a.W <= w; x++ {
			for y := int64(0); y+a.H <= h; y++ {
				p := RectPlace{x, y, turned}
				if freeOf(rects, at, p, a) && rectTwin(w, h, rects, append(at, p)) {
					return true
				}
			}
		}
	}
	return false
}

// freeOf reports whether a at p overlaps none of those that stand.
func freeOf(rects []Rect, at []RectPlace, p RectPlace, a Rect) bool {
	for j, q := range at {
		b := turnedRect(rects[j], q.Turned)
		if p.X < q.X+b.W && q.X < p.X+a.W && p.Y < q.Y+b.H && q.Y < p.Y+a.H {
			return false
		}
	}
	return true
}

// drawRects draws a small question that is seldom decided by area.
func drawRects(t *rapid.T) (w, h int64, rects []Rect) {
	w, h = rapid.Int64Range(2, 7).Draw(t, "w"), rapid.Int64Range(2, 7).Draw(t, "h")
	free := w * h
	n := rapid.IntRange(1, 6).Draw(t, "n")
	for range n {
		r := Rect{rapid.Int64Range(1, w).Draw(t, "rw"), rapid.Int64Range(1, h).Draw(t, "rh"), rapid.Bool().Draw(t, "turn")}
		if free -= r.W * r.H; free < 0 {
			break
		}
		rects = append(rects, r)
	}
	return w, h, rects
}

// TestEachMethodAgreesWithTwin asks every search by itself, the bounds, and
// all together.
func TestEachMethodAgreesWithTwin(t *testing.T) {
	methods := map[string]plainMethod{
		"upright": skylineMethod(false, byArea), "across": skylineMethod(true, byArea), "learning": orderedMethod(orderBold), "timid": orderedMethod(orderTimid),
		"widest first": skylineMethod(false, byWidth), "highest first": skylineMethod(false, byHeight),
	}
	rapid.Check(t, func(t *rapid.T) {
		w, h, rects := drawRects(t)
		if len(rects) == 0 {
			return
		}
		want := Impossible
		if rectTwin(w, h, rects, nil) {
			want = Fits
		}
		scale := rapid.SampledFrom([]int64{1, 1000, 1 << 20}).Draw(t, "scale")
		pp := plainProblem{W: w * scale, H: h * scale}
		for i := range rects {
			rects[i].W *= scale
			rects[i].H *= scale
			pp.Rects = append(pp.Rects, plainRect(rects[i]))
		}
		a, err := FitRects(context.Background(), pp.W, pp.H, rects, Options{})
		require.NoError(t, err)
		require.Equal(t, want, a.Verdict)
		core, fixed := corePlain(pp)
		if fixed != nil {
			require.Equal(t, want, fixed.Verdict)
			return
		}
		if boundPlain(core) != nil {
			require.Equal(t, Impossible, want, "a bound refutes what fits")
		}
		for name, m := range methods {
			f := runRace(context.Background(), core, Options{}, []plainMethod{m})
			require.Equal(t, want, f.verdict, name)
			checkFound(t, name, pp, rects, core.answer(f))
		}
	})
}

func checkFound(t require.TestingT, name string, pp plainProblem, rects []Rect, a plainAnswer) {
	if a.Verdict != Fits {
		return
	}
	var at []RectPlace
	for _, p := range a.At {
		at = append(at, RectPlace(p))
	}
	require.Empty(t, faultOfRects(pp.W, pp.H, rects, at), name)
}

// consecutive are the squares of sides 1 to n.
func consecutive(n int64) []Rect {
	var rects []Rect
	for s := n; s >= 1; s-- {
		rects = append(rects, Rect{W: s, H: s})
	}
	return rects
}

func TestPlainCancelledIsUndecided(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, err := FitRects(ctx, 70, 70, consecutive(24), Options{})
	require.NoError(t, err)
	assert.Equal(t, Undecided, a.Verdict)
	assert.Nil(t, a.Places)
	assert.Nil(t, a.Reason)
}

func TestOutOfStepsIsUndecided(t *testing.T) {
	for _, workers := range []int{1, 2} {
		a, err := FitRects(context.Background(), 70, 70, consecutive(24), Options{Steps: 3000, Workers: workers})
		require.NoError(t, err)
		assert.Equal(t, Undecided, a.Verdict)
		assert.Positive(t, a.Nodes)
	}
}

func TestPlainSameSeedSameAnswer(t *testing.T) {
	for name, in := range published(t, "feas/*_E0[457]F*.txt") {
		var first RectAnswer
		for i, workers := range []int{1, 2} {
			a, err := FitRects(context.Background(), in.W, in.H, in.Rects, Options{Seed: 7, Workers: workers})
			require.NoError(t, err)
			if i == 0 {
				first = a
			}
			require.Equal(t, first.Verdict, a.Verdict, name)
			require.Equal(t, first.Places, a.Places, name)
		}
	}
}

func TestSameStepsSameLeast(t *testing.T) {
	in := published(t, "strip/HT_C4_P1.txt")["HT_C4_P1"]
	var first Container
	for i := range 2 {
		c, err := LeastHeight(context.Background(), in.W, in.Rects, Options{Seed: 3, Steps: 60000})
		require.NoError(t, err)
		require.Empty(t, faultOfRects(c.W, c.H, in.Rects, c.Places))
		if i == 0 {
			first = c
		}
		require.Equal(t, first.H, c.H)
		require.Equal(t, first.Places, c.Places)
	}
}

func TestReasons(t *testing.T) {
	for _, c := range []struct {
		name  string
		w, h  int64
		rects []Rect
		want  Reason
	}{
		{"too wide", 5, 9, []Rect{{W: 1, H: 1}, {W: 6, H: 2}}, Reason{Rule: "load-x", Items: []int{1}, Need: 6, Have: 5}},
		{"too high turned", 5, 9, []Rect{{W: 6, H: 10, Turn: true}}, Reason{Rule: "load-x", Items: []int{0}, Need: 6, Have: 5}},
		{"area", 4, 4, []Rect{{W: 3, H: 3}, {W: 2, H: 4}}, Reason{Rule: "area", Items: []int{0, 1}, Need: 17, Have: 16}},
		{"pair", 7000, 7000, []Rect{{W: 1000, H: 1000}, {W: 4000, H: 4000}, {W: 4000, H: 4000}}, Reason{Rule: "pair", Items: []int{1, 2}, Need: 8000, Have: 7000}},
		{"stack", 10, 10, []Rect{{W: 6, H: 4}, {W: 6, H: 3}, {W: 7, H: 4}}, Reason{Rule: "load-y", Items: []int{0, 1, 2}, Need: 11, Have: 10}},
	} {
		a, err := FitRects(context.Background(), c.w, c.h, c.rects, Options{})
		require.NoError(t, err, c.name)
		require.Equal(t, Impossible, a.Verdict, c.name)
		require.Equal(t, c.want, *a.Reason, c.name)
	}
	a, err := FitRects(context.Background(), 17, 17, consecutive(9), Options{}) // OEIS A005842: 18
	require.NoError(t, err)
	require.Equal(t, "search", a.Reason.Rule)
	require.Len(t, a.Reason.Items, 9)
}

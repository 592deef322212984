package pack

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLeastSquareOfConsecutiveSquares(t *testing.T) {
	slow := map[string]bool{"A005842_13": true, "A005842_17": true, "A005842_18": true, "A005842_20": true, "A005842_21": true}
	for name, in := range published(t, "minsquare/*.txt") {
		if len(in.Rects) > 21 || slow[name] && !*long {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c, err := LeastSquare(context.Background(), in.Rects, Options{})
			require.NoError(t, err)
			require.Equal(t, in.Known, c.H)
			require.Equal(t, in.Known, c.W)
			require.True(t, c.Proved)
			require.Equal(t, in.Known, c.Lower)
			require.Empty(t, faultOfRects(c.W, c.H, in.Rects, c.Places))
		})
	}
}

func TestLeastHeightOfPublishedStrips(t *testing.T) {
	slow := map[string]bool{"HT_C2_P1": true, "BKW_N03": true, "HT_C4_P1": true, "HT_C4_P3": true}
	for _, pattern := range []string{"strip/HT_C[1-3]*.txt", "strip/HOPPER_*1?.txt", "strip/BKW_N01.txt"} {
		for name, in := range published(t, pattern) {
			if slow[name] && !*long {
				continue
			}
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				c, err := LeastHeight(context.Background(), in.W, in.Rects, Options{})
				require.NoError(t, err)
				require.Equal(t, in.Known, c.H)
				require.True(t, c.Proved)
				require.Empty(t, faultOfRects(c.W, c.H, in.Rects, c.Places))
			})
		}
	}
}

// Two hundred rectangles: the beams alone, within a bound on their steps.
func TestBeamsOnManyRectangles(t *testing.T) {
	for name, in := range published(t, "strip/HT_C[57]*.txt") {
		c, err := LeastHeight(context.Background(), in.W, in.Rects, Options{Steps: 50000})
		require.NoError(t, err, name)
		require.Empty(t, faultOfRects(c.W, c.H, in.Rects, c.Places), name)
		assert.LessOrEqual(t, c.H, in.Known+in.Known/12, name)
		assert.Equal(t, in.Known, c.Lower, name)
	}
}

// slowLeastHeight tries one height after the other with the twin.
func slowLeastHeight(w int64, rects []Rect) int64 {
	for h := int64(1); ; h++ {
		if rectTwin(w, h, rects, nil) {
			return h
		}
	}
}

func TestLeastAgreesWithTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rects []Rect
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			rects = append(rects, Rect{rapid.Int64Range(1, 4).Draw(t, "w"), rapid.Int64Range(1, 4).Draw(t, "h"), rapid.Bool().Draw(t, "turn")})
		}
		w := rapid.Int64Range(4, 6).Draw(t, "width")
		c, err := LeastHeight(context.Background(), w, rects, Options{})
		require.NoError(t, err)
		require.True(t, c.Proved)
		require.Equal(t, slowLeastHeight(w, rects), c.H)
		require.Empty(t, faultOfRects(c.W, c.H, rects, c.Places))
	})
}

func TestFrontierIsLeastAtEachWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rects []Rect
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			rects = append(rects, Rect{rapid.Int64Range(1, 3).Draw(t, "w"), rapid.Int64Range(1, 3).Draw(t, "h"), rapid.Bool().Draw(t, "turn")})
		}
		list, complete, err := Frontier(context.Background(), rects, 3, 8, Options{})
		require.NoError(t, err)
		require.True(t, complete)
		for w := int64(3); w <= 8; w++ {
			best := int64(1 << 60)
			for _, c := range list {
				if c.W <= w {
					best = min(best, c.H)
				}
			}
			require.Equal(t, slowLeastHeight(w, rects), best, "width %d", w)
		}
		for i := 1; i < len(list); i++ {
			require.Less(t, list[i-1].W, list[i].W)
			require.Greater(t, list[i-1].H, list[i].H)
		}
	})
}

func TestLeastErrors(t *testing.T) {
	ctx := context.Background()
	_, err := LeastSquare(ctx, nil, Options{})
	assert.ErrorContains(t, err, "no rectangles")
	_, err = LeastSquare(ctx, []Rect{{W: 3}}, Options{})
	assert.ErrorContains(t, err, "rectangle 0, 3 x 0")
	_, err = LeastHeight(ctx, 0, []Rect{{W: 3, H: 3}}, Options{})
	assert.ErrorContains(t, err, "width 0")
	_, err = LeastHeight(ctx, 5, []Rect{{W: 3, H: 3}, {W: 6, H: 2}}, Options{})
	assert.ErrorIs(t, err, ErrNothingFound)
	_, _, err = Frontier(ctx, []Rect{{W: 3, H: 3}}, 5, 4, Options{})
	assert.Error(t, err)
}

func TestCancelledLeastIsNotProved(t *testing.T) {
	in := published(t, "strip/HT_C4_P1.txt")["HT_C4_P1"]
	c, err := LeastHeight(context.Background(), in.W, in.Rects, Options{Steps: 3000})
	require.NoError(t, err)
	assert.False(t, c.Proved)
	assert.Equal(t, in.Known, c.Lower)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	c, err = LeastHeight(ctx, in.W, in.Rects, Options{})
	require.NoError(t, err)
	assert.False(t, c.Proved)
	assert.Empty(t, faultOfRects(c.W, c.H, in.Rects, c.Places))
	c, err = LeastSquare(ctx, consecutive(30), Options{})
	require.NoError(t, err)
	assert.False(t, c.Proved)
	assert.Empty(t, faultOfRects(c.W, c.H, consecutive(30), c.Places))
}

func TestReadInstance(t *testing.T) {
	in, err := ReadInstance(strings.NewReader("\ufeff# name, source\r\n#more\r\n\r\nstrip 10 -\r\n3 4\r\n  5\t6 \r\n"), "x")
	require.NoError(t, err)
	assert.Equal(t, &Instance{Kind: StripKind, W: 10, Rects: []Rect{{W: 3, H: 4}, {W: 5, H: 6}}, Comments: []string{"name, source", "more"}}, in)
	for text, want := range map[string]string{
		"":                                         "f: no instance in it",
		"# only words\n":                           "f: no instance in it",
		"container 3 4\n":                          "f: no rectangles",
		"box 3 4\n":                                `f:1: "box" is no kind of instance: want container`,
		"container 3\n1 1\n":                       `f:1: "container" wants 2 numbers after it, there are 1`,
		"min-square 3 4\n1 1\n":                    `f:1: "min-square" wants 1 numbers after it, there are 2`,
		"container 3 -4\n1 1\n":                    `f:1: "-4": want a whole number from 1 to 1073741824`,
		"container 3 -\n1 1\n":                     `f:1: "-"`,
		"# c\nmin-square 5\n1 1\n2 2.5\n":          `f:4: "2.5"`,
		"min-square 5\n1 1073741825\n":             `f:2: "1073741825"`,
		"min-square 5\n1 99999999999999999999\n":   `f:2: "99999999999999999999"`,
		"min-square 5\n0 1\n":                      `f:2: "0"`,
		"min-square 5\n1 2 3\n":                    "f:2: a rectangle is two numbers, width and height; there are 3 words",
		"min-square 5\n1\x002\n":                   "f:2: not a text file",
		"\x7fELF\xff\xfe":                          "f:1: not a text file",
		"strip 5 5\n" + strings.Repeat("1", 1<<17): "f:2: line longer than 65536 bytes",
	} {
		_, err := ReadInstance(strings.NewReader(text), "f")
		assert.ErrorContains(t, err, want)
	}
}

func FuzzReadInstance(f *testing.F) {
	f.Add("# c\ncontainer 3 4\n1 1\n")
	f.Add("min-square -\n2 2\n")
	f.Fuzz(func(t *testing.T, text string) {
		in, err := ReadInstance(strings.NewReader(text), "f")
		if err != nil {
			require.True(t, strings.HasPrefix(err.Error(), "f:"), err)
			return
		}
		require.NotEmpty(t, in.Rects)
		for _, r := range in.Rects {
			require.True(t, r.W >= 1 && r.H >= 1 && r.W <= MaxInstanceSide && r.H <= MaxInstanceSide)
		}
	})
}

func BenchmarkPlain(b *testing.B) {
	for _, c := range []string{
		"perfect/SPSS_21_112", "perfect/SPSS_25_147", "feas/CJCM_E03N16", "feas/CJCM_E02F22",
		"minbox/KORF_SQ_18", "minsquare/A005842_15", "minsquare/A005842_17",
	} {
		name := c[strings.Index(c, "/")+1:]
		b.Run(name, func(b *testing.B) {
			in := published(b, c+".txt")[name]
			for b.Loop() {
				if in.Kind == ContainerKind {
					_, err := FitRects(context.Background(), in.W, in.H, in.Rects, Options{})
					require.NoError(b, err)
					continue
				}
				_, err := LeastSquare(context.Background(), in.Rects, Options{})
				require.NoError(b, err)
			}
		})
	}
}

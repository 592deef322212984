package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var themes = []struct {
	name string
	opt  Options
}{{"colour", Options{}}, {"plain", Options{NoColor: true}}, {"ascii", Options{NoColor: true, ASCII: true}}}

// states are what a player may see, with the keys that lead there.
var states = []struct {
	name string
	keys []string
}{
	{"start", nil},
	{"chosen", []string{"tab", "tab"}},
	{"picked up, in conflict", []string{"tab", "tab", "tab", "space", "shift+left", "3", "left", "left", "left", "left"}},
	{"no place, all hidden but leads", []string{"/", "l", "a", "t", "e", "enter", "v", "c", "e", "p", "w", "s", "esc"}},
	{"cable chosen, audio and power", []string{"c", "k", "k", "k"}},
	{"lead chosen, power alone", []string{"c", "c", "K", "K"}},
	{"cables of a moved unit", []string{"/", "b", "o", "w", "enter", "space", "3", "right", "space", "k"}},
	{"power page", []string{"e"}},
	{"kit page", []string{"x"}},
	{"close up, moved, other views", []string{"/", "b", "o", "w", "enter", "z", "-", "v", "f", "esc", "space", "right", "right"}},
	{"underside", []string{"tab", "D"}},
	{"with a neighbour", []string{"tab", "n", "tab", "tab"}},
	{"finding", []string{"f", "f"}},
	{"show", []string{"v"}},
	{"looking", []string{"/", "e"}},
	{"question", []string{"tab", "p", "q"}},
	{"help", []string{"tab", "?"}},
	{"other line-up, unit page", []string{"l", "tab", "tab", "i"}},
	{"all findings", []string{"w", "down"}},
	{"save as", []string{"S"}},
	{"switched line-up", []string{"l"}},
	{"changeover page without a card", []string{"g"}},
	{"what to buy", []string{"B"}},
}

// Every frame over sizes, states and themes; -update writes them anew.
func TestFrames(t *testing.T) {
	sum := sumOnce(sumUp)
	for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}, {79, 23}} {
		for _, theme := range themes {
			t.Run(fmt.Sprintf("%dx%d-%s", size[0], size[1], theme.name), func(t *testing.T) {
				var b strings.Builder
				for _, s := range states {
					opt := theme.opt
					opt.fasten, opt.sum = stick, sum
					p := newPlayer(t, opt, size[0], size[1]).keys(s.keys...)
					frame := p.m.View()
					requireInside(t, frame, size[0], size[1])
					if theme.opt.NoColor {
						require.NotContains(t, frame, "\x1b", "escape sequences without colour")
					}
					if theme.opt.ASCII {
						requireASCII(t, frame)
					}
					fmt.Fprintf(&b, "#### %s\n%s\n", s.name, frame)
					if size[0] < leastWidth && len(s.keys) > 0 {
						break // too small for anything but one message
					}
				}
				golden.RequireEqual(t, b.String())
			})
		}
	}
}

func requireInside(t testing.TB, frame string, w, h int) {
	t.Helper()
	if why := outside(frame, w, h); why != "" {
		t.Fatal(why)
	}
}

// outside says how a frame leaves its screen, "" when it does not.
func outside(frame string, w, h int) string {
	lines := strings.Split(frame, "\n")
	if len(lines) > max(h, 1) {
		return fmt.Sprintf("%d lines on a screen of %d:\n%s", len(lines), h, frame)
	}
	for i, l := range lines {
		if n := ansi.StringWidth(l); n > w {
			return fmt.Sprintf("line %d is %d cells wide on a screen of %d: %q", i, n, w, l)
		}
	}
	return ""
}

func requireASCII(t testing.TB, frame string) {
	t.Helper()
	for _, l := range strings.Split(frame, "\n") {
		for _, r := range l {
			if r >= 0x7f || r < ' ' {
				t.Fatalf("%q in %q", r, l)
			}
		}
	}
}

// The parts of the screen never overlap, never leave it, and cover every row.
func TestAreas(t *testing.T) {
	for w := leastWidth; w <= 320; w += 7 {
		for h := leastHeight; h <= 120; h += 3 {
			a := divide(w, h)
			grid := make([]int, w*h)
			for _, r := range []area{a.header, a.board, a.list, a.detail, a.findings, a.says, a.hints} {
				for y := r.y; y < r.y+r.h; y++ {
					for x := r.x; x < r.x+r.w; x++ {
						if x >= w || y >= h || x < 0 || y < 0 {
							t.Fatalf("%dx%d: %v leaves the screen", w, h, r)
						}
						grid[y*w+x]++
					}
				}
			}
			for i, n := range grid {
				if n != 1 {
					t.Fatalf("%dx%d: cell %d,%d is in %d parts", w, h, i%w, i/w, n)
				}
			}
			require.GreaterOrEqual(t, a.board.w, 56)
			require.GreaterOrEqual(t, a.board.h, 18)
		}
	}
	assert.Equal(t, tooSmall, divide(leastWidth-1, leastHeight).span)
	assert.Equal(t, tooSmall, divide(leastWidth, leastHeight-1).span)
	assert.Equal(t, compact, divide(leastWidth, leastHeight).span)
	assert.Equal(t, roomy, divide(120, 40).span)
	assert.Equal(t, roomy, divide(200, 60).span)
	assert.Equal(t, wide, divide(240, 60).span)
}

func TestTooSmallSaysSoAndQuits(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 79, 23)
	assert.Contains(t, p.m.View(), "80 x 24")
	assert.Contains(t, p.m.View(), "79 x 23")
	p.keys("tab", "p", "x")
	assert.False(t, p.m.history.Dirty(), "keys that cannot be seen to work do nothing")
	p.keys("q")
	assert.True(t, p.left)
	for _, size := range [][2]int{{1, 1}, {0, 0}, {5, 2}, {79, 3}} {
		p := newPlayer(t, Options{}, size[0], size[1])
		requireInside(t, p.m.View(), size[0], max(size[1], 1))
	}
}

func TestTooSmallAsksBeforeItLosesChanges(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("tab", "p")
	p.m.w, p.m.h = 40, 10
	p.m.areas = divide(40, 10)
	p.keys("q")
	assert.False(t, p.left)
	assert.Contains(t, p.m.View(), "not saved")
	p.keys("d")
	assert.True(t, p.left)
}

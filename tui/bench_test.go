package tui

import (
	"cmp"
	"context"
	"maps"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout/plan"
)

// usualKeys are what a player presses, as often as they stand here.
var usualKeys = []string{
	"left", "right", "up", "down", "left", "right", "up", "down", "left", "right", "up", "down",
	"shift+left", "shift+right", "shift+up", "shift+down", "ctrl+left", "ctrl+right", "ctrl+up", "ctrl+down",
	"tab", "tab", "tab", "shift+tab", "space", "space", "space", "esc", "t", "T", "1", "2", "2", "3", "4", "u", "u", "r",
	"left", "right", "up", "down", "left", "right", "up", "down", "left", "right", "up", "down",
	"p", "m", "o", "l", "f", "f", "+", "-", "z", "0", "pgup", "end", "d", "c", "k", "n", "x", "i", "w", "e", "?", "v",
}

// seasoned is an editor of the built-in example, arranged, with all that is
// known of it already and nothing more to be summed up: cables and leads are laid
// after a key, while fastener, kit and power map follow by themselves.
func seasoned(b *testing.B, w, h int) *player {
	found, err := arrangedPlan(exampleDoc(b).Plan)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(collectRarely()) // as Run does
	p := &player{t: b, m: newModel(context.Background(), &disk{}, "", found, Options{}), disk: &disk{}}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	p.m.wires.summing, p.m.bedding.laying = true, true
	return p
}

// BenchmarkKeyToFrame is from a key to the frame with findings and all cables
// and leads laid anew, over a long sequence of keys that is always the same. With
// -v it says which keys take longest.
func BenchmarkKeyToFrame(b *testing.B) {
	for name, size := range map[string][2]int{"80x24": {80, 24}, "200x60": {200, 60}} {
		b.Run(name, func(b *testing.B) {
			p := seasoned(b, size[0], size[1])
			random := rand.New(rand.NewPCG(7, 11))
			var took, edits []time.Duration
			byKey := map[string][]time.Duration{}
			b.ReportAllocs()
			for b.Loop() {
				key := usualKeys[random.IntN(len(usualKeys))]
				if p.m.mode == reading {
					key = "esc" // a page is looked at, and left
				}
				was, start := p.m.plan(), time.Now()
				p.keys(key)
				frame := p.m.View()
				now := time.Since(start)
				took = append(took, now)
				if p.m.plan() != was {
					edits = append(edits, now)
					key += " (edit)"
				}
				byKey[key] = append(byKey[key], now)
				if frame == "" || p.m.wires.now.plan != p.m.plan() && p.m.wires.sums.plan != p.m.plan() {
					b.Fatal("no frame with the runs of now")
				}
			}
			report(b, took, "")
			report(b, edits, "edit-")
			if testing.Verbose() {
				slowest(b, byKey)
			}
		})
	}
}

// report gives the median and the slowest of a hundred, of all keys or of those
// that changed the plan.
func report(b *testing.B, took []time.Duration, of string) {
	if len(took) == 0 {
		return
	}
	slices.Sort(took)
	b.ReportMetric(at(took, 50), of+"median-ms")
	b.ReportMetric(at(took, 99), of+"p99-ms")
}

// at is what so many of a hundred take at most, in ms.
func at(sorted []time.Duration, hundredths int) float64 {
	return float64(sorted[len(sorted)*hundredths/100]) / 1e6
}

// slowest lists the keys whose slowest of a hundred take longest.
func slowest(b *testing.B, byKey map[string][]time.Duration) {
	keys := slices.Collect(maps.Keys(byKey))
	for _, took := range byKey {
		slices.Sort(took)
	}
	slices.SortFunc(keys, func(k, l string) int { return cmp.Compare(at(byKey[l], 99), at(byKey[k], 99)) })
	for _, k := range keys[:min(12, len(keys))] {
		b.Logf("%-20s %4d times, median %6.2f ms, p99 %6.2f ms", k, len(byKey[k]), at(byKey[k], 50), at(byKey[k], 99))
	}
}

// BenchmarkDrag is from the mouse moving a held unit to the frame.
func BenchmarkDrag(b *testing.B) {
	p := seasoned(b, 200, 60)
	u := p.m.plan().UnitsIn(p.m.lineupNow())[0]
	pl, _ := p.m.plan().PlaceOf(p.m.lineupNow(), u)
	at := u.Base(pl).Center()
	x, y := p.cellAt(at.X.MM(), at.Y.MM())
	p.mouse(tea.MouseActionPress, tea.MouseButtonLeft, x, y)
	i := 0
	for b.Loop() {
		i++
		p.mouse(tea.MouseActionMotion, tea.MouseButtonLeft, x-i%20, y+i%7)
		if p.m.View() == "" {
			b.Fatal("no frame")
		}
	}
}

// BenchmarkMemory is what an editor holds after a thousand edits at 200 x 60,
// frames and all, in megabytes.
func BenchmarkMemory(b *testing.B) {
	before := held()
	var p *player
	for b.Loop() {
		p = seasoned(b, 200, 60)
		p.keys("tab", "space")
		for i := range 1000 {
			p.keys([]string{"left", "up", "right", "right", "down"}[i%5])
			if i%50 == 49 {
				p.keys("space", "tab", "space")
			}
			p.m.View()
		}
	}
	after := held()
	b.ReportMetric(float64(after)/1e6-float64(before)/1e6, "MB")
	runtime.KeepAlive(p)
}

func held() uint64 {
	runtime.GC()
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	return s.HeapAlloc
}

// BenchmarkFirstFrame is from the plan's text to the first frame.
func BenchmarkFirstFrame(b *testing.B) {
	e := plan.Examples()[0]
	for b.Loop() {
		doc, err := plan.Parse(e.Name, e.Source, nil)
		if err != nil {
			b.Fatal(err)
		}
		m := New(doc, Options{})
		m.Update(tea.WindowSizeMsg{Width: 200, Height: 60})
		if m.View() == "" {
			b.Fatal("no frame")
		}
	}
}

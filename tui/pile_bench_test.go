package tui

import (
	"testing"
	"time"
)

// BenchmarkFormKey is a digit typed into a card of the example at 200 x 60: the
// draft made and checked as its file would be read, its findings, and the frame.
func BenchmarkFormKey(b *testing.B) {
	b.Cleanup(collectRarely())
	p := newcomer(b, Options{}, 200, 60)
	p.keys("esc", "esc", "tab", "E", "down", "down").text("7")
	p.held = true // cables and fastener are laid in the background
	var all []time.Duration
	for b.Loop() {
		start := time.Now()
		if p.keys("1"); len(p.m.View()) == 0 {
			b.Fatal("no frame")
		}
		all = append(all, time.Since(start))
		p.keys("backspace")
	}
	report(b, all, "")
}

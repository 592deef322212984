//go:build unix

package main

import (
	"bytes"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// The mouse is asked for, unless it is to stay with the terminal.
func TestNoMouseLeavesItToTheTerminal(t *testing.T) {
	const asks = "\x1b[?1002h"
	for _, c := range []struct {
		args []string
		want bool
	}{{nil, true}, {[]string{"--no-mouse"}, false}} {
		s := openScreen(t, 80, 24, c.args...)
		s.wait("quit")
		assert.Equal(t, c.want, bytes.Contains(s.seen.Bytes(), []byte(asks)), "%v", c.args)
		s.press("q")
		code, _ := s.end()
		assert.Equal(t, exitFine, code)
		assert.Contains(t, s.seen.String(), "\x1b[?1049l", "the screen is given back")
	}
}

// BenchmarkStart is from the start of the program to the last line of its first
// frame at 200 x 60, as a terminal sees it, and how much memory it had at most.
func BenchmarkStart(b *testing.B) {
	var first time.Duration
	var most int64
	n := 0
	for b.Loop() {
		start := time.Now()
		s := openScreen(b, 200, 60)
		s.wait("quit")
		first += time.Since(start)
		n++
		s.press("q")
		if code, last := s.end(); code != exitFine {
			b.Fatalf("exit code %d: %q", code, last)
		}
		if r, ok := s.cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
			most = max(most, r.Maxrss)
		}
	}
	b.ReportMetric(float64(first.Milliseconds())/float64(n), "first-frame-ms")
	b.ReportMetric(float64(most)/1e3, "MB") // Linux counts in kilobytes
}

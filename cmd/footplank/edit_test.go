//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// screen is the editor running in a pseudo-terminal.
type screen struct {
	cmd  *exec.Cmd
	tty  *os.File
	seen bytes.Buffer
}

// openScreen starts the program in a terminal of that size. Whatever goes wrong,
// it ends with the test.
func openScreen(t testing.TB, cols, rows uint16, args ...string) *screen {
	cmd := exec.Command("footplank", args...)
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: cols, Rows: rows})
	require.NoError(t, err)
	t.Cleanup(func() {
		tty.Close()
		_ = cmd.Process.Kill() // when it has not ended by itself
		_ = cmd.Wait()
	})
	return &screen{cmd: cmd, tty: tty}
}

// wait reads until the program has written the text.
func (s *screen) wait(t testing.TB, text string) {
	b := make([]byte, 64<<10)
	for !bytes.Contains(s.seen.Bytes(), []byte(text)) {
		n, err := s.tty.Read(b)
		s.seen.Write(b[:n])
		if err != nil {
			t.Fatalf("%v before %q came; it wrote %q", err, text, s.seen.Bytes())
		}
	}
}

func (s *screen) press(t testing.TB, keys string) {
	_, err := s.tty.WriteString(keys)
	require.NoError(t, err)
}

// end reads what is left and waits for the program.
func (s *screen) end() error {
	b := make([]byte, 64<<10)
	for {
		n, err := s.tty.Read(b)
		s.seen.Write(b[:n])
		if err != nil {
			return s.cmd.Wait()
		}
	}
}

// The mouse is asked for, unless it is to stay with the terminal.
func TestNoMouseLeavesItToTheTerminal(t *testing.T) {
	const asks = "\x1b[?1002h"
	for _, c := range []struct {
		args []string
		want bool
	}{{nil, true}, {[]string{"--no-mouse"}, false}} {
		s := openScreen(t, 80, 24, c.args...)
		s.wait(t, "quit")
		assert.Equal(t, c.want, bytes.Contains(s.seen.Bytes(), []byte(asks)), "%v", c.args)
		s.press(t, "q")
		assert.NoError(t, s.end())
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
		s.wait(b, "quit")
		first += time.Since(start)
		n++
		s.press(b, "q")
		if err := s.end(); err != nil {
			b.Fatal(err)
		}
		if r, ok := s.cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
			most = max(most, r.Maxrss)
		}
	}
	b.ReportMetric(float64(first.Milliseconds())/float64(n), "first-frame-ms")
	b.ReportMetric(float64(most)/1e3, "MB") // Linux counts in kilobytes
}

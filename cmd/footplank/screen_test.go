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
	"github.com/stretchr/testify/require"
)

// screen is the program in a pseudo-terminal of its own.
type screen struct {
	t    testing.TB
	cmd  *exec.Cmd
	tty  *os.File
	seen bytes.Buffer // all that it has written
}

// tooLong is when a program that still runs is ended, so that a test which waits for
// what never comes fails and says what it saw. It is many times what any takes.
const tooLong = 3 * time.Minute

// openScreen starts the program in a terminal of that size. Whatever goes wrong,
// it ends with the test.
func openScreen(t testing.TB, cols, rows uint16, args ...string) *screen {
	t.Helper()
	return openIn(t, cols, rows, &syscall.SysProcAttr{Setsid: true, Setctty: true}, args...)
}

// openIn is openScreen with what the program's session is to be.
func openIn(t testing.TB, cols, rows uint16, session *syscall.SysProcAttr, args ...string) *screen {
	t.Helper()
	cmd := exec.Command("footplank", args...)
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	tty, err := pty.StartWithAttrs(cmd, &pty.Winsize{Cols: cols, Rows: rows}, session)
	require.NoError(t, err)
	late := time.AfterFunc(tooLong, func() { _ = cmd.Process.Kill() })
	t.Cleanup(func() {
		late.Stop()
		tty.Close()
		_ = cmd.Process.Kill() // when it has not ended by itself
		_ = cmd.Wait()
	})
	return &screen{t: t, cmd: cmd, tty: tty}
}

// read reads what comes next.
func (s *screen) read() error {
	b := make([]byte, 64<<10)
	n, err := s.tty.Read(b)
	s.seen.Write(b[:n])
	return err
}

// wait reads until the program has written the text.
func (s *screen) wait(text string) {
	s.t.Helper()
	for !bytes.Contains(s.seen.Bytes(), []byte(text)) {
		if err := s.read(); err != nil {
			s.t.Fatalf("%v before %q came; it wrote %q", err, text, s.seen.Bytes())
		}
	}
}

func (s *screen) press(keys string) {
	s.t.Helper()
	_, err := s.tty.WriteString(keys)
	require.NoError(s.t, err)
}

// end reads what is left, which ends with an error when the program does, and
// returns the exit code and what was left.
func (s *screen) end() (code int, last string) {
	before := s.seen.Len()
	for s.read() == nil {
	}
	_ = s.cmd.Wait() // the exit code says it
	return s.cmd.ProcessState.ExitCode(), s.seen.String()[before:]
}

//go:build unix

package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A terminal library that asks for the background's colour waits five seconds
// for a terminal that never answers. The question itself would be seen here, so
// there is no need of a clock; the deadline only ends a test that hangs.
func TestVersionAsksTheTerminalNothing(t *testing.T) {
	master, slave, err := pty.Open()
	require.NoError(t, err)
	defer master.Close()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, "footplank", "--version")
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = slave, slave, slave
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, cmd.Start())
	require.NoError(t, slave.Close())
	terminal := &screen{t: t, cmd: cmd, tty: master}
	code, got := terminal.end()
	require.Equal(t, exitFine, code)
	assert.True(t, strings.HasPrefix(got, "footplank "), "%q", got)
	assert.NotContains(t, got, "\x1b", "a question to the terminal")
}

// Text is as wide as the terminal, or as COLUMNS says, from 60 to 160 cells; in
// a pipe it is 80.
func TestTextIsAsWideAsTheTerminal(t *testing.T) {
	for _, c := range []struct {
		terminal     uint16
		columns      string
		more, atMost int
	}{{120, "", 80, 120}, {72, "", 60, 72}, {200, "", 120, 160}, {120, "100", 80, 100}, {40, "", 50, 60}} {
		got := onTerminal(t, c.terminal, c.columns, "wiring", "../../testdata/tour/board.toml")
		widest := 0
		for _, l := range strings.Split(got, "\r\n") {
			widest = max(widest, ansi.StringWidth(l))
		}
		assert.LessOrEqual(t, widest, c.atMost, "%+v", c)
		assert.Greater(t, widest, c.more, "%+v", c)
	}
}

// onTerminal returns what a command writes to a terminal of that width.
func onTerminal(t *testing.T, cols uint16, columns string, args ...string) string {
	master, slave, err := pty.Open()
	require.NoError(t, err)
	defer master.Close()
	require.NoError(t, pty.Setsize(master, &pty.Winsize{Rows: 24, Cols: cols}))
	cmd := exec.Command("footplank", args...)
	cmd.Env = append(os.Environ(), "COLUMNS="+columns)
	cmd.Stdout, cmd.Stderr = slave, slave
	require.NoError(t, cmd.Start())
	require.NoError(t, slave.Close())
	terminal := &screen{t: t, cmd: cmd, tty: master}
	code, got := terminal.end()
	require.Equal(t, exitFine, code)
	return got
}

// A program that waits for a plan to be typed says so, and takes it.
func TestPlanTypedInATerminal(t *testing.T) {
	s := openScreen(t, 80, 24, "check", "-")
	s.wait("reading a plan from standard input: Ctrl-D ends it")
	s.press("[board]\nsize = [300, 200]\nmass = \"1kg\"\n\x04")
	code, last := s.end()
	assert.Equal(t, exitFine, code)
	assert.Contains(t, last, "all: fits")
}

// A reader that has had enough, like `head`, is no reason for a message.
func TestClosedPipeIsNoError(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	require.NoError(t, r.Close())
	cmd := exec.Command("footplank", "forms")
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = w, &said
	_ = cmd.Run() // by signal or by exit code, whichever way the system has it
	require.NoError(t, w.Close())
	assert.Empty(t, said.String())
}

// A full disk is an error, and said.
func TestOutputThatCannotBeWritten(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no /dev/full")
	}
	defer full.Close()
	cmd := exec.Command("footplank", "forms")
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = full, &said
	var exit *exec.ExitError
	require.ErrorAs(t, cmd.Run(), &exit)
	assert.Equal(t, exitBad, exit.ExitCode())
	assert.Contains(t, said.String(), "standard output")
}

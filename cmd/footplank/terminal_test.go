//go:build unix

package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

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
	said := make(chan string, 1)
	go func() {
		b, _ := io.ReadAll(master) // ends with an error when the other side closes
		said <- string(b)
	}()
	require.NoError(t, cmd.Wait())
	got := <-said
	assert.True(t, strings.HasPrefix(got, "footplank "), "%q", got)
	assert.NotContains(t, got, "\x1b", "a question to the terminal")
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

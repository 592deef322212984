//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

// Ctrl-C ends arrange early, with the best so far and nothing written.
func TestInterruptedArrangeReportsTheBestSoFar(t *testing.T) {
	master, slave, err := pty.Open()
	require.NoError(t, err)
	defer master.Close()
	dir := t.TempDir()
	before := plan.Examples()[0].Source
	file := filepath.Join(dir, "board.toml")
	require.NoError(t, os.WriteFile(file, before, 0o666))

	cmd := exec.Command("footplank", "arrange", file, "--seconds", "600", "--save")
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, slave // the terminal shows progress
	require.NoError(t, cmd.Start())
	require.NoError(t, slave.Close())
	terminal := &screen{t: t, cmd: cmd, tty: master}
	terminal.wait("fits with")
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	code, _ := terminal.end()
	said := terminal.seen.String()
	assert.Equal(t, exitInterrupted, code, "%s", said)
	assert.Contains(t, said, "interrupted")
	assert.Contains(t, said, "nothing was written")
	assert.Contains(t, out.String(), "barn")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
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
	said := readUntil(t, master, "fits with")
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	rest := make(chan string, 1)
	go func() {
		b, _ := io.ReadAll(master) // ends with an error when the other side closes
		rest <- string(b)
	}()
	err = cmd.Wait()
	said += <-rest

	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, exitInterrupted, exit.ExitCode(), "%s", said)
	assert.Contains(t, said, "interrupted")
	assert.Contains(t, said, "nothing was written")
	assert.Contains(t, out.String(), "barn")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

// readUntil reads from the terminal until the words have come.
func readUntil(t *testing.T, r io.Reader, words string) string {
	t.Helper()
	var got strings.Builder
	buf := make([]byte, 1024)
	for !strings.Contains(got.String(), words) {
		n, err := r.Read(buf)
		got.Write(buf[:n])
		require.NoError(t, err, "before %q came: %s", words, &got)
	}
	return got.String()
}

//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

// Whoever reads the report may stop, as head and a pager do: what was to be
// saved is saved before it.
func TestSavedThoughNobodyReadsTheReport(t *testing.T) {
	file := filepath.Join(t.TempDir(), "board.toml")
	require.NoError(t, os.WriteFile(file, plan.Examples()[1].Source, 0o666))
	r, w, err := os.Pipe()
	require.NoError(t, err)
	require.NoError(t, r.Close())
	cmd := exec.Command("footplank", "arrange", file, "--first", "--seconds", "300", "--save")
	cmd.Stdout = w
	_ = cmd.Run() // the signal of the pipe may end it
	require.NoError(t, w.Close())

	require.NoError(t, exec.Command("footplank", "check", file).Run())
}

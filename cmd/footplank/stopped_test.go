//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

// startEditor opens a plan in the least terminal, what is put by being in a folder
// of the test's own.
func startEditor(t *testing.T, state, file string) *screen {
	t.Helper()
	return startEditorIn(t, &syscall.SysProcAttr{Setsid: true, Setctty: true}, state, file)
}

func startEditorIn(t *testing.T, session *syscall.SysProcAttr, state, file string) *screen {
	t.Helper()
	t.Setenv("NO_COLOR", "1")
	t.Setenv("XDG_STATE_HOME", state)
	return openIn(t, 80, 24, session, "edit", file)
}

// Told to go in the middle of an edit, the editor puts the plan by, leaves the
// terminal as it found it, and offers the plan the next time.
func TestStoppedEditorLosesNothing(t *testing.T) {
	for name, sig := range map[string]os.Signal{"terminated": syscall.SIGTERM, "hung up": syscall.SIGHUP, "interrupted": os.Interrupt} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			state, file := filepath.Join(dir, "state"), filepath.Join(dir, "board.toml")
			before := pocket(t)
			require.NoError(t, os.WriteFile(file, before, 0o644))

			e := startEditor(t, state, file)
			e.wait("shows")
			e.press("\tt") // choose a unit, turn it or put it down somewhere
			e.press(" ")
			e.wait("not saved")
			require.NoError(t, e.cmd.Process.Signal(sig))
			code, last := e.end()
			assert.Equal(t, exitInterrupted, code)
			assert.Contains(t, last, "\x1b[?1049l", "back from the screen of its own")
			assert.Contains(t, last, "\x1b[?25h", "with the cursor to be seen")
			assert.Contains(t, last, "put by")
			after, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Equal(t, string(before), string(after), "nothing is saved unasked")

			e = startEditor(t, state, file)
			e.wait("ended unasked")
			e.press("u")
			e.wait("Take up")
			e.press("s")
			e.wait("Saved")
			e.press("q")
			code, _ = e.end()
			assert.Equal(t, 0, code)
			after, err = os.ReadFile(file)
			require.NoError(t, err)
			assert.NotEqual(t, string(before), string(after))
			for _, folder := range []string{"open", "unsaved"} {
				left, err := os.ReadDir(filepath.Join(state, "footplank", folder))
				require.NoError(t, err)
				assert.Empty(t, left, folder)
			}
		})
	}
}

// The connection is lost: there is nobody left to talk to, and nothing is lost. A
// program whose session has no controlling terminal gets no signal for it, and must
// see it by what it reads.
func TestLostTerminalLosesNothing(t *testing.T) {
	for name, session := range map[string]*syscall.SysProcAttr{
		"hung up": {Setsid: true, Setctty: true},
		"ended":   {Setsid: true},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			state, file := filepath.Join(dir, "state"), filepath.Join(dir, "board.toml")
			require.NoError(t, os.WriteFile(file, pocket(t), 0o644))
			e := startEditorIn(t, session, state, file)
			e.wait("shows")
			e.press("\tt ")
			e.wait("not saved")
			require.NoError(t, e.tty.Close())
			_ = e.cmd.Wait() // by signal or by exit code
			assert.NotContains(t, e.cmd.ProcessState.String(), "killed", "it leaves by itself")
			left, err := os.ReadDir(filepath.Join(state, "footplank", "unsaved"))
			require.NoError(t, err)
			assert.Len(t, left, 1)
		})
	}
}

// A second editor on the same plan is told so.
func TestSecondEditorIsTold(t *testing.T) {
	dir := t.TempDir()
	state, file := filepath.Join(dir, "state"), filepath.Join(dir, "board.toml")
	require.NoError(t, os.WriteFile(file, pocket(t), 0o644))
	first := startEditor(t, state, file)
	first.wait("shows")
	second := startEditor(t, state, file)
	second.wait("open in another editor")
	for _, e := range []*screen{second, first} {
		e.press("q")
		code, _ := e.end()
		assert.Equal(t, 0, code)
	}
}

// pocket is an example with places for its units.
func pocket(t *testing.T) []byte {
	t.Helper()
	for _, x := range plan.Examples() {
		if x.Name == "pocket" {
			return x.Source
		}
	}
	t.Fatal("no such example")
	return nil
}

//go:build unix

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

// editor is the program in a terminal of its own.
type editor struct {
	t      *testing.T
	cmd    *exec.Cmd
	master *os.File
	said   strings.Builder
}

func startEditor(t *testing.T, state, file string) *editor {
	t.Helper()
	e := &editor{t: t, cmd: exec.Command("footplank", "edit", file)}
	e.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "NO_COLOR=1", "XDG_STATE_HOME="+state)
	master, err := pty.StartWithSize(e.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	e.master = master
	t.Cleanup(func() {
		master.Close()
		e.cmd.Process.Kill()
	})
	return e
}

// expect reads until the words have come.
func (e *editor) expect(words string) {
	e.t.Helper()
	e.said.WriteString(readUntil(e.t, e.master, words))
}

func (e *editor) keys(s string) {
	_, err := e.master.WriteString(s)
	require.NoError(e.t, err)
}

// end reads to the end and returns the exit code and what was said last.
func (e *editor) end() (code int, last string) {
	e.t.Helper()
	b, _ := io.ReadAll(e.master) // ends with an error when the other side closes
	err := e.cmd.Wait()
	code = e.cmd.ProcessState.ExitCode()
	if code != 0 {
		require.Error(e.t, err)
	}
	return code, string(b)
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
			e.expect("shows")
			e.keys("\tt") // choose a unit, turn it or put it down somewhere
			e.keys(" ")
			e.expect("not saved")
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
			e.expect("ended unasked")
			e.keys("u")
			e.expect("Take up")
			e.keys("s")
			e.expect("Saved")
			e.keys("q")
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

// The connection is lost: there is nobody left to talk to, and nothing is lost.
func TestLostTerminalLosesNothing(t *testing.T) {
	dir := t.TempDir()
	state, file := filepath.Join(dir, "state"), filepath.Join(dir, "board.toml")
	require.NoError(t, os.WriteFile(file, pocket(t), 0o644))
	e := startEditor(t, state, file)
	e.expect("shows")
	e.keys("\tt ")
	e.expect("not saved")
	require.NoError(t, e.master.Close())
	_ = e.cmd.Wait() // by signal or by exit code
	left, err := os.ReadDir(filepath.Join(state, "footplank", "unsaved"))
	require.NoError(t, err)
	assert.Len(t, left, 1)
}

// A second editor on the same plan is told so.
func TestSecondEditorIsTold(t *testing.T) {
	dir := t.TempDir()
	state, file := filepath.Join(dir, "state"), filepath.Join(dir, "board.toml")
	require.NoError(t, os.WriteFile(file, pocket(t), 0o644))
	first := startEditor(t, state, file)
	first.expect("shows")
	second := startEditor(t, state, file)
	second.expect("open in another editor")
	for _, e := range []*editor{second, first} {
		e.keys("q")
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

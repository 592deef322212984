package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"footplank/layout/plan"
)

var update = flag.Bool("update", false, "write the scripts' expected output anew")

// TestMain builds the program and puts it on the path, for the tests that run it
// as a player does: as a process of its own.
func TestMain(m *testing.M) { os.Exit(withProgram(m.Run)) }

func withProgram(run func() int) int {
	dir, err := os.MkdirTemp("", "footplank-test-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	name := "footplank"
	if runtime.GOOS == "windows" {
		name += ".exe"
	}
	if out, err := exec.Command("go", "build", "-o", filepath.Join(dir, name), ".").CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "go build: %v\n%s", err, out)
		return 1
	}
	// The player's own state is none of the tests' business.
	if err := os.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state")); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	if err := os.Setenv("PATH", dir+string(filepath.ListSeparator)+os.Getenv("PATH")); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return run()
}

// Each script is a player's session at the command line, in a folder with the
// examples and with files that are no plans.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("LONG", strings.Repeat("a", 300))
			e.Setenv("ESC", "\x1b[31m")
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "config"))
			for _, x := range plan.Examples() {
				if err := os.WriteFile(filepath.Join(e.WorkDir, x.Name+".toml"), x.Source, 0o666); err != nil {
					return err
				}
			}
			return unreadablePlans(e.WorkDir)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "json": validJSON, "same": same, "kept": kept},
	})
}

// exits CODE COMMAND [ARGUMENT...] runs the command, which must end with that
// exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(append(args, "")[0])
	if neg || err != nil || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND [ARGUMENT...]")
	}
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("%s: exit code %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

// json FILE wants the file, or stdout, to be one value of JSON.
func validJSON(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: json FILE")
	}
	if !json.Valid([]byte(ts.ReadFile(args[0]))) {
		ts.Fatalf("%s is not JSON", args[0])
	}
}

// same DIR wants the folder to hold exactly the files named after it.
func same(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: same DIR [FILE...]")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var found []string
	for _, e := range entries {
		found = append(found, e.Name())
	}
	if got, want := strings.Join(found, " "), strings.Join(args[1:], " "); got != want {
		ts.Fatalf("%s holds %q, want %q", args[0], got, want)
	}
}

// kept BOM CRLF wants the one plan to begin with a byte order mark still, and every
// line of the other to end with both characters.
func kept(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: kept BOM CRLF")
	}
	if text := ts.ReadFile(args[0]); !strings.HasPrefix(text, "\ufeff") || !strings.Contains(text, "place") {
		ts.Fatalf("%s has no mark, or no place, any more: %q", args[0], text)
	}
	text := ts.ReadFile(args[1])
	if n := strings.Count(text, "\n"); n < 5 || strings.Count(text, "\r\n") != n || !strings.Contains(text, "place") {
		ts.Fatalf("lines of %s end in another way, or nothing has a place: %q", args[1], text)
	}
}

const onePlaceless = `[board]
size = [200, 200]
mass = "1kg"
plug_room = { left = 60, right = 60, back = 60 }
[[unit]]
id = "rosin"
form = "mini"
`

// unreadablePlans writes plans that a script's archive cannot hold: bytes that
// are no text, and far too many of them; and plans of other systems.
func unreadablePlans(dir string) error {
	for name, text := range map[string]string{
		"binary.toml": "\x7fELF\x02\x01\x01\x00\x00\xff\xfe\x00title",
		"latin.toml":  "title = \"caf\xe9\"\n",
		"deep.toml":   "title = " + strings.Repeat("[", 100_000),
		"utf16.toml":  "\xff\xfet\x00i\x00t\x00l\x00e\x00",
		"bom.toml":    "\ufeff" + onePlaceless,
		"crlf.toml":   strings.ReplaceAll(onePlaceless, "\n", "\r\n"),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	huge, err := os.Create(filepath.Join(dir, "huge.toml"))
	if err != nil {
		return err
	}
	return errors.Join(huge.Truncate(100<<20), huge.Close())
}

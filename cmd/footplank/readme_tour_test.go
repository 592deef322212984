package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout/plan"
	"footplank/layout/sheet"
)

// block is a part of README.md between ```text and ```.
var block = regexp.MustCompile("(?ms)^```text\n(.*?)^```$")

// What README.md shows of the program is what it prints. A block is commands,
// each after a "$ ", and of what they print some passages, with "..." for what is
// left out. The tour's board is the built-in example, arranged and saved once:
// how far a search gets in its time is no matter for a test. With -update a
// passage is printed anew from its first line on, as long as it was.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	readme := filepath.Join(root(t), "README.md")
	text, err := os.ReadFile(readme)
	require.NoError(t, err)
	tour := newTour(t)
	blocks := 0
	fresh := block.ReplaceAllFunc(text, func(b []byte) []byte {
		blocks++
		was := string(block.FindSubmatch(b)[1])
		return []byte("```text\n" + tour.follow(was) + "```")
	})
	require.Positive(t, blocks)
	if *update {
		require.NoError(t, os.WriteFile(readme, fresh, 0o666))
		return
	}
	assert.Equal(t, string(text), string(fresh), "write it anew with -update, then read the difference")
}

// tour is a folder as the player of README.md has it.
type tour struct {
	t      *testing.T
	dir    string
	report []string // of the arranged board
}

func newTour(t *testing.T) *tour {
	r := &tour{t: t, dir: t.TempDir()}
	board, err := os.ReadFile(filepath.Join(root(t), "testdata", "tour", "board.toml"))
	require.NoError(t, err)
	r.write("board.toml", string(board))
	for _, x := range plan.Examples() {
		r.write(filepath.Join("layout", "plan", "examples", x.Name+".toml"), string(x.Source))
	}
	doc, err := plan.Parse("board.toml", board, catalog.Builtin())
	require.NoError(t, err)
	var text bytes.Buffer
	require.NoError(t, sheet.Text(&text, sheet.NewReport(doc.Plan), 0))
	r.report = lines(text.String())
	return r
}

func (r *tour) write(name, text string) {
	path := filepath.Join(r.dir, name)
	require.NoError(r.t, os.MkdirAll(filepath.Dir(path), 0o777))
	require.NoError(r.t, os.WriteFile(path, []byte(text), 0o666))
}

// follow prints a block anew.
func (r *tour) follow(was string) string {
	printed, from := r.report, 0 // of the command, and how far it is shown
	var out, passage []string
	file := "" // that the passage is the text of
	end := func() {
		if file != "" {
			r.write(file, strings.Join(passage, "\n")+"\n")
			printed = passage
		}
		out = append(out, r.passage(passage, printed, &from)...)
		passage, file = nil, ""
	}
	for _, l := range lines(was) {
		command, ok := strings.CutPrefix(l, "$ ")
		switch {
		case ok:
			end()
			if file, ok = strings.CutPrefix(command, "cat "); !ok {
				file, printed = "", r.run(command)
			}
			from = 0
			out = append(out, l)
		case l == "...":
			end()
			out = append(out, l)
		default:
			passage = append(passage, l)
		}
	}
	end()
	return strings.Join(out, "\n") + "\n"
}

// passage finds where a passage begins in what is printed, and returns as many
// lines from there.
func (r *tour) passage(was, printed []string, from *int) []string {
	if len(was) == 0 {
		return nil
	}
	for k := *from; k+len(was) <= len(printed); k++ {
		if printed[k] == was[0] {
			*from = k + len(was)
			return slices.Clone(printed[k:*from])
		}
	}
	assert.Fail(r.t, "README.md shows what is not printed", "no such line, or too few behind it: %q", was[0])
	return was
}

// run returns what a command prints, its words behind its data. Searching takes
// the time it takes: of arrange there is the report of the arranged board, or a
// proof.
func (r *tour) run(command string) []string {
	args := strings.Fields(command)
	switch {
	case args[0] != "footplank":
		require.Fail(r.t, "a command of README.md that is not the program", command)
	case args[1] == "arrange" && slices.Contains(args, "--out"):
		return append(slices.Clone(r.report), fmt.Sprintf("footplank: wrote %s", args[len(args)-1]))
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = r.dir
	var data, words bytes.Buffer
	cmd.Stdout, cmd.Stderr = &data, &words
	if err := cmd.Run(); err != nil {
		// Some of them find faults; none is bad usage.
		assert.Equal(r.t, exitFaults, cmd.ProcessState.ExitCode(), "%s: %s", command, &words)
	}
	return append(lines(data.String()), lines(words.String())...)
}

func lines(s string) []string {
	all := strings.Split(strings.TrimRight(s, "\n"), "\n")
	for i := range all {
		all[i] = strings.TrimRight(all[i], " ")
	}
	return all
}

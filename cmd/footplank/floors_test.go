package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The house has floors: a package may import packages of the module only from
// floors below its own. Packages of one floor do not know each other, except
// those of the screen, which are one part of the program in several packages.
var floors = map[string]int{
	"pack/crew": -1, "pack/recall": -1,
	"pack": 0, "layout": 0,
	"catalog": 1, "layout/cut": 1, "layout/route": 1, "layout/paper": 1,
	"layout/mount": 2, "layout/wiring": 2, "layout/power": 2, "layout/document": 2,
	"layout/arrange": 3,
	"layout/check":   4, "layout/plan": 4,
	"layout/tryout": 5, "layout/changeover": 5, "layout/boards": 5, "layout/shopping": 5,
	"layout/sheet": 6,
	"layout/plate": 7, "layout/book": 8,
	"layout/cases": 0, "layout/arranged": 5,
}

// Packages that only tests may import.
var forTests = []string{"layout/cases", "layout/arranged"}

// floorOf returns the floor of a package by its path in the module.
func floorOf(short string) (floor int, ok bool) {
	switch part, _, _ := strings.Cut(short, "/"); part {
	case "tui":
		return screenFloor, true
	case "cmd":
		return screenFloor + 1, true
	}
	floor, ok = floors[short]
	return floor, ok
}

const (
	module      = "footplank"
	screenFloor = 9
)

// Libraries that talk to a terminal: none may be reached from below the
// screen, not even through another library. Measuring text, which sheets need,
// is not talking to a terminal.
var terminalLibraries = []string{
	"github.com/charmbracelet/bubbletea", "github.com/charmbracelet/bubbles",
	"github.com/charmbracelet/lipgloss", "github.com/charmbracelet/x/term",
	"github.com/muesli/termenv", "github.com/mattn/go-isatty",
	"github.com/creack/pty", "golang.org/x/term",
}

// goPackage is what `go list -json` tells of a package, its tests left out.
type goPackage struct {
	ImportPath string
	Standard   bool
	Imports    []string
	Deps       []string
}

func TestEachFloorImportsOnlyLowerOnes(t *testing.T) {
	packages := listPackages(t)
	require.Contains(t, names(packages), module+"/cmd/footplank", "the list of packages is not whole")
	assert.Empty(t, floorFaults(packages))
}

// The rule's own test: it has to catch what it is there for.
func TestFloorRuleFindsFaults(t *testing.T) {
	for name, c := range map[string]struct {
		pkg  goPackage
		want string
	}{
		"upwards": {goPackage{ImportPath: "footplank/layout", Imports: []string{"footplank/layout/plan"}},
			"footplank/layout imports footplank/layout/plan, which is not below it"},
		"sideways": {goPackage{ImportPath: "footplank/layout/check", Imports: []string{"footplank/layout/plan"}},
			"footplank/layout/check imports footplank/layout/plan, which is not below it"},
		"terminal": {goPackage{ImportPath: "footplank/layout/sheet", Deps: []string{"github.com/charmbracelet/bubbletea"}},
			"footplank/layout/sheet reaches github.com/charmbracelet/bubbletea, a terminal library"},
		"terminal, a package inside": {goPackage{ImportPath: "footplank/catalog", Deps: []string{"github.com/charmbracelet/bubbles/key"}},
			"footplank/catalog reaches github.com/charmbracelet/bubbles/key, a terminal library"},
		"pack": {goPackage{ImportPath: "footplank/pack", Imports: []string{"example.org/solver"}},
			"footplank/pack imports example.org/solver, which is not of the standard library"},
		"tests": {goPackage{ImportPath: "footplank/layout/sheet", Imports: []string{"footplank/layout/cases"}},
			"footplank/layout/sheet imports footplank/layout/cases, which is for tests"},
		"no floor": {goPackage{ImportPath: "footplank/attic"},
			"footplank/attic is on no floor: add it to the table"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, []string{c.want}, floorFaults([]goPackage{c.pkg}))
		})
	}
	fine := []goPackage{
		{ImportPath: "footplank/tui", Imports: []string{"footplank/tui/background", "footplank/layout/sheet"},
			Deps: []string{"github.com/charmbracelet/bubbletea"}},
		{ImportPath: "footplank/pack", Imports: []string{"context", "math/bits"}},
		{ImportPath: "context", Standard: true}, {ImportPath: "math/bits", Standard: true},
	}
	assert.Empty(t, floorFaults(fine))
}

func floorFaults(packages []goPackage) []string {
	standard := map[string]bool{}
	for _, p := range packages {
		if p.Standard {
			standard[p.ImportPath] = true
		}
	}
	var out []string
	for _, p := range packages {
		short, ours := strings.CutPrefix(p.ImportPath, module+"/")
		if !ours {
			continue
		}
		floor, ok := floorOf(short)
		if !ok {
			out = append(out, p.ImportPath+" is on no floor: add it to the table")
			continue
		}
		for _, imp := range p.Imports {
			other, ours := strings.CutPrefix(imp, module+"/")
			if ours && slices.Contains(forTests, other) {
				out = append(out, fmt.Sprintf("%s imports %s, which is for tests", p.ImportPath, imp))
			}
			switch above, _ := floorOf(other); {
			case short == "pack" && !standard[imp] && imp != module+"/pack/crew":
				out = append(out, fmt.Sprintf("%s imports %s, which is not of the standard library", p.ImportPath, imp))
			case ours && above >= floor && !(above == screenFloor && floor == screenFloor):
				out = append(out, fmt.Sprintf("%s imports %s, which is not below it", p.ImportPath, imp))
			}
		}
		if floor >= screenFloor {
			continue
		}
		for _, dep := range p.Deps {
			if slices.ContainsFunc(terminalLibraries, func(l string) bool { return dep == l || strings.HasPrefix(dep, l+"/") }) {
				out = append(out, fmt.Sprintf("%s reaches %s, a terminal library", p.ImportPath, dep))
			}
		}
	}
	return out
}

// listPackages asks the go command for the module's packages and everything
// they reach.
func listPackages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Standard,Imports,Deps", "./...")
	cmd.Dir = root(t)
	out, err := cmd.Output()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		t.Fatalf("go list: %v\n%s", err, exit.Stderr)
	}
	require.NoError(t, err)
	var packages []goPackage
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p goPackage
		err := d.Decode(&p)
		if err == io.EOF {
			return packages
		}
		require.NoError(t, err)
		packages = append(packages, p)
	}
}

func names(packages []goPackage) []string {
	var out []string
	for _, p := range packages {
		out = append(out, p.ImportPath)
	}
	return out
}

// A fault in a goroutine that is not of a crew ends the program on the spot. The
// search for arrangements pauses its own, and hands their faults on itself.
func TestGoroutinesAreOfACrew(t *testing.T) {
	bare := regexp.MustCompile(`(?m)^\s*go func\(|sync\.WaitGroup`)
	own := []string{"pack/crew/crew.go", "pack/pace.go"}
	for _, name := range projectFiles(t) {
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root(t), name))
		require.NoError(t, err)
		assert.Equal(t, slices.Contains(own, name), bare.Match(text), name)
	}
}

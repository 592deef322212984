package main

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// topLevel is the whole of the project's top folder.
var topLevel = []string{
	".ci", ".gitignore", "DEVELOPERS.md", "LICENSE", "README.md", "catalog", "cmd", "go.mod", "go.sum",
	"layout", "pack", "testdata", "tui",
}

func TestTopLevelIsExactly(t *testing.T) {
	entries, err := os.ReadDir(root(t))
	require.NoError(t, err)
	ignored := ignoredNames(t)
	var found []string
	for _, e := range entries {
		if e.Name() != ".git" && !ignored(e.Name()) {
			found = append(found, e.Name())
		}
	}
	assert.Equal(t, topLevel, found)
}

// Names that say nothing about what a package is for.
func TestNoPackageIsNamedAfterNothing(t *testing.T) {
	empty := []string{"util", "utils", "common", "helper", "helpers", "manager", "data", "misc"}
	for _, name := range projectFiles(t) {
		for _, part := range strings.Split(strings.TrimSuffix(name, ".go"), "/") {
			assert.NotContains(t, empty, part, name)
		}
	}
}

// What is committed must work on any machine, so it names no folder of the
// one that it was written on.
func TestNoFileNamesTheFolderItLiesIn(t *testing.T) {
	folder := root(t)
	if strings.Count(filepath.ToSlash(folder), "/") < 2 {
		t.Skipf("%s is too short a path to look for", folder)
	}
	for _, name := range projectFiles(t) {
		text, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		assert.False(t, bytes.Contains(text, []byte(folder+"/")), "%s names the folder of this checkout", name)
	}
}

// root returns the project's top folder, two above this package.
func root(t testing.TB) string {
	t.Helper()
	dir, err := filepath.Abs(filepath.Join("..", ".."))
	require.NoError(t, err)
	require.FileExists(t, filepath.Join(dir, "go.mod"))
	return dir
}

// projectFiles lists the project's files by slash-separated path from its top:
// those that git knows, and outside a git checkout all.
func projectFiles(t *testing.T) []string {
	t.Helper()
	dir := root(t)
	cmd := exec.Command("git", "ls-files", "-z")
	cmd.Dir = dir
	if out, err := cmd.Output(); err == nil && len(out) > 0 {
		all := strings.Split(strings.TrimSuffix(string(out), "\x00"), "\x00")
		return slices.DeleteFunc(all, func(name string) bool {
			_, err := os.Stat(filepath.Join(dir, name))
			return err != nil
		})
	}
	var names []string
	require.NoError(t, fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && d.Name() == ".git" {
			return fs.SkipDir
		}
		if err == nil && !d.IsDir() {
			names = append(names, name)
		}
		return err
	}))
	return names
}

// ignoredNames reads .gitignore, which here has only plain patterns for names
// of the top folder.
func ignoredNames(t *testing.T) func(string) bool {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root(t), ".gitignore"))
	require.NoError(t, err)
	patterns := strings.Fields(string(text))
	return func(name string) bool {
		return slices.ContainsFunc(patterns, func(p string) bool {
			ok, err := path.Match(strings.TrimPrefix(p, "/"), name)
			return err == nil && ok
		})
	}
}

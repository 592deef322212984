package recovery

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// mostRecent is how many paths are kept.
const mostRecent = 20

// Recent returns the paths of plans that were open last, the last first. Those
// whose file is gone are left out.
func (s *Store) Recent() []string {
	return slices.DeleteFunc(s.recent(), func(path string) bool {
		info, err := os.Stat(path)
		return err != nil || !info.Mode().IsRegular()
	})
}

func (s *Store) recent() []string {
	text, err := os.ReadFile(filepath.Join(s.dir, "recent"))
	if err != nil {
		return nil
	}
	return strings.FieldsFunc(string(text), func(r rune) bool { return r == '\n' })
}

// Opened puts a plan's path in front of the recent ones. A path with a line
// break in it, which no list of lines can hold, is left out.
func (s *Store) Opened(path string) error {
	if path = absolute(path); strings.ContainsRune(path, '\n') {
		return nil
	}
	all := append([]string{path}, slices.DeleteFunc(s.recent(), func(p string) bool { return p == path })...)
	return s.write("", "recent", []byte(strings.Join(all[:min(len(all), mostRecent)], "\n")+"\n"))
}

package recovery

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"footplank/layout/plan"
)

// Store is the folder.
type Store struct {
	dir  string
	pid  int
	host string
	now  func() time.Time
}

// Dir returns the folder for the state of the program, or an error where there
// is no home.
func Dir() (string, error) {
	if d := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(d) {
		return filepath.Join(d, "footplank"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("no folder for what is not saved: %w; set XDG_STATE_HOME", err)
	}
	return filepath.Join(home, ".local", "state", "footplank"), nil
}

// Open returns the store in the folder, which it makes when something is first
// kept there.
func Open(dir string) *Store {
	host, _ := os.Hostname()
	return &Store{dir: dir, pid: os.Getpid(), host: host, now: time.Now}
}

// About tells whose a session is.
type About struct {
	Path  string    `json:"path"` // of the plan, absolute; "" for one that has no file yet
	Title string    `json:"title"`
	PID   int       `json:"pid"`
	Host  string    `json:"host"`
	At    time.Time `json:"at"` // opened, or last kept
}

// Left is the plan of a session that did not end in order.
type Left struct {
	About
	Text []byte
	name string // of the file in "unsaved"
}

const (
	openFolder    = "open"
	unsavedFolder = "unsaved"
)

// key names a path in the folder: readable at its end, and never the same for
// two paths.
func key(path string) string {
	sum := sha256.Sum256([]byte(path))
	name := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, filepath.Base(path))
	return name[:min(len(name), 40)] + "-" + hex.EncodeToString(sum[:6])
}

// write puts a file into the folder as a whole.
func (s *Store) write(folder, name string, text []byte) error {
	dir := filepath.Join(s.dir, folder)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return plan.WriteOver(filepath.Join(dir, name), text)
}

// names lists a folder, sorted; one that is not there is empty.
func (s *Store) names(folder string) []string {
	entries, err := os.ReadDir(filepath.Join(s.dir, folder))
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if e.Type().IsRegular() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, e.Name())
		}
	}
	return out
}

// ended reports whether the session of that name is over: nobody holds its note
// in "open" any more. One of another machine, in a home that several share, is
// over when its note is gone.
func (s *Store) ended(name string, a About) bool {
	note := filepath.Join(s.dir, openFolder, name)
	if a.Host == s.host {
		return !held(note)
	}
	_, err := os.Lstat(note)
	return err != nil
}

// Others returns the other editors that have the plan open.
func (s *Store) Others(path string) []About {
	path = absolute(path)
	var out []About
	for _, n := range s.names(openFolder) {
		var a About
		if !strings.HasPrefix(n, key(path)+"-") || !s.read(openFolder, n, &a) || a.Path != path {
			continue
		}
		switch {
		case a.Host == s.host && a.PID == s.pid:
		case s.ended(n, a):
			os.Remove(filepath.Join(s.dir, openFolder, n))
		default:
			out = append(out, a)
		}
	}
	return out
}

func (s *Store) read(folder, name string, into any) bool {
	text, err := os.ReadFile(filepath.Join(s.dir, folder, name))
	return err == nil && json.Unmarshal(text, into) == nil
}

// unsaved is a file of the folder of that name.
type unsaved struct {
	About
	Text string `json:"text"`
}

// Lefts returns what sessions left that did not end in order, the last first:
// all of them, or only those of one plan's path.
func (s *Store) Lefts(path string) []Left {
	if path != "" {
		path = absolute(path)
	}
	var out []Left
	for _, n := range s.names(unsavedFolder) {
		var u unsaved
		if !s.read(unsavedFolder, n, &u) || path != "" && u.Path != path || !s.ended(n, u.About) {
			continue
		}
		out = append(out, Left{u.About, []byte(u.Text), n})
	}
	slices.SortStableFunc(out, func(a, b Left) int { return b.At.Compare(a.At) })
	return out
}

// Forget takes a session's plan away, once it is taken up again or not wanted.
func (s *Store) Forget(l Left) error {
	err := os.Remove(filepath.Join(s.dir, unsavedFolder, l.name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// absolute returns the path from the root, with its links followed, so that two
// ways to one file are one.
func absolute(path string) string {
	if a, err := filepath.Abs(path); err == nil {
		path = a
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return path
}

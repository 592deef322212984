package recovery

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// Session is one editor with one plan. Its methods may be called by several
// goroutines.
type Session struct {
	mu    sync.Mutex
	store *Store
	about About
	kept  bool
	note  *os.File // held in "open" as long as the session lasts
}

// Begin takes note that this process has the plan open. The path is "" for a
// plan that has no file yet.
func (s *Store) Begin(path, title string) (*Session, error) {
	x := &Session{store: s}
	return x, x.open(path, title)
}

func (x *Session) open(path, title string) error {
	if path != "" {
		path = absolute(path)
	}
	x.about = About{Path: path, Title: title, PID: x.store.pid, Host: x.store.host, At: x.store.now()}
	text, err := json.Marshal(x.about)
	if err != nil {
		return err
	}
	if err := x.store.write(openFolder, x.name(), text); err != nil {
		return err
	}
	x.note, err = hold(filepath.Join(x.store.dir, openFolder, x.name()))
	return err
}

// close takes the note in "open" away.
func (x *Session) close() error {
	if x.note == nil {
		return nil
	}
	err := x.note.Close()
	x.note = nil
	return errors.Join(err, x.remove(openFolder))
}

func (x *Session) name() string { return fmt.Sprintf("%s-%d", key(x.about.Path), x.about.PID) }

// Keep puts the text of the plan on screen by, in place of what was put by
// before.
func (x *Session) Keep(text []byte) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.about.At = x.store.now()
	whole, err := json.Marshal(unsaved{x.about, string(text)})
	if err != nil {
		return err
	}
	if err := x.store.write(unsavedFolder, x.name(), whole); err != nil {
		return err
	}
	x.kept = true
	return nil
}

// Saved takes away what was put by, as the file at the path has it now. The plan
// may have got another path.
func (x *Session) Saved(path, title string) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	err := x.drop()
	if path != "" && absolute(path) != x.about.Path {
		err = errors.Join(err, x.close(), x.open(path, title))
	}
	return err
}

// End ends the session in order: nothing is left to be offered.
func (x *Session) End() error {
	x.mu.Lock()
	defer x.mu.Unlock()
	return errors.Join(x.drop(), x.close())
}

// Leave ends the session but lets what was put by lie, to be offered at the next
// start: for an editor that has to go at once.
func (x *Session) Leave() error {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.close()
}

// Kept reports whether something is put by.
func (x *Session) Kept() bool {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.kept
}

func (x *Session) drop() error {
	if !x.kept {
		return nil
	}
	x.kept = false
	return x.remove(unsavedFolder)
}

func (x *Session) remove(folder string) error {
	err := os.Remove(filepath.Join(x.store.dir, folder, x.name()))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

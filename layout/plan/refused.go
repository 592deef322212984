package plan

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// What was to be done with a file that the system refuses.
const (
	ToRead  = "read"
	ToWrite = "written"
)

// refusal is a system's error in words that say what to do; errors.Is finds the
// system's own in it.
type refusal struct {
	text string
	err  error
}

func (r *refusal) Error() string { return r.text }
func (r *refusal) Unwrap() error { return r.err }

// Refused says in plain words why the system will not have the file of that name
// read or written, and what to do about it. The words are about path, whatever
// file beside it the error names.
func Refused(done, path string, err error) error {
	where, name := "", path
	if done == ToWrite {
		where = " there"
	}
	if name == "" {
		name = `""`
	}
	say := func(format string, args ...any) error {
		return &refusal{name + ": " + fmt.Sprintf(format, args...), err}
	}
	switch {
	case errors.Is(err, syscall.ENOTDIR):
		return say("%s is a file, not a folder: look at the path again", notFolder(path))
	case errors.Is(err, fs.ErrNotExist) && done == ToWrite:
		return say("there is no folder %s: make it, or name a file elsewhere", filepath.Dir(path))
	case errors.Is(err, fs.ErrNotExist):
		return say("there is no such file")
	case errors.Is(err, fs.ErrPermission):
		return say("it may not be %s%s: change the permissions, or name another file", done, where)
	case errors.Is(err, syscall.EISDIR):
		return say("is a folder: name a file in it")
	case errors.Is(err, syscall.ELOOP):
		return say("is a link that leads back to itself: name another file")
	case errors.Is(err, syscall.ENAMETOOLONG):
		return say("the name is too long for this system: name a file with a shorter one")
	case errors.Is(err, syscall.ENOSPC):
		return say("the disk is full: make room, or name a file elsewhere")
	}
	var at *fs.PathError
	if errors.As(err, &at) {
		return say("it cannot be %s: %v", done, at.Err)
	}
	return say("it cannot be %s: %v", done, err)
}

// notFolder is what stands where path has a folder, and is none.
func notFolder(path string) string {
	for at := filepath.Dir(path); ; at = filepath.Dir(at) {
		if info, err := os.Stat(at); err == nil && !info.IsDir() || at == filepath.Dir(at) {
			return at
		}
	}
}

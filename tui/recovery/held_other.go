//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package recovery

import (
	"errors"
	"io/fs"
	"os"
)

// hold opens a file, which keeps it from being removed until it is closed, or
// the process ends in whatever way.
func hold(path string) (*os.File, error) { return os.Open(path) }

// held reports whether somebody holds the file. One that nobody holds is a
// session's that has ended, and goes with the asking.
func held(path string) bool {
	err := os.Remove(path)
	return err != nil && !errors.Is(err, fs.ErrNotExist)
}

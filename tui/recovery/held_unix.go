//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package recovery

import (
	"os"
	"syscall"
)

// hold opens a file and holds it until it is closed, or the process ends in
// whatever way.
func hold(path string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	// Where locks are not to be had a session looks as if it had ended, and
	// what is not saved is offered once too often: nothing is lost.
	_ = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	return f, nil
}

// held reports whether somebody holds the file.
func held(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) != nil
}

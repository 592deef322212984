package tui

import (
	"errors"
	"io"
	"os"
	"sync"
)

// keyboard is the terminal that keys come from. Where its other end goes without a
// signal, as it does for a program in a session of its own, reading finds an end
// and the library just reads no more: lost is closed then, so that the editor
// does not wait for ever for keys that cannot come.
type keyboard struct {
	*os.File
	lost chan struct{}
	once sync.Once
}

func newKeyboard(f *os.File) *keyboard { return &keyboard{File: f, lost: make(chan struct{})} }

func (k *keyboard) Read(b []byte) (int, error) {
	n, err := k.File.Read(b)
	if errors.Is(err, io.EOF) {
		k.once.Do(func() { close(k.lost) })
	}
	return n, err
}

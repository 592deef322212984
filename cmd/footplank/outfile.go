package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"footplank/layout/plan"
)

// mayWrite reports whether a command may write to the file called name: it must
// not be there already, unless force, and never be one of the inputs. Commands
// ask before they begin on long work.
func mayWrite(name string, force bool, inputs ...string) error {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return inFolder(name)
	case err != nil:
		if out := inFolder(name); out != nil {
			return out
		}
		return err
	case info.IsDir():
		return fmt.Errorf("%s is a folder: name a file in it", name)
	}
	for _, in := range inputs {
		if i, err := os.Stat(in); err == nil && os.SameFile(i, info) {
			return fmt.Errorf("%s is what is being read: name another file", name)
		}
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file: leave the option out to print to standard output", name)
	}
	if !force {
		return fmt.Errorf("%s is there already: name another file, or add --force to replace it", name)
	}
	return nil
}

// inFolder checks that the folder of a new file is there.
func inFolder(name string) error {
	folder := filepath.Dir(name)
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return fmt.Errorf("%s: there is no folder %s: make it, or name a file elsewhere", name, folder)
	}
	return nil
}

// writeFile writes a file whole or not at all.
func writeFile(name string, force bool, text []byte) error {
	if force {
		return plan.WriteOver(name, text)
	}
	return plan.WriteNew(name, text)
}

// deliver writes to the file called out, whole or not at all, or without a name
// to standard output.
func (p *program) deliver(out string, force bool, write func(io.Writer) error) error {
	if out == "" {
		return write(p.out)
	}
	var text bytes.Buffer
	if err := write(&text); err != nil {
		return err
	}
	return writeFile(out, force, text.Bytes())
}

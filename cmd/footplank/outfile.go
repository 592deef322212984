package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"footplank/layout/plan"
)

// mayWrite reports whether a command may write to the file called name: it must
// not be there already, unless force, and never be one of the inputs. Commands
// ask before they begin on long work.
func mayWrite(name string, force bool, inputs ...string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return fmt.Errorf("%q is no name for a file: give it one", name)
	case os.IsPathSeparator(name[len(name)-1]):
		return fmt.Errorf("%s is a folder: name a file in it", name)
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(name); err == nil {
			return fmt.Errorf("%s is a link to a file that is not there: name another file", name)
		}
		return inFolder(name)
	case err != nil:
		return plan.Refused(plan.ToWrite, name, err)
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
	return inFolder(name)
}

// maySave reports whether a plan may be written to the file that it comes from.
// That the file cannot be read is for the reader to say.
func maySave(name string) error {
	info, err := os.Stat(name)
	switch {
	case err != nil || info.IsDir():
		return nil
	case !info.Mode().IsRegular():
		return fmt.Errorf("--save: %s is not a plain file: give --out FILE", name)
	case info.Mode()&0o200 == 0:
		return fmt.Errorf("--save: %s is read-only: change its permissions, or give --out FILE", name)
	}
	at, err := filepath.EvalSymlinks(name)
	if err != nil {
		return nil
	}
	return inFolder(at)
}

// inFolder checks that the folder of a file is there and takes a file: a search
// of an hour must not end in that it does not.
func inFolder(name string) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".footplank-*.new")
	if err != nil {
		return plan.Refused(plan.ToWrite, name, err)
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
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
	if err := writeFile(out, force, text.Bytes()); err != nil {
		return err
	}
	p.say("wrote %s", out)
	return nil
}

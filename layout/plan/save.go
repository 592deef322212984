package plan

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// What keeps a plan from being saved; use errors.Is.
var (
	// ErrChanged means that another program changed the file since it was
	// read or saved. SaveAs with its own path overwrites it.
	ErrChanged = errors.New("the file was changed by another program since it was read")
	// ErrExists means that there is a file of that name already.
	ErrExists = errors.New("there is a file of that name already")
	// ErrNoFile means that the plan was not read from a file.
	ErrNoFile = errors.New("the plan has no file yet")
	errNoName = errors.New("the file has no name: give it one")
)

// Save writes the plan to its file if it differs from it. The file is
// replaced as a whole or not at all: a failed save leaves it as it was, and
// nothing beside it. It keeps its permissions, and a link to it stays a link.
// A file that is gone is written anew.
func (d *Doc) Save() error {
	if d.Path == "" {
		return fmt.Errorf("%s: %w: save it under a name", d.Name, ErrNoFile)
	}
	if !d.Dirty() {
		return nil
	}
	text, err := d.render()
	if err != nil {
		return err
	}
	unchanged := func(target string) error {
		now, err := readFile(target)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil
		case err != nil:
			return fmt.Errorf("%w: %w", ErrChanged, err)
		case !bytes.Equal(now, d.text.bytes()):
			return fmt.Errorf("%s: %w", d.Path, ErrChanged)
		}
		return nil
	}
	if err := replaceFile(d.Path, source{d.text.mark, text}.bytes(), unchanged); err != nil {
		return err
	}
	d.saved(text)
	return nil
}

// SaveAs writes the plan to a file, which is the plan's from then on. A file
// that is there already is an ErrExists unless overwrite is set.
func (d *Doc) SaveAs(path string, overwrite bool) error {
	text, err := d.render()
	if err != nil {
		return err
	}
	whole := source{d.text.mark, text}.bytes()
	if overwrite {
		err = WriteOver(path, whole)
	} else {
		err = newFile(path, whole)
	}
	if err != nil {
		return err
	}
	d.Path, d.Name = path, path
	d.saved(text)
	return nil
}

// WriteNew writes a text to a file that is not there yet; one that is there is
// an ErrExists. Like Save it leaves a whole file or none.
func WriteNew(path string, text []byte) error { return newFile(path, text) }

// WriteOver is WriteNew for a file that may be there, and is then replaced.
func WriteOver(path string, text []byte) error {
	return replaceFile(path, text, func(string) error { return nil })
}

// newFile writes a file that must not be there yet. A hard link, unlike a
// rename, fails when it is; where there are no hard links a look must do.
func newFile(path string, text []byte) error {
	if path == "" {
		return errNoName
	}
	exists := func() error {
		if _, err := os.Lstat(path); err == nil {
			return fmt.Errorf("%s: %w", path, ErrExists)
		}
		return nil
	}
	if err := exists(); err != nil {
		return err
	}
	temp, err := writeBeside(path, text, 0o644, true)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	if err := os.Link(temp, path); err != nil {
		if err := exists(); err != nil {
			return err
		}
		if err := os.Rename(temp, path); err != nil {
			return Refused(ToWrite, path, err)
		}
	}
	syncFolder(path)
	return nil
}

// replaceFile writes a file by way of another beside it. allowed is asked
// right before, with the file that a link leads to.
func replaceFile(path string, text []byte, allowed func(target string) error) error {
	if path == "" {
		return errNoName
	}
	target, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		target, err = path, nil
	}
	if err != nil {
		return Refused(ToWrite, path, err)
	}
	mode, fresh := fs.FileMode(0o644), true
	if info, err := os.Stat(target); err == nil {
		mode, fresh = info.Mode().Perm(), false
		switch {
		case !info.Mode().IsRegular():
			return fmt.Errorf("%s: is not an ordinary file, so it is not written", path)
		case mode&0o200 == 0:
			return &refusal{path + ": is read-only, so it is not written: change its permissions, or name another file", fs.ErrPermission}
		}
	}
	if err := allowed(target); err != nil {
		return err
	}
	temp, err := writeBeside(target, text, mode, fresh)
	if err != nil {
		return err
	}
	// The look at the file is repeated as late as can be.
	if err := allowed(target); err != nil {
		os.Remove(temp)
		return err
	}
	if err := os.Rename(temp, target); err != nil {
		os.Remove(temp)
		return Refused(ToWrite, path, err)
	}
	syncFolder(target)
	return nil
}

// writeBeside writes a temporary file in the folder of path and returns its
// name; on an error there is none. A fresh file's permissions are cut down by
// the umask, as the player's other new files are.
func writeBeside(path string, text []byte, mode fs.FileMode, fresh bool) (name string, err error) {
	f, err := createTemp(path, mode)
	if err != nil {
		return "", Refused(ToWrite, path, err)
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
			err = Refused(ToWrite, path, err)
		}
	}()
	if !fresh {
		if err = f.Chmod(mode); err != nil {
			return "", err
		}
	}
	if _, err = f.Write(text); err != nil {
		return "", err
	}
	if err = f.Sync(); err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

// createTemp is os.CreateTemp with permissions of the caller's choice.
func createTemp(path string, mode fs.FileMode) (*os.File, error) {
	folder, base := filepath.Split(path)
	base = strings.ToValidUTF8(base[:min(len(base), 100)], "") // names have a limit
	for i := 0; ; i++ {
		name := filepath.Join(folder, fmt.Sprintf(".%s.%d-%d.new", base, os.Getpid(), i))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode|0o200)
		if !errors.Is(err, fs.ErrExist) || i == 100 {
			return f, err
		}
	}
}

// syncFolder makes a rename last through a power cut. Some systems cannot sync
// a folder; the file itself is whole either way.
func syncFolder(path string) {
	if f, err := os.Open(filepath.Dir(path)); err == nil {
		f.Sync()
		f.Close()
	}
}

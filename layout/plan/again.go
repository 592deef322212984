package plan

import (
	"bytes"
	"errors"
	"io/fs"
)

// Changed reports whether the plan's file is not what was read or saved last:
// another program wrote it, or took it away. A plan without a file has not
// changed. An error is one of reading the file.
func (d *Doc) Changed() (bool, error) {
	if d.Path == "" {
		return false, nil
	}
	now, err := readFile(d.Path)
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if err != nil {
		return false, err
	}
	return !bytes.Equal(now, d.text.bytes()), nil
}

// Reopen reads the plan's file anew. On an error the plan is as it was; the
// error is as from Open.
func (d *Doc) Reopen() error {
	again, err := Open(d.Path, d.forms)
	if err != nil {
		return err
	}
	*d = *again
	return nil
}

// Read reads another text with the same forms, such as one that was put by. Its
// errors are named after the plan.
func (d *Doc) Read(text []byte) (*Doc, error) { return Parse(d.Name, text, d.forms) }

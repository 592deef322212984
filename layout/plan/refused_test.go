package plan

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every refusal names the file, says what to do, and is still the system's own.
func TestRefused(t *testing.T) {
	at := func(err error) error { return &fs.PathError{Op: "open", Path: ".x.toml.77-0.new", Err: err} }
	for _, tt := range []struct {
		done string
		err  error
		want string
	}{
		{ToRead, syscall.ENOENT, "gig/x.toml: there is no such file"},
		{ToWrite, syscall.ENOENT, "gig/x.toml: there is no folder gig: make it, or name a file elsewhere"},
		{ToRead, syscall.EACCES, "gig/x.toml: it may not be read: change the permissions, or name another file"},
		{ToWrite, syscall.EACCES, "gig/x.toml: it may not be written there: change the permissions, or name another file"},
		{ToRead, syscall.EISDIR, "gig/x.toml: is a folder: name a file in it"},
		{ToRead, syscall.ELOOP, "gig/x.toml: is a link that leads back to itself: name another file"},
		{ToWrite, syscall.ENAMETOOLONG, "gig/x.toml: the name is too long for this system: name a file with a shorter one"},
		{ToWrite, syscall.ENOSPC, "gig/x.toml: the disk is full: make room, or name a file elsewhere"},
		{ToWrite, errors.New("device on fire"), "gig/x.toml: it cannot be written: device on fire"},
	} {
		got := Refused(tt.done, filepath.FromSlash("gig/x.toml"), at(tt.err))
		assert.EqualError(t, got, tt.want)
		assert.ErrorIs(t, got, tt.err)
	}
}

func TestRefusedBehindAFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "board.toml")
	require.NoError(t, os.WriteFile(file, nil, 0o666))
	inside := filepath.Join(file, "gigs", "x.toml")
	for _, done := range []string{ToRead, ToWrite} {
		assert.EqualError(t, Refused(done, inside, syscall.ENOTDIR), inside+": "+file+" is a file, not a folder: look at the path again")
	}
	assert.EqualError(t, WriteNew("", nil), "the file has no name: give it one")
	assert.EqualError(t, WriteOver("", nil), "the file has no name: give it one")
}

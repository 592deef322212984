package plan

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// openSmall writes small to a file of a folder of its own and opens it.
func openSmall(t *testing.T) *Doc {
	t.Helper()
	path := filepath.Join(t.TempDir(), "small.toml")
	require.NoError(t, os.WriteFile(path, []byte(small), 0o640))
	d, err := Open(path, nil)
	require.NoError(t, err)
	require.Equal(t, path, d.Path)
	return d
}

func content(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

// alone checks that a folder holds those files and no other.
func alone(t *testing.T, folder string, names ...string) {
	t.Helper()
	list, err := os.ReadDir(folder)
	require.NoError(t, err)
	var got []string
	for _, f := range list {
		got = append(got, f.Name())
	}
	require.Equal(t, names, got)
}

const movedLine = "+\"place = { on = \\\"deck\\\", at = [3, 4], turn = 0 }\\n\"\n"

func TestSave(t *testing.T) {
	d := openSmall(t)
	before, err := os.Stat(d.Path)
	require.NoError(t, err)
	require.NoError(t, d.Save())
	after, err := os.Stat(d.Path)
	require.NoError(t, err)
	require.True(t, os.SameFile(before, after), "nothing to save, so nothing is written")

	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.NoError(t, d.Save())
	require.False(t, d.Dirty())
	require.Equal(t, movedLine, diff(small, content(t, d.Path)))
	after, err = os.Stat(d.Path)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o640), after.Mode().Perm())
	alone(t, filepath.Dir(d.Path), "small.toml")

	// And on from there.
	d.Plan.Units[0].Place = nil
	require.NoError(t, d.Save())
	require.Equal(t, small, content(t, d.Path))
}

func TestSaveNoticesAChangedFile(t *testing.T) {
	for _, now := range []string{small + "# mine\n", "", strings.Repeat("x", MaxSize+1)} {
		d := openSmall(t)
		d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
		require.NoError(t, os.WriteFile(d.Path, []byte(now), 0o640))
		require.ErrorIs(t, d.Save(), ErrChanged)
		require.Equal(t, now, content(t, d.Path))
		require.True(t, d.Dirty())
		alone(t, filepath.Dir(d.Path), "small.toml")
		// Asked to, it is overwritten.
		require.NoError(t, d.SaveAs(d.Path, true))
		require.Equal(t, movedLine, diff(small, content(t, d.Path)))
	}
}

// A change between the look at the file and the renaming is noticed too.
func TestSaveLooksTwice(t *testing.T) {
	d := openSmall(t)
	looks := 0
	err := replaceFile(d.Path, []byte("new"), func(string) error {
		if looks++; looks == 2 {
			return ErrChanged
		}
		return nil
	})
	require.ErrorIs(t, err, ErrChanged)
	require.Equal(t, small, content(t, d.Path))
	alone(t, filepath.Dir(d.Path), "small.toml")
}

func TestSaveWithoutFile(t *testing.T) {
	d, err := Parse("ceilidh", []byte(small), nil)
	require.NoError(t, err)
	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.ErrorIs(t, d.Save(), ErrNoFile)

	d = openSmall(t)
	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.NoError(t, os.Remove(d.Path))
	require.NoError(t, d.Save(), "a file that is gone is written anew")
	require.Equal(t, movedLine, diff(small, content(t, d.Path)))
}

func TestSaveFollowsALink(t *testing.T) {
	d := openSmall(t)
	links := t.TempDir()
	link := filepath.Join(links, "link.toml")
	require.NoError(t, os.Symlink(d.Path, link))
	linked, err := Open(link, nil)
	require.NoError(t, err)
	linked.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.NoError(t, linked.Save())
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&fs.ModeSymlink, "still a link")
	require.Equal(t, movedLine, diff(small, content(t, d.Path)))
	alone(t, links, "link.toml")
	alone(t, filepath.Dir(d.Path), "small.toml")
}

func TestSaveAs(t *testing.T) {
	d := openSmall(t)
	other := filepath.Join(filepath.Dir(d.Path), "other.toml")
	first := d.Path
	require.ErrorIs(t, d.SaveAs(first, false), ErrExists)
	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.NoError(t, d.SaveAs(other, false))
	require.Equal(t, other, d.Path)
	require.False(t, d.Dirty())
	require.Equal(t, small, content(t, first))
	require.Equal(t, movedLine, diff(small, content(t, other)))
	require.ErrorIs(t, d.SaveAs(first, false), ErrExists)
	require.NoError(t, d.SaveAs(first, true))
	require.Equal(t, content(t, other), content(t, first))
	alone(t, filepath.Dir(first), "other.toml", "small.toml")
	require.ErrorIs(t, WriteNew(first, []byte("x")), ErrExists)
}

// A failed save leaves the file as it was and nothing beside it.
func TestSaveFails(t *testing.T) {
	d := openSmall(t)
	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	require.NoError(t, os.Chmod(d.Path, 0o440))
	require.ErrorIs(t, d.Save(), fs.ErrPermission, "a read-only file")
	require.Equal(t, small, content(t, d.Path))
	alone(t, filepath.Dir(d.Path), "small.toml")

	folder := t.TempDir()
	require.Error(t, d.SaveAs(filepath.Join(folder, "none", "small.toml"), true), "no such folder")
	require.Error(t, d.SaveAs(folder, true), "a folder")
	require.ErrorIs(t, d.SaveAs(folder, false), ErrExists)
	long := filepath.Join(folder, strings.Repeat("x", 300))
	require.Error(t, d.SaveAs(long, true), "a name that is too long")
	require.Error(t, d.SaveAs(long, false), "a name that is too long")
	alone(t, folder)

	d.Plan.Title = "cannot be\nwritten"
	require.ErrorContains(t, d.SaveAs(filepath.Join(folder, "x"), false), "title: found")
	alone(t, folder)
}

func TestOpenRefuses(t *testing.T) {
	folder := t.TempDir()
	_, err := Open(filepath.Join(folder, "none.toml"), nil)
	require.ErrorIs(t, err, fs.ErrNotExist)
	_, err = Open(folder, nil)
	require.EqualError(t, err, folder+": is a folder, want a plan file")

	// 100 MB without a block on disk: it is not read to its end.
	large := filepath.Join(folder, "large.toml")
	f, err := os.Create(large)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(100_000_000))
	require.NoError(t, f.Close())
	_, err = Open(large, nil)
	require.EqualError(t, err, large+": larger than 1024 kB: not a plan")
	require.IsType(t, Errors{}, err)
	_, err = Parse("p", make([]byte, MaxSize+1), nil)
	require.EqualError(t, err, "p: larger than 1024 kB: not a plan")
}

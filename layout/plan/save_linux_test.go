package plan

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// asNobody runs f without the rights of root, to whom no folder is read-only.
// The system call is made for this thread alone, which ends with f.
func asNobody(t *testing.T, f func()) {
	t.Helper()
	if os.Getuid() != 0 {
		f()
		return
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		runtime.LockOSThread() // and never unlocked
		syscall.RawSyscall(syscall.SYS_SETFSUID, 65534, 0, 0)
		f()
	}()
	<-done
}

func TestSaveInAReadOnlyFolder(t *testing.T) {
	d := openSmall(t)
	d.Plan.Units[0].Place = at(3*mm, 4*mm, 0)
	folder := filepath.Dir(d.Path)
	require.NoError(t, os.Chmod(filepath.Dir(folder), 0o755))
	require.NoError(t, os.Chmod(d.Path, 0o666))
	require.NoError(t, os.Chmod(folder, 0o555))
	defer os.Chmod(folder, 0o755)
	var err, errAs error
	asNobody(t, func() {
		err = d.Save()
		errAs = d.SaveAs(filepath.Join(folder, "new.toml"), false)
	})
	require.ErrorIs(t, err, fs.ErrPermission)
	require.ErrorIs(t, errAs, fs.ErrPermission)
	require.Equal(t, small, content(t, d.Path))
	alone(t, folder, "small.toml")
}

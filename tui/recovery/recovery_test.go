package recovery

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// machine is a folder of state with processes that the test lets live and die.
type machine struct {
	dir   string
	clock time.Time
	open  map[int][]*Session
}

func newMachine(t *testing.T) *machine {
	return &machine{dir: filepath.Join(t.TempDir(), "state"), clock: time.Date(2026, 1, 2, 20, 0, 0, 0, time.UTC), open: map[int][]*Session{}}
}

func (m *machine) process(pid int) *Store {
	return &Store{dir: m.dir, pid: pid, host: "hall", now: func() time.Time { m.clock = m.clock.Add(time.Minute); return m.clock }}
}

// begin opens a plan in a process.
func (m *machine) begin(t *testing.T, pid int, path, title string) *Session {
	x, err := m.process(pid).Begin(path, title)
	require.NoError(t, err)
	m.open[pid] = append(m.open[pid], x)
	return x
}

// kill ends a process: the system closes its files, and that is all.
func (m *machine) kill(pid int) {
	for _, x := range m.open[pid] {
		x.note.Close()
	}
}

func (m *machine) files(t *testing.T) []string {
	var out []string
	require.NoError(t, filepath.WalkDir(m.dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(m.dir, path)
			out = append(out, filepath.ToSlash(rel))
		}
		return nil
	}))
	return out
}

func planFile(t *testing.T, name string) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte("title = \"x\"\n"), 0o644))
	real, err := filepath.EvalSymlinks(path)
	require.NoError(t, err)
	return real
}

func TestKilledSessionIsOffered(t *testing.T) {
	m, path := newMachine(t), planFile(t, "barn dance.toml")
	x := m.begin(t, 11, path, "Barn dance")
	require.NoError(t, x.Keep([]byte("first")))
	require.NoError(t, x.Keep([]byte("second")))

	next := m.process(12)
	assert.Empty(t, next.Lefts(path), "it is still open")
	m.kill(11)
	lefts := next.Lefts(path)
	require.Len(t, lefts, 1)
	assert.Equal(t, "second", string(lefts[0].Text))
	assert.Equal(t, path, lefts[0].Path)
	assert.Equal(t, "Barn dance", lefts[0].Title)
	assert.Empty(t, next.Lefts(planFile(t, "barn dance.toml")), "another file of the same name")

	require.NoError(t, next.Forget(lefts[0]))
	require.NoError(t, next.Forget(lefts[0]), "twice does no harm")
	assert.Empty(t, next.Lefts(path))
}

func TestSessionThatEndsLeavesNothing(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	x := m.begin(t, 11, path, "")
	require.NoError(t, x.Keep([]byte("text")))
	require.NoError(t, x.End())
	assert.Empty(t, m.files(t))
}

func TestSavingTakesAwayWhatWasPutBy(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	x := m.begin(t, 11, "", "New plan")
	require.NoError(t, x.Keep([]byte("text")))
	require.NoError(t, x.Saved(path, "New plan"))
	assert.Empty(t, m.process(12).Lefts(""))
	others := m.process(12).Others(path)
	require.Len(t, others, 1, "open under its new name")
	assert.Equal(t, 11, others[0].PID)

	require.NoError(t, x.Keep([]byte("more")))
	m.kill(11)
	lefts := m.process(12).Lefts(path)
	require.Len(t, lefts, 1)
	assert.Equal(t, "more", string(lefts[0].Text))
}

// A lost connection or a stop from outside: there is time to leave, not to ask.
func TestLeavingLetsThePlanLie(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	x := m.begin(t, 11, path, "")
	require.NoError(t, x.Keep([]byte("text")))
	require.NoError(t, x.Leave())
	m.kill(11)
	assert.Len(t, m.process(12).Lefts(path), 1)
	assert.Empty(t, m.process(12).Others(path))
}

func TestTwoEditorsOnOnePlan(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	one, two := m.process(11), m.process(12)
	m.begin(t, 11, path, "")
	m.begin(t, 12, path, "")
	assert.Len(t, one.Others(path), 1)
	assert.Equal(t, 11, two.Others(path)[0].PID)

	link := filepath.Join(t.TempDir(), "link.toml")
	require.NoError(t, os.Symlink(path, link))
	assert.Len(t, two.Others(link), 1, "by a link it is the same plan")

	m.kill(11)
	assert.Empty(t, two.Others(path))
	assert.NotContains(t, strings.Join(m.files(t), " "), "-11", "what a dead one noted is cleared away")
}

// In a home that machines share, the process cannot be asked.
func TestEditorOfAnotherMachineGoesOn(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	far := m.process(11)
	far.host = "studio"
	x, err := far.Begin(path, "")
	require.NoError(t, err)
	require.NoError(t, x.Keep([]byte("text")))
	x.note.Close()
	here := m.process(11)
	assert.Len(t, here.Others(path), 1)
	assert.Empty(t, here.Lefts(path))
}

func TestLeftsComeLastFirst(t *testing.T) {
	m := newMachine(t)
	for pid, text := range []string{"a", "b", "c"} {
		x := m.begin(t, pid+1, "", text)
		require.NoError(t, x.Keep([]byte(text)))
		m.kill(pid + 1)
	}
	var got []string
	for _, l := range m.process(9).Lefts("") {
		got = append(got, string(l.Text))
	}
	assert.Equal(t, []string{"c", "b", "a"}, got)
}

// What is in the folder may be anything: half a disk's rubbish is no plan.
func TestRubbishIsPassedOver(t *testing.T) {
	m, path := newMachine(t), planFile(t, "a.toml")
	for _, folder := range []string{openFolder, unsavedFolder} {
		require.NoError(t, os.MkdirAll(filepath.Join(m.dir, folder, "folder-1"), 0o755))
		for i, text := range []string{"", "{", "[]", "\x00\xff", `{"path":7}`} {
			require.NoError(t, os.WriteFile(filepath.Join(m.dir, folder, fmt.Sprintf("%s-%d", key(path), i+1)), []byte(text), 0o644))
		}
	}
	assert.Empty(t, m.process(9).Lefts(""))
	assert.Empty(t, m.process(9).Others(path))
}

func TestKeepFailsWhereNothingCanBeWritten(t *testing.T) {
	m := newMachine(t)
	require.NoError(t, os.WriteFile(m.dir, nil, 0o644), "a file where the folder should be")
	x, err := m.process(1).Begin("", "")
	assert.Error(t, err)
	assert.Error(t, x.Keep([]byte("text")))
	assert.NoError(t, x.Leave(), "and still the editor can go")
}

func TestRecent(t *testing.T) {
	m := newMachine(t)
	s := m.process(1)
	assert.Empty(t, s.Recent())
	a, b := planFile(t, "a.toml"), planFile(t, "b.toml")
	for _, p := range []string{a, b, a} {
		require.NoError(t, s.Opened(p))
	}
	assert.Equal(t, []string{a, b}, s.Recent())
	require.NoError(t, os.Remove(a))
	assert.Equal(t, []string{b}, s.Recent(), "one that is gone is not offered")
	for i := range 30 {
		require.NoError(t, s.Opened(planFile(t, fmt.Sprintf("%d.toml", i))))
	}
	assert.Len(t, s.Recent(), mostRecent)
}

func TestDir(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", filepath.Join(string(filepath.Separator), "s"))
	d, err := Dir()
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(string(filepath.Separator), "s", "footplank"), d)
	t.Setenv("XDG_STATE_HOME", "not/absolute")
	t.Setenv("HOME", filepath.Join(string(filepath.Separator), "h"))
	d, err = Dir()
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(filepath.ToSlash(d), "/h/.local/state/footplank"), d)
}

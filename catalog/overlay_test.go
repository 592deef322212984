package catalog

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// folder writes files, name and text in turn, and returns where they are.
func folder(t *testing.T, files ...string) string {
	t.Helper()
	dir := t.TempDir()
	for i := 0; i < len(files); i += 2 {
		require.NoError(t, os.WriteFile(filepath.Join(dir, files[i]), []byte(files[i+1]), 0o644))
	}
	return dir
}

const squeeze = `
[[form]]
name    = "squeeze"
summary = "my own compressor"
body    = ["2 3/4in", 120, "5cm"]
mass    = "12oz"
draw    = { volts = 18, milliamps = 7, polarity = "centre-positive" }
[[form.switch]]
at = [35, 20]
[[form.jack]]
id   = "in"
dir  = "in"
wall = "right"
along = 60
[[form.jack]]
id   = "dc"
kind = "dc"
wall = "back"
along = 20
height = 15
plug = "dc-straight"
`

func TestOwnFormIsAdded(t *testing.T) {
	c, err := Load(folder(t, "mine.toml", squeeze, "notes.txt", "not read", ".old.toml", "= not read"))
	require.NoError(t, err)
	f, ok := c.Unit("squeeze")
	require.True(t, ok)
	u := f.Unit
	assert.Equal(t, layout.Size{W: 69850, D: 120 * mm, H: 50 * mm}, u.Body)
	assert.Equal(t, u.Body, u.Overall)
	assert.Equal(t, 12*layout.Ounce-layout.Mass(6), u.Mass, "12 oz rounded once, not twelve times")
	assert.Equal(t, layout.Draw{Millivolts: 18000, Milliamps: 7, CentrePositive: true}, *u.Draw)
	assert.Equal(t, 50*mm, u.Switches[0].Height, "a switch is on the top unless told otherwise")
	in := u.Jack("in")
	assert.Equal(t, layout.Jack{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right,
		Along: 60 * mm, Height: 25 * mm, Plug: in.Plug}, *in)
	assert.Equal(t, "phone-right-angle", in.Plug.Name, "the default plug")
	assert.Equal(t, layout.In, u.Jack("dc").Dir)
	assert.Equal(t, "dc-straight", u.Jack("dc").Plug.Name)
	_, ok = c.Unit("compact")
	assert.True(t, ok, "the built-in ones are still there")
	_, ok = Builtin().Unit("squeeze")
	assert.False(t, ok, "and know nothing of the player's own")
}

func TestOwnFormReplacesWhole(t *testing.T) {
	c, err := Load(folder(t, "mine.toml", strings.ReplaceAll(squeeze, `"squeeze"`, `"mini"`)))
	require.NoError(t, err)
	f, _ := c.Unit("mini")
	assert.Equal(t, "my own compressor", f.Summary)
	assert.Nil(t, f.Unit.Jack("out"), "nothing is left of the built-in one")
	assert.Empty(t, f.Values)
}

func TestOwnPlugIsInEveryFormThatUsesIt(t *testing.T) {
	c, err := Load(folder(t, "mine.toml", `
[[plug]]
name = "phone-flat"
kind = "phone"
out = 11
width = 24
status = { out = "read" }
source = { out = "my calliper" }
[[plug]]
name = "stubby"
kind = "dc"
out = 10
width = 9
default = true
`))
	require.NoError(t, err)
	f, _ := c.Unit("mini")
	assert.Equal(t, 11*mm, f.Unit.Jack("in").Plug.Out)
	assert.Equal(t, "stubby", f.Unit.Jack("dc").Plug.Name, "the player's default goes before the built-in one")
	p, _ := c.Plug("phone-flat")
	assert.Equal(t, []Value{{"out", Read, "my calliper"}}, p.Values)
	f, _ = Builtin().Unit("mini")
	assert.Equal(t, 13*mm, f.Unit.Jack("in").Plug.Out)
}

func TestOwnBoardIsReadWhole(t *testing.T) {
	c, err := Load(folder(t, "mine.toml", `
[[material]]
name = "door"
density = 500
[[board]]
name = "door-board"
size = [600, 300]
material = "door"
thickness = 20
feet = 10
overhang = { left = 15 }
plug_room = { back = 40 }
[board.case]
name = "box"
inside = [650, 350, 160]
mass = "3kg"
[[board.riser]]
name = "shelf"
at = [100, 150]
size = [400, 150]
height = 60
thickness = 10
material = "steel"
leg = [{ at = [290, 150], size = [20, 150] }]
[[board.fixture]]
name = "handle"
at = [0, 100]
size = [10, 100]
from = 5
height = 40
`))
	require.NoError(t, err)
	f, ok := c.Board("door-board")
	require.True(t, ok)
	b := f.Board
	assert.Equal(t, 500.0, b.Density)
	assert.Equal(t, layout.Edges{Left: 15 * mm}, b.Overhang)
	assert.Equal(t, layout.Edges{Back: 40 * mm}, b.PlugRoom)
	assert.Equal(t, &layout.Case{Name: "box", Inside: layout.Size{W: 650 * mm, D: 350 * mm, H: 160 * mm}, Below: 30 * mm, Mass: 3 * layout.Kilogram}, b.Case)
	require.Len(t, b.Risers, 1)
	assert.Equal(t, 7850.0, b.Risers[0].Density)
	assert.Equal(t, []layout.Leg{{At: layout.Rect{X0: 290 * mm, Y0: 150 * mm, X1: 310 * mm, Y1: 300 * mm}}}, b.Risers[0].Legs)
	assert.Equal(t, []layout.Fixture{{Name: "handle", Box: layout.BoxOn(layout.Rect{Y0: 100 * mm, X1: 10 * mm, Y1: 200 * mm}, 5*mm, 40*mm)}}, b.Fixtures)
}

func TestMissingFolderIsFine(t *testing.T) {
	for _, dir := range []string{"", filepath.Join(t.TempDir(), "none"), t.TempDir()} {
		c, err := Load(dir)
		require.NoError(t, err)
		assert.Same(t, Builtin(), c)
	}
}

func TestUserDir(t *testing.T) {
	t.Setenv("HOME", "/home/fiddler")
	t.Setenv("XDG_CONFIG_HOME", "/elsewhere")
	assert.Equal(t, filepath.Join("/elsewhere", "footplank"), UserDir())
	for _, x := range []string{"", "not/absolute"} {
		t.Setenv("XDG_CONFIG_HOME", x)
		assert.Equal(t, filepath.Join("/home/fiddler", ".config", "footplank"), UserDir())
	}
	t.Setenv("HOME", "")
	assert.Empty(t, UserDir())
}

func TestFolderThatIsAFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "footplank")
	require.NoError(t, os.WriteFile(name, nil, 0o644))
	_, err := Load(name)
	require.ErrorContains(t, err, name+": cannot read the folder of your own catalog: not a directory: mend that, or move it away")
}

func TestUnreadableFiles(t *testing.T) {
	dir := folder(t, "long.toml", strings.Repeat("# much to say\n", 100_000))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder.toml"), 0o755))
	require.NoError(t, os.Symlink("nowhere", filepath.Join(dir, "gone.toml")))
	_, err := Load(dir)
	var errs Errors
	require.ErrorAs(t, err, &errs)
	require.Len(t, errs, 3, "all at once")
	assert.Contains(t, errs[0].Error(), "folder.toml: cannot read it: not a plain file: every .toml file here is read as a catalog, so mend it or take it away")
	assert.Contains(t, errs[1].Error(), "gone.toml: cannot read it: no such file")
	assert.Contains(t, errs[2].Error(), "long.toml: larger than 1024 kB: not a catalog, so take it out of the folder")
}

package plan

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// change returns small with one text in it changed.
func change(t *testing.T, old, with string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(small, old), "%q in small", old)
	return strings.Replace(small, old, with, 1)
}

// Each error as the player reads it.
func TestErrors(t *testing.T) {
	unit := `id   = "octave"
form = "compact"`
	for _, c := range []struct{ old, with, want string }{
		// Words and types.
		{`title =`, `titel =`, `1:1: unknown key "titel": did you mean "title"?`},
		{`title = "Small"`, `title = 3`, `1:9: title: found 3, want text in quotes`},
		{`title = "Small"`, `title = "a\u001b[2Jb"`, `1:9: title: found "a\x1b[2Jb", want one line without control characters`},
		{`title = "Small"`, `title = "` + strings.Repeat("é", 81) + `"`, `1:9: title: found "` + strings.Repeat("é", 40) + `...", want at most 80 characters`},
		{`title = "Small"`, `title = "ünï" # x` + "\nbord = 1", `2:1: unknown key "bord": did you mean "board"?`},
		{`title = "Small"`, `length_unit = "inch"`, `1:15: length_unit: found "inch": want "mm" or "in"`},
		// The board.
		{`[560, 330]`, `[560, 0]`, `4:18: board: size: found 0, want from 50mm to 3000mm`},
		{`[560, 330]`, `[560, -330]`, `4:18: board: size: found -330, want from 50mm to 3000mm`},
		{`[560, 330]`, `[nan, inf]`, "4:13: board: size: found nan, want a length, like 305 or \"305mm\" or \"7 1/2in\"\nsmall.toml:4:18: board: size: found inf, want a length, like 305 or \"305mm\" or \"7 1/2in\""},
		{`[560, 330]`, `[560, 1e300]`, `4:18: board: size: found 1e300, want from 50mm to 3000mm`},
		{`[560, 330]`, `["560 mm", "3 yards"]`, `4:23: board: size: length "3 yards": unknown unit "yards", want a number and mm, cm, m, in or ft, like "305mm" or "7 1/2in"`},
		{`[560, 330]`, `560`, `4:12: board: size: found 560, want a list of width, depth`},
		{`[560, 330]`, `[560]`, `4:12: board: size: found 1 in the list, want 2: width, depth`},
		{`[560, 330]`, `[[560], {a = 1}]`, "4:13: board: size: found a list, want a length, like 305 or \"305mm\" or \"7 1/2in\"\nsmall.toml:4:20: board: size: found a table, want a length, like 305 or \"305mm\" or \"7 1/2in\""},
		{`material = "birch-plywood"`, `material = "birch-plywod"`, `5:12: board: material: found "birch-plywod": did you mean "birch-plywood"?`},
		{`material = "birch-plywood"`, `mass = 0`, `5:8: board: mass: found 0, want more than nothing`},
		{`material = "birch-plywood"`, `mass = true`, `5:8: board: mass: found true, want a mass in g, like 350, or "350g", "2.6kg", "12oz"`},
		{`material = "birch-plywood"`, `mass = "2 stone"`, `5:8: board: mass "2 stone": unknown unit "stone", want a number and g, kg, oz or lb`},
		{`material = "birch-plywood"`, `feet = 10`, `3:1: board: neither material nor mass: want material = "aluminium", "aluminium-5052", "birch-plywood", "hdpe", "mdf", "pine", "polyethylene" or "steel", or mass = "2.6kg"`},
		{`material = "birch-plywood"`, "mass = 1\nfeet = 165", `6:8: board: feet: 165mm in from each edge meet in the middle of the board`},
		{`material = "birch-plywood"`, "mass = 1\noverhang = { lfet = 1 }", `6:14: board: overhang: unknown key "lfet": did you mean "left"?`},
		{`material = "birch-plywood"`, "mass = 1\noverhang = 3", `6:12: board: overhang: found 3, want a table`},
		{`material = "birch-plywood"`, "mass = 1\nsurface = \"rails\"", `6:11: board: surface "rails" without a [[board.rail]]: want at least one, with at and size`},
		{`material = "birch-plywood"`, "mass = 1\nrail = [{at = [0, 0], size = [560, 40]}]", `6:9: board: a rail on a board whose surface is "solid": want surface = "rails"`},
		{`material = "birch-plywood"`, "mass = 1\nsurface = \"rails\"\nrail = [{at=[0,0],size=[560,40]}, {at=[0,39],size=[560,40]}, {at=[0,300],size=[560,40]}]",
			"7:39: rail 2: lies over rail 1\nsmall.toml:7:66: rail 3: reaches from 0mm to 560mm and from 300mm to 340mm, off the board of 560mm x 330mm"},
		{`material = "birch-plywood"`, "mass = 1\ncase = { inside = [600, 400, 20], below = 20 }", `6:19: board: case: inside: 20mm high, but the board and its feet take 20mm of that`},
		{`material = "birch-plywood"`, "mass = 1\nfixture = [{ at = [0, 0], size = [9, 9], height = 20, from = 30 }]", `6:62: fixture 1: from 30mm: not below its top at 20mm`},
		// The riser.
		{`name      = "shelf"`, `name = "deck"`, `8:8: riser "deck": there is a surface of that name already`},
		{`at        = [80, 210]`, `at = [200, 210]`, `9:6: riser "shelf": reaches from 200mm to 600mm and from 210mm to 325mm, off the board of 560mm x 330mm`},
		{`height    = 55`, `height = 9`, `11:10: riser "shelf": height 9mm: not above its thickness of 9mm, so nothing is left under it`},
		{`height    = 55`, `height = 5000`, `11:10: riser "shelf": height: found 5000, want from 5mm to 500mm`},
		{`height    = 55`, ``, `7:1: riser "shelf": no height: want that of its top above the deck's top`},
		{`thickness = 9`, "thickness = 9\n[[board.riser.leg]]\nat = [0, 0]\nsize = [10, 10]", `14:6: riser "shelf": leg 1: is not wholly under the riser`},
		{`thickness = 9`, "thickness = 9\n[[board.riser]]\nname = \"low\"\nat = [80, 300]\nsize = [90, 30]\nheight = 20\nthickness = 5", `15:6: riser "low": lies over riser "shelf"`},
		// The slot.
		{`at   = [300, 0]`, `at = [310, 0]`, `16:6: slot "colour": reaches from 310mm to 570mm and from 0mm to 200mm, beyond surface "deck" and its overhang`},
		{`size = [260, 200]`, "size = [260, 200]\non = \"shelfe\"", `18:6: slot "colour": on: found "shelfe", which is no surface of the board: did you mean "shelf"?`},
		{`name = "colour"`, `name = "col our"`, "15:8: slot: name \"col our\": want letters, digits, \"-\" and \"_\", at most 40 of them\nsmall.toml:28:34: chain: order: found \"slot:colour\", but there is no slot \"colour\": did you mean \"col our\"?\nsmall.toml:32:10: lineup \"barn\": fill: there is no slot \"colour\": did you mean \"col our\"?"},
		// Units.
		{unit, `id = "squash"` + "\nbody = [50, 90, 30]", "24:8: unit \"squash\": there is a unit of that id already, in line 20\nsmall.toml:28:24: chain: order: found \"octave\": want \"instrument\", \"amp\", \"desk\", \"slot:NAME\", or the id of a [[unit]]"},
		{unit, `id = "amp"` + "\nbody = [50, 90, 30]", "20:6: unit \"amp\": the id \"amp\" has a meaning of its own in a plan: want another\nsmall.toml:28:24: chain: order: found \"octave\": want \"instrument\", \"amp\", \"desk\", \"slot:NAME\", or the id of a [[unit]]"},
		{unit, `id = "octave"`, `19:1: unit "octave": neither form nor body: want the name of a form, or body = [width, depth, height]`},
		{unit, `form = "compact"`, "19:1: unit: no id: want one that the chain and the line-ups can name\nsmall.toml:27:24: chain: order: found \"octave\": want \"instrument\", \"amp\", \"desk\", \"slot:NAME\", or the id of a [[unit]]"},
		{unit, `id = "octave"` + "\nform = \"compcat\"\nuses = [\"x\"]", `21:8: unit "octave": form: found "compcat": did you mean "compact"?`},
		{unit, `id = "octave"` + "\nform = \"spaceship\"", `21:8: unit "octave": form: found "spaceship": no such form; "footplank forms" lists them, or give body = [width, depth, height]`},
		{unit, unit + "\nmass = \"2 stone\"", `22:8: unit "octave": mass "2 stone": unknown unit "stone", want a number and g, kg, oz or lb`},
		{unit, unit + "\nmount = \"glued\"", `22:9: unit "octave": mount: found "glued": want "fixed" or "swap"`},
		{unit, unit + "\npinned = 1", `22:10: unit "octave": pinned: found 1, want true or false`},
		{unit, unit + "\nbody = [70, 122, 50]\noverall = [60, 120, 50]", `23:11: unit "octave": overall: smaller than the body of 70 x 122 x 50mm, want its size with knobs and jack nuts`},
		{unit, unit + "\nplace = { on = \"floor\", at = [1, 2] }", `22:16: unit "octave": place: on: found "floor", which is no surface of the board: want "deck" or "shelf"`},
		{unit, unit + "\nplace = { at = [1, 2], turn = 45 }", `22:31: unit "octave": place: turn: found 45, want 0, 90, 180 or 270 degrees`},
		{unit, unit + "\nplace = { turn = -90 }", "22:9: unit \"octave\": place: no at: want [from the left, from the front]\nsmall.toml:22:18: unit \"octave\": place: turn: found -90, want 0, 90, 180 or 270 degrees"},
		{unit, unit + "\non = [\"deck\", \"deck\"]", `22:15: unit "octave": on: "deck" is given twice`},
		{unit, unit + "\non = []", `22:6: unit "octave": on: an empty list, want at least one of "deck" or "shelf"`},
		{unit, unit + "\nturns = [0, 180.0, 180]", `22:20: unit "octave": turns: 180 is given twice`},
		{unit, unit + "\noften = 4", `22:9: unit "octave": often: found 4, want a whole number from 0 to 3`},
		{unit, unit + "\nuses = [\"uot\"]", `22:9: unit "octave": uses: found "uot", which is no jack of the unit: did you mean "out"?`},
		{unit, unit + "\ndraw = { volts = 900, milliamps = 1.5 }", "22:18: unit \"octave\": draw: volts: found 900, want a number from 0.1 to 60\nsmall.toml:22:35: unit \"octave\": draw: milliamps: found 1.5, want a whole number from 0 to 100000"},
		{unit, unit + "\nsweep = { from = 30, top = 20 }", `22:9: unit "octave": sweep: from 30mm to 20mm: want its top above where it starts`},
		{unit, unit + "\n[[unit.jack]]\nid = \"aux\"\nkind = \"phone\"\nwall = \"top\"", "22:1: unit \"octave\": jack \"aux\": no along: want how far along its wall, from the left for front and back, from the front for the sides\n" +
			"small.toml:22:1: unit \"octave\": jack \"aux\": no dir: want \"in\" or \"out\"\nsmall.toml:25:8: unit \"octave\": jack \"aux\": wall: found \"top\": want \"front\", \"left\", \"back\" or \"right\""},
		{unit, unit + "\n[[unit.jack]]\nid = \"in\"\nplug = \"dc-straight\"", `24:8: unit "octave": jack "in": plug: "dc-straight" goes into a jack of kind "dc", not "phone": want "phone-flat", "phone-right-angle" or "phone-straight"`},
		{unit, unit + "\n[[unit.jack]]\nid = \"in\"\nleg = \"left\"", `24:7: unit "octave": jack "in": leg: found "left": want "up", "down", "front" or "back"`},
		{unit, unit + "\nbody = [70, 122, 50]\n[[unit.jack]]\nid = \"in\"\nalong = 123", `23:1: unit "octave": jack "in": 123mm along the right wall, which is 122mm long: want its own along in a [[unit.jack]]`},
		{unit, unit + "\nbody = [70, 122, 50]\n[[unit.switch]]\nat = [90, 20]", `24:6: unit "octave": switch 1: at: off the body of 70 x 122 x 50mm`},
		{unit, unit + "\n[[unit.output]]\njack = \"dc\"\nmilliamps = 100", `23:8: unit "octave": output 1: jack: found "dc", which is no jack of signal "power" and dir "out": there are none`},
		// The chain.
		{`"slot:colour", "desk"`, `"slot:color", "desk"`, `28:34: chain: order: found "slot:color", but there is no slot "color": did you mean "colour"?`},
		{`"slot:colour", "desk"`, `"colour", "desk"`, `28:34: chain: order: found "colour": did you mean "slot:colour"?`},
		{`"slot:colour", "desk"`, `"octvae", 4]` + "#", "28:34: chain: order: found \"octvae\": did you mean \"octave\"?\nsmall.toml:28:44: chain: order: found 4, want text in quotes"},
		{`"slot:colour", "desk"`, `"squash"`, `28:34: chain: order: unit "squash" is in a slot in some line-up, so it comes through its slot: want "slot:NAME" alone`},
		{`"slot:colour", "desk"`, `"slot:colour", "octave", "desk"`, `28:49: chain: order: unit "octave" is in the chain twice by its jack "in" (first in line 28), which makes a loop: want the second time by other jacks, like "octave/return>out"`},
		{`"slot:colour", "desk"`, `"slot:colour", "slot:colour"`, `28:49: chain: order: slot "colour" is in the chain twice, first in line 28`},
		{`"slot:colour", "desk"`, `"slot:colour", "instrument"`, `28:49: chain: order: "instrument" in the middle, want it first`},
		{`"octave", "slot`, `"octave/in", "slot`, `28:24: chain: order: found "octave/in", want its jacks like "octave/in>out"`},
		{`"octave", "slot`, `"octave/in>send", "slot`, `28:24: chain: unit "octave" has no jack "send" for the signal to go out: it has "in", "out" and "dc"; name them like "octave/JACK>JACK"`},
		{`"octave", "slot`, `"octave/out>in", "slot`, "28:24: chain: jack \"out\" of unit \"octave\" goes \"out\", but the signal must go \"in\" there\nsmall.toml:28:24: chain: jack \"in\" of unit \"octave\" goes \"in\", but the signal must go \"out\" there"},
		{`"octave", "slot`, `"octave/dc>out", "slot`, `28:24: chain: jack "dc" of unit "octave" is for power, not for the signal`},
		{`"desk"]`, `"desk"]` + "\nlink = [{ from = \"octave/out\", to = \"amp\" }]", `29:18: chain: jack "out" of unit "octave" has two plugs: one jack takes one cable`},
		{`"desk"]`, `"desk"]` + "\nlink = [{ from = \"octave/ot\", to = \"instrument\" }]", `29:18: chain: link 1: from: found "octave/ot", but unit "octave" has no jack "ot": did you mean "out"?`},
		{`"desk"]`, `"desk"]` + "\nlink = [{ from = \"octave/in\", to = \"desk\" }]", `29:18: chain: link 1: from: jack "in" of unit "octave" goes "in", want one that goes "out"`},
		{`"desk"]`, `"desk"]` + "\nlink = [{ from = \"octave/out\", to = \"octave/in\" }]", `29:9: chain: link 1: from unit "octave" to itself, which makes a loop`},
		{`"desk"]`, `"desk"]` + "\nlink = [{ from = \"amp\" }]", `29:9: chain: link 1: no to: want "UNIT/JACK", "instrument", "amp" or "desk"`},
		// Line-ups.
		{`["squash"]`, `["squsah"]`, `32:20: lineup "barn": fill: colour: found "squsah", which is no unit: did you mean "squash"?`},
		{`["squash"]`, `["squash", "squash"]`, `32:30: lineup "barn": fill: colour: unit "squash" is in slot "colour" of this line-up already`},
		{`{ colour =`, `{ color =`, `32:10: lineup "barn": fill: there is no slot "color": did you mean "colour"?`},
		{`fill =`, "place = { squash = { at = [1, 2] } }\nfill =", ``},
		{`fill =`, "place = { octave = { at = [1, 2] } }\nfill =", `32:11: lineup "barn": place: unit "octave" is in no slot and so on the board in every line-up: want its place in its [[unit]]`},
		{`fill =`, "place = { shoe = { at = [1, 2] } }\nfill =", `32:11: lineup "barn": place: there is no unit "shoe": want the id of a [[unit]]: "octave" or "squash"`},
		{`["squash"] }`, "[\"squash\"] }\n[[lineup]]\nname = \"pit\"\nplace = { squash = { at = [1, 2] } }", `35:11: lineup "pit": place: unit "squash" is not in this line-up: want it in the line-up's fill, or no place`},
		{`["squash"] }`, "[\"squash\"] }\n[[lineup]]\nname = \"barn\"", `34:8: lineup "barn": there is a line-up of that name already`},
		{`["squash"] }`, "[\"squash\"] }\n[limits]\nreach = -1", `34:9: limits: reach: found -1, want from 0mm to 500mm`},
		{`["squash"] }`, "[\"squash\"] }\n[power]\ntour = [\"Ireland\"]", `34:9: power: tour: found "Ireland", want a country's two capital letters by ISO 3166, like "IE"`},
	} {
		src := change(t, c.old, c.with)
		_, err := Parse("small.toml", []byte(src), nil)
		if c.want == "" {
			require.NoError(t, err, c.with)
			continue
		}
		require.IsType(t, Errors{}, err, c.with)
		assert.Equal(t, "small.toml:"+c.want, err.Error())
	}
}

func TestTooMany(t *testing.T) {
	const board = "board = { size = [300, 200], mass = 900 }\n"
	repeat := func(n int, format string) []byte {
		var b strings.Builder
		b.WriteString(board)
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return []byte(b.String())
	}
	const unit, lineup, slot = "[[unit]]\nid = \"u%d\"\nform = \"mini\"\n", "[[lineup]]\nname = \"l%d\"\n", "[[slot]]\nname = \"s%d\"\nat = [0, 0]\nsize = [9, 9]\n"
	for _, src := range [][]byte{repeat(maxUnits, unit), repeat(maxLineups, lineup), repeat(maxSlots, slot)} {
		_, err := Parse("p", src, nil)
		require.NoError(t, err)
	}
	_, err := Parse("p", repeat(maxUnits+1, unit), nil)
	require.EqualError(t, err, "p:602:1: unit: number 201, want at most 200")
	_, err = Parse("p", repeat(maxLineups+1, lineup), nil)
	require.EqualError(t, err, "p:128:1: lineup: number 64, want at most 63")
	_, err = Parse("p", repeat(maxSlots+1, slot), nil)
	require.EqualError(t, err, "p:202:1: slot: number 51, want at most 50")
}

func TestFixedUnitInASlot(t *testing.T) {
	src := strings.Replace(small, `id   = "squash"`, "id = \"squash\"\nmount = \"fixed\"", 1)
	_, err := Parse("p", []byte(src), nil)
	require.EqualError(t, err, `p:33:20: lineup "barn": fill: colour: unit "squash" has mount "fixed" (line 25) and cannot change with the line-up: want mount = "swap", or take it out of here`)
}

func TestLoopThroughLinks(t *testing.T) {
	const box = `
[[unit]]
id = %q
body = [60, 60, 30]
jack = [
  { id = "a", kind = "phone", dir = "in", wall = "right", along = 20 },
  { id = "b", kind = "phone", dir = "in", wall = "right", along = 40 },
  { id = "c", kind = "phone", dir = "out", wall = "left", along = 20 },
  { id = "d", kind = "phone", dir = "out", wall = "left", along = 40 },
]
`
	plan := func(links string) []byte {
		return []byte("board = { size = [400, 200], mass = \"1kg\" }\n" + fmt.Sprintf(box, "one") + fmt.Sprintf(box, "two") + fmt.Sprintf(box, "three") +
			"[chain]\norder = [\"instrument\", \"one/a>c\", \"amp\"]\n" + links)
	}
	_, err := Parse("p", plan("link = [{ from = \"one/d\", to = \"two/a\" }, { from = \"two/c\", to = \"three/a\" }, { from = \"three/c\", to = \"one/b\" }]\n"), nil)
	require.NoError(t, err, "a unit whose jacks are named may send and return")
	_, err = Parse("p", plan("link = [\n{ from = \"two/c\", to = \"three/a\" },\n{ from = \"three/c\", to = \"two/b\" }]\n"), nil)
	require.EqualError(t, err, `p:36:26: chain: link 2: the signal comes back to unit "two", from which it went to unit "three": a loop; where "b" is a return or a second line of that unit, want both as stops of the order, like "two/in>send" and later "two/b>out"`)
}

// Plans that were written as a player would first try: an end of a link without
// its jack, and a supply among the units of a slot that the chain passes.
func TestJackOfAnEndIsAskedFor(t *testing.T) {
	_, err := Parse("p", []byte(strings.Replace(small, `"desk"]`, `"desk"]`+"\nlink = [{ from = \"octave\", to = \"amp\" }]", 1)), nil)
	require.ErrorContains(t, err, `chain: link 1: from: found "octave" without a jack: want "octave/out"`)
	_, err = Parse("p", []byte(strings.Replace(small, `"octave", "slot`, `"octave", "power", "slot`, 1)+"\n[[unit]]\nid = \"power\"\nform = \"supply-slim\"\n"), nil)
	require.EqualError(t, err, `p:28:34: chain: unit "power" has no jack for the signal, so it is no stop of the chain: want it out of the order; where it changes with the line-up, in a slot that the order does not pass`)
}

// All errors at once, in the text's order.
func TestErrorListing(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("testdata", "all-wrong.toml"))
	require.NoError(t, err)
	_, err = Parse("all-wrong.toml", src, nil)
	golden.RequireEqual(t, []byte(err.Error()+"\n"))
}

func TestNotTOML(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		{"", `p:1:1: no [board]: want one with at least its size and its material or mass`},
		{"a = [\n[board]\nsize = 3\n[[unit]]\nid = = 3", "p:2:2: not TOML: unexpected character U+0062 'b' at start of value (the value begun in line 1: is its closing quote, ] or } missing?)\n" +
			"p:5:6: not TOML: unexpected character U+003D '=' at start of value"},
		{"a = 1\na = 2", `p:2:1: key "a" is given twice`},
		{"[a]\n[a]", `p:2:2: table [a] is given twice`},
		{"a.b = 1\na = 2", `p:2:1: key "a" is given twice`},
		{"a = 1\na.b = 2", `p:2:1: "a" is already given as something else`},
		{"a = [1]\n[[a]]", `p:2:3: [[a]]: "a" is already given as something else`},
		{"a = 2020-13-45", `p:1:5: not TOML: invalid datetime: "2020-13-45"`},
		{"a = 'x", `p:1:6: not TOML: unterminated literal string`},
		{"a = 99999999999999999999", `p:1:5: not TOML: 99999999999999999999 is out of range for int64`},
		{"\xff\xfea\x00", `p:1:1: byte 0xff is no text: want a plan in TOML, saved as UTF-8`},
		{"a = \"\u00e9\"\nb\x00", `p:2:2: byte 0x00 is no text: want a plan in TOML, saved as UTF-8`},
		{"a" + strings.Repeat(".a", 9) + " = 1", `p:1:1: a key of 10 parts: want at most 8`},
		{"a = " + strings.Repeat("[", 20) + strings.Repeat("]", 20), `p:1:22: nested more than 16 deep`},
	} {
		_, err := Parse("p", []byte(c.src), nil)
		require.EqualError(t, err, c.want, "%q", c.src)
		require.IsType(t, Errors{}, err)
	}
}

// Deep nesting neither hangs nor overflows the stack, however it is written.
func TestDeepNesting(t *testing.T) {
	const n = 50_000
	for _, src := range []string{
		"a = " + strings.Repeat("[", n), "a = " + strings.Repeat("[", n) + strings.Repeat("]", n),
		"a = " + strings.Repeat("{b=", n), "a" + strings.Repeat(".a", n) + " = 1",
		"[a" + strings.Repeat(".a", n) + "]", strings.Repeat("[[a]]\n", n/2), strings.Repeat("[[unit]]\n", n/2),
		strings.Repeat("[\n", n), strings.Repeat("a = {\n", n/2),
	} {
		_, err := Parse("p", []byte(src), nil)
		require.Error(t, err)
		require.LessOrEqual(t, len(err.Error()), 20_000)
	}
}

func TestErrorsAreBounded(t *testing.T) {
	var b strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&b, "key%d = 1\n", i)
	}
	_, err := Parse("p", []byte(b.String()), nil)
	lines := strings.Split(err.Error(), "\n")
	require.Len(t, lines, 51)
	require.Equal(t, "p:50:1: unknown key \"key49\": "+wanted("key49", []string{"title", "length_unit", "board", "slot", "unit", "chain", "lineup", "limits", "power", "cable", "fastener", "owned", "prices"}), lines[49])
	require.Equal(t, "and 950 more", lines[50])
}

func TestByteOrderMarkAndLineEnds(t *testing.T) {
	for _, src := range []string{small, strings.ReplaceAll(small, "\n", "\r\n")} {
		d, err := Parse("p", append(bytes.Clone(bom), src...), nil)
		require.NoError(t, err)
		got, err := d.Render()
		require.NoError(t, err)
		require.Equal(t, string(bom)+src, string(got))
	}
	_, err := Parse("p", []byte(string(bom)+"titel = 1"), nil)
	require.ErrorContains(t, err, "p:1:1: ", "the mark is no column")
}

func TestErrorsUnwrap(t *testing.T) {
	_, err := Parse("p", []byte("titel = 1"), nil)
	var one Error
	require.True(t, errors.As(err, &one))
	require.Equal(t, 1, one.Line)
}

func TestWanted(t *testing.T) {
	words := []string{"width", "depth", "height"}
	require.Equal(t, `did you mean "height"?`, wanted("heigth", words))
	require.Equal(t, `want "width", "depth" or "height"`, wanted("zzzzz", words))
	require.Equal(t, "there are none", wanted("zzzzz", nil))
}

package plan

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// diff returns the lines that only one of the texts has, in order and quoted,
// "-" before the old ones and "+" before the new.
func diff(a, b string) string {
	x, y := strings.SplitAfter(a, "\n"), strings.SplitAfter(b, "\n")
	// n[i][j] is the most lines that x[i:] and y[j:] have in common.
	n := make([][]int, len(x)+1)
	for i := range n {
		n[i] = make([]int, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			if x[i] == y[j] {
				n[i][j] = n[i+1][j+1] + 1
			} else {
				n[i][j] = max(n[i+1][j], n[i][j+1])
			}
		}
	}
	var out strings.Builder
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			i, j = i+1, j+1
		case j == len(y) || i < len(x) && n[i+1][j] >= n[i][j+1]:
			fmt.Fprintf(&out, "-%q\n", x[i])
			i++
		default:
			fmt.Fprintf(&out, "+%q\n", y[j])
			j++
		}
	}
	return out.String()
}

// sheet is a plan to be written in several ways: UNIT is its unit of length,
// OCTAVE and BARN are where a unit and a line-up say more.
const sheet = `# A board.
length_unit = "UNIT"
[board]
size = ["560mm", "330mm"]
mass = "2kg"

[[slot]]
name = "colour"
at   = [0, 0]
size = ["560mm", "330mm"]

# The octave, on loan.
[[unit]]
id    = "octave" # fiddle
form  = "compact"
OCTAVE

[[unit]]
id = "squash"
form = "mini"

[[unit]]
id = "rasp"
form = "mini"

[[lineup]]
name = "barn" # Fridays
fill = { colour = ["squash", "rasp"] }
BARN
# The end.
`

func written(unit, octave, barn string) string {
	return strings.NewReplacer("UNIT", unit, "OCTAVE\n", octave, "BARN\n", barn).Replace(sheet)
}

func at(x, y layout.Length, t layout.Turn) *layout.Placement {
	return &layout.Placement{On: "deck", At: layout.Point{X: x, Y: y}, Turn: t}
}

// Load, change, save, diff: only what changed differs.
func TestRenderTouchesOnlyWhatChanged(t *testing.T) {
	octave := func(pl *layout.Placement) func(*layout.Plan) {
		return func(p *layout.Plan) { p.Unit("octave").Place = pl }
	}
	barn := func(id string, pl *layout.Placement) func(*layout.Plan) {
		return func(p *layout.Plan) {
			if pl == nil {
				delete(p.Lineups[0].Place, id)
			} else {
				p.Lineups[0].Place[id] = *pl
			}
		}
	}
	both := func(f ...func(*layout.Plan)) func(*layout.Plan) {
		return func(p *layout.Plan) {
			for _, g := range f {
				g(p)
			}
		}
	}
	for _, c := range []struct {
		name, unit, octave, barn string
		edit                     func(*layout.Plan)
		want                     string
	}{
		{"a new place", "mm", "", "", octave(at(80*mm, 12_500, 1)),
			"+\"place = { on = \\\"deck\\\", at = [80, 12.5], turn = 90 }\\n\"\n"},
		{"a new place, aligned", "mm", "mount = \"swap\"\n", "", octave(at(80*mm, 0, 0)),
			"+\"place = { on = \\\"deck\\\", at = [80, 0], turn = 0 }\\n\"\n"},
		{"keys that are not aligned", "mm", "mount          = \"swap\"\n", "", octave(at(80*mm, 0, 0)),
			"+\"place = { on = \\\"deck\\\", at = [80, 0], turn = 0 }\\n\"\n"},
		{"only x", "mm", "place = { at = [ 80, \"20 mm\" ], on=\"deck\" } # by the edge\n", "", octave(at(81*mm, 20*mm, 0)),
			"-\"place = { at = [ 80, \\\"20 mm\\\" ], on=\\\"deck\\\" } # by the edge\\n\"\n+\"place = { at = [ 81, \\\"20 mm\\\" ], on=\\\"deck\\\" } # by the edge\\n\"\n"},
		{"only y, in inches", "in", "place = { at = [\"80mm\", \"7 1/2in\"] }\n", "", octave(at(80*mm, 7*layout.Inch+layout.Inch/4, 0)),
			"-\"place = { at = [\\\"80mm\\\", \\\"7 1/2in\\\"] }\\n\"\n+\"place = { at = [\\\"80mm\\\", \\\"7 1/4in\\\"] }\\n\"\n"},
		{"whole inches", "in", "place = { at = [1, 2] }\n", "", octave(at(3*layout.Inch, 0, 0)),
			"-\"place = { at = [1, 2] }\\n\"\n+\"place = { at = [3, 0] }\\n\"\n"},
		{"no whole part of a micrometre in inches", "in", "place = { at = [1, 2] }\n", "", octave(at(80_001, 2*layout.Inch, 0)),
			"-\"place = { at = [1, 2] }\\n\"\n+\"place = { at = [\\\"80.001mm\\\", 2] }\\n\"\n"},
		{"a turn that was not there", "mm", "place = { at = [1, 2], }\n", "", octave(at(1*mm, 2*mm, 2)),
			"-\"place = { at = [1, 2], }\\n\"\n+\"place = { at = [1, 2], turn = 180, }\\n\"\n"},
		{"a turn in a table of its own", "mm", "[unit.place] # where\n  at = [1,\n 2] # here\n", "", octave(at(1*mm, 3*mm, 2)),
			"-\" 2] # here\\n\"\n+\" 3] # here\\n\"\n+\"  turn = 180\\n\"\n"},
		{"a turn of a dotted key", "mm", "  place . at = [1, 2] # here\n", "", octave(at(1*mm, 2*mm, 3)),
			"+\"  place . turn = 270\\n\"\n"},
		{"no place any more", "mm", "place = { at = [1, 2] } # here\n", "", octave(nil),
			"-\"place = { at = [1, 2] } # here\\n\"\n+\"# here\\n\"\n"},
		{"no table of a place any more", "mm", "[unit.place]\nat = [1, 2]\nturn = 90\n", "", octave(nil),
			"-\"[unit.place]\\n\"\n-\"at = [1, 2]\\n\"\n-\"turn = 90\\n\"\n"},
		{"no dotted place any more", "mm", "place.at = [1, 2]\nplace.turn = 90\n", "", octave(nil),
			"-\"place.at = [1, 2]\\n\"\n-\"place.turn = 90\\n\"\n"},
		{"comments in what goes", "mm", "  place = { on = 'deck', at = [ # x\n 1, 2 # y\n] } # z\n", "", octave(nil),
			"-\"  place = { on = 'deck', at = [ # x\\n\"\n-\" 1, 2 # y\\n\"\n-\"] } # z\\n\"\n+\"  # x\\n\"\n+\"  # y\\n\"\n+\"  # z\\n\"\n"},
		{"a label with its own marks, and pinned", "mm", "label = \"8va\"\n", "", func(p *layout.Plan) {
			p.Units[0].Label, p.Units[0].Pinned, p.Units[0].Mount = `"Oct" \ é`, true, layout.Swap
		}, "-\"label = \\\"8va\\\"\\n\"\n+\"label = \\\"\\\\\\\"Oct\\\\\\\" \\\\\\\\ é\\\"\\n\"\n+\"mount = \\\"swap\\\"\\n\"\n+\"pinned = true\\n\"\n"},
		{"first places of a line-up", "mm", "", "", both(barn("rasp", at(1*mm, 2*mm, 0)), barn("squash", at(50*mm, 2*mm, 1))),
			"+\"[lineup.place]\\n\"\n+\"squash = { on = \\\"deck\\\", at = [50, 2], turn = 90 }\\n\"\n+\"rasp   = { on = \\\"deck\\\", at = [1, 2], turn = 0 }\\n\"\n"},
		{"another place of a line-up", "mm", "", "place = { squash = { at = [1, 2] } }\n", barn("rasp", at(50*mm, 0, 0)),
			"-\"place = { squash = { at = [1, 2] } }\\n\"\n+\"place = { squash = { at = [1, 2] }, rasp = { on = \\\"deck\\\", at = [50, 0], turn = 0 } }\\n\"\n"},
		{"one place of a line-up moved", "mm", "", "[lineup.place]\nsquash = { at = [1, 2] } # 1\nrasp = { at = [50, 2] } # 2\n", barn("rasp", at(51*mm, 2*mm, 0)),
			"-\"rasp = { at = [50, 2] } # 2\\n\"\n+\"rasp = { at = [51, 2] } # 2\\n\"\n"},
		{"tables of their own", "mm", "", "[lineup.place.squash]\nat = [1, 2]\n", both(barn("rasp", at(51*mm, 0, 0)), barn("squash", at(1*mm, 3*mm, 0))),
			"+\"[lineup.place]\\n\"\n+\"rasp = { on = \\\"deck\\\", at = [51, 0], turn = 0 }\\n\"\n-\"at = [1, 2]\\n\"\n+\"at = [1, 3]\\n\"\n"},
		{"one for the other, in one line", "mm", "", "place = { squash = { at = [1, 2] } }\n", both(barn("squash", nil), barn("rasp", at(0, 0, 0))),
			"-\"place = { squash = { at = [1, 2] } }\\n\"\n+\"place = { rasp = { on = \\\"deck\\\", at = [0, 0], turn = 0 } }\\n\"\n"},
		{"the last of two in one line gone", "mm", "", "place = { squash = { at = [1, 2] }, rasp = { at = [0, 0] } }\n", barn("rasp", nil),
			"-\"place = { squash = { at = [1, 2] }, rasp = { at = [0, 0] } }\\n\"\n+\"place = { squash = { at = [1, 2] } }\\n\"\n"},
		{"the first of two in one line gone", "mm", "", "place = { squash = { at = [1, 2] }, rasp = { at = [0, 0] } }\n", barn("squash", nil),
			"-\"place = { squash = { at = [1, 2] }, rasp = { at = [0, 0] } }\\n\"\n+\"place = { rasp = { at = [0, 0] } }\\n\"\n"},
		{"all gone, over several lines", "mm", "", "place = {\n  squash = { at = [1, 2] }, # one\n  rasp = { at = [0, 0] } # two\n}\n", both(barn("squash", nil), barn("rasp", nil)),
			"-\"  squash = { at = [1, 2] }, # one\\n\"\n-\"  rasp = { at = [0, 0] } # two\\n\"\n+\"  # one\\n\"\n+\"  # two\\n\"\n"},
		{"the last gone, over several lines", "mm", "", "place = {\n  squash = { at = [1, 2] }, # one\n  rasp = { at = [0, 0] } # two\n}\n", barn("rasp", nil),
			"-\"  squash = { at = [1, 2] }, # one\\n\"\n-\"  rasp = { at = [0, 0] } # two\\n\"\n+\"  squash = { at = [1, 2] } # one\\n\"\n+\"  # two\\n\"\n"},
		{"dotted places of a line-up", "mm", "", "place.squash.at = [1, 2]\n", both(barn("rasp", at(0, 0, 0)), barn("squash", at(1*mm, 2*mm, 1))),
			"+\"place.squash.turn = 90\\n\"\n+\"place.rasp = { on = \\\"deck\\\", at = [0, 0], turn = 0 }\\n\"\n"},
	} {
		for _, eol := range []string{"\n", "\r\n"} {
			src := strings.ReplaceAll(written(c.unit, c.octave, c.barn), "\n", eol)
			d, err := Parse("p", []byte(src), nil)
			require.NoError(t, err, c.name)
			c.edit(d.Plan)
			require.True(t, d.Dirty(), c.name)
			got, err := d.Render()
			require.NoError(t, err, c.name)
			require.Equal(t, len(bytes.Split(got, []byte("\n"))), len(bytes.Split(got, []byte(eol))), "line ends of %s", c.name)
			require.Equal(t, strings.ReplaceAll(c.want, `\n"`, strings.Trim(fmt.Sprintf("%q", eol), `"`)+`"`), diff(src, string(got)), c.name)
		}
	}
}

// A plan in one line, and one without a line end at its end.
func TestRenderInline(t *testing.T) {
	src := `board = { size = [300, 200], mass = "1kg" }
slot = [{ name = "s", at = [0, 0], size = [300, 200] }]
unit = [{ id = "a", form = "mini" }, { id = "b", form = "mini" }, { id = "c", form = "mini", place.at = [1, 1] }]
lineup = [{ name = "x", fill.s = ["a"] }, { name = "y", fill.s = ["a"], place.a.at = [2, 2] }, { name = "z", fill.s = ["a"], place = {} }]`
	d, err := Parse("p", []byte(src), nil)
	require.NoError(t, err)
	d.Plan.Unit("b").Place = at(5*mm, 6*mm, 0)
	d.Plan.Unit("c").Place = at(1*mm, 1*mm, 1)
	for i := range d.Plan.Lineups {
		d.Plan.Lineups[i].Place["a"] = *at(2*mm, 2*mm, 2)
	}
	got, err := d.Render()
	require.NoError(t, err)
	require.Equal(t, `board = { size = [300, 200], mass = "1kg" }
slot = [{ name = "s", at = [0, 0], size = [300, 200] }]
unit = [{ id = "a", form = "mini" }, { id = "b", form = "mini", place = { on = "deck", at = [5, 6], turn = 0 } }, { id = "c", form = "mini", place.at = [1, 1], place.turn = 90 }]
lineup = [{ name = "x", fill.s = ["a"], place = { a = { on = "deck", at = [2, 2], turn = 180 } } }, { name = "y", fill.s = ["a"], place.a.at = [2, 2], place.a.turn = 180 }, { name = "z", fill.s = ["a"], place = { a = { on = "deck", at = [2, 2], turn = 180 } } }]`, string(got))
	d.Plan.Unit("c").Place = nil
	for i := range d.Plan.Lineups {
		delete(d.Plan.Lineups[i].Place, "a")
	}
	got, err = d.Render()
	require.NoError(t, err)
	require.Contains(t, string(got), `{ id = "c", form = "mini" }]`)
	require.Contains(t, string(got), `{ name = "y", fill.s = ["a"] }, {`)

	d, err = Parse("p", []byte("board = { size = [300, 200], mass = 900 }\n[[unit]]\nid = \"ü\"\nform = \"mini\""), nil)
	require.NoError(t, err)
	d.Plan.Units[0].Place = at(5*mm, 6*mm, 0)
	got, err = d.Render()
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(string(got), "form = \"mini\"\nplace = { on = \"deck\", at = [5, 6], turn = 0 }"))
}

// A new line is indented and aligned as the others of its table.
func TestRenderAligns(t *testing.T) {
	src := "board = { size = [300, 200], mass = 900 }\n[[unit]]\n\tid       = \"a\"\n\tform     = \"mini\"\n[[unit]]\n\tid = \"b\"\n\tform = \"mini\"\n"
	d, err := Parse("p", []byte(src), nil)
	require.NoError(t, err)
	d.Plan.Units[0].Pinned, d.Plan.Units[1].Pinned = true, true
	got, err := d.Render()
	require.NoError(t, err)
	require.Equal(t, "+\"\\tpinned   = true\\n\"\n+\"\\tpinned = true\\n\"\n", diff(src, string(got)))
}

// What the format has no words for, and what it would not read, is an error and
// not a loss.
func TestRenderRefuses(t *testing.T) {
	for want, edit := range map[string]func(*layout.Plan){
		`unit "octave": its jacks would be lost`:   func(p *layout.Plan) { p.Unit("octave").Jacks[0].Plug.Out++ },
		`mass: found "0g", want more than nothing`: func(p *layout.Plan) { p.Unit("octave").Mass = 0 },
		`found "squash", which is no unit`:         func(p *layout.Plan) { p.Units = p.Units[:1] },
		`there is no unit "octave"`:                func(p *layout.Plan) { p.Lineups[0].Place["octave"] = *at(0, 0, 0); p.Units[0].ID = "x" },
		`found "a material of 123 kg/m3"`:          func(p *layout.Plan) { p.Board.Risers[0].Density = 123 },
		`feet: found 4000, want from`:              func(p *layout.Plan) { p.Board.Feet = 4000 * mm },
		`the limits would be lost`:                 func(p *layout.Plan) { p.Limits.Mass++ },
		`the board would be lost`:                  func(p *layout.Plan) { p.Board.Risers[0].Legs = nil },
		`octave" is in no slot`:                    func(p *layout.Plan) { p.Lineups[0].Place["octave"] = *at(0, 0, 0) },
		`has mount "fixed"`:                        func(p *layout.Plan) { p.Unit("squash").Mount = layout.Fixed },
		`want one line without`:                    func(p *layout.Plan) { p.Units[0].Label = "a\nb" },
		`which is no surface`:                      func(p *layout.Plan) { p.Units[0].Place = &layout.Placement{On: "moon"} },
		`unit "octave": its label would be lost`:   func(p *layout.Plan) { p.Units[0].Label = "" },
		`the title would be lost`:                  func(p *layout.Plan) { p.Title = "" },
		`there is no slot "moon"`:                  func(p *layout.Plan) { p.Lineups[0].Fill["moon"] = []string{"octave"} },
		`the number of line-ups would be lost`:     func(p *layout.Plan) { p.Lineups = nil },
		`lineup "barn": there is a line-up`:        func(p *layout.Plan) { p.Lineups = append(p.Lineups, p.Lineups[0]) },
		`interlock: found "glue", which is no`:     func(p *layout.Plan) { p.Fastening.Interlock.Name = "glue" },
		`form: found "moon"`:                       func(p *layout.Plan) { p.Units[0].Form = "moon" },
	} {
		d, err := Parse("p", []byte(small), nil)
		require.NoError(t, err)
		edit(d.Plan)
		got, err := d.Render()
		require.ErrorContains(t, err, want)
		require.Nil(t, got)
	}
}

// manners are ways to write a unit's and a line-up's places.
var manners = []struct{ octave, barn string }{
	{"", ""},
	{"place = { on = \"deck\", at = [\"8cm\", 20.50], turn = 0 } # here\n", "place = { squash = { at = [1, 2] }, rasp = { at = [3, 4], turn = 90 } } # there\n"},
	{"place = { at = [80, 20] }\nlabel = 'x' # y\n", "[lineup.place] # places\n  squash = { at = [1, 2] } # a\n\n  # b\n  rasp = { at = [3, 4] }\n"},
	{"[unit.place]\n\tat = [\n 80, # of x\n 20, # of y\n]\n", "[lineup.place.rasp]\nat = [3, 4]\n# of z\nturn = 90\n"},
	{"place.at = [80, 20]\nplace.on = \"deck\"\npinned = false\n", "place.squash.at = [1, 2]\nplace.rasp = {at=[3, 4]}\n"},
	{"mount = \"fixed\"\n", "place = {\n squash = { at = [1, 2] }, # a\n rasp = {at = [3, 4],}, # b\n}\n"},
	{"pinned = true\n", "place = {}\n"},
	{"place = { at = [ # p \"\n 1, 2 ] }\n", "place = {\n squash = { at = [ # q\n 1, 2] }, rasp = { at = [3, 4 # '\n ] } }\n"},
}

func lengths(t *rapid.T, name string) layout.Length {
	return rapid.OneOf(
		rapid.Map(rapid.IntRange(-40, 600), func(n int) layout.Length { return layout.Length(n) * mm }),
		rapid.Map(rapid.IntRange(-40, 600), func(n int) layout.Length { return layout.Length(n) * layout.Inch / 32 }),
		rapid.Map(rapid.Int64Range(-40_000, 600_000), func(n int64) layout.Length { return layout.Length(n) }),
	).Draw(t, name)
}

func placement(t *rapid.T, name string) layout.Placement {
	return *at(lengths(t, name+" x"), lengths(t, name+" y"), layout.Turn(rapid.IntRange(0, 3).Draw(t, name+" turn")))
}

// Any edits, one after the other: the text reads back to the same plan, and
// every line that says nothing of what was edited is as it was.
func TestRenderAnyEdits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := rapid.IntRange(0, len(manners)-1).Draw(t, "octave"), rapid.IntRange(0, len(manners)-1).Draw(t, "barn")
		src := written(rapid.SampledFrom([]string{"mm", "in"}).Draw(t, "unit"), manners[m].octave, manners[n].barn)
		if rapid.Bool().Draw(t, "crlf") {
			src = strings.ReplaceAll(src, "\n", "\r\n")
		}
		d, err := Parse("p", []byte(src), nil)
		require.NoError(t, err)
		for range rapid.IntRange(1, 4).Draw(t, "rounds") {
			for range rapid.IntRange(1, 4).Draw(t, "edits") {
				anyEdit(t, d.Plan)
			}
			text, err := d.Render()
			require.NoError(t, err)
			back, err := Parse("p", text, nil)
			require.NoError(t, err)
			require.Empty(t, difference(d.Plan, back.Plan))
			d.saved(text)
			require.False(t, d.Dirty())
		}
		require.Equal(t, untouched(src), untouched(string(d.text.text)))
	})
}

func anyEdit(t *rapid.T, p *layout.Plan) {
	u := &p.Units[rapid.IntRange(0, len(p.Units)-1).Draw(t, "unit")]
	l := &p.Lineups[0]
	switch rapid.IntRange(0, 5).Draw(t, "edit") {
	case 0:
		u.Pinned = !u.Pinned
	case 1:
		u.Label = rapid.StringMatching(`[ -"$-~é漢]{1,20}`).Draw(t, "label")
	case 2:
		u.Mount = layout.Swap
	case 3:
		if delete(l.Place, u.ID); !p.InSlots(u.ID) || rapid.Bool().Draw(t, "default too") {
			u.Place = nil
		}
	case 4:
		pl := placement(t, "default")
		u.Place = &pl
	default:
		p.SetPlace(l, u, placement(t, "place"))
	}
}

// untouched returns what no edit may change: the comments, but for those "of" a
// table that may go, and the lines without places, mounts and the like.
func untouched(s string) []string {
	var out []string
	for _, line := range strings.SplitAfter(s, "\n") {
		code, comment, ok := strings.Cut(line, "#")
		if ok && !strings.HasPrefix(comment, " of ") {
			out = append(out, "#"+comment)
		}
		for _, key := range []string{"size", "id", "form", "name", "fill", "[[", "[board", "length_unit"} {
			if strings.HasPrefix(code, key) {
				out = append(out, code)
			}
		}
	}
	return out
}

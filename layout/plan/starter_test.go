package plan

import (
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
)

const mm = layout.Millimetre

func board(a Answers) Answers {
	a.BoardW, a.BoardD = 400*mm, 240*mm
	return a
}

func TestStarterText(t *testing.T) {
	text, err := Starter(board(Answers{Title: `The "small" one`, End: layout.Desk, Units: []StarterUnit{
		{Form: "compact", Label: "Squash Box"},
		{Form: "compact", Label: "Squash Box", Body: layout.Size{W: 66 * mm}, Mount: layout.Swap},
		{ID: "home-made", Body: layout.Size{W: 94 * mm, D: 119 * mm, H: 34 * mm}, Mass: 412 * layout.Gram,
			Draw: &layout.Draw{Millivolts: 9000, Milliamps: 8}},
		{Form: "supply-slim"},
	}}))
	require.NoError(t, err)
	golden.RequireEqual(t, text)
}

// Every form of the catalog makes a unit, and so does a body half its size.
func TestStarterOfEveryForm(t *testing.T) {
	var units []StarterUnit
	for _, f := range catalog.Builtin().Units() {
		b := f.Unit.Body
		units = append(units, StarterUnit{Form: f.Name}, StarterUnit{Form: f.Name, Body: layout.Size{W: b.W / 2, D: b.D / 2, H: b.H / 2},
			Draw: &layout.Draw{Millivolts: 9000, Milliamps: 40}})
	}
	text, err := Starter(board(Answers{Units: units}))
	require.NoError(t, err)
	d, err := Parse("new", text, nil)
	require.NoError(t, err)
	require.Len(t, d.Plan.Units, len(units))
}

func TestStarterOfBoards(t *testing.T) {
	for _, unit := range []layout.LengthUnit{"", layout.Millimetres, layout.Inches} {
		for _, surface := range []layout.SurfaceKind{"", layout.Solid, layout.Rails} {
			for _, w := range []layout.Length{60 * mm, 305*mm + 33, 24 * layout.Inch, 7*layout.Inch + layout.Inch/2} {
				text, err := Starter(Answers{Unit: unit, Surface: surface, BoardW: 2 * w, BoardD: w, Mass: 2600 * layout.Gram})
				require.NoError(t, err)
				d, err := Parse("new", text, nil)
				require.NoError(t, err)
				require.Equal(t, 2*w, d.Plan.Board.W)
				require.Equal(t, w, d.Plan.Board.D)
				require.Equal(t, 2600*layout.Gram, d.Plan.Board.Mass)
			}
		}
	}
}

// What the comments offer works as it stands.
func TestStarterHints(t *testing.T) {
	text, err := Starter(board(Answers{}))
	require.NoError(t, err)
	s := regexp.MustCompile(`(?m)^# (\[\[|[a-z]+ *= )`).ReplaceAllString(string(text), "$1")
	s = strings.Replace(s, `"instrument",`, `"instrument", "squash", "slot:colour",`, 1)
	d, err := Parse("new", []byte(s), nil)
	require.NoError(t, err)
	require.Len(t, d.Plan.Board.Risers, 1)
	require.Len(t, d.Plan.Slots, 1)
	require.Len(t, d.Plan.Units, 1)
	require.Equal(t, "barn", d.Plan.Lineups[0].Name)
	require.Equal(t, 10*mm, d.Plan.Board.Overhang.Left)
}

// What changes from gig to gig: units in their slots, and slots in the chain where
// their first unit would be.
func TestStarterGigs(t *testing.T) {
	text, err := Starter(board(Answers{Slots: []string{"colour", "space", "spare"},
		Units:   []StarterUnit{{Form: "mini-tuner", ID: "watch"}, {Form: "mini", ID: "rasp"}, {Form: "mini", ID: "squash"}, {Form: "compact-delay", ID: "echo"}, {Form: "buffer", ID: "last"}},
		Lineups: []StarterLineup{{Name: "barn", Fill: map[string][]string{"colour": {"squash", "rasp"}, "space": {"echo"}}}, {Name: "the \"pit\""}}}))
	require.NoError(t, err)
	golden.RequireEqual(t, text)
	d, err := Parse("new", text, nil)
	require.NoError(t, err)
	p := d.Plan
	require.Equal(t, []layout.Stop{{Unit: layout.Instrument}, {Unit: "watch"}, {Slot: "colour"}, {Slot: "space"}, {Unit: "last"}, {Slot: "spare"}, {Unit: layout.Amp}}, p.Chain.Stops)
	require.Equal(t, []string{"squash", "rasp"}, p.Lineups[0].Fill["colour"])
	require.Equal(t, `the "pit"`, p.Lineups[1].Name)
	require.Equal(t, p.Board.Rect(), p.Slots[2].At)
	require.Equal(t, layout.Swap, p.Unit("echo").Mount)

	// Slots without a gig have one of the usual name.
	text, err = Starter(board(Answers{Slots: []string{"colour"}}))
	require.NoError(t, err)
	d, err = Parse("new", text, nil)
	require.NoError(t, err)
	require.Equal(t, DefaultLineup, d.Plan.Lineups[0].Name)
}

func TestStarterRefuses(t *testing.T) {
	for want, a := range map[string]Answers{
		`the board's size 0mm x 0mm: want each side from 50mm`: {},
		`there is a unit of that id already`:                   board(Answers{Units: []StarterUnit{{ID: "a", Form: "mini"}, {ID: "a", Form: "mini"}}}),
		`form: found "minni": did you mean "mini"?`:            board(Answers{Units: []StarterUnit{{ID: "a", Form: "minni"}}}),
		`title: found "two\nlines", want one line`:             board(Answers{Title: "two\nlines"}),
		`material: found "oak": want "aluminium"`:              board(Answers{Material: "oak"}),
		`name "a b": want letters`:                             board(Answers{Slots: []string{"a b"}}),
		`there is a slot of that name already`:                 board(Answers{Slots: []string{"a", "a"}}),
		`there is a line-up of that name already`:              board(Answers{Lineups: []StarterLineup{{Name: "x"}, {Name: "x"}}}),
		`there is no slot "moon"`:                              board(Answers{Lineups: []StarterLineup{{Name: "x", Fill: map[string][]string{"moon": nil}}}}),
		`colour: found "echo", which is no unit`:               board(Answers{Slots: []string{"colour"}, Lineups: []StarterLineup{{Name: "x", Fill: map[string][]string{"colour": {"echo"}}}}}),
		`order: found "pub": want "instrument", "amp", "desk"`: board(Answers{End: "pub"}),
	} {
		_, err := Starter(a)
		require.ErrorContains(t, err, want)
	}
}

func TestReadUnitsCSV(t *testing.T) {
	const body = "id,label,form,width,depth,height,mass,mount,milliamps,volts\n" +
		"# measured on Sunday\n" +
		"grit,Grit,compact,71.5,,,400g,swap,18,9\n" +
		"\n" +
		`box,"Box, the blue",,94,119mm,"1 3/8in",14oz,,0,` + "\n"
	want := []StarterUnit{
		{ID: "grit", Label: "Grit", Form: "compact", Body: layout.Size{W: 71_500}, Mass: 400 * layout.Gram, Mount: layout.Swap,
			Draw: &layout.Draw{Millivolts: 9000, Milliamps: 18}},
		{ID: "box", Label: "Box, the blue", Body: layout.Size{W: 94 * mm, D: 119 * mm, H: 34_925}, Mass: 396_893 * layout.Milligram,
			Draw: &layout.Draw{Millivolts: 9000}},
	}
	got, err := ReadUnitsCSV(strings.NewReader(body), "units.csv", nil)
	require.NoError(t, err)
	require.Equal(t, want, got)
	got, err = ReadUnitsCSV(strings.NewReader("\ufeff"+strings.ReplaceAll(body, "\n", "\r\n")), "units.csv", nil)
	require.NoError(t, err)
	require.Equal(t, want, got)
	// As a spreadsheet in much of Europe writes it.
	got, err = ReadUnitsCSV(strings.NewReader("form;width;volts;milliamps\ncompact;71,5;9,6;18\n"), "units.csv", nil)
	require.NoError(t, err)
	require.Equal(t, []StarterUnit{{Form: "compact", Body: layout.Size{W: 71_500}, Draw: &layout.Draw{Millivolts: 9600, Milliamps: 18}}}, got)
	_, err = Starter(board(Answers{Units: want}))
	require.NoError(t, err)
}

func TestReadUnitsCSVErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", `u.csv:1:1: empty: want a first row that names its columns, of "id", "label", "form", "width", "depth", "height", "mass", "mount", "milliamps" or "volts"`},
		{"form\n", `u.csv:2:1: no units under the first row`},
		{"form,widht\nmini,7\n", `u.csv:1:6: unknown column "widht": did you mean "width"?`},
		{"form,form\nmini,mini\n", `u.csv:1:6: column "form" is there twice`},
		{"id,form\na,mini\na,mini\n", `u.csv:3:1: there is a unit of the id "a" already, in line 2`},
		{"id,form\na/b,mini\namp,mini", "u.csv:2:1: id \"a/b\": want letters, digits, \"-\" and \"_\", at most 40 of them\nu.csv:3:1: the id \"amp\" has a meaning of its own in a plan: want another"},
		{"form\nmini,7\n", `u.csv:2:6: found 2 fields, want the 1 of the first row`},
		{"form,mass\nmini,2 stone\n", `u.csv:2:6: mass "2 stone": unknown unit "stone", want a number and g, kg, oz or lb`},
		{"form,mass\nmini,-2g\n", `u.csv:2:6: mass "-2g": want more than nothing`},
		{"form,mount\nmini,fixd\n", `u.csv:2:6: mount: found "fixd": did you mean "fixed"?`},
		{"form,width\nmini,7km\n", `u.csv:2:6: width: length "7km": unknown unit "km", want a number and mm, cm, m, in or ft, like "305mm" or "7 1/2in"`},
		{"form,width\nmini,-7\n", `u.csv:2:6: width: found "-7", want from 5mm to 1000mm`},
		{"form,volts,milliamps\nmini,9,\nmini,NaN,4\nmini,9,4.5\n", "u.csv:2:6: volts without milliamps: want both, or 0 milliamps for none\n" +
			"u.csv:3:6: volts: found \"NaN\", want a number from 0.1 to 60\nu.csv:4:8: milliamps: found \"4.5\", want a whole number from 0 to 100000"},
		{"label,width\nÜber,30\n", "u.csv:2:1: no depth and no form: want one of them\nu.csv:2:1: no height and no form: want one of them"},
		{"width\n30\n", "u.csv:2:1: no id, label or form: want one of them to call the unit by\nu.csv:2:1: no depth and no form: want one of them\nu.csv:2:1: no height and no form: want one of them"},
		{"form\n\"mini\n", `u.csv:3:1: not a table: extraneous or missing " in quoted-field`},
		{"form\nm\x00", `u.csv:2:2: byte 0x00 is no text: want a table saved as CSV in UTF-8`},
		{"form\n" + strings.Repeat("mini\n", 201), `u.csv:202:1: more than 200 units`},
		{strings.Repeat(" ", MaxSize+1), `u.csv: larger than 1024 kB: not a table of units`},
	} {
		_, err := ReadUnitsCSV(strings.NewReader(c.text), "u.csv", nil)
		require.EqualError(t, err, c.want, "%q", c.text[:min(len(c.text), 60)])
		require.IsType(t, Errors{}, err)
	}
}

// A board of an impossible size is told once, and not again for each rail.
func TestStarterBoardTooLarge(t *testing.T) {
	_, err := Starter(Answers{Unit: layout.Inches, Surface: layout.Rails, BoardW: 560 * layout.Inch, BoardD: 12 * layout.Inch})
	assert.EqualError(t, err, "these answers make no plan: the board's size 560in x 12in: want each side from 1.9685in to 118.1102in")
	_, err = Starter(Answers{BoardW: 300 * layout.Millimetre})
	assert.ErrorContains(t, err, "want each side from 50mm to 3000mm")
}

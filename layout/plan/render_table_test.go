package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// lines is a plan to be edited by hand, with a comment at everything.
const lines = `# My board.
title = "Barn" # of the band

[board] # ply
size     = [560, 330] # sawn
material = "birch-plywood"

# The flight case.
[board.case]
inside = [600, 372, 150] # measured

# The front row.
[[slot]]
name = "row"
at   = [300, 0]
size = [260, 200]

# --- units ---

# The octave, on loan.
[[unit]]
id    = "octave" # fiddle
form  = "compact"
mount = "fixed"
# Its cable is short.
[[unit.jack]]
id   = "in"
plug = "phone-straight"

# The squeezer.
[[unit]]
id    = "squash"
label = "Press"
form  = "mini"

# --- the way ---

[chain]
order = [
  "instrument", # the fiddle
  "octave",
  "slot:row", "desk",
]

# Fridays.
[[lineup]]
name = "barn" # loud
fill = { row = ["squash"] }
`

// Each kind of edit, and the lines of the text that it takes and gives.
func TestRenderWritesEveryKindOfEdit(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(t *testing.T, d *Doc)
		want string
	}{
		{"the title", func(_ *testing.T, d *Doc) { d.Plan.Title = "Hall" }, `
			-title = "Barn" # of the band
			+title = "Hall" # of the band`},
		{"the board", func(_ *testing.T, d *Doc) {
			b := &d.Plan.Board
			b.W, b.Feet, b.Mass, b.Overhang.Left = 600*mm, 12*mm, 2600*layout.Gram, 15*mm
		}, `
			-size     = [560, 330] # sawn
			+size     = [600, 330] # sawn
			+mass     = "2.6kg"
			+overhang = { left = 15 }
			+feet     = 12`},
		{"no case", func(_ *testing.T, d *Doc) { d.Plan.Board.Case = nil }, `
			-# The flight case.
			-[board.case]
			-inside = [600, 372, 150] # measured
			-`},
		{"a riser", func(_ *testing.T, d *Doc) {
			r := layout.Riser{Name: "shelf", At: layout.RectAt(layout.Point{X: 80 * mm, Y: 210 * mm}, 400*mm, 115*mm), Height: 55 * mm, Thickness: 9 * mm, Density: d.Plan.Board.Density}
			r.Legs = r.EndPanels()
			d.Plan.Board.Risers = append(d.Plan.Board.Risers, r)
		}, `
			+[[board.riser]]
			+name      = "shelf"
			+at        = [80, 210]
			+size      = [400, 115]
			+height    = 55
			+thickness = 9
			+`},
		{"rails", func(_ *testing.T, d *Doc) {
			b := &d.Plan.Board
			b.Kind, b.Rails = layout.Rails, []layout.Rail{{At: layout.Rect{X1: 560 * mm, Y1: 40 * mm}}, {At: layout.Rect{Y0: 60 * mm, X1: 560 * mm, Y1: 330 * mm}}}
		}, `
			+surface  = "rails"
			+[[board.rail]]
			+at   = [0, 0]
			+size = [560, 40]
			+[[board.rail]]
			+at   = [0, 60]
			+size = [560, 270]
			+`},
		{"a slot renamed", func(t *testing.T, d *Doc) { require.NoError(t, d.Plan.RenameSlot("row", "front")) }, `
			-name = "row"
			+name = "front"
			-  "slot:row", "desk",
			+  "slot:front", "desk",
			-fill = { row = ["squash"] }
			+fill = { front = ["squash"] }`},
		{"a slot gone", func(t *testing.T, d *Doc) { require.NoError(t, d.Plan.RemoveSlot("row")) }, `
			-# The front row.
			-[[slot]]
			-name = "row"
			-at   = [300, 0]
			-size = [260, 200]
			-
			+mount = "swap"
			-  "slot:row", "desk",
			+  "desk",
			-fill = { row = ["squash"] }
			+fill = { }`},
		{"a new unit", func(t *testing.T, d *Doc) {
			u, err := d.NewUnit("compact", "Even Steven")
			require.NoError(t, err)
			u.Mount, u.ToBuy, u.Place, u.Draw.Milliamps = layout.Swap, true, at(10*mm, 20*mm, 0), 12
			u.Jack("out").Height = 22 * mm
			require.NoError(t, d.Plan.AddUnit(u))
			d.Plan.Prices = map[string]layout.Price{u.ID: {Milli: 89_500, Currency: "€", Before: true}}
			d.Plan.Chain.Stops = append(d.Plan.Chain.Stops[:2:2], layout.Stop{Unit: u.ID}, layout.Stop{Slot: "row"}, layout.Stop{Unit: "desk"})
		}, `
			+[[unit]]
			+id    = "even-steven"
			+label = "Even Steven"
			+form  = "compact"
			+mount = "swap"
			+draw  = { milliamps = 12 }
			+owned = false
			+price = "€89.50"
			+place = { on = "deck", at = [10, 20], turn = 0 }
			+[[unit.jack]]
			+id     = "out"
			+height = 22
			+
			-  "octave",
			+  "octave", "even-steven",`},
		{"a unit renamed", func(t *testing.T, d *Doc) { require.NoError(t, d.Plan.RenameUnit("squash", "press")) }, `
			-id    = "squash"
			+id    = "press"
			-fill = { row = ["squash"] }
			+fill = { row = ["press"] }`},
		{"a unit gone", func(t *testing.T, d *Doc) { require.NoError(t, d.Plan.RemoveUnit("octave")) }, `
			-# The octave, on loan.
			-[[unit]]
			-id    = "octave" # fiddle
			-form  = "compact"
			-mount = "fixed"
			-# Its cable is short.
			-[[unit.jack]]
			-id   = "in"
			-plug = "phone-straight"
			-
			-  "octave",`},
		{"units in another order", func(t *testing.T, d *Doc) { require.NoError(t, d.Plan.MoveUnit("octave", 1)) }, `
			+# The squeezer.
			+[[unit]]
			+id    = "squash"
			+label = "Press"
			+form  = "mini"
			+
			-# The squeezer.
			-[[unit]]
			-id    = "squash"
			-label = "Press"
			-form  = "mini"
			-`},
		{"what a unit is", func(_ *testing.T, d *Doc) {
			u := d.Plan.Unit("squash")
			u.Body.W, u.Overall.W, u.Mass, u.Buffer, u.Draw, u.Switches = 40*mm, 45*mm, 333*layout.Gram, true, nil, nil
			u.OnBase = []layout.BaseSpot{{Kind: layout.BatteryDoor, At: layout.Rect{X0: 5 * mm, Y0: 40 * mm, X1: 30 * mm, Y1: 80 * mm}}}
			u.Often, u.Turns, u.Uses, u.On = 2, []layout.Turn{0, 2}, []string{"dc"}, []string{"deck"}
		}, `
			+often = 2
			+on    = ["deck"]
			+turns = [0, 180]
			+uses  = ["dc"]
			+body  = [40, 93, 31]
			+mass  = "333g"
			+buffer = true
			+draw  = false
			+switch = []
			+[[unit.base]]
			+kind = "battery door"
			+at   = [10, 40]
			+size = [25, 40]`},
		{"the plug is the program's to choose", func(_ *testing.T, d *Doc) {
			j := d.Plan.Unit("octave").Jack("in")
			form, _ := d.Forms().Unit("compact")
			*j = *form.Unit.Jack("in")
		}, `
			-plug = "phone-straight"`},
		{"links and direction", func(_ *testing.T, d *Doc) {
			c := &d.Plan.Chain
			c.LeftToRight, c.Stops = true, c.Stops[:3]
			c.Links = []layout.Link{{From: layout.JackRef{Unit: "squash", Jack: "out"}, To: layout.JackRef{Unit: "amp"}}}
		}, `
			-  "slot:row", "desk",
			+  "slot:row",
			+direction = "left-to-right"
			+[[chain.link]]
			+from = "squash/out"
			+to   = "amp"`},
		{"line-ups", func(t *testing.T, d *Doc) {
			require.NoError(t, d.Plan.RenameLineup("barn", "hall"))
			require.NoError(t, d.Plan.AddLineup("quiet", ""))
			require.NoError(t, d.Plan.SetFill("quiet", "row", []string{"octave", "squash"}))
		}, `
			-mount = "fixed"
			+mount = "swap"
			-  "octave",
			-name = "barn" # loud
			+name = "hall" # loud
			+
			+[[lineup]]
			+name = "quiet"
			+fill = { row = ["octave", "squash"] }`},
		{"all the rest", func(_ *testing.T, d *Doc) {
			p := d.Plan
			p.Limits.Mass, p.Limits.MassGiven, p.Power.Tour, p.Cabling.Reel = 16*layout.Kilogram, true, []string{"IE"}, 3000*mm
			p.Fastening.UnitSide, p.Fastening.JerkG = layout.Hook, 4.5
			p.Owned = layout.Owned{Board: true, Reel: 1500 * mm, Cables: []layout.OwnedCable{{Length: 300 * mm, Plugs: [2]string{"phone-flat", "phone-flat"}, Count: 2}}}
			p.Prices = map[string]layout.Price{"board": {Milli: 60_000, Currency: "kr"}, "cable 30cm": {Milli: 4100, Currency: "EUR"}}
		}, `
			+price    = "60 kr"
			+owned    = true
			+
			+[limits]
			+mass = "16kg"
			+
			+[power]
			+tour = ["IE"]
			+
			+[cable]
			+reel = 3000
			+
			+[fastener]
			+units_carry = "hook"
			+jerk        = 4.5
			+
			+[owned]
			+reel = 1500
			+[[owned.cable]]
			+length = 300
			+plugs  = "phone-flat"
			+count  = 2
			+
			+[prices]
			+"cable 30cm" = "4.10 EUR"`},
	} {
		d, err := Parse("p", []byte(lines), nil)
		require.NoError(t, err, c.name)
		c.edit(t, d)
		got, err := d.Render()
		require.NoError(t, err, c.name)
		var want []string
		for _, l := range strings.Split(strings.TrimPrefix(c.want, "\n"), "\n") {
			want = append(want, strings.TrimPrefix(l, "\t\t\t"))
		}
		plain := strings.NewReplacer("+\"", "+", "-\"", "-", "\\n\"\n", "\n", `\"`, `"`).Replace(diff(lines, string(got)))
		require.Equal(t, strings.Join(want, "\n")+"\n", plain, c.name)
	}
}

// In inches bare numbers would say something else: what was millimetres stays.
func TestRenderAnotherLengthUnit(t *testing.T) {
	d, err := Parse("p", []byte("length_unit = \"mm\"\nboard = { size = [508, \"33cm\"], feet = 12, mass = 900 }\n"), nil)
	require.NoError(t, err)
	d.Plan.LengthUnit = layout.Inches
	got, err := d.Render()
	require.NoError(t, err)
	require.Equal(t, "length_unit = \"in\"\nboard = { size = [20, \"33cm\"], feet = \"12mm\", mass = 900 }\n", string(got))
}

func TestNewPlanAndUnits(t *testing.T) {
	d, err := New(Answers{Title: "Tray", BoardW: 400 * mm, BoardD: 250 * mm})
	require.NoError(t, err)
	require.Empty(t, d.Path)
	require.ErrorIs(t, d.Save(), ErrNoFile)
	for range 2 {
		u, err := d.NewUnit("mini", "Step Up!")
		require.NoError(t, err)
		require.NoError(t, d.Plan.AddUnit(u))
	}
	require.Equal(t, "step-up", d.Plan.Units[0].ID)
	require.Equal(t, "step-up-2", d.Plan.Units[1].ID)
	require.Equal(t, "Step Up!", d.Plan.Units[1].Label)
	u, err := d.NewUnit("mini", "")
	require.NoError(t, err)
	require.Equal(t, []string{"mini", "mini"}, []string{u.ID, u.Label})
	u.Often, u.Uses = 2, []string{"in", "dc"}
	require.NoError(t, d.SetForm(&u, "supply-eight"))
	require.Equal(t, 2, u.Often)
	require.Empty(t, u.Uses, "jacks that the new form does not have")
	require.Len(t, u.Outputs, 9)
	_, err = d.NewUnit("minni", "x")
	require.EqualError(t, err, `there is no form "minni": did you mean "mini"?`)

	path := t.TempDir() + "/tray.toml"
	require.NoError(t, d.SaveAs(path, false))
	back, err := Open(path, nil)
	require.NoError(t, err)
	require.Empty(t, difference(d.Plan, back.Plan))
	_, err = New(Answers{})
	require.ErrorContains(t, err, "these answers make no plan")
}

// Texts that begin with a header, end without a line end, or have no header for
// a table that is only there by what is under it.
func TestRenderAtTheEdgesOfAText(t *testing.T) {
	for _, c := range []struct {
		src  string
		edit func(p *layout.Plan)
		want string
	}{
		{"# Mine.\n[board]\nsize = [300, 200]\nmass = 900", func(p *layout.Plan) { p.Title = "A"; p.Cabling.Reel = 1000 * mm },
			"title = \"A\"\n\n# Mine.\n[board]\nsize = [300, 200]\nmass = 900\n\n[cable]\nreel = 1000\n"},
		{"[board]\r\nsize = [300, 200]\r\nmass = 900\r\n\r\n# One.\r\n[[owned.plug]]\r\nform = \"phone-flat\"\r\n", func(p *layout.Plan) { p.Owned.Reel, p.Owned.Plugs[0].Count = 2000*mm, 2 },
			"[board]\r\nsize = [300, 200]\r\nmass = 900\r\n\r\n[owned]\r\nreel = 2000\r\n# One.\r\n[[owned.plug]]\r\nform = \"phone-flat\"\r\ncount = 2\r\n"},
		{"board.size = [300, 200]\nboard.mass = 900", func(p *layout.Plan) {
			p.Board.Feet = 5 * mm
			p.Slots = []layout.Slot{{Name: "s", On: "deck", At: layout.Rect{X1: 9 * mm, Y1: 9 * mm}}}
		},
			"board.size = [300, 200]\nboard.mass = 900\nboard.feet = 5\n\n[[slot]]\nname = \"s\"\nat   = [0, 0]\nsize = [9, 9]\n"},
		{"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = [\n  \"IE\", # home\n  \"GB\",\n]\n", func(p *layout.Plan) { p.Power.Tour = []string{"IE", "FR", "GB"} },
			"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = [\n  \"IE\", # home\n  \"FR\",\n  \"GB\",\n]\n"},
		{"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = [\n  \"IE\", # home\n  # away\n  \"GB\", \"FR\" # far\n]\n", func(p *layout.Plan) { p.Power.Tour = []string{"FR", "DE"} },
			"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = [ # home\n  # away\n  \"FR\", # far\n  \"DE\"\n]\n"},
		{"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = [\"IE\", \"GB\", ]\n", func(p *layout.Plan) { p.Power.Tour = nil },
			"[board]\nsize = [300, 200]\nmass = 900\n[power]\ntour = []\n"},
	} {
		d, err := Parse("p", []byte(c.src), nil)
		require.NoError(t, err)
		c.edit(d.Plan)
		got, err := d.Render()
		require.NoError(t, err)
		require.Equal(t, c.want, string(got))
	}
}

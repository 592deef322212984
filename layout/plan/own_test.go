package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
)

func TestEveryKeyOfWhatIsOwned(t *testing.T) {
	p := everything(t)
	roll := func(name string) layout.FastenerRoll {
		f, ok := catalog.Builtin().Fastener(name)
		require.True(t, ok)
		return layout.FastenerRoll{Name: name, Widths: f.Widths, StrengthKPa: f.StrengthKPa}
	}
	require.Equal(t, layout.Fastening{Interlock: roll("interlock-250-400"), HookAndLoop: roll("hook-and-loop-strong"),
		UnitSide: layout.Hook, Margin: 3 * mm, JerkG: 4.5}, p.Fastening)
	require.Equal(t, layout.Owned{
		Board: true, Reel: 2500 * mm,
		Cables: []layout.OwnedCable{
			{Name: "the red ones", Length: 300 * mm, Plugs: [2]string{"phone-flat", ""}, Count: 3},
			{Length: 12 * layout.Inch, Plugs: [2]string{"phone-right-angle", "phone-right-angle"}, Count: 1}},
		Leads: []layout.OwnedLead{{Length: 600 * mm, Reversed: true, Count: 2}},
		Plugs: []layout.OwnedPlug{{Form: "phone-straight", Count: 4}},
		Rolls: []layout.OwnedRoll{{Kind: "interlock", Width: 25 * mm, Length: 1000 * mm}},
	}, p.Owned)
	require.Equal(t, map[string]layout.Price{
		"board": {Milli: 60_000, Currency: "€", Before: true}, "squash": {Milli: 89_500, Currency: "kr"},
		"phone-flat": {Milli: 4100, Currency: "€", Before: true}, "interlock 25mm": {Milli: 9000, Currency: "EUR", Before: true},
		"spare": {Milli: 1_250_000, Currency: "£", Before: true},
	}, p.Prices)
	require.True(t, p.Unit("squash").ToBuy)
	require.False(t, p.Unit("spare").ToBuy)
}

// The wah is 100 mm wide. Turned over, its battery door is 10 mm from the left
// and 180 mm from the front; seen from above it is 10 mm from the right.
func TestBaseIsMeasuredTurnedOver(t *testing.T) {
	u := everything(t).Unit("wah")
	require.Equal(t, []layout.BaseSpot{{Kind: layout.BatteryDoor, At: layout.Rect{X0: 60 * mm, Y0: 180 * mm, X1: 90 * mm, Y1: 235 * mm}}}, u.OnBase)
	// The cap of its toe switch is named from above and not mirrored.
	require.Equal(t, layout.Point{X: 50 * mm, Y: 240 * mm}, u.Switches[0].At)

	rapid.Check(t, func(t *rapid.T) {
		u := layout.Unit{Body: layout.Size{W: lengths(t, "width")}}
		r := layout.RectAt(layout.Point{X: lengths(t, "x"), Y: lengths(t, "y")}, lengths(t, "w"), lengths(t, "d"))
		over := u.TurnedOver(r)
		require.Equal(t, r, u.TurnedOver(over))
		require.Equal(t, r.W(), over.W())
		require.Equal(t, r.X0, u.Body.W-over.X1, "its left end is as far from the left as from the right before")
	})
}

// A plan that measured the body moves the form's feet with the corners; one
// that names parts of the base has those only.
func TestBaseOfAForm(t *testing.T) {
	read := func(keys string) *layout.Unit {
		d, err := Parse("p", []byte("board = { size = [600, 400], mass = 900 }\n[[unit]]\nid = \"u\"\nform = \"three-switch\"\n"+keys), nil)
		require.NoError(t, err)
		return d.Plan.Unit("u")
	}
	u := read("")
	form, _ := catalog.Builtin().Unit("three-switch")
	require.Equal(t, form.Unit.OnBase, u.OnBase)
	require.Len(t, u.OnBase, 4)
	b := form.Unit.Body
	wide := read("body = [200, " + b.D.Number(layout.Millimetres) + ", 50]\nswitch = []\n")
	for i, s := range wide.OnBase {
		old := u.OnBase[i].At
		if old.X0 > b.W/2 {
			old = old.Move(layout.Point{X: 200*mm - b.W})
		}
		require.Equal(t, old, s.At)
	}
	require.Empty(t, read("base = []\n").OnBase)
	require.Equal(t, []layout.BaseSpot{{Kind: layout.Screw, At: layout.Rect{X0: b.W - 6*mm, X1: b.W, Y1: 6 * mm}}},
		read("base = [{ kind = \"screw\", at = [0, 0], size = [6, 6] }]\n").OnBase)
}

func TestWhatIsOwnedIsWrong(t *testing.T) {
	src := `[board]
size  = [600, 400]
mass  = 900
price = 60
owned = "yes"
[[unit]]
id    = "squash"
form  = "compact"
price = "€4,10"
owned = 1
[[unit.base]]
kind = "feet"
at   = [60, 5]
size = [20, 20]
[[unit]]
id    = "grit"
form  = "mini"
price = "12 kr"
[fastener]
interlock     = "hook-and-loop"
hook_and_loop = "hook-and-lop"
units_carry   = "hoop"
margin        = "1m"
jerk          = 0
glue          = true
[owned]
reel = "1mm"
[[owned.cable]]
plugs = ["phone-flt", "phone-flat", "phone-flat"]
count = 0
[[owned.cable]]
length = "3m"
plugs  = "phone-flt"
[[owned.lead]]
lenght = "60cm"
[[owned.plug]]
count = 1.5
[[owned.roll]]
kind = "tape"
[prices]
grit         = "13 kr"
phone-flta   = "€4"
"cable 30cm" = "4"
anything     = "2 kr"
`
	_, err := Parse("p", []byte(src), nil)
	require.Error(t, err)
	var got []string
	for _, e := range err.(Errors) {
		got = append(got, e.Error())
	}
	want := []string{
		`p:4:9: board: price: found 60, want text with its currency, like "€4.10" or "12 kr"`,
		`p:5:9: board: owned: found "yes", want true or false`,
		`p:9:9: unit "squash": price: "€4,10": "4,10" has a comma that does not part thousands (decimals stand behind a point), want a currency and a number, like "€4.10" or "12 kr"`,
		`p:10:9: unit "squash": owned: found 1, want true or false`,
		`p:12:8: unit "squash": base 1: kind: found "feet": want "foot", "battery door", "screw" or "label"`,
		`p:13:8: unit "squash": base 1: reaches from 60mm to 80mm and from 5mm to 25mm, off the base of 70mm x 122mm`,
		`p:20:17: fastener: interlock: "hook-and-loop" is of kind "hook-and-loop": want "interlock-170-400", "interlock-250-250", "interlock-250-400" or "interlock-400-400"`,
		`p:21:17: fastener: hook_and_loop: found "hook-and-lop", which is no fastener of kind "hook-and-loop": did you mean "hook-and-loop"?`,
		`p:22:17: fastener: units_carry: found "hoop": did you mean "hook"?`,
		`p:23:17: fastener: margin: found "1m", want from 0.5mm to 50mm`,
		`p:24:17: fastener: jerk: found 0, want a number from 1 to 50`,
		`p:25:1: fastener: unknown key "glue": want "interlock", "hook_and_loop", "units_carry", "margin" or "jerk"`,
		`p:27:8: owned: reel: found "1mm", want from 100mm to 100000mm`,
		`p:28:1: owned: cable 1: no length: want how long it is as sold`,
		`p:29:9: owned: cable 1: plugs: found 3 in the list, want 2: its two plugs`,
		`p:30:9: owned: cable 1: count: found 0, want a whole number from 1 to 999`,
		`p:33:10: owned: cable 2: plugs: found "phone-flt", which is no plug: did you mean "phone-flat"?`,
		`p:34:1: owned: lead 1: no length: want how long it is`,
		`p:35:1: owned: lead 1: unknown key "lenght": did you mean "length"?`,
		`p:36:1: owned: plug 1: no form: want the name of a plug of the catalog`,
		`p:37:9: owned: plug 1: count: found 1.5, want a whole number from 1 to 999`,
		`p:38:1: owned: roll 1: no width: want that of the roll`,
		`p:38:1: owned: roll 1: no length: want how much is left of it`,
		`p:39:8: owned: roll 1: kind: found "tape": want "interlock" or "hook-and-loop"`,
		`p:41:1: prices: the price of "grit" is given already, in line 18`,
		`p:42:1: prices: there is nothing called "phone-flta": did you mean "phone-flat"?`,
		`p:43:16: prices: cable 30cm: "4": no currency, want a currency and a number, like "€4.10" or "12 kr"`,
	}
	require.Equal(t, strings.Join(want, "\n"), strings.Join(got, "\n"))
}

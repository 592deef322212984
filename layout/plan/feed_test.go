package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// powered is a plan with every key of power in it, and room for one more line.
const powered = `[board]
size     = [560, 330]
material = "birch-plywood"
[[unit]]
id    = "hall"
form  = "compact"
draw  = { volts = 9, max_volts = 18, milliamps = 120, battery = false, feed = "shed/b", lead = "reversing" }
[[unit]]
id    = "fuzz"
form  = "compact"
draw  = { milliamps = 3, battery = true }
[[unit]]
id     = "shed"
body   = [150, 90, 40]
watts  = 30.5
mains  = { volts = 100, max_volts = 240, hertz = 50, max_hertz = 60 }
jack   = [
  { id = "mains", kind = "mains", wall = "left", along = 30 },
  { id = "a", kind = "dc", dir = "out", wall = "front", along = 20 },
  { id = "b", kind = "dc", dir = "out", wall = "front", along = 50 },
  { id = "c", kind = "dc", dir = "out", wall = "front", along = 80 },
  { id = "l", kind = "dc", dir = "out", wall = "front", along = 110 },
]
output = [
  { jack = "a", milliamps = 300, group = "one" },
  { jack = "b", milliamps = 200, isolated = true, choice = [{ volts = 12 }, { volts = 18, milliamps = 100 }] },
  { jack = "c", milliamps = 500, volts = 9, max_volts = 18 },
  { jack = "l", milliamps = 1000, volts = 24, link = true },
]
[[unit]]
id   = "annexe"
form = "expander-four"
draw = { feed = "shed/l" }
`

func TestEveryKeyOfPower(t *testing.T) {
	d, err := Parse("x.toml", []byte(powered), nil)
	require.NoError(t, err)
	p := d.Plan
	assert.Equal(t, &layout.Draw{Millivolts: 9000, MaxMillivolts: 18000, Milliamps: 120,
		Feed: layout.JackRef{Unit: "shed", Jack: "b"}, Lead: layout.ReversingLead}, p.Unit("hall").Draw)
	assert.True(t, p.Unit("fuzz").Draw.Battery)
	assert.False(t, p.Unit("fuzz").Fed())
	s := p.Unit("shed")
	assert.Equal(t, 30500, s.Milliwatts)
	assert.Equal(t, &layout.MainsInput{Volts: 100, MaxVolts: 240, Hertz: 50, MaxHertz: 60}, s.Mains)
	assert.Equal(t, []layout.Output{
		{Jack: "a", Millivolts: 9000, Milliamps: 300, Group: "one"},
		{Jack: "b", Millivolts: 9000, Milliamps: 200, Isolated: true, Choices: []layout.Setting{{Millivolts: 12000, Milliamps: 200}, {Millivolts: 18000, Milliamps: 100}}},
		{Jack: "c", Millivolts: 9000, MaxMillivolts: 18000, Milliamps: 500},
		{Jack: "l", Millivolts: 24000, Milliamps: 1000, Link: true},
	}, s.Outputs)
	assert.Equal(t, []string{"l"}, s.Links())
	assert.Equal(t, layout.JackRef{Unit: "shed", Jack: "l"}, p.Unit("annexe").Draw.Feed)
	assert.Empty(t, difference(p, deepCopy(p)))
}

// A change of each is seen, so that it is never lost unsaid.
func TestChangesOfPowerAreSeen(t *testing.T) {
	d, err := Parse("x.toml", []byte(powered), nil)
	require.NoError(t, err)
	for want, change := range map[string]func(*layout.Plan){
		`unit "hall": its draw`:    func(p *layout.Plan) { p.Unit("hall").Draw.Feed.Jack = "a" },
		`unit "fuzz": its draw`:    func(p *layout.Plan) { p.Unit("fuzz").Draw.Battery = false },
		`unit "shed": its outputs`: func(p *layout.Plan) { p.Unit("shed").Outputs[1].Choices[0].Milliamps++ },
		`unit "annexe": its draw`:  func(p *layout.Plan) { p.Unit("annexe").Draw.Milliamps++ },
	} {
		q := deepCopy(d.Plan)
		change(q)
		assert.Equal(t, want, difference(d.Plan, q))
	}
	for _, change := range []func(*layout.Unit){
		func(u *layout.Unit) { u.Milliwatts++ }, func(u *layout.Unit) { u.Mains.MaxVolts-- }, func(u *layout.Unit) { u.Mains = nil },
	} {
		q := deepCopy(d.Plan)
		change(q.Unit("shed"))
		assert.Equal(t, `unit "shed": its outputs`, difference(d.Plan, q))
	}
}

func TestWrongPower(t *testing.T) {
	unit := func(line string) string {
		return "[board]\nsize = [560, 330]\nmass = 1000\n[[unit]]\nid = \"s\"\nform = \"supply-eight\"\n[[unit]]\nid = \"u\"\nform = \"compact\"\n" + line
	}
	supply := func(output string) string {
		return unit("[[unit]]\nid = \"t\"\nform = \"supply-slim\"\noutput = [{ jack = \"out1\", milliamps = 9, " + output + " }]")
	}
	for _, c := range []struct{ src, want string }{
		{unit(`draw = { feed = "s/out9" }`), `found "s/out9", but unit "s" has no output "out9": did you mean "out`},
		{unit(`draw = { feed = "s/link" }`), `but unit "s" has no output "link"`},
		{unit(`draw = { feed = "z/out1" }`), `x.toml:10:17: unit "u": draw: feed: found "z/out1", want "SUPPLY/OUTPUT"`},
		{unit(`draw = { feed = 3 }`), `feed: found 3, want "SUPPLY/OUTPUT"`},
		{unit(`draw = { lead = "revers" }`), `lead: found "revers"`},
		{unit(`draw = { volts = 12, max_volts = 9 }`), `max_volts: found 9, want more than its volts, 12`},
		{unit(`mains = { volts = 240, max_volts = 100 }`), `max_volts: found 100, want a whole number from 240 to 260`},
		{unit(`mains = { hertz = 50 }`), `no volts: want what the label`},
		{unit(`watts = -1`), `watts: found -1`},
		{supply(`isolated = true, group = "a"`), `an isolated output has a ground of its own`},
		{supply(`choice = [{ milliamps = 3 }]`), `choice 1: no volts`},
		{supply(`max_volts = 18, choice = [{ volts = 12 }]`), `not both`},
	} {
		_, err := Parse("x.toml", []byte(c.src), nil)
		assert.ErrorContains(t, err, c.want, c.src)
	}
}

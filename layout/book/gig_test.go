package book

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout/plan"
)

// Cables to an amplifier's loop are no stops of the chain, and units that play
// on batteries are one line of the list.
func TestGigCardWithALoopOfTheAmplifier(t *testing.T) {
	d, err := plan.Parse("loop.toml", []byte(`
board = { size = [600, 200], mass = "1kg", plug_room = { left = 70, right = 70, back = 70 } }
[[unit]]
id = "fuzz"
form = "compact-fuzz"
draw = { battery = true }
place = { at = [500, 20] }
[[unit]]
id = "wah"
form = "die-cast-small"
draw = { battery = true }
place = { at = [380, 20] }
[[unit]]
id = "fx"
form = "four-switch"
place = { at = [50, 20] }
[chain]
order = ["instrument", "fuzz", "wah", "fx/in>send", "amp"]
link = [{ from = "amp", to = "fx/return" }, { from = "fx/out", to = "amp" }]
`), catalog.Builtin())
	require.NoError(t, err)
	b, err := New(d.Plan)
	require.NoError(t, err)
	var text bytes.Buffer
	require.NoError(t, documents(t, b)["gig"].Text(&text, 200))
	assert.Contains(t, text.String(), "Besides: the amp cable from amp to fx return.")
	assert.Contains(t, text.String(), "Besides: the amp cable from fx out to amp.")
	assert.Contains(t, text.String(), "fuzz and wah play on their batteries: the input plug switches each on. Fresh ones are in the case?")
}

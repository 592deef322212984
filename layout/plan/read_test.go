package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// small is a plan with a little of everything, for tests to build on.
const small = `title = "Small"

[board]
size     = [560, 330]
material = "birch-plywood"

[[board.riser]]
name      = "shelf"
at        = [80, 210]
size      = [400, 115]
height    = 55
thickness = 9

[[slot]]
name = "colour"
at   = [300, 0]
size = [260, 200]

[[unit]]
id   = "octave"
form = "compact"

[[unit]]
id   = "squash"
form = "compact"

[chain]
order = ["instrument", "octave", "slot:colour", "desk"]

[[lineup]]
name = "barn"
fill = { colour = ["squash"] }
`

func TestParseSmall(t *testing.T) {
	d, err := Parse("small.toml", []byte(small), nil)
	require.NoError(t, err)
	require.Equal(t, "Small", d.Plan.Title)
	require.Len(t, d.Plan.Units, 2)
	require.False(t, d.Dirty())
	d.Plan.Units[0].Pinned = true
	require.True(t, d.Dirty())
}

func TestExamplesRead(t *testing.T) {
	list := Examples()
	require.Equal(t, BuiltinExample, list[0].Name)
	for _, e := range list {
		d, err := Parse(e.Name, e.Source, nil)
		require.NoError(t, err)
		require.Equal(t, e.Title, d.Plan.Title)
		same, err := d.Render()
		require.NoError(t, err)
		require.Equal(t, string(e.Source), string(same))
	}
}

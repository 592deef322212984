package power

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/route"
)

const mm = layout.Millimetre

// A lead is cut for the way it really takes: also where that way bends more
// tightly than it likes, which is far longer than the straight line.
func TestTightWayIsTaken(t *testing.T) {
	straight := func() *Lead {
		d := &Lead{Unit: "a", Jack: "dc", Millivolts: 9000, Milliamps: 100}
		path := []Point3{{0, 0, 0}, {100 * mm, 0, 0}}
		d.lay(path, length(path))
		return d
	}
	d := straight()
	Lay([]*Lead{d}, []route.Path{{ID: "a/dc", Length: 500 * mm, Why: "bend too tight", Bend: 15 * mm,
		Points: []route.Point3{{X: 0}, {Y: 200 * mm}, {X: 100 * mm, Y: 200 * mm}, {X: 100 * mm}}}})
	assert.Equal(t, 500*mm, d.Run)
	assert.GreaterOrEqual(t, d.Cut, d.Run)
	assert.Len(t, d.Path, 4)

	d = straight()
	Lay([]*Lead{d}, []route.Path{{ID: "a/dc", Why: "no way"}})
	assert.Equal(t, 100*mm, d.Run, "without any way it keeps the straight line")
	require.Len(t, d.Path, 2)
}

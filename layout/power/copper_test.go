package power

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// ASTM B258 for the diameters; the table of ohms per metre was read at
// daycounter's wire table, the areas and mohm/m are computed from the standard's
// formula and 1.7241e-8 ohm m.
func TestWireTable(t *testing.T) {
	for _, c := range []struct {
		gauge              int
		mm, mm2, mohm, ohm float64
	}{
		{18, 1.024, 0.823, 20.95, 0.0210}, {20, 0.812, 0.518, 33.31, 0.0333}, {22, 0.644, 0.326, 52.96, 0.0530},
		{24, 0.511, 0.205, 84.21, 0.0842}, {26, 0.405, 0.129, 133.9, 0.134},
	} {
		assert.InDelta(t, c.mm, Diameter(c.gauge), 0.0006, "AWG %d", c.gauge)
		assert.InDelta(t, c.mm2, Area(c.gauge), 0.0006, "AWG %d", c.gauge)
		assert.InDelta(t, c.mohm, 1000*OhmsPerMetre(c.gauge), c.mohm*0.001, "AWG %d", c.gauge)
		assert.InDelta(t, c.ohm, OhmsPerMetre(c.gauge), c.ohm*0.004, "AWG %d", c.gauge)
	}
}

// Worked examples: electrician2, p. 135, 4 A over 100 ft of 4.99 ohm/1000 ft;
// doityourselfsolarenergyprojects, 1 A over 20 m of 1.3 mm2 at 0.01785 ohm mm2/m,
// 4.58 % of 12 V; 0.5 A over 0.6 m of 24 AWG computed from the table.
func TestWorkedDrops(t *testing.T) {
	const foot = 0.3048
	assert.InDelta(t, 3.99, Drop(100*foot, 4.99/(1000*foot), 4), 0.005)
	v := Drop(20, 0.01785/1.3, 1)
	assert.InDelta(t, 0.549, v, 0.0005)
	assert.InDelta(t, 4.58, v/12*100, 0.01)
	assert.InDelta(t, 0.051, Drop(0.6, OhmsPerMetre(24), 0.5), 0.0006)
}

func TestThickerWireForMoreCurrent(t *testing.T) {
	g, _, ok := gaugeFor(0.6, 0.5, 9)
	assert.True(t, ok)
	assert.Equal(t, 24, g)
	g, drop, ok := gaugeFor(1, 2, 9) // 0.337 V in 24 AWG, 0.212 V in 22
	assert.True(t, ok)
	assert.Equal(t, 22, g)
	assert.LessOrEqual(t, drop, 0.27)
	_, _, ok = gaugeFor(20, 2, 9)
	assert.False(t, ok)
}

package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mm = Millimetre

// Birch plywood by nominal (actual) thickness in mm and mass in kg of a sheet 1220 x
// 2440 mm, read from a birch plywood datasheet: 6.5 (6.4) 13.0; 9 (9.2) 19.0; 12 (12.0)
// 24.8; 15 (14.9) 30.8; 18 (17.7) 36.7. The densities of the sheets lie between 682 and
// 697 kg/m3, so one density of 690 agrees with each within 3 %.
func TestMassOfBirchPlywood(t *testing.T) {
	for _, sheet := range []struct {
		actual Length
		kg     float64
	}{{6_400, 13.0}, {9_200, 19.0}, {12_000, 24.8}, {14_900, 30.8}, {17_700, 36.7}} {
		b := Board{W: 1220 * mm, D: 2440 * mm, Kind: Solid, Thickness: sheet.actual, Density: 690}
		assert.InEpsilon(t, sheet.kg*1000, b.TotalMass().Grams(), 0.03, "%v", sheet.actual)
	}
}

// Aluminium sheet 0.8 mm x 1.25 x 2.5 m at 2.80 kg/dm3 weighs 7.00 kg, read from a
// table of sheet masses; as one rail it is the same.
func TestMassOfAluminium(t *testing.T) {
	b := Board{W: 1250 * mm, D: 2500 * mm, Kind: Solid, Thickness: 800, Density: 2800}
	assert.Equal(t, 7*Kilogram, b.TotalMass())
	b.Kind, b.Rails = Rails, []Rail{{b.Rect()}}
	assert.Equal(t, 7*Kilogram, b.TotalMass())
}

// By hand: a deck of 500 x 300 x 10 mm at 700 kg/m3 is 1.05 kg, a platform of 400 x
// 100 x 10 mm 0.28 kg, each end panel of 10 x 100 x 40 mm 0.028 kg.
func TestMassAndCentreWithRiser(t *testing.T) {
	b := Board{W: 500 * mm, D: 300 * mm, Kind: Solid, Thickness: 10 * mm, Density: 700}
	r := Riser{Name: "shelf", At: Rect{0, 200 * mm, 400 * mm, 300 * mm}, Height: 50 * mm, Thickness: 10 * mm, Density: 700}
	r.Legs = r.EndPanels()
	assert.Equal(t, []Leg{{Rect{0, 200 * mm, 10 * mm, 300 * mm}}, {Rect{390 * mm, 200 * mm, 400 * mm, 300 * mm}}}, r.Legs)
	b.Risers = []Riser{r}
	assert.Equal(t, 1386*Gram, b.TotalMass())
	// x: (1.05 x 250 + 0.336 x 200) / 1.386; y: (1.05 x 150 + 0.336 x 250) / 1.386.
	x, y := b.Centre()
	assert.InDelta(t, 329.7/1.386*1000, x, 0.01)
	assert.InDelta(t, 241.5/1.386*1000, y, 0.01)

	b.Mass = 2 * Kilogram
	assert.Equal(t, 2*Kilogram, b.TotalMass(), "a weighed board needs no sums")
	gx, gy := b.Centre()
	assert.InDelta(t, x, gx, 1e-6, "its mass is spread as before")
	assert.InDelta(t, y, gy, 1e-6)

	b.Density, b.Risers[0].Density = 0, 0
	gx, gy = b.Centre()
	assert.InDelta(t, x, gx, 1e-6, "one unknown density is as good as another")
	assert.InDelta(t, y, gy, 1e-6)

	bare := Board{W: 500, D: 301}
	gx, gy = bare.Centre()
	assert.Equal(t, [2]float64{250, 150.5}, [2]float64{gx, gy}, "without thickness, the middle")
}

// By hand: the deck of 1 kg at (200, 150), a unit of 3 kg whose middle is at (60,
// 90): (200 + 180) / 4 = 95, (150 + 270) / 4 = 105.
func TestBalance(t *testing.T) {
	p := &Plan{Board: Board{W: 400 * mm, D: 300 * mm, Mass: Kilogram}, Lineups: []Lineup{{Name: "one"}},
		Units: []Unit{
			{ID: "a", Body: Size{120 * mm, 80 * mm, 50 * mm}, Mass: 3 * Kilogram, Place: &Placement{On: DeckName, At: Point{20 * mm, 30 * mm}, Turn: 1}},
			{ID: "b", Body: Size{70 * mm, 120 * mm, 50 * mm}, Mass: 9 * Kilogram},
		}}
	m, x, y := p.Balance(&p.Lineups[0])
	assert.Equal(t, 4*Kilogram, m, "without the unit that has no place")
	assert.InDelta(t, 95*1000, x, 1e-6)
	assert.InDelta(t, 105*1000, y, 1e-6)

	p.Board.Mass, p.Units = 0, nil
	m, x, y = p.Balance(&p.Lineups[0])
	assert.Zero(t, m)
	assert.Equal(t, [2]float64{200_000, 150_000}, [2]float64{x, y}, "no mass at all balances in the middle")
}

func TestSurfaces(t *testing.T) {
	b := Board{W: 500, D: 300, Kind: Rails, Rails: []Rail{{Rect{0, 0, 500, 50}}}, Thickness: 15, Overhang: Edges{Left: 5},
		Risers: []Riser{{Name: "shelf", At: Rect{0, 200, 400, 300}, Height: 55, Thickness: 9, Overhang: Edges{Front: 3}}}}
	assert.Equal(t, []Surface{
		{Name: DeckName, At: Rect{0, 0, 500, 300}, Thickness: 15, Overhang: Edges{Left: 5}, Rails: b.Rails},
		{Name: "shelf", At: Rect{0, 200, 400, 300}, Z: 55, Thickness: 9, Overhang: Edges{Front: 3}},
	}, b.Surfaces())
	_, ok := b.Surface("attic")
	assert.False(t, ok)
}

func TestObstacles(t *testing.T) {
	r := Riser{Name: "shelf", At: Rect{0, 200, 400, 300}, Height: 55, Thickness: 9}
	r.Legs = r.EndPanels()
	b := Board{W: 500, D: 300, Risers: []Riser{r}, Fixtures: []Fixture{{"handle", Box{490, 100, 0, 500, 200, 30}}}}
	assert.Equal(t, []Fixture{
		{"shelf platform", Box{0, 200, 46, 400, 300, 55}},
		{"shelf leg", Box{0, 200, 0, 9, 300, 46}},
		{"shelf leg", Box{391, 200, 0, 400, 300, 46}},
		{"handle", Box{490, 100, 0, 500, 200, 30}},
	}, b.Obstacles())
}

func TestCaseRoom(t *testing.T) {
	b := Board{W: 560, D: 330}
	_, ok := b.CaseRoom()
	assert.False(t, ok)
	b.Case = &Case{Inside: Size{600, 370, 125}, Below: 25}
	room, ok := b.CaseRoom()
	require.True(t, ok)
	assert.Equal(t, Box{-40, -40, -25, 600, 370, 100}, room)
}

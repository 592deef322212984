package mount

import (
	"math"
	"testing"

	"footplank/layout"

	"github.com/stretchr/testify/assert"
)

// Published strengths. Hook-and-loop shear 69 kPa (10 psi) to 97 kPa (14 psi):
// retail labels, the test is ASTM D5169. Mushroom heads in tension, rigid to
// rigid: 170+400 stems 221, 250+250 207 to 262, 250+400 324, 400+400 380 kPa,
// datasheet. The defaults are the least of each kind. A design load of at most
// a tenth is common practice, no source.
func TestPublishedStrengths(t *testing.T) {
	psi := 4.4482216152605 / (0.0254 * 0.0254) / 1000 // kPa, by pound-force and inch
	assert.InDelta(t, 10*psi, HookAndLoopKPa, 0.5)
	assert.InDelta(t, 14*psi, strongest[HookAndLoop], 0.5)
	for _, kPa := range []float64{221, 207, 262, 324, 380} {
		assert.LessOrEqual(t, InterlockKPa, kPa)
		assert.LessOrEqual(t, kPa, strongest[Interlock])
	}
	assert.Equal(t, 0.1, DesignShare)
	// A tenth of each on the 1000 mm2 of a strip of 20 x 50 mm, in newtons.
	for kPa, n := range map[float64]float64{69: 6.9, 97: 9.7, 207: 20.7, 262: 26.2, 221: 22.1, 324: 32.4, 380: 38} {
		r := Roll{StrengthKPa: kPa}
		assert.InDelta(t, n, r.design()*1000, 1e-9)
	}
}

// The worked numbers of the package's description, by hand: 0.4 kg with 5 g is
// 19.613 N; two strips of 62 x 20 mm at the front and the back of a base of 70 x
// 122 mm have 2480 mm2 and about each long edge 2480 x 61 = 151280 mm3.
func TestStaticsByHand(t *testing.T) {
	u := unit("a", 70, 122, 0, 0, 0)
	u.Jacks = []layout.Jack{{ID: "in", Wall: layout.Right, Height: 20 * mm}}
	base := rect(0, 0, 70, 122)
	s := newStatics(&u, *u.Place, base, base, 0, 0.0069)
	var g grip
	g.add(s, rect(4, 4, 66, 24))
	g.add(s, rect(4, 98, 66, 118))
	assert.Equal(t, 2480.0, g.area)
	assert.InDelta(t, 151280, g.lever[frontEdge], 1e-6)
	assert.InDelta(t, 86800, g.lever[leftEdge], 1e-6)

	const f = 0.4 * 9.80665 * 5
	byHand := map[Load]float64{
		Upright:     math.Hypot(f/(0.0069*2480), f*25/(0.0069*86800)),
		PulledOff:   f / (0.0069 * 2480),
		CablePulled: math.Hypot(10/(0.0069*2480), 10*20/(0.0069*86800)),
	}
	most := map[Load]float64{}
	for i := range s.demands {
		d := &s.demands[i]
		most[d.load] = max(most[d.load], s.use(d, &g))
	}
	for load, use := range byHand {
		assert.InDelta(t, use, most[load], 1e-9, load)
	}
	h := s.worst(&g)
	assert.Equal(t, Upright, h.Load)
	assert.InDelta(t, 1.409, h.Use, 0.001)
	assert.InDelta(t, f, h.Newtons, 1e-9)
	assert.False(t, s.holds(&g, 1))
	s.stress = 0.0207
	assert.True(t, s.holds(&g, 1))
}

// A unit that stands half past the board's left edge has its centre of mass over
// that edge. Turned over, it tears at a strip far from the edge harder than at
// one close to it: by hand, about the right edge, 50 mm of F against 16 and 40 mm
// of the strip.
func TestOverhangLevers(t *testing.T) {
	u := unit("a", 100, 100, 0, 0, 0)
	bears := rect(50, 0, 100, 100)
	s := newStatics(&u, *u.Place, bears, bears, 0, 0.0207)
	use := func(strip layout.Rect) float64 {
		var g grip
		g.add(s, strip)
		most := 0.0
		for i := range s.demands {
			if d := &s.demands[i]; d.load == PulledOff {
				most = max(most, s.use(d, &g))
			}
		}
		return most
	}
	const f = 0.4 * 9.80665 * 5
	assert.InDelta(t, f*50/(0.0207*20*92*16), use(rect(74, 4, 94, 96)), 1e-9)
	assert.InDelta(t, f*50/(0.0207*20*92*40), use(rect(50, 4, 70, 96)), 1e-9)
}

func TestWhoFavoursTheToe(t *testing.T) {
	low, tall, treadle := unit("a", 70, 120, 0, 0, 0), unit("b", 40, 60, 0, 0, 0), unit("c", 90, 250, 0, 0, 0)
	treadle.Treadle = true
	for _, c := range []struct {
		u       layout.Unit
		favours bool
		toe     layout.Rect
	}{
		{low, false, rect(0, 0, 70, 60)},
		{tall, true, rect(0, 0, 40, 30)},       // its switch is in front
		{treadle, true, rect(0, 125, 90, 250)}, // the heel is in front
	} {
		base := c.u.Base(*c.u.Place)
		s := newStatics(&c.u, *c.u.Place, base, base, 5, 0.0207)
		assert.Equal(t, c.favours, s.favours, c.u.ID)
		assert.Equal(t, c.toe, s.toe, c.u.ID)
	}
	p := planOf(treadle)
	p.Units[0].Mass = 1300 * layout.Gram
	toe, heel := 0.0, 0.0
	for _, b := range Lay(p).Bases {
		if b.At.Y0 >= 125*mm {
			toe += area(b.At)
		} else {
			heel += area(b.At)
		}
	}
	assert.Positive(t, heel)
	assert.GreaterOrEqual(t, toe, 1.5*heel)
}

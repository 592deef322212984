package route_test

import (
	"testing"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mm = layout.Millimetre

func TestAudioRequestsOfTheExample(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	reqs := route.AudioRequests(p, l)
	links := p.ChainLinks(l)
	require.Len(t, reqs, len(links))
	for i, r := range reqs {
		assert.Equal(t, links[i].From, layout.JackRef{Unit: r.From.Unit, Jack: r.From.Jack})
		assert.Equal(t, links[i].To, layout.JackRef{Unit: r.To.Unit, Jack: r.To.Jack})
		assert.Equal(t, layout.OffBoard(r.From.Unit), r.From.Edge)
		assert.Equal(t, layout.OffBoard(r.To.Unit), r.To.Edge)
		assert.Equal(t, 5*r.Diameter, r.BendRadius)
	}
}

func TestEdgeIsWhereTheTurnIsShortest(t *testing.T) {
	b := &layout.Board{W: 400 * mm, D: 200 * mm}
	for name, c := range map[string]struct {
		tip  End
		at   layout.Point
		over layout.Wall
	}{
		"straight on":             {End{At: layout.Point{X: 350 * mm, Y: 60 * mm}, Dir: layout.Right}, layout.Point{X: 400 * mm, Y: 60 * mm}, layout.Right},
		"not back round itself":   {End{At: layout.Point{X: 200 * mm, Y: 60 * mm}, Dir: layout.Front}, layout.Point{X: 400 * mm, Y: 60 * mm}, layout.Right},
		"past the edge already":   {End{At: layout.Point{X: -20 * mm, Y: 60 * mm}, Dir: layout.Left}, layout.Point{X: -20 * mm, Y: 60 * mm}, layout.Left},
		"never over the front":    {End{At: layout.Point{X: 100 * mm, Y: 5 * mm}, Dir: layout.Front}, layout.Point{X: 0, Y: 5 * mm}, layout.Left},
		"the back is near enough": {End{At: layout.Point{X: 200 * mm, Y: 150 * mm}, Dir: layout.Left}, layout.Point{X: 200 * mm, Y: 200 * mm}, layout.Back},
	} {
		t.Run(name, func(t *testing.T) {
			e := route.EdgeFor(b, c.tip, layout.Amp)
			assert.Equal(t, c.at, e.At)
			assert.Equal(t, c.over, e.Dir)
			assert.True(t, e.Edge)
			assert.Equal(t, layout.Amp, e.Unit)
		})
	}
}

type End = route.End

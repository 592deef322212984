package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arranged"
	"footplank/layout/route"
)

// settledOf returns cables as they were laid.
func settledOf(reqs []route.Request, paths []route.Path) []route.Settled {
	var out []route.Settled
	for i := range paths {
		out = append(out, route.Settled{Kind: reqs[i].Kind, Diameter: reqs[i].Diameter, Points: paths[i].Points})
	}
	return out
}

// sideBySide returns how much of the two paths lies side by side on one level, nearer
// than that: written down without the router's own strands.
func sideBySide(a, b []route.Point3, near layout.Length) layout.Length {
	var sum layout.Length
	for i := 1; i < len(a); i++ {
		for k := 1; k < len(b); k++ {
			p, q, r, s := a[i-1], a[i], b[k-1], b[k]
			if p.Z != q.Z || r.Z != s.Z || max(p.Z-r.Z, r.Z-p.Z) > 4*mm {
				continue
			}
			if p.Y == q.Y && r.Y == s.Y && max(p.Y-r.Y, r.Y-p.Y) < near {
				sum += max(0, min(max(p.X, q.X), max(r.X, s.X))-max(min(p.X, q.X), min(r.X, s.X)))
			}
			if p.X == q.X && r.X == s.X && max(p.X-r.X, r.X-p.X) < near {
				sum += max(0, min(max(p.Y, q.Y), max(r.Y, s.Y))-max(min(p.Y, q.Y), min(r.Y, s.Y)))
			}
		}
	}
	return sum
}

// Leads that know of the audio cables keep apart from them: less of them lies
// along audio, in the example by far.
func TestLeadsKeepApartFromSettledCables(t *testing.T) {
	p := arranged.Example(t)
	var apart, aware layout.Length
	for i := range p.Lineups {
		l := &p.Lineups[i]
		audio, power := route.AudioRequests(p, l), leads(p, l)
		space := route.NewSpace(p, l)
		cables := settledOf(audio, space.Route(audio))
		blind, seeing := space.Route(power), space.Around(cables).Route(power)
		for k := range power {
			for _, c := range cables {
				apart += sideBySide(blind[k].Points, c.Points, route.Near)
				aware += sideBySide(seeing[k].Points, c.Points, route.Near)
			}
		}
	}
	t.Logf("lengths of leads near audio cables: %v laid blind, %v laid around them", apart, aware)
	require.Positive(t, apart, "nothing to avoid: the test shows nothing")
	assert.Less(t, aware, apart/2)
}

// The space that others are laid around in is the same but for them, and the
// cables that are settled do not change.
func TestAroundNothingIsTheSameSpace(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[0]
	reqs := runs(p, l)
	space := route.NewSpace(p, l)
	assert.Equal(t, space.Route(reqs), space.Around(nil).Route(reqs))
}

// A router starts as a space does, also around settled cables.
func TestRouterAroundSettledStartsAsRoute(t *testing.T) {
	p := arranged.Example(t)
	l := &p.Lineups[1]
	audio, power := route.AudioRequests(p, l), leads(p, l)
	cables := settledOf(audio, route.NewSpace(p, l).Route(audio))
	var r route.Router
	assert.Equal(t, route.NewSpace(p, l).Around(cables).Route(power), r.Update(p, l, power, cables...))
}

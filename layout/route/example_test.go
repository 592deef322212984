package route_test

import (
	"context"
	"fmt"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/layout/route"
	"footplank/pack"

	"github.com/stretchr/testify/require"
)

// arranged returns the built-in example with every unit in a place.
func arranged(tb testing.TB) *layout.Plan {
	tb.Helper()
	e := plan.Examples()[0]
	d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
	require.NoError(tb, err)
	r, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{FirstFit: true})
	require.NoError(tb, err)
	require.Equal(tb, pack.Fits, r.Verdict)
	return r.Plan
}

// leads returns a power lead from an output to every unit that draws, the
// outputs in their order.
func leads(p *layout.Plan, l *layout.Lineup) []route.Request {
	placed, _ := p.Standings(l)
	used := p.Used(l)
	var outs, ins []route.End
	for i := range placed {
		s := &placed[i]
		for _, j := range s.Unit.Jacks {
			if j.Signal != layout.Power || !used[layout.JackRef{Unit: s.Unit.ID, Jack: j.ID}] {
				continue
			}
			e, _ := route.EndOf(s, j.ID)
			if j.Dir == layout.Out {
				outs = append(outs, e)
			} else {
				ins = append(ins, e)
			}
		}
	}
	var out []route.Request
	for i := range min(len(ins), len(outs)) {
		out = append(out, route.Request{
			ID: fmt.Sprintf("d%d", i+1), Kind: route.Power, From: outs[i], To: ins[i],
			Diameter: route.LeadDiameter, BendRadius: route.BendRadius(route.LeadDiameter),
		})
	}
	return out
}

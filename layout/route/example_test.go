package route_test

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/route"
)

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

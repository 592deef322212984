package wiring

import (
	"footplank/layout"
	"footplank/layout/route"
)

// Cables returns the line-up's cables in the order of the signal with their runs
// on the board. What is left out is as in Estimate, and a cable that finds no
// way keeps its straight line.
func Cables(p *layout.Plan, l *layout.Lineup) []Cable {
	cables := Estimate(p, l)
	if len(cables) > 0 {
		reqs := Requests(p, l)
		Lay(cables, reqs, route.NewSpace(p, l).Route(reqs), p.LengthUnit)
	}
	return cables
}

// Requests returns what to ask a router for the line-up's cables, in the order
// and with the names of Estimate. A diameter that the plan gives is that of the
// cables that stay on the board.
func Requests(p *layout.Plan, l *layout.Lineup) []route.Request {
	reqs := route.AudioRequests(p, l)
	for i := range reqs {
		if r := &reqs[i]; p.Cabling.Diameter > 0 && !r.From.Edge && !r.To.Edge {
			r.Diameter = p.Cabling.Diameter
			r.BendRadius = route.BendRadius(r.Diameter)
		}
	}
	return reqs
}

// Lay gives cables the paths that a router found for their Requests, so that an
// editor with a router of its own has the same cables.
func Lay(cables []Cable, reqs []route.Request, paths []route.Path, unit layout.LengthUnit) {
	for i := range cables {
		c, way := &cables[i], &paths[i]
		c.Bend, c.BendRadius, c.Blocked = way.Bend, reqs[i].BendRadius, ""
		c.Diameter = reqs[i].Diameter
		if len(way.Points) == 0 {
			c.Blocked = way.Why
			continue
		}
		c.Path = way.Points
		c.setRun(way.Length, unit)
	}
}

// Settled returns cables as they lie, for leads to be laid around them.
func Settled(cables []Cable) []route.Settled {
	var out []route.Settled
	for i := range cables {
		if c := &cables[i]; c.Blocked == "" && c.Diameter > 0 {
			out = append(out, route.Settled{Kind: route.Audio, Diameter: c.Diameter, Points: c.Path})
		}
	}
	return out
}

// Settled returns the cables of the line-up of that name as they lie.
func (r *Result) Settled(lineup string) []route.Settled {
	if w := r.Of(lineup); w != nil {
		return Settled(w.Cables)
	}
	return nil
}

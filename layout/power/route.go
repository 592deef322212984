package power

import (
	"footplank/layout"
	"footplank/layout/route"
)

// A usual lead's outside diameter, and the bend that it bears: five times that,
// the lower end of what is usual for cable (common practice, no source).
const (
	leadDiameter = 4 * layout.Millimetre
	leadBend     = 5 * leadDiameter
)

// Route lays the leads of a result on the free room of the board, which takes
// far longer than the map. A lead that finds no way keeps its straight line.
func (r *Result) Route(p *layout.Plan) {
	q := newPlugs(p)
	for l := range p.Lineups {
		var reqs []route.Request
		var which []*Lead
		for i := range r.Leads {
			d := &r.Leads[i]
			if d.Lineup != p.Lineups[l].Name || d.Path == nil {
				continue
			}
			reqs = append(reqs, route.Request{ID: d.ID, Kind: route.Power, Diameter: leadDiameter, BendRadius: leadBend,
				From: q.end(l, d.Supply, d.Output, d.Path[0]), To: q.end(l, d.Unit, d.Jack, d.Path[len(d.Path)-1])})
			which = append(which, d)
		}
		if len(reqs) == 0 {
			continue
		}
		for i, way := range route.NewSpace(p, &p.Lineups[l]).Route(reqs) {
			if len(way.Points) < 2 || !way.OK {
				continue
			}
			var path []Point3
			for _, at := range way.Points {
				path = append(path, Point3(at))
			}
			which[i].lay(path, way.Length)
		}
	}
}

// end is the end of a lead at a plug's tip.
func (q *plugs) end(l int, unit, jack string, tip Point3) route.End {
	j := q.p.Unit(unit).Jack(jack)
	return route.End{Unit: unit, Jack: jack, At: layout.Point{X: tip.X, Y: tip.Y}, Z: tip.Z, Dir: j.Wall.Turned(q.at[l][unit].Turn)}
}

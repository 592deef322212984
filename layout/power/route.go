package power

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/route"
)

// Route lays the leads of a result on the free room of the board, which takes
// far longer than the map. The line-up's audio cables, if around is not nil, lie
// there already, and the leads keep apart from them and cross them. A lead with
// no way but one that bends it tightly takes that; one with none at all keeps its
// straight line, which is an issue: it will be too short. Issues of leads are then
// those of the leads as they are laid.
func (r *Result) Route(p *layout.Plan, around func(lineup string) []route.Settled) {
	for i := range p.Lineups {
		l := &p.Lineups[i]
		leads := r.Of(l.Name)
		reqs := Requests(p, l, leads)
		if len(reqs) == 0 {
			continue
		}
		space := route.NewSpace(p, l)
		if around != nil {
			space = space.Around(around(l.Name))
		}
		Lay(leads, space.Route(reqs))
	}
	r.Laid(p)
}

// Laid makes the issues of leads those of the leads as they lie now. Whoever lays
// them by Lay calls it when all line-ups are done.
func (r *Result) Laid(p *layout.Plan) {
	rest := slices.DeleteFunc(slices.Clone(r.Issues), func(i Issue) bool { return OfLead(i.Code) })
	r.Issues = append(rest, ofLeads(p, r)...)
}

// noWay is the issue of a lead that found no way.
func (d *Lead) noWay(p *layout.Plan) Issue {
	unit, supply := p.Unit(d.Unit).Label, p.Unit(d.Supply).Label
	return Issue{Code: LeadNoWay, Level: Caution, Lineup: d.Lineup, Units: []string{d.Unit, d.Supply}, Text: fmt.Sprintf(
		"No way through for the lead from %s to %s: %s. Its length is that of a straight line, and will not do. Move one of the two, or what is between them.", supply, unit, d.Blocked)}
}

// Of returns the leads of a line-up, in the order of the result.
func (r *Result) Of(lineup string) []*Lead {
	var out []*Lead
	for i := range r.Leads {
		if r.Leads[i].Lineup == lineup {
			out = append(out, &r.Leads[i])
		}
	}
	return out
}

// way names the lead to a router: by what it feeds, so that it keeps its way
// when another output feeds it.
func (d *Lead) way() string { return d.Unit + "/" + d.Jack }

// Requests returns what to ask a router for the leads of a line-up. One with an
// end that has no place is left out.
func Requests(p *layout.Plan, l *layout.Lineup, leads []*Lead) []route.Request {
	placed, _ := p.Standings(l)
	at := map[string]*layout.Standing{}
	for i := range placed {
		at[placed[i].Unit.ID] = &placed[i]
	}
	var out []route.Request
	for _, d := range leads {
		from, to := at[d.Supply], at[d.Unit]
		if d.Path == nil || from == nil || to == nil {
			continue
		}
		a, aok := route.EndOf(from, d.Output)
		b, bok := route.EndOf(to, d.Jack)
		if aok && bok {
			out = append(out, route.Request{ID: d.way(), Kind: route.Power, From: a, To: b,
				Diameter: route.LeadDiameter, BendRadius: route.BendRadius(route.LeadDiameter)})
		}
	}
	return out
}

// Lay gives leads the paths that a router found for their Requests, so that an
// editor with a router of its own has the same leads.
func Lay(leads []*Lead, paths []route.Path) {
	for _, way := range paths {
		i := slices.IndexFunc(leads, func(d *Lead) bool { return d.way() == way.ID })
		if i < 0 {
			continue
		}
		if leads[i].Blocked = ""; len(way.Points) < 2 {
			leads[i].Blocked = way.Why
			continue
		}
		leads[i].lay(slices.Clone(way.Points), way.Length)
	}
}

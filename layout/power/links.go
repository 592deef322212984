package power

import (
	"maps"
	"slices"

	"footplank/layout"
)

// mostWirings bounds how many ways to link expanders to supplies are tried;
// a board has one or two expanders.
const mostWirings = 24

// wirings returns the ways to feed the plan's expanders from the links of its
// supplies, in the plan's order: from an expander's ID to the link. Every way
// feeds as many expanders as can be fed.
func wirings(p *layout.Plan) []map[string]layout.JackRef {
	var expanders []*layout.Unit
	var links []layout.JackRef
	for i := range p.Units {
		u := &p.Units[i]
		if u.Expander() {
			expanders = append(expanders, u)
		}
		for _, id := range u.Links() {
			links = append(links, layout.JackRef{Unit: u.ID, Jack: id})
		}
	}
	var best []map[string]layout.JackRef
	most := -1
	now := map[string]layout.JackRef{}
	var place func(e int)
	place = func(e int) {
		if len(now)+len(expanders)-e < most || len(best) >= mostWirings && most == len(expanders) {
			return
		}
		if e == len(expanders) {
			if len(now) > most {
				most, best = len(now), nil
			}
			best = append(best, maps.Clone(now))
			return
		}
		for _, ref := range links {
			if canLink(p, expanders[e], ref) && !taken(now, ref) && !circle(now, expanders[e].ID, ref.Unit) {
				now[expanders[e].ID] = ref
				place(e + 1)
				delete(now, expanders[e].ID)
			}
		}
		place(e + 1)
	}
	// More expanders than this are linked in the plan's order: the ways grow
	// as a factorial.
	if len(expanders) > 5 {
		for _, e := range expanders {
			for _, ref := range links {
				if canLink(p, e, ref) && !taken(now, ref) && !circle(now, e.ID, ref.Unit) {
					now[e.ID] = ref
					break
				}
			}
		}
		return []map[string]layout.JackRef{now}
	}
	place(0)
	return best[:min(len(best), mostWirings)]
}

// canLink reports whether the link suits the expander and its supply is there
// whenever the expander is.
func canLink(p *layout.Plan, e *layout.Unit, ref layout.JackRef) bool {
	if feed := e.Draw.Feed; feed.Unit != "" && feed != ref || ref.Unit == e.ID {
		return false
	}
	for i := range p.Lineups {
		if l := &p.Lineups[i]; p.Present(l, e.ID) && !p.Present(l, ref.Unit) {
			return false
		}
	}
	o := p.Unit(ref.Unit).Output(ref.Jack)
	return o == nil || o.AC == e.Draw.AC && (e.Draw.Takes(o.Millivolts) ||
		slices.ContainsFunc(o.Choices, func(s layout.Setting) bool { return e.Draw.Takes(s.Millivolts) }))
}

func taken(m map[string]layout.JackRef, ref layout.JackRef) bool {
	for _, r := range m {
		if r == ref {
			return true
		}
	}
	return false
}

// circle reports whether feeding e from the unit would feed it from itself.
func circle(m map[string]layout.JackRef, e, from string) bool {
	for range len(m) + 1 {
		if from == e {
			return true
		}
		r, ok := m[from]
		if !ok {
			return false
		}
		from = r.Unit
	}
	return true
}

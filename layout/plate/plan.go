package plate

import (
	"math"
	"slices"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/sheet"
)

// strip is a piece of fastener as it is drawn.
type strip struct {
	number  int // from 1: on the board, and on each base
	kind    mount.Kind
	surface string      // "" on a base
	at      layout.Rect // on the board, or on the base turned over
	width   layout.Length
	cut     layout.Length
	side    string // of hook-and-loop; "" where both are the same
	units   []string
	hint    string // words for a strip without a unit over it on the sheet
}

// run is the way of a cable or a lead, as it is drawn.
type run struct {
	name     string // of the kit's cable, or of the output
	from, to string // units; "" at an end that leaves the board
	path     []layout.Point
}

// facts is what is drawn of a plan, worked out once.
type facts struct {
	p      *layout.Plan
	strips []strip            // on the board, the same in every line-up
	bases  map[string][]strip // by unit, on its base
	cables map[string][]run   // by line-up
	leads  map[string][]run

	fromBoard bool // places of an overview count from the board's corner
}

// gather works out the facts; runs are those of the report, so that sheets and
// report show the same.
func gather(p *layout.Plan) *facts {
	held := mount.Lay(p)
	f := &facts{p: p, strips: boardStrips(held), bases: baseStrips(held), cables: map[string][]run{}, leads: map[string][]run{}}
	for _, l := range sheet.NewReport(p).Lineups {
		for _, c := range l.Cables {
			f.cables[l.Name] = append(f.cables[l.Name], run{cableName(&c), onBoard(c.From), onBoard(c.To), pathOf(c.Path)})
		}
		for _, d := range l.Leads {
			f.leads[l.Name] = append(f.leads[l.Name], run{d.Output, d.Supply, d.Unit, pathOf(d.Path)})
		}
	}
	return f
}

// cableName is the kit's letter, or where a cable that leaves the board goes.
func cableName(c *sheet.Cable) string {
	switch {
	case c.Kit != "":
		return c.Kit
	case layout.OffBoard(c.From.Unit):
		return "from " + c.From.Unit
	case layout.OffBoard(c.To.Unit):
		return "to " + c.To.Unit
	}
	return ""
}

func onBoard(r sheet.JackRef) string {
	if layout.OffBoard(r.Unit) {
		return ""
	}
	return r.Unit
}

// pathOf returns a path of the report seen from above.
func pathOf(path [][3]float64) []layout.Point {
	var out []layout.Point
	for _, at := range path {
		p := layout.Point{X: micrometres(at[0]), Y: micrometres(at[1])}
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	return out
}

func micrometres(mm float64) layout.Length {
	return layout.Length(math.Round(mm * float64(layout.Millimetre)))
}

// stays reports whether the unit stands at one place in every line-up.
func stays(p *layout.Plan, u *layout.Unit) bool {
	var first layout.Placement
	for i := range p.Lineups {
		l := &p.Lineups[i]
		pl, ok := p.PlaceOf(l, u)
		if !ok || !p.Present(l, u.ID) || i > 0 && pl != first {
			return false
		}
		first = pl
	}
	return true
}

// standings returns the placed units of a line-up that stay, or those that do not.
func standings(p *layout.Plan, l *layout.Lineup, staying bool) []layout.Standing {
	placed, _ := p.Standings(l)
	return slices.DeleteFunc(placed, func(s layout.Standing) bool { return stays(p, s.Unit) != staying })
}

// without returns the units that some line-up has without a place.
func without(p *layout.Plan) []*layout.Unit {
	var out []*layout.Unit
	for i := range p.Units {
		u := &p.Units[i]
		for j := range p.Lineups {
			_, missing := p.Standings(&p.Lineups[j])
			if slices.ContainsFunc(missing, func(m *layout.Unit) bool { return m.ID == u.ID }) {
				out = append(out, u)
				break
			}
		}
	}
	return out
}

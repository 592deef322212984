package power

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/route"
)

// Point3 is a place on or above the board.
type Point3 = route.Point3

// Lead is one power lead of a line-up.
type Lead struct {
	ID, Lineup   string
	Supply       string
	Output       string
	Unit, Jack   string
	Millivolts   int
	Milliamps    int
	LimitMA      int
	AC           bool
	Path         []Point3      // from plug tip to plug tip; nil when an end has no place
	Run          layout.Length // length of the path
	Cut          layout.Length // with plugs and slack; 0 without a path
	Gauge        int           // American wire gauge
	Drop         float64       // volts lost in the lead, there and back
	EnoughCopper bool          // false when even the thickest wire loses too much
	Blocked      string        // why no way was found; Path is the straight line then
	Reversing    bool
	Adaptor      string // "" or from which connector to which
}

// plugs knows where the plugs of each line-up are.
type plugs struct {
	p  *layout.Plan
	at []map[string]layout.Placement
	z  map[string]layout.Length
}

func newPlugs(p *layout.Plan) *plugs {
	q := &plugs{p: p, at: make([]map[string]layout.Placement, len(p.Lineups)), z: map[string]layout.Length{}}
	for _, s := range p.Board.Surfaces() {
		q.z[s.Name] = s.Z
	}
	for l := range p.Lineups {
		q.at[l] = map[string]layout.Placement{}
		for _, u := range p.UnitsIn(&p.Lineups[l]) {
			if pl, ok := p.PlaceOf(&p.Lineups[l], u); ok {
				if _, ok := q.z[pl.On]; ok {
					q.at[l][u.ID] = pl
				}
			}
		}
	}
	return q
}

// tip returns the tip of the plug in a unit's jack.
func (q *plugs) tip(l int, u *layout.Unit, j *layout.Jack) (Point3, bool) {
	pl, ok := q.at[l][u.ID]
	if !ok || j == nil {
		return Point3{}, false
	}
	at, z := u.Tip(j, pl.Turn)
	at = at.Add(pl.At)
	return Point3{X: at.X, Y: at.Y, Z: q.z[pl.On] + z}, true
}

// path is the straight line from an output to the unit that it feeds.
func (q *plugs) path(l int, u *layout.Unit, from layout.JackRef) []Point3 {
	s := q.p.Unit(from.Unit)
	a, aok := q.tip(l, s, s.Jack(from.Jack))
	b, bok := q.tip(l, u, u.PowerIn())
	if !aok || !bok {
		return nil
	}
	return []Point3{a, b}
}

// run is the length of that line, 0 when an end has no place.
func (q *plugs) run(l int, u *layout.Unit, from layout.JackRef) layout.Length {
	return length(q.path(l, u, from))
}

func length(path []Point3) (sum layout.Length) {
	for i := 1; i < len(path); i++ {
		sum += route.Distance(path[i-1], path[i])
	}
	return sum
}

// leads returns the leads of every line-up, as if they ran straight.
func leads(p *layout.Plan, r *Result) []Lead {
	q := newPlugs(p)
	var out []Lead
	for l := range p.Lineups {
		n := 0
		for _, a := range r.In(p, p.Lineups[l].Name) {
			n++
			u, s := p.Unit(a.Unit), p.Unit(a.Supply)
			d := Lead{ID: fmt.Sprintf("p%d", n), Lineup: p.Lineups[l].Name, Supply: a.Supply, Output: a.Output,
				Unit: a.Unit, Jack: u.PowerIn().ID, Millivolts: a.Millivolts, Milliamps: a.Milliamps, LimitMA: a.LimitMA,
				AC: a.AC, Reversing: a.Reversing, Adaptor: adaptor(s.Jack(a.Output), u.PowerIn())}
			path := q.path(l, u, layout.JackRef{Unit: a.Supply, Jack: a.Output})
			d.lay(path, length(path))
			out = append(out, d)
		}
	}
	return out
}

// lay gives the lead a path, and with it its cut, its wire and its drop.
func (d *Lead) lay(path []Point3, run layout.Length) {
	d.Path, d.Run, d.Cut = path, run, 0
	if len(path) > 0 {
		d.Cut = route.Cut(run)
	}
	d.Gauge, d.Drop, d.EnoughCopper = gaugeFor(d.Cut.MM()/1000, float64(d.Milliamps)/1000, float64(d.Millivolts)/1000)
}

// adaptor names the two connectors of a lead when they differ.
func adaptor(from, to *layout.Jack) string {
	if from == nil || to == nil || from.Kind == to.Kind {
		return ""
	}
	return fmt.Sprintf("%s to %s", from.Kind, to.Kind)
}

package check

import (
	"slices"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/power"
)

// All checks every line-up of the plan, in its order.
func All(p *layout.Plan) []Result { return AllOn(p, powerMap(p), mount.Lay(p)) }

// AllOn is All with the plan's power map and its fastener being known, the
// fastener perhaps of the plan as it was just before: laying it takes longer than
// all the rest, and the map longer than what then remains. Nil leaves one out.
func AllOn(p *layout.Plan, m *power.Result, f *mount.Result) []Result {
	out := make([]Result, 0, len(p.Lineups))
	if f == nil {
		f = &mount.Result{}
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		fs := lineupWith(p, l, m, f)
		out = append(out, Result{Lineup: l.Name, Verdict: Verdict(fs, false), Findings: fs})
	}
	return out
}

// Lineup checks one line-up of the plan: faults first, then by code and units.
// It changes nothing and always answers the same for the same plan.
func Lineup(p *layout.Plan, l *layout.Lineup) []Finding {
	return lineupWith(p, l, powerMap(p), mount.Lay(p))
}

// lineupWith checks a line-up, the plan's power map and fastener being known.
func lineupWith(p *layout.Plan, l *layout.Lineup, m *power.Result, f *mount.Result) []Finding {
	c := newChecker(p, l)
	c.places()
	c.collisions()
	c.obstacles()
	c.edges()
	c.bearing()
	c.caseRoom()
	c.switches()
	c.treadles()
	c.mass()
	c.balance()
	c.inputSide()
	c.plugged()
	c.power(m)
	c.fastener(f)
	sortFindings(c.found)
	return c.found
}

// checker is one line-up laid out for the rules.
type checker struct {
	p        *layout.Plan
	l        *layout.Lineup
	surfaces []layout.Surface
	units    []*layout.Unit // all of the line-up, placed or not
	unplaced []*layout.Unit
	stand    []standing
	links    []layout.Link
	silent   bool // the plan says of no unit how often it is worked
	found    []Finding
}

// standing is a placed unit with what several rules ask of it.
type standing struct {
	layout.Standing
	base    layout.Rect
	bounds  layout.Box // around all its boxes
	surface *layout.Surface
}

func newChecker(p *layout.Plan, l *layout.Lineup) *checker {
	c := &checker{p: p, l: l, surfaces: p.Board.Surfaces(), units: p.UnitsIn(l), links: p.ChainLinks(l)}
	placed, unplaced := p.Standings(l)
	c.unplaced = unplaced
	c.silent = !slices.ContainsFunc(p.Units, func(u layout.Unit) bool { return u.Often > 0 })
	c.stand = make([]standing, 0, len(placed))
	for _, s := range placed {
		t := standing{Standing: s, base: s.Unit.Base(s.Place), surface: c.surface(s.Place.On)}
		t.bounds = t.Boxes[0].Box
		for _, b := range t.Boxes[1:] {
			t.bounds = around(t.bounds, b.Box)
		}
		c.stand = append(c.stand, t)
	}
	return c
}

func (c *checker) surface(name string) *layout.Surface {
	for i := range c.surfaces {
		if c.surfaces[i].Name == name {
			return &c.surfaces[i]
		}
	}
	return nil
}

// over reports whether some of the unit's surface lies below r.
func (s *standing) over(r layout.Rect) bool {
	if s.surface.Rails == nil {
		return s.surface.At.Overlaps(r)
	}
	for _, rail := range s.surface.Rails {
		if rail.At.Overlaps(r) {
			return true
		}
	}
	return false
}

func around(a, b layout.Box) layout.Box {
	return layout.Box{X0: min(a.X0, b.X0), Y0: min(a.Y0, b.Y0), Z0: min(a.Z0, b.Z0),
		X1: max(a.X1, b.X1), Y1: max(a.Y1, b.Y1), Z1: max(a.Z1, b.Z1)}
}

// add files a finding without a measure.
func (c *checker) add(code string, level Level, text string, units ...string) {
	c.addMeasured(code, level, text, 0, 0, "", units...)
}

// addLength files a finding measured in lengths.
func (c *checker) addLength(code string, level Level, text string, measured, limit layout.Length, units ...string) {
	c.addMeasured(code, level, text, measured.MM(), limit.MM(), "mm", units...)
}

func (c *checker) addMeasured(code string, level Level, text string, measured, limit float64, unit string, units ...string) {
	c.found = append(c.found, Finding{Code: code, Level: level, Lineup: c.l.Name, Units: units,
		Text: text, Measured: measured, Limit: limit, Unit: unit})
}

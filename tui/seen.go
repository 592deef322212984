package tui

import (
	"slices"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/power"
	"footplank/layout/sheet"
	"footplank/tui/edit"
)

// seen is what is worked out from the plan and kept until the plan changes.
type seen struct {
	plan    *layout.Plan
	checked []check.Result    // without the cables
	power   *power.Result     // nil while the editor is being left
	results []check.Result    // with them, as they were last
	merged  bool              // results are of the cables known now
	faulty  []map[string]bool // per line-up, the units with a fault
	grid    *sheet.Grid
	gridOf  drawn
	trace   trace
	around  around
	// Texts of findings in lines of a width.
	wraps     map[string][]string
	wrapWidth int
}

// drawn is all that a drawing depends on.
type drawn struct {
	plan   *layout.Plan
	what   what // whether something else than the plan is looked at
	lineup int  // that its faulty units are of
	view   sheet.View
}

func (d *drawn) same(as *drawn) bool {
	return d.plan == as.plan && d.what == as.what && d.lineup == as.lineup && sameView(d.view, as.view)
}

// around is what lies around a unit, kept while nothing changes.
type around struct {
	plan         *layout.Plan
	lineup, unit string
	all          [4]*edit.Contact
}

// look returns the findings of the plan on screen, checked once per plan. Those
// of its cables are put in as soon as they are known; until then the last ones
// stand.
func (m *Model) look() *seen {
	p := m.plan()
	if m.seen.plan == p && m.seen.merged {
		return &m.seen
	}
	was := m.found()
	m.check(p)
	m.seen.results, m.seen.merged = m.seen.checked, true
	if m.wires.sums != nil {
		m.seen.results = check.WithCables(m.seen.checked, m.wires.sums.wiring, m.wires.sums.power)
	}
	m.seen.faulty, m.seen.grid = nil, nil
	for _, r := range m.seen.results {
		bad := map[string]bool{}
		for _, f := range r.Findings {
			if f.Level == check.Fault {
				for _, id := range f.Units {
					bad[id] = true
				}
			}
		}
		m.seen.faulty = append(m.seen.faulty, bad)
	}
	m.keepCulprit(was)
	return &m.seen
}

// verdicts is what was found wrong with a plan, but for its cables.
type verdicts struct {
	power    *power.Result // nil while the editor is being left
	fastener *mount.Result // that it was checked with
	results  []check.Result
}

// keptChecks is how many plans' findings are kept, at some 30 kB each.
const keptChecks = 32

// check finds what is wrong with the plan, unless that is known.
func (m *Model) check(p *layout.Plan) {
	s, f := &m.seen, m.bedding.result
	if s.plan == p && s.checked != nil {
		return
	}
	c, known := m.checks.get(p)
	if !known || c.power == nil {
		c.power, _ = power.Map(m.ctx, p)
	}
	if !known || c.fastener != f {
		c.fastener, c.results = f, check.AllOn(p, c.power, f)
		m.checks.put(p, c)
	}
	s.plan, s.checked, s.power = p, c.results, c.power
}

// keepCulprit stays with the finding that was gone to last, wherever it is now
// among the others.
func (m *Model) keepCulprit(was []check.Finding) {
	now := m.found()
	if m.culprit >= 0 && m.culprit < len(was) {
		w := &was[m.culprit]
		i := slices.IndexFunc(now, func(f check.Finding) bool { return f.Code == w.Code && slices.Equal(f.Units, w.Units) })
		if i >= 0 {
			m.culprit = i
			return
		}
	}
	m.culprit = min(m.culprit, len(now)-1)
}

// found returns the findings of the line-up on screen.
func (m *Model) found() []check.Finding {
	if m.lineup >= len(m.seen.results) {
		return nil
	}
	return m.seen.results[m.lineup].Findings
}

// around returns what lies next to a unit in each direction.
func (m *Model) around(u *layout.Unit) [4]*edit.Contact {
	a := &m.seen.around
	if p, l := m.plan(), m.lineupNow(); a.plan != p || a.lineup != l.Name || a.unit != u.ID {
		*a = around{p, l.Name, u.ID, edit.Around(p, l, u)}
	}
	return a.all
}

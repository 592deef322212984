package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/wiring"
)

const (
	layingRuns = "laying the cables"
	summing    = "making up the kit and the power map"
)

// rest is how long a plan stays as it is before all of its line-ups are wired:
// longer than between the presses of a key that is held down.
const rest = 120 * time.Millisecond

// runs is where the cables and leads of one line-up lie.
type runs struct {
	plan   *layout.Plan
	lineup string
	cables []wiring.Cable
	leads  []power.Lead
	noLead bool // leads were not asked for
}

func (r *runs) of(p *layout.Plan, lineup string) bool { return r.plan == p && r.lineup == lineup }

// layer lays the runs of one line-up again and again while its units move: only
// what a move touches is laid anew. It is for one goroutine at a time.
type layer struct {
	lineup        string
	cables, leads route.Router
}

// lay returns the runs of a line-up: cables first and leads around them, as in
// everything that is printed, so that screen and paper agree. Leads are left out
// where nobody sees them.
func (y *layer) lay(ctx context.Context, p *layout.Plan, l *layout.Lineup, leads bool) runs {
	if y.lineup != l.Name {
		*y = layer{lineup: l.Name}
	}
	r := runs{plan: p, lineup: l.Name, cables: wiring.Estimate(p, l)}
	if reqs := wiring.Requests(p, l); len(reqs) > 0 {
		wiring.Lay(r.cables, reqs, y.cables.Update(p, l, reqs), p.LengthUnit)
	}
	if r.noLead = !leads; r.noLead {
		return r
	}
	m, err := power.Map(ctx, p)
	if err != nil {
		return r
	}
	r.leads = leadsOf(m, l.Name)
	these := make([]*power.Lead, len(r.leads))
	for i := range r.leads {
		these[i] = &r.leads[i]
	}
	if reqs := power.Requests(p, l, these); len(reqs) > 0 {
		power.Lay(these, y.leads.Update(p, l, reqs, wiring.Settled(r.cables)...))
	}
	return r
}

// leadsOf returns the leads of one line-up, for the caller to change.
func leadsOf(m *power.Result, lineup string) []power.Lead {
	var out []power.Lead
	for _, d := range m.Of(lineup) {
		out = append(out, *d)
	}
	return out
}

// sums is the wiring and the power of a whole plan, all line-ups together, as
// the commands print them.
type sums struct {
	plan   *layout.Plan
	wiring *wiring.Result
	power  *power.Result
	seed   *layer // has laid the line-up that was on screen
}

// summer works out sums, or is a stand-in for tests.
type summer func(ctx context.Context, p *layout.Plan, lineup string) (*sums, error)

func sumUp(ctx context.Context, p *layout.Plan, lineup string) (*sums, error) {
	m, err := power.Map(ctx, p)
	if err != nil {
		return nil, err
	}
	s := &sums{plan: p, wiring: wiring.Wire(p), power: m, seed: &layer{}}
	m.Route(p, s.wiring.Settled)
	if l := p.LineupNamed(lineup); l != nil && ctx.Err() == nil {
		s.seed.lay(ctx, p, l, true)
	}
	return s, ctx.Err()
}

// wires is what is known of cables and leads. It comes in two steps, both in the
// background: the runs of the line-up on screen after every edit, and, once the
// plan stays as it is for a moment, the sums of the plan.
type wires struct {
	layer   *layer // nil while it lays
	now     runs
	sums    *sums
	summing bool
	chosen  string // ID of a cable or a lead of the line-up on screen
}

type (
	laidMsg struct {
		runs  runs
		layer *layer
	}
	restedMsg struct{ plan *layout.Plan }
	summedMsg struct {
		sums *sums
		err  error
	}
)

// follow starts to work out what is not known yet of the plan on screen. One
// step of a kind is under way at a time; when it is done, it is looked again.
func (m *Model) follow() tea.Cmd {
	w, p, l := &m.wires, m.plan(), m.lineupNow()
	if w.sums != nil && w.sums.plan == p || len(p.Lineups) == 0 {
		return nil
	}
	var todo []tea.Cmd
	if w.layer != nil && !w.now.of(p, l.Name) {
		y, leads := w.layer, m.show.leads || m.wires.chosen != ""
		w.layer = nil
		todo = append(todo, m.guarded(layingRuns, func() tea.Msg { return laidMsg{y.lay(m.ctx, p, l, leads), y} }))
	}
	if !w.summing {
		w.summing = true
		if w.sums == nil || m.opt.rest == 0 {
			todo = append(todo, m.sum())
		} else {
			todo = append(todo, m.waitForRest())
		}
	}
	return tea.Batch(todo...)
}

func (m *Model) waitForRest() tea.Cmd {
	p := m.plan()
	return tea.Tick(m.opt.rest, func(time.Time) tea.Msg { return restedMsg{p} })
}

// rested sums the plan up if it is still the same.
func (m *Model) rested(msg restedMsg) tea.Cmd {
	if msg.plan != m.plan() {
		return m.waitForRest()
	}
	return m.sum()
}

func (m *Model) sum() tea.Cmd {
	p, lineup, work := m.plan(), m.lineupNow().Name, m.opt.sum
	return m.guarded(summing, func() tea.Msg {
		s, err := work(m.ctx, p, lineup)
		return summedMsg{s, err}
	})
}

func (m *Model) laid(msg laidMsg) { m.wires.now, m.wires.layer = msg.runs, msg.layer }

// summed takes the sums. What is laid from now on starts from them.
func (m *Model) summed(msg summedMsg) {
	w := &m.wires
	w.summing = false
	if msg.err != nil {
		return // the editor is being left
	}
	w.sums = msg.sums
	m.seen.merged = false
	if w.layer != nil && w.sums.plan == m.plan() && w.sums.seed != nil {
		w.layer, w.now = w.sums.seed, runs{}
	}
}

// runs returns the cables and leads of the line-up on screen: as they are now,
// or as they were last while they are being laid.
func (m *Model) runs() runs {
	w, p, name := &m.wires, m.plan(), m.lineupNow().Name
	switch {
	case w.sums != nil && (w.sums.plan == p || w.now.lineup != name):
		return w.sums.runs(name)
	case w.now.lineup == name:
		return w.kitted()
	}
	return runs{}
}

// kitted is the runs of now with what is known only of the plan as it was last:
// the names of the kit, for the cables that are still the same links, and the
// leads where they were left out.
func (w *wires) kitted() runs {
	if w.sums == nil {
		return w.now
	}
	all := w.sums.runs(w.now.lineup)
	was := all.cables
	if w.now.noLead {
		w.now.leads = all.leads
	}
	for i := range w.now.cables {
		c := &w.now.cables[i]
		if i < len(was) && was[i].From == c.From && was[i].To == c.To {
			c.Kit = was[i].Kit
		}
	}
	return w.now
}

func (s *sums) runs(lineup string) runs {
	r := runs{plan: s.plan, lineup: lineup, leads: leadsOf(s.power, lineup)}
	if w := s.wiring.Of(lineup); w != nil {
		r.cables = w.Cables
	}
	return r
}

// kit returns the cable of the kit by its ID, nil where there is none.
func (s *sums) kit(id string) *wiring.KitCable {
	if s == nil {
		return nil
	}
	for i := range s.wiring.Kit {
		if s.wiring.Kit[i].ID == id {
			return &s.wiring.Kit[i]
		}
	}
	return nil
}

package tui

import (
	"context"
	"maps"
	"slices"
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

// layer is how the runs of one line-up lie. It lays them again and again while
// its units move: only what a move touches is laid anew.
type layer struct{ cables, leads route.Router }

// lay returns the runs of a line-up, and the layer that goes on from them; y stays
// as it is. Cables come first and leads around them, as in everything that is
// printed, so that screen and paper agree. Leads are left out without a power map.
func (y layer) lay(p *layout.Plan, l *layout.Lineup, m *power.Result) (runs, layer) {
	r := runs{plan: p, lineup: l.Name, cables: y.layCables(p, l)}
	if m != nil {
		r.leads = leadsOf(m, l.Name)
		these := make([]*power.Lead, len(r.leads))
		for i := range r.leads {
			these[i] = &r.leads[i]
		}
		y.layLeads(p, l, these, r.cables)
	}
	return r, y
}

func (y *layer) layCables(p *layout.Plan, l *layout.Lineup) []wiring.Cable {
	cables := wiring.Estimate(p, l)
	if reqs := wiring.Requests(p, l); len(reqs) > 0 {
		wiring.Lay(cables, reqs, y.cables.Update(p, l, reqs), p.LengthUnit)
	}
	return cables
}

func (y *layer) layLeads(p *layout.Plan, l *layout.Lineup, leads []*power.Lead, around []wiring.Cable) {
	if reqs := power.Requests(p, l, leads); len(reqs) > 0 {
		power.Lay(leads, y.leads.Update(p, l, reqs, wiring.Settled(around)...))
	}
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
	layers map[string]layer // of each line-up, from which its runs are laid on
}

// summer works out sums, or is a stand-in for tests.
type summer func(ctx context.Context, p *layout.Plan) (*sums, error)

// sumUp lays the runs of every line-up afresh.
func sumUp(ctx context.Context, p *layout.Plan) (*sums, error) {
	m, err := power.Map(ctx, p)
	if err != nil {
		return nil, err
	}
	s := &sums{plan: p, power: m, layers: make(map[string]layer, len(p.Lineups))}
	s.wiring = wiring.WireWith(p, func(l *layout.Lineup) []wiring.Cable {
		if ctx.Err() != nil {
			return nil
		}
		var y layer
		cables := y.layCables(p, l)
		y.layLeads(p, l, m.Of(l.Name), cables)
		s.layers[l.Name] = y
		return cables
	})
	m.Laid(p)
	return s, ctx.Err()
}

// wires is what is known of cables and leads. It comes in two steps, both in the
// background: the runs of the line-up on screen after every edit, and, once the
// plan stays as it is for a moment, the sums of the plan. What is known of a plan
// that comes back is taken as it was.
type wires struct {
	layers  map[string]layer // by line-up, as they were laid last
	laying  bool
	now     runs
	sums    *sums
	summing bool
	broken  *layout.Plan // that the program met a fault with
	chosen  string       // ID of a cable or a lead of the line-up on screen

	known  recent[boardNow, laidMsg]
	summed recent[*layout.Plan, *sums]
}

// How much is kept of plans that may come back. Runs of a line-up are some 15 kB,
// sums ten times that.
const (
	keptRuns = 64
	keptSums = 8
)

func noWires() wires {
	return wires{layers: map[string]layer{}, known: recent[boardNow, laidMsg]{most: keptRuns}, summed: recent[*layout.Plan, *sums]{most: keptSums}}
}

// boardNow is a plan as it stands in one of its line-ups.
type boardNow struct {
	plan   *layout.Plan
	lineup string
}

type (
	laidMsg struct {
		runs  runs
		layer layer
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
	w, p := &m.wires, m.plan()
	if len(p.Lineups) == 0 {
		return nil
	}
	m.recall()
	if w.sums != nil && w.sums.plan == p || w.broken == p {
		return nil
	}
	var todo []tea.Cmd
	if !w.laying && !m.knowsRuns() {
		w.laying = true
		todo = append(todo, m.lay())
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

// recall takes what is known of the plan on screen from an earlier time.
func (m *Model) recall() {
	w, p := &m.wires, m.plan()
	if w.sums != nil && w.sums.plan == p {
		return
	}
	if s, ok := w.summed.get(p); ok {
		m.takeSums(s)
		return
	}
	if m.knowsRuns() {
		return
	}
	if was, ok := w.known.get(boardNow{p, m.lineupNow().Name}); ok && !(was.runs.noLead && m.wantsLeads()) {
		m.takeRuns(was)
	}
}

// knowsRuns reports whether the runs of now are those of the line-up on screen,
// with leads if somebody sees them.
func (m *Model) knowsRuns() bool {
	now := &m.wires.now
	return now.of(m.plan(), m.lineupNow().Name) && !(now.noLead && m.wantsLeads())
}

func (m *Model) wantsLeads() bool { return m.show.leads || m.wires.chosen != "" }

func (m *Model) lay() tea.Cmd {
	p, l := m.plan(), m.lineupNow()
	y, leads := m.wires.layers[l.Name], m.wantsLeads()
	var outputs *power.Result
	if leads {
		outputs = m.look().power
	}
	return m.guarded(layingRuns, func() tea.Msg {
		r, y := y.lay(p, l, outputs)
		r.noLead = !leads
		return laidMsg{r, y}
	})
}

func (m *Model) waitForRest() tea.Cmd {
	p := m.plan()
	return tea.Tick(m.opt.rest, func(time.Time) tea.Msg { return restedMsg{p} })
}

// rested sums the plan up if it is still the same.
func (m *Model) rested(msg restedMsg) tea.Cmd {
	p := m.plan()
	switch {
	case m.wires.sums != nil && m.wires.sums.plan == p:
		m.wires.summing = false // it came back meanwhile
		return nil
	case msg.plan != p:
		return m.waitForRest()
	}
	return m.sum()
}

func (m *Model) sum() tea.Cmd {
	ctx, p, work := m.ctx, m.plan(), m.opt.sum
	return m.guarded(summing, func() tea.Msg {
		s, err := work(ctx, p)
		return summedMsg{s, err}
	})
}

// laid takes runs that were laid, unless those on screen are known by now.
func (m *Model) laid(msg laidMsg) {
	w := &m.wires
	w.laying = false
	w.known.put(boardNow{msg.runs.plan, msg.runs.lineup}, msg)
	if !m.knowsRuns() {
		m.takeRuns(msg)
	}
}

// takeRuns makes runs those of now; the next are laid on from them.
func (m *Model) takeRuns(msg laidMsg) {
	w := &m.wires
	w.now = msg.runs
	w.now.cables = slices.Clone(w.now.cables)
	w.layers[w.now.lineup] = msg.layer
	w.fillIn()
}

// fillIn gives the runs of now what is known only of the plan as it was last: the
// names of the kit, for the cables that are still the same links, and the leads
// where they were left out.
func (w *wires) fillIn() {
	if w.sums == nil {
		return
	}
	all := w.sums.runs(w.now.lineup)
	if w.now.noLead {
		w.now.leads = all.leads
	}
	for i := range w.now.cables {
		c := &w.now.cables[i]
		if i < len(all.cables) && all.cables[i].From == c.From && all.cables[i].To == c.To {
			c.Kit = all.cables[i].Kit
		}
	}
}

// summed takes the sums, unless those of the plan on screen are known by now.
func (m *Model) summed(msg summedMsg) {
	w := &m.wires
	w.summing = false
	if msg.err != nil {
		return // the editor is being left
	}
	w.summed.put(msg.sums.plan, msg.sums)
	if w.sums == nil || w.sums.plan != m.plan() {
		m.takeSums(msg.sums)
	}
}

// takeSums makes sums those that are shown. If they are of the plan on screen,
// what is laid from now on starts from them.
func (m *Model) takeSums(s *sums) {
	w := &m.wires
	w.sums = s
	m.seen.merged = false
	if s.plan == m.plan() && s.layers != nil {
		w.layers, w.now = maps.Clone(s.layers), runs{}
	}
	w.fillIn()
}

// runs returns the cables and leads of the line-up on screen: as they are now,
// or as they were last while they are being laid.
func (m *Model) runs() runs {
	w, p, name := &m.wires, m.plan(), m.lineupNow().Name
	switch {
	case w.sums != nil && (w.sums.plan == p || w.now.lineup != name):
		return w.sums.runs(name)
	case w.now.lineup == name:
		return w.now
	}
	return runs{}
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

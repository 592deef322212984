package tui

import (
	"context"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/check"
	"footplank/pack"
	"footplank/tui/edit"
)

const arranging = "arranging"

// arranger is arrange.Arrange, or a stand-in for tests.
type arranger func(ctx context.Context, p *layout.Plan, opt arrange.Options) (arrange.Result, error)

// job is an arrangement that is being sought.
type job struct {
	id     int
	base   *layout.Plan // the plan as it was at the start
	cancel context.CancelFunc
	news   chan arrange.Progress // the latest only
	best   *layout.Plan
	last   arrange.Progress
	own    bool // nobody asked for it: its result is nothing to be saved
}

// offer is an arrangement that is only taken if the player says so, because
// the plan was edited since it was asked for.
type offer struct{ plan *layout.Plan }

// Why something cannot be done as long as there is an offer, or a job.
const (
	offerWaits = "enter takes this arrangement, esc drops it"
	jobGoesOn  = "arranging is going on: enter takes the best so far, esc stops it"
)

type progressMsg struct {
	id   int
	last arrange.Progress
}

type arrangedMsg struct {
	id  int
	res arrange.Result
	err error
}

// arrange starts to look for an arrangement, in the background.
func (m *Model) arrange() tea.Cmd {
	m.held = 0
	m.jobs++
	ctx, cancel := context.WithTimeout(m.ctx, m.opt.seconds())
	j := &job{id: m.jobs, base: m.history.Plan(), cancel: cancel, news: make(chan arrange.Progress, 1)}
	m.job = j
	work := m.opt.arrange
	seek := func() tea.Msg {
		defer close(j.news)
		defer cancel()
		res, err := work(ctx, j.base, arrange.Options{Seed: 1, Progress: j.tell})
		return arrangedMsg{j.id, res, err}
	}
	return tea.Batch(m.guarded(arranging, seek), j.listen())
}

// tell passes progress on without ever waiting: what the screen has not taken
// yet is replaced.
func (j *job) tell(p arrange.Progress) {
	for {
		select {
		case j.news <- p:
			return
		default:
		}
		select {
		case <-j.news:
		default:
		}
	}
}

// listen waits for progress.
func (j *job) listen() tea.Cmd {
	return func() tea.Msg {
		p, ok := <-j.news
		if !ok {
			return nil
		}
		return progressMsg{j.id, p}
	}
}

// progressed takes news of the job.
func (m *Model) progressed(msg progressMsg) tea.Cmd {
	if m.job == nil || m.job.id != msg.id {
		return nil
	}
	m.job.last = msg.last
	if msg.last.Plan != nil {
		m.job.best = msg.last.Plan
	}
	return m.job.listen()
}

// stop ends the job, if there is one.
func (m *Model) stop() {
	if m.job != nil {
		m.job.cancel()
		m.job = nil
	}
}

// arranged takes the job's answer.
func (m *Model) arranged(msg arrangedMsg) {
	if m.job == nil || m.job.id != msg.id {
		return // stopped, or of an earlier job
	}
	base, own := m.job.base, m.job.own
	m.stop()
	switch {
	case msg.err != nil:
		m.say(check.Fault, "Not arranged: "+clean(msg.err.Error())+".")
	case msg.res.Verdict == pack.Fits && m.history.Plan() == base:
		m.take(msg.res.Plan)
		if own {
			m.history.Saved(m.history.Plan())
			m.say("", "This is the built-in example, arranged just now. Try things; s saves it as a plan of your own. ? shows every key.")
		}
	case msg.res.Verdict == pack.Fits:
		m.held = 0
		m.offer = &offer{msg.res.Plan}
	case msg.res.Verdict == pack.Impossible:
		m.impossible(msg.res)
	default:
		m.say(check.Caution, "Undecided: no arrangement found in the time, and none ruled out. a looks again; pinning less helps.")
	}
}

// take makes the places of an arrangement an edit.
func (m *Model) take(found *layout.Plan) {
	was, whole := arrange.Cable(m.history.Plan()), allPlaced(m.history.Plan())
	changed := m.history.Do(edit.Step{What: "arrange"}, func(p *layout.Plan) { edit.TakePlaces(p, found) })
	if !changed {
		m.say("", "Arranged: everything stays where it is.")
		return
	}
	text := "Arranged: every line-up fits. Cables of all together " + m.cable(arrange.Cable(m.history.Plan()))
	if whole {
		text += ", before " + m.cable(was)
	}
	m.say("", text+". u takes it back.")
}

func allPlaced(p *layout.Plan) bool {
	for i := range p.Lineups {
		if _, none := p.Standings(&p.Lineups[i]); len(none) > 0 {
			return false
		}
	}
	return true
}

// takeBest is the enter key while an arrangement is sought or offered.
func (m *Model) takeBest() tea.Cmd {
	switch {
	case m.offer != nil:
		found := m.offer.plan
		m.offer = nil
		m.take(found)
	case m.job.best == nil:
		m.say("", "Nothing found yet; esc stops looking.")
	default:
		found := m.job.best
		m.stop()
		m.take(found)
	}
	return nil
}

// takeOwn takes the best arrangement of the built-in example that is on screen
// already. Nobody asked for it, so whoever begins to move a unit means the
// board as it is shown.
func (m *Model) takeOwn() {
	if m.job == nil || !m.job.own || m.job.best == nil {
		return
	}
	found := m.job.best
	m.stop()
	m.take(found)
	m.history.Saved(m.history.Plan())
}

// impossible shows the proof's reason and selects the first unit in it.
func (m *Model) impossible(res arrange.Result) {
	if len(res.Units) > 0 {
		m.selectUnit(res.Units[0])
		if m.unit() == nil {
			m.selected = ""
		}
	}
	lines := []string{sentence(clean(res.Why)), ""}
	var alone []string
	for i := range m.history.Plan().Lineups {
		name := m.history.Plan().Lineups[i].Name
		if v, ok := res.Alone[name]; ok {
			alone = append(alone, clean(name)+": "+verdictWord(v))
		}
	}
	if len(alone) > 0 {
		lines = append(lines, "Each line-up by itself: "+strings.Join(alone, ", ")+".", "")
	}
	lines = append(lines, "This is a proof, with the pins, slots, turns and plugs as the plan has them. What can help: "+
		strings.Join(m.remedies(), ", ")+".")
	m.open(page{title: "Not everything fits", text: lines})
}

// remedies are what can make room on a board where not everything fits.
func (m *Model) remedies() []string {
	p := m.history.Plan()
	var out []string
	if slices.ContainsFunc(p.Units, func(u layout.Unit) bool { return u.Pinned }) {
		out = append(out, "unpin (p)")
	}
	if len(p.Board.Risers) > 0 {
		out = append(out, "a riser that is smaller, higher or elsewhere")
	}
	return append(out, "allow more turns or surfaces", "flatter plugs", "fewer units", "a larger board")
}

func verdictWord(v pack.Verdict) string {
	switch v {
	case pack.Fits:
		return "fits"
	case pack.Impossible:
		return "does not fit"
	}
	return "undecided"
}

// seconds is how long arranging goes on.
func (o Options) seconds() time.Duration {
	if o.ArrangeFor > 0 {
		return o.ArrangeFor
	}
	return 15 * time.Second
}

package tui

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/tryout"
	"footplank/tui/edit"
)

const (
	tryingUnit     = "trying a unit"
	preparingTrial = "making ready to try units"
)

// bench answers questions about one plan; a tryout.Bench, or a stand-in for
// tests.
type bench interface {
	Plan() *layout.Plan
	Try(ctx context.Context, q tryout.Question) (*tryout.Answer, error)
}

// trial is units being tried in a slot. Nothing of the plan changes until one is
// taken: what is on screen meanwhile is the plan of the chosen one's answer.
//
// One question is asked at a time, of the chosen candidate first. A question that
// is not wanted any more is stopped, and the next asked once it has ended.
type trial struct {
	base   *layout.Plan // the plan that it is about
	before string       // unit selected before

	slot, instead string
	every         bool // in every line-up, not only in the one on screen
	lineup        string
	list          []try
	shown         []int // of list, those that match what is typed
	chosen        int   // of shown
	typed         string

	ready     prepared
	failed    string // why nothing can be tried
	preparing bool   // the plan is being made ready for questions

	asked   string // key of the question under way, "" for none
	cancel  context.CancelFunc
	news    *news
	step    string // what was proved last of it
	all     bool   // go on with all that is shown
	halted  bool   // by the player, until another one is chosen
	seconds time.Duration

	answers map[string]*tryout.Answer
	was     map[string][]earlier // answers about the plan as it was before, the latest first
	wrong   map[string]string    // why a question makes no sense
}

// try is a candidate of the list.
type try struct {
	tryout.Candidate
	label, words, also string // also: words that it is found by, not shown
	shelf              bool
}

// same reports whether two are one candidate, wherever each is in a list.
func (x *try) same(y *try) bool { return x.Kind == y.Kind && x.Name == y.Name }

type (
	readyMsg struct {
		base  *layout.Plan
		ready prepared
		err   error
	}
	triedMsg struct {
		base    *layout.Plan
		key     string
		answer  *tryout.Answer
		err     error
		stopped bool
	}
	provedMsg struct {
		key, step string
		heard     chan string
	}
)

// onTrial reports whether units are being tried on screen.
func (m *Model) onTrial() bool {
	return m.trial != nil && (m.mode == trying || m.mode == sifting || m.mode == reading && m.page.back == trying)
}

// startTrying begins with the slot of the chosen unit, and that unit as the one to
// be replaced; else with the plan's first slot.
func (m *Model) startTrying() tea.Cmd {
	m.takeOwn()
	p := m.history.Plan()
	slot, instead := p.Slots[0].Name, ""
	if u := m.unit(); u != nil {
		if s := p.SlotOf(m.edited(), u.ID); s != nil {
			slot, instead = s.Name, u.ID
		}
	}
	if t := m.trial; t == nil || t.base != p {
		m.trial = t.about(p)
	}
	t := m.trial
	t.before, t.slot, t.instead, t.halted, t.all = m.selected, slot, instead, false, false
	m.mode, m.held = trying, 0
	m.listTries()
	return nil
}

// listTries makes the list of candidates for the question as it is now: the shelf,
// the other units of the board, the catalog.
func (m *Model) listTries() {
	t, p := m.trial, m.trial.base
	var was try
	if c := t.candidate(); c != nil {
		was = *c
	}
	sizes := slices.DeleteFunc(t.list, func(x try) bool { return x.Kind != tryout.OfSize })
	t.list, t.lineup = nil, m.edited().Name
	l := m.edited()
	var onBoard []try
	for i := range p.Units {
		u := &p.Units[i]
		if slices.Contains(l.Fill[t.slot], u.ID) || u.ID == t.instead || len(u.Outputs) > 0 || u.Jack("in") == nil && u.Jack("out") == nil {
			continue
		}
		c, err := tryout.FromPlan(p, u.ID)
		if err != nil {
			continue
		}
		x := try{Candidate: c, label: clean(u.Label), words: u.ID + " " + u.Form, shelf: true}
		if p.Present(l, u.ID) {
			x.shelf = false
			onBoard = append(onBoard, x)
			continue
		}
		t.list = append(t.list, x)
	}
	t.list = append(t.list, onBoard...)
	forms := m.forms()
	for _, c := range tryout.FromCatalog(forms) {
		x := try{Candidate: c, label: c.Name}
		if f, ok := forms.Unit(c.Name); ok {
			x.words, x.also = f.Summary, catalog.WordsFor(f.Name)
		}
		t.list = append(t.list, x)
	}
	t.list = append(t.list, sizes...)
	m.sift()
	for i, k := range t.shown {
		if t.list[k].same(&was) {
			t.chosen = i
		}
	}
}

// sift leaves on screen what matches what is typed: all its words, in names and
// summaries. Sizes that are typed can be tried as well, and stay once they were.
func (m *Model) sift() {
	t := m.trial
	t.shown, t.chosen = nil, 0
	t.list = slices.DeleteFunc(t.list, func(x try) bool { return x.Kind == tryout.OfSize && !t.knows(&x) })
	if strings.ContainsAny(t.typed, "xX") {
		if c, err := tryout.FromSize(m.forms(), strings.TrimSpace(t.typed), "compact", t.base.LengthUnit); err == nil {
			x := try{Candidate: c, label: strings.TrimSpace(t.typed), words: t.typed}
			if !slices.ContainsFunc(t.list, func(y try) bool { return y.same(&x) }) {
				t.list = append(t.list, x)
			}
		}
	}
	for i := range t.list {
		if wordsIn(t.typed, t.list[i].label+" "+t.list[i].words+" "+t.list[i].also) {
			t.shown = append(t.shown, i)
		}
	}
}

// candidate returns the chosen one, or nil.
func (t *trial) candidate() *try {
	if t.chosen < 0 || t.chosen >= len(t.shown) {
		return nil
	}
	return &t.list[t.shown[t.chosen]]
}

// question is that of a candidate. A unit that is on the board for good can only
// be tried in all line-ups at once.
func (t *trial) question(c *try) tryout.Question {
	q := tryout.Question{Candidate: c.Candidate, Slot: t.slot, InsteadOf: t.instead, Lineups: []string{t.lineup}}
	if t.every || c.Kind == tryout.OfPlan && !t.base.InSlots(c.Name) {
		q.Lineups = nil
	}
	return q
}

// key tells questions apart.
func (t *trial) key(c *try) string {
	q := t.question(c)
	return strings.Join(append([]string{c.Kind, c.Name, q.Slot, q.InsteadOf}, q.Lineups...), "\x00")
}

// answer is that of the chosen candidate, nil as long as there is none.
func (t *trial) answer() *tryout.Answer {
	if c := t.candidate(); c != nil {
		return t.answers[t.key(c)]
	}
	return nil
}

// plan is what the screen shows: the chosen one in its place if it fits, else the
// plan that questions are asked about.
func (t *trial) plan() *layout.Plan {
	if a := t.answer(); a != nil && a.Plan != nil {
		return a.Plan
	}
	return t.asks()
}

// asks is the plan that questions are asked about, or will be.
func (t *trial) asks() *layout.Plan {
	if t.ready.bench != nil {
		return t.ready.bench.Plan()
	}
	return t.base
}

// takeTried makes the plan of the answer the plan, as one edit.
func (m *Model) takeTried() tea.Cmd {
	t, a, c := m.trial, m.trial.answer(), m.trial.candidate()
	step := edit.Step{What: "put " + c.label + " into slot " + clean(t.slot), Unit: a.Unit, Lineup: t.lineup}
	if t.instead != "" {
		step.What += " instead of " + clean(t.base.Unit(t.instead).Label)
	}
	found := a.Plan
	m.mode = onBoard
	m.history.Do(step, func(p *layout.Plan) { *p = *found.Clone() })
	m.selected = a.Unit
	if m.unit() == nil {
		m.selected = ""
	}
	text := sentence(step.What)
	if !a.Works() {
		text += " It lacks its power or a way for a cable: see the findings."
	}
	m.say("", text+" u takes it back.")
	return nil
}

// leaveTrial drops what is tried; nothing has changed.
func (m *Model) leaveTrial() tea.Cmd {
	m.trial.halt()
	m.mode, m.selected = onBoard, m.trial.before
	if m.unit() == nil {
		m.selected = ""
	}
	m.say("", "Nothing was changed. y shows again what was tried.")
	return nil
}

// trySeconds is how long one candidate is tried.
func (o Options) trySeconds() time.Duration { return cmp.Or(o.TryFor, 10*time.Second) }

package tui

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
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

// preparer makes a bench of a plan and says what had to be done first.
type preparer func(ctx context.Context, p *layout.Plan, tell func(tryout.Answer)) (bench, string, error)

func prepareBench(ctx context.Context, p *layout.Plan, tell func(tryout.Answer)) (bench, string, error) {
	b, err := tryout.Prepare(ctx, p, tryout.Options{Seed: 1, Progress: tell})
	if err != nil {
		return nil, "", err
	}
	return b, b.Arranged, nil
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

	bench   bench
	failed  string // why nothing can be tried
	readies bool   // being made ready

	asked   string // key of the question under way, "" for none
	cancel  context.CancelFunc
	news    *news
	step    string // what was proved last of it
	all     bool   // go on with all that is shown
	halted  bool   // by the player, until another one is chosen
	seconds time.Duration

	answers map[string]*tryout.Answer
	wrong   map[string]string // why a question makes no sense
}

// try is a candidate of the list.
type try struct {
	tryout.Candidate
	label, words string
	shelf        bool
}

type (
	readyMsg struct {
		base  *layout.Plan
		bench bench
		told  string
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
		if t != nil {
			t.halt()
		}
		m.trial = &trial{base: p, answers: map[string]*tryout.Answer{}, wrong: map[string]string{}}
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
	was := ""
	if c := t.candidate(); c != nil {
		was = c.Kind + c.Name
	}
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
			x.words = f.Summary
		}
		t.list = append(t.list, x)
	}
	m.sift()
	for i, k := range t.shown {
		if c := &t.list[k]; c.Kind+c.Name == was {
			t.chosen = i
		}
	}
}

// sift leaves on screen what matches what is typed: all its words, in names and
// summaries. Sizes that are typed can be tried as well, and stay once they were.
func (m *Model) sift() {
	t := m.trial
	t.shown, t.chosen = nil, 0
	t.list = slices.DeleteFunc(t.list, func(x try) bool { return x.Kind == tryout.OfSize && t.answers[t.key(&x)] == nil })
	if strings.ContainsAny(t.typed, "xX") {
		if c, err := tryout.FromSize(m.forms(), strings.TrimSpace(t.typed), "compact", t.base.LengthUnit); err == nil {
			x := try{Candidate: c, label: strings.TrimSpace(t.typed), words: t.typed}
			if !slices.ContainsFunc(t.list, func(y try) bool { return y.Kind == x.Kind && y.Name == x.Name }) {
				t.list = append(t.list, x)
			}
		}
	}
	for i := range t.list {
		if wordsIn(t.typed, t.list[i].label+" "+t.list[i].words) {
			t.shown = append(t.shown, i)
		}
	}
}

// wordsIn reports whether all words of what is typed are in the text.
func wordsIn(typed, text string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(typed)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
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
	if t.bench != nil {
		return t.bench.Plan()
	}
	return t.base
}

// next is the candidate to try now, nil for none.
func (t *trial) next() *try {
	c := t.candidate()
	if c == nil || t.halted {
		return nil
	}
	open := func(c *try) bool {
		k := t.key(c)
		_, wrong := t.wrong[k]
		return t.answers[k] == nil && !wrong
	}
	if open(c) {
		return c
	}
	if t.all {
		for i := range t.shown {
			if c := &t.list[t.shown[(t.chosen+i)%len(t.shown)]]; open(c) {
				return c
			}
		}
		t.all = false
	}
	return nil
}

// followTrial asks what is wanted to be known now, and stops what is not.
func (m *Model) followTrial() tea.Cmd {
	t := m.trial
	if t == nil {
		return nil
	}
	if !m.onTrial() {
		t.halt()
		return nil
	}
	if t.base != m.history.Plan() {
		m.say(check.Caution, "The plan has changed meanwhile: y tries units with it as it is now.")
		m.mode = onBoard
		return nil
	}
	if m.lineupNow().Name != t.lineup {
		m.listTries() // what is on the shelf depends on it
	}
	m.selectTried()
	switch {
	case t.failed != "" || t.readies:
		return nil
	case t.bench == nil:
		return m.ready()
	}
	c := t.next()
	switch {
	case t.asked != "" && (c == nil || t.key(c) != t.asked && c == t.candidate()):
		t.cancel()
		return nil
	case t.asked != "" || c == nil:
		return nil
	}
	return m.tryNow(c)
}

// selectTried selects the tried unit on the board, as long as it is on it.
func (m *Model) selectTried() {
	t := m.trial
	m.wires.chosen = ""
	m.selected = t.instead
	if a := t.answer(); a != nil && a.Plan != nil {
		m.selected = a.Unit
	}
	if m.unit() == nil {
		m.selected = ""
	}
}

// halt stops what is under way; what is known stays.
func (t *trial) halt() {
	if t.cancel != nil {
		t.cancel()
	}
}

// ready makes the plan ready for questions.
func (m *Model) ready() tea.Cmd {
	t := m.trial
	t.readies = true
	t.news = &news{}
	ctx, cancel := context.WithCancel(m.ctx)
	t.cancel = cancel
	work, base, news := m.opt.prepare, t.base, t.news
	return m.guarded(preparingTrial, func() tea.Msg {
		b, told, err := work(ctx, base, news.tell)
		if ctx.Err() != nil {
			b = nil // of a plan that may be half arranged
		}
		return readyMsg{base, b, told, err}
	})
}

// news passes on what was proved last of the question under way, without ever
// waiting for who listens.
type news struct {
	mu sync.Mutex
	to chan string // nil while there is no question
}

func (n *news) open() chan string {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.to = make(chan string, 1)
	return n.to
}

func (n *news) close() {
	n.mu.Lock()
	defer n.mu.Unlock()
	close(n.to)
	n.to = nil
}

func (n *news) tell(a tryout.Answer) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.to == nil || len(a.Steps) == 0 {
		return
	}
	select {
	case <-n.to: // not heard yet: it is old now
	default:
	}
	n.to <- a.Steps[len(a.Steps)-1]
}

func (m *Model) readied(msg readyMsg) {
	t := m.trial
	if t == nil || t.base != msg.base {
		return
	}
	t.readies, t.cancel = false, nil
	if msg.err != nil {
		t.failed = clean(msg.err.Error())
		return
	}
	if t.bench = msg.bench; t.bench != nil && msg.told != "" {
		m.say(check.Caution, clean(msg.told))
	}
}

// tryNow asks about a candidate, in the background.
func (m *Model) tryNow(c *try) tea.Cmd {
	t := m.trial
	q, key := t.question(c), t.key(c)
	ctx, cancel := context.WithTimeout(m.ctx, cmp.Or(t.seconds, m.opt.trySeconds()))
	t.asked, t.cancel, t.step, t.seconds = key, cancel, "", 0
	bench, base, told, heard := t.bench, t.base, t.news, t.news.open()
	ask := func() tea.Msg {
		defer told.close()
		defer cancel()
		a, err := bench.Try(ctx, q)
		return triedMsg{base, key, a, err, ctx.Err() == context.Canceled}
	}
	return tea.Batch(m.guarded(tryingUnit, ask), hear(key, heard))
}

// hear waits for what is proved about a question.
func hear(key string, heard chan string) tea.Cmd {
	return func() tea.Msg {
		step, ok := <-heard
		if !ok {
			return nil
		}
		return provedMsg{key, step, heard}
	}
}

func (m *Model) proved(msg provedMsg) tea.Cmd {
	if t := m.trial; t != nil && t.asked == msg.key {
		t.step = msg.step
	}
	return hear(msg.key, msg.heard)
}

// tried takes an answer. One that was stopped is kept only if it is decided.
func (m *Model) tried(msg triedMsg) {
	t := m.trial
	if t == nil || t.base != msg.base {
		return
	}
	if t.asked == msg.key {
		t.asked, t.cancel = "", nil
	}
	switch {
	case msg.err != nil && !msg.stopped:
		t.wrong[msg.key] = clean(msg.err.Error())
	case msg.answer == nil || msg.stopped && msg.answer.Verdict == tryout.Undecided:
	case msg.stopped && msg.answer.Verdict == tryout.Moves && !msg.answer.Proved:
	default:
		t.answers[msg.key] = msg.answer
	}
}

// stopTrying is the stop key; pressed again it goes on, and what was left
// undecided is given more time.
func (m *Model) stopTrying() tea.Cmd {
	t := m.trial
	if t.asked != "" || t.all {
		t.halted, t.all = true, false
		m.say("", "Stopped. What is known stays; x goes on.")
		return nil
	}
	t.halted = false
	if c, a := t.candidate(), t.answer(); a != nil && !a.Proved && a.Verdict != tryout.Fits {
		delete(t.answers, t.key(c))
		t.seconds = 6 * m.opt.trySeconds()
	}
	return nil
}

// takeTried makes the plan of the answer the plan, as one edit.
func (m *Model) takeTried() tea.Cmd {
	t, a, c := m.trial, m.trial.answer(), m.trial.candidate()
	step := edit.Step{What: "put " + c.label + " into " + clean(t.slot), Unit: a.Unit, Lineup: t.lineup}
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

// trialBroke ends what was under way when the program met a fault.
func (m *Model) trialBroke(during, why string) {
	t := m.trial
	if t == nil {
		return
	}
	switch during {
	case preparingTrial:
		t.readies, t.failed = false, why
	case tryingUnit:
		t.wrong[t.asked], t.asked = why, ""
	}
}

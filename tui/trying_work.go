package tui

import (
	"cmp"
	"context"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout/check"
	"footplank/layout/tryout"
)

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
	for i := range t.list {
		if c := &t.list[i]; len(t.was[t.key(c)]) > 0 && open(c) {
			return c // known of the plan before: not of it as it is now
		}
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
	case t.failed != "" || t.preparing:
		return nil
	case t.ready.bench == nil || !t.ready.serves(t.wanted()):
		t.halt()
		if t.asked != "" {
			return nil // the bench is in use until then
		}
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
	t.preparing, t.ready, t.wrong = true, prepared{}, map[string]string{}
	t.news = &news{}
	ctx, cancel := context.WithCancel(m.ctx)
	t.cancel = cancel
	work, base, lineups, news := m.opt.prepare, t.base, t.wanted(), t.news
	return m.guarded(preparingTrial, func() tea.Msg {
		r, err := work(ctx, base, lineups, news.tell)
		if ctx.Err() != nil {
			r.bench = nil // of a plan that may be half arranged
		}
		return readyMsg{base, r, err}
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
	t.preparing, t.cancel = false, nil
	if msg.err != nil {
		t.failed = clean(msg.err.Error())
		return
	}
	if t.ready = msg.ready; t.ready.bench != nil && t.ready.told != "" {
		m.say(check.Caution, clean(t.ready.told))
	}
}

// tryNow asks about a candidate, in the background.
func (m *Model) tryNow(c *try) tea.Cmd {
	t := m.trial
	q, key := t.question(c), t.key(c)
	ctx, cancel := context.WithTimeout(m.ctx, cmp.Or(t.seconds, m.opt.trySeconds()))
	t.asked, t.cancel, t.step, t.seconds = key, cancel, "", 0
	bench, base, told, heard := t.ready.bench, t.base, t.news, t.news.open()
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
	if unsure(t.answer()) {
		delete(t.answers, t.key(t.candidate()))
		t.seconds = 6 * m.opt.trySeconds()
	}
	return nil
}

// unsure reports whether an answer, which may be nil, could be another one after a
// longer search.
func unsure(a *tryout.Answer) bool { return a != nil && !a.Proved && a.Verdict != tryout.Fits }

// trialBroke ends what was under way when the program met a fault.
func (m *Model) trialBroke(during, why string) {
	t := m.trial
	if t == nil {
		return
	}
	switch during {
	case preparingTrial:
		t.preparing, t.failed = false, why
	case tryingUnit:
		t.wrong[t.asked], t.asked = why, ""
	}
}

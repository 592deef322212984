package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/tui/edit"
	"footplank/tui/recovery"
)

// putByAfter is how long after an edit the plan is put by: what a crash takes at
// most. It is long enough not to write at every press of a key that is held.
const putByAfter = time.Second

const puttingBy = "putting the plan by"

// safe is what keeps plans beyond their file; see document.
type safe interface {
	PutBy(p *layout.Plan) error
	TakeUp(l recovery.Left) (*layout.Plan, error)
	Forget(l recovery.Left) error
	Reopen() (*layout.Plan, error)
}

// keeping is what the model knows of it.
type keeping struct {
	safe    safe         // nil where nothing is put by
	kept    *layout.Plan // put by last, or being put by
	waiting bool         // for an edit to be a moment old, or for the writing
	failed  bool         // to put by, and said so
}

type (
	putByMsg struct{} // it is time
	keptMsg  struct {
		plan *layout.Plan
		err  error
		stop bool // the editor has to go
	}
	// changedMsg tells that another program changed the file.
	changedMsg struct{}
	// stopMsg tells that the editor has to go at once: the terminal or the
	// machine is going.
	stopMsg struct{}
	// readMsg is a plan that was read on the player's wish.
	readMsg struct {
		plan   *layout.Plan
		what   string // the edit's name
		reread bool   // it is what the file holds
		err    error
	}
)

// putBy starts the wait for the next time to put the plan by, if it needs to be.
func (m *Model) putBy() tea.Cmd {
	k := &m.keep
	if k.safe == nil || k.waiting || !m.history.Dirty() || k.kept == m.history.Plan() {
		return nil
	}
	k.waiting = true
	return tea.Tick(m.opt.putByAfter, func(time.Time) tea.Msg { return putByMsg{} })
}

// putByNow writes the plan. stop says that the editor ends after that.
func (m *Model) putByNow(stop bool) tea.Cmd {
	k, p := &m.keep, m.history.Plan()
	if k.safe == nil || !m.history.Dirty() {
		k.waiting = false
		if stop {
			return func() tea.Msg { return keptMsg{stop: true} }
		}
		return nil
	}
	k.waiting, k.kept = true, p
	safe := k.safe
	return m.guarded(puttingBy, func() tea.Msg { return keptMsg{p, safe.PutBy(p), stop} })
}

func (m *Model) keptNow(msg keptMsg) tea.Cmd {
	k := &m.keep
	k.waiting = false
	if msg.stop {
		return m.leave()
	}
	switch {
	case msg.err == nil:
		k.failed = false
	case !k.failed:
		k.failed = true // once, not every second
		m.say(check.Fault, "What is on screen cannot be put by against a crash: "+clean(msg.err.Error())+". Save it.")
	}
	return nil
}

// fileChanged tells of a file that another program changed. It asks only where
// no other question stands and nothing is being typed.
func (m *Model) fileChanged() {
	told := clean(m.path) + " was changed by another program."
	if m.mode != onBoard || m.saving {
		m.say(check.Caution, told+" Saving will ask before it overwrites anything.")
		return
	}
	loses := ""
	if m.history.Dirty() {
		loses = "; undo brings back what is on screen"
	}
	m.ask(told, choice{"r", "read it anew" + loses, func(m *Model) tea.Cmd {
		safe := m.keep.safe
		return m.guarded("reading the file", func() tea.Msg {
			p, err := safe.Reopen()
			return readMsg{plan: p, what: "read the file anew", reread: true, err: err}
		})
	}}, choice{"k", "keep what is on screen; saving will ask", func(*Model) tea.Cmd { return nil }})
}

// offerLeft asks what to do with a plan that an earlier session left.
func (m *Model) offerLeft(l recovery.Left) {
	m.ask("An editor that ended unasked left changes that were not saved, from "+l.At.Local().Format("2 January, 15:04")+".",
		choice{"u", "take them up", func(m *Model) tea.Cmd {
			safe := m.keep.safe
			return m.guarded("taking up what was left", func() tea.Msg {
				p, err := safe.TakeUp(l)
				return readMsg{plan: p, what: "take up what was not saved", err: err}
			})
		}},
		choice{"d", "throw them away", func(m *Model) tea.Cmd {
			safe := m.keep.safe
			return m.guarded("throwing away what was left", func() tea.Msg { return keptMsg{err: safe.Forget(l)} })
		}})
}

// hasRead puts a plan on screen that was read on the player's wish.
func (m *Model) hasRead(msg readMsg) {
	if msg.err != nil {
		m.say(check.Fault, "Not read: "+clean(msg.err.Error())+". The plan on screen is untouched.")
		return
	}
	m.takeOwn()
	m.history.Put(edit.Step{Plan: msg.plan, What: msg.what})
	if msg.reread {
		m.history.Saved(m.history.Plan())
	}
	m.lineup = min(m.lineup, len(m.plan().Lineups)-1)
	m.say("", sentence(msg.what)+" Undo brings back what was on screen.")
}

// othersOf tells who else has the plan open.
func othersOf(others []recovery.About) string {
	if len(others) == 0 {
		return ""
	}
	o := others[0]
	return fmt.Sprintf("This plan is open in another editor too (process %d on %s, since %s). Saving there is noticed here, and the other way round.",
		o.PID, o.Host, o.At.Local().Format("2 January, 15:04"))
}

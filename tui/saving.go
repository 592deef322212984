package tui

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/plan"
)

const savingPlan = "saving"

// keeper keeps plans in a file. Its methods are only called one at a time, in
// commands.
type keeper interface {
	Save(p *layout.Plan) error
	SaveAs(p *layout.Plan, path string, overwrite bool) error
}

// savedMsg tells how saving ended.
type savedMsg struct {
	plan *layout.Plan
	path string
	err  error
}

// brokenMsg tells of a fault of the program in a command.
type brokenMsg struct {
	during string
	err    error
}

// guarded runs work in the background; a fault in it becomes a message instead
// of the end of the editor with all that is not saved.
func (m *Model) guarded(during string, work func() tea.Msg) tea.Cmd {
	busy := m.opt.busy
	return func() (msg tea.Msg) {
		busy.RLock()
		defer busy.RUnlock()
		defer func() {
			if r := recover(); r != nil {
				msg = brokenMsg{during, fmt.Errorf("%v\n%s", r, debug.Stack())}
			}
		}()
		return work()
	}
}

func (m *Model) broke(msg brokenMsg) {
	switch msg.during { // what would be tried again by itself waits for another plan
	case savingPlan:
		m.saving, m.quitAfter = false, false
	case puttingBy:
		m.keep.waiting = false
	case layingFastener:
		m.bedding.laying, m.bedding.plan = false, m.plan()
	case layingRuns:
		m.wires.laying, m.wires.broken = false, m.plan()
	case summing:
		m.wires.summing, m.wires.broken = false, m.plan()
	}
	if b := m.boards; b != nil && msg.during == tryingBoards {
		b.running, b.cancel, b.failed = false, nil, "a fault of this program"
	}
	if msg.during == writingSheet {
		m.writing = false
	}
	m.trialBroke(msg.during, "a fault of this program")
	if msg.during == makingPage {
		m.leaves = nil
		m.mode = onBoard // else it would be tried again and again
	}
	if m.job != nil && msg.during == arranging {
		m.stop()
	}
	first, _, _ := strings.Cut(msg.err.Error(), "\n")
	m.say(check.Fault, "A fault of this program while "+msg.during+": "+first+". The plan on screen is untouched; save it.")
}

func (m *Model) save() tea.Cmd {
	if m.path == "" {
		return m.startNaming()
	}
	p, path, file := m.history.Plan(), m.path, m.file
	m.saving = true
	return m.guarded(savingPlan, func() tea.Msg { return savedMsg{p, path, file.Save(p)} })
}

func (m *Model) saveAs(path string, overwrite bool) tea.Cmd {
	p, file := m.history.Plan(), m.file
	m.saving = true
	return m.guarded(savingPlan, func() tea.Msg { return savedMsg{p, path, file.SaveAs(p, path, overwrite)} })
}

// saved handles the end of saving.
func (m *Model) saved(msg savedMsg) tea.Cmd {
	m.saving = false
	leave := m.quitAfter
	m.quitAfter = false
	over := func(m *Model) tea.Cmd {
		m.quitAfter = leave
		return m.saveAs(msg.path, true)
	}
	elsewhere := func(m *Model) tea.Cmd {
		m.quitAfter = leave
		return m.startNaming()
	}
	switch {
	case msg.err == nil:
		m.path = msg.path
		m.history.Saved(msg.plan)
		m.say("", "Saved to "+clean(msg.path)+".")
		if leave {
			return m.leave()
		}
		if then := m.ed.then; then != nil {
			m.ed.then = nil
			return then(m)
		}
	case errors.Is(msg.err, plan.ErrChanged):
		m.ask(clean(msg.path)+" was changed by another program since it was read. What is on screen is not saved.",
			choice{"o", "overwrite it with what is on screen", over}, choice{"n", "save under another name", elsewhere})
	case errors.Is(msg.err, plan.ErrExists):
		m.ask(clean(msg.path)+" exists already.", choice{"o", "overwrite it", over}, choice{"n", "another name", elsewhere})
	default:
		m.say(check.Fault, "Not saved; S saves it elsewhere: "+clean(msg.err.Error())+".")
	}
	return nil
}

// quit leaves, or asks first.
func (m *Model) quit() tea.Cmd {
	if !m.history.Dirty() && !m.saving {
		return m.leave()
	}
	m.ask("There are changes that are not saved.",
		choice{"s", "save and quit", func(m *Model) tea.Cmd {
			m.quitAfter = true
			return m.save()
		}},
		choice{"d", "discard them and quit", (*Model).leave})
	return nil
}

// interrupt is ctrl+c: it asks once, and the second time it leaves.
func (m *Model) interrupt() tea.Cmd {
	if m.quitting || !m.history.Dirty() && !m.saving {
		return m.leave()
	}
	cmd := m.quit()
	m.quitting = true
	m.question.text += " Ctrl+c again quits without saving."
	return cmd
}

// leave ends the editor.
func (m *Model) leave() tea.Cmd {
	m.stop()
	return tea.Quit
}

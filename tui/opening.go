package tui

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/plan"
	"footplank/tui/edit"
	"footplank/tui/recovery"
)

// opening is another plan that is to be put in place of the one on screen.
type opening struct {
	// get makes or reads it, in the background; now is the one that is open.
	get   func(now *plan.Doc) (*plan.Doc, error)
	left  *recovery.Left // what was not saved of it, to be taken up
	fresh bool           // it is new: in no file yet
	then  func(m *Model) tea.Cmd
}

// openedMsg is a plan that is open now, or why it is not.
type openedMsg struct {
	doc   *plan.Doc
	up    *layout.Plan // taken up of what was not saved
	left  []recovery.Left
	told  string // who else has it open
	fresh bool
	then  func(m *Model) tea.Cmd
	err   error
}

const openingPlan = "opening the plan"

// openPlan opens another plan, in the background.
func (m *Model) openPlan(o opening) tea.Cmd {
	now := m.ed.base
	d, kept := m.file.(*document)
	return m.guarded(openingPlan, func() tea.Msg {
		msg := openedMsg{fresh: o.fresh, then: o.then}
		if msg.doc, msg.err = o.get(now); msg.err != nil {
			return msg
		}
		if o.left != nil {
			q, err := msg.doc.Read(o.left.Text)
			if err != nil {
				msg.err = err
				return msg
			}
			msg.up = q.Plan
		}
		if kept {
			d.take(&msg, o.left)
		}
		return msg
	})
}

func (m *Model) openPath(path string) tea.Cmd {
	return m.openPlan(opening{get: func(now *plan.Doc) (*plan.Doc, error) { return plan.Open(path, now.Forms()) }})
}

// takeUpLeft opens the plan of an editor that ended unasked, with what was not
// saved of it.
func (m *Model) takeUpLeft(l recovery.Left) tea.Cmd {
	return m.openPlan(opening{left: &l, fresh: l.Path == "", get: func(now *plan.Doc) (*plan.Doc, error) {
		if l.Path != "" {
			d, err := plan.Open(l.Path, now.Forms())
			if !errors.Is(err, os.ErrNotExist) {
				return d, err
			}
		}
		return plan.Parse("the plan that was not saved", l.Text, now.Forms())
	}})
}

// opened puts the plan on screen.
func (m *Model) opened(msg openedMsg) tea.Cmd {
	if msg.err != nil {
		if f := m.chosenForm(); f != nil && f.Name == "path" {
			f.Fail(clean(msg.err.Error()))
			return nil
		}
		m.say(check.Fault, "Not opened: "+clean(msg.err.Error())+". The plan on screen is untouched.")
		return nil
	}
	m.stop()
	base := *msg.doc
	m.ed.base = &base
	m.path, m.offer, m.selected, m.lineup, m.culprit = msg.doc.Path, nil, "", 0, -1
	m.history = edit.New(msg.doc.Plan)
	if msg.fresh {
		m.history.Saved(nil) // quitting asks, and it is put by
	}
	if msg.up != nil {
		m.history.Put(edit.Step{Plan: msg.up, What: "take up what was not saved"})
	}
	m.camera, m.bedding.plan, m.seen, m.was = camera{}, nil, seen{}, nil
	m.wires.sums, m.wires.now, m.wires.chosen = nil, runs{}, ""
	clear(m.wires.layers)
	m.keep.kept = nil
	m.clear()
	m.say("", "Opened "+clean(msg.doc.Name)+".")
	if msg.up != nil {
		m.say("", "Taken up what was not saved of "+clean(msg.doc.Name)+": u goes back to what the file has.")
	}
	if n := m.unplaced(); n > 0 && !msg.fresh {
		m.say("", plural(n, "unit")+" without a place in this line-up: a arranges all, space places the chosen one. ? shows every key.")
	}
	if msg.told != "" {
		m.say(check.Caution, msg.told)
	}
	if len(msg.left) > 0 {
		m.offerLeft(msg.left[0])
	}
	if msg.then != nil {
		return msg.then(m)
	}
	return nil
}

// known returns the plans that the player may want.
func (d *document) known() knownMsg {
	d.mu.Lock()
	state := d.state
	d.mu.Unlock()
	here := plansHere()
	if state == nil {
		return knownMsg{here: here}
	}
	return knownMsg{recent: state.Recent(), here: here, lefts: state.Lefts("")}
}

// plansHere are the files of the folder that the program was started in that look
// like plans, by their whole paths.
func plansHere() []string {
	dir, err := os.Getwd()
	if err != nil {
		return nil
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if e.Type().IsRegular() && filepath.Ext(e.Name()) == ".toml" && len(out) < 40 && saysBoard(filepath.Join(dir, e.Name())) {
			out = append(out, filepath.Join(dir, e.Name()))
		}
	}
	return out
}

// saysBoard reports whether a file begins as plans do: with a board before long.
func saysBoard(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer func() { _ = f.Close() }()
	head := make([]byte, 16<<10)
	n, _ := io.ReadFull(f, head)
	return bytes.Contains(head[:n], []byte("[board]"))
}

// take keeps another plan from now on. The session of the one before ends in
// order: whoever opens another plan was asked about what was not saved.
func (d *document) take(msg *openedMsg, left *recovery.Left) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := *msg.doc
	d.doc = &c
	if d.session == nil {
		return
	}
	_ = d.session.End()
	d.forget()
	session, err := d.state.Begin(c.Path, c.Plan.Title)
	if err == nil {
		d.session = session
	} else {
		msg.told = "What is not saved cannot be put by against a crash: " + clean(err.Error()) + "."
	}
	if left != nil {
		d.taken = append(d.taken, *left)
	}
	if c.Path == "" {
		return
	}
	d.opened()
	if msg.told == "" {
		msg.told = othersOf(d.state.Others(c.Path))
	}
	if left == nil {
		msg.left = d.state.Lefts(c.Path)
	}
}

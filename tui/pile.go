package tui

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/plan"
	"footplank/tui/cards"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// screen is a list or a form over the board, to change the plan by.
type screen struct {
	list *list
	form *form.Form
	top  int // first line of a form that is shown
	// taken goes on once a form is taken; nil leads back to what is beneath.
	taken func(m *Model) tea.Cmd
	// take is what taking a form does; nil makes its draft an edit.
	take func(m *Model, draft *layout.Plan) tea.Cmd
	// complete is the tab key in a field that can be completed.
	complete func(m *Model) tea.Cmd
}

// editing is the screens that lie over the board, the last one on top, and what
// they are made with.
type editing struct {
	pile []screen
	base *plan.Doc // whose catalog and text drafts are checked with
	// then goes on once the plan is saved.
	then  func(m *Model) tea.Cmd
	known known
	spot  spotDrag
	carry bool // the mouse holds an item of a list
	opens bool // letting go of it opens it
}

// baseOf returns a document to check drafts with. It is a copy, so that nothing
// that saving does in the background is seen here.
func baseOf(file keeper, p *layout.Plan) *plan.Doc {
	if d, ok := file.(*document); ok && d.doc != nil {
		c := *d.doc
		return &c
	}
	d, err := plan.New(plan.Answers{BoardW: 500 * layout.Millimetre, BoardD: 300 * layout.Millimetre})
	if err != nil {
		panic(err) // two plain figures make a plan
	}
	return d
}

func (m *Model) forms() *catalog.Catalog { return m.ed.base.Forms() }

func (m *Model) shop() cards.Shop {
	return cards.Shop{Plan: m.history.Plan(), Forms: m.forms(), Playing: m.edited().Name}
}

// over returns the screen on top, nil where the board is.
func (m *Model) over() *screen {
	if n := len(m.ed.pile); n > 0 {
		return &m.ed.pile[n-1]
	}
	return nil
}

// home is the mode of what is on top.
func (m *Model) home() mode {
	switch s := m.over(); {
	case s == nil:
		return onBoard
	case s.form != nil:
		return filling
	case s.list.search:
		return searching
	}
	return listing
}

// draft is the plan as the form on top would make it, nil where there is none.
func (m *Model) draft() *layout.Plan {
	if s := m.over(); s != nil && s.form != nil {
		return s.form.Draft()
	}
	return nil
}

func (m *Model) push(s screen) tea.Cmd {
	m.takeOwn()
	m.held, m.drag, m.page = 0, drag{}, page{}
	m.ed.pile = append(m.ed.pile, s)
	m.settle()
	m.mode = m.home()
	return nil
}

// pop leaves the screen on top.
func (m *Model) pop() {
	if n := len(m.ed.pile); n > 0 {
		m.ed.pile[n-1] = screen{}
		m.ed.pile = m.ed.pile[:n-1]
	}
	m.ed.spot = spotDrag{}
	m.settle()
	m.mode = m.home()
}

// clear leaves all screens.
func (m *Model) clear() {
	m.ed.pile = nil
	m.settle()
	m.mode = onBoard
}

// settle keeps what is chosen within a plan that may have changed as a whole,
// and the rectangles in keeping with what is on screen.
func (m *Model) settle() {
	p := m.plan()
	m.lineup = min(m.lineup, max(len(p.Lineups)-1, 0))
	m.keepUnit(p)
	if _, ok := p.Board.Surface(m.camera.surface); m.camera.surface != "" && !ok {
		m.camera = camera{}
	}
	if m.mode == onBoard {
		m.mode = m.home()
	}
	if m.mode == m.home() && !m.saving {
		m.ed.then = nil // saving was called off
	}
	m.areas = divide(m.w, m.h)
	if m.over() != nil {
		m.areas = divideForm(m.w, m.h)
	}
}

// keepUnit lets the chosen unit go where the plan has none such, or follows the
// name that the form on top gives it.
func (m *Model) keepUnit(p *layout.Plan) {
	if m.selected == "" || p.Unit(m.selected) != nil {
		return
	}
	m.selected, m.held = "", 0
	if s := m.over(); s != nil && s.form != nil && s.form.Unit != "" && p.Unit(s.form.SubjectThen()) != nil {
		m.selected = s.form.SubjectThen()
	}
}

const goneText = "It is not there any more."

// fill opens a form. taken goes on once it is taken.
func (m *Model) fill(f *form.Form, taken func(m *Model) tea.Cmd) tea.Cmd {
	if f == nil {
		m.say("", goneText)
		return nil
	}
	m.takeOwn()
	return m.push(screen{form: f.Start(m.maker()), taken: taken})
}

// maker makes drafts of the plan as it is when they are made.
func (m *Model) maker() form.Maker {
	return func(change func(p *layout.Plan) error) (*layout.Plan, error) {
		draft, err := m.history.Draft(change)
		if err == nil {
			err = checked(m.ed.base, draft)
		}
		return draft, err
	}
}

// checked tells why a plan cannot be written to its file, in the words of who
// reads it there.
func checked(base *plan.Doc, p *layout.Plan) error {
	d := *base
	d.Plan = p
	_, err := d.Render()
	var all plan.Errors
	switch {
	case err == nil:
		return nil
	case errors.As(err, &all) && len(all) > 0:
		return errors.New(all[0].Msg)
	}
	_, why, ok := strings.Cut(err.Error(), "cannot be written: ")
	if !ok {
		return err
	}
	return errors.New(why)
}

// alter makes a change of the plan an edit, or says why it cannot be.
func (m *Model) alter(what, unit string, change func(p *layout.Plan) error) bool {
	draft, err := m.maker()(change)
	if err != nil {
		m.say(check.Fault, sentence(clean(err.Error())))
		return false
	}
	if !m.history.Put(edit.Step{Plan: draft, What: clean(what), Unit: unit, Lineup: m.lineupNow().Name}) {
		return true
	}
	m.settle()
	m.say("", m.doneText(what))
	return true
}

// takeForm takes what is filled in, or goes to what is wrong.
func (m *Model) takeForm() tea.Cmd {
	s := m.over()
	f := s.form
	f.Refresh()
	if i, why := f.Wrong(); why != "" {
		f.Go(i)
		m.say(check.Fault, sentence(clean(why)))
		return nil
	}
	draft, taken := f.Draft(), s.taken
	if s.take != nil {
		return s.take(m, draft)
	}
	m.pop()
	if draft != nil && m.putForm(f) {
		m.say("", m.doneText(f.What))
	}
	m.settle()
	if taken != nil {
		return taken(m)
	}
	return nil
}

// doneText says what was done, and the key that takes it back where that is one and
// not a letter to type.
func (m *Model) doneText(what string) string {
	if m.home() == listing || m.home() == onBoard {
		return "Done: " + clean(what) + ". u takes it back."
	}
	return "Done: " + clean(what) + "."
}

// leaveForm leaves a form, and asks first where that loses what was typed.
func (m *Model) leaveForm() tea.Cmd {
	f := m.over().form
	if !f.Changed() || f == m.printing { // which sheet was looked at is nothing to lose
		m.pop()
		return nil
	}
	m.ask("What you filled in here is not taken yet.",
		choice{"t", "take it", (*Model).takeForm},
		choice{"d", "drop it", func(m *Model) tea.Cmd { m.pop(); return nil }})
	return nil
}

// followLink opens what the field of a form leads to. What is filled in is taken
// first, for what it leads to may depend on it.
func (m *Model) followLink() tea.Cmd {
	f := m.over().form
	x := f.Now()
	if f.Changed() {
		f.Refresh()
		if i, why := f.Wrong(); why != "" {
			f.Go(i)
			m.say(check.Fault, "First: "+clean(why))
			return nil
		}
		m.putForm(f)
	}
	at, subject := f.At(), f.SubjectThen()
	again := func(m *Model) tea.Cmd { m.again(subject, at); return nil }
	return m.lead(x.Leads, subject, again)
}

// putForm makes what is filled in an edit.
func (m *Model) putForm(f *form.Form) bool {
	return m.history.Put(edit.Step{Plan: f.Draft(), What: clean(f.What), Unit: f.Unit, Lineup: m.lineupNow().Name})
}

// again makes the form on top anew of the plan as it is now, at the same field.
func (m *Model) again(subject string, at int) {
	s := m.over()
	if s == nil || s.form == nil {
		return
	}
	f := m.cardOf(s.form.Name, subject)
	if f == nil {
		m.pop()
		return
	}
	s.form = f.Start(m.maker())
	s.form.Go(at)
	m.settle()
}

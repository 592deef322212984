package tui

import (
	"sync"

	"footplank/layout"
	"footplank/layout/plan"
	"footplank/tui/recovery"
)

// document is the keeper of a plan file. Beside the file it puts by what is not
// saved yet, where the program has a folder for that.
type document struct {
	mu  sync.Mutex // methods are called by commands, and by the watch of the file
	doc *plan.Doc

	state   *recovery.Store   // nil to put nothing by
	session *recovery.Session // nil without state
	taken   []recovery.Left   // taken up, and not safe elsewhere yet
}

// open takes note that the plan is open here. Without it the editor works all
// the same, so what goes wrong is only told.
func (d *document) open(state *recovery.Store) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.state = state
	var err error
	d.session, err = state.Begin(d.doc.Path, d.doc.Plan.Title)
	d.opened()
	return err
}

// opened puts the file among the recent ones. That list is a convenience: no
// plan is worse for a fault in it.
func (d *document) opened() {
	if d.state != nil && d.doc.Path != "" {
		_ = d.state.Opened(d.doc.Path)
	}
}

func (d *document) Save(p *layout.Plan) error {
	return d.write(p, func() error { return d.doc.Save() })
}

func (d *document) SaveAs(p *layout.Plan, path string, overwrite bool) error {
	return d.write(p, func() error { return d.doc.SaveAs(path, overwrite) })
}

// write saves a copy of the plan: the plans of the history are not for the
// document to keep, as it may change them.
func (d *document) write(p *layout.Plan, save func() error) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.doc.Plan = p.Clone()
	if err := save(); err != nil {
		return err
	}
	if d.session != nil {
		// The plan is in its file; that what was put by lies there a little
		// longer does no harm.
		_ = d.session.Saved(d.doc.Path, d.doc.Plan.Title)
		d.forget()
		d.opened()
	}
	return nil
}

// PutBy keeps the plan where it is found again after a crash.
func (d *document) PutBy(p *layout.Plan) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.session == nil {
		return nil
	}
	d.doc.Plan = p.Clone()
	text, err := d.doc.Render()
	if err != nil {
		return err
	}
	if err := d.session.Keep(text); err != nil {
		return err
	}
	d.forget()
	return nil
}

// forget takes away what was taken up, now that it is safe elsewhere.
func (d *document) forget() {
	for _, l := range d.taken {
		_ = d.state.Forget(l) // else it is offered once more
	}
	d.taken = nil
}

// TakeUp reads what an earlier session left. It is kept until it is put by or
// saved again.
func (d *document) TakeUp(l recovery.Left) (*layout.Plan, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	q, err := d.doc.Read(l.Text)
	if err != nil {
		return nil, err
	}
	d.taken = append(d.taken, l)
	return q.Plan, nil
}

// Forget takes away what an earlier session left.
func (d *document) Forget(l recovery.Left) error { return d.state.Forget(l) }

// Changed reports whether another program changed the file. One that cannot be
// read just now is not known to have changed; saving will tell.
func (d *document) Changed() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	changed, err := d.doc.Changed()
	return changed && err == nil
}

// Reopen reads the file anew.
func (d *document) Reopen() (*layout.Plan, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.doc.Reopen(); err != nil {
		return nil, err
	}
	return d.doc.Plan.Clone(), nil
}

// file returns the path of the plan's file, "" for none.
func (d *document) file() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.doc.Path
}

// end closes the session: in order, or so that what was put by is offered at the
// next start. It reports whether there is something to be offered.
func (d *document) end(inOrder bool) (kept bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.session == nil {
		return false
	}
	if !inOrder {
		kept = d.session.Kept() || len(d.taken) > 0
		_ = d.session.Leave() // what is left over looks like the session of a dead process
		return kept
	}
	_ = d.session.End()
	d.forget()
	return false
}

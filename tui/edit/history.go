package edit

import (
	"reflect"
	"slices"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Depth is how many edits a History remembers at least. A copy of the built-in
// example, of seventeen units, takes 10.5 kB, so a full history is some 45 MB.
const Depth = 4000

// slack is how many more it keeps before it drops the oldest all at once.
const slack = Depth / 20

// Step is one entry of a History: the plan after an edit, and what it was.
type Step struct {
	Plan *layout.Plan
	What string // "move Compressor"; "" for the first
	// Unit and Lineup tell where to look to see what the edit did.
	Unit, Lineup string
	// Series joins edits that are taken back together, such as the moves
	// between picking a unit up and setting it down; 0 joins nothing.
	Series int
}

// History is a plan with all its edits. The plans in it must not be changed.
type History struct {
	steps []Step
	at    int
	saved *layout.Plan
	clean bool // whether the plan now is the saved one in content; see refresh
}

// New returns a history that starts with a copy of p, which counts as saved.
func New(p *layout.Plan) *History {
	c := p.Clone()
	return &History{steps: []Step{{Plan: c}}, saved: c, clean: true}
}

// Plan returns the plan as it is now. It must not be changed.
func (h *History) Plan() *layout.Plan { return h.steps[h.at].Plan }

// Do runs change on a copy of the plan. If that changed anything, the copy is
// the plan now, and what could be redone is gone. It reports whether so. Which
// outputs the units use is worked out anew when anything but places changed
// that they depend on.
func (h *History) Do(s Step, change func(p *layout.Plan)) bool {
	s.Plan = h.Plan().Clone()
	change(s.Plan)
	settle(h.Plan(), s.Plan)
	return h.Put(s)
}

// Draft returns a copy of the plan with a change, or the change's error. The
// history is as it was; Put makes the draft an edit.
func (h *History) Draft(change func(p *layout.Plan) error) (*layout.Plan, error) {
	return Draft(h.Plan(), change)
}

// Draft returns a copy of a plan with a change, and what follows from it, or the
// change's error.
func Draft(from *layout.Plan, change func(p *layout.Plan) error) (*layout.Plan, error) {
	p := from.Clone()
	if err := change(p); err != nil {
		return nil, err
	}
	settle(from, p)
	return p, nil
}

// settle works out anew what follows from a plan that was changed.
func settle(was, p *layout.Plan) {
	if p.Feeds == nil && was.Feeds != nil || !sameFeeding(was, p) {
		power.Apply(p)
	}
	wiring.Seat(p) // which plugs seat depends on places too
}

// Put makes s.Plan the plan now, unless it equals it already.
func (h *History) Put(s Step) bool {
	if same(s.Plan, h.Plan()) {
		return false
	}
	h.steps = h.steps[:h.at+1]
	last := &h.steps[h.at]
	switch {
	case s.Series == 0 || last.Series != s.Series:
		h.steps = append(h.steps, s)
	case same(s.Plan, h.steps[h.at-1].Plan):
		h.steps = h.steps[:h.at] // the series came back to where it began
	default:
		*last = s
	}
	if n := len(h.steps); n > Depth+slack+1 {
		// A fresh slice, so that the dropped plans can be collected.
		h.steps = append([]Step(nil), h.steps[n-Depth-1:]...)
		h.steps[0].Series = 0 // nothing lies before it to join
	}
	h.at = len(h.steps) - 1
	h.refresh()
	return true
}

// Undo takes the last edit back and returns it.
func (h *History) Undo() (Step, bool) {
	if h.at == 0 {
		return Step{}, false
	}
	h.at--
	h.refresh()
	return h.steps[h.at+1], true
}

// Redo makes the edit that was taken back last again, and returns it.
func (h *History) Redo() (Step, bool) {
	if h.at == len(h.steps)-1 {
		return Step{}, false
	}
	h.at++
	h.refresh()
	return h.steps[h.at], true
}

// Next returns what Undo would take back and what Redo would make again, ""
// for nothing.
func (h *History) Next() (undo, redo string) {
	undo = h.steps[h.at].What
	if h.at+1 < len(h.steps) {
		redo = h.steps[h.at+1].What
	}
	if h.at == 0 {
		undo = ""
	}
	return undo, redo
}

// Saved notes that p is what the file holds.
func (h *History) Saved(p *layout.Plan) {
	h.saved = p
	h.refresh()
}

// Dirty reports whether the plan now differs from what the file holds.
func (h *History) Dirty() bool { return !h.clean }

// refresh compares once per edit rather than once per frame.
func (h *History) refresh() { h.clean = same(h.Plan(), h.saved) }

func same(a, b *layout.Plan) bool { return a == b || reflect.DeepEqual(a, b) }

// sameFeeding reports whether two plans ask the same of the outputs of their
// supplies: the same units with the same power, in the same line-ups.
func sameFeeding(a, b *layout.Plan) bool {
	if len(a.Units) != len(b.Units) || !reflect.DeepEqual(a.Power, b.Power) || !slices.Equal(a.Slots, b.Slots) {
		return false
	}
	for i := range a.Units {
		u, v := &a.Units[i], &b.Units[i]
		if u.ID != v.ID || u.Milliwatts != v.Milliwatts || !reflect.DeepEqual(u.Draw, v.Draw) ||
			!reflect.DeepEqual(u.Outputs, v.Outputs) || !slices.EqualFunc(u.Jacks, v.Jacks, asked) {
			return false
		}
	}
	return slices.EqualFunc(a.Lineups, b.Lineups, func(l, k layout.Lineup) bool {
		return l.Name == k.Name && reflect.DeepEqual(l.Fill, k.Fill)
	})
}

// asked compares two jacks without what the program chose for them.
func asked(a, b layout.Jack) bool { return a.Asked() == b.Asked() }

// Series returns the series of the last edit, 0 when it has none.
func (h *History) Series() int { return h.steps[h.at].Series }

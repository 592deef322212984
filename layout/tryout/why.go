package tryout

import (
	"context"
	"errors"
	"math/bits"
	"slices"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
	"footplank/pack/crew"
)

// mostSets bounds how many sets of units are looked at for a smaller one.
const mostSets = 1500

// fewItems is up to how many items the complete search alone is quicker.
const fewItems = 7

// culprit finds units that cannot stand together, in a plan of some line-ups.
type culprit struct {
	ctx   context.Context
	m     *arrange.Model
	units []*layout.Unit
	of    [][]int // items of each unit
	opt   pack.Options
	// fits lists sets that are known to fit, as bits: parts of them do too.
	fits []uint64
	why  map[uint64]*pack.Reason
}

func newCulprit(ctx context.Context, m *arrange.Model, opt pack.Options) *culprit {
	c := &culprit{ctx: ctx, m: m, opt: opt, why: map[uint64]*pack.Reason{}}
	for i, it := range m.Items() {
		k := slices.Index(c.units, it.Unit)
		if k < 0 {
			k = len(c.units)
			c.units, c.of = append(c.units, it.Unit), append(c.of, nil)
		}
		c.of[k] = append(c.of[k], i)
	}
	return c
}

// problem is that of the units in the set.
func (c *culprit) problem(set uint64) (*pack.Problem, []int) {
	whole := c.m.Problem()
	var items []int
	for k := range c.units {
		if set>>k&1 == 1 {
			items = append(items, c.of[k]...)
		}
	}
	slices.Sort(items)
	p := &pack.Problem{Obstacles: whole.Obstacles}
	for _, i := range items {
		p.Items = append(p.Items, whole.Items[i])
	}
	return p, items
}

// begin takes up the reason why all units together are refused, or looks for
// one; it is false when they are not known to be.
func (c *culprit) begin(reason *pack.Reason) bool {
	all := uint64(1)<<len(c.units) - 1
	if reason == nil {
		return c.try(all) == pack.Impossible
	}
	c.why[all] = reason
	if less := c.unitsOf(reason.Items); less != 0 && less != all {
		c.try(less)
	}
	return true
}

// crowd looks at the units of a slot alone, which are likely those that collide:
// where they do, the others need not be taken away one by one.
func (c *culprit) crowd(slot string) {
	set := uint64(0)
	for k := range c.units {
		for _, i := range c.of[k] {
			if s := c.m.SlotOf(i); s != nil && s.Name == slot {
				set |= 1 << k
			}
		}
	}
	if set != 0 {
		c.try(set)
	}
}

func (c *culprit) try(set uint64) pack.Verdict {
	for _, f := range c.fits {
		if set&^f == 0 {
			return pack.Fits
		}
	}
	for s := range c.why {
		if s&^set == 0 {
			return pack.Impossible
		}
	}
	p, items := c.problem(set)
	opt := c.opt
	opt.Complete = len(items) <= fewItems
	res, err := pack.Solve(c.ctx, p, opt)
	switch {
	case err != nil:
		return pack.Undecided
	case res.Verdict == pack.Fits:
		c.fits = append(c.fits, set)
	case res.Verdict == pack.Impossible:
		for k, i := range res.Reason.Items {
			res.Reason.Items[k] = items[i]
		}
		c.why[set] = res.Reason
		if less := c.unitsOf(res.Reason.Items); less != 0 && less != set {
			return c.tryLess(set, less)
		}
	}
	return res.Verdict
}

// tryLess looks at the units that a reason names, which alone may do.
func (c *culprit) tryLess(set, less uint64) pack.Verdict {
	if less&^set == 0 {
		c.try(less)
	}
	return pack.Impossible
}

func (c *culprit) unitsOf(items []int) uint64 {
	set := uint64(0)
	for k := range c.units {
		if slices.ContainsFunc(c.of[k], func(i int) bool { return slices.Contains(items, i) }) {
			set |= 1 << k
		}
	}
	return set
}

// smallest returns a smallest set that is refused, each with the units of must:
// without those everything is known to fit.
func (c *culprit) smallest(must uint64) (set uint64, minimal, smallest bool) {
	set = c.least(1<<len(c.units) - 1)
	minimal = true
	for k := range c.units {
		bit := uint64(1) << k
		if set&bit == 0 || must&bit != 0 {
			continue
		}
		switch c.try(set &^ bit) {
		case pack.Impossible:
			set = c.least(set &^ bit)
		case pack.Undecided:
			minimal = false
		}
	}
	sure, tried := true, 0
	for size := bits.OnesCount64(must); size < bits.OnesCount64(set); size++ {
		for _, s := range setsOf(must, len(c.units), size) {
			if tried++; tried > mostSets || c.ctx.Err() != nil {
				return set, minimal, false
			}
			switch c.try(s) {
			case pack.Impossible:
				return s, sure, sure
			case pack.Undecided:
				sure = false
			}
		}
	}
	return set, minimal || sure, sure
}

// least is the smallest set known to be refused inside of one that is.
func (c *culprit) least(set uint64) uint64 {
	for s := range c.why {
		if s&^set == 0 && (bits.OnesCount64(s) < bits.OnesCount64(set) || bits.OnesCount64(s) == bits.OnesCount64(set) && s < set) {
			set = s
		}
	}
	return set
}

// setsOf lists the sets of that many of n units that have all of must, in a
// fixed order.
func setsOf(must uint64, n, size int) []uint64 {
	var free []int
	for k := range n {
		if must>>k&1 == 0 {
			free = append(free, k)
		}
	}
	var out []uint64
	var grow func(set uint64, from, left int)
	grow = func(set uint64, from, left int) {
		if len(out) > mostSets {
			return
		}
		if left == 0 {
			out = append(out, set)
			return
		}
		for i := from; i+left <= len(free); i++ {
			grow(set|1<<free[i], i+1, left-1)
		}
	}
	grow(must, 0, size-bits.OnesCount64(must))
	return out
}

// explain says why the unit does not fit: who collides, what growth would help,
// and who would make room.
func (f *finder) explain(ctx context.Context) error {
	opt := f.options()
	opt.Steps = min(opt.Steps, reasonSteps)
	if f.no.m == nil {
		m, err := arrange.NewModel(f.t.plan, nil, arrange.Apart, arrange.PlugsAtLeast, nil)
		if err != nil {
			return err
		}
		f.no = refusal{m, f.everyLineup(), nil}
	}
	c := newCulprit(ctx, f.no.m, opt)
	if len(c.units) > 63 || !c.begin(f.no.reason) {
		return nil
	}
	must := uint64(0)
	for k, u := range c.units {
		if f.b.stands && u.ID == f.t.unit.ID {
			must = 1 << k
		}
	}
	if must != 0 {
		c.standing(f.t.plan, f.t.unit.ID)
	}
	c.crowd(f.a.Question.Slot)
	set, minimal, smallest := c.smallest(must)
	con := &Conflict{Lineups: f.no.lineups, Minimal: minimal, Smallest: smallest}
	for k, u := range c.units {
		if set>>k&1 == 1 {
			con.Units = append(con.Units, u.ID)
		}
	}
	if r := c.why[set]; r != nil {
		con.Why, _ = f.no.m.Reason(r)
	}
	f.a.Conflict = con
	f.tell()
	return f.helps(ctx, opt)
}

// helps finds what would make room: who could go, and how much larger slot or
// board would do in width and in depth, beside each other where there are
// workers.
func (f *finder) helps(ctx context.Context, opt pack.Options) error {
	var without []string
	grown := make([]*Growth, len(axes))
	work := []func() error{func() (err error) { without, err = f.without(ctx, opt); return err }}
	for k := range axes {
		if f.opt.Brief {
			break
		}
		work = append(work, func() (err error) { grown[k], err = f.growth(ctx, axes[k], opt); return err })
	}
	errs := make([]error, len(work))
	if f.opt.workers() < 2 {
		for k, w := range work {
			errs[k] = w()
		}
	} else {
		var looking crew.Crew
		for k, w := range work {
			looking.Go(func() { errs[k] = w() })
		}
		looking.Wait()
	}
	f.a.Without = without
	for _, g := range grown {
		if g != nil {
			f.a.Growth = append(f.a.Growth, *g)
		}
	}
	f.tell()
	return errors.Join(errs...)
}

// refused looks for a line-up that cannot be by itself, all its units free.
func (f *finder) refused(ctx context.Context) error {
	opt := f.options()
	opt.Steps = min(opt.Steps, reasonSteps)
	for _, l := range f.t.touched {
		m, err := arrange.NewModel(arrange.Only(f.t.plan, []string{l}), nil, arrange.Apart, arrange.PlugsAtLeast, nil)
		if err != nil {
			return err
		}
		res, err := pack.Solve(ctx, m.Problem(), opt)
		if err != nil {
			return err
		}
		if res.Verdict == pack.Impossible {
			f.no, f.move = refusal{m, []string{l}, res.Reason}, pack.Impossible
			return nil
		}
	}
	return nil
}

// everyLineup lists the plan's line-ups.
func (f *finder) everyLineup() []string {
	var all []string
	for i := range f.t.plan.Lineups {
		all = append(all, f.t.plan.Lineups[i].Name)
	}
	return all
}

// without tries to take out each unit that collides. No other can make room: with
// any other gone the whole set is still there, and collides.
func (f *finder) without(ctx context.Context, opt pack.Options) (out []string, err error) {
	for _, id := range f.a.Conflict.Units {
		if id == f.t.unit.ID {
			continue
		}
		p := f.t.plan.Clone()
		for i := range p.Lineups {
			l := &p.Lineups[i]
			if !slices.Contains(f.t.lineups, l.Name) {
				continue
			}
			for s, ids := range l.Fill {
				l.Fill[s] = slices.DeleteFunc(ids, func(x string) bool { return x == id })
			}
		}
		if !p.InSlots(id) {
			(&trial{plan: p}).leave(id)
			p.Chain.Stops = slices.DeleteFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Unit == id })
		}
		m, err := arrange.NewModel(p, nil, arrange.Apart, arrange.PlugsToChoose, nil)
		if err != nil {
			return nil, err
		}
		ok, err := f.roomIn(ctx, m, p, opt)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, id)
		}
	}
	return out, nil
}

// roomIn reports whether an arrangement of the model was found: with others
// than those that collide staying where they are in p, then with the fixed units
// staying, which is quickly asked, else any.
func (f *finder) roomIn(ctx context.Context, m *arrange.Model, p *layout.Plan, opt pack.Options) (bool, error) {
	stands := func(places []pack.Place) bool { return places != nil && m.GoesIn(places) && m.Seats(places) }
	at, _ := m.Now(p)
	few, swap := make([]bool, len(at)), make([]bool, len(at))
	for i, it := range m.Items() {
		few[i] = !it.Held && slices.Contains(f.a.Conflict.Units, it.Unit.ID)
		swap[i] = !it.Held && it.Unit.Mount == layout.Swap
	}
	if stands(among(ctx, m.Problem(), at, few, opt)) || stands(among(ctx, m.Problem(), at, swap, opt)) {
		return true, nil
	}
	res, err := pack.Solve(ctx, m.Problem(), opt)
	return stands(res.Places), err
}

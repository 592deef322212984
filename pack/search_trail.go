package pack

// An atom says that view s of some variable is at least c. Each variable has
// two views, s and s^1, of opposite sign, so the same form says at most:
//
//	v >= c  is  (s, c)         v <= c  is  (s^1, -c)
//
// and the opposite of (s, c) is (s^1, 1-c).
type atom struct {
	s int32
	c int64
}

func (a atom) opposite() atom { return atom{a.s ^ 1, 1 - a.c} }

// clause is a list of atoms of which one must hold. Those watched are the
// first two.
type clause struct {
	atoms    []atom
	learned  bool
	gone     bool
	activity float32
	lbd      int32
}

// why says what raised a view: a clause, the sum of two other views, or, with
// neither, a decision. Reasons made by a bound over many variables keep their
// atoms in a clause of their own.
type why struct {
	cl   *clause
	u, v int32
}

var decided = why{u: -1, v: -1}

// hitReason in place of u says that v is a collision to be kept off.
const hitReason = -2

func (w why) sum() bool { return w.cl == nil && w.u >= 0 }

// step is one raise of a view's lower bound on the trail.
type step struct {
	s        int32
	prev     int32 // the step before on the same view, or -1
	old, now int64
	reason   why
}

// trail holds the bounds of all variables and how they came to be. A variable
// is gone wrong when its two bounds cross.
type trail struct {
	lb     []int64
	last   []int32 // by view: its latest step
	steps  []step
	levels []int32 // where each decision's steps begin
	head   int     // steps before it have been propagated
}

func (t *trail) holds(a atom) bool  { return t.lb[a.s] >= a.c }
func (t *trail) broken(a atom) bool { return t.lb[a.s^1] >= 1-a.c }

// newVar adds a variable with the bounds lo and hi and returns its first view.
func (t *trail) newVar(lo, hi int64) int32 {
	s := int32(len(t.lb))
	t.lb = append(t.lb, lo, -hi)
	t.last = append(t.last, -1, -1)
	return s
}

// raise lifts a view without asking whether that crosses its other bound.
func (t *trail) raise(a atom, reason why) {
	t.steps = append(t.steps, step{a.s, t.last[a.s], t.lb[a.s], a.c, reason})
	t.last[a.s] = int32(len(t.steps) - 1)
	t.lb[a.s] = a.c
}

// back undoes all decisions beyond level.
func (t *trail) back(level int) {
	if level >= len(t.levels) {
		return
	}
	to := int(t.levels[level])
	for k := len(t.steps) - 1; k >= to; k-- {
		st := &t.steps[k]
		t.lb[st.s] = st.old
		t.last[st.s] = st.prev
	}
	t.steps = t.steps[:to]
	t.levels = t.levels[:level]
	t.head = min(t.head, to)
}

// maker returns the step before step limit that first made a hold, or -1 when
// it held from the start.
func (t *trail) maker(a atom, limit int32) int32 {
	k := t.last[a.s]
	for k >= limit {
		k = t.steps[k].prev
	}
	for k >= 0 && t.steps[k].old >= a.c {
		k = t.steps[k].prev
	}
	return k
}

// before returns the bound of view s just before step limit.
func (t *trail) before(s int32, limit int32) int64 {
	k := t.last[s]
	if k < 0 {
		return t.lb[s]
	}
	for k >= limit {
		if t.steps[k].prev < limit {
			return t.steps[k].old
		}
		k = t.steps[k].prev
	}
	return t.steps[k].now
}

// levelOf returns the decision level of step k.
func (t *trail) levelOf(k int32) int {
	lo, hi := 0, len(t.levels)
	for lo < hi {
		mid := (lo + hi) / 2
		if t.levels[mid] <= k {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

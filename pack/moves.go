package pack

import (
	"context"
	"errors"
	"fmt"
	"slices"
)

// Moves is the answer of FewestMoves.
type Moves struct {
	// Verdict is Fits when Places is an arrangement, Impossible when there
	// is none even if all that may move does.
	Verdict Verdict
	Places  []Place
	// Moved lists the items that stood somewhere and now stand elsewhere.
	Moved []int
	// Dear and Cheap are how many moves of either sort that makes.
	Dear, Cheap int
	// Proved: no arrangement moves fewer.
	Proved bool
	// Distance is the way of the moved items, along the axes, summed.
	Distance int64
	Reason   *Reason // when Impossible
	Nodes    int64
}

// NoPlace as the region of a present place says that the item does not stand
// anywhere yet.
const NoPlace = -1

// FewestMoves arranges p so that as few items as possible leave the place that
// now gives them. Items of which now says NoPlace are new: they are placed
// freely and do not count. Items for which movable is false stay where they are.
// Among arrangements with the fewest moves it looks for a short way of what
// moves, for opt.ImproveSteps steps. To exchange an item, give p with the new
// one in place of the old and NoPlace for it.
//
// It asks for no moves, one, two and so on; each question goes to the complete
// search with the number of moves as one more bound, so that the answer comes
// with the proof that fewer do not do. opt.Steps bounds each question.
func FewestMoves(ctx context.Context, p *Problem, now []Place, movable []bool, opt Options) (Moves, error) {
	return FewestMovesOf(ctx, p, now, MoveRules{Movable: movable}, opt)
}

// MoveRules says what may move and what that counts.
type MoveRules struct {
	Movable []bool // by item
	// Group, if set, is a number for each item, from 0 to less than the
	// number of items: all items of the same number are one move, whether one
	// of them moves or all do. All of them must be dear or none.
	Group []int
	// Dear, if set, tells which items are moved only if nothing else does:
	// one dear move less is worth any number of others.
	Dear []bool
}

// FewestMovesOf is FewestMoves with rules of how moves count. It proves the dear
// moves fewest first, then the others.
func FewestMovesOf(ctx context.Context, p *Problem, now []Place, rules MoveRules, opt Options) (Moves, error) {
	movable := rules.Movable
	if err := p.Validate(); err != nil {
		return Moves{}, err
	}
	if len(now) != len(p.Items) || len(movable) != len(p.Items) {
		return Moves{}, errors.New("pack: fewest moves: want a present place and a movable flag for each item")
	}
	if rules.Group != nil && len(rules.Group) != len(now) || rules.Dear != nil && len(rules.Dear) != len(now) {
		return Moves{}, errors.New("pack: fewest moves: want a group and a dear flag for each item, or none at all")
	}
	for i, g := range rules.Group {
		if g < 0 || g >= len(now) {
			return Moves{}, fmt.Errorf("pack: fewest moves: item %d (%s) is of group %d: want 0 to %d", i, p.Items[i].Name, g, len(now)-1)
		}
	}
	for i, pl := range now {
		if pl.Region >= len(p.Items[i].Regions) {
			return Moves{}, fmt.Errorf("pack: fewest moves: item %d (%s) stands in region %d of %d", i, p.Items[i].Name, pl.Region, len(p.Items[i].Regions))
		}
	}
	q := &mover{p: pinned(p, now, movable), now: now, movable: movable, group: rules.Group, dear: rules.Dear}
	q.weigh()
	whole := decide(ctx, q.p, quiet(opt), max(1, opt.Workers))
	if whole.Verdict == Impossible {
		return Moves{Verdict: Impossible, Reason: whole.Reason, Nodes: whole.Nodes}, nil
	}
	out := q.ask(ctx, opt, whole)
	if out.Verdict == Fits {
		q.shorten(ctx, opt, &out)
	}
	return out, nil
}

// pinned is p with what may not move held to the point where it stands.
func pinned(p *Problem, now []Place, movable []bool) *Problem {
	q := &Problem{Items: slices.Clone(p.Items), Obstacles: p.Obstacles}
	for i, pl := range now {
		if pl.Region < 0 || movable[i] {
			continue
		}
		// The regions keep their indices: those not used are put out
		// of reach by giving all of them the one point.
		r := p.Items[i].Regions[pl.Region]
		r.X0, r.X1, r.Y0, r.Y1 = pl.X, pl.X, pl.Y, pl.Y
		q.Items[i].Regions = make([]Region, len(p.Items[i].Regions))
		for k := range q.Items[i].Regions {
			q.Items[i].Regions[k] = r
		}
	}
	return q
}

type mover struct {
	p       *Problem
	now     []Place
	movable []bool
	group   []int
	dear    []bool
	// groups counts the groups of either sort that can move: other moves
	// together weigh less than one dear move.
	dearGroups, cheapGroups int
	// Made for the first question and good for all.
	m       *model
	staying []bool
	loads   []tight
}

// counts reports whether moving item i would count.
func (q *mover) counts(i int) bool { return q.movable[i] && q.now[i].Region >= 0 }

func (q *mover) groupOf(i int) int {
	if q.group == nil {
		return i
	}
	return q.group[i]
}

func (q *mover) isDear(i int) bool { return q.dear != nil && q.dear[i] }

// weight is what a move of item i counts.
func (q *mover) weight(i int) int64 {
	if q.isDear(i) {
		return int64(q.cheapGroups) + 1
	}
	return 1
}

func (q *mover) weigh() {
	q.dearGroups, q.cheapGroups = q.tally(q.counts)
}

// tally counts the groups with an item that has it, dear ones and others.
func (q *mover) tally(has func(i int) bool) (dear, cheap int) {
	seen := make([]bool, len(q.now))
	for i := range q.now {
		if g := q.groupOf(i); has(i) && !seen[g] {
			seen[g] = true
			if q.isDear(i) {
				dear++
			} else {
				cheap++
			}
		}
	}
	return dear, cheap
}

// ask raises the number of dear moves until the search finds an arrangement
// with any number of others, and then the number of those.
func (q *mover) ask(ctx context.Context, opt Options, whole Result) Moves {
	best := Moves{Verdict: whole.Verdict, Places: whole.Places, Nodes: whole.Nodes}
	q.note(&best)
	sure := true
	dear := 0
	for ; q.dearGroups > 0 && dear <= q.dearGroups && (best.Verdict != Fits || dear < best.Dear); dear++ {
		v := q.within(ctx, opt, int64(dear)*(int64(q.cheapGroups)+1)+int64(q.cheapGroups), &best)
		if v == Fits {
			break
		}
		sure = sure && v == Impossible
	}
	if best.Verdict == Fits {
		dear = best.Dear
	}
	for cheap := 0; cheap <= q.cheapGroups && (best.Verdict != Fits || cheap < best.Cheap); cheap++ {
		v := q.within(ctx, opt, int64(dear)*(int64(q.cheapGroups)+1)+int64(cheap), &best)
		if v == Fits {
			break
		}
		sure = sure && v == Impossible
	}
	best.Proved = best.Verdict == Fits && sure && ctx.Err() == nil
	return best
}

// within asks for an arrangement whose moves weigh no more than most.
func (q *mover) within(ctx context.Context, opt Options, most int64, best *Moves) Verdict {
	if ctx.Err() != nil {
		return Undecided
	}
	if q.m == nil {
		q.m, q.staying = q.model()
		if q.m.noRegion() == nil {
			q.loads = q.m.crowded(q.m.levels(), 2)
		}
	}
	if q.m.noRegion() != nil {
		return Impossible
	}
	l := newLearner(q.m, q.loads)
	q.limit(l, q.staying, most)
	out, nodes := race(ctx, 1, opt.Steps, []searcher{{name: "learn", share: 500, run: l.run}})
	best.Nodes += nodes
	if out.verdict == Fits {
		best.Verdict, best.Places = Fits, out.places
		q.note(best)
	}
	return out.verdict
}

// model compiles the problem with a cell of its own, the first, for staying
// where one is. staying tells which items have one.
func (q *mover) model() (m *model, staying []bool) {
	m = compile(q.p, false)
	staying = make([]bool, len(q.now))
	for i, pl := range q.now {
		if !q.counts(i) {
			continue
		}
		for _, c := range m.cells[i] {
			r := q.p.Items[i].Regions[pl.Region]
			d := q.p.Items[i].Regions[c.region]
			if c.has(pl.X, pl.Y) && r.Shape == d.Shape && r.Z == d.Z {
				c.x0, c.x1, c.y0, c.y1 = pl.X, pl.X, pl.Y, pl.Y
				c.region = pl.Region
				m.cells[i] = append([]cell{c}, m.cells[i]...)
				staying[i] = true
				break
			}
		}
	}
	m.findSame()
	return m, staying
}

// limit says that the moves weigh at most so much. One that cannot stay,
// because something stands there for good, counts as well.
func (q *mover) limit(l *learner, staying []bool, most int64) {
	b := &loadBound{room: most, group: q.group}
	for i := range l.cellAt {
		row := make([]int64, len(l.cellAt[i]))
		for c := range row {
			if q.counts(i) && (c > 0 || !staying[i]) {
				row[c] = q.weight(i)
			}
		}
		b.takes = append(b.takes, row)
	}
	l.addBound(b)
	for i := range l.wish {
		if staying[i] {
			l.wish[i] = 0
		}
	}
}

// note fills in what moved in m.Places and how far.
func (q *mover) note(m *Moves) {
	m.Moved, m.Distance = nil, 0
	if m.Places == nil {
		return
	}
	w := wayBack{q}
	for i, pl := range m.Places {
		if !q.movable[i] && q.now[i].Region >= 0 {
			m.Places[i] = q.now[i]
		}
		if q.counts(i) && pl != q.now[i] {
			if w.way(i, pl) == 0 {
				m.Places[i] = q.now[i] // another region, the same spot
				continue
			}
			m.Moved = append(m.Moved, i)
		}
	}
	m.Dear, m.Cheap = q.tally(func(i int) bool { return q.counts(i) && w.way(i, m.Places[i]) > 0 })
	m.Distance = 0
	for _, i := range m.Moved {
		m.Distance += w.way(i, m.Places[i])
	}
}

// shorten looks for an arrangement with as many moves and a shorter way.
func (q *mover) shorten(ctx context.Context, opt Options, out *Moves) {
	if len(out.Moved) == 0 || ctx.Err() != nil {
		return
	}
	steps := opt.ImproveSteps
	if steps <= 0 {
		steps = 20_000
	}
	res := Result{Verdict: Fits, Places: out.Places}
	opt.Objective, opt.Progress = wayBack{q}, nil
	q.home(res.Places)
	improve(ctx, q.p, opt, 1, &res, steps)
	q.home(res.Places)
	out.Places = res.Places
	q.note(out)
}

// home puts back what need not have moved: the other items of a group that has
// to, mostly.
func (q *mover) home(places []Place) {
	for i, pl := range places {
		if !q.counts(i) || pl == q.now[i] {
			continue
		}
		if places[i] = q.now[i]; !q.p.arranged(places) {
			places[i] = pl
		}
	}
}

// moveCost is more than any way on a board.
const moveCost = int64(1) << 44

// wayBack is the objective of fewest moves, then shortest way.
type wayBack struct{ q *mover }

// way is how far pl is from where item i stands now, along the axes; another
// turn counts one.
func (w wayBack) way(i int, pl Place) int64 {
	now := w.q.now[i]
	a, b := w.q.p.Items[i].Regions[now.Region], w.q.p.Items[i].Regions[pl.Region]
	d := max(pl.X-now.X, now.X-pl.X) + max(pl.Y-now.Y, now.Y-pl.Y) + max(a.Z-b.Z, b.Z-a.Z)
	if a.Shape != b.Shape {
		d++
	}
	return d
}

func (w wayBack) one(i int, pl Place) int64 {
	if !w.q.counts(i) {
		return 0
	}
	return w.way(i, pl)
}

// alone is what the move of item i's group weighs if none of the group's other
// items has moved, else nothing.
func (w wayBack) alone(places []Place, i int) int64 {
	if w.q.group != nil {
		for j := range places {
			if j != i && w.q.group[j] == w.q.group[i] && w.one(j, places[j]) > 0 {
				return 0
			}
		}
	}
	return w.q.weight(i) * moveCost
}

// Cost implements Objective.
func (w wayBack) Cost(places []Place) int64 {
	c := int64(0)
	moved := make([]bool, len(places))
	for i, pl := range places {
		d := w.one(i, pl)
		if g := w.q.groupOf(i); d > 0 && !moved[g] {
			moved[g] = true
			c += w.q.weight(i) * moveCost
		}
		c += d
	}
	return c
}

// Lines implements LineObjective: the shortest way ends where it begins.
func (w wayBack) Lines(dst []int64, _ []Place, item, _, axis int) []int64 {
	switch {
	case !w.q.counts(item):
	case axis == 0:
		dst = append(dst, w.q.now[item].X)
	default:
		dst = append(dst, w.q.now[item].Y)
	}
	return dst
}

// Delta implements MoveObjective.
func (w wayBack) Delta(places []Place, item int, to Place) int64 {
	was, will := w.one(item, places[item]), w.one(item, to)
	d := will - was
	switch {
	case was == 0 && will > 0:
		d += w.alone(places, item)
	case was > 0 && will == 0:
		d -= w.alone(places, item)
	}
	return d
}

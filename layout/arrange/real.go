package arrange

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"footplank/layout"
	"footplank/layout/wiring"
	"footplank/pack"
)

// Bounds of the search that lays real cables, common to all plans so that the
// answer does not depend on the time: our own choice.
const (
	realRuns  = 6_000 // cables laid
	stepsRun  = 10    // steps of the engine that one of them counts for
	placesRun = 50    // places estimated that count for one of them
	realTries = 40    // arrangements looked at for each change
	pairTries = 8     // places of one unit that another follows
	realGrid  = int64(20 * layout.Millimetre)
	// blockedCost is what a cable without a way counts for.
	blockedCost = 1000 * layout.Millimetre
	// leastGain is less than what a change must gain.
	leastGain = int64(layout.Millimetre) / 10
)

// real ranks arrangements by the runs that cables have on the board, around all
// that stands there, in place of their estimates.
type real struct {
	ctx  context.Context // looked at for each unit: on a large board one round of changes takes seconds
	pr   *problem
	c    *cost
	left int // cables that may still be laid, other work counted as such
}

// cost returns the objective with real runs; ok is false where plugs do not seat
// or the board does not go into its case.
func (r *real) cost(places []pack.Place) (sum int64, ok bool) {
	if !r.pr.goesIn(places) || !r.pr.seats(places) {
		return 0, false
	}
	p := r.pr.placed(places)
	sum = r.c.Cost(places)
	for i := range r.c.wires {
		if w := &r.c.wires[i]; w.a.item >= 0 && w.b.item >= 0 {
			sum -= int64(math.Round(w.count * lengthOf(r.c.tip(w.a, places[w.a.item]), r.c.tip(w.b, places[w.b.item]))))
		}
	}
	for _, l := range r.pr.lineups {
		for _, c := range wiring.Cables(p, p.LineupNamed(l.Name)) {
			r.left--
			if c.OffBoard() {
				continue
			}
			sum += int64(c.Run)
			if c.Blocked != "" {
				sum += int64(blockedCost)
			}
		}
	}
	return sum, true
}

// change is one way to go on from an arrangement.
type change struct {
	places []pack.Place
	cost   int64 // estimated
}

// byRealRuns goes on from where the search by estimates ended: of the changes of
// one unit's place, two units' exchanged, or two units' that a cable joins, that
// look best by their estimate it takes the first that is better by its real runs,
// as long as there is one and it may lay cables.
func (pr *problem) byRealRuns(ctx context.Context, places []pack.Place, c *cost, steps int64) []pack.Place {
	r := &real{ctx: ctx, pr: pr, c: c, left: realRuns}
	if steps > 0 {
		r.left = int(min(realRuns, steps/stepsRun))
	}
	now, ok := r.cost(places)
	if !ok {
		return places
	}
	try := func(from []change) bool {
		for _, x := range from {
			if r.left <= 0 || ctx.Err() != nil {
				return false
			}
			if cost, ok := r.cost(x.places); ok && cost < now-leastGain {
				places, now = x.places, cost
				return true
			}
		}
		return false
	}
	for try(r.changes(places, nil)) || try(r.pairs(places)) {
	}
	for try(r.changes(places, []int64{10, -10, 4, -4, 1, -1})) {
	}
	return places
}

// changes returns the changes that look best: to a grid of places, and exchanges;
// or by so many steps of the tape.
func (r *real) changes(places []pack.Place, steps []int64) []change {
	var out []change
	add := func(i int, to pack.Place) {
		if to != places[i] {
			out = append(out, change{cost: r.c.Delta(places, i, to), places: []pack.Place{{Region: i}, to}})
		}
	}
	for i := range places {
		if r.ctx.Err() != nil {
			return nil
		}
		if r.pr.items[i].held {
			continue
		}
		if steps != nil {
			for _, n := range steps {
				p := places[i]
				add(i, pack.Place{Region: p.Region, X: p.X + n*r.pr.step(), Y: p.Y})
				add(i, pack.Place{Region: p.Region, X: p.X, Y: p.Y + n*r.pr.step()})
			}
			continue
		}
		for k, g := range r.pr.pack.Items[i].Regions {
			r.grid(g, func(x, y int64) { add(i, pack.Place{Region: k, X: x, Y: y}) })
		}
	}
	r.left -= len(out) / placesRun
	slices.SortStableFunc(out, func(a, b change) int { return cmp.Compare(a.cost, b.cost) })
	var best []change
	for _, x := range out {
		i, to := int(x.places[0].Region), x.places[1]
		if len(best) == realTries {
			break
		}
		if r.pr.free(places, i, to) {
			q := slices.Clone(places)
			q[i] = to
			best = append(best, change{q, x.cost})
		}
	}
	if steps == nil {
		best = append(best, r.exchanges(places)...)
		slices.SortStableFunc(best, func(a, b change) int { return cmp.Compare(a.cost, b.cost) })
	}
	return best
}

// pairs returns the arrangements with two joined units moved: one to where it
// would cost least were the other not there, and that one to where it then costs
// least.
func (r *real) pairs(places []pack.Place) []change {
	var out []change
	was := r.c.Cost(places)
	for i := range places {
		if r.pr.items[i].held {
			continue
		}
		for _, j := range r.joined(i) {
			if r.left <= 0 || r.ctx.Err() != nil {
				return nil
			}
			for _, a := range r.gridBest(places, i, j, pairTries) {
				q := slices.Clone(places)
				q[i] = a
				for _, b := range r.gridBest(q, j, -1, 1) {
					q[j] = b
					out = append(out, change{q, r.c.Cost(q) - was})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b change) int { return cmp.Compare(a.cost, b.cost) })
	return out[:min(len(out), realTries)]
}

// joined returns the items that may move and that a cable joins to item i.
func (r *real) joined(i int) []int {
	var out []int
	for _, k := range r.c.of[i] {
		w := &r.c.wires[k]
		j := w.a.item + w.b.item - i
		if w.a.item >= 0 && w.b.item >= 0 && j != i && !r.pr.items[j].held && !slices.Contains(out, j) {
			out = append(out, j)
		}
	}
	return out
}

// gridBest returns the places of the grid, at most so many, at which item i costs
// least and is free of all items but one.
func (r *real) gridBest(places []pack.Place, i, but, most int) []pack.Place {
	type at struct {
		place pack.Place
		cost  int64
	}
	var all []at
	for k, g := range r.pr.pack.Items[i].Regions {
		r.grid(g, func(x, y int64) {
			p := pack.Place{Region: k, X: x, Y: y}
			all = append(all, at{p, r.c.Delta(places, i, p)})
		})
	}
	r.left -= len(all) / placesRun
	slices.SortStableFunc(all, func(a, b at) int { return cmp.Compare(a.cost, b.cost) })
	var out []pack.Place
	for _, x := range all {
		if len(out) == most {
			break
		}
		if r.pr.freeBut(places, i, but, x.place) {
			out = append(out, x.place)
		}
	}
	return out
}

// grid calls f for the places of a grid over a region, its corners among them.
func (r *real) grid(g pack.Region, f func(x, y int64)) {
	for x := g.X0; ; x = min(x+realGrid, g.X1) {
		for y := g.Y0; ; y = min(y+realGrid, g.Y1) {
			f(x, y)
			if y == g.Y1 {
				break
			}
		}
		if x == g.X1 {
			break
		}
	}
}

// exchanges returns the arrangements with two units in each other's place, their
// middles where the other's was.
func (r *real) exchanges(places []pack.Place) []change {
	var out []change
	was := r.c.Cost(places)
	for i := range places {
		if r.ctx.Err() != nil {
			return nil
		}
		for j := range places[:i] {
			if r.pr.items[i].held || r.pr.items[j].held {
				continue
			}
			q := slices.Clone(places)
			a, aok := r.into(i, places[i], j, places[j])
			b, bok := r.into(j, places[j], i, places[i])
			if !aok || !bok {
				continue
			}
			q[i], q[j] = a, b
			if r.pr.free(q, i, a) && r.pr.free(q, j, b) {
				out = append(out, change{q, r.c.Cost(q) - was})
			}
		}
	}
	return out
}

// into returns the place of item i with its middle where item j's is, or as near
// as its region allows.
func (r *real) into(i int, p pack.Place, j int, q pack.Place) (pack.Place, bool) {
	mine, other := &r.pr.items[i].spots[p.Region], &r.pr.items[j].spots[q.Region]
	w, d := mine.turn.Footprint(mine.unit.Body.W, mine.unit.Body.D)
	v, e := other.turn.Footprint(other.unit.Body.W, other.unit.Body.D)
	x, y := q.X+int64(v-w)/2, q.Y+int64(e-d)/2
	for k, g := range r.pr.pack.Items[i].Regions {
		s := &r.pr.items[i].spots[k]
		if s.surface == other.surface && s.turn == mine.turn {
			return pack.Place{Region: k, X: min(max(x, g.X0), g.X1), Y: min(max(y, g.Y0), g.Y1)}, true
		}
	}
	return pack.Place{}, false
}

// forEstimates leaves a part of the time, if there is an end to it, to the search
// by real runs.
func forEstimates(ctx context.Context) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok {
		return context.WithCancel(ctx)
	}
	return context.WithDeadline(ctx, end.Add(-min(time.Until(end)/4, time.Second)))
}

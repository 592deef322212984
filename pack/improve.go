package pack

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"sync/atomic"

	"footplank/pack/crew"
)

// improver walks from one arrangement to the next by small changes: an item to
// another place, two items exchanged, a few taken out and put back one by one.
// A change that costs more is taken with a chance that falls while a cycle
// lasts; each cycle begins at the best known and is twice as long as the last.
type improver struct {
	m      *model
	obj    Objective
	move   MoveObjective // obj, if it can tell changes
	lines  LineObjective // obj, if it knows lines
	rng    *rand.Rand
	l      *local // its spots are the arrangement
	places []Place
	cost   int64

	best     []Place
	bestCost int64
	loose    []int // items that have more than one place

	heat, scale float64
	cycle, left int64
	steps       int64
	undo        []undoSpot
	found       []choice
	worth       []int64 // lines that the objective knows
}

type undoSpot struct {
	item  int
	spot  spot
	place Place
}

func newImprover(m *model, obj Objective, seed int64, places []Place) *improver {
	w := &improver{m: m, obj: obj, l: newLocal(m, seed), rng: rand.New(rand.NewPCG(uint64(seed), 0xbf58476d1ce4e5b9)), cycle: 1000}
	w.move, _ = obj.(MoveObjective)
	w.lines, _ = obj.(LineObjective)
	w.adopt(places, obj.Cost(places))
	w.best, w.bestCost = slices.Clone(places), w.cost
	for i, cs := range m.cells {
		if len(cs) > 1 || cs[0].x0 < cs[0].x1 || cs[0].y0 < cs[0].y1 {
			w.loose = append(w.loose, i)
		}
	}
	return w
}

// adopt makes places the arrangement to go on from.
func (w *improver) adopt(places []Place, cost int64) {
	w.places, w.cost = slices.Clone(places), cost
	for i, p := range places {
		for c, cl := range w.m.cells[i] {
			if cl.region == p.Region && cl.has(p.X, p.Y) {
				w.l.pos[i] = spot{true, c, cl.kind, p.X, p.Y}
				break
			}
		}
	}
}

// run makes n steps, or fewer when stop is set.
func (w *improver) run(n int64, stop *atomic.Bool) {
	for ; n > 0 && !stop.Load(); n-- {
		w.steps++
		if w.left--; w.left < 0 {
			w.cycle *= 2
			w.left = w.cycle
			w.heat = 1
			w.adopt(w.best, w.bestCost)
		}
		w.heat *= math.Pow(0.002, 1/float64(w.cycle))
		w.step()
	}
}

// step tries one change.
func (w *improver) step() {
	old := w.cost
	w.undo = w.undo[:0]
	ok := false
	switch k := w.rng.IntN(16); {
	case k < 10:
		ok = w.relocate(w.loose[w.rng.IntN(len(w.loose))], 1)
	case k < 12:
		ok = w.relocate(w.loose[w.rng.IntN(len(w.loose))], 12)
	case k < 14:
		ok = w.exchange()
	default:
		ok = w.reinsert()
	}
	if ok && !w.accept(w.cost-old) {
		ok = false
	}
	if !ok {
		w.revert(old)
		return
	}
	if w.cost < w.bestCost {
		copy(w.best, w.places)
		w.bestCost = w.cost
	}
}

// accept decides about a change of the cost by d.
func (w *improver) accept(d int64) bool {
	if d <= 0 {
		return true
	}
	// The scale follows what changes for the worse cost.
	if w.scale == 0 {
		w.scale = float64(d)
	}
	w.scale += (float64(d) - w.scale) / 64
	t := w.scale * w.heat
	return t > 0 && w.rng.Float64() < math.Exp(-float64(d)/t)
}

func (w *improver) revert(cost int64) {
	for k := len(w.undo) - 1; k >= 0; k-- {
		u := w.undo[k]
		w.l.pos[u.item], w.places[u.item] = u.spot, u.place
	}
	w.cost = cost
}

// put moves item i to c, which is free.
func (w *improver) put(i int, c choice) {
	to := w.placeOf(i, c)
	w.undo = append(w.undo, undoSpot{i, w.l.pos[i], w.places[i]})
	w.cost += w.change(i, to)
	w.places[i] = to
	w.l.pos[i] = spot{true, c.cell, w.m.cells[i][c.cell].kind, c.x, c.y}
}

func (w *improver) placeOf(i int, c choice) Place {
	return Place{Region: w.m.cells[i][c.cell].region, X: c.x, Y: c.y}
}

// change is what moving i to place to adds to the cost.
func (w *improver) change(i int, to Place) int64 {
	if w.move != nil {
		return w.move.Delta(w.places, i, to)
	}
	from := w.places[i]
	w.places[i] = to
	c := w.obj.Cost(w.places)
	w.places[i] = from
	return c - w.cost
}

func (w *improver) lift(i int) {
	w.undo = append(w.undo, undoSpot{i, w.l.pos[i], w.places[i]})
	w.l.pos[i].placed = false
}

// improve makes res cheaper until the context ends, the steps are used up or
// nothing cheaper can exist. Several walks go on beside each other; now and
// then all go on from the best of them.
func improve(ctx context.Context, p *Problem, opt Options, workers int, res *Result, steps int64) {
	obj := opt.Objective
	res.Cost = obj.Cost(res.Places)
	least, bounded := int64(0), false
	if b, ok := obj.(BoundObjective); ok {
		least, bounded = b.Bound(res.Places, make([]bool, len(p.Items))), true
	}
	res.Optimal = len(p.Items) == 0 || bounded && res.Cost <= least
	if opt.Progress != nil {
		opt.Progress(Progress{Verdict: Fits, Places: slices.Clone(res.Places), Cost: res.Cost, Nodes: res.Nodes})
	}
	if res.Optimal || ctx.Err() != nil {
		return
	}
	m := compile(p, true)
	var stop atomic.Bool
	defer context.AfterFunc(ctx, func() { stop.Store(true) })()
	const walks = 2
	var ws [walks]*improver
	for k := range ws {
		ws[k] = newImprover(m, obj, opt.Seed+int64(k)*7919, res.Places)
	}
	if len(ws[0].loose) == 0 {
		res.Optimal = true // there is no other arrangement
		return
	}
	for round, left := 1, steps; !stop.Load() && (steps <= 0 || left > 0); round++ {
		portion := int64(500)
		if steps > 0 {
			portion = min(portion, (left+walks-1)/walks)
			left -= walks * portion
		}
		runWalks(ws[:], workers, portion, &stop)
		if !takeBest(ws[:], res, round%32 == 0) {
			continue
		}
		if opt.Progress != nil {
			opt.Progress(Progress{Verdict: Fits, Places: slices.Clone(res.Places), Cost: res.Cost, Nodes: res.Nodes})
		}
		if bounded && res.Cost <= least {
			res.Optimal = true
			break
		}
	}
	for _, w := range ws {
		res.Nodes += w.steps
	}
}

// takeBest notes the best of the walks in res and reports whether that is new.
// With share all walks keep it as theirs.
func takeBest(ws []*improver, res *Result, share bool) bool {
	better := false
	for _, w := range ws {
		if w.bestCost < res.Cost {
			res.Places, res.Cost = slices.Clone(w.best), w.bestCost
			better = true
		}
	}
	if share {
		for _, w := range ws {
			if w.bestCost > res.Cost {
				copy(w.best, res.Places)
				w.bestCost = res.Cost
			}
		}
	}
	return better
}

func runWalks(ws []*improver, workers int, n int64, stop *atomic.Bool) {
	if workers < 2 {
		for _, w := range ws {
			w.run(n, stop)
		}
		return
	}
	var walks crew.Crew
	for _, w := range ws {
		walks.Go(func() { w.run(n, stop) })
	}
	walks.Wait()
}

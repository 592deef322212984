package pack

import "slices"

// relocate moves item i to the best of up to tries free places.
func (w *improver) relocate(i, tries int) bool {
	w.lift(i)
	w.freePlaces(i)
	if len(w.found) == 0 {
		return false
	}
	best, bestCost := -1, int64(0)
	for ; tries > 0; tries-- {
		k := w.rng.IntN(len(w.found))
		if d := w.change(i, w.placeOf(i, w.found[k])); best < 0 || d < bestCost {
			best, bestCost = k, d
		}
	}
	w.put(i, w.found[best])
	return true
}

// exchange puts one item as near as it goes to where another was, and that one
// where the first was.
func (w *improver) exchange() bool {
	n := len(w.loose)
	if n < 2 {
		return false
	}
	i, j := w.rng.IntN(n), w.rng.IntN(n-1)
	if j >= i {
		j++
	}
	i, j = w.loose[i], w.loose[j]
	a, b := w.l.pos[i], w.l.pos[j]
	w.lift(i)
	w.lift(j)
	return w.putNear(i, b) && w.putNear(j, a)
}

func (w *improver) putNear(i int, s spot) bool {
	for range 3 {
		w.freePlaces(i)
		best, bestWay := -1, int64(0)
		for k, c := range w.found {
			way := max(c.x-s.x, s.x-c.x) + max(c.y-s.y, s.y-c.y)
			if best < 0 || way < bestWay {
				best, bestWay = k, way
			}
		}
		if best >= 0 {
			w.put(i, w.found[best])
			return true
		}
	}
	return false
}

// reinsert takes two to four items out and puts each back where that costs
// least just then.
func (w *improver) reinsert() bool {
	n := len(w.loose)
	items := w.rng.Perm(n)[:min(n, 2+w.rng.IntN(3))]
	for k, i := range items {
		items[k] = w.loose[i]
		w.lift(items[k])
	}
	for _, i := range items {
		if !w.relocateLifted(i) {
			return false
		}
	}
	return true
}

func (w *improver) relocateLifted(i int) bool {
	for range 3 {
		w.freePlaces(i)
		if len(w.found) > 0 {
			best, bestCost := -1, int64(0)
			for range 8 {
				k := w.rng.IntN(len(w.found))
				if d := w.change(i, w.placeOf(i, w.found[k])); best < 0 || d < bestCost {
					best, bestCost = k, d
				}
			}
			w.put(i, w.found[best])
			return true
		}
	}
	return false
}

// freePlaces fills found with places of one cell of item i at which it hits
// nothing: on lines through its present place, through edges of what is
// forbidden, that the objective knows and at random.
func (w *improver) freePlaces(i int) {
	w.found = w.found[:0]
	c := w.l.pos[i].cell
	if w.rng.IntN(3) == 0 {
		c = w.rng.IntN(len(w.m.cells[i]))
	}
	cl := w.m.cells[i][c]
	w.l.gather(i, cl)
	here := w.l.pos[i]
	for axis := 0; axis < 2; axis++ {
		lo, hi, at := cl.x0, cl.x1, here.x
		if axis == 1 {
			lo, hi, at = cl.y0, cl.y1, here.y
		}
		lines := [4]int64{min(max(at, lo), hi), lo + w.rng.Int64N(hi-lo+1), lo, hi}
		if len(w.l.hits) > 0 {
			for q := 2; q < 4; q++ {
				h := w.l.hits[w.rng.IntN(len(w.l.hits))]
				ends := [4]int64{h.x0, h.x1, h.y0, h.y1}
				lines[q] = ends[2*axis+w.rng.IntN(2)]
			}
		}
		if w.lines != nil {
			w.worth = w.lines.Lines(w.worth[:0], w.places, i, cl.region, axis)
			if n := len(w.worth); n > 0 {
				lines[0] = w.worth[w.rng.IntN(n)]
			}
		}
		for _, v := range lines {
			if lo <= v && v <= hi {
				w.openStretches(cl, c, axis, v, here)
			}
		}
	}
}

// openStretches adds the ends of the free stretches of a line of cell cl, a
// point inside each, and the one nearest to where the item is.
func (w *improver) openStretches(cl cell, c, axis int, at int64, here spot) {
	lo, hi, now := cl.y0, cl.y1, here.y
	if axis == 1 {
		lo, hi, now = cl.x0, cl.x1, here.x
	}
	spans := w.l.spans[:0]
	for _, h := range w.l.hits {
		if axis == 0 && h.x0 < at && at < h.x1 {
			spans = append(spans, span{a: h.y0, b: h.y1})
		} else if axis == 1 && h.y0 < at && at < h.y1 {
			spans = append(spans, span{a: h.x0, b: h.x1})
		}
	}
	w.l.spans = spans
	slices.SortFunc(spans, func(p, q span) int {
		switch {
		case p.a < q.a:
			return -1
		case p.a > q.a:
			return 1
		}
		return 0
	})
	add := func(v int64) {
		if axis == 0 {
			w.found = append(w.found, choice{cell: c, x: at, y: v})
		} else {
			w.found = append(w.found, choice{cell: c, x: v, y: at})
		}
	}
	stretch := func(a, b int64) {
		add(a)
		if b > a {
			add(b)
			add(a + w.rng.Int64N(b-a+1))
		}
		if a < now && now < b {
			add(now)
		}
	}
	from := lo
	for _, s := range spans {
		if s.a >= from {
			stretch(from, min(s.a, hi))
		}
		from = max(from, s.b)
		if from > hi {
			return
		}
	}
	stretch(from, hi)
}

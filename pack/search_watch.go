package pack

import (
	"cmp"
	"slices"
	"sort"
)

// watch is a clause to look at when its view reaches at. It is void once cl is
// nil.
type watch struct {
	cl *clause
	at int64
	// other is some other atom of the clause: while it holds there is
	// nothing to do.
	other atom
}

// watchList holds the watches of one view. A difference can be watched by
// thousands of clauses at as many values, of which a step passes only a few, so
// most of the list is kept in order of the values and the rest, which has come
// since, in a short tail.
type watchList struct {
	sorted, tail []watch
}

const watchTail = 40

func (wl *watchList) add(w watch) { wl.tail = append(wl.tail, w) }

// merge takes the tail into the order, and void watches out.
func (wl *watchList) merge() {
	slices.SortFunc(wl.tail, func(a, b watch) int { return cmp.Compare(a.at, b.at) })
	s := slices.DeleteFunc(wl.sorted, func(w watch) bool { return w.cl == nil })
	i, j := len(s)-1, len(wl.tail)-1
	s = append(s, wl.tail...)
	for k := len(s) - 1; j >= 0; k-- {
		if i >= 0 && s[i].at > wl.tail[j].at {
			s[k] = s[i]
			i--
		} else {
			s[k] = wl.tail[j]
			j--
		}
	}
	wl.sorted = s
	clear(wl.tail)
	wl.tail = wl.tail[:0]
}

// purge takes out the watches of forgotten clauses.
func (wl *watchList) purge() {
	gone := func(w watch) bool { return w.cl == nil || w.cl.gone }
	wl.sorted = slices.DeleteFunc(wl.sorted, gone)
	wl.tail = slices.DeleteFunc(wl.tail, gone)
}

// watchAtom has cl looked at when a is broken.
func (l *learner) watchAtom(a atom, cl *clause, other atom) {
	o := a.opposite()
	l.watches[o.s].add(watch{cl, o.c, other})
}

// wake looks at the clauses of which the step has just broken a watched atom.
func (l *learner) wake(st step) conflict {
	wl := &l.watches[st.s]
	if len(wl.tail) > watchTail {
		wl.merge()
	}
	from := sort.Search(len(wl.sorted), func(k int) bool { return wl.sorted[k].at > st.old })
	for k := from; k < len(wl.sorted) && wl.sorted[k].at <= st.now; k++ {
		w := &wl.sorted[k]
		if w.cl == nil || l.lb[w.other.s] >= w.other.c {
			continue
		}
		if c := l.visit(st.s, w); c != nil {
			return c
		}
	}
	keep := 0
	for k := range wl.tail {
		w := wl.tail[k]
		if w.at <= st.now && w.at > st.old && l.lb[w.other.s] < w.other.c {
			if c := l.visit(st.s, &w); c != nil {
				keep += copy(wl.tail[keep:], wl.tail[k:])
				wl.tail = wl.tail[:keep]
				return c
			}
			if w.cl == nil {
				continue
			}
		}
		wl.tail[keep] = w
		keep++
	}
	wl.tail = wl.tail[:keep]
	return nil
}

// visit finds the clause of w another atom to watch in place of the broken one,
// which makes w void, or draws the conclusion.
func (l *learner) visit(s int32, w *watch) conflict {
	cl := w.cl
	me := atom{s ^ 1, 1 - w.at}
	as := cl.atoms
	if as[0] == me {
		as[0], as[1] = as[1], as[0]
	}
	w.other = as[0]
	if l.holds(as[0]) {
		return nil
	}
	for j := 2; j < len(as); j++ {
		if !l.broken(as[j]) {
			as[1], as[j] = as[j], as[1]
			l.watchAtom(as[1], cl, as[0])
			w.cl = nil
			return nil
		}
	}
	return l.set(as[0], why{cl: cl, u: -1})
}

package pack

import "slices"

// loadBound says that what the cells taken cover of some zones is at most the
// room there.
type loadBound struct {
	takes [][]int64 // by item and cell
	room  int64
	// group, if set, tells by item what it counts with: of the items of one
	// group only the one that takes most counts.
	group   []int
	waiting bool
}

// addBound has b watched. Nothing may be decided yet.
func (l *learner) addBound(b *loadBound) {
	id := int32(len(l.bounds))
	for i, row := range b.takes {
		if slices.Min(row) == slices.Max(row) {
			continue
		}
		for _, a := range l.cellAt[i] {
			l.loadsOn[a.s^1] = append(l.loadsOn[a.s^1], id)
		}
	}
	l.bounds = append(l.bounds, b)
	b.waiting = true
	l.dirty = append(l.dirty, id)
}

// addLoads brings in the area bounds of choices of zones.
func (l *learner) addLoads(ts []tight) {
	for _, t := range ts {
		b := &loadBound{room: t.room}
		for i := range l.m.cells {
			row := make([]int64, len(l.m.cells[i]))
			for k := range row {
				for _, zn := range t.zones {
					row[k] += zn.covers[i][k].area
				}
			}
			b.takes = append(b.takes, row)
		}
		l.addBound(b)
	}
}

// check draws conclusions from the cells that are left to each item.
func (b *loadBound) check(l *learner) conflict {
	total, least, most := b.leasts(l)
	if total > b.room {
		return b.because(l, least, most, -1)
	}
	for i, row := range b.takes {
		spare := b.room - total + least[most[b.groupOf(i)]]
		for k, v := range row {
			if v <= spare || l.broken(l.cellAt[i][k]) {
				continue
			}
			not := l.cellAt[i][k].opposite()
			cl := &clause{atoms: []atom{not}}
			for _, a := range b.because(l, least, most, b.groupOf(i)) {
				cl.atoms = append(cl.atoms, a.opposite())
			}
			if c := l.set(not, why{cl: cl, u: -1}); c != nil {
				return c
			}
		}
	}
	return nil
}

func (b *loadBound) groupOf(i int) int {
	if b.group == nil {
		return i
	}
	return b.group[i]
}

// leasts returns the least that each item takes with the cells it has left, the
// item of each group that takes most, and what these take together.
func (b *loadBound) leasts(l *learner) (total int64, least []int64, most []int) {
	least = make([]int64, len(b.takes))
	most = slices.Repeat([]int{-1}, len(b.takes))
	for i, row := range b.takes {
		first := true
		for k, v := range row {
			if !l.broken(l.cellAt[i][k]) && (first || v < least[i]) {
				least[i], first = v, false
			}
		}
		if g := b.groupOf(i); most[g] < 0 || least[i] > least[most[g]] {
			most[g] = i
		}
	}
	for _, i := range most {
		if i >= 0 {
			total += least[i]
		}
	}
	return total, least, most
}

// because lists the cells whose loss makes the groups other than skip need at
// least what they do.
func (b *loadBound) because(l *learner, least []int64, most []int, skip int) conflict {
	var c conflict
	for g, i := range most {
		if i < 0 || g == skip {
			continue
		}
		for k, v := range b.takes[i] {
			if v < least[i] {
				c = append(c, l.cellAt[i][k].opposite())
			}
		}
	}
	return c
}

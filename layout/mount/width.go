package mount

import (
	"slices"

	"footplank/layout"
)

// job is a group of units with the best choice for each width of roll.
type job struct {
	group   []int
	members []*stand // those with room for a piece
	ground  *ground
	choices []choice // by width
	shared  bool
}

// layKind lays all units of one kind. All of them are cut from rolls of one
// width if one width holds all that can be held, for a player buys one roll
// rather than three; else each group has the width that suits it best. Rolls
// that the player has come first, and others only where those do not do.
func (b *bed) layKind(kind Kind) {
	var jobs []*job
	for _, group := range b.groups(kind) {
		j := &job{group: group, shared: len(group) > 1}
		for _, i := range group {
			if len(b.all[i].free) > 0 {
				j.members = append(j.members, b.all[i])
			}
		}
		if len(j.members) > 0 {
			j.ground = b.groundOf(j.members)
			jobs = append(jobs, j)
		}
	}
	roll := RollOf(b.p, kind)
	have := owned(b.p, kind)
	more := slices.DeleteFunc(slices.Clone(roll.Widths), func(w layout.Length) bool { return slices.Contains(have, w) })
	for _, widths := range [][]layout.Length{have, more} {
		for _, w := range widths {
			for _, j := range jobs {
				j.choices = append(j.choices, j.best(&b.chooser, w))
			}
		}
		if len(widths) > 0 && unheld(jobs) == 0 {
			break
		}
	}
	one := oneWidth(jobs)
	for _, j := range jobs {
		k := one
		if k < 0 {
			k = j.leader()
		}
		b.layGroup(kind, j.group, j.ground, j.choices[k])
	}
}

// best compares both directions.
func (j *job) best(by *chooser, w layout.Length) choice {
	best := by.choose(j.members, j.ground, false, w)
	if c := by.choose(j.members, j.ground, true, w); c.better(&best) {
		best = c
	}
	return best
}

// leader returns the number of the best choice.
func (j *job) leader() int {
	k := 0
	for i := range j.choices {
		if j.choices[i].better(&j.choices[k]) {
			k = i
		}
	}
	return k
}

// unheld counts the units that no width holds.
func unheld(jobs []*job) int {
	n := 0
	for _, j := range jobs {
		n += j.choices[j.leader()].unheld
	}
	return n
}

// oneWidth returns the number of the width that holds as many units as all
// widths together, with the fewest strips where units share a place and then the
// least roll; -1 if there is none.
func oneWidth(jobs []*job) int {
	if len(jobs) == 0 {
		return -1
	}
	least := unheld(jobs)
	best, bestCost := -1, [2]cost{}
	for k := range jobs[0].choices {
		n := 0
		var sum [2]cost
		for _, j := range jobs {
			c := &j.choices[k]
			n += c.unheld
			if j.shared {
				sum[0] += c.cost / sharedPiece
				sum[1] += c.cost % sharedPiece
			} else {
				sum[1] += c.cost
			}
		}
		if n == least && (best < 0 || slices.Compare(sum[:], bestCost[:]) < 0) {
			best, bestCost = k, sum
		}
	}
	return best
}

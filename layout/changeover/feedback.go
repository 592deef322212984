package changeover

import "slices"

// mostNodes bounds the search for the least set: far more than any board needs.
const mostNodes = 200_000

// feedback returns the smallest set of nodes without which the graph has no
// round, and whether it is proved smallest. next lists where each node's arrows
// go. The set is rising, and the same for the same graph.
func feedback(next [][]int) (set []int, proved bool) {
	f := &finder{next: next, gone: make([]bool, len(next))}
	for most := 0; ; most++ {
		if f.without(most) {
			slices.Sort(f.set)
			return f.set, true
		}
		if f.nodes > mostNodes {
			break
		}
	}
	clear(f.gone)
	f.set = nil
	for round := f.shortest(); round != nil; round = f.shortest() {
		f.take(slices.Min(round))
	}
	slices.Sort(f.set)
	return f.set, false
}

type finder struct {
	next  [][]int
	gone  []bool
	set   []int
	nodes int
}

func (f *finder) take(i int) {
	f.gone[i] = true
	f.set = append(f.set, i)
}

// without reports whether taking away at most so many more nodes leaves no
// round; then they are in the set. Every such set has a node of a shortest
// round, so each of those is tried. A node tried in vain is in no set that is
// looked for after it, which is not used: rounds are short.
func (f *finder) without(most int) bool {
	f.nodes++
	round := f.shortest()
	if round == nil {
		return true
	}
	if most == 0 || f.nodes > mostNodes {
		return false
	}
	slices.Sort(round)
	for _, i := range round {
		f.take(i)
		if f.without(most - 1) {
			return true
		}
		f.gone[i] = false
		f.set = f.set[:len(f.set)-1]
	}
	return false
}

// shortest returns the nodes of a shortest round, nil when there is none.
func (f *finder) shortest() []int {
	var best []int
	for s := range f.next {
		if f.gone[s] {
			continue
		}
		if r := f.roundFrom(s); r != nil && (best == nil || len(r) < len(best)) {
			best = r
		}
	}
	return best
}

// roundFrom returns a shortest round through s, by breadth.
func (f *finder) roundFrom(s int) []int {
	before := map[int]int{}
	queue := []int{s}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for _, k := range f.next[at] {
			if k == s {
				round := []int{at}
				for at != s {
					at = before[at]
					round = append(round, at)
				}
				return round
			}
			if _, seen := before[k]; !seen && !f.gone[k] {
				before[k] = at
				queue = append(queue, k)
			}
		}
	}
	return nil
}

package power

import "slices"

// team is the demands of one unit of a slot, one for each line-up that it is
// in: it is better if all of them take one outlet.
type team []int

// teams gathers the demands that would rather have one outlet together.
func (pr *problem) teams() (out []team) {
	for from := 0; from < len(pr.demands); {
		to := from + 1
		for to < len(pr.demands) && pr.demands[to].unit == pr.demands[from].unit {
			to++
		}
		if to-from > 1 && !pr.asks {
			t := team{}
			for i := from; i < to; i++ {
				t = append(t, i)
			}
			out = append(out, t)
		}
		from = to
	}
	return out
}

// weights are what makes one map better than another before outlets' own costs
// do, in the order of the package's words: each is more than all that comes
// after it can be in one map.
type weights struct {
	again   int64 // a team's further outlet
	reverse int64 // a reversing lead
	crowd   int64 // a further unit on an outlet
	leave   int64 // a demand without an outlet
}

// most bounds a weight so that no sum of them is too much for an int64. Only
// boards that share outlets, want reversing leads and cannot feed every unit, all
// at once and with dozens of units, come near it.
const most = never >> 12

func (pr *problem) weigh(teams []team, leave bool) weights {
	var w weights
	room, flips, pairs := int64(1), int64(0), int64(0)
	for i := range pr.demands {
		d := &pr.demands[i]
		some, all := false, true
		for _, o := range d.can.list() {
			some, all = some || d.swapped[o], all && d.swapped[o]
		}
		if some && (leave || !all) {
			flips += int64(len(d.lineups))
		}
		for k := range d.lineups {
			low, high := never, int64(0)
			if leave { // see without
				low, high = 0, int64(len(pr.demands)-i)
			}
			for _, o := range d.can.list() {
				low, high = min(low, d.cost[k][o]), max(high, d.cost[k][o])
			}
			room += max(high-low, 0)
		}
	}
	for _, r := range pr.rows {
		pairs += int64(len(r)*(len(r)-1)) / 2
	}
	more := int64(0)
	for _, t := range teams {
		more += int64(len(t) - 1)
	}
	w.again = min(room*scale, most)
	room = min(room*scale+w.again*more, most)
	if w.reverse = 0; flips > 0 {
		w.reverse = room
		room = min(room+w.reverse*flips, most)
	}
	if w.crowd = 0; pr.share {
		w.crowd = room
		room = min(room+w.crowd*pairs, most)
	}
	w.leave = room
	return w
}

// worth returns what a map costs, in the search's costs.
func (s *search) worth(at []int) (total int64) {
	for i, o := range at {
		d := &s.demands[i]
		for k := range d.lineups {
			if o == nowhere {
				total += s.without(i)
			} else {
				total += s.base[i][k*len(s.outlets)+o]
			}
		}
	}
	if s.share {
		on := make([]int64, len(s.outlets))
		for _, rows := range s.rows {
			clear(on)
			for _, i := range rows {
				if o := at[i]; o != nowhere {
					total += on[o] * s.weights.crowd
					on[o]++
				}
			}
		}
	}
	for _, t := range s.team {
		total += int64(max(s.spread(t, at)-1, 0)) * s.weights.again
	}
	return total
}

// without is what a demand without an outlet costs in one line-up: the later in
// the plan, the sooner left unfed.
func (s *search) without(i int) int64 {
	return s.weights.leave + int64(len(s.demands)-i)*scale
}

// spread counts the outlets that a team takes.
func (s *search) spread(t team, at []int) (n int) {
	for x, i := range t {
		if at[i] != nowhere && !slices.ContainsFunc(t[:x], func(j int) bool { return at[j] == at[i] }) {
			n++
		}
	}
	return n
}

// settledOn counts the outlets that a team's settled demands take in a branch.
func (s *search) settledOn(b *branch, t team) (n int) {
	seen := newSet(len(s.outlets))
	for _, i := range t {
		if b.done[i] {
			for w := range seen {
				seen[w] |= b.can[i][w]
			}
		}
	}
	return seen.size()
}

// bound is the least that a map of the branch costs. A team's members pay, for
// each outlet, shares of one weight among them: together never more than the
// outlets that they take, and one of these is free. Of a loose team, which takes
// two at least, nothing is in the shares.
func (s *search) bound(b *branch) int64 {
	total := sum(b.cost)
	for n, t := range s.team {
		if b.loose[n] {
			total += int64(max(s.settledOn(b, t), 2)-1) * s.weights.again
		} else {
			total -= s.weights.again
		}
	}
	return total
}

// divide gives each member of a team its part of what an outlet costs the team.
func (s *search) divide() {
	n := len(s.outlets)
	for _, t := range s.team {
		for o := range n {
			var who []int
			for _, i := range t {
				if s.demands[i].can.has(o) {
					who = append(who, i)
				}
			}
			for x, i := range who {
				part := s.weights.again / int64(len(who))
				if x == 0 {
					part += s.weights.again % int64(len(who))
				}
				s.shares[i][o] += part
			}
		}
	}
}

// even mends a team's parts of an outlet after they were moved: none below
// nothing, all together the weight of one outlet.
func (s *search) even(t team, o int) {
	over, first := -s.weights.again, -1
	for _, i := range t {
		if !s.demands[i].can.has(o) {
			continue
		}
		s.shares[i][o] = max(s.shares[i][o], s.base[i][o])
		over += s.shares[i][o] - s.base[i][o]
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return
	}
	if over < 0 {
		s.shares[first][o] -= over
	}
	for _, i := range t {
		if over > 0 && s.demands[i].can.has(o) {
			take := min(over, s.shares[i][o]-s.base[i][o])
			s.shares[i][o] -= take
			over -= take
		}
	}
}

// swing adds, to what the shares of fixed demands are to be moved by, what the
// parts of teams that are not on one outlet are.
func (s *search) swing(b *branch, move [][]int64) [][]int64 {
	n := len(s.outlets)
	for _, t := range s.team {
		if s.together(b, t) {
			continue
		}
		if move == nil {
			move = make([][]int64, len(s.demands))
		}
		votes := make([]int64, n)
		for _, i := range t {
			if o := s.taken(b, s.demands[i].lineups[0], i); o != nowhere {
				votes[o]++
			}
		}
		for _, i := range t {
			move[i] = make([]int64, n)
			for o, v := range votes {
				if s.demands[i].can.has(o) {
					move[i][o] = -v
				}
			}
			if o := s.taken(b, s.demands[i].lineups[0], i); o != nowhere {
				move[i][o] += int64(len(t))
			}
		}
	}
	return move
}

// together reports whether a team takes one outlet in a branch's assignments.
func (s *search) together(b *branch, t team) bool {
	first := s.taken(b, s.demands[t[0]].lineups[0], t[0])
	return !slices.ContainsFunc(t[1:], func(i int) bool { return s.taken(b, s.demands[i].lineups[0], i) != first })
}

// loosen marks the team of a demand that was just settled if its settled
// demands are on different outlets now, and returns the line-ups in which its
// members then cost something else.
func (s *search) loosen(b *branch, i int) (stale []int) {
	n := s.member[i]
	if n < 0 || b.loose[n] || s.settledOn(b, s.team[n]) < 2 {
		return nil
	}
	b.loose[n] = true
	for _, j := range s.team[n] {
		stale = append(stale, s.demands[j].lineups...)
	}
	return stale
}

// note takes a map that holds, and what can be made of it, for the answer if it
// is the best yet.
func (s *search) note(at []int) {
	cost := s.worth(at)
	if cost >= s.ans.cost {
		return
	}
	if len(s.team) > 0 {
		at, cost = s.calm(at, cost)
	}
	s.ans.at, s.ans.cost = at, cost
	s.limit = min(s.limit, s.steps+s.improve)
}

// doubt goes on in a branch whose assignments are a map, as long as that map
// costs more than the bound of the branch: a team then takes more outlets than
// its shares pay for. Either the team takes one outlet, each in turn, or two at
// least; of these, member after member is settled.
func (s *search) doubt(b *branch) bool {
	worst, gap := -1, int64(0)
	for n, t := range s.team {
		if g := s.unpaid(b, n); g > gap && (!b.loose[n] || s.settledOn(b, t) < len(t)) && s.open(b, t) >= 0 {
			worst, gap = n, g
		}
	}
	if worst < 0 {
		return false
	}
	t := s.team[worst]
	if b.loose[worst] || s.leave || slices.ContainsFunc(t, func(i int) bool { return b.done[i] }) {
		return s.each(b, s.open(b, t))
	}
	for _, o := range s.common(b, t) {
		c := b
		for _, i := range t {
			if c != nil {
				c = s.settle(c, i, o)
			}
		}
		if c != nil {
			s.split(c)
		}
		if s.halt {
			return false
		}
	}
	c := b.copied()
	c.loose[worst] = true
	for _, i := range t {
		for _, l := range s.demands[i].lineups {
			s.assign(c, l)
		}
	}
	s.split(c)
	return false
}

// unpaid is by how much the outlets that a team takes in a branch's assignments
// cost more than the bound has for them.
func (s *search) unpaid(b *branch, n int) int64 {
	t := s.team[n]
	paid, seen := int64(0), newSet(len(s.outlets))
	for _, i := range t {
		if o := s.taken(b, s.demands[i].lineups[0], i); o != nowhere {
			seen.add(o)
			paid += s.shares[i][o] - s.base[i][o]
		}
	}
	paid -= s.weights.again
	if b.loose[n] {
		paid = int64(max(s.settledOn(b, t), 2)-1) * s.weights.again
	}
	return int64(max(seen.size()-1, 0))*s.weights.again - paid
}

// open returns the member of a team with the fewest outlets that is not
// settled, or -1.
func (s *search) open(b *branch, t team) int {
	best := -1
	for _, i := range t {
		if !b.done[i] && (best < 0 || b.can[i].size() < b.can[best].size()) {
			best = i
		}
	}
	return best
}

// common returns the outlets that all of a team may take, those first that most
// of them want.
func (s *search) common(b *branch, t team) []int {
	all := slices.Clone(b.can[t[0]])
	votes := make([]int, len(s.outlets))
	for _, i := range t {
		for w := range all {
			all[w] &= b.can[i][w]
		}
		if o := s.taken(b, s.demands[i].lineups[0], i); o != nowhere {
			votes[o]++
		}
	}
	list := all.list()
	slices.SortStableFunc(list, func(x, y int) int { return votes[y] - votes[x] })
	return list
}

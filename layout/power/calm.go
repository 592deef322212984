package power

import (
	"math/bits"
	"slices"
)

// calmWork bounds the assignments that are made to calm one map.
const calmWork = 600

// calmer holds the memory of calm.
type calmer struct {
	asg   assignment
	costs []int64
	rows  []int
	on    []int    // fixed units on each outlet
	masks []uint64 // settings left to each outlet
	work  int
}

// calm makes a map cheaper in two ways, with fixed units where they are. A sweep
// gives the slots' units of one line-up after the other the outlets that are
// best while all other line-ups stay as they are. A push puts a unit that
// changes outlets on one of them in all of its line-ups, and sweeps. It takes
// the map, which holds and costs so much, and returns another that does.
func (s *search) calm(at []int, cost int64) ([]int, int64) {
	s.calmer.work = calmWork
	at, _ = s.steady(s.sweep(slices.Clone(at), cost))
	s.swaps(at)
	return s.sweep(at, s.worth(at))
}

// steady pushes teams as long as that makes a map cheaper.
func (s *search) steady(at []int, cost int64) ([]int, int64) {
	for again := true; again; {
		again = false
		for _, t := range s.team {
			for _, o := range s.pushes(t, at) {
				if s.calmer.work <= 0 {
					return at, cost
				}
				try := slices.Clone(at)
				if !s.push(t, o, try) || s.broken(try) != nil {
					continue
				}
				if try, c := s.sweep(try, s.worth(try)); c < cost {
					at, cost, again = try, c, true
					break
				}
			}
		}
	}
	return at, cost
}

// pushes returns the outlets that a team might be pushed to, those first that it
// is on already; none if it is on one.
func (s *search) pushes(t team, at []int) []int {
	if s.spread(t, at) < 2 {
		return nil
	}
	votes := make([]int, len(s.outlets))
	var list []int
	for o := range s.outlets {
		if slices.ContainsFunc(t, func(i int) bool { return !s.demands[i].can.has(o) }) {
			continue
		}
		for _, i := range t {
			if at[i] == o {
				votes[o]++
			}
		}
		list = append(list, o)
	}
	slices.SortStableFunc(list, func(x, y int) int { return votes[y] - votes[x] })
	return list
}

// push puts a team on an outlet and lets the others of its line-ups make room.
func (s *search) push(t team, o int, at []int) bool {
	for _, i := range t {
		if at[i] != o && !s.refit(s.demands[i].lineups[0], at, i, o) {
			return false
		}
	}
	return true
}

// sweep refits line-up after line-up as long as that makes the map cheaper.
func (s *search) sweep(at []int, cost int64) ([]int, int64) {
	for still := 0; still < len(s.rows); {
		for l := range s.rows {
			try := slices.Clone(at)
			if still++; s.calmer.work > 0 && s.refit(l, try, -1, nowhere) && !slices.Equal(try, at) {
				if c := s.worth(try); c < cost && s.broken(try) == nil {
					at, cost, still = try, c, 0
				}
			}
			if still >= len(s.rows) {
				break
			}
		}
	}
	return at, cost
}

// refit gives the slots' units of a line-up the outlets that are best while the
// other line-ups stay as they are, one of them a given outlet. What several
// units must keep together is for the caller to look at.
func (s *search) refit(l int, at []int, pinned, to int) bool {
	c := &s.calmer
	c.work--
	n := len(s.outlets)
	if n == 0 {
		return false // there is nothing to give
	}
	c.rows = c.rows[:0]
	c.on, c.masks = zeros(c.on, n), zeros(c.masks, n)
	on := c.on
	for _, i := range s.rows[l] {
		if len(s.demands[i].lineups) == 1 {
			c.rows = append(c.rows, i)
		} else if at[i] != nowhere {
			on[at[i]]++
		}
	}
	columns := n * s.places
	if s.leave {
		columns += len(c.rows)
	}
	s.masksWithout(at, l)
	if need := len(c.rows) * columns; len(c.costs) < need {
		c.costs = make([]int64, need)
	}
	for r, i := range c.rows {
		into := c.costs[r*columns : (r+1)*columns]
		for k := range into {
			into[k] = never
		}
		s.reprice(i, at, into)
		if s.leave {
			into[n*s.places+r] = s.without(i)
		}
		if i == pinned {
			for k := range into {
				if k >= n*s.places || k%n != to {
					into[k] = never
				}
			}
		}
	}
	if !c.asg.solve(len(c.rows), columns, c.costs) {
		return false
	}
	for r, i := range c.rows {
		if at[i] = c.asg.columnOf[r] % n; c.asg.columnOf[r] >= n*s.places {
			at[i] = nowhere
		}
	}
	return true
}

// reprice writes what a demand costs on each outlet while the rest of its team
// stays where it is.
func (s *search) reprice(i int, at []int, into []int64) {
	d, n, c := &s.demands[i], len(s.outlets), &s.calmer
	var mates team
	if s.member[i] >= 0 {
		mates = s.team[s.member[i]]
	}
	for w, left := range d.can {
		for ; left != 0; left &= left - 1 {
			o := w*64 + bits.TrailingZeros64(left)
			if d.fit[o]&c.masks[o] == 0 {
				continue
			}
			cost := s.base[i][o]
			if mates != nil && !slices.ContainsFunc(mates, func(j int) bool { return j != i && at[j] == o }) {
				cost += s.weights.again
			}
			for k := c.on[o]; k < s.places; k++ {
				if k == 0 || !d.alone[o] {
					into[(k-c.on[o])*n+o] = cost + int64(k)*s.weights.crowd
				}
			}
		}
	}
}

// masksWithout finds the settings that all but the slots' units of a line-up
// leave to each outlet.
func (s *search) masksWithout(at []int, l int) {
	masks := s.calmer.masks
	for o := range masks {
		masks[o] = 1<<len(s.outlets[o].settings) - 1
	}
	for j, o := range at {
		if ls := s.demands[j].lineups; o != nowhere && (len(ls) > 1 || ls[0] != l) {
			masks[o] &= s.demands[j].fit[o]
		}
	}
}

// swap trades two outlets, for a demand and all that this moves: its team on
// them, whoever is in the way of these, their teams, and so on (in a colouring of
// a graph, a Kempe chain). Nobody is on more outlets than before.
//
//	        barn   pit   solo
//	out1    squash squash rasp      squash to out2: buzz must leave it in
//	out2    buzz   hum    buzz      barn, and so in solo; rasp leaves out1
//
// It reports whether that made the map cheaper, and if so changes it.
func (s *search) swap(c *chains, from, a, b int) bool {
	n := len(s.outlets)
	c.found = append(c.found[:0], from)
	c.stamp++
	c.seen[from] = c.stamp
	gain := int64(0)
	for x := 0; x < len(c.found); x++ {
		i := c.found[x]
		d := &s.demands[i]
		to := a + b - c.at[i]
		if !d.can.has(to) {
			return false
		}
		for k, l := range d.lineups {
			gain += s.base[i][k*n+c.at[i]] - s.base[i][k*n+to]
			if j := c.on[l*n+to]; j >= 0 && c.seen[j] != c.stamp {
				c.seen[j] = c.stamp
				c.found = append(c.found, j)
			}
		}
		if s.member[i] < 0 {
			continue
		}
		for _, j := range s.team[s.member[i]] {
			if (c.at[j] == a || c.at[j] == b) && c.seen[j] != c.stamp {
				c.seen[j] = c.stamp
				c.found = append(c.found, j)
			}
		}
	}
	if gain <= 0 {
		return false
	}
	c.trade(a, b)
	if s.broken(c.at) != nil {
		c.trade(a, b)
		return false
	}
	c.write(s)
	return true
}

// chains holds the memory of swap.
type chains struct {
	at    []int
	on    []int // for each line-up and outlet the demand on it, or -1
	seen  []int
	stamp int
	found []int
}

func (c *chains) trade(a, b int) {
	for _, i := range c.found {
		c.at[i] = a + b - c.at[i]
	}
}

func (c *chains) write(s *search) {
	n := len(s.outlets)
	for i := range c.on {
		c.on[i] = -1
	}
	for i, o := range c.at {
		if o != nowhere {
			for _, l := range s.demands[i].lineups {
				c.on[l*n+o] = i
			}
		}
	}
}

// swaps trades outlets as long as that makes a map cheaper, a bounded number of
// times over. Where outlets are shared it does nothing.
func (s *search) swaps(at []int) {
	if s.places > 1 {
		return
	}
	c := &chains{at: at, on: make([]int, len(s.rows)*len(s.outlets)), seen: make([]int, len(at))}
	c.write(s)
	for round, again := 0, true; again && round < 8; round++ {
		again = false
		for i := range at {
			for _, o := range s.demands[i].can.list() {
				if at[i] != nowhere && o != at[i] && s.swap(c, i, at[i], o) {
					again = true
				}
			}
		}
	}
}

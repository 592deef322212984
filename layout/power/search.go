package power

import (
	"cmp"
	"context"
	"math"
	"math/bits"
	"slices"
)

// Steps that a search may take, counted in line-ups assigned, so that the same
// plan always gets the same answer.
const (
	improveSteps = 250           // after a first map, for a better one
	orderSteps   = 60            // the same when outputs are only taken in order
	decideSteps  = 50_000        // for a first map, or the proof that there is none
	rounds       = 12            // of moving the multipliers
	mostWork     = 1_000_000_000 // of one assignment of all line-ups, times the steps
)

// nowhere is the place of a demand that no outlet feeds.
const nowhere = -1

// answer is what a search says.
type answer struct {
	at    []int // for each demand its outlet, or nowhere; nil without a map
	cost  int64 // in costs of the problem
	best  bool  // no map costs less: proved
	none  bool  // there is no map: proved
	stuck []int // demands that compete in line-up stuckIn, if that is why
	in    int
}

// search is branch and bound over the demands; see the package's words.
type search struct {
	*problem
	ctx     context.Context
	leave   bool // whether a demand may be left unfed
	places  int  // how many units an outlet may take
	team    []team
	weights weights
	base    [][]int64 // cost of each demand for each of its line-ups and outlets
	shares  [][]int64 // the same, multipliers and parts of teams in
	asg     assignment
	costs   []int64 // of one line-up, a buffer
	member  []int   // for each demand its team, or -1
	calmer  calmer
	steps   int
	limit   int // of steps
	enough  int // steps after which line-ups are brought no closer
	halt    bool
	ans     answer
}

// branch is a part of all maps: what each demand may still take.
type branch struct {
	can    []set
	done   []bool   // demands that have their outlet for good, or none
	masks  []uint64 // settings left to each outlet
	choice [][]int  // for each line-up, the outlets of its rows in the cheapest assignment
	cost   []int64  // for each line-up, of that assignment
	loose  []bool   // teams that take two outlets at least
}

// search searches for the cheapest map.
func (pr *problem) search(ctx context.Context, leave bool) answer {
	s := &search{problem: pr, ctx: ctx, leave: leave, places: 1, team: pr.teams()}
	work := 1
	for _, r := range pr.rows {
		if pr.share {
			s.places = max(s.places, pr.mostSharing(r))
		}
		work += len(r) * len(r) * (len(pr.outlets) + 1)
	}
	s.limit = max(50, min(decideSteps, mostWork/(work*s.places/max(len(pr.rows), 1)+1)))
	s.enough = s.limit
	s.ans.cost = never
	b := s.root()
	for l := range pr.rows {
		if !s.assign(b, l) {
			s.ans.none = true
			s.ans.in = l
			for _, r := range s.asg.stuck {
				s.ans.stuck = append(s.ans.stuck, pr.rows[l][r])
			}
			return s.ans
		}
	}
	if pr.start != nil {
		if pr.broken(pr.start) == nil {
			s.note(pr.start)
		}
	}
	s.agree(b)
	whole := s.split(b)
	s.ans.none = whole && !s.halt && s.ans.at == nil
	s.ans.best = s.ans.at != nil && !s.halt
	return s.ans
}

// mostSharing returns how many units of a line-up one output can feed at most:
// the strongest output, all units like the weakest.
func (pr *problem) mostSharing(rows []int) int {
	rating, draw := 0, math.MaxInt
	for o := range pr.outlets {
		for _, st := range pr.outlets[o].settings {
			rating = max(rating, st.Milliamps)
		}
	}
	for _, i := range rows {
		draw = min(draw, pr.demands[i].unit.Draw.Milliamps)
	}
	return min(len(rows), rating*(100-pr.spare)/100/max(draw, 1))
}

func (s *search) root() *branch {
	b := &branch{choice: make([][]int, len(s.rows)), cost: make([]int64, len(s.rows)), loose: make([]bool, len(s.team))}
	for o := range s.outlets {
		b.masks = append(b.masks, 1<<len(s.outlets[o].settings)-1)
	}
	s.weights = s.weigh(s.team, s.leave)
	for i := range s.demands {
		d := &s.demands[i]
		b.can = append(b.can, d.can)
		var costs []int64
		for k := range d.lineups {
			for o, c := range d.cost[k] {
				c *= scale
				if d.swapped[o] {
					c += s.weights.reverse
				}
				costs = append(costs, c)
			}
		}
		s.base, s.shares = append(s.base, costs), append(s.shares, slices.Clone(costs))
	}
	s.member = slices.Repeat([]int{-1}, len(s.demands))
	for n, t := range s.team {
		for _, i := range t {
			s.member[i] = n
		}
	}
	s.divide()
	b.done = make([]bool, len(s.demands))
	return b
}

// assign finds the cheapest assignment of one line-up.
func (s *search) assign(b *branch, l int) bool {
	s.steps++
	rows, n := s.rows[l], len(s.outlets)
	columns := n * s.places
	if s.leave {
		columns += len(rows)
	}
	if cap(s.costs) < len(rows)*columns {
		s.costs = make([]int64, len(rows)*columns)
	}
	costs := s.costs[:len(rows)*columns]
	for r, i := range rows {
		s.spell(b, l, i, costs[r*columns:(r+1)*columns])
		if s.leave && (!b.done[i] || b.can[i].size() == 0) {
			costs[r*columns+n*s.places+r] = s.without(i)
		}
	}
	if !s.asg.solve(len(rows), columns, costs) {
		return false
	}
	b.cost[l] = s.asg.total
	b.choice[l] = make([]int, len(rows))
	for r, c := range s.asg.columnOf {
		if c >= n*s.places {
			b.choice[l][r] = nowhere
		} else {
			b.choice[l][r] = c % n
		}
	}
	return true
}

// spell writes what a demand costs in each column of a line-up's assignment: the
// outlets, and behind them the outlets again for each further unit on them.
func (s *search) spell(b *branch, l, i int, into []int64) {
	d, n := &s.demands[i], len(s.outlets)
	mine := s.shares[i][d.part(l)*n:]
	if t := s.member[i]; t >= 0 && b.loose[t] {
		mine = s.base[i]
	}
	for c := range into {
		into[c] = never
	}
	for w, left := range b.can[i] {
		for ; left != 0; left &= left - 1 {
			o := w*64 + bits.TrailingZeros64(left)
			for k := range s.places {
				if k == 0 || !d.alone[o] {
					into[k*n+o] = mine[o] + int64(k)*s.weights.crowd
				}
			}
		}
	}
}

// dive looks for a map quickly: it settles the demands that disagree one after
// the other where most line-ups want them.
func (s *search) dive(b *branch) {
	for b != nil && s.ctx.Err() == nil {
		i := s.next(b)
		if i < 0 {
			return
		}
		b = s.settle(b, i, s.wishes(b, i)[0])
	}
}

// What next says of a branch in which there is nothing to branch on.
const (
	isMap = -1 // its assignments are a map, which is noted if it is the best yet
	isBad = -2 // its settled demands break a rule
)

// next returns the demand to branch on: one on which line-ups disagree, else
// one of those that break a rule together.
func (s *search) next(b *branch) int {
	best := isBad
	fewer := func(i int) bool { return best < 0 || b.can[i].size() < b.can[best].size() }
	for i := range s.demands {
		if len(s.demands[i].lineups) > 1 && !s.agreed(b, i) && fewer(i) {
			best = i
		}
	}
	if best >= 0 {
		return best
	}
	at := make([]int, len(s.demands))
	for i := range at {
		at[i] = s.taken(b, s.demands[i].lineups[0], i)
	}
	broken := s.broken(at)
	if broken == nil {
		s.note(at)
		return isMap
	}
	for _, i := range broken {
		if !b.done[i] && fewer(i) {
			best = i
		}
	}
	return best
}

// wishes returns the outlets that a demand may take, those first that most
// line-ups want, then the cheapest; nowhere is the last when that may be.
func (s *search) wishes(b *branch, i int) []int {
	d := &s.demands[i]
	list := b.can[i].list()
	votes, costs := map[int]int{}, map[int]int64{}
	for _, l := range d.lineups {
		votes[s.taken(b, l, i)]++
	}
	for _, o := range list {
		for k := range d.lineups {
			costs[o] += d.cost[k][o]
		}
	}
	slices.SortStableFunc(list, func(x, y int) int {
		return cmp.Or(cmp.Compare(votes[y], votes[x]), cmp.Compare(costs[x], costs[y]))
	})
	if s.leave {
		list = append(list, nowhere)
	}
	return list
}

// split searches a branch. It reports whether the branch is proved to hold no
// map at all.
func (s *search) split(b *branch) bool {
	if s.steps > s.limit || s.ctx.Err() != nil {
		s.halt = true
		return false
	}
	if s.tooMuch(b) {
		return true
	}
	if s.ans.at != nil && s.bound(b) > s.ans.cost-scale {
		return false
	}
	i := s.next(b)
	if i == isMap {
		return s.doubt(b)
	}
	if i < 0 {
		return true
	}
	return s.each(b, i)
}

// each searches the parts of a branch in which a demand takes one outlet each.
func (s *search) each(b *branch, i int) bool {
	none := true
	var dead []int // classes whose untouched outlets lead nowhere
	for _, o := range s.wishes(b, i) {
		fresh := o != nowhere && s.untouched(b, o, i)
		if fresh && slices.Contains(dead, s.class[o]) {
			continue
		}
		c := s.settle(b, i, o)
		empty := c == nil || s.split(c)
		if s.halt {
			return false
		}
		none = none && empty
		if empty && fresh {
			dead = append(dead, s.class[o])
		}
	}
	return none
}

// untouched reports whether no demand but i is settled on the outlet.
func (s *search) untouched(b *branch, o, i int) bool {
	for j := range b.can {
		if j != i && b.done[j] && b.can[j].has(o) {
			return false
		}
	}
	return b.masks[o] == 1<<len(s.outlets[o].settings)-1
}

// settle returns the part of a branch in which a demand takes an outlet, or
// nil when some line-up has no assignment then.
func (s *search) settle(b *branch, i, o int) *branch {
	c := b.copied()
	c.done[i] = true
	c.can[i] = newSet(len(s.outlets))
	if o != nowhere {
		c.can[i].add(o)
		c.masks[o] &= s.demands[i].fit[o]
		for j := range c.can {
			if j != i && c.can[j].has(o) && s.demands[j].fit[o]&c.masks[o] == 0 {
				c.can[j] = slices.Clone(c.can[j])
				c.can[j].drop(o)
			}
		}
	}
	stale := s.loosen(c, i)
	for l, rows := range s.rows {
		again := slices.Contains(stale, l)
		for r, j := range rows {
			at := c.choice[l][r]
			again = again || j == i && at != o || j != i && at != nowhere && !c.can[j].has(at)
		}
		if again && !s.assign(c, l) {
			return nil
		}
	}
	return c
}

// copied returns a branch to be narrowed; what its sets are of is shared.
func (b *branch) copied() *branch {
	return &branch{can: slices.Clone(b.can), masks: slices.Clone(b.masks), choice: slices.Clone(b.choice),
		cost: slices.Clone(b.cost), done: slices.Clone(b.done), loose: slices.Clone(b.loose)}
}

func sum(list []int64) (total int64) {
	for _, n := range list {
		total += n
	}
	return total
}

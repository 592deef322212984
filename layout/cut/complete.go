package cut

import (
	"cmp"
	"slices"
)

// Bounds of a search's memory.
const (
	maxWays = 4000    // ways to fill one bar that are looked at
	maxSeen = 1 << 18 // states known to fail
)

// completion is a search for a list of a given number of bars.
type completion struct {
	*solver
	steps int
	left  []int // pieces not cut yet
	bars  []pattern
	seen  map[string]int // state -> most bars that were not enough
	short bool           // something was left out: no proof
	ended bool           // out of steps
	key   []byte
}

// complete looks for a list of n bars, within a number of steps. It keeps the
// list it finds; when there is none it raises the bound. It reports whether it
// did one of the two.
func (s *solver) complete(n, steps int) bool {
	list, none := s.into(n, s.count, steps)
	switch {
	case list != nil:
		s.keep(list)
	case none:
		s.bound = max(s.bound, n+1)
	}
	return list != nil || none
}

// into looks for a way to cut the pieces in left from n bars. Without a list,
// none says whether it is certain that there is no way.
func (s *solver) into(n int, left []int, steps int) (list []pattern, none bool) {
	c := &completion{solver: s, steps: steps, left: slices.Clone(left), bars: []pattern{}, seen: map[string]int{}}
	if c.search(n, int64(n)*s.room-s.fill(left)) {
		return c.bars, false
	}
	return nil, !c.short
}

func (c *completion) step(n int) bool {
	c.steps -= n
	if c.steps <= 0 || !c.spend(n) {
		c.short, c.ended = true, true
	}
	return !c.ended
}

// search cuts what is left from n bars, of which no more than waste may be left
// over.
func (c *completion) search(n int, waste int64) bool {
	first := slices.IndexFunc(c.left, func(k int) bool { return k > 0 })
	if first < 0 {
		return true
	}
	if waste < 0 || !c.step(len(c.left)) || c.halves(c.left) > n {
		return false
	}
	key := c.state()
	if m, ok := c.seen[key]; ok && m >= n {
		return false
	}
	for _, w := range c.ways(first, waste) {
		for i, k := range w.p {
			c.left[i] -= k
		}
		c.bars = append(c.bars, w.p)
		if c.search(n-1, waste-w.waste) {
			return true
		}
		c.bars = c.bars[:len(c.bars)-1]
		for i, k := range w.p {
			c.left[i] += k
		}
		if c.ended {
			return false
		}
	}
	if !c.short && len(c.seen) < maxSeen {
		c.seen[key] = max(c.seen[key], n)
	}
	return false
}

// state names what is left.
func (c *completion) state() string {
	c.key = c.key[:0]
	for _, k := range c.left {
		c.key = append(c.key, byte(k), byte(k>>8), byte(k>>16))
	}
	return string(c.key)
}

// way is one way to fill a bar.
type way struct {
	p     pattern
	waste int64
}

// ways returns the ways to fill a bar with the longest piece left and others so
// that no more than waste is left over and nothing left would fit, the least
// waste first. A single piece that fills the bar just so beside the longest is
// as good as any other way: whatever would be there instead fits where it was.
func (c *completion) ways(first int, waste int64) []way {
	rest := c.room - c.size[first]
	p := make(pattern, len(c.left))
	p[first] = 1
	if j, ok := slices.BinarySearchFunc(c.size, rest, func(a, b int64) int { return cmp.Compare(b, a) }); ok && (c.left[j] > 1 || j != first && c.left[j] > 0) {
		p[j]++
		return []way{{p, 0}}
	}
	// sum[i] is all that is left from kind i on.
	sum := make([]int64, len(c.left)+1)
	for i := len(c.left) - 1; i >= first; i-- {
		sum[i] = sum[i+1] + c.size[i]*int64(c.left[i])
	}
	sum[first] -= c.size[first]
	var out []way
	var fill func(i int, rest int64)
	fill = func(i int, rest int64) {
		if len(out) >= maxWays || !c.step(1) {
			c.short = true
			return
		}
		for i < len(p) && (c.left[i] == p[i] || c.size[i] > rest) {
			i++
		}
		if rest-sum[min(i, len(p))] > waste {
			return
		}
		if i == len(p) {
			if c.fits(p, rest) < 0 {
				out = append(out, way{slices.Clone(p), rest})
			}
			return
		}
		had := p[i]
		most := min(c.left[i]-had, int(rest/c.size[i]))
		for k := most; k >= 0; k-- {
			p[i] = had + k
			fill(i+1, rest-int64(k)*c.size[i])
		}
		p[i] = had
	}
	fill(first, rest)
	slices.SortStableFunc(out, func(a, b way) int { return cmp.Compare(a.waste, b.waste) })
	return out
}

// fits returns a kind of which one more would fit beside p, or -1.
func (c *completion) fits(p pattern, rest int64) int {
	for i := len(p) - 1; i >= 0 && c.size[i] <= rest; i-- {
		if c.left[i] > p[i] {
			return i
		}
	}
	return -1
}

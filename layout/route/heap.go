package route

import "math/bits"

// entry is a state that waits for its turn. Its key is the bound, the cost so
// far and the least to come, and below that in 28 bits the least to come in
// micrometres, which is enough for 268 m: of equal bounds the one nearest to the
// goal comes first.
type entry struct {
	key   uint64
	state int32
}

const aheadBits = 28

func entryOf(bound, ahead int64, state int32) entry {
	return entry{uint64(bound)<<aheadBits | uint64(ahead/scale)&(1<<aheadBits-1), state}
}

func (a *entry) bound() int64 { return int64(a.key >> aheadBits) }

// before returns 1 if a comes before b, else 0, with no branch to guess wrong. It
// breaks ties by the state itself, so that the same search always goes the same
// way.
func (a *entry) before(b *entry) uint64 {
	_, less := bits.Sub64(uint64(a.state), uint64(b.state), 0)
	_, less = bits.Sub64(a.key, b.key, less)
	return less
}

// heap is a binary heap, written out because it is where searches spend their
// time.
type heap []entry

func (p *heap) push(e entry) {
	*p = append(*p, e)
	p.rise(len(*p)-1, e)
}

// rise puts e where it belongs, above the free place i.
func (p *heap) rise(i int, e entry) {
	h := *p
	for i > 0 {
		up := (i - 1) / 2
		if e.before(&h[up]) == 0 {
			break
		}
		h[i], i = h[up], up
	}
	h[i] = e
}

// pop takes the first entry of a heap that is not empty. The free place goes all
// the way down, and the last entry, which seldom belongs much higher, up from
// there.
func (p *heap) pop() entry {
	h := *p
	n := len(h) - 1
	top, last := h[0], h[n]
	*p = h[:n]
	if n == 0 {
		return top
	}
	i := 0
	for 2*i+2 < n {
		kid := 2*i + 1
		kid += int(h[kid+1].before(&h[kid]))
		h[i], i = h[kid], kid
	}
	if kid := 2*i + 1; kid < n {
		h[i], i = h[kid], kid
	}
	p.rise(i, last)
	return top
}

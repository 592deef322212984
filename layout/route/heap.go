package route

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

// before breaks ties by the state itself, so that the same search always goes
// the same way.
func (a *entry) before(b *entry) bool {
	return a.key < b.key || a.key == b.key && a.state < b.state
}

// heap is a binary heap, written out because it is where searches spend their
// time.
type heap []entry

func (p *heap) push(e entry) {
	h := append(*p, e)
	i := len(h) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !e.before(&h[up]) {
			break
		}
		h[i], i = h[up], up
	}
	h[i] = e
	*p = h
}

// pop takes the first entry of a heap that is not empty.
func (p *heap) pop() entry {
	h := *p
	top, last := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	*p = h
	i := 0
	for {
		kid := 2*i + 1
		if kid >= len(h) {
			break
		}
		if kid+1 < len(h) && h[kid+1].before(&h[kid]) {
			kid++
		}
		if !h[kid].before(&last) {
			break
		}
		h[i], i = h[kid], kid
	}
	if len(h) > 0 {
		h[i] = last
	}
	return top
}

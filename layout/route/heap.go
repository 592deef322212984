package route

// entry is a state that waits for its turn.
type entry struct {
	bound int64 // cost so far and the least to come
	ahead int64 // the least to come
	state int32
}

// before orders by the bound, then by what is nearest to the goal; the state
// itself breaks ties, so that the same search always goes the same way.
func (a *entry) before(b *entry) bool {
	if a.bound != b.bound {
		return a.bound < b.bound
	}
	if a.ahead != b.ahead {
		return a.ahead < b.ahead
	}
	return a.state < b.state
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

package tui

// recent keeps what was worked out last, by what it was worked out of: a plan
// that comes back, by undo or because something was only tried, need not be
// worked out anew. Plans are never changed, so nothing in it grows old.
type recent[K comparable, V any] struct {
	most  int // that are kept
	known []entry[K, V]
}

type entry[K comparable, V any] struct {
	of    K
	value V
}

// get returns what is known of k.
func (r *recent[K, V]) get(k K) (v V, ok bool) {
	for i := range r.known {
		if e := r.known[i]; e.of == k {
			copy(r.known[1:i+1], r.known[:i]) // it was asked for last now
			r.known[0] = e
			return e.value, true
		}
	}
	return v, false
}

// put notes what is known of k, and drops what was not asked for the longest.
func (r *recent[K, V]) put(k K, v V) {
	if _, ok := r.get(k); ok {
		r.known[0].value = v
		return
	}
	if len(r.known) < r.most {
		r.known = append(r.known, entry[K, V]{})
	}
	copy(r.known[1:], r.known)
	r.known[0] = entry[K, V]{k, v}
}

package pack

import (
	"math/bits"
	"slices"
)

// sums is a set of lengths 0..size as bits. For a size beyond maxSums it
// holds nothing and claims that every length is a sum, which is always safe.
type sums struct {
	bits []uint64
	size int64
}

const maxSums = 1 << 14

func newSums(size int64) sums {
	if size > maxSums {
		return sums{size: size}
	}
	return sums{bits: make([]uint64, size/64+1), size: size}
}

func (s *sums) clear() { clear(s.bits) }

func (s *sums) set(v int64) {
	if s.bits != nil {
		s.bits[v>>6] |= 1 << (v & 63)
	}
}

func (s *sums) has(v int64) bool {
	return s.bits == nil || s.bits[v>>6]>>(v&63)&1 != 0
}

// shiftOr adds to the set every member plus v and, with both set, every
// member plus u.
func (s *sums) shiftOr(v int64, both bool, u int64) {
	if s.bits == nil {
		return
	}
	if len(s.bits) == 1 {
		b := s.bits[0]
		nb := b | b<<uint(min(v, 64))
		if both {
			nb |= b << uint(min(u, 64))
		}
		s.bits[0] = nb
		return
	}
	vw, vb := int(v>>6), uint(v&63)
	uw, ub := int(u>>6), uint(u&63)
	for i := len(s.bits) - 1; i >= 0; i-- {
		b := s.bits[i] | s.shifted(i, vw, vb)
		if both {
			b |= s.shifted(i, uw, ub)
		}
		s.bits[i] = b
	}
}

// union adds o's members; both are of one size.
func (s *sums) union(o *sums) {
	for i := range s.bits {
		s.bits[i] |= o.bits[i]
	}
}

// shifted is word i of the set moved up by 64*words+low. Working from the
// highest word down it only reads words not yet changed, and word i itself.
func (s *sums) shifted(i, words int, low uint) uint64 {
	j := i - words
	if j < 0 {
		return 0
	}
	b := s.bits[j] << low
	if low > 0 && j > 0 {
		b |= s.bits[j-1] >> (64 - low)
	}
	return b
}

// below returns the largest member at most v; the set has 0.
func (s *sums) below(v int64) int64 {
	if s.bits == nil {
		return v
	}
	i := v >> 6
	w := s.bits[i] << (63 - v&63) >> (63 - v&63)
	for w == 0 {
		i--
		w = s.bits[i]
	}
	return i<<6 + int64(63-bits.LeadingZeros64(w))
}

// next returns the least member at least v, or -1.
func (s *sums) next(v int64) int64 {
	if v > s.size {
		return -1
	}
	if s.bits == nil {
		return v
	}
	i := v >> 6
	w := s.bits[i] >> (v & 63) << (v & 63)
	for w == 0 {
		i++
		if i == int64(len(s.bits)) {
			return -1
		}
		w = s.bits[i]
	}
	if t := i<<6 + int64(bits.TrailingZeros64(w)); t <= s.size {
		return t
	}
	return -1
}

// sumList returns, rising, all sums up to limit that start from one of from
// and add some of the lengths, each of which may come in two measures; false
// if there are more than most. It is for lengths too large for sums.
func sumList(from []int64, lengths [][2]int64, limit int64, most int) ([]int64, bool) {
	list := slices.Clone(from)
	for _, v := range lengths {
		for _, a := range list[:len(list):len(list)] {
			if a+v[0] <= limit {
				list = append(list, a+v[0])
			}
			if v[1] != v[0] && a+v[1] <= limit {
				list = append(list, a+v[1])
			}
		}
		slices.Sort(list)
		list = slices.Compact(list)
		if len(list) > most {
			return nil, false
		}
	}
	return list, true
}

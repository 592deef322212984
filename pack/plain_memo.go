package pack

import "math/bits"

// memoKey names a search state by 128 bits.
type memoKey struct{ a, b uint64 }

func (k *memoKey) add(o memoKey) { k.a += o.a; k.b += o.b }
func (k *memoKey) sub(o memoKey) { k.a -= o.a; k.b -= o.b }

// addSegs mixes an outline into the key.
func (k *memoKey) addSegs(segs []skySeg) {
	a, b := k.a, k.b
	for _, s := range segs {
		v := uint64(s.x)<<32 ^ uint64(s.y) // both stay below 2^31
		hi, lo := bits.Mul64(a^v^0x9e3779b97f4a7c15, 0xd6e8feb86659fd93)
		a = hi ^ lo
		hi, lo = bits.Mul64(b^bits.RotateLeft64(v, 29)^0xc2b2ae3d27d4eb4f, 0xa0761d6478bd642f)
		b = hi ^ lo
	}
	k.a, k.b = a, b
}

// memo remembers states that failed, in a table of fixed size; a newer state
// takes the place of an older one.
type memo struct {
	slots []memoKey
	used  int
	cap   int
}

const (
	memoFirst = 1 << 12
	memoLast  = 1 << 22 // 64 MB
)

func newMemo() *memo { return &memo{slots: make([]memoKey, memoFirst), cap: memoLast} }

func (m *memo) has(k memoKey) bool {
	return m.slots[k.a&uint64(len(m.slots)-1)] == k
}

func (m *memo) put(k memoKey) {
	i := k.a & uint64(len(m.slots)-1)
	if m.slots[i] == (memoKey{}) {
		m.used++
	}
	m.slots[i] = k
	if m.used*2 > len(m.slots) && len(m.slots) < m.cap {
		m.grow()
	}
}

// grow quadruples the table.
func (m *memo) grow() {
	old := m.slots
	m.slots, m.used = make([]memoKey, 4*len(old)), 0
	for _, k := range old {
		if k != (memoKey{}) {
			m.slots[k.a&uint64(len(m.slots)-1)] = k
			m.used++
		}
	}
}

// splitmix is a small generator of random words.
type splitmix uint64

func (s *splitmix) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

func (s *splitmix) key() memoKey { return memoKey{s.next(), s.next()} }

// below returns a number from 0 to n-1.
func (s *splitmix) below(n int) int {
	hi, _ := bits.Mul64(s.next(), uint64(n))
	return int(hi)
}

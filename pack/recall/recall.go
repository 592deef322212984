// Package recall remembers the answers to questions that are asked again and
// again: most of a plan is after an edit what it was before, and most of what is
// worked out from it then is what was worked out already.
//
// It knows nothing of what the questions are. A question is written down with
// all that its answer depends on, in numbers and text, and summed up in a digest
// (SHA-256, of which no two alike are known). So an answer from memory is the one
// that working it out again would give, whatever was asked meanwhile; what must
// not be written down wrongly is checked where the questions are, against working
// everything out anew.
package recall

import (
	"crypto/sha256"
	"encoding/binary"
	"sync"
)

// Digest stands for a question.
type Digest [sha256.Size]byte

// Question is a question while it is written down. Its memory may be used again
// for the next, from Question[:0] on.
type Question []byte

// Number is what a Question is written in, besides text.
type Number interface {
	~int | ~int32 | ~int64 | ~uint32 | ~uint64
}

// Add adds numbers.
func Add[N Number](q *Question, numbers ...N) {
	for _, n := range numbers {
		*q = binary.LittleEndian.AppendUint64(*q, uint64(n))
	}
}

// Text adds a text, told apart from what comes before and after.
func (q *Question) Text(s string) {
	Add(q, len(s))
	*q = append(*q, s...)
}

// Yes adds an answer to yes or no.
func (q *Question) Yes(yes bool) {
	if yes {
		*q = append(*q, 1)
	} else {
		*q = append(*q, 0)
	}
}

// Digest sums the question up.
func (q Question) Digest() Digest { return sha256.Sum256(q) }

// Memory keeps the latest answers to a kind of question, half as many as Most at
// least. It has two generations: the young one is filled up, then takes the place
// of the old one, and an old answer that is asked for becomes young again. It may
// be used by several goroutines; what its answers point to must not be changed.
type Memory[T any] struct {
	Most int

	mu         sync.Mutex
	young, old map[Digest]T
}

// Recall returns the answer to a question, if it is remembered.
func (m *Memory[T]) Recall(d Digest) (T, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if a, ok := m.young[d]; ok {
		return a, true
	}
	a, ok := m.old[d]
	if ok {
		m.put(d, a)
	}
	return a, ok
}

// Keep remembers an answer.
func (m *Memory[T]) Keep(d Digest, answer T) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(d, answer)
}

func (m *Memory[T]) put(d Digest, answer T) {
	if m.young == nil || len(m.young) >= m.Most/2 {
		m.young, m.old = make(map[Digest]T), m.young
	}
	m.young[d] = answer
}

// Forget forgets everything.
func (m *Memory[T]) Forget() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.young, m.old = nil, nil
}

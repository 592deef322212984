package recall

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func of(n int) Digest {
	var q Question
	Add(&q, n)
	return q.Digest()
}

// Whatever is asked and told, an answer is the one that was kept last, and the
// latest answers are there.
func TestMemoryAnswersWhatItWasTold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Memory[int]{Most: 8}
		told := map[int]int{}
		var latest []int
		for range rapid.IntRange(1, 60).Draw(t, "steps") {
			n := rapid.IntRange(0, 20).Draw(t, "question")
			if a, ok := m.Recall(of(n)); ok {
				assert.Equal(t, told[n], a)
			}
			if rapid.Bool().Draw(t, "tell") {
				told[n] = rapid.Int().Draw(t, "answer")
				m.Keep(of(n), told[n])
				latest = append(latest, n)
			}
			for _, n := range latest[max(len(latest)-4, 0):] {
				_, ok := m.Recall(of(n))
				assert.True(t, ok)
			}
			assert.LessOrEqual(t, len(m.young)+len(m.old), 8)
		}
		m.Forget()
		_, ok := m.Recall(of(1))
		assert.False(t, ok)
	})
}

func TestQuestionsAreToldApart(t *testing.T) {
	write := func(how func(q *Question)) Digest {
		var q Question
		how(&q)
		return q.Digest()
	}
	seen := map[Digest]bool{}
	for _, how := range []func(q *Question){
		func(q *Question) {},
		func(q *Question) { Add(q, 1, 2) },
		func(q *Question) { Add(q, 2, 1) },
		func(q *Question) { q.Text("ab"); q.Text("c") },
		func(q *Question) { q.Text("a"); q.Text("bc") },
		func(q *Question) { q.Yes(true) },
		func(q *Question) { q.Yes(false) },
	} {
		d := write(how)
		assert.False(t, seen[d])
		seen[d] = true
	}
}

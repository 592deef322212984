package tui

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/tui/recovery"
)

// shelf is a place to put plans by that can be told to fail.
type shelf struct {
	kept    []*layout.Plan
	other   *layout.Plan // what the file, or an earlier session, holds
	fail    error
	forgot  int
	reopens int
}

func (s *shelf) PutBy(p *layout.Plan) error {
	s.kept = append(s.kept, p)
	return s.fail
}
func (s *shelf) TakeUp(recovery.Left) (*layout.Plan, error) { return s.other, s.fail }
func (s *shelf) Forget(recovery.Left) error                 { s.forgot++; return s.fail }
func (s *shelf) Reopen() (*layout.Plan, error)              { s.reopens++; return s.other, s.fail }

func newKept(t *testing.T) (*player, *shelf) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	s := &shelf{other: trialPlan()}
	s.other.Title = "from elsewhere"
	p.m.keep.safe = s
	return p, s
}

func TestEditsArePutBy(t *testing.T) {
	p, s := newKept(t)
	p.keys("tab")
	assert.Empty(t, s.kept, "nothing has changed")
	p.keys("t")
	require.NotEmpty(t, s.kept)
	assert.Same(t, p.m.history.Plan(), s.kept[len(s.kept)-1])
	n := len(s.kept)
	p.keys("tab")
	assert.Len(t, s.kept, n, "the same plan once")
}

func TestWhatCannotBePutByIsSaidOnce(t *testing.T) {
	p, s := newKept(t)
	s.fail = errors.New("no space left on device")
	p.keys("tab", "t")
	assert.Contains(t, p.m.note.text, "no space left on device")
	p.keys("t")
	assert.NotContains(t, p.m.note.text, "no space left on device")
	s.fail = nil
	p.keys("t")
	s.fail = errors.New("again no space")
	p.keys("tab", "t")
	assert.Contains(t, p.m.note.text, "again no space", "it had worked meanwhile")
}

func TestFileChangedByAnother(t *testing.T) {
	p, s := newKept(t)
	p.keys("tab", "t")
	mine := p.m.history.Plan()
	p.send(changedMsg{})
	require.Equal(t, asking, p.m.mode)
	assert.Contains(t, p.m.question.text, "changed by another program")
	p.keys("k")
	assert.Same(t, mine, p.m.history.Plan())

	p.send(changedMsg{})
	p.keys("r")
	assert.Equal(t, "from elsewhere", p.m.history.Plan().Title)
	assert.False(t, p.m.history.Dirty(), "it is what the file holds")
	p.keys("u")
	assert.Same(t, mine, p.m.history.Plan(), "and undo brings back what was on screen")

	s.fail = errors.New("board.toml:1:1: no [board]")
	p.send(changedMsg{})
	p.keys("r")
	assert.Same(t, mine, p.m.history.Plan())
	assert.Contains(t, p.m.note.text, "no [board]")
}

// A question must not fall into the middle of a word.
func TestChangeWhileTypingOnlyTells(t *testing.T) {
	p, _ := newKept(t)
	p.keys("/")
	p.send(changedMsg{})
	assert.Equal(t, looking, p.m.mode)
	assert.Contains(t, p.m.note.text, "changed by another program")
}

func TestTakingUpWhatWasLeft(t *testing.T) {
	for key, want := range map[string]string{"u": "from elsewhere", "d": trialPlan().Title, "esc": trialPlan().Title} {
		p, s := newKept(t)
		p.m.offerLeft(recovery.Left{About: recovery.About{At: time.Date(2026, 3, 1, 20, 15, 0, 0, time.Local)}})
		assert.Contains(t, p.m.question.text, "1 March, 20:15")
		p.keys(key)
		assert.Equal(t, want, p.m.history.Plan().Title, key)
		assert.Equal(t, key == "u", p.m.history.Dirty(), "it is not in the file yet")
		assert.Equal(t, key == "d", s.forgot == 1)
	}
}

// Told to go, the editor puts the plan by and leaves, whatever it was doing.
func TestStopping(t *testing.T) {
	for _, doing := range [][]string{{}, {"tab", "t"}, {"/"}, {"tab", "t", "q"}, {"?"}} {
		p, s := newKept(t)
		p.keys(doing...)
		n := len(s.kept)
		p.send(stopMsg{})
		assert.True(t, p.left, "%q", doing)
		if p.m.history.Dirty() {
			assert.Greater(t, len(s.kept), n)
		}
	}
}

package crew_test

import (
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/pack/crew"
)

func TestAllWork(t *testing.T) {
	var c crew.Crew
	var n atomic.Int64
	for range 20 {
		c.Go(func() { n.Add(1) })
	}
	c.Wait()
	assert.EqualValues(t, 20, n.Load())
}

// The fault is met in the goroutine that waits, when all others are done, and
// tells where it was.
func TestFaultIsMetByWhoWaits(t *testing.T) {
	var c crew.Crew
	var n atomic.Int64
	for i := range 10 {
		c.Go(func() {
			if i == 3 {
				stumble()
			}
			n.Add(1)
		})
	}
	f := thrown(c.Wait)
	require.NotNil(t, f)
	assert.EqualValues(t, 9, n.Load())
	assert.Equal(t, "fell over", f.Value)
	assert.Contains(t, f.Stack, "stumble")
	assert.True(t, strings.HasPrefix(f.Error(), "fell over\n"))
}

// A crew within a crew hands on the first fault as it is.
func TestCrewsWithinCrews(t *testing.T) {
	var outer crew.Crew
	outer.Go(func() {
		var inner crew.Crew
		inner.Go(stumble)
		inner.Wait()
	})
	f := thrown(outer.Wait)
	require.NotNil(t, f)
	assert.Equal(t, "fell over", f.Value)
}

func stumble() { panic("fell over") }

func thrown(f func()) (fault *crew.Fault) {
	defer func() {
		if x, ok := recover().(crew.Fault); ok {
			fault = &x
		}
	}()
	f()
	return nil
}

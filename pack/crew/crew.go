// Package crew lets several goroutines work at one thing, so that a fault of the
// program in one of them is met by whoever waits for the crew. A panic in a
// goroutine of its own ends the program on the spot: a terminal is left as an
// editor had set it, and what was not saved is gone.
//
// It knows nothing of what the work is.
package crew

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// Crew is a group of goroutines. The zero value is ready to use.
type Crew struct {
	wait   sync.WaitGroup
	once   sync.Once
	thrown any
}

// Fault is what Wait panics with: what a goroutine of the crew panicked with,
// and where.
type Fault struct {
	Value any
	Stack string
}

// Error makes a Fault an error, for whoever recovers it.
func (f Fault) Error() string { return fmt.Sprintf("%v\n%s", f.Value, f.Stack) }

// Go runs f in a goroutine of the crew.
func (c *Crew) Go(f func()) {
	c.wait.Go(func() {
		defer func() {
			if x := recover(); x != nil {
				c.once.Do(func() {
					if already, ok := x.(Fault); ok {
						c.thrown = already // of a crew within this one
						return
					}
					c.thrown = Fault{x, string(debug.Stack())}
				})
			}
		}()
		f()
	})
}

// Wait waits for all of the crew, and panics with a Fault if one of them did.
func (c *Crew) Wait() {
	c.wait.Wait()
	if c.thrown != nil {
		panic(c.thrown)
	}
}

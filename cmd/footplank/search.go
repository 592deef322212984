package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/signal"
	"time"

	"github.com/spf13/cobra"
)

// longestSeconds is a week: longer is a mistake, and far from what a
// time.Duration can hold.
const longestSeconds = 7 * 24 * 3600

// bounds is how long a search works, and what starts its random choices.
type bounds struct {
	seconds float64
	seed    int64
}

// flags adds the flags that say so; long is what --seconds means.
func (b *bounds) flags(c *cobra.Command, usual float64, long string) {
	c.Flags().Float64Var(&b.seconds, "seconds", usual, long+", in `SECONDS`")
	c.Flags().Int64Var(&b.seed, "seed", 1, "a `NUMBER` that starts the search's random choices")
	completeFlag(c, "seconds", oneOf())
	completeFlag(c, "seed", oneOf())
}

func (b *bounds) validate() error {
	if math.IsNaN(b.seconds) || b.seconds <= 0 || b.seconds > longestSeconds {
		return fmt.Errorf("--seconds %v: want more than 0 and at most %d", b.seconds, longestSeconds)
	}
	return nil
}

// within bounds a context by the time given.
func (b *bounds) within(ctx context.Context) (context.Context, context.CancelFunc) {
	return context.WithTimeout(ctx, time.Duration(b.seconds*float64(time.Second)))
}

// interruptible returns a context that the first Ctrl-C ends; a second one ends
// the program at once.
func interruptible() (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// overwrite shows a line on the terminal in place of the last one so shown, and
// leaves the cursor at its start.
func (p *program) overwrite(line string) { fmt.Fprintf(p.err, "\r%-78s\r%s\r", "", line) }

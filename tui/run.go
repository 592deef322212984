package tui

import (
	"context"
	"errors"
	"os"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout/arrange"
	"footplank/layout/plan"
	_ "footplank/tui/background" // before the terminal library asks for it
)

// Options steer the editor. The zero value is ready to use.
type Options struct {
	ASCII   bool   // draw with plain letters and signs only
	NoColor bool   // as NO_COLOR in the environment does
	NoMouse bool   // leave the mouse to the terminal
	Version string // shown at the end of the help
	// ArrangeFor is how long arranging goes on to improve; 0 for 15 s.
	ArrangeFor time.Duration

	arrange arranger      // arrange.Arrange where nil
	sum     summer        // sumUp where nil
	rest    time.Duration // before a plan that was edited is summed up
	// busy is read-locked by work in the background, so that the program can
	// wait for it at its end.
	busy *sync.RWMutex
}

// Run opens the plan in the editor and returns when the player leaves it. All
// work in the background has ended by then.
func Run(doc *plan.Doc, opt Options) error {
	if os.Getenv("NO_COLOR") != "" {
		opt.NoColor = true
	}
	ctx, cancel := context.WithCancel(context.Background())
	opt.busy, opt.rest = new(sync.RWMutex), rest
	options := []tea.ProgramOption{tea.WithAltScreen()}
	if !opt.NoMouse {
		options = append(options, tea.WithMouseCellMotion())
	}
	_, err := tea.NewProgram(newModel(ctx, &document{doc}, doc.Path, doc.Plan, opt), options...).Run()
	cancel()
	opt.busy.Lock() // never unlocked: nothing may start any more
	if errors.Is(err, tea.ErrInterrupted) {
		err = nil
	}
	return err
}

// withDefaults fills in what the zero value leaves open.
func (o Options) withDefaults() Options {
	if o.busy == nil {
		o.busy = new(sync.RWMutex)
	}
	if o.arrange == nil {
		o.arrange = arrange.Arrange
	}
	if o.sum == nil {
		o.sum = sumUp
	}
	return o
}

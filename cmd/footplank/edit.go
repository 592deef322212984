package main

import (
	"errors"

	"github.com/spf13/cobra"

	"footplank/layout/plan"
	"footplank/tui"
	"footplank/tui/recovery"
)

func (p *program) editCommand() *cobra.Command {
	var plain bool
	c := &cobra.Command{
		Use:   "edit PLAN",
		Short: "The editor: everything here on a live drawing",
		Long: `Opens the plan in the editor: units drawn to scale, cables, power and findings
as you move them by mouse or keys, arranging in the background, undo; and all
else that the commands do. Press ? there: it shows what every key does at that
moment.

What is not saved is put by every second in a folder of the program's own, and
offered the next time should the editor have ended unasked.

It wants a terminal of 80 x 24 characters. Exit code 0 when it was left, 2 when
it could not begin, 130 when it was stopped from outside.`,
		Example: `  footplank edit board.toml
  footplank edit board.toml --ascii --no-mouse`,
		Args:              takes("a plan file"),
		ValidArgsFunction: completePlan,
		RunE: func(_ *cobra.Command, args []string) error {
			if !p.screen {
				return errors.New("the editor needs a terminal; check and arrange work without one")
			}
			if args[0] == "-" {
				return errors.New("the editor cannot read the plan from standard input, where the keys come from: name a file")
			}
			doc, err := p.open(args[0])
			if err != nil {
				return err
			}
			return p.edit(doc, plain, false)
		},
	}
	c.Flags().BoolVar(&plain, "ascii", false, "draw with plain letters and signs only")
	p.mouseFlag(c)
	return c
}

// mouseFlag lets the player keep the mouse for the terminal, to mark text with.
func (p *program) mouseFlag(c *cobra.Command) {
	c.Flags().BoolVar(&p.noMouse, "no-mouse", false, "leave the mouse to the terminal, to mark text; M in the editor takes it")
}

// editStart opens the editor on the screen to choose a plan on; beneath it lies the
// built-in example.
func (p *program) editStart(plain bool) error {
	doc, err := example()
	if err != nil {
		return err
	}
	return p.edit(doc, plain, true)
}

func (p *program) edit(doc *plan.Doc, plain, begin bool) error {
	opt := tui.Options{Begin: begin, ASCII: plain, NoMouse: p.noMouse, Version: version()}
	if dir, err := recovery.Dir(); err == nil { // without a home nothing is put by
		opt.State = recovery.Open(dir)
	}
	return tui.Run(doc, opt)
}

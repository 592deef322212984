package main

import (
	"io"

	"github.com/spf13/cobra"
)

// answering makes c a command that answers about a plan: for all line-ups or for
// those of --lineup, to read or, with --json, for programs.
func (p *program) answering(c *cobra.Command, what string, run func(name string, lineups []string, asJSON bool) error) *cobra.Command {
	var lineups []string
	var asJSON bool
	c.Args = takes("a plan file, or - for standard input")
	c.ValidArgsFunction = completePlan
	c.RunE = func(_ *cobra.Command, args []string) error { return run(args[0], lineups, asJSON) }
	p.lineupFlag(c, &lineups)
	c.Flags().BoolVar(&asJSON, "json", false, "print "+what+" as JSON")
	return c
}

// answer is what a command has found out, to read or for programs.
type answer interface {
	Text(w io.Writer, cols int) error
	JSON(io.Writer) error
}

func (p *program) print(a answer, asJSON bool) error {
	if asJSON {
		return a.JSON(p.out)
	}
	return a.Text(p.out, p.cols())
}

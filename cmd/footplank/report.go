package main

import (
	"context"
	"slices"

	"github.com/spf13/cobra"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/layout/sheet"
)

// How the built-in example is arranged for its report: a budget in steps of the
// search and not in time, one search and not one for each processor, so that
// the report is the same on every machine.
const (
	exampleSeed  = 1
	exampleSteps = 80_000
)

// example returns the built-in plan.
func example() (*plan.Doc, error) {
	c, err := forms()
	if err != nil {
		return nil, err
	}
	e := plan.Examples()[0]
	return plan.Parse(e.Name+".toml", e.Source, c)
}

// reportExample arranges the built-in example and prints its report.
func (p *program) reportExample(f form) error {
	doc, err := example()
	if err != nil {
		return err
	}
	res, err := arrange.Arrange(context.Background(), doc.Plan, arrange.Options{
		Seed: exampleSeed, Steps: exampleSteps, DecideSteps: exampleSteps, Workers: 1,
	})
	if err != nil {
		return err
	}
	return p.tellArranged(doc, res, arranging{form: f}, false)
}

// reportOf reports on the line-ups chosen; none named means all.
func reportOf(p *layout.Plan, lineups []string) *sheet.Report {
	r := sheet.NewReport(p)
	r.Lineups = slices.DeleteFunc(r.Lineups, func(l sheet.Lineup) bool { return !among(lineups, l.Name) })
	return r
}

// form is how a report is printed: for programs, or for reading, and then
// perhaps with drawings of plain letters and signs only.
type form struct{ json, plain bool }

func (f *form) flags(c *cobra.Command) {
	c.Flags().BoolVar(&f.json, "json", false, "print the report as JSON")
	c.Flags().BoolVar(&f.plain, "ascii", false, "draw with plain letters and signs only")
}

func (p *program) printReport(r *sheet.Report, f form) error {
	switch {
	case f.json:
		return r.JSON(p.out)
	case f.plain:
		return sheet.TextASCII(p.out, r, p.cols())
	}
	return sheet.Text(p.out, r, p.cols())
}

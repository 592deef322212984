package main

import (
	"slices"

	"github.com/spf13/cobra"

	"footplank/layout/power"
	"footplank/layout/sheet"
)

func (p *program) powerCommand() *cobra.Command {
	return p.answering(&cobra.Command{
		Use:   "power PLAN",
		Short: "Which output feeds which unit; loads, leads, mains on tour",
		Long: `Shares out the supplies' outputs, for all line-ups at once: what is there in
every line-up keeps its output, what changes takes what is left. It says how
much of each output is used, how long each lead is to be cut and of which wire,
and whether the supplies take the mains of the countries in the plan's tour.
When no map exists it says which units compete for which outputs.

The label on a unit beats the plan and every table. Mains work is for licensed
people, by the code of the country; never open a supply.

--lineup chooses whose leads are listed; the map is always for all line-ups.
PLAN may be - for standard input.

Exit code 0 when a map holds for all line-ups, 1 when there is none or there are
faults, 3 when the search could not tell.`,
		Example: `  footplank power board.toml
  footplank power board.toml --lineup barn
  footplank power board.toml --json`,
	}, "the power map", p.power)
}

func (p *program) power(name string, lineups []string, asJSON bool) error {
	doc, err := p.openFor(name, lineups)
	if err != nil {
		return err
	}
	w, err := sheet.NewPower(doc.Plan)
	if err != nil {
		return err
	}
	faulty := w.Faulty()
	w.Lineups = slices.DeleteFunc(w.Lineups, func(l sheet.PowerLineup) bool { return !among(lineups, l.Name) })
	if err := p.print(w, asJSON); err != nil {
		return err
	}
	if missing := doc.Plan.Unplaced(); len(missing) > 0 {
		p.say("leads are without a length: %s without a place; footplank arrange %s --save gives them one", listed(missing), name)
	}
	switch {
	case faulty || w.Verdict == power.Impossible:
		return status(exitFaults)
	case w.Verdict == power.Undecided:
		return status(exitUndecided)
	}
	return nil
}

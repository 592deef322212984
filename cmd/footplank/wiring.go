package main

import (
	"slices"

	"github.com/spf13/cobra"

	"footplank/layout/sheet"
)

func (p *program) wiringCommand() *cobra.Command {
	return p.answering(&cobra.Command{
		Use:   "wiring PLAN",
		Short: "The cables: runs, one kit for all line-ups, cut list, load",
		Long: `Works out the cables of every line-up: how long each run is, what to cut for it,
which cable of the kit goes where, and what all of them do to the signal up to
the first buffer and behind it. The kit is the smallest that wires every
line-up, and the cut list takes the fewest reels that it can be cut from.

--lineup chooses whose cables are listed; the kit is always for all line-ups.
PLAN may be - for standard input.

Exit code 0 when all can be wired, 1 when there are faults or units without a
place.`,
		Example: `  footplank wiring board.toml
  footplank wiring board.toml --lineup barn
  footplank wiring board.toml --json`,
	}, "the wiring", p.wiring)
}

func (p *program) wiring(name string, lineups []string, asJSON bool) error {
	doc, err := p.openFor(name, lineups)
	if err != nil {
		return err
	}
	w := sheet.NewWiring(doc.Plan)
	w.Lineups = slices.DeleteFunc(w.Lineups, func(l sheet.WiringLineup) bool { return !among(lineups, l.Name) })
	if err := p.print(w, asJSON); err != nil {
		return err
	}
	if missing := doc.Plan.Unplaced(); len(missing) > 0 {
		p.say("cables are missing: %s without a place; footplank arrange %s --save gives them one", listed(missing), name)
		return status(exitFaults)
	}
	if w.Faulty() {
		return status(exitFaults)
	}
	return nil
}

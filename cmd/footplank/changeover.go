package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"footplank/layout/changeover"
	"footplank/layout/plan"
	"footplank/layout/sheet"
)

func (p *program) changeoverCommand() *cobra.Command {
	var all, asJSON bool
	c := &cobra.Command{
		Use:   "changeover PLAN FROM TO",
		Short: "The steps from one line-up to the next, in an order that works",
		Long: `Prints the card for between sets: what to unplug, lift, move, place, plug and
power to get from line-up FROM to line-up TO, in an order that works: nothing is
put down where something still stands, and where units go round in a ring, as
few as can be are set aside. What is plugged the same before and after stays in.
To turn down first, and to give power last, are common practice.

Cables are those of the one kit, by the letter that footplank wiring gives them;
a lead is known by its output. "Tight" marks a plug that cannot come straight
out, or go straight in, beside its neighbour: take it in hand with the unit that
changes.

With --all and no FROM and TO, prints the cards for all pairs of line-ups;
footplank sheet --of changeover puts them on paper. PLAN may be - for standard
input.

Exit code 0 with a card, 1 when there is none: units without a place, or
standing in each other, or fixed units that would have to move.`,
		Example: `  footplank changeover board.toml barn pit
  footplank changeover board.toml --all
  footplank changeover board.toml barn pit --json`,
		Args: func(c *cobra.Command, args []string) error {
			switch {
			case all && len(args) == 1, !all && len(args) == 3:
				return nil
			case all && len(args) > 1:
				return fmt.Errorf("--all prints the cards for all pairs: give the plan and no line-ups")
			}
			return fmt.Errorf("want a plan file and the names of two line-ups: %s", c.UseLine())
		},
		ValidArgsFunction: p.completeLineups,
		RunE: func(_ *cobra.Command, args []string) error {
			return p.changeover(args, all, asJSON)
		},
	}
	c.Flags().BoolVar(&all, "all", false, "the cards for all pairs of line-ups")
	c.Flags().BoolVar(&asJSON, "json", false, "print the cards as JSON")
	return c
}

func (p *program) changeover(args []string, all, asJSON bool) error {
	doc, err := p.open(args[0])
	if err != nil {
		return err
	}
	cards, err := changeoverCards(doc, args[1:], all)
	if refusal := (*changeover.Refusal)(nil); errors.As(err, &refusal) {
		p.say("no card: %v", err)
		if len(doc.Plan.Unplaced()) > 0 {
			p.say("footplank arrange %s --save gives every unit a place", args[0])
		}
		return status(exitFaults)
	}
	if err != nil {
		return err
	}
	return p.print(sheet.NewChangeover(doc.Plan, cards), asJSON)
}

func changeoverCards(doc *plan.Doc, names []string, all bool) ([]*changeover.Card, error) {
	if all {
		return changeover.All(doc.Plan)
	}
	c, err := changeover.Make(doc.Plan, names[0], names[1])
	return []*changeover.Card{c}, err
}

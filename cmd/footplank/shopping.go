package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"footplank/layout/shopping"
)

func (p *program) shoppingCommand() *cobra.Command {
	var out, cables string
	var asJSON, force bool
	c := &cobra.Command{
		Use:   "shopping PLAN",
		Short: "What to buy, less what is owned, with prices where given",
		Long: `Lists what the board still needs: units that the plan says are not there yet,
the board, patch cables, power leads, mains leads for the tour, fastener and
labels, less what is in the plan's [owned], with the prices of its [prices].
Each currency has its own sum; what has no price is named and not counted.

Patch cables are cut from a reel where the plan owns a reel or plugs, or prices
patch cable or plugs; otherwise they are bought ready-made. --cables chooses.
What the other way would come to is said, too.

The ending of --out says which form: .txt and .md to read, .csv for a table of
your own, .json for other programs. PLAN may be - for standard input.

Exit code 0 for a whole list, 1 when units without a place leave things out of
it.`,
		Example: `  footplank shopping board.toml
  footplank shopping board.toml --cables made-up
  footplank shopping board.toml --out list.csv`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("out") && out == "" {
				return errors.New("--out: want the name of a file")
			}
			return p.shopping(args[0], out, cables, asJSON, force)
		},
	}
	c.Flags().StringVar(&out, "out", "", "write the list to this `FILE`")
	c.Flags().BoolVar(&force, "force", false, "let --out replace a file that is there already")
	c.Flags().StringVar(&cables, "cables", "", "how cables come: `WAY` is reel or made-up")
	c.Flags().BoolVar(&asJSON, "json", false, "print the list as JSON")
	completeFlag(c, "cables", oneOf(shopping.Reel, shopping.Made))
	return c
}

// shoppingForms are the forms of a shopping list, by the ending of the file's
// name.
var shoppingForms = map[string]func(l *shopping.List, w io.Writer, cols int) error{
	".txt":  func(l *shopping.List, w io.Writer, cols int) error { return l.Document().Text(w, cols) },
	".md":   func(l *shopping.List, w io.Writer, _ int) error { return l.Document().Markdown(w) },
	".csv":  func(l *shopping.List, w io.Writer, _ int) error { return l.CSV(w) },
	".json": func(l *shopping.List, w io.Writer, _ int) error { return l.JSON(w) },
}

func (p *program) shopping(name, out, cables string, asJSON, force bool) error {
	if !slices.Contains([]string{shopping.ByRule, shopping.Reel, shopping.Made}, cables) {
		return fmt.Errorf("--cables %q: want %s or %s", cables, shopping.Reel, shopping.Made)
	}
	ending := ".txt"
	if asJSON {
		ending = ".json"
	}
	if out != "" {
		asked := strings.ToLower(filepath.Ext(out))
		if asJSON && asked != ".json" {
			return fmt.Errorf("--out %q: with --json the name must end in .json", out)
		}
		if ending = asked; shoppingForms[ending] == nil {
			return fmt.Errorf("--out %q: the name must end in .txt, .md, .csv or .json", out)
		}
		if err := mayWrite(out, force, name); err != nil {
			return err
		}
	}
	doc, err := p.open(name)
	if err != nil {
		return err
	}
	l, err := shopping.Make(doc.Plan, shopping.Options{Way: cables})
	if err != nil {
		return err
	}
	cols := lineWidth
	if out == "" {
		cols = p.cols()
	}
	write := func(w io.Writer) error { return shoppingForms[ending](l, w, cols) }
	if err := p.deliver(out, force, write); err != nil {
		return err
	}
	if len(l.Unplaced) > 0 {
		p.say("not the whole list: %s without a place; footplank arrange %s --save gives them one", listed(l.Unplaced), name)
		return status(exitFaults)
	}
	return nil
}

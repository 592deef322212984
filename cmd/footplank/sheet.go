package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"footplank/layout"
	"footplank/layout/paper"
	"footplank/layout/sheet"
)

// asked is what the command line says of a sheet.
type asked struct {
	of, out, paper string
	lineups        []string
	force          bool
}

func (p *program) sheetCommand() *cobra.Command {
	var a asked
	c := &cobra.Command{
		Use:   "sheet PLAN",
		Short: "What the board is built and played from: true-scale sheets, build book, gig cards, lists",
		Long: `Writes what is printed of a plan. --of says which sheet, the ending of the file's
name which form:

  placement   the fastener, true to scale in .pdf (tiled, with underside and
              stickers behind it) and .svg; .txt to read, .csv for a table of
              your own, .json everything in one report, for other programs
  underside   the board seen from below, mirrored: .pdf .svg
  stickers    the base of each unit with its pieces, 1:1: .pdf .svg
  book        the build book: units, fastener, cables, power, build order,
              cautions: .pdf .md .txt
  gig         a card for each line-up: chain, outputs, what to plug in which
              order, finding a dead cable: .pdf .md .txt
  changeover  a card for each change of line-up: .pdf .md .txt
  labels      labels for both ends of cables and leads, to cut: .pdf .md .txt
  cables      the kit and how to cut it: .csv .pdf .md .txt
  leads       the power map and its leads: .csv .pdf .md .txt
  fasteners   the pieces on the board and on the units: .csv .pdf .md .txt
  shopping    what to buy: .csv .json .pdf .md .txt

Without --of it is the book for .md and the placement sheet for all others; without
--out the text is printed. PDF pages are A4 unless --paper says letter: print them
at 100 % and measure the bar. Every unit needs a place first, so arrange the plan
and save it. PLAN may be - for standard input.`,
		Example: `  footplank sheet board.toml
  footplank sheet board.toml --out placement.pdf --paper letter
  footplank sheet board.toml --of book --out book.pdf
  footplank sheet board.toml --of gig --lineup barn --out barn.pdf`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("out") && a.out == "" {
				return errors.New("--out: want the name of a file")
			}
			return p.sheet(args[0], a)
		},
	}
	c.Flags().StringVar(&a.of, "of", "", "which sheet: `KIND` is "+either(kindNames()))
	c.Flags().StringVar(&a.out, "out", "", "write the sheet to this `FILE`")
	c.Flags().StringVar(&a.paper, "paper", "a4", "`SIZE` of a PDF's pages, a4 or letter")
	c.Flags().BoolVar(&a.force, "force", false, "let --out replace a file that is there already")
	p.lineupFlag(c, &a.lineups)
	complete := func(flag string, values []string) {
		if err := c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp)); err != nil {
			panic(err) // the flag was added just above
		}
	}
	complete("of", kindNames())
	complete("paper", []string{"a4", "letter"})
	return c
}

// form returns the kind of sheet that is asked for, and how to write it.
func (a *asked) form() (*sheetKind, sheetForm, error) {
	ending := strings.ToLower(filepath.Ext(a.out))
	kind, err := kindOf(a.of, ending)
	if err != nil {
		return nil, nil, err
	}
	if len(a.lineups) > 0 && !kind.each {
		return nil, nil, fmt.Errorf("--lineup: the %s sheet is for all line-ups", kind.name)
	}
	if a.out == "" {
		f := kind.forms[".txt"]
		if f == nil {
			return nil, nil, fmt.Errorf("the %s sheet is no text: write it with --out to a file that ends in %s", kind.name, kind.endings())
		}
		return kind, f, nil
	}
	f := kind.forms[ending]
	switch {
	case f == nil && a.of == "":
		return nil, nil, fmt.Errorf("--out %q: the name must end in %s, or in .md for the book; other sheets have a name, see --of", a.out, kind.endings())
	case f == nil:
		return nil, nil, fmt.Errorf("--out %q: the %s sheet must end in %s", a.out, kind.name, kind.endings())
	case kind.name == "placement" && len(a.lineups) > 0 && ending != ".json" && ending != ".pdf" && ending != ".svg",
		kind.name == "placement" && len(a.lineups) > 1 && ending != ".json", kind.name == "underside" && len(a.lineups) > 1:
		return nil, nil, fmt.Errorf("--lineup: one line-up for .pdf and .svg, any for .json; the other forms of the %s sheet are for all", kind.name)
	}
	return kind, f, nil
}

func (p *program) sheet(name string, a asked) error {
	kind, form, err := a.form()
	if err != nil {
		return err
	}
	size, ok := paper.SizeNamed(a.paper)
	if !ok {
		return fmt.Errorf("--paper %q: want a4 or letter", a.paper)
	}
	if a.out != "" {
		if err := mayWrite(a.out, a.force, name); err != nil {
			return err
		}
	}
	doc, err := p.openFor(name, a.lineups)
	if err != nil {
		return err
	}
	if missing := unplaced(doc.Plan); len(missing) > 0 && !kind.unplaced {
		p.say("no sheet yet: %s without a place; footplank arrange %s --save gives them one", listed(missing), name)
		return status(exitFaults)
	}
	if !kind.unplaced && verdict(sheet.NewReport(doc.Plan)) != exitFine {
		p.say("the plan has faults, see footplank check %s: mend them before you cut", name)
	}
	s := &printing{p: doc.Plan, paper: size, lineups: a.lineups, warn: func(r paper.Replaced) { p.say("%v", r) }}
	return p.deliver(a.out, a.force, func(w io.Writer) error {
		s.w = w
		return form(s)
	})
}

// unplaced returns the labels of the units that some line-up has no place for,
// in the plan's order.
func unplaced(p *layout.Plan) []string {
	missing := map[*layout.Unit]bool{}
	for i := range p.Lineups {
		_, us := p.Standings(&p.Lineups[i])
		for _, u := range us {
			missing[u] = true
		}
	}
	var labels []string
	for i := range p.Units {
		if missing[&p.Units[i]] {
			labels = append(labels, p.Units[i].Label)
		}
	}
	return labels
}

// listed names a few things, and says how many more there are.
func listed(names []string) string {
	const few = 4
	if len(names) > few+1 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
	}
	return strings.Join(names, ", ")
}

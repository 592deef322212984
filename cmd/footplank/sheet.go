package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"footplank/layout/book"
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
		Short: "True-scale sheets, build book, gig cards, labels, lists",
		Long: `Writes what is printed of a plan. --of says which sheet, the ending of the
file's name which form:

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

Without --of it is the book for .md and the placement sheet for all others;
without --out the text is printed. PDF pages are A4 unless --paper says letter:
print them at 100 % and measure the bar. Every unit needs a place first, so
arrange the plan and save it; only shopping comes without. PLAN may be - for
standard input.

Exit code 0 with the sheet, 1 when units without a place are in its way.`,
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
	completeFlag(c, "of", oneOf(kindNames()...))
	completeFlag(c, "paper", oneOf("a4", "letter"))
	return c
}

// sheet returns the sheet that is asked for.
func (a *asked) sheet() (*book.Sheet, error) {
	ending := strings.ToLower(filepath.Ext(a.out))
	kind, err := kindOf(a.of, ending)
	if err != nil {
		return nil, err
	}
	endings := either(kind.Endings())
	if len(a.lineups) > 0 && !kind.Each {
		return nil, fmt.Errorf("--lineup: the %s sheet is for all line-ups", kind.Name)
	}
	if a.out == "" {
		if ending = ".txt"; !kind.Has(ending) {
			return nil, fmt.Errorf("the %s sheet is no text: write it with --out to a file that ends in %s", kind.Name, endings)
		}
	}
	most := kind.MostLineups(ending)
	switch {
	case !kind.Has(ending) && a.of == "":
		return nil, fmt.Errorf("--out %q: the name must end in %s, or in .md for the book; other sheets have a name, see --of", a.out, endings)
	case !kind.Has(ending):
		return nil, fmt.Errorf("--out %q: the %s sheet must end in %s", a.out, kind.Name, endings)
	case most >= 0 && len(a.lineups) > most:
		return nil, fmt.Errorf("--lineup: one line-up for .pdf and .svg, any for .json; the other forms of the %s sheet are for all", kind.Name)
	}
	size, ok := paper.SizeNamed(a.paper)
	if !ok {
		return nil, fmt.Errorf("--paper %q: want a4 or letter", a.paper)
	}
	return &book.Sheet{Kind: kind, Ending: ending, Paper: size, Lineups: a.lineups}, nil
}

func (p *program) sheet(name string, a asked) error {
	printed, err := a.sheet()
	if err != nil {
		return err
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
	if missing := doc.Plan.Unplaced(); len(missing) > 0 && !printed.Kind.Unplaced {
		p.say("no sheet yet: %s without a place; footplank arrange %s --save gives them one", listed(missing), name)
		return status(exitFaults)
	}
	if !printed.Kind.Unplaced && verdict(sheet.NewReport(doc.Plan)) != exitFine {
		p.say("the plan has faults, see footplank check %s: mend them before you cut", name)
	}
	if a.out == "" {
		printed.Cols = p.cols()
	}
	return p.deliver(a.out, a.force, func(w io.Writer) error {
		replaced, err := printed.Write(w, doc.Plan)
		for _, r := range replaced {
			p.say("%v", r)
		}
		return err
	})
}

// listed names a few things, and says how many more there are.
func listed(names []string) string {
	const few = 4
	if len(names) > few+1 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
	}
	return strings.Join(names, ", ")
}

func either(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func kindNames() []string {
	var out []string
	for _, k := range book.Kinds() {
		out = append(out, k.Name)
	}
	return out
}

// kindOf returns the kind of sheet that is asked for; without a name the build
// book as Markdown, and the placement sheet as anything else.
func kindOf(name, ending string) (*book.Kind, error) {
	if name == "" {
		name = "placement"
		if ending == ".md" {
			name = "book"
		}
	}
	if k := book.KindNamed(name); k != nil {
		return k, nil
	}
	return nil, fmt.Errorf("--of %q: want %s", name, either(kindNames()))
}

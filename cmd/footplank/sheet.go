package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"footplank/layout"
	"footplank/layout/sheet"
)

// sheetFormats are the formats of a sheet, by the ending of the file's name.
var sheetFormats = map[string]func(io.Writer, *layout.Plan) error{
	".txt": placementAs("txt"),
	".csv": placementAs("csv"),
	".svg": placementAs("svg"),
	".json": func(w io.Writer, p *layout.Plan) error {
		return sheet.NewReport(p).JSON(w)
	},
}

func placementAs(format string) func(io.Writer, *layout.Plan) error {
	return func(w io.Writer, p *layout.Plan) error { return sheet.Placement(w, p, format) }
}

func (p *program) sheetCommand() *cobra.Command {
	var out string
	var force bool
	c := &cobra.Command{
		Use:   "sheet PLAN",
		Short: "The fastener placement sheet: which piece, which kind, where on the board",
		Long: `Writes the sheet that fastener is cut and stuck by: for each unit the pieces, their
kind and their place on the board. The ending of the file's name says which form:

  .txt   to read          .csv   for a table of your own
  .svg   a drawing true to scale
  .json  everything in one report, for other programs

Without --out the text is printed. Every unit needs a place first, so arrange the
plan and save it. PLAN may be - for standard input.`,
		Example: `  footplank sheet board.toml
  footplank sheet board.toml --out fasteners.svg`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if !c.Flags().Changed("out") {
				return p.sheet(args[0], "", false)
			}
			if sheetFormats[strings.ToLower(filepath.Ext(out))] == nil {
				return fmt.Errorf("--out %q: the name must end in .txt, .csv, .svg or .json", out)
			}
			return p.sheet(args[0], out, force)
		},
	}
	c.Flags().StringVar(&out, "out", "", "write the sheet to this `FILE`")
	c.Flags().BoolVar(&force, "force", false, "let --out replace a file that is there already")
	return c
}

func (p *program) sheet(name, out string, force bool) error {
	if out != "" {
		if err := mayWrite(out, force, name); err != nil {
			return err
		}
	}
	doc, err := p.open(name)
	if err != nil {
		return err
	}
	if missing := unplaced(doc.Plan); len(missing) > 0 {
		p.say("no sheet yet: %s without a place; footplank arrange %s --save gives them one", listed(missing), name)
		return status(exitFaults)
	}
	if verdict(sheet.NewReport(doc.Plan)) != exitFine {
		p.say("the plan has faults, see footplank check %s: mend them before you cut", name)
	}
	if out == "" {
		return sheetFormats[".txt"](p.out, doc.Plan)
	}
	var text bytes.Buffer
	if err := sheetFormats[strings.ToLower(filepath.Ext(out))](&text, doc.Plan); err != nil {
		return err
	}
	return writeFile(out, force, text.Bytes())
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

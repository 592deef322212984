package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
)

// starting is what the start command was told by flags.
type starting struct {
	title, size, unit, surface, material, thickness, end string
	from                                                 string
	slots, lineups                                       []string
	force                                                bool
}

func (p *program) startCommand() *cobra.Command {
	var s starting
	c := &cobra.Command{
		Use:   "start FILE",
		Short: "Write a new plan, by questions or from a table of units",
		Long: `Writes a new, commented plan file. In a terminal, without --size, it asks what
it needs to know; with --size, flags answer instead. FILE may be - to print the
plan.

--from reads units from a table in CSV, a row for each, under a first row that
names the columns: id, label, form, width, depth, height, mass, mount, milliamps
and volts, in any order and any number of them. Each unit needs a form of the
catalog, or its width, depth and height. Commas, semicolons or tabs part the
fields.

Exit code 0 with a plan, 2 without: a file that is there is replaced only with
--force.`,
		Example: `  footplank start board.toml
  footplank start board.toml --size 560x330 --from units.csv
  footplank start board.toml --size 24x12.5 --unit-of-length in --end desk
  footplank start board.toml --size 560x330 --slots colour,space --lineups barn,pit`,
		Args:              takes("a name for the new plan file"),
		ValidArgsFunction: completePlan,
		RunE:              func(_ *cobra.Command, args []string) error { return p.start(args[0], s) },
	}
	f := c.Flags()
	f.StringVar(&s.title, "title", "", "`TITLE` of the plan (My board)")
	f.StringVar(&s.size, "size", "", "`WxD`: width and depth of the board, like 560x330 or 24inx12.5in")
	f.StringVar(&s.unit, "unit-of-length", "", "`UNIT` of bare numbers, in the plan too: mm (the usual) or in")
	f.StringVar(&s.surface, "surface", "", "`KIND` of surface: solid (the usual) or rails")
	f.StringVar(&s.material, "material", "", "`NAME` of the board's material in the catalog (birch-plywood; of rails aluminium)")
	f.StringVar(&s.thickness, "thickness", "", "`LENGTH`: the board's thickness (15mm)")
	f.StringVar(&s.end, "end", "", "`END` of the chain: amp (the usual) or desk")
	f.StringSliceVar(&s.slots, "slots", nil, "`NAMES` of slots for units that change from gig to gig: colour,space")
	f.StringSliceVar(&s.lineups, "lineups", nil, "`NAMES` of the gigs: barn,pit (all)")
	f.StringVar(&s.from, "from", "", "`FILE` with a table of units in CSV, or - for standard input")
	f.BoolVar(&s.force, "force", false, "replace a file that is there already")
	completeFlag(c, "unit-of-length", oneOf("mm", "in"))
	completeFlag(c, "surface", oneOf("solid", "rails"))
	completeFlag(c, "end", oneOf("amp", "desk"))
	completeFlag(c, "material", ofCatalog(materialNames))
	completeFlag(c, "from", endingIn("csv", "tsv", "txt"))
	for _, free := range []string{"title", "size", "thickness", "slots", "lineups"} {
		completeFlag(c, free, oneOf())
	}
	return c
}

func (p *program) start(name string, s starting) error {
	if name != "-" {
		if err := mayWrite(name, s.force, s.from); err != nil {
			return err
		}
	}
	c, err := forms()
	if err != nil {
		return err
	}
	a, err := s.answers()
	if err != nil {
		return err
	}
	a.Forms = c
	if s.from != "" {
		if a.Units, err = p.readUnits(s.from, c); err != nil {
			return err
		}
	}
	if s.size == "" {
		if !p.asked || s.from == "-" {
			return errors.New("how large is the board? give --size, like --size 560x330, or start it in a terminal to be asked")
		}
		if err := p.ask(&a); err != nil {
			return err
		}
	}
	text, err := plan.Starter(a)
	if err != nil {
		return err
	}
	if name == "-" {
		_, err = p.out.Write(text)
		return err
	}
	if err := writeFile(name, s.force, text); err != nil {
		return err
	}
	p.say("wrote %s; next: footplank arrange %s --save, or footplank edit %s", name, name, name)
	return nil
}

// answers turns the flags into answers.
func (s *starting) answers() (plan.Answers, error) {
	a := plan.Answers{Title: s.title, Material: s.material, Slots: s.slots, Lineups: gigs(s.lineups)}
	var err error
	word := func(flag, given string, words ...string) string {
		for _, w := range append(words, "") {
			if given == w {
				return given
			}
		}
		err = errors.Join(err, fmt.Errorf("--%s %q: want %s", flag, given, strings.Join(words, " or ")))
		return ""
	}
	a.Unit = layout.LengthUnit(word("unit-of-length", s.unit, string(layout.Millimetres), string(layout.Inches)))
	a.Surface = layout.SurfaceKind(word("surface", s.surface, string(layout.Solid), string(layout.Rails)))
	a.End = word("end", s.end, layout.Amp, layout.Desk)
	if s.size != "" {
		var bad error
		if a.BoardW, a.BoardD, bad = parseSize(s.size, a.Unit); bad != nil {
			err = errors.Join(err, fmt.Errorf("--size: %w", bad))
		}
	}
	if s.thickness != "" {
		var bad error
		if a.Thickness, bad = layout.ParseLength(s.thickness, cmp.Or(a.Unit, layout.Millimetres)); bad != nil {
			err = errors.Join(err, fmt.Errorf("--thickness: %w", bad))
		}
	}
	return a, err
}

// gigs makes line-ups of names.
func gigs(names []string) []plan.StarterLineup {
	var out []plan.StarterLineup
	for _, n := range names {
		out = append(out, plan.StarterLineup{Name: n, Fill: map[string][]string{}})
	}
	return out
}

// parseSize reads a width and a depth parted by an x.
func parseSize(s string, unit layout.LengthUnit) (w, d layout.Length, err error) {
	first, second, ok := strings.Cut(strings.ToLower(s), "x")
	if !ok {
		return 0, 0, fmt.Errorf("%q: want a width and a depth, like 560x330", s)
	}
	if w, err = layout.ParseLength(first, cmp.Or(unit, layout.Millimetres)); err != nil {
		return 0, 0, err
	}
	d, err = layout.ParseLength(second, cmp.Or(unit, layout.Millimetres))
	return w, d, err
}

// readUnits reads the table of units in a file, or on standard input.
func (p *program) readUnits(name string, c *catalog.Catalog) ([]plan.StarterUnit, error) {
	if name == "-" {
		p.awaitInput("a table of units")
		return plan.ReadUnitsCSV(p.in, "standard input", c)
	}
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("--from: %s: there is no such file: name a table in CSV", missing(name))
	}
	if err != nil {
		return nil, plan.Refused(plan.ToRead, name, err)
	}
	defer f.Close()
	return plan.ReadUnitsCSV(f, name, c)
}

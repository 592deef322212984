package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/layout/sheet"
	"footplank/pack"
)

// boardSeconds is how long boards works when nobody says: twenty sizes of a
// full board take a few seconds.
const boardSeconds = 60

// boarding is what the boards command was asked for.
type boarding struct {
	sizes, lineups               []string
	catalog                      bool
	step, up                     string
	freeFixed, keepFixed, pinned bool
	noCase                       bool
	bounds
	json, draw, plain bool
}

func (p *program) boardsCommand() *cobra.Command {
	var a boarding
	c := &cobra.Command{
		Use:   "boards PLAN",
		Short: "Smaller or other boards on which every line-up still fits",
		Long: `Tries the plan on other boards: do all line-ups fit, what is left in the slots,
how much cable, what it weighs, does it go into the case or a bag, what it
costs. The boards are those of the given sizes, those of the catalog, or, with
--frontier, the staircase of the smallest: less width against more depth.
Without any of these it tries the catalog. The plan's own board is always among
them.

A board that is too small is proved so. The output says what was assumed of
risers, slots and rails. Fixed units may move, but pinned ones keep their
places; --keep-fixed keeps all fixed ones where they are settled, --free-pinned
none.

Sizes are width x depth, in mm or in: 560x330, 24x12in, "22 1/2inx12in". PLAN
may be - for standard input. Ctrl-C ends it early; what is known by then is
shown.

Exit code 0 when some board works, 1 when it is known that none does, 3 when the
time was too short to tell, 130 when interrupted.`,
		Example: `  footplank boards board.toml
  footplank boards board.toml --sizes 520x330,24x12in --draw
  footplank boards board.toml --frontier 20mm --seconds 120`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if err := a.validate(c); err != nil {
				return err
			}
			return p.boards(args[0], a)
		},
	}
	p.lineupFlag(c, &a.lineups)
	f := c.Flags()
	f.StringSliceVar(&a.sizes, "sizes", nil, "boards of these sizes: `WxD,...`")
	f.BoolVar(&a.catalog, "catalog", false, "the boards of the catalog")
	f.StringVar(&a.step, "frontier", "", "the smallest boards, in steps of this `LENGTH` each way")
	f.StringVar(&a.up, "up-to", "", "with --frontier, no board larger than this `WxD`")
	f.BoolVar(&a.freeFixed, "free-fixed", false, "fixed units may move; this is so unless --keep-fixed is given")
	f.BoolVar(&a.keepFixed, "keep-fixed", false, "fixed units keep the places they have")
	f.BoolVar(&a.pinned, "free-pinned", false, "pinned units may move too")
	f.BoolVar(&a.noCase, "no-case", false, "a board need not go into the plan's case")
	a.bounds.flags(c, boardSeconds, "how long to work at most")
	for _, free := range []string{"sizes", "frontier", "up-to"} {
		completeFlag(c, free, oneOf())
	}
	f.BoolVar(&a.json, "json", false, "print the boards as JSON")
	f.BoolVar(&a.draw, "draw", false, "draw the smallest board that works, with each line-up")
	f.BoolVar(&a.plain, "ascii", false, "draw with plain letters and signs only")
	return c
}

func (a *boarding) validate(c *cobra.Command) error {
	if err := a.bounds.validate(); err != nil {
		return err
	}
	for _, name := range []string{"sizes", "frontier", "up-to"} {
		if f := c.Flag(name); f.Changed && strings.Trim(f.Value.String(), "[]") == "" {
			return fmt.Errorf("--%s: nothing given; see %s --help", name, c.CommandPath())
		}
	}
	switch {
	case a.keepFixed && (a.freeFixed || a.pinned):
		return errors.New("--keep-fixed holds what --free-fixed and --free-pinned let go: give one of them")
	case a.step != "" && (len(a.sizes) > 0 || a.catalog):
		return errors.New("--frontier finds its own sizes: give it without --sizes and --catalog")
	case a.up != "" && a.step == "":
		return errors.New("--up-to goes with --frontier")
	case a.json && a.draw:
		return errors.New("--json has every place and no drawing: give --json or --draw")
	}
	return nil
}

func (a *boarding) options() boards.Options {
	o := boards.Options{Lineups: a.lineups, WithoutCase: a.noCase, Seed: a.seed, Seconds: a.seconds}
	switch {
	case a.keepFixed:
		o.Mounting = boards.KeepFixed
	case a.pinned:
		o.Mounting = boards.FreeAll
	}
	return o
}

func (p *program) boards(name string, a boarding) error {
	doc, err := p.openFor(name, a.lineups)
	if err != nil {
		return err
	}
	interrupted, stop := interruptible()
	defer stop()
	opt := a.options()
	if p.watched {
		opt.Progress = func(done, total int, b *boards.Board) { p.overwrite(boardLine(done, total, b)) }
		p.overwrite("trying boards; Ctrl-C stops")
	}
	start := time.Now()
	r, err := a.run(interrupted, doc.Plan, opt)
	if p.watched {
		p.overwrite("")
	}
	if err != nil {
		return err
	}
	b := sheet.NewBoards(doc.Plan, r, a.lineups)
	if a.json {
		err = b.JSON(p.out)
	} else {
		err = b.Text(p.out, p.cols(), a.draw, a.plain)
	}
	if err != nil {
		return err
	}
	return p.tellBoards(r, time.Since(start), interrupted.Err() != nil)
}

// run tries the boards that were asked for.
func (a *boarding) run(ctx context.Context, p *layout.Plan, opt boards.Options) (*boards.Result, error) {
	if a.step != "" {
		step, err := layout.ParseLength(a.step, p.LengthUnit)
		if err != nil {
			return nil, fmt.Errorf("--frontier: %w", err)
		}
		var up layout.Size
		if a.up != "" {
			if up, err = boards.ParseSize(a.up, p.LengthUnit); err != nil {
				return nil, fmt.Errorf("--up-to: %w", err)
			}
		}
		return boards.Staircase(ctx, p, step, up, opt)
	}
	list := []boards.Candidate{boards.Own(p)}
	var sizes []layout.Size
	for _, s := range a.sizes {
		size, err := boards.ParseSize(s, p.LengthUnit)
		if err != nil {
			return nil, fmt.Errorf("--sizes: %w", err)
		}
		if size.W != p.Board.W || size.D != p.Board.D {
			sizes = append(sizes, size)
		}
	}
	list = append(list, boards.Sizes(sizes...)...)
	if a.catalog || len(a.sizes) == 0 {
		c, err := forms()
		if err != nil {
			return nil, err
		}
		list = append(list, boards.OfCatalog(c)...)
	}
	return boards.Compare(ctx, p, list, opt)
}

// boardLine is the progress shown after a board.
func boardLine(done, total int, b *boards.Board) string {
	of := ""
	if total > 0 {
		of = fmt.Sprintf(" of %d", total)
	}
	return fmt.Sprintf("board %d%s: %s x %s %s; Ctrl-C stops", done, of, b.W, b.D, b.Verdict)
}

// tellBoards says in words what came of it, and sets the exit code.
func (p *program) tellBoards(r *boards.Result, took time.Duration, stopped bool) error {
	fit, no, open := 0, 0, 0
	for _, b := range r.Boards {
		switch b.Verdict {
		case pack.Fits:
			fit++
		case pack.Impossible:
			no++
		default:
			open++
		}
	}
	tried := fmt.Sprintf("%d boards", len(r.Boards))
	if len(r.Boards) == 1 {
		tried = "one board"
	}
	p.say("%s in %.1f s: all line-ups fit on %d, proved too small %d, undecided %d", tried, took.Seconds(), fit, no, open)
	switch {
	case stopped:
		p.say("interrupted: this is what is known so far")
		return status(exitInterrupted)
	case r.Smallest() != nil:
		return nil
	case r.Stopped || open > 0:
		p.say("undecided: no board works yet, and not all are known; give it more --seconds")
		return status(exitUndecided)
	}
	p.say("none of these boards works")
	return status(exitFaults)
}

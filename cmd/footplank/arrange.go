package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/layout/sheet"
	"footplank/pack"
)

// defaultSeconds is how long arrange works when nobody says: the first fit
// takes a part of a second, shorter cables take the rest.
const defaultSeconds = 10

// arranging is what the arrange command was asked for.
type arranging struct {
	bounds
	keep    keeping
	lineups []string
	first   bool
	form    form
}

func (p *program) arrangeCommand() *cobra.Command {
	var a arranging
	c := &cobra.Command{
		Use:   "arrange PLAN",
		Short: "Place all units that are not pinned, every line-up together",
		Long: `Places every unit that is not pinned, so that all line-ups fit together, and
then improves the arrangement until the time is up: shorter cables, much-used
units in front, swapped units in the same place across line-ups. Prints the
report of the best arrangement; with --save or --out also writes the plan with
its places. PLAN may be - for standard input, and --out - prints the arranged
plan instead of the report.

The same plan and seed start the same search; how far it gets depends on the
time. Ctrl-C ends it early: the best so far is reported, nothing is written.
Places of a plan that has other faults, of power or mass say, are written all
the same.

Where not all line-ups fit on one board it says which sets of them do, the
largest there are, and which line-ups or pairs of them are to blame.

Exit code 0 when all fits, 1 when it is proved that it cannot or something else
is at fault, 3 when the time was too short to tell, 130 when interrupted.`,
		Example: `  footplank arrange board.toml
  footplank arrange board.toml --seconds 60 --save
  footplank arrange board.toml --lineup barn --out barn.toml`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if err := a.validate(c, args[0]); err != nil {
				return err
			}
			return p.arrange(args[0], a)
		},
	}
	p.lineupFlag(c, &a.lineups)
	a.bounds.flags(c, defaultSeconds, "how long to work")
	a.keep.flags(c, "write the places into PLAN itself", "write the arranged plan to this `FILE`")
	c.Flags().BoolVar(&a.first, "first", false, "stop at the first arrangement that fits")
	a.form.flags(c)
	return c
}

func (a *arranging) validate(c *cobra.Command, name string) error {
	if err := a.bounds.validate(); err != nil {
		return err
	}
	if a.keep.out == "-" && a.form.json {
		return errors.New("--out - and --json both print to standard output: give one of them")
	}
	return a.keep.validate(c, name)
}

func (p *program) arrange(name string, a arranging) error {
	doc, err := p.openFor(name, a.lineups)
	if err != nil {
		return err
	}
	interrupted, stop := interruptible()
	defer stop()
	ctx, cancel := a.within(interrupted)
	defer cancel()
	opt := arrange.Options{Seed: a.seed, Lineups: a.lineups, FirstFit: a.first}
	if p.watched {
		opt.Progress = func(g arrange.Progress) {
			p.overwrite(fmt.Sprintf("fits with %s of cable so far; Ctrl-C stops", g.Cable.Format(doc.Plan.LengthUnit)))
		}
		p.overwrite("looking for a place for everything; Ctrl-C stops")
	}
	res, err := arrange.Arrange(ctx, doc.Plan, opt)
	if p.watched {
		p.overwrite("")
	}
	if err != nil {
		return err
	}
	return p.tellArranged(doc, res, a, interrupted.Err() != nil)
}

// tellArranged writes the plan where it should go, reports the result, and says
// what has become of both. A plan in which everything has its place is written
// with its findings, which may be about power or mass. It is written before the
// report: whoever reads that may stop listening, and the search was long.
func (p *program) tellArranged(doc *plan.Doc, res arrange.Result, a arranging, stopped bool) error {
	if res.Plan != nil {
		doc.Plan = res.Plan
	}
	r := reportOf(doc.Plan, a.lineups)
	code, words := outcome(r, res, stopped)
	var done string
	var failed error
	switch {
	case res.Verdict == pack.Fits && !stopped:
		if done, failed = a.keep.write(p, doc); !a.keep.wanted() && doc.Path != "" && doc.Dirty() {
			done = doc.Path + " is as it was: add --save to put these places into it"
		}
	case a.keep.wanted():
		done = "nothing was written"
	}
	if a.keep.out != "-" {
		if err := p.printArranged(r, doc, res, a.form); err != nil {
			return errors.Join(failed, err)
		}
	}
	for _, w := range append(words, done) {
		if w != "" {
			p.say("%s", w)
		}
	}
	if failed == nil && code != exitFine {
		return status(code)
	}
	return failed
}

// printArranged prints the report, and which line-ups go together where not all
// do.
func (p *program) printArranged(r *sheet.Report, doc *plan.Doc, res arrange.Result, f form) error {
	if res.Sets == nil {
		return p.printReport(r, f)
	}
	sets := sheet.NewLineupSets(doc.Plan, res.Sets)
	if f.json {
		return sets.JSON(p.out, r)
	}
	if err := p.printReport(r, f); err != nil {
		return err
	}
	fmt.Fprintln(p.out)
	return sets.Text(p.out, p.cols())
}

// outcome is what came of an arrangement, as an exit code and in words. Verdicts
// that only the search knows go into the report.
func outcome(r *sheet.Report, res arrange.Result, stopped bool) (code int, words []string) {
	switch res.Verdict {
	case pack.Impossible:
		code, words = exitFaults, append([]string{"does not fit: " + res.Why}, blame(r, res)...)
	case pack.Undecided:
		for _, l := range r.Lineups {
			r.SetVerdict(l.Name, res.Verdict.String())
		}
		code, words = exitUndecided, []string{"undecided: neither an arrangement nor a proof that there is none; give it more --seconds"}
	default:
		if code = verdict(r); code != exitFine {
			words = []string{"everything has its place, but see the findings"}
		}
		if n := len(res.Elsewhere); n > 0 {
			words = append(words, fmt.Sprintf("not in the same place in all their line-ups: %s", strings.Join(res.Elsewhere, ", ")))
		}
	}
	if stopped {
		return exitInterrupted, append(words, "interrupted: this is the best so far")
	}
	return code, words
}

// blame marks the line-ups that do not fit: those that do not by themselves, or
// all when it is only together that they do not. It says which are the largest
// sets that fit together.
func blame(r *sheet.Report, res arrange.Result) (words []string) {
	guilty := false
	for _, l := range r.Lineups {
		if res.Alone[l.Name] == pack.Impossible {
			words = append(words, fmt.Sprintf("line-up %s does not fit by itself", l.Name))
			guilty = true
		}
	}
	for _, l := range r.Lineups {
		if !guilty || res.Alone[l.Name] == pack.Impossible {
			r.SetVerdict(l.Name, pack.Impossible.String())
		}
	}
	if res.Sets == nil {
		return words
	}
	for _, c := range res.Sets.Clash {
		if len(c.Lineups) > 1 && c.Proved {
			words = append(words, fmt.Sprintf("line-ups %s do not fit on one board", strings.Join(c.Lineups, " and ")))
		}
	}
	for i, f := range res.Sets.Fit {
		if i == 0 || len(f.Lineups) == len(res.Sets.Fit[0].Lineups) {
			words = append(words, fmt.Sprintf("fits with %s alone: --lineup leaves the others out", strings.Join(f.Lineups, ", ")))
		}
	}
	return words
}

package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
	"footplank/layout/sheet"
	"footplank/layout/tryout"
)

// manyCandidates is up to how many candidates are told how much more room would do,
// which takes longer than all the rest.
const manyCandidates = 8

// trying is what the tryout command was asked for.
type trying struct {
	units, forms, sizes []string
	allForms            bool
	like                string
	turns               []int
	slot, insteadOf     string
	lineups             []string
	bounds
	keep   keeping
	asJSON bool
}

func (p *program) tryoutCommand() *cobra.Command {
	var a trying
	c := &cobra.Command{
		Use:   "tryout PLAN --slot SLOT (--unit ID | --form NAME | --size WxDxH)",
		Short: "Does this unit fit into that slot, and what must move for it",
		Long: `Tries a unit in a slot: one of the plan, a form of the catalog, or one of given
sizes, added or instead of another, in every line-up or in some. It answers
  fits        with the place; nothing else moves
  moves       it fits if other units move: the fewest, with every step. Fixed
              units move only where nothing else helps; their fastener has to be
              lifted
  no          it does not fit wherever anything stands, which is proved: with
              who collides, how much larger slot or board would do, and who
              could go
  undecided   the time was too short
and whether there is an output for it, and a cable in the kit or which to add.
In the chain the unit takes the place of the one that it replaces, else the last
of its slot.

Several candidates, or --all-forms, give a table with a row for each; of more
than eight without how much larger slot or board would do. The jacks and the
draw of a size are those of the form named by --like, in proportion. Units of a
plan without places are arranged first. Where the plan's line-ups do not all go
together, only those that --lineup names are looked at. PLAN may be - for
standard input.

Exit code 0 when a candidate fits and has its power, 1 when none does or the
plan with it is not one to write, 3 when none does and some are undecided, 130
when interrupted.`,
		Example: `  footplank tryout board.toml --slot colour --form large-two-switch
  footplank tryout board.toml --slot colour --unit echo --instead-of squash --lineup barn
  footplank tryout board.toml --slot colour --size 120x95x60 --like compact-back
  footplank tryout board.toml --slot colour --all-forms --instead-of squash`,
		Args:              takes("a plan file, or - for standard input"),
		ValidArgsFunction: completePlan,
		RunE: func(c *cobra.Command, args []string) error {
			if err := a.validate(c, args[0]); err != nil {
				return err
			}
			return p.tryout(args[0], a)
		},
	}
	a.flags(p, c)
	return c
}

func (a *trying) flags(p *program, c *cobra.Command) {
	f := c.Flags()
	f.StringArrayVar(&a.units, "unit", nil, "try the unit of the plan with this `ID`; may be given more than once")
	f.StringArrayVar(&a.forms, "form", nil, "try the form of this `NAME`; may be given more than once")
	f.StringArrayVar(&a.sizes, "size", nil, "try a unit of `WIDTHxDEPTHxHEIGHT`; may be given more than once")
	f.BoolVar(&a.allForms, "all-forms", false, "try every form of the catalog, supplies left out")
	f.StringVar(&a.like, "like", "compact", "with --size: jacks and draw as of the form of this `NAME`")
	f.IntSliceVar(&a.turns, "turns", nil, "the turns it may take, as `DEGREES`: 0,90,180,270; not given, those of the unit or form")
	f.StringVar(&a.slot, "slot", "", "the `SLOT` to try it in")
	f.StringVar(&a.insteadOf, "instead-of", "", "take the unit with this `ID` out of the slot for it")
	p.lineupFlag(c, &a.lineups)
	a.bounds.flags(c, defaultSeconds, "how long to work at most")
	a.keep.flags(c, "write the plan with the one candidate in its place into PLAN itself", "write that plan to this `FILE`")
	f.BoolVar(&a.asJSON, "json", false, "print the answers as JSON")
	completeFlag(c, "unit", p.ofPlan(unitsOf))
	completeFlag(c, "form", ofCatalog(unitForms))
	completeFlag(c, "like", ofCatalog(unitForms))
	completeFlag(c, "slot", p.ofPlan(slotsOf))
	completeFlag(c, "instead-of", p.ofPlan(filling))
	completeFlag(c, "turns", oneOf("0", "90", "180", "270"))
	completeFlag(c, "size", oneOf())
}

func (a *trying) validate(c *cobra.Command, name string) error {
	if err := a.bounds.validate(); err != nil {
		return err
	}
	n := len(a.units) + len(a.forms) + len(a.sizes)
	switch {
	case n == 0 && !a.allForms:
		return errors.New("what to try? give --unit ID, --form NAME, --size WxDxH or --all-forms")
	case a.slot == "":
		return errors.New("where to try it? give --slot SLOT")
	case c.Flags().Changed("like") && len(a.sizes) == 0:
		return errors.New("--like says what a --size is like: give it with --size WxDxH")
	}
	for _, d := range a.turns {
		if d != 0 && d != 90 && d != 180 && d != 270 {
			return fmt.Errorf("--turns %d: want 0, 90, 180 or 270", d)
		}
	}
	if err := a.keep.validate(c, name); err != nil {
		return err
	}
	switch {
	case a.keep.wanted() && (n != 1 || a.allForms):
		return errors.New("--save and --out write the plan with one candidate: give just one")
	case a.keep.out == "-":
		return errors.New("--out - would print the plan among the answers: name a file")
	}
	return nil
}

// candidates makes what was asked for, in the order unit, form, size, catalog.
func (a *trying) candidates(p *layout.Plan, c *catalog.Catalog) ([]tryout.Candidate, error) {
	var out []tryout.Candidate
	add := func(x tryout.Candidate, err error) error {
		out = append(out, x)
		return err
	}
	for _, id := range a.units {
		if err := add(tryout.FromPlan(p, id)); err != nil {
			return nil, fmt.Errorf("--unit: %w", err)
		}
	}
	for _, n := range a.forms {
		if err := add(tryout.FromForm(c, n)); err != nil {
			return nil, fmt.Errorf("--form: %w", err)
		}
	}
	for _, s := range a.sizes {
		if err := add(tryout.FromSize(c, s, a.like, p.LengthUnit)); err != nil {
			return nil, fmt.Errorf("--size: %w", err)
		}
	}
	if a.allForms {
		out = append(out, tryout.FromCatalog(c)...)
	}
	for i := range out {
		if len(a.turns) > 0 {
			out[i] = out[i].Turned(a.turns)
		}
	}
	return out, nil
}

func (p *program) tryout(name string, a trying) error {
	doc, err := p.openFor(name, a.lineups)
	if err != nil {
		return err
	}
	c, err := forms()
	if err != nil {
		return err
	}
	candidates, err := a.candidates(doc.Plan, c)
	if err != nil {
		return err
	}
	var qs []tryout.Question
	for _, x := range candidates {
		q := tryout.Question{Candidate: x, Slot: a.slot, InsteadOf: a.insteadOf, Lineups: a.lineups}
		if err := q.Check(doc.Plan); err != nil {
			return err
		}
		qs = append(qs, q)
	}
	interrupted, stop := interruptible()
	defer stop()
	ctx, cancel := a.within(interrupted)
	defer cancel()
	began := time.Now()
	b, answers, err := p.tryAll(ctx, doc.Plan, qs, a)
	if err != nil {
		return err
	}
	return p.tellTried(doc, b, answers, a, time.Since(began), interrupted.Err() != nil)
}

// tryAll asks the questions, with progress for who watches.
func (p *program) tryAll(ctx context.Context, pl *layout.Plan, qs []tryout.Question, a trying) (*tryout.Bench, []*tryout.Answer, error) {
	opt := tryout.Options{Seed: a.seed, Lineups: a.lineups, Brief: len(qs) > manyCandidates}
	if p.watched {
		defer p.overwrite("")
		p.overwrite("trying; Ctrl-C stops")
		if len(qs) == 1 {
			opt.Progress = func(a tryout.Answer) {
				if n := len(a.Steps); n > 0 {
					p.overwrite(a.Steps[n-1])
				}
			}
		}
	}
	b, err := tryout.Prepare(ctx, pl, opt)
	if err != nil {
		return nil, nil, err
	}
	if len(qs) == 1 {
		a, err := b.Try(ctx, qs[0])
		return b, []*tryout.Answer{a}, err
	}
	done := 0
	answers, err := b.TryAll(ctx, qs, func(_ int, a *tryout.Answer) {
		if done++; p.watched {
			p.overwrite(fmt.Sprintf("%d of %d tried; Ctrl-C stops", done, len(qs)))
		}
	})
	return b, answers, err
}

// tellTried writes the plan where it should go, prints the answers, and says how
// long they took. The plan is written first, as arrange does it.
func (p *program) tellTried(doc *plan.Doc, b *tryout.Bench, answers []*tryout.Answer, a trying, took time.Duration, stopped bool) error {
	t := sheet.NewTryout(doc.Plan, answers)
	code := triedCode(answers)
	var done string
	var failed error
	switch {
	case !a.keep.wanted():
	case code != exitFine || stopped:
		done = "nothing was written"
	case b.Part():
		done = "nothing was written: the other line-ups of the plan do not go with these, so there is no plan of them all to write"
		code = exitFaults
	default:
		doc.Plan = answers[0].Plan
		done, failed = a.keep.write(p, doc)
	}
	if err := p.print(t, a.asJSON); err != nil {
		return errors.Join(failed, err)
	}
	p.say("%s", triedWords(answers, took))
	if stopped {
		p.say("interrupted: this is what was found until then")
		code = exitInterrupted
	}
	if done != "" {
		p.say("%s", done)
	}
	if failed == nil && code != exitFine {
		return status(code)
	}
	return failed
}

// triedCode is 0 when a candidate fits and works, else 3 when some are undecided,
// else 1.
func triedCode(answers []*tryout.Answer) int {
	code := exitFaults
	for _, a := range answers {
		switch {
		case a.Works():
			return exitFine
		case a.Verdict == tryout.Undecided:
			code = exitUndecided
		}
	}
	return code
}

// triedWords sums up the answers and names the time.
func triedWords(answers []*tryout.Answer, took time.Duration) string {
	secs := fmt.Sprintf("%.2f s", took.Seconds())
	if len(answers) == 1 {
		a := answers[0]
		switch {
		case a.Room() && !a.Works():
			return fmt.Sprintf("there is room, but see what is in the way (%s)", secs)
		case a.Verdict == tryout.Moves && !a.Proved:
			return fmt.Sprintf("it fits; that no fewer moves do is not proved; %s", secs)
		case a.Room():
			return fmt.Sprintf("it fits; %s", secs)
		case a.Verdict == tryout.Impossible:
			return fmt.Sprintf("it does not fit: proved in %s", secs)
		}
		return fmt.Sprintf("not decided in %s", secs)
	}
	count := map[string]int{}
	for _, a := range answers {
		switch {
		case a.Works():
			count["fit"]++
		case a.Room():
			count["room"]++
		default:
			count[string(a.Verdict)]++
		}
	}
	return fmt.Sprintf("%d candidates: %d fit, %d have room but no power or a cable in the way, %d do not fit, %d undecided; %s",
		len(answers), count["fit"], count["room"], count[string(tryout.Impossible)], count[string(tryout.Undecided)], secs)
}

package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
)

// forms returns the built-in forms and the player's own.
func forms() (*catalog.Catalog, error) { return catalog.Load(catalog.UserDir()) }

// open reads the plan in the file called name, or from standard input for "-".
func (p *program) open(name string) (*plan.Doc, error) {
	c, err := forms()
	if err != nil {
		return nil, err
	}
	if name != "-" {
		doc, err := plan.Open(name, c)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%s: there is no such file; footplank start writes a new plan", missing(name))
		}
		return doc, err
	}
	p.awaitInput("a plan")
	src, err := io.ReadAll(io.LimitReader(p.in, plan.MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("standard input: %w", err)
	}
	return plan.Parse("standard input", src, c)
}

// awaitInput says what is read where it is to be typed: a program that waits in
// silence seems to hang.
func (p *program) awaitInput(what string) {
	if p.asked && p.watched {
		p.say("reading %s from standard input: Ctrl-D ends it, Ctrl-C gives up", what)
	}
}

// missing shows the name of a file that is not there, even if it is empty.
func missing(name string) string {
	if strings.TrimSpace(name) == "" {
		return fmt.Sprintf("%q", name)
	}
	return name
}

// lineupFlag adds --lineup, completed from the plan that the line names.
func (p *program) lineupFlag(c *cobra.Command, chosen *[]string) {
	c.Flags().StringArrayVar(chosen, "lineup", nil, "only the line-up of this `NAME`; may be given more than once")
	completeFlag(c, "lineup", p.ofPlan(lineupsOf))
}

// openFor opens a plan that must have all the line-ups named.
func (p *program) openFor(name string, lineups []string) (*plan.Doc, error) {
	doc, err := p.open(name)
	if err != nil {
		return nil, err
	}
	return doc, chooseLineups(doc.Plan, lineups)
}

// chooseLineups checks that the plan has all the line-ups named.
func chooseLineups(p *layout.Plan, chosen []string) error {
	for _, name := range chosen {
		if p.LineupNamed(name) == nil {
			return fmt.Errorf("no line-up %q in the plan: it has %s", name, strings.Join(lineupNames(p), ", "))
		}
	}
	return nil
}

// among reports whether a line-up was chosen; none named means all.
func among(chosen []string, name string) bool {
	return len(chosen) == 0 || slices.Contains(chosen, name)
}

package main

import (
	"slices"

	"github.com/spf13/cobra"

	"footplank/catalog"
	"footplank/layout"
)

// completer lists what a word of the command line may be: a word each, or a word,
// a tab and what it means, which shells show beside it.
type completer = func(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective)

// completeFlag completes the values of a flag that the command has.
func completeFlag(c *cobra.Command, flag string, by completer) {
	if err := c.RegisterFlagCompletionFunc(flag, by); err != nil {
		panic(err) // a flag that was not added
	}
}

// oneOf completes to fixed words; without any, no names of files are offered.
func oneOf(words ...string) completer {
	return cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)
}

// ofPlan completes from the plan that the line names.
func (p *program) ofPlan(list func(*cobra.Command, *layout.Plan) []string) completer {
	return func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) == 0 || args[0] == "-" {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		doc, err := p.open(args[0])
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list(c, doc.Plan), cobra.ShellCompDirectiveNoFileComp
	}
}

// ofCatalog completes from the catalog.
func ofCatalog(list func(*catalog.Catalog) []string) completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		c, err := forms()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list(c), cobra.ShellCompDirectiveNoFileComp
	}
}

// first completes the first argument, and offers nothing for a second one.
func first(by completer) completer {
	return func(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return by(c, args, begun)
	}
}

// completePlan completes the one argument that is a plan file.
var completePlan = first(endingIn("toml"))

// completeLineups completes a plan file and then names of its line-ups.
func (p *program) completeLineups(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return completePlan(c, args, begun)
	case 1, 2:
		names := func(_ *cobra.Command, pl *layout.Plan) []string {
			return slices.DeleteFunc(lineupNames(pl), func(n string) bool { return slices.Contains(args[1:], n) })
		}
		return p.ofPlan(names)(c, args, begun)
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

func lineupsOf(_ *cobra.Command, p *layout.Plan) []string { return lineupNames(p) }

func slotsOf(_ *cobra.Command, p *layout.Plan) (out []string) {
	for i := range p.Slots {
		out = append(out, p.Slots[i].Name)
	}
	return out
}

// unitsOf lists the plan's units but for supplies, which no slot takes.
func unitsOf(_ *cobra.Command, p *layout.Plan) (out []string) {
	for i := range p.Units {
		if u := &p.Units[i]; !u.Supplies() {
			out = append(out, u.ID+"\t"+u.Label)
		}
	}
	return out
}

// filling lists the units in the slot that --slot names, or in any, in the
// line-ups chosen.
func filling(c *cobra.Command, p *layout.Plan) (out []string) {
	slot := c.Flag("slot").Value.String()
	chosen, _ := c.Flags().GetStringArray("lineup")
	for i := range p.Lineups {
		l := &p.Lineups[i]
		if !among(chosen, l.Name) {
			continue
		}
		for _, s := range p.Slots {
			if slot != "" && s.Name != slot {
				continue
			}
			for _, id := range l.Fill[s.Name] {
				if word := id + "\t" + p.Unit(id).Label; !slices.Contains(out, word) {
					out = append(out, word)
				}
			}
		}
	}
	return out
}

// formNames lists the forms of everything in the catalog.
func formNames(c *catalog.Catalog) (out []string) {
	newShelf(c).each(func(_ string, e entry, _ string) { out = append(out, e.Name+"\t"+e.Summary) })
	return out
}

// unitForms lists the forms of units but for supplies.
func unitForms(c *catalog.Catalog) (out []string) {
	for _, f := range c.Units() {
		if u := f.Template(); !u.Supplies() {
			out = append(out, f.Name+"\t"+f.Summary)
		}
	}
	return out
}

func materialNames(c *catalog.Catalog) (out []string) {
	for _, m := range c.Materials() {
		out = append(out, m.Name+"\t"+m.Summary)
	}
	return out
}

func lineupNames(p *layout.Plan) []string {
	var names []string
	for i := range p.Lineups {
		names = append(names, p.Lineups[i].Name)
	}
	return names
}

// endingIn completes to files with one of these endings.
func endingIn(endings ...string) completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return endings, cobra.ShellCompDirectiveFilterFileExt
	}
}

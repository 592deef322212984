package main

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"footplank/catalog"
)

func (p *program) formsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "forms [NAME]",
		Short: "The catalog: generic forms of units, plugs, boards, materials",
		Long: `Lists the forms that a plan may name: the built-in ones and those of your own
catalog, TOML files in the folder "footplank" of $XDG_CONFIG_HOME (else
~/.config). With a name, shows everything the catalog says about that form, and
for each figure how sure it is: read at a source, computed, from memory, or
common practice. A tape measure beats them all: a plan may override any of them.

Exit code 0, or 2 when there is no such form or your own catalog has a mistake.`,
		Example: `  footplank forms
  footplank forms compact
  footplank forms birch-plywood --json`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return nil
			}
			return takes("the name of a form")(c, args)
		},
		ValidArgsFunction: first(ofCatalog(formNames)),
		RunE: func(_ *cobra.Command, args []string) error {
			c, err := forms()
			if err != nil {
				return err
			}
			s := newShelf(c)
			if len(args) == 1 {
				name := args[0]
				if s = s.named(name); len(s.names()) == 0 {
					return noForm(c, name)
				}
			}
			switch {
			case asJSON:
				return printJSON(p.out, s)
			case len(args) == 1:
				return s.describe(p.out)
			}
			return s.list(p.out, p.width)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func noForm(c *catalog.Catalog, name string) error {
	all := newShelf(c).names()
	if near := catalog.Nearest(name, all); near != "" {
		return fmt.Errorf("no form %q: did you mean %q?", name, near)
	}
	if with := keep(all, func(n string) bool { return name != "" && strings.Contains(n, name) }); len(with) > 0 {
		return fmt.Errorf("no form %q, but %s", name, strings.Join(with, ", "))
	}
	if doing := keep(all, func(n string) bool {
		return slices.Contains(strings.Fields(catalog.WordsFor(n)), strings.ToLower(name))
	}); len(doing) > 0 {
		return fmt.Errorf("no form %q; units that do that come as %s", name, strings.Join(doing, ", "))
	}
	return fmt.Errorf("no form %q: footplank forms lists them all", name)
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

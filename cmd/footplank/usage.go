package main

import (
	"fmt"
	"regexp"

	"github.com/spf13/cobra"
)

// notThat is how the library of flags words a value that its flag cannot take:
// the value, the flag's name, and words about Go that are no use to a player.
var notThat = regexp.MustCompile(`^invalid argument "((?s:.*))" for "(?:-., )?--([a-z-]+)" flag: `)

// flagError says what is wrong with a flag, and what it wants.
func flagError(c *cobra.Command, err error) error {
	if m := notThat.FindStringSubmatch(err.Error()); m != nil {
		if f := c.Flag(m[2]); f != nil {
			return fmt.Errorf("--%s %q: want %s; see %s --help", m[2], m[1], wanted(f.Value.Type()), c.CommandPath())
		}
	}
	return fmt.Errorf("%w; see %s --help", err, c.CommandPath())
}

// wanted says what a flag of a type takes.
func wanted(kind string) string {
	switch kind {
	case "float64":
		return "a number"
	case "int", "int64", "uint64":
		return "a whole number"
	case "intSlice":
		return "whole numbers with commas between them"
	case "bool":
		return "true or false"
	}
	return "another value"
}

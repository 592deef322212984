package main

import (
	// First, before anything that asks the terminal for its colours.
	_ "footplank/tui/background"

	"os"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

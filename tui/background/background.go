// Package background keeps the terminal library from asking the terminal for
// its background colour.
//
// The library asks in an init function and waits up to five seconds where no
// answer comes, even for a run that only prints its version. Initialisation
// goes by import path, and this path sorts before the library's, so what init
// sets here is known before the question would be asked. This package may
// therefore import lipgloss only, and never the library that asks.
//
// The editor draws in the terminal's own sixteen colours, so the answer would
// change nothing.
package background

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }

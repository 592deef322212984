package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

func screenLines(frame string) []string {
	lines := strings.Split(frame, "\n")
	for i := range lines {
		lines[i] = ansi.Strip(lines[i])
	}
	return lines
}

func containsText(line, text string) bool { return strings.Contains(line, text) }

// columnOf is the column in which a text begins.
func columnOf(line, text string) int {
	before, _, _ := strings.Cut(line, text)
	return ansi.StringWidth(before)
}

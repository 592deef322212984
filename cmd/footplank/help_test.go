package main

import (
	"bufio"
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everyCommand calls f with each of our own commands; those that the library adds
// to completion have words of their own.
func everyCommand(t *testing.T, f func(t *testing.T, c *cobra.Command)) {
	t.Helper()
	root := freshRoot()
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		t.Run(c.Name(), func(t *testing.T) { f(t, c) })
	}
}

func freshRoot() *cobra.Command {
	p := &program{in: strings.NewReader(""), out: bufio.NewWriter(io.Discard), err: io.Discard}
	return p.rootCommand()
}

// Help is read in the plainest terminal.
func TestHelpFitsEveryTerminal(t *testing.T) {
	everyCommand(t, func(t *testing.T, c *cobra.Command) {
		var b bytes.Buffer
		c.SetOut(&b)
		require.NoError(t, c.Help())
		for line := range strings.Lines(b.String()) {
			if line = strings.TrimSuffix(line, "\n"); !strings.HasPrefix(line, "  footplank ") { // to be copied whole
				assert.LessOrEqual(t, len(line), lineWidth, "%q", line)
			}
		}
	})
}

// What help shows as an example has options that exist, with values that they
// take, and the right number of names.
func TestHelpExamplesAreGoodUsage(t *testing.T) {
	everyCommand(t, func(t *testing.T, c *cobra.Command) {
		if c.Name() != "help" && c.Name() != "completion" {
			require.NotEmpty(t, c.Example)
		}
		for line := range strings.Lines(c.Example) {
			words := strings.Fields(line)
			require.Equal(t, "footplank", words[0])
			found, rest, err := freshRoot().Find(words[1:]) // fresh, for options stay set
			require.NoError(t, err, line)
			assert.True(t, found.Name() == c.Name() || c == c.Root(), "%s is an example of another command", line)
			require.NoError(t, found.ParseFlags(rest), line)
			assert.NoError(t, found.ValidateArgs(found.Flags().Args()), line)
		}
	})
}

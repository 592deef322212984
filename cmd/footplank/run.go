package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// program is one run of the command: its streams, and what they are.
type program struct {
	in  io.Reader
	out *bufio.Writer
	err io.Writer
	// screen is set when input and output are a terminal, so that an editor
	// makes sense; asked when the input is one, so that questions do; watched
	// when standard error is one, so that progress does.
	screen, asked, watched bool
	noMouse                bool // the editor leaves the mouse to the terminal
	width                  int  // of the terminal that standard output is, else 0
}

// The help lists commands in the order of the work, not of the alphabet.
func init() { cobra.EnableCommandSorting = false }

// run is the whole program but for ending the process: it carries out the
// command in args and returns the exit code.
func run(args []string, in, out, errs *os.File) int {
	p := &program{
		in: in, out: bufio.NewWriter(out), err: errs,
		asked:   term.IsTerminal(int(in.Fd())),
		watched: term.IsTerminal(int(errs.Fd())),
	}
	if term.IsTerminal(int(out.Fd())) {
		p.screen, p.width = p.asked, lineWidth
		if w, _, err := term.GetSize(int(out.Fd())); err == nil && w > 0 {
			p.width = w
		}
		if w, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && w > 0 { // POSIX: instead of the terminal's own
			p.width = w
		}
	}
	root := p.rootCommand()
	root.SetArgs(args)
	err := root.Execute()
	if flushed := p.out.Flush(); flushed != nil {
		err = fmt.Errorf("standard output: %w", flushed)
	}
	return p.finish(err)
}

// cols is how wide text to read is printed: as wide as the terminal, as far as it
// is good to read; or what fits everywhere.
func (p *program) cols() int {
	const least, most = 60, 160
	if p.width == 0 {
		return lineWidth
	}
	return min(max(p.width, least), most)
}

func (p *program) rootCommand() *cobra.Command {
	var f form
	root := &cobra.Command{
		Use:   "footplank",
		Short: "Plan an effects board: place, check and print what it is built from",
		Long: `Footplank plans a player's effects board: it places units on a flat or two-tier
board with every plug seated, finds what is wrong with a board, proves when a
set of units does not fit, and prints the sheets the board is built from.

Without a command it opens the editor, to choose or to begin a plan there; when
its output is not a terminal, or with --json, it arranges the built-in example
and prints the report.

Data goes to standard output, words to standard error. Exit codes:
  0    fine
  1    faults, units without a place, or the units do not fit
  2    bad usage, bad input, or a file that cannot be read or written
  3    undecided in the time given
  130  interrupted`,
		Example: `  footplank
  footplank start board.toml
  footplank arrange board.toml --save
  footplank edit board.toml
  footplank sheet board.toml --out fasteners.svg`,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noCommand,
		RunE: func(*cobra.Command, []string) error {
			if p.screen && !f.json {
				return p.editStart(f.plain)
			}
			return p.reportExample(f)
		},
	}
	f.flags(root)
	p.mouseFlag(root)
	root.SetVersionTemplate("footplank {{.Version}}\n")
	root.SetIn(p.in)
	root.SetOut(p.out)
	root.SetErr(p.err)
	root.SetFlagErrorFunc(flagError)
	root.AddCommand(p.startCommand(), p.editCommand(), p.arrangeCommand(), p.checkCommand(), p.tryoutCommand(), p.boardsCommand(),
		p.wiringCommand(), p.powerCommand(), p.sheetCommand(), p.shoppingCommand(), p.changeoverCommand(), p.formsCommand())
	root.SetUsageTemplate(strings.NewReplacer(".FlagUsages ", fmt.Sprintf(".FlagUsagesWrapped %d ", lineWidth),
		"for more information about a command", "for more about one").Replace(root.UsageTemplate()))
	root.SetHelpCommand(helpCommand(root))
	addCompletion(root)
	return root
}

// addCompletion adds the library's command that prints scripts for shells, in our
// words.
func addCompletion(root *cobra.Command) {
	root.InitDefaultCompletionCmd("completion")
	c, _, err := root.Find([]string{"completion"})
	if err != nil || c == root {
		return
	}
	c.Args = nil
	c.Short = "A script for a shell, to complete commands, units and more"
	c.Long = "Prints a script that teaches a shell to complete commands, options, line-ups,\nslots, units and forms. The help of each shell says where it goes."
	which := errors.New("for which shell? footplank completion bash, zsh, fish or powershell")
	c.RunE = func(*cobra.Command, []string) error { return which }
	for _, shell := range c.Commands() {
		shell.Args = func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return which
			}
			return nil
		}
	}
}

// helpCommand is the usual one but for a word that is no command, which is bad
// usage.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about any command",
		RunE: func(_ *cobra.Command, args []string) error {
			c, rest, err := root.Find(args)
			if err != nil || c == root && len(rest) > 0 {
				return noCommand(root, args)
			}
			return c.Help()
		},
	}
}

// noCommand refuses a word that is no command, with the nearest that is.
func noCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	c.SuggestionsMinimumDistance = 2
	hint := ""
	if near := c.SuggestionsFor(args[0]); len(near) > 0 {
		hint = fmt.Sprintf("; did you mean %s?", strings.Join(near, " or "))
	}
	return fmt.Errorf("no command %q%s; see footplank --help", args[0], hint)
}

// takes wants exactly one argument, which what names.
func takes(what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) == 1 {
			return nil
		}
		if len(args) == 0 {
			return fmt.Errorf("want %s: %s", what, c.UseLine())
		}
		return fmt.Errorf("want one argument, %s, not %d: %s", what, len(args), c.UseLine())
	}
}

// version is the module's version where the build knows it.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && strings.HasPrefix(info.Main.Version, "v") {
		return strings.TrimPrefix(info.Main.Version, "v")
	}
	return "(built from source)"
}

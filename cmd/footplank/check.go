package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"
	"github.com/spf13/cobra"

	"footplank/layout/check"
	"footplank/layout/sheet"
)

func (p *program) checkCommand() *cobra.Command {
	return p.answering(&cobra.Command{
		Use:   "check PLAN",
		Short: "What is wrong with a board, or worth knowing, by line-up",
		Long: `Checks every line-up of the plan: collisions of bodies and plugs, what stands
off the board or too little on it, headroom, the case, reach of the switches,
mass, balance, power, cables and fastener. A fault means that the board cannot
be built or played so, a caution that it can and will be a nuisance or a risk, a
note that something is worth knowing. PLAN may be - for standard input.

Exit code 0 when every line-up fits, 1 when there are faults or units without a
place.`,
		Example: `  footplank check board.toml
  footplank check board.toml --lineup barn
  footplank check board.toml --json`,
	}, "the whole report", p.check)
}

func (p *program) check(name string, lineups []string, asJSON bool) error {
	doc, err := p.openFor(name, lineups)
	if err != nil {
		return err
	}
	r := reportOf(doc.Plan, lineups)
	if asJSON {
		err = r.JSON(p.out)
	} else {
		err = printFindings(p.out, r, p.width)
	}
	if err != nil {
		return err
	}
	return status(verdict(r))
}

// lineWidth is what every terminal has room for.
const lineWidth = 80

// printFindings lists the findings under a heading for each line-up, each in one
// line, or with a width folded to lines of it.
func printFindings(w io.Writer, r *sheet.Report, width int) error {
	const indent = 11
	var b strings.Builder
	for i, l := range r.Lineups {
		if i > 0 && len(r.Lineups[i-1].Findings) > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: %s\n", l.Name, summary(l))
		for _, f := range l.Findings {
			text := fmt.Sprintf("%s (%s)", f.Text, f.Code)
			if width > 0 {
				text = ansi.Wordwrap(text, max(width-indent, 20), "")
				text = strings.ReplaceAll(text, "\n", "\n"+strings.Repeat(" ", indent))
			}
			fmt.Fprintf(&b, "  %-*s%s\n", indent-2, f.Level, text)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// summary is a line-up's verdict with how many findings there are.
func summary(l sheet.Lineup) string {
	words := []string{l.Verdict}
	for _, level := range []check.Level{check.Fault, check.Caution, check.Note} {
		n := 0
		for _, f := range l.Findings {
			if f.Level == string(level) {
				n++
			}
		}
		if n == 1 {
			words = append(words, fmt.Sprintf("1 %s", level))
		} else if n > 1 {
			words = append(words, fmt.Sprintf("%d %ss", n, level))
		}
	}
	return strings.Join(words, ", ")
}

// verdict is the exit code that the verdicts of the line-ups add up to.
func verdict(r *sheet.Report) int {
	for _, l := range r.Lineups {
		if l.Verdict != check.Fits {
			return exitFaults
		}
	}
	return exitFine
}

package main

import (
	"errors"
	"fmt"
	"strings"
	"syscall"
	"unicode"

	"github.com/charmbracelet/x/ansi"

	"footplank/catalog"
	"footplank/layout/plan"
	"footplank/tui"
)

// Exit codes.
const (
	exitFine        = 0
	exitFaults      = 1   // faults, units without a place, or does not fit
	exitBad         = 2   // bad usage, bad input, or a file that cannot be read or written
	exitUndecided   = 3   // neither an arrangement nor a proof in the time given
	exitInterrupted = 130 // 128 and the number of the interrupt signal
)

// status is an exit code as an error, for a command that has said all there is
// to say.
type status int

func (s status) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// finish says what is wrong, if that has not been said, and returns the exit
// code. A reader of our output that has had enough is nothing wrong.
func (p *program) finish(err error) int {
	if s := status(0); errors.As(err, &s) {
		return int(s)
	}
	if err == nil || errors.Is(err, syscall.EPIPE) {
		return exitFine
	}
	if errors.Is(err, tui.ErrStopped) {
		p.say("%v", err)
		return exitInterrupted
	}
	if located(err) {
		fmt.Fprintln(p.err, visible(err.Error()))
	} else {
		p.say("%v", err)
	}
	return exitBad
}

// located reports whether the error is a list with the place of each thing
// wrong, file:line:column first: editors find their way by it, so nothing may
// stand before it.
func located(err error) bool {
	var inPlan plan.Errors
	var inCatalog catalog.Errors
	return errors.As(err, &inPlan) || errors.As(err, &inCatalog)
}

// say prints words, never data, to standard error, behind the data so far.
func (p *program) say(format string, args ...any) {
	_ = p.out.Flush() // an error stays, and run meets it again
	text := visible(fmt.Sprintf("footplank: "+format, args...))
	if p.watched {
		text = ansi.Wordwrap(text, lineWidth, "")
	}
	fmt.Fprintln(p.err, text)
}

// visible writes control characters out, which a name given may have, so that
// they do nothing to the terminal.
func visible(text string) string {
	var b strings.Builder
	for _, r := range text {
		if unicode.IsControl(r) && r != '\n' {
			fmt.Fprintf(&b, `\x%02x`, r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

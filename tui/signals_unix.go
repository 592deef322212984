//go:build unix

package tui

import (
	"os"
	"syscall"
)

// stopSignals tell the editor to go: from outside, at the end of the session or
// of the machine, or when the connection is lost.
var stopSignals = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}

//go:build !unix

package tui

import (
	"os"
	"syscall"
)

// stopSignals tell the editor to go.
var stopSignals = []os.Signal{os.Interrupt, syscall.SIGTERM}

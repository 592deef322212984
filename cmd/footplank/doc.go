// Command footplank plans a player's effects board from the command line and,
// in a terminal, on a live drawing.
//
// The package knows arguments, streams, files and exit codes, and how one
// command is put together from the packages below. It must not know geometry,
// rules or file formats: what a plan is, whether it fits and what a sheet looks
// like is said in layout and its packages, and what a key does in tui.
//
// One file a command. A command returns an error or a status: run turns it into
// words on standard error and an exit code, so nothing else ends the process.
//
//	arguments -> command -> layout/... -> standard output: data
//	                 |
//	                 +----> error or status -> standard error: words, exit code
package main

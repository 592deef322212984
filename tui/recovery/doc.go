// Package recovery keeps what the editor must not lose in a folder of its own,
// beside nothing of the player's: the plan on screen while it is not saved, who
// has which plan open, and which plans were open last.
//
// It knows files and bytes. It does not know plans, terminals or the editor: the
// text of a plan is bytes to it.
//
// # The folder
//
// It is footplank under XDG_STATE_HOME, or ~/.local/state where that is not set,
// on every system:
//
//	open/KEY-PID      an editor that has a plan open: who, which file, since when
//	unsaved/KEY-PID   the text on screen, later than that of the file
//	recent            paths of plans, the last one first
//
// KEY stands for the file's path, PID for the process. An editor holds its note
// in "open" as long as it runs and takes both away when it ends in order. When it
// is killed, or the machine is, the note is there and nobody holds it: what is in
// "unsaved" under the same name is offered at the next start.
//
// Every file is written beside itself and renamed, so there is never half of one.
package recovery

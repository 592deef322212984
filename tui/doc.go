// Package tui is the editor: a plan's board on screen, live.
//
// It knows the terminal and everything below it. What an edit does to a plan is
// in tui/edit; what is wrong with a board in layout/check; how it is drawn in
// layout/sheet. Nothing imports this package but the command.
//
// # How it works
//
// There is one model, Model. It handles a message in Update and draws itself in
// View; both are quick and neither reads or writes a file or the clock. What
// takes long (saving, arranging) runs in a command, on a copy of the plan, and
// comes back as a message.
//
//	key --> mode --> action --> edit.History --> look --> View
//	         ^                                    |
//	help <---+ the same table of actions          +-- findings and drawing,
//	                                                  kept until the plan changes
//
// Cables and leads are laid in the background too, in two steps: after an edit
// those of the line-up on screen that the edit touches, within a few
// milliseconds; once the plan rests for a moment those of all line-ups afresh, as
// the commands print them, with kit, cut list and power map. Until then the last
// ones stand. Runs are traced over the drawing cell by cell; thin lines are audio,
// dotted ones power, a heavy one with both ends marked is the chosen one.
//
// Fastener is laid in the background as well, for it takes longer than all other
// checks together; its findings follow.
//
// A mode is what the keys mean just now: the board, two units, finding a unit by
// typing, a name to save under, a question, a page of text. Each has a table of
// actions (key, what it does now, whether it can), from which keys are looked up
// and help and the line of hints are written; so they cannot disagree. All modes
// stand in one map, newModes. A new mode is a constant and an entry there; a new
// page is an entry in pageTabs and an action of its key on the board.
//
// What the mouse does a key does too. The keys in the last line and the tabs
// above a page are buttons: a click presses their key.
//
// The camera says how the board is looked at: from which side, how closely, where.
// Places on screen and on the board are turned into each other by the drawing
// alone, so nothing else has to know of scale or of the mirrored underside.
//
// The screen is cut into rectangles by a pure function of its size (areas);
// each part writes exactly the lines and columns that it is given.
//
// Colours are the terminal's own sixteen. Whatever a colour tells is told by a
// character too, for with NO_COLOR there is nothing else.
package tui

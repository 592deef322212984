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
// ones stand. Each line-up's runs are laid on from where they lay last, and what is
// known of a plan is kept for a while (recent), so that undo, redo and the way back
// from what was only tried need nothing anew. Runs are traced over the drawing cell
// by cell; thin lines are audio, dotted ones power, a heavy one with both ends
// marked is the chosen one.
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
// # What is only tried
//
// Units in a slot and other boards are tried in modes of their own, trying and
// comparing. While one of them is on, the plan on screen is that of the chosen
// answer, so that findings, runs and drawing need not know of it; the history has
// nothing of it until it is taken, as one edit. What is wanted to be known next is
// looked at after every message (followTrial), never where a key is handled: one
// question is under way at a time, one that is not wanted any more is stopped, and
// what was proved stays. Boards come as they become known. Answers remember the
// plan that they are of: one of an earlier plan is shown as such and not taken.
// After an edit a refusal of a unit stays where nothing but places has changed; all
// other answers are asked for anew, and come back when the edit is undone
// (trying_before.go). Where the plan's line-ups do not go together units are tried
// in the one on screen alone (trying_ready.go).
//
//	key --> chosen, halted, ... --> followTrial --> Try (in the background)
//	                                     ^              |
//	                                     +--- answers <-+
//
// Pages that take a while to make up (leaf) are made in the background of the plan
// on screen and kept; sheets are written by what the commands write them with.
//
// Lists and forms lie over the board in a pile, the last one on top (pile.go).
// What they offer of a plan is in tui/cards, how a form takes what is typed in
// tui/form. A form shows the plan as it would be: its draft takes the place of the
// plan on screen until it is taken, as one edit, or dropped. Every draft is
// written and read back first, so that what is on screen can always be saved.
//
// The screen is cut into rectangles by a pure function of its size (areas);
// each part writes exactly the lines and columns that it is given.
//
// Colours are the terminal's own sixteen. Whatever a colour tells is told by a
// character too, for with NO_COLOR there is nothing else.
package tui

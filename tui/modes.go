package tui

import tea "github.com/charmbracelet/bubbletea"

// mode is what keys mean just now.
type mode int

const (
	onBoard      mode = iota
	showing           // what the drawing shows
	pairing           // the chosen unit with another one
	looking           // for a unit, by typing
	naming            // the file to save under
	asking            // a question with a few answers
	reading           // a page of text
	listing           // things of the plan to choose from
	searching         // the same, narrowed down by typing
	filling           // in a form
	trying            // units in a slot
	sifting           // what to try, by typing
	comparing         // other boards
	sizingBoards      // by typing
	modeCount
)

// keyMode is everything about a mode but what it works on. A new mode is a
// constant and an entry in newModes: keys, help, hints and mouse follow from it.
type keyMode struct {
	// name heads its keys in the help; "" where their groups do.
	name  string
	table table
	// letters is a second table, of keys that are letters to type where the
	// mode takes text.
	letters table
	// other takes keys that no table has; nil drops them.
	other func(m *Model, msg tea.KeyMsg) tea.Cmd
	// typing is set where all that is pasted is text.
	typing bool
	hints  func(m *Model) []hint
	// says is the editor's voice in this mode; nil for messages and findings.
	says func(m *Model) (paint, string)
}

// keyMap is every key of the editor, grouped by mode.
type keyMap [modeCount]keyMode

func newModes() *keyMap {
	strong := func(f func(m *Model) string) func(m *Model) (paint, string) {
		return func(m *Model) (paint, string) { return m.styles.strong, f(m) }
	}
	return &keyMap{
		onBoard: {table: boardTable(), hints: (*Model).boardHints},
		showing: {table: stripTable(), hints: (*Model).stripHints,
			says: func(m *Model) (paint, string) { return paint{}, m.stripText() }},
		pairing: {table: pairTable(), hints: (*Model).pairHints, says: strong((*Model).pairText)},
		looking: {name: "While you look for a unit (after /)", table: lookingTable(), other: (*Model).typed, typing: true,
			hints: tableHints, says: strong((*Model).lookingText)},
		naming: {name: "While you type a file's name (after S)", table: namingTable(), other: (*Model).typed, typing: true,
			hints: tableHints, says: strong((*Model).namingText)},
		asking: {other: (*Model).answer, hints: (*Model).answerHints,
			says: strong(func(m *Model) string { return m.question.text })}, // the answers are in the line of hints
		reading: {name: "On a page like this one", table: pageTable(), letters: pageLetters(), other: (*Model).pageLetter,
			hints: (*Model).pageHints},
		listing:      {name: "In a list of the plan's things (after P, A, C or N)", table: listTable(), letters: listLetters(), hints: (*Model).listHints, says: (*Model).pileSays},
		searching:    {name: "In the catalog (after A)", table: listTable(), other: (*Model).typeInList, typing: true, hints: (*Model).listHints, says: (*Model).pileSays},
		filling:      {name: "In a form", table: formTable(), other: (*Model).typeInForm, typing: true, hints: (*Model).formHints, says: (*Model).pileSays},
		trying:       {table: tryingTable(), hints: (*Model).tryHints, says: (*Model).trySays},
		comparing:    {table: comparingTable(), hints: (*Model).boardsHints, says: (*Model).boardSays},
		sizingBoards: {table: sizingTable(), other: (*Model).typed, typing: true, hints: tableHints, says: strong((*Model).sizingText)},
		sifting:      {table: siftTable(), other: (*Model).siftTyped, typing: true, hints: tableHints, says: strong((*Model).siftText)},
	}
}

// press handles a key: the mode's tables first, then what takes the rest.
func (k *keyMode) press(m *Model, msg tea.KeyMsg) tea.Cmd {
	if a := k.table.find(msg); a != nil {
		return a.press(m, msg)
	}
	if !k.typing && !(m.mode == reading && m.page.search) {
		if a := k.letters.find(msg); a != nil {
			return a.press(m, msg)
		}
	}
	if k.other != nil {
		return k.other(m, msg)
	}
	return nil
}

// tableHints are the keys of the mode's table with what each does now, for
// tables that are short.
func tableHints(m *Model) []hint {
	var out []hint
	for i := range m.modes[m.mode].table {
		a := &m.modes[m.mode].table[i]
		if what, can := a.now(m); can {
			out = append(out, hint{key: a.keys.Help().Key, what: what})
		}
	}
	return out
}

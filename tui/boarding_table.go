package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout/boards"
)

const (
	boardsGroup = "While you look at other boards (after b)"
	sizeGroup   = "While you type sizes of boards (after b 2 or b 3)"
)

// comparingTable is what the keys do while other boards are tried.
func comparingTable() table {
	t := table{
		{bind("up down", "up", "down", "tab", "shift+tab"), boardsGroup, always("the smaller or the larger board; a click does too"), (*Model).browseBoards},
		{bind("enter", "enter"), boardsGroup, nowTakeBoard, do((*Model).takeBoard)},
		{bind("esc", "esc", "q"), boardsGroup, always("back to your board: the plan stays as it is"), do((*Model).leaveBoards)},
		{bind("1", "1"), boardsGroup, always("try the boards of the catalog"), do(func(m *Model) tea.Cmd {
			m.boards.sizes, m.boards.step = "", 0
			return m.compare()
		})},
		{bind("2", "2"), boardsGroup, always("try boards of sizes that you type"), do(func(m *Model) tea.Cmd { return m.startSizing(someSizes) })},
		{bind("3", "3"), boardsGroup, always("find the smallest boards: less width against more depth, in steps"), do(func(m *Model) tea.Cmd { return m.startSizing(stairStep) })},
		{bind("m", "m"), boardsGroup, nowBoardMount, do((*Model).nextBoardMount)},
		{bind("k", "k"), boardsGroup, nowBoardCase, do((*Model).toggleBoardCase)},
		{bind("x", "x"), boardsGroup, nowStopBoards, do((*Model).stopComparing)},
		{bind("w", "w"), boardsGroup, nowBoardsPage, do((*Model).boardsPage)},
		{bind("i", "i"), boardsGroup, nowBoardPage, do((*Model).boardPage)},
		{bind("l L", "l", "L"), boardsGroup, nowLineup, (*Model).nextLineup},
	}
	return append(t, lookTable(boardsGroup)...)
}

// sizingTable is what the keys do while sizes are typed.
func sizingTable() table {
	return table{
		{bind("enter", "enter"), sizeGroup, always("try them"), do((*Model).sized)},
		{bind("esc", "esc"), sizeGroup, always("leave it as it was"), do(func(m *Model) tea.Cmd { m.mode = comparing; return nil })},
	}
}

func nowBoards(m *Model) (string, bool) {
	if why, ok := nowAlone(m); !ok {
		return why, false
	}
	return "other boards: on which do all line-ups fit, which is the smallest", true
}

// nowAlone says why nothing else can be tried while an arrangement is sought.
func nowAlone(m *Model) (string, bool) {
	switch {
	case m.offer != nil:
		return offerWaits, false
	case m.job != nil && !(m.job.own && m.job.best != nil):
		return jobGoesOn, false
	}
	return "", true
}

func onBoardsNow(f func(m *Model) (string, bool), otherwise string) func(m *Model) (string, bool) {
	return func(m *Model) (string, bool) {
		if !m.onBoards() {
			return otherwise, false
		}
		return f(m)
	}
}

var nowTakeBoard = onBoardsNow(func(m *Model) (string, bool) {
	b := m.boards.board()
	switch {
	case b == nil:
		return "no board is known yet", false
	case b.Plan == nil:
		return "not everything fits on this board, so it cannot be taken", false
	case m.stale():
		return "it was tried for the plan as it was before your edits: x tries it anew", false
	}
	return "take the board " + m.boardSize(b) + " with everything arranged on it", true
}, "take the board on screen")

var nowBoardMount = onBoardsNow(func(m *Model) (string, bool) {
	return "now " + mountWords[m.boards.mount] + "; next: " + mountWords[mountAfter(m.boards.mount)], true
}, "whether fixed and pinned units may move")

var mountWords = map[boards.Mounting]string{
	"":               "fixed units may move, pinned ones not",
	boards.KeepFixed: "fixed units keep their places",
	boards.FreeAll:   "pinned units may move too",
}

func mountAfter(b boards.Mounting) boards.Mounting {
	return map[boards.Mounting]boards.Mounting{"": boards.KeepFixed, boards.KeepFixed: boards.FreeAll, boards.FreeAll: ""}[b]
}

func (m *Model) nextBoardMount() tea.Cmd {
	m.boards.mount = mountAfter(m.boards.mount)
	return m.compare()
}

var nowBoardCase = onBoardsNow(func(m *Model) (string, bool) {
	switch {
	case m.history.Plan().Board.Case == nil:
		return "this plan has no case", false
	case m.boards.noCase:
		return "count the case again", true
	}
	return "leave the case out of account", true
}, "whether the case counts")

func (m *Model) toggleBoardCase() tea.Cmd {
	m.boards.noCase = !m.boards.noCase
	return m.compare()
}

var nowStopBoards = onBoardsNow(func(m *Model) (string, bool) {
	if m.boards.running {
		return "stop trying; what is known stays", true
	}
	return "try them anew", true
}, "stop trying boards; what is known stays")

var nowBoardsPage = onBoardsNow(func(m *Model) (string, bool) {
	if len(m.boards.known) == 0 {
		return "no board is known yet", false
	}
	return "all " + digits(len(m.boards.known)) + " that are known, as a table", true
}, "all boards that are known, as a table")

var nowBoardPage = onBoardsNow(func(m *Model) (string, bool) {
	if m.boards.board() == nil {
		return "no board is known yet", false
	}
	return "about this board, and what was assumed, on a page", true
}, "about the board on screen, on a page")

func (m *Model) browseBoards(pressed string) tea.Cmd {
	b := m.boards
	by := 1
	if pressed == "up" || pressed == "shift+tab" {
		by = -1
	}
	b.looked = true
	b.chosen = min(max(b.chosen+by, 0), max(len(b.known)-1, 0))
	return nil
}

// boardSize names a board by its size, and its name if it has one.
func (m *Model) boardSize(b *boards.Board) string {
	s := m.length(b.W) + " × " + m.lengthUnit(b.D)
	if b.Name != "" {
		s += " (" + clean(b.Name) + ")"
	}
	return s
}

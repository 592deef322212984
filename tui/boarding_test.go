package tui

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/layout/plan"
)

// fewBoards is the real comparison, bounded by steps, without the catalog's boards
// but two.
func fewBoards(ctx context.Context, p *layout.Plan, list []boards.Candidate, step layout.Length, opt boards.Options) (*boards.Result, error) {
	opt.Steps, opt.ImproveSteps, opt.Workers = 4000, 200, 1
	if step > 0 {
		return boards.Staircase(ctx, p, step, layout.Size{W: 520 * mm, D: 340 * mm}, opt)
	}
	list = slices.DeleteFunc(slices.Clone(list), func(c boards.Candidate) bool {
		return c.Board != nil && c.Name != "solid-small" && c.Name != "solid-medium"
	})
	return boards.Compare(ctx, p, list, opt)
}

// boardPlayer plays the small example, arranged.
func boardPlayer(t testing.TB, opt Options, w, h int) (*player, *plan.Doc) {
	e := plan.Examples()[slices.IndexFunc(plan.Examples(), func(e plan.Example) bool { return e.Name == "pocket" })]
	doc, err := plan.Parse(e.Name, e.Source, nil)
	require.NoError(t, err)
	found, err := arrangedPlan(doc.Plan)
	require.NoError(t, err)
	opt.compare, opt.fasten, opt.sum = fewBoards, stick, straightSum
	p := &player{t: t, m: newModel(context.Background(), &document{doc: doc}, "pocket.toml", found, opt), disk: &disk{}}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	return p, doc
}

// Boards are shown as they become known, the smallest that works is marked, and
// one is taken as one edit that the file can say.
func TestOtherBoards(t *testing.T) {
	p, doc := boardPlayer(t, Options{NoColor: true}, 80, 24)
	p.keys("b")
	require.Equal(t, comparing, p.m.mode)
	b := p.m.boards
	require.NotEmpty(t, b.known)
	require.False(t, b.running)
	require.NotNil(t, b.result)
	require.GreaterOrEqual(t, b.smallest(), 0)
	assert.Same(t, b.result.Smallest(), b.known[b.smallest()], "the same as the command's")
	assert.Contains(t, p.m.View(), "As it would be on")

	p.keys("2").text("420x280, 90x90").keys("enter")
	require.Len(t, p.m.boards.known, 3, "and one's own")
	p.keys("home", "up", "up", "up")
	assert.Contains(t, p.m.View(), "oo small")
	p.keys("enter")
	assert.Equal(t, comparing, p.m.mode, "on what is too small nothing is taken")
	for p.m.boards.board().W != 420*mm {
		p.keys("down")
	}
	x := p.m.boards.board()
	require.NotNil(t, x.Plan, x.Why)
	p.keys("enter")
	require.Equal(t, onBoard, p.m.mode)
	now := p.m.history.Plan()
	assert.Equal(t, 420*mm, now.Board.W)
	assert.False(t, now.Owned.Board, "another board is to be got first")

	doc.Plan = now.Clone()
	text, err := doc.Render()
	require.NoError(t, err)
	again, err := plan.Parse("again", text, nil)
	require.NoError(t, err)
	assert.Equal(t, now.Board, again.Plan.Board)
	assert.Equal(t, now.Slots, again.Plan.Slots)
	for i := range now.Units {
		assert.Equal(t, now.Units[i].Place, again.Plan.Units[i].Place)
	}
	p.keys("u")
	assert.False(t, p.m.history.Dirty(), "one step back")
}

// Each board of the catalog on which all fits can be taken and saved.
func TestBoardsOfTheCatalogAreSaved(t *testing.T) {
	p, doc := boardPlayer(t, Options{NoColor: true}, 80, 24)
	p.keys("b")
	saved := 0
	for i, x := range p.m.boards.known {
		if x.Plan == nil {
			continue
		}
		p.m.boards.chosen = i
		p.keys("enter")
		doc.Plan = p.m.history.Plan().Clone()
		text, err := doc.Render()
		require.NoError(t, err, x.Name)
		again, err := plan.Parse("again", text, nil)
		require.NoError(t, err, x.Name)
		assert.Equal(t, p.m.history.Plan().Board, again.Plan.Board, x.Name)
		saved++
		if x.Own {
			p.keys("b")
			continue
		}
		p.keys("u", "b")
	}
	assert.Positive(t, saved)
}

// The staircase, the table and the page about a board; edits make them old.
func TestStaircaseAndPagesOfBoards(t *testing.T) {
	p, _ := boardPlayer(t, Options{NoColor: true}, 80, 24)
	p.keys("b", "3").text("x").keys("enter")
	assert.Equal(t, sizingBoards, p.m.mode)
	assert.NotEmpty(t, p.m.boards.wrong)
	p.keys("backspace").text("60mm").keys("enter")
	require.Equal(t, comparing, p.m.mode)
	require.NotNil(t, p.m.boards.result)
	assert.Equal(t, 60*mm, p.m.boards.result.Step)
	p.keys("w")
	assert.Contains(t, p.m.View(), "Works")
	p.keys("esc", "i")
	assert.Contains(t, p.m.View(), "Cabin bag")
	p.keys("esc", "m")
	assert.Equal(t, boards.KeepFixed, p.m.boards.mount)
	p.keys("esc")
	assert.Equal(t, onBoard, p.m.mode)
	p.keys("tab", "p", "b")
	assert.Contains(t, p.m.note.text, "before your edits")
	p.keys("down", "enter")
	assert.Equal(t, comparing, p.m.mode, "what is of another plan is not taken")
	p.keys("x")
	assert.Same(t, p.m.history.Plan(), p.m.boards.base)
}

// Leaving stops the work; what was known stays, what was not tried is not shown.
func TestBoardsAreStopped(t *testing.T) {
	p, _ := boardPlayer(t, Options{NoColor: true}, 80, 24)
	p.held = true
	p.keys("b")
	assert.Contains(t, p.m.View(), "Trying boards")
	p.keys("esc")
	p.release()
	assert.False(t, p.m.boards.running)
	for _, x := range p.m.boards.known {
		assert.NotEqual(t, "undecided", x.Verdict.String())
	}
}

// Sheets are written beside the plan, never over anything unasked nor over the
// plan.
func TestSheetsAreWritten(t *testing.T) {
	p, doc := boardPlayer(t, Options{NoColor: true}, 80, 24)
	dir := t.TempDir()
	p.m.path = filepath.Join(dir, "pocket.toml")
	doc.Plan = p.m.history.Plan().Clone()
	require.NoError(t, doc.SaveAs(p.m.path, false))
	p.keys("W", "enter")
	assert.Contains(t, p.m.note.text, "Written: ")
	text, err := os.ReadFile(filepath.Join(dir, "pocket-placement.pdf"))
	require.NoError(t, err)
	assert.Equal(t, "%PDF", string(text[:4]))

	p.keys("enter")
	require.Equal(t, asking, p.m.mode, "there already")
	p.keys("esc")
	require.Equal(t, filling, p.m.mode)
	p.keys("enter", "o")
	assert.Contains(t, p.m.note.text, "Written: ")

	p.keys("down", "right", "right") // .txt
	for range 3 {
		p.keys("down")
	}
	p.text("notes/card").keys("enter")
	assert.Contains(t, p.m.note.text, "no folder")
	for range len("notes/card") {
		p.keys("backspace")
	}
	p.text("card").keys("enter")
	assert.FileExists(t, filepath.Join(dir, "card.txt"))
	require.NoError(t, os.Symlink("pocket.toml", filepath.Join(dir, "link.txt")))
	for range len("card") {
		p.keys("backspace")
	}
	p.text("link").keys("enter")
	assert.Contains(t, p.m.note.text, "the plan itself")
	all, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, all, 4, "nothing else is left behind")
}

// A sheet that does not come in a form is refused beside the field, and none is
// made of a plan with units without a place.
func TestSheetsAreRefused(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("W", "enter")
	assert.Contains(t, p.m.note.text, "Late Comer without a place")
	p.keys("right", "right", "down", "right", "right", "enter") // stickers as .txt
	assert.Contains(t, p.m.View(), ".pdf or .svg")
	assert.Equal(t, filling, p.m.mode)
}

// The card between two line-ups, in both directions, and the word on what
// changes.
func TestChangeover(t *testing.T) {
	p := settledPlayer(t, Options{NoColor: true}, 80, 24).keys("l")
	assert.Contains(t, p.m.note.text, "barn to pit: Rasp leaves")
	p.keys("g")
	assert.Equal(t, "From barn to pit", p.m.page.title)
	assert.Contains(t, p.m.View(), "Rasp")
	p.keys("r")
	assert.Equal(t, "From pit to barn", p.m.page.title)
	assert.Contains(t, p.m.View(), "place")
	p.keys("l")
	assert.Equal(t, "From pit to pit", p.m.page.title)
	assert.Contains(t, p.m.View(), "nothing to do")
	p.keys("f")
	assert.Equal(t, "From barn to pit", p.m.page.title)
	p.keys("esc", "B")
	assert.Contains(t, p.m.View(), "What to buy")
}

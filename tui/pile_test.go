package tui

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
)

// firstFit is the arranger, content with the first arrangement that it finds.
func firstFit(ctx context.Context, p *layout.Plan, opt arrange.Options) (arrange.Result, error) {
	opt.FirstFit = true
	return firstFits.get(p, func() (arrange.Result, error) { return arrange.Arrange(ctx, p, opt) })
}

var firstFits answered[arrange.Result]

// straightOnce is straightSum, of plans of the same content once.
var straightOnce = sumOnce(straightSum)

// newcomer is a player before the start screen, with files that are files.
func newcomer(t testing.TB, opt Options, w, h int) *player {
	opt.arrange, opt.sum, opt.fasten, opt.Begin = firstFit, straightOnce, stick, true
	p := &player{t: t, m: New(exampleDoc(t), opt)}
	p.send(tea.WindowSizeMsg{Width: w, Height: h})
	p.run(p.m.Init())
	return p
}

// fill replaces what stands in the field and goes to the next one.
func (p *player) fill(values ...string) *player {
	for _, v := range values {
		if v != "" {
			p.keys("ctrl+u").text(v)
		}
		p.keys("down")
	}
	return p
}

// ten units: what is typed to find the form, and the label.
var tenUnits = []struct{ find, label string }{
	{"mini-tuner", "Peg Watch"}, {"compact plate", "Squash"}, {"compact plate", "Rasp"}, {"fuzz two transistors", "Bramble"},
	{"die-cast-medium", "Lift"}, {"mini-digital", "Ripple"}, {"compact-delay", "Second Thought"}, {"mini one knob", "Nudge"},
	{"buffer", "Last Mile"}, {"supply-eight", "Engine Shed"},
}

func (p *player) wantNoError() {
	p.t.Helper()
	if f := p.m.chosenForm(); f != nil {
		_, why := f.Wrong()
		require.Empty(p.t, why)
	}
}

// A board of ten units from nothing to a saved file, by keys alone.
func TestTenUnitsByKeys(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ten.toml")
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	require.Equal(t, listing, p.m.mode)
	p.keys("enter", "enter") // a new plan, in millimetres
	require.Equal(t, filling, p.m.mode)
	p.fill("Ten of mine", "", "700", "380").keys("enter")
	require.Equal(t, searching, p.m.mode, "the catalog opens by itself")
	for _, u := range tenUnits {
		p.text(u.find).keys("enter")
		p.wantNoError()
		p.fill(u.label).keys("enter")
	}
	require.Len(t, p.m.history.Plan().Units, 10)
	p.keys("esc", "n")
	require.Equal(t, filling, p.m.mode, "what changes from gig to gig? Nothing, but it has a name")
	p.keys("ctrl+u").text("barn").keys("enter")
	require.Equal(t, listing, p.m.mode)
	p.keys("end", "up", "shift+up", "n") // the last but the amp before the one before
	require.Equal(t, asking, p.m.mode)
	p.keys("a")
	assert.Zero(t, p.m.unplaced(), p.m.note.text)
	p.keys("s", "ctrl+u").text(path).keys("enter")
	require.False(t, p.m.history.Dirty(), p.m.note.text)
	requireReadsBack(t, p.m, path)
	got := p.m.history.Plan()
	assert.Equal(t, "Ten of mine", got.Title)
	assert.Equal(t, 700*mm, got.Board.W)
	assert.Equal(t, "barn", got.Lineups[0].Name)
	assert.Equal(t, layout.Stop{Unit: "mini-tuner"}, got.Chain.Stops[1])
	assert.Len(t, got.Chain.Stops, 11, "nine that the signal passes, and both ends")
}

// requireReadsBack reads the file as the commands do and wants the plan on screen.
func requireReadsBack(t testing.TB, m *Model, path string) {
	t.Helper()
	doc, err := plan.Open(path, nil)
	require.NoError(t, err)
	assert.Equal(t, m.history.Plan(), doc.Plan)
}

// rowOf is the row of the screen that shows a text.
func (p *player) rowOf(text string) int {
	p.t.Helper()
	for y, line := range screenLines(p.m.View()) {
		if containsText(line, text) {
			return y
		}
	}
	p.t.Fatalf("no line shows %q:\n%s", text, p.m.View())
	return 0
}

// press clicks what shows a text: an item of a list, a field, a key in the last
// line.
func (p *player) press(text string) *player {
	p.t.Helper()
	lines := screenLines(p.m.View())
	y := p.rowOf(text)
	return p.click(columnOf(lines[y], text)+1, y)
}

// The same by the mouse, letters apart.
func TestTenUnitsByMouse(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ten.toml")
	p := newcomer(t, Options{NoColor: true}, 200, 60)
	p.press("New plan").press("millimetres")
	require.Equal(t, filling, p.m.mode, p.m.View())
	p.press("of your own size").press("solid-large, 800")
	assert.Equal(t, 800*mm, p.m.plan().Board.W, "drawn before it is taken")
	p.press("enter next")
	for i := range 9 {
		p.text(tenUnits[i].find).press("enter choose")
		p.press("Label").keys("ctrl+u").text(tenUnits[i].label)
		p.press("Mount").press("Mount")
		p.press("enter add it")
	}
	p.text("supply-eight").press("enter choose").press("[ add it ]")
	require.Len(t, p.m.history.Plan().Units, 10)
	assert.Equal(t, layout.Swap, p.m.history.Plan().Units[0].Mount)
	p.press("esc done").press("n next").press("enter next").press("n next").press("arrange them now")
	assert.Zero(t, p.m.unplaced(), p.m.note.text)
	p.press("s save").keys("ctrl+u").text(path).press("enter save")
	require.FileExists(t, path)
	requireReadsBack(t, p.m, path)
}

func TestUnitCard(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("end", "home", "down", "down").send(tea.KeyMsg{Type: tea.KeyEnter})
	require.Equal(t, onBoard, p.m.mode, "an example is open")
	p.keys("tab", "E")
	require.Equal(t, filling, p.m.mode)
	id := p.m.selected
	was := *p.m.history.Plan().Unit(id)
	p.fill("Wider", "", "90.5").keys("ctrl+s")
	u := p.m.history.Plan().Unit(id)
	assert.Equal(t, "Wider", u.Label)
	assert.Equal(t, 90*mm+500, u.Body.W)
	assert.Equal(t, was.Body.D, u.Body.D)
	p.keys("E", "down", "down").text("x")
	assert.Contains(t, p.m.View(), "! \"x\" is no length")
	p.keys("enter")
	assert.Equal(t, filling, p.m.mode, "what is wrong keeps the form open")
	p.keys("esc")
	assert.Equal(t, asking, p.m.mode, "nothing that was typed is lost unsaid")
	p.keys("esc")
	assert.Equal(t, filling, p.m.mode)
	p.keys("esc", "d")
	assert.Equal(t, onBoard, p.m.mode)
	p.keys("u")
	assert.Equal(t, was, *p.m.history.Plan().Unit(id), "one step takes the card back")
	p.keys("delete")
	assert.Nil(t, p.m.history.Plan().Unit(id))
	p.keys("u")
	assert.Equal(t, was, *p.m.history.Plan().Unit(id))
}

// What a card leads to is reached from it, and what was typed before is kept.
func TestCardLeadsToJacks(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 120, 40)
	p.keys("esc", "esc").keys("tab", "E").fill("Renamed")
	for p.m.chosenForm().Now().Leads != "jacks" {
		p.keys("down")
	}
	p.keys("enter")
	require.Equal(t, listing, p.m.mode)
	assert.Equal(t, "Renamed", p.m.history.Plan().Unit(p.m.selected).Label)
	jack := p.m.history.Plan().Unit(p.m.selected).Jacks[0].ID
	p.keys("enter", "down").fill("31").keys("enter", "esc")
	assert.Equal(t, 31*mm, p.m.history.Plan().Unit(p.m.selected).Jack(jack).Along)
	assert.Equal(t, filling, p.m.mode, "back in the card")
	assert.Equal(t, "jacks", p.m.chosenForm().Now().Leads)
}

func TestSlotIsDrawnWhileItMoves(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 120, 40)
	p.keys("esc", "esc", "P").press("Slots").keys("a")
	require.Equal(t, filling, p.m.mode)
	f := p.m.chosenForm()
	at := p.m.plan().Slot(f.Subject).At
	b := p.m.areas.board
	c, r, _ := p.m.drawing().Cell(layout.Point{X: (at.X0 + at.X1) / 2, Y: (at.Y0 + at.Y1) / 2})
	p.dragFrom(tea.MouseButtonLeft, b.x+c, b.y+r, -10, 0)
	now := p.m.plan().Slot(f.Subject).At
	assert.Less(t, now.X0, at.X0, "the draft on screen follows the pointer")
	assert.Equal(t, at.W(), now.W())
	assert.Nil(t, p.m.history.Plan().Slot(f.Subject), "and is no edit yet")
	p.keys("enter")
	assert.Equal(t, now, p.m.history.Plan().Slot(f.Subject).At)
}

// Another plan is opened only after asking about what is not saved.
func TestOpeningAnotherPlan(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.toml")
	text, err := plan.Starter(plan.Answers{Title: "Mine", BoardW: 400 * mm, BoardD: 200 * mm})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, text, 0o600))
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "tab", "p", "N", "down", "enter")
	require.Equal(t, filling, p.m.mode)
	p.text(filepath.Join(dir, "nowhere.toml")).keys("enter")
	require.Equal(t, asking, p.m.mode)
	p.keys("d")
	assert.Equal(t, filling, p.m.mode, "there is no such file: the path can be mended")
	_, why := p.m.chosenForm().Wrong()
	assert.Contains(t, why, "no such file")
	p.keys("ctrl+u").text(filepath.Join(dir, "mi")).keys("tab")
	assert.Equal(t, path, p.m.chosenForm().Value("Path"), "tab completes")
	p.keys("enter", "d")
	assert.Equal(t, "Mine", p.m.history.Plan().Title)
	assert.Equal(t, path, p.m.path)
	assert.False(t, p.m.history.Dirty())
}

// The chain is put in order by dragging, too.
func TestDraggingStops(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "C")
	stops := p.m.history.Plan().Chain.Stops
	y := p.rowOf("Swell")
	p.dragFrom(tea.MouseButtonLeft, 8, y, 0, -2)
	now := p.m.history.Plan().Chain.Stops
	require.Len(t, now, len(stops))
	assert.Equal(t, "swell", p.m.over().list.items(p.m, 80)[p.m.over().list.at].id)
	assert.Equal(t, y-2, p.rowOf("Swell"))
	p.keys("u", "u")
	assert.Equal(t, stops, p.m.history.Plan().Chain.Stops)
}

// A line-up has a line for each of its slots: it is dragged from line-up to
// line-up, and stays where the mouse is on a line between.
func TestDraggingALineup(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "P").press("Line-ups")
	tall := len(p.m.plan().Slots) + 1
	require.Greater(t, tall, 1)
	names := func() (out []string) {
		for _, l := range p.m.history.Plan().Lineups {
			out = append(out, l.Name)
		}
		return out
	}
	was := names()
	y := p.rowOf("Line-up " + was[0])
	drag := func(from, by int) { // a click on the chosen line would open it
		p.keys("home", "down")
		p.dragFrom(tea.MouseButtonLeft, 8, from, 0, by)
	}
	for down := range tall {
		drag(y, down)
		require.Equal(t, was, names(), "%d lines down", down)
	}
	for _, down := range []int{tall, tall + 1} { // onto the next one, and onto a line of its: once
		drag(y, down)
		assert.Equal(t, []string{was[1], was[0], was[2]}, names(), "%d lines down", down)
		p.keys("u")
		require.Equal(t, was, names())
	}
	drag(y, tall)
	y += tall
	for up := range tall {
		drag(y, -up)
		require.Equal(t, was[1], names()[0], "%d lines up", up)
	}
	drag(y, -tall)
	assert.Equal(t, was, names())
}

// Saving first, and going on to another plan then; or calling it off.
func TestSavingBeforeAnotherPlan(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kept.toml")
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "tab", "p", "N", "end", "enter")
	require.Equal(t, asking, p.m.mode)
	p.keys("s", "esc")
	title := p.m.history.Plan().Title
	p.keys("esc", "S", "ctrl+u").text(path).keys("enter")
	require.FileExists(t, path)
	assert.Equal(t, title, p.m.history.Plan().Title, "calling off stays called off")
	p.keys("tab", "p", "N", "end", "enter", "s")
	assert.NotEqual(t, title, p.m.history.Plan().Title, "saved, and on to the other one")
	doc, err := plan.Open(path, nil)
	require.NoError(t, err)
	assert.Equal(t, title, doc.Plan.Title)
}

// A unit that gets another name stays the one that its card, and what the card
// leads to, are about.
func TestRenamedUnitGetsAnotherForm(t *testing.T) {
	doc := exampleDoc(t)
	p := &player{t: t, m: newModel(context.Background(), &disk{}, "board.toml", doc.Plan, Options{fasten: stick, sum: straightSum})}
	p.m.ed.base = doc
	p.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	u := *p.m.history.Plan().Unit("squash")
	p.m.selectUnit(u.ID)
	p.m.fill(p.m.shop().Unit(u.ID), nil)
	f := p.m.over().form
	f.PutAll(map[string]string{"Name in the file": "other"})
	p.m.settle()
	assert.Equal(t, "other", p.m.selected, "as the card calls it")
	p.keys("down")
	assert.Equal(t, "other", p.m.selected)
	for f.Now().Leads != "form" {
		p.keys("down")
	}
	p.keys("enter")
	require.Equal(t, searching, p.m.mode, p.m.note.text)
	p.text("two transistors").keys("enter")
	got := p.m.history.Plan().Unit("other")
	require.NotNil(t, got)
	assert.Equal(t, "compact-fuzz", got.Form)
	assert.Equal(t, u.Label, got.Label)
	assert.Nil(t, p.m.history.Plan().Unit(u.ID))
	assert.Equal(t, "other", p.m.selected)
	require.NotNil(t, p.m.over(), "the card is open again")
	assert.Equal(t, "other", p.m.over().form.Subject)
}

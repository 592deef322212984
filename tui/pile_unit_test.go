package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// cardOf is a player with the card of a unit of the example open.
func cardOf(t testing.TB, id string, w, h int) *player {
	return newcomer(t, Options{NoColor: true}, w, h).card(id)
}

// card opens the card of a unit of the example from the start screen.
func (p *player) card(id string) *player {
	p.keys("esc", "esc")
	p.m.selectUnit(id)
	p.keys("E")
	require.Equal(p.t, filling, p.m.mode)
	return p
}

func (p *player) unit(id string) *layout.Unit { return p.m.history.Plan().Unit(id) }

// follow goes to the field that leads somewhere, by keys, and opens it.
func (p *player) follow(leads string) *player {
	p.t.Helper()
	f := p.m.chosenForm()
	require.NotNil(p.t, f)
	for range f.Fields {
		if f.Now().Leads == leads {
			return p.keys("enter")
		}
		p.keys("down")
	}
	p.t.Fatalf("%s leads to no %s", f.Title, leads)
	return p
}

// wheelTo turns the wheel over a form until a text is in sight, and clicks it.
func (p *player) wheelTo(text string) *player {
	p.t.Helper()
	for range p.m.chosenForm().Fields {
		for _, line := range screenLines(p.m.View()) {
			if containsText(line, text) {
				return p.press(text)
			}
		}
		p.mouse(tea.MouseActionPress, tea.MouseButtonWheelDown, p.m.areas.detail.x+2, p.m.areas.detail.y+5)
	}
	p.t.Fatalf("no field shows %q", text)
	return p
}

func TestSwitchesByKeys(t *testing.T) {
	p := cardOf(t, "squash", 80, 24).follow("switches")
	require.Equal(t, listing, p.m.mode)
	was := p.unit("squash").Switches
	require.Len(t, was, 1)
	p.keys("a")
	require.Equal(t, filling, p.m.mode)
	p.fill("boost", "200")
	_, why := p.m.chosenForm().Wrong()
	assert.Contains(t, why, "the body's width", "said as it is typed")
	p.keys("up").fill("60", "30", "41").keys("enter")
	require.Equal(t, listing, p.m.mode, p.m.note.text)
	assert.Equal(t, layout.Switch{Name: "boost", At: layout.Point{X: 60 * mm, Y: 30 * mm}, Height: 41 * mm}, p.unit("squash").Switches[1])
	p.keys("end", "shift+up")
	assert.Equal(t, "boost", p.unit("squash").Switches[0].Name)
	p.keys("x")
	assert.Equal(t, was, p.unit("squash").Switches, "the chosen one went")
	p.keys("esc")
	require.Equal(t, filling, p.m.mode)
	assert.Equal(t, "switches", p.m.chosenForm().Now().Leads, "back where one was")
	assert.Equal(t, "1 switch", p.m.chosenForm().Now().Value())
}

func TestSwitchesByMouse(t *testing.T) {
	p := cardOf(t, "squash", 200, 60).press("Switches")
	p.press("a add").press("From its left").keys("ctrl+u").text("10").press("enter take it")
	require.Len(t, p.unit("squash").Switches, 2)
	assert.Equal(t, 10*mm, p.unit("squash").Switches[1].At.X)
	p.press("10 from its left").press("x remove")
	assert.Len(t, p.unit("squash").Switches, 1)
	p.press("u undo").press("esc back")
	assert.Equal(t, "2 switches", p.m.chosenForm().Value("Switches"))
}

func TestSweepByKeys(t *testing.T) {
	p := cardOf(t, "swell", 80, 24)
	require.NotNil(t, p.unit("swell").Sweep)
	p.follow("sweep").fill("", "", "25")
	p.wantNoError()
	p.keys("enter")
	assert.Equal(t, 25*mm, p.unit("swell").Sweep.Back, p.m.note.text)
	assert.Equal(t, "unit", p.m.chosenForm().Name, "back on the card")
	assert.Contains(t, p.m.chosenForm().Now().Value(), "25 back")
	p.keys("enter").text("n").keys("enter")
	assert.Nil(t, p.unit("swell").Sweep)
	p.keys("enter").fill("", "", "30")
	_, why := p.m.chosenForm().Wrong()
	assert.Contains(t, why, "first say above that it sweeps")
	p.keys("pgup").text("y").keys("enter")
	require.NotNil(t, p.unit("swell").Sweep, p.m.note.text)
	assert.Equal(t, 30*mm, p.unit("swell").Sweep.Back)
}

// What a supply's label says, by keys: a new output, and the connector of one.
func TestOutputsByKeys(t *testing.T) {
	p := cardOf(t, "supply", 80, 24).follow("outputs")
	n := len(p.unit("supply").Outputs)
	require.Positive(t, n)
	p.keys("a").fill("", "12", "", "350", "9 V, 18 V 100")
	p.wantNoError()
	p.keys("ctrl+s")
	require.Len(t, p.unit("supply").Outputs, n+1, p.m.note.text)
	o := p.unit("supply").Outputs[n]
	assert.Equal(t, 12_000, o.Millivolts)
	assert.Equal(t, []layout.Setting{{Millivolts: 9000, Milliamps: 350}, {Millivolts: 18_000, Milliamps: 100}}, o.Choices)
	require.NotNil(t, p.unit("supply").Jack(o.Jack), "its jack was made with it")
	p.keys("end", "enter").follow("jack")
	require.Equal(t, "jack", p.m.chosenForm().Name)
	p.text("l").keys("down").fill("20").keys("ctrl+s")
	assert.Equal(t, layout.Left, p.unit("supply").Jack(o.Jack).Wall, p.m.note.text)
	assert.Equal(t, "dc, left wall", p.m.chosenForm().Now().Value())
	p.keys("esc", "end", "x")
	assert.Len(t, p.unit("supply").Outputs, n)
	assert.NotNil(t, p.unit("supply").Jack(o.Jack), "the jack stays until it is taken out itself")
}

func TestOutputsByMouse(t *testing.T) {
	p := cardOf(t, "supply", 200, 60).wheelTo("Outputs")
	require.Equal(t, listing, p.m.mode)
	jack := p.unit("supply").Outputs[1].Jack
	p.press(jack).press(jack)
	require.Equal(t, "output", p.m.chosenForm().Name)
	p.press("Most, mA").keys("ctrl+u").text("77").press("enter take it")
	assert.Equal(t, 77, p.unit("supply").Outputs[1].Milliamps)
	p.press("esc back").wheelTo("In all, watts").keys("ctrl+u").text("2000000")
	_, why := p.m.chosenForm().Wrong()
	assert.Contains(t, why, "2000 watts")
	p.keys("ctrl+u").text("12.5").press("enter take it")
	assert.Equal(t, 12_500, p.unit("supply").Milliwatts)
}

// A jack that the player's unit does not have goes, with what needed it, and can
// come back.
func TestJacksThatAreNotThere(t *testing.T) {
	p := cardOf(t, "verb", 80, 24).follow("jacks")
	n := len(p.unit("verb").Jacks)
	stops := len(p.m.history.Plan().Chain.Stops)
	p.keys("home", "x")
	require.Len(t, p.unit("verb").Jacks, n-1, p.m.note.text)
	gone := p.m.shop().MissingJacks(p.unit("verb"))
	require.Len(t, gone, 1)
	p.keys("end", "shift+up", "x")
	assert.Len(t, p.unit("verb").Jacks, n-1, "what is not there is neither moved nor removed")
	p.keys("enter")
	assert.Len(t, p.unit("verb").Jacks, n)
	assert.Empty(t, p.m.shop().MissingJacks(p.unit("verb")))
	p.keys("home", "shift+down")
	assert.Equal(t, gone[0], p.unit("verb").Jacks[1].ID, "their order can be said too")
	p.keys("u", "u", "u")
	assert.Len(t, p.unit("verb").Jacks, n)
	assert.Len(t, p.m.history.Plan().Chain.Stops, stops)
}

// Where a unit stands, to the tenth of a millimetre, and by dragging it while its
// card is open.
func TestPlaceByNumbersAndByMouse(t *testing.T) {
	p := cardOf(t, "squash", 120, 40).follow("place")
	require.Equal(t, "place", p.m.chosenForm().Name)
	p.keys("down").fill("350.5", "2")
	assert.Equal(t, 350*mm+500, p.m.plan().Lineups[0].Place["squash"].At.X, "drawn before it is taken")
	b := p.m.areas.board
	p.dragFrom(tea.MouseButtonLeft, b.x+b.w/2, b.y+b.h/2, -4, 0)
	x := p.m.plan().Lineups[0].Place["squash"].At.X
	assert.Less(t, x, 350*mm)
	p.keys("ctrl+s")
	assert.Equal(t, x, p.m.history.Plan().Lineups[0].Place["squash"].At.X)
	p.follow("place").text("n").keys("enter")
	l := p.m.edited()
	_, stands := p.m.history.Plan().PlaceOf(l, p.unit("squash"))
	assert.False(t, stands, "nowhere yet")
}

// A unit of no form is measured whole; one with a form can lose it.
func TestUnitsOfNoForm(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc", "esc", "A").text("measured whole").keys("enter")
	require.Equal(t, filling, p.m.mode)
	p.fill("Home Brew", "2", "94", "119", "34").keys("enter")
	got := p.m.history.Plan().Units[len(p.m.history.Plan().Units)-2:]
	assert.Equal(t, "Home Brew", got[0].Label)
	assert.Equal(t, "Home Brew 2", got[1].Label)
	assert.Empty(t, got[1].Form)
	assert.Equal(t, layout.Size{W: 94 * mm, D: 119 * mm, H: 34 * mm}, got[1].Body)
	p.keys("esc")
	p.m.selectUnit("squash")
	was := *p.unit("squash")
	p.keys("E").follow("form").text("figures").keys("enter")
	assert.Empty(t, p.unit("squash").Form, p.m.note.text)
	assert.Equal(t, was.Body, p.unit("squash").Body)
	assert.Equal(t, was.Switches, p.unit("squash").Switches)
	require.NoError(t, checked(p.m.ed.base, p.m.history.Plan()))
}

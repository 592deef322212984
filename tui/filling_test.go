package tui

import (
	"maps"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/tui/edit"
)

// onExample is a player with the built-in example before them.
func onExample(t *testing.T) *player {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("esc")
	require.Equal(t, onBoard, p.m.mode)
	return p
}

// Home goes to the first item though a heading stands above it.
func TestHomeInAListWithHeadings(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("P", "down", "down", "down", "home")
	it, ok := p.m.over().list.now(p.m)
	require.True(t, ok)
	assert.Equal(t, "units", it.id)
	p.keys("end", "pgup", "pgup", "pgup")
	it, _ = p.m.over().list.now(p.m)
	assert.Equal(t, "units", it.id)
}

// A unit in hand stays in hand while help is read, to be put back.
func TestAUnitStaysInHandBehindHelp(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	p.keys("tab")
	id, was := p.m.selected, p.at(p.m.selected)
	p.keys("space", "right", "right", "?")
	p.keys("esc")
	require.NotZero(t, p.m.held, "still in hand")
	assert.NotEqual(t, was, p.at(id))
	p.keys("esc")
	assert.Equal(t, was, p.at(id), "put back")
}

// Units that come and go stand first in what may go into a slot, and putting one in
// leads to the one below it.
func TestFillingASlotGoesDownTheList(t *testing.T) {
	p := onExample(t)
	slot, lineup := p.m.plan().Slots[0].Name, p.m.plan().Lineups[0].Name
	require.True(t, p.m.alter("empty the slots", "", func(pl *layout.Plan) error {
		for _, id := range slices.Concat(slices.Collect(maps.Values(pl.LineupNamed(lineup).Fill))...) {
			if err := edit.Fill(pl, lineup, pl.SlotOf(pl.LineupNamed(lineup), id).Name, id, false, 0); err != nil {
				return err
			}
		}
		return nil
	}), p.m.note.text)
	p.m.openList(fillList(lineup, slot))
	var out []string
	mounts := ""
	for _, it := range p.m.fillItems(lineup, slot) {
		if it.kind == "out" {
			out = append(out, it.id)
			mounts += string(p.unit(it.id).Mount) + " "
		}
	}
	require.GreaterOrEqual(t, len(out), 3)
	assert.LessOrEqual(t, strings.LastIndex(mounts, "swap"), strings.Index(mounts+"fixed", "fixed"))
	p.keys("space", "space")
	assert.Equal(t, out[:2], p.m.filling(lineup, slot))
}

// To look through the sheets is nothing that could be lost.
func TestSheetsAreLeftUnasked(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	p.keys("W", "right", "right", "esc")
	assert.Equal(t, onBoard, p.m.mode)
}

// A new slot that is put on a riser takes all of it, as long as nobody said where.
func TestANewSlotFollowsItsSurface(t *testing.T) {
	p := onExample(t)
	riser := p.m.plan().Board.Risers[0]
	deck := p.m.shop().Slot("").Fields[2].Value()
	p.m.fill(p.m.shop().Slot(""), nil)
	p.keys("down", "right")
	_, why := p.m.chosenForm().Wrong()
	assert.Empty(t, why)
	s := p.m.draft().Slots
	assert.Equal(t, riser.At, s[len(s)-1].At)
	p.keys("left")
	assert.Equal(t, deck, p.m.chosenForm().Fields[2].Value(), "and the deck's usual part again")
	p.keys("down", "ctrl+u").text("7").keys("up", "right")
	assert.Equal(t, "7", p.m.chosenForm().Fields[2].Value(), "what was typed stays")
}

// What is typed to search is on screen however long the line above it is.
func TestWhatIsTypedIsSeen(t *testing.T) {
	p := begin(t, 80, 24)
	p.keys("a").text("compact").keys("enter").fill("A label that is longer than most").keys("enter")
	p.text("overdrive")
	assert.Contains(t, p.m.View(), "type to search: overdrive")
}

// No line ends within a mixed number.
func TestMixedNumbersAreNotBroken(t *testing.T) {
	assert.Equal(t, []string{"A 33 1/4, H", "3 1/4, I 9"}, wrap("A 33 1/4, H 3 1/4, I 9", 13))
	for w := 6; w < 40; w++ {
		for _, line := range wrap("cut A 33 1/4, B 17 3/8, C 14 5/8, G 3 1/4; 97 7/32 in left", w) {
			assert.NotRegexp(t, `^\d+/\d`, line, w)
		}
	}
}

// Who measures in inches has Letter in the printer, and an option that its line cuts off
// is told whole.
func TestSheetsForInches(t *testing.T) {
	p := newcomer(t, Options{NoColor: true}, 80, 24)
	p.keys("enter", "down", "enter", "enter", "esc", "esc")
	p.m.clear()
	p.keys("W")
	assert.Equal(t, "Letter", p.m.printing.Value(sheetPaper))
	assert.Contains(t, p.m.View(), "Sheet: placement: fastener and units, true to scale")
}

// What can help is only what there is to do on this board.
func TestRemediesAreThoseOfThePlan(t *testing.T) {
	p := onExample(t)
	pinned := strings.Join(p.m.remedies(), ", ")
	assert.Contains(t, pinned, "unpin (p), a riser that is smaller")
	require.True(t, p.m.alter("unpin all", "", func(pl *layout.Plan) error {
		for i := range pl.Units {
			pl.Units[i].Pinned = false
		}
		return nil
	}), p.m.note.text)
	assert.NotContains(t, strings.Join(p.m.remedies(), ", "), "unpin")
}

// The long card of a unit is gone through by its parts, and whole by ctrl.
func TestPartsOfACard(t *testing.T) {
	p := onExample(t).keys("tab", "E")
	f := p.m.chosenForm()
	was := f.At()
	require.Contains(t, p.m.View(), "pgdown part")
	p.keys("pgdown")
	assert.Equal(t, "Width", f.Now().Label, "the first of its size")
	p.keys("pgup")
	assert.Equal(t, was, f.At())
	p.send(tea.KeyMsg{Type: tea.KeyCtrlEnd})
	assert.Greater(t, f.At(), len(f.Fields)-4)
	p.send(tea.KeyMsg{Type: tea.KeyCtrlHome})
	assert.Equal(t, was, f.At())
}

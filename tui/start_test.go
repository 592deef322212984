package tui

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/plan"
)

// begin is a player with the units of a new plan: a tuner, two drives and a delay.
func begin(t testing.TB, w, h int) *player {
	p := newcomer(t, Options{NoColor: true}, w, h)
	p.keys("enter", "enter").fill("Mine", "", "600", "350").keys("enter")
	for _, u := range []struct{ find, label string }{{"mini-tuner", "Watch"}, {"compact plate", "Squash"}, {"compact plate", "Rasp"}, {"compact-delay", "Echo"}} {
		p.text(u.find).keys("enter").fill(u.label).keys("enter")
	}
	p.keys("esc")
	require.Equal(t, listing, p.m.mode)
	require.Len(t, p.m.history.Plan().Units, 4)
	return p
}

// What changes from gig to gig is asked where a new plan is made: two gigs, and a
// slot that holds another drive at each, which is in the chain where the drives
// were.
func TestNewPlanWithSlotsByKeys(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine.toml")
	p := begin(t, 80, 24)
	p.keys("n")
	require.Equal(t, filling, p.m.mode)
	p.fill("barn, barn")
	_, why := p.m.chosenForm().Wrong()
	assert.Contains(t, why, "given twice", "said as it is typed")
	p.keys("up").fill("barn, pit", "colour").keys("ctrl+s")
	require.Equal(t, listing, p.m.mode, p.m.note.text)
	p.keys("enter", "down").keys("space") // into the slot at the first gig: Squash is the second of the units
	assert.Equal(t, []string{"compact"}, p.m.history.Plan().Lineups[0].Fill["colour"])
	p.keys("esc", "down", "down", "enter").keys("down", "down").keys("space")
	assert.Equal(t, []string{"compact-2"}, p.m.history.Plan().Lineups[1].Fill["colour"])
	p.keys("esc", "n")
	require.Contains(t, p.m.View(), "4 of 4: the chain")
	assert.Equal(t, []layout.Stop{{Unit: layout.Instrument}, {Unit: "mini-tuner"}, {Slot: "colour"}, {Unit: "compact-delay"}, {Unit: layout.Amp}}, p.m.history.Plan().Chain.Stops)
	p.keys("n", "a")
	assert.Zero(t, p.m.unplaced(), p.m.note.text)
	p.keys("s", "ctrl+u").text(path).keys("enter")
	requireReadsBack(t, p.m, path)
	doc, err := plan.Open(path, nil)
	require.NoError(t, err)
	assert.Equal(t, layout.Rect{X1: 600 * mm, Y1: 350 * mm}, doc.Plan.Slots[0].At, "the whole deck until its card says where")
	assert.Equal(t, layout.Swap, doc.Plan.Unit("compact").Mount)
	assert.Equal(t, layout.Fixed, doc.Plan.Unit("mini-tuner").Mount)
}

func TestNewPlanWithSlotsByMouse(t *testing.T) {
	p := begin(t, 200, 60)
	p.press("n next").press("Gigs").keys("ctrl+u").text("barn, pit").press("Slots").text("colour").press("enter next")
	p.press("slot colour").press("Rasp").press("Rasp").press("esc back")
	assert.Equal(t, []string{"compact-2"}, p.m.history.Plan().Lineups[0].Fill["colour"])
	p.press("n next")
	assert.Equal(t, layout.Stop{Slot: "colour"}, p.m.history.Plan().Chain.Stops[3], "where Rasp was")
	p.press("n next").press("arrange them now")
	assert.Zero(t, p.m.unplaced(), p.m.note.text)
}

// Where nothing changes one key goes on; who comes back can say so still, and a slot
// that nobody is in is at the end of the chain.
func TestNothingChangesFromGigToGig(t *testing.T) {
	p := begin(t, 80, 24)
	was := p.m.history.Plan()
	p.keys("n", "enter")
	require.Contains(t, p.m.View(), "4 of 4: the chain")
	assert.Equal(t, was, p.m.history.Plan())
	p.keys("esc", "n", "down").text("space").keys("enter", "n")
	stops := p.m.history.Plan().Chain.Stops
	assert.Equal(t, layout.Stop{Slot: "space"}, stops[len(stops)-2])
	p.keys("esc", "esc", "n", "down", "ctrl+u", "enter")
	assert.Empty(t, p.m.history.Plan().Slots)
	assert.Len(t, p.m.history.Plan().Chain.Stops, len(stops)-1)
}

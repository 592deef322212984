package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func lineupNames(p *layout.Plan) (out []string) {
	for _, l := range p.Lineups {
		out = append(out, l.Name)
	}
	return out
}

func TestNamingLineups(t *testing.T) {
	p := trial()
	first := p.Lineups[0]
	require.NoError(t, NameLineups(p, []string{"hall", first.Name}))
	assert.Equal(t, []string{"hall", first.Name}, lineupNames(p))
	assert.Equal(t, first.Fill, p.Lineups[1].Fill, "what stays is as it was")
	require.NoError(t, NameLineups(p, []string{"church"}))
	assert.Equal(t, []string{"church"}, lineupNames(p))
	assert.ErrorContains(t, NameLineups(p, []string{"a", "a"}), "given twice")
	assert.Error(t, NameLineups(p, nil), "a plan has at least one")
}

func TestNamingSlots(t *testing.T) {
	p := trial()
	was := p.Slots[0]
	require.NoError(t, NameSlots(p, []string{was.Name, "space"}))
	assert.Equal(t, []layout.Slot{was, {Name: "space", On: layout.DeckName, At: p.Board.Rect()}}, p.Slots)
	assert.Contains(t, Unchained(p), "space")
	require.NoError(t, NameSlots(p, []string{"space"}))
	require.Len(t, p.Slots, 1)
	assert.ErrorContains(t, NameSlots(p, []string{"a b"}), "want letters")
	require.NoError(t, NameSlots(p, nil))
	assert.Empty(t, p.Slots)
}

// A slot of the whole deck keeps nobody out of it, a smaller one does.
func TestFirstPlaceUnderASlotOfTheWholeDeck(t *testing.T) {
	p := trial()
	for i := range p.Lineups {
		p.Lineups[i].Fill, p.Lineups[i].Place = nil, nil
	}
	place := func(slots ...layout.Slot) layout.Placement {
		p.Slots = slots
		return FirstPlace(p, &p.Lineups[0], &p.Units[0])
	}
	b := p.Board.Rect()
	assert.Equal(t, place(), place(layout.Slot{Name: "any", On: layout.DeckName, At: b}))
	free := place()
	w, d := free.Turn.Footprint(p.Units[0].Body.W, p.Units[0].Body.D)
	assert.NotEqual(t, free, place(layout.Slot{Name: "some", On: layout.DeckName, At: layout.RectAt(free.At, w, d)}))
}

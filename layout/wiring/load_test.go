package wiring

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// TestResonance has the worked values of gitarrenelektronik.de: 2.4 H "around
// 6000" Hz with 300 pF, "a little above 2000" with 2400 pF.
func TestResonance(t *testing.T) {
	assert.InDelta(t, 5931, Resonance(2.4, 300), 0.5)
	assert.InDelta(t, 6000, Resonance(2.4, 300), 100)
	assert.InDelta(t, 2097, Resonance(2.4, 2400), 0.5)
	assert.InDelta(t, 2050, Resonance(2.4, 2400), 50)
}

// TestCapacitance: 30 pF/ft is 98 pF/m (soundonsound nov09; psg.com).
func TestCapacitance(t *testing.T) {
	assert.InDelta(t, 98, DefaultCapacitance, 0.5)
	assert.InDelta(t, 30, Cabling(&layout.Plan{}).Capacitance*0.3048, 1e-9)
}

// row is a board with units in a row, the first at the right.
func row(ids ...string) *layout.Plan {
	p := &layout.Plan{Board: layout.Board{W: 1500 * mm, D: 200 * mm, Thickness: 15 * mm}, Lineups: []layout.Lineup{{Name: "all"}},
		Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}}}}
	for i, id := range ids {
		p.Units = append(p.Units, unit(id, layout.Length(1400-110*(i+1))*mm))
		p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: id})
	}
	p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: layout.Amp})
	return p
}

func TestLoadIsCutAtBuffers(t *testing.T) {
	p := row("a", "b", "c", "d")
	p.Units[1].Buffer, p.Units[2].Buffer = true, true
	r := Wire(p)
	w := &r.Wirings[0]
	require.Len(t, w.Load, 3)
	before, between, after := w.Load[0], w.Load[1], w.Load[2]

	assert.Equal(t, Before, before.Where)
	assert.Equal(t, []string{"a"}, before.Through)
	assert.Equal(t, 2, before.Cables)
	// The instrument's cable, its way from the edge, and a kit cable.
	want := DefaultInstrument + w.Cables[0].Run + r.Kit[0].Cut
	assert.Equal(t, want, before.Length)
	assert.InDelta(t, want.MM()/304.8*30, before.Picofarads, 1e-6)
	assert.InDelta(t, Resonance(PickupHenries, PickupPicofarads+before.Picofarads), before.Resonance, 1e-9)

	assert.Equal(t, Between, between.Where)
	assert.Equal(t, "b", between.From)
	assert.Equal(t, "c", between.To)
	assert.Empty(t, between.Through)
	assert.Zero(t, between.Resonance)

	assert.Equal(t, After, after.Where)
	assert.Equal(t, []string{"d"}, after.Through)
	assert.Greater(t, after.Length, DefaultAmp)
	assert.Empty(t, r.Issues)
}

func TestLoadOfWhatHasNoPlaceIsShort(t *testing.T) {
	p := row("a", "b")
	p.Units[1].Place = nil
	s := Wire(p).Wirings[0].Load[0]
	assert.Equal(t, NoneAt, s.Where)
	assert.True(t, s.Short)
	assert.Equal(t, 3, s.Cables)
}

func TestLongUnbuffered(t *testing.T) {
	issue := func(p *layout.Plan) Issue {
		r := Wire(p)
		require.Len(t, r.Issues, 1)
		require.Equal(t, LongUnbuffered, r.Issues[0].Code)
		return r.Issues[0]
	}
	p := row("a", "b", "c")
	i := issue(p)
	assert.Equal(t, Caution, i.Level)
	assert.Greater(t, i.Measured, UnbufferedCaution.MM())
	assert.Equal(t, UnbufferedCaution.MM(), i.Limit)
	assert.Contains(t, i.Text, "A buffer first on the board would leave it about 3.1 m.")

	// A fuzz wants to feel the pickup: the buffer goes behind it.
	p.Units[1].Form = "compact-fuzz"
	assert.Contains(t, issue(p).Text, "A buffer right behind b would leave it about")

	// An instrument's cable that is too long by itself.
	p = row("a", "b", "c")
	p.Cabling.Instrument = 5200 * mm
	p.Units[1].Buffer = true
	i = issue(p)
	assert.Equal(t, Note, i.Level)
	assert.Contains(t, i.Text, "Take a shorter cable from the instrument")

	// Short enough.
	p.Cabling.Instrument = 3000 * mm
	assert.Empty(t, Wire(p).Issues)
}

func TestOrderAgainstHabit(t *testing.T) {
	for _, c := range []struct {
		forms string
		words string
	}{
		{"compact-tuner treadle-wah compact-fuzz treadle-volume compact-delay", ""},
		{"treadle-volume compact-fuzz compact-delay", ""},
		{"compact-fuzz treadle-wah", "b comes after a; most have the wah before the fuzz"},
		{"compact-delay treadle-volume", "volume pedal before the delay"},
		{"compact-delay compact-tuner", "most have the tuner before the delay"},
		{"buffer compact-fuzz", "buffers after a fuzz"},
		{"compact-fuzz buffer", ""},
	} {
		forms := strings.Fields(c.forms)
		p := row(strings.Split("abcde"[:len(forms)], "")...)
		for i, f := range forms {
			p.Units[i].Form = f
			p.Units[i].Buffer = f == "buffer" || i == len(forms)-1 && f != "compact-fuzz"
		}
		var got []string
		for _, i := range Wire(p).Issues {
			if i.Code == ChainOrder {
				assert.Equal(t, Note, i.Level)
				got = append(got, i.Text)
			}
		}
		if c.words == "" {
			assert.Empty(t, got, c.forms)
			continue
		}
		require.Len(t, got, 1, c.forms)
		assert.Contains(t, got[0], c.words)
	}
}

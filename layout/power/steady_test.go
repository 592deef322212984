package power

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// further counts the outputs that units are on besides a first one.
func further(r *Result) (n int) {
	on := map[string]map[string]bool{}
	for _, a := range r.Assignments {
		if on[a.Unit] == nil {
			on[a.Unit] = map[string]bool{}
		}
		on[a.Unit][a.Supply+"/"+a.Output] = true
	}
	for _, of := range on {
		n += len(of) - 1
	}
	return n
}

// playing is a plan with a line-up for each list of units.
func playing(s layout.Unit, units []layout.Unit, lineups ...[]string) *layout.Plan {
	p := planOf(append([]layout.Unit{s}, units...)...)
	p.Lineups = nil
	for l, ids := range lineups {
		p.Lineups = append(p.Lineups, layout.Lineup{Name: fmt.Sprint(l), Fill: map[string][]string{"s": ids}})
	}
	return p
}

func weak(ids ...string) (out []layout.Unit) {
	for _, id := range ids {
		out = append(out, drawing(id, layout.Draw{Milliamps: 50}))
	}
	return out
}

// Each two of three units play together once: on two outputs they are a ring of
// three in two colours, and one of them must change; on three none.
func TestUnitsKeepTheirOutputWhereTheyCan(t *testing.T) {
	gigs := [][]string{{"a", "b"}, {"b", "c"}, {"c", "a"}}
	for outputs, want := range map[int]int{2: 1, 3: 0, 4: 0} {
		p := playing(supplyOf("s", []layout.Output{nine, nine, nine, nine}[:outputs]...), weak("a", "b", "c"), gigs...)
		r := mapped(t, p)
		require.Equal(t, Holds, r.Verdict)
		require.True(t, r.Best)
		assert.Equal(t, want, further(r), "%d outputs", outputs)
	}
}

// What is used does not hang on places, so it is settled without them, and
// already then units keep their outputs.
func TestFeedsAreSteady(t *testing.T) {
	p := playing(supplyOf("s", nine, nine, nine), weak("a", "b", "c"), []string{"a", "b", "c"}, []string{"b", "c"}, []string{"c"})
	require.Equal(t, Holds, Apply(p))
	assert.Equal(t, p.Feeds["0"]["c"], p.Feeds["1"]["c"])
	assert.Equal(t, p.Feeds["0"]["c"], p.Feeds["2"]["c"])
	assert.Equal(t, p.Feeds["0"]["b"], p.Feeds["1"]["b"])
}

// A longer lead is better than a second one, whatever the lengths.
func TestSteadyBeforeShort(t *testing.T) {
	s := supplyOf("s", nine, nine)
	s.Jacks[1].Along, s.Jacks[2].Along = 0, 400*layout.Millimetre
	s.Place = &layout.Placement{On: layout.DeckName}
	p := playing(s, weak("a", "b"), []string{"a", "b"}, []string{"a", "b"})
	at := func(x layout.Length) layout.Placement {
		return layout.Placement{On: layout.DeckName, At: layout.Point{X: x * layout.Millimetre, Y: 150 * layout.Millimetre}}
	}
	p.Lineups[0].Place = map[string]layout.Placement{"a": at(0), "b": at(400)}
	p.Lineups[1].Place = map[string]layout.Placement{"a": at(380), "b": at(20)}
	r := mapped(t, p)
	assert.Zero(t, further(r), "they have changed places, and kept their outputs")
	assert.Contains(t, outputs(r), "0: a s/o1", "where the leads of both line-ups together are shorter")
}

// A reversing lead is no price for keeping an output: a is on the output of its
// own polarity where that is free.
func TestNoReversingLeadToKeepAnOutput(t *testing.T) {
	positive := nine
	positive.CentrePositive = true
	units := []layout.Unit{drawing("a", layout.Draw{Milliamps: 50, CentrePositive: true}), drawing("b", layout.Draw{Milliamps: 50, CentrePositive: true, Lead: layout.PlainLead})}
	p := playing(supplyOf("s", positive, nine), units, []string{"a"}, []string{"a", "b"})
	r := mapped(t, p)
	assert.Equal(t, []string{"0: a s/o1", "1: a s/o2", "1: b s/o1"}, outputs(r))
	assert.Equal(t, 1, further(r))
}

// Sharing is worse than changing outputs, and better than no output: with one
// unit that nothing feeds the others share all the same.
func TestSharingBeforeLeavingUnfed(t *testing.T) {
	s := supplyOf("s", layout.Output{Milliamps: 300, Isolated: true})
	p := playing(s, append(weak("a", "b"), drawing("high", layout.Draw{Millivolts: 18000, Milliamps: 10})), []string{"a", "b", "high"})
	p.Power.Sharing = true
	r := mapped(t, p)
	assert.Equal(t, Impossible, r.Verdict)
	assert.Equal(t, []Unfed{{"0", "high"}}, r.Unfed)
}

// Over ten gigs, measured: 24 units that come and go, in some four gigs each, take
// 5 to 7 outputs more than they are, and took 25 to 32 before outputs were kept.
func TestManyLineupsAreSteady(t *testing.T) {
	for seed := range uint64(6) {
		assert.LessOrEqual(t, further(mapped(t, tourBoard(seed))), 8, seed)
	}
}

// Without a supply to link it to an expander gives nothing: there is not one outlet,
// and units that play from slots go unfed.
func TestNoOutletsAtAll(t *testing.T) {
	e := supplyOf("e", nine, nine)
	e.Draw = &layout.Draw{Millivolts: 24000, Milliamps: 1000}
	e.Jacks[0] = layout.Jack{ID: "link", Kind: layout.DC, Signal: layout.Power, Dir: layout.In}
	r := mapped(t, playing(e, weak("a", "b"), []string{"a", "b"}, []string{"a"}))
	assert.Equal(t, Impossible, r.Verdict)
	assert.Empty(t, r.Assignments)
}

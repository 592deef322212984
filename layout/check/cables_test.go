package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// pair is two units 200 mm apart, played one into the other.
func pair() *layout.Plan {
	p := tiny()
	p.Board.PlugRoom = layout.Edges{Left: 60 * mm, Right: 60 * mm, Back: 60 * mm}
	for i := range p.Units {
		u := &p.Units[i]
		for _, j := range []*layout.Jack{plug(u, "in", layout.Right, 60*mm, 20*mm), plug(u, "out", layout.Left, 60*mm, 20*mm)} {
			j.Kind, j.Plug.Out = layout.Phone, 11*mm
		}
		u.Uses = nil
	}
	move(&p.Units[0], 290*mm, 20*mm)
	move(&p.Units[1], 20*mm, 20*mm)
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "a"}, {Unit: "b"}, {Unit: layout.Amp}}
	return p
}

// What is found of cables stands among the other findings, and a fault of theirs
// decides the verdict; nothing that was given changes.
func TestCablesAmongTheFindings(t *testing.T) {
	p := pair()
	p.Units[0].Buffer = true
	before := All(p)
	require.Equal(t, Fits, before[0].Verdict, "%v", before[0].Findings)
	assert.Equal(t, before, WithCables(before, nil, nil))
	assert.Equal(t, before, WithCables(before, wiring.Wire(p), nil))

	// A wall from the front to the back, up past every height that a cable may
	// take, and past the edges.
	p.Board.Fixtures = []layout.Fixture{{Name: "wall", Box: layout.Box{X0: 190 * mm, X1: 200 * mm, Y0: -500 * mm, Y1: 900 * mm, Z0: -200 * mm, Z1: 900 * mm}}}
	found := All(p)
	require.Empty(t, find(found[0].Findings, NoWay))
	given := len(found[0].Findings)
	with := WithCables(found, wiring.Wire(p), nil)
	f := only(t, with[0].Findings, NoWay)
	assert.Equal(t, Fault, f.Level)
	assert.Equal(t, []string{"a", "b"}, f.Units)
	assert.Equal(t, p.Lineups[0].Name, f.Lineup)
	assert.Equal(t, Faults, with[0].Verdict)
	assert.Len(t, found[0].Findings, given)
}

func TestCautionOfACableLeavesTheVerdict(t *testing.T) {
	p := pair()
	p.Cabling = layout.Cabling{Reel: 100 * mm, Instrument: 7000 * mm}
	with := WithCables(All(p), wiring.Wire(p), nil)
	assert.Equal(t, Caution, only(t, with[0].Findings, ReelShort).Level)
	f := only(t, with[0].Findings, LongUnbuffered)
	assert.Equal(t, Caution, f.Level)
	assert.Greater(t, f.Measured, f.Limit)
	assert.Equal(t, Fits, with[0].Verdict)

	p.Units[1].Place = nil
	with = WithCables(All(p), wiring.Wire(p), nil)
	assert.Equal(t, Unplaced, with[0].Verdict)
	assert.Equal(t, NoPlace, with[0].Findings[0].Code, "faults first")
}

// The rule of collisions says already that a plug cannot seat.
func TestPlugThatCannotSeatIsSaidOnce(t *testing.T) {
	p := pair()
	move(&p.Units[1], 215*mm, 20*mm)
	w := wiring.Wire(p)
	require.Contains(t, issueCodes(w), wiring.PlugSeat)
	with := WithCables(All(p), w, nil)
	assert.Len(t, find(with[0].Findings, Collision), 1)
	assert.Empty(t, find(with[0].Findings, wiring.PlugSeat))
	assert.Equal(t, Faults, with[0].Verdict)
}

// A loop, and a jack with two plugs, as a plan that is being edited may have.
func TestSignalThatComesBack(t *testing.T) {
	p := pair()
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "b", Jack: "out"}, To: layout.JackRef{Unit: "a", Jack: "in"}}}
	with := WithCables(All(p), wiring.Wire(p), nil)
	assert.Len(t, find(with[0].Findings, UsedTwice), 2)
	assert.Len(t, find(with[0].Findings, FeedbackLoop), 1)
	assert.Equal(t, Faults, with[0].Verdict)
}

func issueCodes(w *wiring.Result) []string {
	var out []string
	for _, i := range w.Issues {
		out = append(out, i.Code)
	}
	return out
}

// What the leads are found to be once they are laid takes the place of what was
// thought of them as straight lines; a map that is not laid says nothing new.
func TestLeadsAsTheyAreLaid(t *testing.T) {
	p := pair()
	found := All(p)
	found[0].Findings = append(found[0].Findings, Finding{Code: LongLead, Level: Caution, Text: "by a straight line"})
	m := &power.Result{Issues: []power.Issue{
		{Code: LeadNoWay, Level: power.Caution, Lineup: found[0].Lineup, Units: []string{"a"}, Text: "no way for the lead to a"},
		{Code: LeadNoWay, Level: power.Caution, Lineup: "another", Text: "elsewhere"},
		{Code: power.Overload, Level: power.Note, Text: "is told by the check itself"},
	}}
	with := WithCables(found, nil, m)
	assert.Empty(t, find(with[0].Findings, LongLead))
	assert.Equal(t, "no way for the lead to a", only(t, with[0].Findings, LeadNoWay).Text)
	assert.Empty(t, find(with[0].Findings, power.Overload))
	assert.Len(t, find(found[0].Findings, LongLead), 1, "the results given stay")
	assert.Equal(t, found, WithCables(found, nil, nil))
}

package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"footplank/layout"
)

// fed is the trial board with a supply of two outputs and a unit that draws.
func fed() *layout.Plan {
	p := trial()
	jack := func(id string, dir layout.Direction) layout.Jack {
		return layout.Jack{ID: id, Kind: layout.DC, Signal: layout.Power, Dir: dir, Wall: layout.Back}
	}
	s := p.Unit("d")
	s.Jacks = []layout.Jack{jack("out1", layout.Out), jack("out2", layout.Out)}
	s.Outputs = []layout.Output{{Jack: "out1", Millivolts: 9000, Milliamps: 100}, {Jack: "out2", Millivolts: 9000, Milliamps: 500}}
	u := p.Unit("a")
	u.Jacks = []layout.Jack{jack("dc", layout.In)}
	u.Draw = &layout.Draw{Millivolts: 9000, Milliamps: 50}
	return p
}

func TestOutputsInUseFollowUnitsAndNotPlaces(t *testing.T) {
	h := New(fed())
	h.Do(Step{}, func(p *layout.Plan) { p.SetPlace(barn(p), p.Unit("a"), layout.Placement{On: layout.DeckName}) })
	assert.Nil(t, h.Plan().Feeds, "a move changes nothing about power")
	h.Do(Step{}, func(p *layout.Plan) { p.Unit("a").Draw = &layout.Draw{Millivolts: 9000, Milliamps: 60} })
	assert.Equal(t, layout.JackRef{Unit: "d", Jack: "out1"}, h.Plan().Feeds["barn"]["a"])
	h.Do(Step{}, func(p *layout.Plan) { p.Unit("a").Draw = &layout.Draw{Millivolts: 9000, Milliamps: 300} })
	assert.Equal(t, layout.JackRef{Unit: "d", Jack: "out2"}, h.Plan().Feeds["barn"]["a"], "the first gives too little now")
	h.Undo()
	assert.Equal(t, "out1", h.Plan().Feeds["barn"]["a"].Jack, "undo takes the outputs back too")
}

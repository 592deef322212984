package layout

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// jacked is the plan of changing with jacks for all that it refers to.
func jacked() *Plan {
	p := changing()
	jack := func(id string, s Signal, d Direction) Jack { return Jack{ID: id, Signal: s, Dir: d} }
	p.Unit("tuner").Jacks = []Jack{jack("in", Audio, In), jack("out", Audio, Out), jack("thru", Audio, Out), jack("dc", Power, In)}
	p.Unit("tuner").Uses = []string{"out"}
	s := p.Unit("power")
	s.Jacks = []Jack{jack("1", Power, Out), jack("2", Power, Out)}
	s.Outputs = []Output{{Jack: "1", Millivolts: 9000, Milliamps: 100}, {Jack: "2", Millivolts: 9000, Milliamps: 100}}
	return p
}

func TestRemoveJack(t *testing.T) {
	p := jacked()
	old := p.Clone()
	require.NoError(t, p.RemoveJack("tuner", "thru"))
	require.Nil(t, p.Unit("tuner").Jack("thru"))
	require.Equal(t, Stop{Slot: "colour"}, p.Chain.Stops[1], "the chain passed the tuner by it")
	require.NoError(t, p.RemoveJack("tuner", "out"))
	require.Nil(t, p.Unit("tuner").Uses)
	require.Len(t, p.Chain.Links, 1, "its cable to the amp is gone")
	require.NoError(t, p.RemoveJack("power", "1"))
	require.Equal(t, "2", p.Unit("power").Outputs[0].Jack)
	require.Equal(t, JackRef{}, p.Unit("tuner").Draw.Feed, "left to the power map")
	require.NoError(t, p.RemoveJack("tuner", "dc"))
	require.Nil(t, p.Unit("tuner").Draw, "there is nothing to draw by")
	require.NoError(t, p.RemoveJack("power", "2"))
	require.False(t, p.Unit("power").Supplies())
	require.Equal(t, jacked(), old, "what a clone shares is not changed")

	require.EqualError(t, p.RemoveJack("moon", "in"), `there is no unit "moon"`)
	require.EqualError(t, p.RemoveJack("power", "in"), `Shed has no jack "in"`)
}

// A stop that names no jacks takes in and out, and goes with either.
func TestRemoveJackOfAPlainStop(t *testing.T) {
	for _, jack := range []string{"in", "out"} {
		p := jacked()
		p.Chain.Stops[1] = Stop{Unit: "tuner"}
		require.NoError(t, p.RemoveJack("tuner", jack))
		require.Equal(t, Stop{Slot: "colour"}, p.Chain.Stops[1])
	}
}

func TestRenameJack(t *testing.T) {
	p := jacked()
	old := p.Clone()
	require.NoError(t, p.RenameJack("tuner", "thru", "on"))
	require.Equal(t, Stop{Unit: "tuner", In: "in", Out: "on"}, p.Chain.Stops[1])
	require.NoError(t, p.RenameJack("tuner", "out", "side"))
	require.Equal(t, []string{"side"}, p.Unit("tuner").Uses)
	require.Equal(t, JackRef{"tuner", "side"}, p.Chain.Links[0].From)
	require.NoError(t, p.RenameJack("power", "1", "first"))
	require.Equal(t, "first", p.Unit("power").Outputs[0].Jack)
	require.Equal(t, JackRef{"power", "first"}, p.Unit("tuner").Draw.Feed)
	require.Equal(t, jacked(), old, "what a clone shares is not changed")

	p.Chain.Stops[1] = Stop{Unit: "tuner", Out: "on"}
	require.NoError(t, p.RenameJack("tuner", "in", "left"))
	require.Equal(t, Stop{Unit: "tuner", In: "left", Out: "on"}, p.Chain.Stops[1], "in was meant without a word")
	require.EqualError(t, p.RenameJack("tuner", "left", "on"), `Peg has a jack "on" already`)
	require.ErrorContains(t, p.RenameJack("tuner", "left", "a b"), `jack "a b": want letters`)
	require.EqualError(t, p.RenameJack("tuner", "in", "x"), `Peg has no jack "in"`)
	require.NoError(t, p.RenameJack("tuner", "left", "left"))
}

func TestRemoveOutput(t *testing.T) {
	p := jacked()
	require.NoError(t, p.RemoveOutput("power", "1"))
	require.NotNil(t, p.Unit("power").Jack("1"), "the jack stays")
	require.Nil(t, p.Unit("power").Output("1"))
	require.Equal(t, JackRef{}, p.Unit("tuner").Draw.Feed)
	require.EqualError(t, p.RemoveOutput("power", "1"), `jack "1" of Shed is no output`)
	require.EqualError(t, p.RemoveOutput("tuner", "x"), `Peg has no jack "x"`)
}

package layout

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// gig is a plan with a slot, a unit that stands twice in the chain, a tuner on
// a link of its own, a supply and an expander.
func gig() *Plan {
	audio := func(ids ...string) []Jack {
		var out []Jack
		for _, id := range ids {
			out = append(out, Jack{ID: id, Kind: Phone, Signal: Audio})
		}
		return out
	}
	fed := func(milliamps int) (*Draw, Jack) {
		return &Draw{Millivolts: 9000, Milliamps: milliamps}, Jack{ID: "dc", Kind: DC, Signal: Power, Dir: In}
	}
	unit := func(id string, milliamps int, jacks ...string) Unit {
		d, dc := fed(milliamps)
		return Unit{ID: id, Label: id, Draw: d, Jacks: append(audio(jacks...), dc)}
	}
	out := func(id string) Jack { return Jack{ID: id, Kind: DC, Signal: Power, Dir: Out} }
	return &Plan{
		Board: testBoard(),
		Slots: []Slot{{Name: "colour", On: DeckName}, {Name: "space", On: DeckName}},
		Units: []Unit{
			unit("pre", 100, "in", "send", "return", "di", "out"),
			unit("squash", 10, "in", "out"), unit("rasp", 0, "in", "out"), unit("echo", 50, "in", "out"),
			unit("tuner", 20, "in"),
			{ID: "swell", Label: "swell", Jacks: audio("in", "out", "exp")},
			{ID: "supply", Label: "supply", Jacks: []Jack{{ID: "mains", Kind: Mains, Signal: Line, Dir: In}, out("o1"), out("o2"), out("o3"), out("o4"), out("o5"), out("o6")},
				Outputs: []Output{{Jack: "o1"}, {Jack: "o2"}, {Jack: "o3"}}},
			{ID: "expander", Label: "expander", Jacks: []Jack{{ID: "feed", Kind: DC, Signal: Power, Dir: In}, out("e1"), out("e2")},
				Outputs: []Output{{Jack: "e1"}, {Jack: "e2"}}, Draw: &Draw{Millivolts: 24000, Milliamps: 500}},
		},
		Chain: Chain{
			Stops: []Stop{{Unit: Instrument}, {Unit: "pre", In: "in", Out: "send"}, {Slot: "colour"}, {Unit: "swell"}, {Slot: "space"}, {Unit: "pre", In: "return", Out: "di"}, {Unit: Desk}},
			Links: []Link{
				{JackRef{"pre", "out"}, JackRef{"tuner", "in"}},
				{JackRef{"echo", "out"}, JackRef{Amp, ""}},
			},
		},
		Lineups: []Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"squash", "rasp"}}},
			{Name: "solo", Fill: map[string][]string{"space": {"echo"}}},
		},
	}
}

func TestNodesAndLinks(t *testing.T) {
	p := gig()
	barn, solo := &p.Lineups[0], &p.Lineups[1]
	assert.Equal(t, []Node{
		{Unit: Instrument}, {"pre", "in", "send"}, {"squash", "in", "out"}, {"rasp", "in", "out"}, {"swell", "in", "out"},
		{"pre", "return", "di"}, {Unit: Desk},
	}, p.Nodes(barn))
	ref := func(u, j string) JackRef { return JackRef{u, j} }
	assert.Equal(t, []Link{
		{ref(Instrument, ""), ref("pre", "in")}, {ref("pre", "send"), ref("squash", "in")}, {ref("squash", "out"), ref("rasp", "in")},
		{ref("rasp", "out"), ref("swell", "in")}, {ref("swell", "out"), ref("pre", "return")}, {ref("pre", "di"), ref(Desk, "")},
		{ref("pre", "out"), ref("tuner", "in")},
	}, p.ChainLinks(barn), "without the link of a unit that is not there")
	assert.Equal(t, []Link{
		{ref(Instrument, ""), ref("pre", "in")}, {ref("pre", "send"), ref("swell", "in")}, {ref("swell", "out"), ref("echo", "in")},
		{ref("echo", "out"), ref("pre", "return")}, {ref("pre", "di"), ref(Desk, "")},
		{ref("pre", "out"), ref("tuner", "in")}, {ref("echo", "out"), ref(Amp, "")},
	}, p.ChainLinks(solo))
}

// A junction box carries the instrument's line and the amplifier's, each by jacks
// of its own; a stereo unit that is passed once has one pass with all its jacks.
func TestPassOf(t *testing.T) {
	ref := func(u, j string) JackRef { return JackRef{u, j} }
	nodes := []Node{{Unit: Instrument}, {"box", "in", "out"}, {"echo", "in", "out"}, {"box", "in2", "out2"}, {"loop", "in", "send"}, {Unit: Amp}}
	assert.Equal(t, PassOf(nodes, ref("box", "in")), PassOf(nodes, ref("box", "out")))
	assert.Equal(t, PassOf(nodes, ref("box", "in2")), PassOf(nodes, ref("box", "out2")))
	assert.NotEqual(t, PassOf(nodes, ref("box", "out")), PassOf(nodes, ref("box", "in2")))
	assert.NotEqual(t, PassOf(nodes, ref("box", "in")), PassOf(nodes, ref("box", "thru")), "a third line of the box")
	assert.Equal(t, PassOf(nodes, ref("echo", "in")), PassOf(nodes, ref("echo", "out2")))
	assert.NotEqual(t, PassOf(nodes, ref("loop", "send")), PassOf(nodes, ref("loop", "return")))
	assert.Equal(t, PassOf(nodes, ref("aside", "in")), PassOf(nodes, ref("aside", "out")), "a unit beside the chain is one pass")
}

func TestUsed(t *testing.T) {
	p := gig()
	p.Unit("swell").Uses = []string{"exp"}
	want := map[JackRef]bool{}
	for unit, jacks := range map[string][]string{
		"pre": {"in", "send", "return", "di", "out", "dc"}, "squash": {"in", "out", "dc"},
		"rasp":  {"in", "out"}, // draws nothing, so its power jack is free
		"tuner": {"in", "dc"}, "swell": {"in", "out", "exp"},
		// Three units to feed: three outputs, in the order of the plan. Jack o4 is
		// no output, so it is the link that feeds the expander.
		"supply": {"mains", "o1", "o2", "o3", "o4"}, "expander": {"feed"},
	} {
		for _, j := range jacks {
			want[JackRef{unit, j}] = true
		}
	}
	assert.Equal(t, want, p.Used(&p.Lineups[0]))

	p.Unit("rasp").Draw.Milliamps = 5
	used := p.Used(&p.Lineups[0])
	assert.True(t, used[JackRef{"expander", "e1"}], "the fourth goes to the expander")
	assert.False(t, used[JackRef{"expander", "e2"}])
	assert.False(t, p.Used(&p.Lineups[1])[JackRef{"expander", "e1"}], "the other line-up has three to feed")
}

// Where the power map is known, it says which outputs are used; a unit that it
// does not know takes the next free one.
func TestUsedFollowsTheFeeds(t *testing.T) {
	p := gig()
	p.Feeds = Feeds{"barn": {"pre": {"expander", "e2"}, "squash": {"supply", "o3"}, "expander": {"supply", "o6"}}}
	used := p.Used(&p.Lineups[0])
	for _, r := range []JackRef{{"expander", "e2"}, {"supply", "o3"}, {"supply", "o6"}, {"supply", "o1"}} {
		assert.True(t, used[r], r)
	}
	for _, r := range []JackRef{{"supply", "o2"}, {"supply", "o4"}, {"expander", "e1"}} {
		assert.False(t, used[r], r)
	}
	p.Unit("squash").Draw.Battery = true
	used = p.Used(&p.Lineups[0])
	assert.False(t, used[JackRef{"supply", "o3"}], "it plays on its battery")
	assert.False(t, used[JackRef{"squash", "dc"}])
	p.Feeds["barn"]["pre"] = JackRef{"gone", "o1"}
	assert.True(t, p.Used(&p.Lineups[0])[JackRef{"supply", "o2"}], "a supply that is not there feeds nothing")
}

func TestWhoIsPresent(t *testing.T) {
	p := gig()
	ids := func(l *Lineup) (out []string) {
		for _, u := range p.UnitsIn(l) {
			out = append(out, u.ID)
		}
		return out
	}
	barn, solo := p.LineupNamed("barn"), p.LineupNamed("solo")
	assert.Equal(t, []string{"pre", "squash", "rasp", "tuner", "swell", "supply", "expander"}, ids(barn))
	assert.Equal(t, []string{"pre", "echo", "tuner", "swell", "supply", "expander"}, ids(solo))
	assert.True(t, p.InSlots("echo"))
	assert.False(t, p.InSlots("pre"))
	assert.Equal(t, "colour", p.SlotOf(barn, "rasp").Name)
	assert.Nil(t, p.SlotOf(solo, "rasp"))
	assert.Nil(t, p.LineupNamed("none"))
	assert.Nil(t, p.Unit("none"))
	assert.Nil(t, p.Slot("none"))
	assert.Equal(t, &p.Slots[1], p.Slot("space"))
	for _, name := range []string{Instrument, Amp, Desk} {
		assert.True(t, OffBoard(name))
	}
	assert.False(t, OffBoard("pre"))
}

// A unit of every line-up has one place; a unit of a slot one a line-up.
func TestSetPlace(t *testing.T) {
	p := gig()
	barn, solo := &p.Lineups[0], &p.Lineups[1]
	here, there := Placement{On: DeckName, At: Point{1, 2}}, Placement{On: DeckName, At: Point{3, 4}, Turn: 1}

	solo.Place = map[string]Placement{"pre": there}
	p.SetPlace(barn, p.Unit("pre"), here)
	for _, l := range []*Lineup{barn, solo} {
		pl, ok := p.PlaceOf(l, p.Unit("pre"))
		require.True(t, ok)
		assert.Equal(t, here, pl, "no line-up keeps another place")
	}
	p.Unit("squash").Place = &here
	p.SetPlace(barn, p.Unit("squash"), there)
	pl, _ := p.PlaceOf(barn, p.Unit("squash"))
	assert.Equal(t, there, pl)
	pl, _ = p.PlaceOf(solo, p.Unit("squash"))
	assert.Equal(t, here, pl)
	_, ok := p.PlaceOf(barn, p.Unit("tuner"))
	assert.False(t, ok)
}

// Whatever an edit changes in a copy, the plan that it was made of stays.
func TestCloneSharesNothingThatEditsChange(t *testing.T) {
	p := gig()
	p.SetPlace(&p.Lineups[0], p.Unit("pre"), Placement{On: DeckName})
	p.SetPlace(&p.Lineups[0], p.Unit("squash"), Placement{On: DeckName})
	p.SetPlace(&p.Lineups[1], p.Unit("echo"), Placement{On: DeckName})
	before, err := json.Marshal(p)
	require.NoError(t, err)

	q := p.Clone()
	same, err := json.Marshal(q)
	require.NoError(t, err)
	assert.JSONEq(t, string(before), string(same))

	q.Unit("pre").Place.At.X = 99
	q.Unit("pre").Pinned = true
	q.Unit("pre").Label = "changed"
	q.SetPlace(&q.Lineups[0], q.Unit("squash"), Placement{At: Point{7, 7}})
	q.SetPlace(&q.Lineups[1], q.Unit("echo"), Placement{At: Point{7, 7}})
	q.Lineups[0].Fill["colour"][0] = "echo"
	q.Lineups[0].Fill["space"] = []string{"echo"}
	q.Lineups[1].Name = "changed"
	q.Slots[0].At.X1 = 99
	q.Board.Risers[0].Height = 99
	q.Chain.Stops[0].Unit = Amp
	q.Chain.Links[0].From.Jack = "changed"
	now, err := json.Marshal(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(now))
}

func TestUnitAnswers(t *testing.T) {
	u := &Unit{Jacks: []Jack{{ID: "in"}}}
	assert.Equal(t, []Turn{0}, u.AllowedTurns())
	u.Turns = []Turn{1, 3}
	assert.Equal(t, []Turn{1, 3}, u.AllowedTurns())
	assert.True(t, u.MayStandOn("shelf"))
	u.On = []string{DeckName}
	assert.False(t, u.MayStandOn("shelf"))
	assert.True(t, u.MayStandOn(DeckName))
	assert.False(t, u.Worked())
	u.Treadle = true
	assert.True(t, u.Worked())
	assert.True(t, (&Unit{Switches: []Switch{{}}}).Worked())
	assert.Equal(t, &u.Jacks[0], u.Jack("in"))
	assert.Nil(t, u.Jack("out"))
}

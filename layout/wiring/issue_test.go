package wiring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
)

func of(r *Result, code string) []Issue {
	var out []Issue
	for _, i := range r.Issues {
		if i.Code == code {
			out = append(out, i)
		}
	}
	return out
}

func TestUsedTwice(t *testing.T) {
	p := row("a", "b", "c")
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "a", Jack: "out"}, To: layout.JackRef{Unit: "c", Jack: "in"}}}
	found := of(Wire(p), UsedTwice)
	require.Len(t, found, 2)
	assert.Equal(t, Fault, found[0].Level)
	assert.Contains(t, found[0].Text, `The jack "out" of a has two plugs`)
	assert.Contains(t, found[1].Text, `The jack "in" of c has two plugs`)
}

func TestFeedbackLoop(t *testing.T) {
	p := row("a", "b", "c")
	for i := range p.Units {
		p.Units[i].Jacks = append(p.Units[i].Jacks, p.Units[i].Jacks...)
		p.Units[i].Jacks[2].ID, p.Units[i].Jacks[3].ID = "return", "send"
	}
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "c", Jack: "send"}, To: layout.JackRef{Unit: "a", Jack: "return"}}}
	found := of(Wire(p), FeedbackLoop)
	require.Len(t, found, 1)
	assert.Equal(t, []string{"c", "a"}, found[0].Units)

	// A unit that the chain passes twice by jacks of its own makes none.
	p = row("a", "b")
	u := &p.Units[0]
	u.Jacks = append(u.Jacks, u.Jacks...)
	u.Jacks[2].ID, u.Jacks[3].ID = "return", "send"
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "a", In: "in", Out: "send"}, {Unit: "b"},
		{Unit: "a", In: "return", Out: "out"}, {Unit: layout.Amp}}
	assert.Empty(t, of(Wire(p), FeedbackLoop))

	// Nor does a junction box, the first line by its usual jacks, the second by
	// others.
	p.Unit("a").Jacks[2].ID, p.Unit("a").Jacks[3].ID = "in2", "out2"
	p.Chain.Stops[1] = layout.Stop{Unit: "a"}
	p.Chain.Stops[3] = layout.Stop{Unit: "a", In: "in2", Out: "out2"}
	assert.Empty(t, of(Wire(p), FeedbackLoop))
}

func TestReelShort(t *testing.T) {
	p := row("a", "b")
	p.Cabling.Reel = 80 * mm
	r := Wire(p)
	require.Len(t, of(r, ReelShort), 1)
	assert.Empty(t, r.List)
}

func TestPlugSeat(t *testing.T) {
	angle, _ := catalog.Builtin().Plug("phone-right-angle")
	p := row("a", "b", "c")
	p.Units[1].Jacks[0].Along = 100 * mm                  // out of the way
	p.Units[1].Place.At.X = p.Units[0].Place.At.X - 82*mm // a's flat plug of 12 mm just fits
	assert.Empty(t, of(Wire(p), PlugSeat))
	p.Units[0].Jacks[1].Plug = angle.PlugForm
	found := of(Wire(p), PlugSeat)
	require.NotEmpty(t, found)
	assert.Contains(t, found[0].Text, `The plug (phone-right-angle) in "out" of a cannot seat: b is in its way.`)
	assert.Contains(t, found[0].Text, "No other form")

	// With a leg up, under a fixture: to the front it seats.
	p = row("a", "b", "c")
	p.Units[0].Jacks[1].Plug = angle.PlugForm
	lid := layout.Fixture{Name: "bar", Box: layout.Box{X0: 0, Y0: 0, Z0: 40 * mm, X1: 1285 * mm, Y1: 200 * mm, Z1: 60 * mm}}
	p.Board.Fixtures = []layout.Fixture{lid}
	found = of(Wire(p), PlugSeat)
	require.NotEmpty(t, found)
	assert.Contains(t, found[0].Text, "the bar is in its way. It seats with its leg to the unit's front.")

	// A plug that reaches into the deck.
	p = row("a", "b", "c")
	p.Units[0].Jacks[1].Plug, p.Units[0].Jacks[1].Leg = angle.PlugForm, layout.LegDown
	found = of(Wire(p), PlugSeat)
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Text, "the board below it is in its way. It seats with its leg up.")
}

func TestStereoLinks(t *testing.T) {
	p := row("a", "b")
	for i := range p.Units {
		u := &p.Units[i]
		for _, j := range u.Jacks[:2] {
			j.ID, j.Along = j.ID+"2", 90*mm
			u.Jacks = append(u.Jacks, j)
		}
	}
	w := Wire(p).Wirings[0]
	for _, c := range w.Cables {
		assert.False(t, c.Stereo)
	}
	used := p.Used(&p.Lineups[0])
	assert.False(t, used[layout.JackRef{Unit: "a", Jack: "out2"}])
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "a", Jack: "out2"}, To: layout.JackRef{Unit: "b", Jack: "in2"}}}
	w = Wire(p).Wirings[0]
	var got []string
	for _, c := range w.Cables {
		if c.Stereo {
			got = append(got, c.From.Jack+" "+c.To.Jack)
		}
	}
	assert.Equal(t, []string{"out in", "out2 in2"}, got)
	assert.True(t, p.Used(&p.Lineups[0])[layout.JackRef{Unit: "a", Jack: "out2"}])
}

func TestCutListCutsTheKit(t *testing.T) {
	p := row("a", "b", "c", "d", "e", "f")
	p.Cabling.Reel = 400 * mm
	r := Wire(p)
	require.Len(t, r.Kit, 5)
	assert.True(t, r.Proved)
	left := map[string]layout.Length{}
	for _, k := range r.Kit {
		left[k.ID] = k.Cut
	}
	for _, b := range r.List {
		sum := b.Left
		for _, id := range b.Kit {
			sum += left[id]
			delete(left, id)
		}
		assert.Equal(t, r.Reel, sum)
	}
	assert.Empty(t, left)
	assert.Same(t, &r.Wirings[0], r.Of("all"))
	assert.Nil(t, r.Of("none"))
}

func TestMetres(t *testing.T) {
	assert.Equal(t, "3.1 m", Metres(3140*mm, layout.Millimetres))
	assert.Equal(t, "3 m", Metres(3000*mm, ""))
	assert.Equal(t, "10 ft", Metres(120*layout.Inch, layout.Inches))
}

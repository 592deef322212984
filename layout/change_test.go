package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// changing is a plan in which everything is referred to from everywhere.
func changing() *Plan {
	on := func(surface string, x Length) Placement { return Placement{On: surface, At: Point{x, 0}} }
	deck, shelf := on(DeckName, 1), on("shelf", 2)
	return &Plan{
		Title: "t", Board: Board{W: 500, D: 300, Risers: []Riser{{Name: "shelf", At: Rect{0, 200, 500, 300}, Height: 50, Thickness: 9}}},
		Slots: []Slot{{Name: "colour", On: DeckName}, {Name: "space", On: "shelf"}},
		Units: []Unit{
			{ID: "tuner", Label: "Peg", Place: &deck, Draw: &Draw{Milliamps: 5, Feed: JackRef{"power", "1"}}, On: []string{DeckName, "shelf"}},
			{ID: "grit", Label: "grit", Mount: Swap}, {ID: "echo", Label: "Barn", Mount: Swap},
			{ID: "power", Label: "Shed", Place: &shelf, On: []string{"shelf"}},
		},
		Chain: Chain{
			Stops: []Stop{{Unit: Instrument}, {Unit: "tuner", In: "in", Out: "thru"}, {Slot: "colour"}, {Slot: "space"}, {Unit: Desk}},
			Links: []Link{{JackRef{"tuner", "out"}, JackRef{Unit: Amp}}, {JackRef{"grit", "send"}, JackRef{"echo", "in"}}},
		},
		Lineups: []Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"grit"}, "space": {"echo"}}, Place: map[string]Placement{"grit": on(DeckName, 3), "echo": on("shelf", 4)}},
			{Name: "pit", Fill: map[string][]string{"colour": {"grit", "echo"}}, Place: map[string]Placement{"grit": on(DeckName, 5)}},
		},
		Prices: map[string]Price{"tuner": {1, "kr", false}, "phone-flat": {2, "kr", false}},
	}
}

func TestRenameUnit(t *testing.T) {
	p := changing()
	old := p.Clone()
	require.NoError(t, p.RenameUnit("tuner", "peg"))
	require.Equal(t, "Peg", p.Unit("peg").Label)
	require.Equal(t, Stop{Unit: "peg", In: "in", Out: "thru"}, p.Chain.Stops[1])
	require.Equal(t, JackRef{"peg", "out"}, p.Chain.Links[0].From)
	require.Equal(t, map[string]Price{"peg": {1, "kr", false}, "phone-flat": {2, "kr", false}}, p.Prices)

	require.NoError(t, p.RenameUnit("grit", "rosin"))
	require.Equal(t, "rosin", p.Unit("rosin").Label, "the label was the id")
	require.Equal(t, []string{"rosin", "echo"}, p.Lineups[1].Fill["colour"])
	require.Equal(t, Length(3), p.Lineups[0].Place["rosin"].At.X)
	require.Equal(t, JackRef{"rosin", "send"}, p.Chain.Links[1].From)

	require.NoError(t, p.RenameUnit("power", "shed"))
	require.Equal(t, JackRef{"shed", "1"}, p.Unit("peg").Draw.Feed)
	require.Equal(t, changing(), old, "what a clone shares is not changed")

	require.EqualError(t, p.RenameUnit("moon", "x"), `there is no unit "moon"`)
	require.EqualError(t, p.RenameUnit("peg", "echo"), `there is a unit "echo" already`)
	require.ErrorContains(t, p.RenameUnit("peg", "a b"), `id "a b": want letters`)
	require.ErrorContains(t, p.RenameUnit("peg", "desk"), "a meaning of its own")
	require.NoError(t, p.RenameUnit("peg", "peg"))
}

func TestRemoveUnit(t *testing.T) {
	p := changing()
	old := p.Clone()
	for _, id := range []string{"grit", "power", "tuner"} {
		require.NoError(t, p.RemoveUnit(id))
	}
	require.Len(t, p.Units, 1)
	require.Equal(t, []Stop{{Unit: Instrument}, {Slot: "colour"}, {Slot: "space"}, {Unit: Desk}}, p.Chain.Stops)
	require.Empty(t, p.Chain.Links)
	require.Equal(t, map[string][]string{"colour": {"echo"}}, p.Lineups[1].Fill)
	require.Empty(t, p.Lineups[1].Place)
	require.Equal(t, map[string]Price{"phone-flat": {2, "kr", false}}, p.Prices)
	require.Equal(t, changing(), old)
	require.ErrorContains(t, p.RemoveUnit("grit"), "there is no unit")

	p = changing()
	require.NoError(t, p.RemoveUnit("power"))
	require.Equal(t, &Draw{Milliamps: 5}, p.Unit("tuner").Draw, "left to the power map")
}

func TestAddAndMoveUnits(t *testing.T) {
	p := changing()
	require.NoError(t, p.AddUnit(Unit{ID: "verb"}))
	require.Equal(t, "verb", p.Units[4].Label)
	require.NoError(t, p.MoveUnit("verb", 1))
	require.Equal(t, []string{"tuner", "verb", "grit", "echo", "power"}, ids(p))
	require.NoError(t, p.MoveUnit("tuner", 99))
	require.Equal(t, []string{"verb", "grit", "echo", "power", "tuner"}, ids(p))
	require.ErrorContains(t, p.AddUnit(Unit{ID: "verb"}), "already")
	require.ErrorContains(t, p.AddUnit(Unit{ID: ""}), "want letters")
	require.ErrorContains(t, p.MoveUnit("moon", 0), "there is no unit")
}

func ids(p *Plan) []string {
	var out []string
	for _, u := range p.Units {
		out = append(out, u.ID)
	}
	return out
}

func TestLineups(t *testing.T) {
	p := changing()
	require.NoError(t, p.AddLineup("hall", "barn"))
	require.Equal(t, p.Lineups[0].Fill, p.Lineups[2].Fill)
	require.Equal(t, p.Lineups[0].Place, p.Lineups[2].Place)
	p.Lineups[2].Fill["colour"][0] = "x"
	require.Equal(t, "grit", p.Lineups[0].Fill["colour"][0], "a list of its own")
	require.NoError(t, p.AddLineup("empty", ""))
	require.NoError(t, p.RenameLineup("hall", "the hall"))
	require.NoError(t, p.MoveLineup("empty", 0))
	require.Equal(t, []string{"empty", "barn", "pit", "the hall"}, names(p))
	require.NoError(t, p.RemoveLineup("the hall"))
	require.EqualError(t, p.AddLineup("pit", ""), `there is a line-up "pit" already`)
	require.EqualError(t, p.AddLineup("x", "y"), `there is no line-up "y"`)
	require.EqualError(t, p.AddLineup("", ""), "a line-up wants a name")
	require.EqualError(t, p.RenameLineup("pit", "barn"), `there is a line-up "barn" already`)
	require.EqualError(t, p.RenameLineup("x", "y"), `there is no line-up "x"`)
	require.EqualError(t, p.RemoveLineup("x"), `there is no line-up "x"`)
	require.EqualError(t, p.MoveLineup("x", 0), `there is no line-up "x"`)

	// Without its line-up a unit is in no slot: it stays where it stood.
	p = changing()
	p.Lineups[1].Fill["colour"] = []string{"grit"}
	require.NoError(t, p.RemoveLineup("barn"))
	require.Equal(t, Placement{On: "shelf", At: Point{4, 0}}, *p.Unit("echo").Place)
	require.EqualError(t, p.RemoveLineup("pit"), `line-up "pit" is the only one: a plan has at least one`)
}

func names(p *Plan) []string {
	var out []string
	for _, l := range p.Lineups {
		out = append(out, l.Name)
	}
	return out
}

func TestSlots(t *testing.T) {
	p := changing()
	old := p.Clone()
	require.NoError(t, p.RenameSlot("colour", "wild"))
	require.Equal(t, Stop{Slot: "wild"}, p.Chain.Stops[2])
	require.Equal(t, []string{"grit", "echo"}, p.Lineups[1].Fill["wild"])
	require.NotContains(t, p.Lineups[1].Fill, "colour")
	require.Equal(t, changing(), old)

	require.NoError(t, p.AddSlot(Slot{Name: "more", On: "shelf"}))
	require.NoError(t, p.SetFill("pit", "more", []string{"echo", "tuner"}))
	require.Equal(t, map[string][]string{"wild": {"grit"}, "more": {"echo", "tuner"}}, p.Lineups[1].Fill)
	require.Equal(t, Swap, p.Unit("tuner").Mount)
	require.Equal(t, []Stop{{Unit: Instrument}, {Slot: "wild"}, {Slot: "space"}, {Unit: Desk}}, p.Chain.Stops)

	require.NoError(t, p.RemoveSlot("more"))
	require.NoError(t, p.RemoveSlot("space"))
	require.Equal(t, []Stop{{Unit: Instrument}, {Slot: "wild"}, {Unit: Desk}}, p.Chain.Stops)
	require.Equal(t, Placement{On: "shelf", At: Point{4, 0}}, *p.Unit("echo").Place, "in no slot any more, it stays where it stood")
	require.NotContains(t, p.Lineups[0].Place, "echo")

	require.ErrorContains(t, p.RenameSlot("x", "y"), "there is no slot")
	require.ErrorContains(t, p.RenameSlot("wild", "a b"), "want letters")
	require.ErrorContains(t, p.AddSlot(Slot{Name: "wild", On: DeckName}), "already")
	require.ErrorContains(t, p.AddSlot(Slot{Name: "x", On: "moon"}), `no surface "moon"`)
	require.ErrorContains(t, p.RemoveSlot("x"), "there is no slot")
	require.ErrorContains(t, p.SetFill("x", "wild", nil), "there is no line-up")
	require.ErrorContains(t, p.SetFill("pit", "x", nil), "there is no slot")
	require.ErrorContains(t, p.SetFill("pit", "wild", []string{"moon"}), "there is no unit")
	require.ErrorContains(t, p.SetFill("pit", "wild", []string{"grit", "grit"}), "given twice")
}

func TestRisers(t *testing.T) {
	p := changing()
	old := p.Clone()
	require.NoError(t, p.RenameRiser("shelf", "loft"))
	require.Equal(t, "loft", p.Slots[1].On)
	require.Equal(t, "loft", p.Unit("power").Place.On)
	require.Equal(t, []string{DeckName, "loft"}, p.Unit("tuner").On)
	require.Equal(t, "loft", p.Lineups[0].Place["echo"].On)
	require.NoError(t, p.RemoveRiser("loft"))
	require.Equal(t, DeckName, p.Slots[1].On)
	require.Nil(t, p.Unit("power").Place)
	require.Empty(t, p.Unit("power").On)
	require.NotContains(t, p.Lineups[0].Place, "echo")
	require.Equal(t, changing(), old)
	require.ErrorContains(t, p.RenameRiser("x", "y"), "there is no riser")
	require.ErrorContains(t, p.RemoveRiser("x"), "there is no riser")
	require.ErrorContains(t, changing().RenameRiser("shelf", DeckName), "already")
}

// To rename and to rename back is to do nothing, and nothing refers to what is
// not there.
func TestChangesLeaveNothingLoose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := changing()
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			before := p.Clone()
			var err error
			name := fmt.Sprint("n", rapid.IntRange(0, 9).Draw(t, "name"))
			unit, slot, lineup := "moon", "moon", "moon"
			if len(p.Units) > 0 {
				unit = rapid.SampledFrom(ids(p)).Draw(t, "unit")
			}
			if len(p.Slots) > 0 {
				slot = rapid.SampledFrom(p.Slots).Draw(t, "slot").Name
			}
			lineup = rapid.SampledFrom(names(p)).Draw(t, "line-up")
			switch rapid.IntRange(0, 8).Draw(t, "change") {
			case 0:
				if err = p.RenameUnit(unit, name); err == nil {
					back := p.Clone()
					require.NoError(t, back.RenameUnit(name, unit))
					require.Equal(t, before.Chain, back.Chain)
					require.Equal(t, before.Lineups, back.Lineups)
				}
			case 1:
				err = p.RemoveUnit(unit)
			case 2:
				err = p.RenameSlot(slot, name)
			case 3:
				err = p.RemoveSlot(slot)
			case 4:
				err = p.AddLineup(name, lineup)
			case 5:
				err = p.RemoveLineup(lineup)
			case 6:
				err = p.SetFill(lineup, slot, []string{unit})
			case 7:
				err = p.RenameLineup(lineup, name)
			default:
				err = p.AddUnit(Unit{ID: name})
			}
			if err != nil {
				require.Equal(t, before, p.Clone(), "all or nothing")
			}
			nothingLoose(t, p)
		}
	})
}

func nothingLoose(t *rapid.T, p *Plan) {
	for _, s := range p.Chain.Stops {
		require.True(t, s.Slot != "" && p.Slot(s.Slot) != nil || s.Slot == "" && (OffBoard(s.Unit) || p.Unit(s.Unit) != nil), "%v", s)
		require.False(t, p.InSlots(s.Unit), "through its slot only")
	}
	for _, k := range p.Chain.Links {
		require.True(t, p.Unit(k.From.Unit) != nil && (OffBoard(k.To.Unit) || p.Unit(k.To.Unit) != nil))
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		for slot, list := range l.Fill {
			require.NotNil(t, p.Slot(slot))
			for _, id := range list {
				require.Equal(t, Swap, p.Unit(id).Mount)
			}
		}
		for id := range l.Place {
			require.NotNil(t, p.SlotOf(l, id))
		}
	}
	for _, u := range p.Units {
		require.True(t, u.Draw == nil || u.Draw.Feed.Unit == "" || p.Unit(u.Draw.Feed.Unit) != nil)
	}
}

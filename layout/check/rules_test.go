package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func lineup(p *layout.Plan) []Finding { return Lineup(p, &p.Lineups[0]) }

func only(t *testing.T, fs []Finding, code string) Finding {
	t.Helper()
	got := find(fs, code)
	require.Len(t, got, 1, "%v", fs)
	return got[0]
}

func TestPlacesThatThePlanForbids(t *testing.T) {
	p := tiny()
	shelf(p)
	p.Units[0].On = []string{"shelf"}
	p.Units[1].Place.Turn = 1
	p.Units = append(p.Units, box("c", 0, 0), box("d", 0, 0))
	p.Units[2].Place = nil
	p.Units[3].Place.On = "attic"
	fs := lineup(p)
	assert.Equal(t, []string{NoPlace, NoPlace, WrongSurface, WrongTurn}, codes(fs))
	assert.Equal(t, []string{"c"}, fs[0].Units)
	assert.Equal(t, []string{"d"}, fs[1].Units)
	assert.Contains(t, fs[1].Text, `"attic"`)
	assert.Equal(t, "Unit a stands on the deck; the plan allows it on shelf only. Move it, or allow this surface in the plan.", fs[2].Text)
	assert.Equal(t, 90.0, fs[3].Measured)
	for _, f := range fs {
		assert.Equal(t, Fault, f.Level)
	}

	p.Units[1].Turns = []layout.Turn{0, 1}
	assert.Empty(t, find(lineup(p), WrongTurn))
}

func TestSlotOnAnotherSurface(t *testing.T) {
	p := tiny()
	shelf(p)
	p.Slots = []layout.Slot{
		{Name: "colour", On: "shelf", At: layout.Rect{X1: 400 * mm, Y1: 300 * mm}},
		{Name: "space", At: layout.Rect{X1: 400 * mm, Y1: 300 * mm}},
	}
	p.Lineups[0].Fill = map[string][]string{"colour": {"a"}}
	fs := lineup(p)
	require.Equal(t, []string{WrongSurface, SlotEmpty}, codes(fs))
	assert.Equal(t, []string{"a"}, fs[0].Units)
	assert.Equal(t, Note, fs[1].Level)
	assert.Contains(t, fs[1].Text, `"space"`)

	p.Lineups[0].Fill = map[string][]string{"space": {"a"}, "colour": {"b"}}
	*p.Units[1].Place = layout.Placement{On: "shelf", At: layout.Point{X: 200 * mm, Y: 180 * mm}}
	p.Board.Risers[0].Overhang.Front = 20 * mm
	assert.Empty(t, lineup(p), "a slot without a surface is on the deck")
}

// What is on a riser and what is below it keep out of each other's way.
func TestUnitsOnAndUnderARiser(t *testing.T) {
	p := tiny()
	r := shelf(p)
	r.At.Y0 = 150 * mm
	r.Legs = r.EndPanels()
	p.Units[0].Body.H = 40 * mm
	move(&p.Units[0], 20*mm, 160*mm)
	*p.Units[1].Place = layout.Placement{On: "shelf", At: layout.Point{X: 20 * mm, Y: 160 * mm}}
	assert.Empty(t, lineup(p))
}

func TestCollisionSaysWhereTo(t *testing.T) {
	p := tiny()
	plug(&p.Units[0], "out", layout.Right, 60*mm, 20*mm)
	move(&p.Units[1], 120*mm, 20*mm)
	f := only(t, lineup(p), Collision)
	assert.Equal(t, `The plug in "out" of Unit a and Unit b want the same room. Move Unit b 10 mm to the right, or the other away.`, f.Text)
	assert.Equal(t, 10.0, f.Measured)

	p.Units[1].Pinned = true
	assert.Contains(t, only(t, lineup(p), Collision).Text, "Move Unit a 10 mm to the left", "what is pinned stays")
	p.Units[0].Pinned = true
	assert.Contains(t, only(t, lineup(p), Collision).Text, "Move Unit b 10 mm to the right")

	p.LengthUnit = layout.Inches
	f = only(t, lineup(p), Collision)
	assert.Equal(t, `The plug in "out" of Unit a and Unit b want the same room. Move Unit b 13/32 in to the right, or the other away.`, f.Text,
		"10 mm is 25.2 sixty-fourths of an inch, and a move is rounded up")
	assert.Equal(t, 10.0, f.Measured, "figures stay in mm")
}

// A leg that points down where its plug hangs past the riser reaches what
// stands in front of the riser.
func TestLegThatHangsPastTheRiser(t *testing.T) {
	p := tiny()
	r := shelf(p)
	r.Overhang.Front = 20 * mm
	*p.Units[0].Place = layout.Placement{On: "shelf", At: layout.Point{X: 20 * mm, Y: 180 * mm}}
	j := plug(&p.Units[0], "x", layout.Front, 35*mm, 20*mm)
	j.Plug.Leg, j.Leg = 26*mm, layout.LegDown // down to 49 mm above the deck
	move(&p.Units[1], 20*mm, 60*mm)           // 50 mm tall, behind edge at 180 mm
	p.Units[1].Body.H = 49 * mm
	assert.Empty(t, lineup(p))
	p.Units[1].Body.H = 49*mm + 1
	assert.Equal(t, []string{Collision}, codes(lineup(p)))
}

func TestBetweenRails(t *testing.T) {
	for _, tt := range []struct {
		name     string
		depth, y layout.Length
		says     string // "" for no finding
	}{
		{"on one rail", 60 * mm, 0, ""},
		{"half of it on one rail", 60 * mm, 30 * mm, ""},
		{"over both", 120 * mm, 20 * mm, ""},
		{"in the gap", 40 * mm, 60 * mm, "lies on no rail at all"},
		{"on one rail with less than half", 60 * mm, 35 * mm, "on one rail only"},
		{"hardly on the second", 70 * mm, 35 * mm, "only 5 mm on its second rail"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := tiny()
			rails(p)
			p.Units = p.Units[:1]
			p.Units[0].Body.D = tt.depth
			move(&p.Units[0], 20*mm, tt.y)
			if tt.says == "" {
				assert.Empty(t, lineup(p))
				return
			}
			assert.Contains(t, only(t, lineup(p), BetweenRails).Text, tt.says)
		})
	}
}

// Plugs of cables that leave the board, and of the mains, are pulled out for
// travel; those of cables that stay are not.
func TestCaseWithoutStageCables(t *testing.T) {
	p := tiny()
	p.Board.Case = &layout.Case{Inside: layout.Size{W: 400 * mm, D: 300 * mm, H: 200 * mm}, Below: 25 * mm}
	p.Board.PlugRoom = layout.Edges{Left: 60 * mm, Right: 60 * mm}
	a, b := &p.Units[0], &p.Units[1]
	move(a, 0, 20*mm)
	move(b, 330*mm, 20*mm)
	plug(b, "in", layout.Right, 60*mm, 20*mm)
	plug(b, "out", layout.Back, 20*mm, 20*mm)
	plug(a, "in", layout.Back, 20*mm, 20*mm)
	plug(a, "out", layout.Left, 60*mm, 20*mm)
	plug(a, "mains", layout.Left, 100*mm, 20*mm).Signal = layout.Line
	a.Uses, b.Uses = nil, nil
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "b"}, {Unit: "a"}, {Unit: layout.Desk}}
	assert.Empty(t, lineup(p))

	plug(b, "aux", layout.Back, 50*mm, 20*mm)
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "a", Jack: "out"}, To: layout.JackRef{Unit: "b", Jack: "aux"}}}
	f := only(t, lineup(p), CaseWall)
	assert.Equal(t, []string{"a"}, f.Units)
	assert.Equal(t, 440.0, f.Measured)
	assert.Contains(t, f.Text, `the plug in "out" of Unit a`)
}

func TestCovered(t *testing.T) {
	p := tiny()
	r := shelf(p)
	p.Units = p.Units[:1]
	u := &p.Units[0]
	u.Body.H, u.Often = 40*mm, 2
	foot(u, 35*mm, 100*mm, 42*mm)
	// The switch is 6 mm in radius (common practice): its back edge at
	// y + 106 mm touches the shelf's front at 200 mm.
	move(u, 20*mm, 94*mm)
	assert.Empty(t, lineup(p))
	move(u, 20*mm, 94*mm+1)
	f := only(t, lineup(p), Covered)
	assert.Equal(t, Fault, f.Level)
	assert.Equal(t, 4.0, f.Measured, "46 mm clear less 42 mm of switch")
	assert.Empty(t, find(lineup(p), StepOver), "said once")

	p.Units = append(p.Units, box("z", 300*mm, 0))
	p.Units[1].Often, u.Often = 1, 0
	assert.Equal(t, Caution, only(t, lineup(p), Covered).Level, "nobody works it while playing")
	p.Units[1].Often = 0
	assert.Equal(t, Fault, only(t, lineup(p), Covered).Level, "the plan does not say what is worked")

	u.Switches, u.Treadle = nil, true
	f = only(t, lineup(p), Covered)
	assert.Equal(t, 6.0, f.Measured)
	r.At.Y0 = 220 * mm
	assert.Empty(t, find(lineup(p), Covered))
}

// A switch whose height nobody measured is at the top of the body.
func TestSwitchWithoutAHeight(t *testing.T) {
	p := tiny()
	foot(&p.Units[0], 35*mm, 20*mm, 0)
	move(&p.Units[0], 20*mm, 150*mm)
	p.Units[1].Body.H = 90 * mm
	move(&p.Units[1], 20*mm, 20*mm)
	assert.Empty(t, lineup(p))
	p.Units[1].Body.H++
	assert.Equal(t, []string{StepOver}, codes(lineup(p)))
}

// Sizes of feet: ANSUR II, breadth P95 of men (n = 4082) 111 mm, length P95 293 mm;
// a street shoe adds 10 mm and a heavy boot 30 mm to the breadth (British
// anthropometry). Half a shoe, 6 mm of switch and 5 mm of margin come to 72 mm in a
// street shoe and 82 mm in a boot. Women's feet (n = 1986, breadth P95 101 mm) want
// less, so what is kept for men's does for all.
func TestReachFromFeet(t *testing.T) {
	of := func(foot, shoe float64) float64 {
		return math.Ceil((foot+shoe)/2 + layout.SwitchRadius.MM() + 5)
	}
	reach := func(shoe float64) float64 { return of(layout.FootBreadth.MM(), shoe) }
	assert.Equal(t, 111.0, layout.FootBreadth.MM())
	assert.Equal(t, 293.0, layout.FootLength.MM())
	assert.Equal(t, 72.0, reach(10))
	assert.Equal(t, 82.0, reach(30))
	assert.Equal(t, 67.0, of(101, 10))
	assert.Equal(t, 121.0, layout.ShoeBreadth.MM())
}

func TestInputSide(t *testing.T) {
	p := tiny()
	for i := range p.Units {
		plug(&p.Units[i], "in", layout.Back, 15*mm, 20*mm)
		plug(&p.Units[i], "out", layout.Back, 50*mm, 20*mm)
	}
	stops := func(a, b string) []layout.Stop {
		return []layout.Stop{{Unit: layout.Instrument}, {Unit: a}, {Unit: b}, {Unit: layout.Amp}}
	}
	p.Chain.Stops = stops("b", "a")
	assert.Empty(t, lineup(p), "in at the right, out at the left")
	p.Chain.Stops = stops("a", "b")
	f := only(t, lineup(p), RunsBack)
	assert.Equal(t, Note, f.Level)
	assert.Equal(t, []string{"a", "b"}, f.Units)
	assert.Equal(t, 215.0, f.Measured, "out at 200 + 50, in at 20 + 15")
	p.Chain.LeftToRight = true
	assert.Empty(t, lineup(p))
}

// What no cable goes to takes room and does nothing; a control unit whose cable
// the plan names with uses, and a plan without a chain yet, are left alone.
func TestUnitsWithoutACable(t *testing.T) {
	p := tiny()
	p.Units = append(p.Units, box("c", 300*mm, 20*mm))
	for i := range p.Units {
		plug(&p.Units[i], "in", layout.Back, 50*mm, 20*mm).Signal = layout.Audio
		plug(&p.Units[i], "out", layout.Back, 15*mm, 20*mm).Signal = layout.Audio
		p.Units[i].Uses = nil
	}
	assert.Empty(t, lineup(p), "no chain yet")
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "b"}, {Unit: layout.Amp}}
	f := only(t, lineup(p), NoCable)
	assert.Equal(t, Note, f.Level)
	assert.Equal(t, []string{"a", "c"}, f.Units)
	assert.Equal(t, "Unit a and Unit c are on the board and no cable goes to them. Put them into the chain, or leave them at home.", f.Text)
	p.Unit("c").Uses = []string{"out"}
	assert.Equal(t, "Unit a is on the board and no cable goes to it. Put it into the chain, or leave it at home.", only(t, lineup(p), NoCable).Text)
	p.Chain.Links = []layout.Link{{From: layout.JackRef{Unit: "a", Jack: "out"}, To: layout.JackRef{Unit: layout.Amp}}}
	assert.Empty(t, lineup(p))
	p.Unit("a").Jacks = nil
	p.Chain.Links = nil
	assert.Empty(t, lineup(p), "a unit without jacks for the signal")
}

// A slot that the chain does not pass has nothing to do with the signal.
func TestEmptySlotBesideTheChain(t *testing.T) {
	p := tiny()
	p.Slots = []layout.Slot{{Name: "power", On: layout.DeckName, At: layout.Rect{X1: 100 * mm, Y1: 100 * mm}}}
	assert.Equal(t, `Slot "power" is empty in this line-up.`, only(t, lineup(p), SlotEmpty).Text)
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Slot: "power"}, {Unit: layout.Amp}}
	assert.Equal(t, `Slot "power" is empty in this line-up: the signal goes straight past it.`, only(t, lineup(p), SlotEmpty).Text)
}

// powered puts a jack to draw by on unit 0 and an output on unit 1.
func powered(p *layout.Plan, d layout.Draw, o layout.Output) {
	p.Units[0].Draw = &d
	p.Units[0].Jacks = append(p.Units[0].Jacks, layout.Jack{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: 10 * mm, Height: 20 * mm})
	o.Jack = "o"
	p.Units[1].Outputs = []layout.Output{o}
	p.Units[1].Jacks = append(p.Units[1].Jacks, layout.Jack{ID: "o", Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Wall: layout.Back, Along: 10 * mm, Height: 20 * mm})
}

// A load of at most 80 % of the rating: NEC 210.20, for pedal supplies by analogy.
func TestLoadOfAnOutput(t *testing.T) {
	p := tiny()
	p.Power.Headroom = 20
	powered(p, layout.Draw{Millivolts: 9000, Milliamps: 400}, layout.Output{Millivolts: 9000, Milliamps: 500})
	assert.Empty(t, lineup(p))
	p.Units[0].Draw.Milliamps++
	f := only(t, lineup(p), LittleHeadroom)
	assert.Equal(t, Caution, f.Level)
	assert.Equal(t, 401.0, f.Measured)
	assert.Equal(t, 400.0, f.Limit)
	assert.Equal(t, "mA", f.Unit)
	p.Units[0].Draw.Milliamps = 501
	f = only(t, lineup(p), NoOutput)
	assert.Equal(t, Fault, f.Level)
	assert.Contains(t, f.Text, "with 20 % kept spare no output gives more than 400 mA")
	p.Units[0].Draw.Battery = true
	assert.Empty(t, lineup(p), "a battery needs no output")
}

// A plan still being made is often without a supply: a caution, and the line-up
// fits all the same.
func TestPlanWithoutSupply(t *testing.T) {
	p := tiny()
	powered(p, layout.Draw{Millivolts: 9000, Milliamps: 1}, layout.Output{})
	p.Units[1].Outputs = nil
	f := only(t, lineup(p), NoSupply)
	assert.Equal(t, Caution, f.Level)
	assert.Equal(t, []string{"a"}, f.Units)
	assert.Equal(t, 1.0, f.Measured)
	assert.Equal(t, "mA", f.Unit)
	assert.Equal(t, Fits, All(p)[0].Verdict)
	p.Units[0].Draw.Milliamps = 0
	assert.Empty(t, lineup(p))
}

// What is wrong in one line-up is not said in another.
func TestPowerByLineup(t *testing.T) {
	p := tiny()
	powered(p, layout.Draw{Millivolts: 12000, Milliamps: 40}, layout.Output{Millivolts: 9000, Milliamps: 500})
	p.Slots = append(p.Slots, layout.Slot{Name: "s", On: layout.DeckName, At: p.Board.Rect()})
	p.Lineups = append(p.Lineups, layout.Lineup{Name: "other", Fill: map[string][]string{"s": {p.Units[0].ID}}})
	all := All(p)
	assert.Empty(t, find(all[0].Findings, NoOutput))
	assert.Len(t, find(all[1].Findings, NoOutput), 1)
	assert.Equal(t, all[1].Findings, Lineup(p, &p.Lineups[1]))
	p.Units[0].Draw.AC = true
	p.Units[0].Draw.Feed = layout.JackRef{Unit: p.Units[1].ID, Jack: "o"}
	assert.Contains(t, only(t, Lineup(p, &p.Lineups[1]), DcIntoAc).Text, "DO NOT PLUG IN")
	p.Power.Tour = []string{"GB"}
	p.Units[1].Mains = &layout.MainsInput{Volts: 100, MaxVolts: 127, Hertz: 50, MaxHertz: 60}
	p.Units[1].Jacks = append(p.Units[1].Jacks, layout.Jack{ID: "m", Kind: layout.Mains, Signal: layout.Line, Dir: layout.In, Wall: layout.Back, Along: 30 * mm, Height: 20 * mm})
	for _, r := range All(p) {
		assert.Len(t, find(r.Findings, TourMains), 1)
	}
}

func TestVerdict(t *testing.T) {
	caution, fault, place := Finding{Code: Tips, Level: Caution}, Finding{Code: Collision, Level: Fault}, Finding{Code: NoPlace, Level: Fault}
	assert.Equal(t, Fits, Verdict(nil, false))
	assert.Equal(t, Fits, Verdict([]Finding{caution}, false))
	assert.Equal(t, Unplaced, Verdict(nil, true))
	assert.Equal(t, Unplaced, Verdict([]Finding{place, caution}, false))
	assert.Equal(t, Faults, Verdict([]Finding{place, fault}, false))
}

// Faults come first, whatever their code; then by code, then by units.
func TestOrder(t *testing.T) {
	fs := []Finding{
		{Code: "a", Level: Note}, {Code: "z", Level: Fault, Units: []string{"u"}}, {Code: "b", Level: Caution},
		{Code: "a", Level: Caution}, {Code: "z", Level: Fault, Units: []string{"t"}}, {Code: "y", Level: Fault},
	}
	sortFindings(fs)
	var got []string
	for _, f := range fs {
		s := string(f.Level) + " " + f.Code
		for _, u := range f.Units {
			s += " " + u
		}
		got = append(got, s)
	}
	assert.Equal(t, []string{"fault y", "fault z t", "fault z u", "caution a", "caution b", "note a"}, got)
}

// Each line-up is checked by itself: only the one that has both units finds them
// in each other's way.
func TestAllLineups(t *testing.T) {
	p := tiny()
	p.Slots = []layout.Slot{{Name: "s", At: layout.Rect{X1: 400 * mm, Y1: 300 * mm}}}
	p.Lineups = []layout.Lineup{
		{Name: "one", Fill: map[string][]string{"s": {"a"}}},
		{Name: "both", Fill: map[string][]string{"s": {"a", "b"}}, Place: map[string]layout.Placement{"b": {On: layout.DeckName, At: layout.Point{X: 80 * mm, Y: 20 * mm}}}},
		{Name: "none"},
	}
	got := All(p)
	require.Len(t, got, 3)
	assert.Equal(t, "one", got[0].Lineup)
	assert.Equal(t, Fits, got[0].Verdict)
	assert.Equal(t, Faults, got[1].Verdict)
	assert.Equal(t, []string{Collision}, codes(got[1].Findings))
	assert.Equal(t, Fits, got[2].Verdict)
	assert.Equal(t, []string{SlotEmpty}, codes(got[2].Findings))
}
